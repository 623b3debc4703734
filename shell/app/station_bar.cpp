#include "shell/app/station_bar.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "shell/counter/rack_panel.h"
#include "shell/kit/keypad.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"

namespace coatwright::studio {
namespace {

void ticks(Frame& f, const Box& tape, int parts) {
  for (int i = 0; i <= parts; ++i) {
    const float x = tape.x + tape.w * static_cast<float>(i) / static_cast<float>(parts);
    const bool section = i % parts == 0, half = i % (parts / 2) == 0;
    const bool inch = i % 8 == 0, quarter = i % 4 == 0;
    const float height = section ? 24.0F : half ? 16.0F : inch ? 13.0F : quarter ? 9.0F : 5.5F;
    f.paint.line({x, tape.bottom()}, {x, tape.bottom() - height}, f.colours.tape_ink,
                 section ? 1.6F : 1.0F);
  }
}

// A backup is wanted: an arrow down into a tray. It is about the rack, not about the coat.
void backup_sign(Frame& f, Spot at) {
  f.paint.disc(at, 13.0F, f.colours.table);
  const Colour ink = f.colours.tape;
  f.paint.line({at.x, at.y - 7.0F}, {at.x, at.y + 1.0F}, ink, 2.5F);
  const Spot head[] = {{at.x - 4.5F, at.y - 1.5F}, {at.x + 4.5F, at.y - 1.5F}, {at.x, at.y + 3.5F}};
  f.paint.convex(head, ink);
  const Spot tray[] = {{at.x - 7.0F, at.y + 2.5F},
                       {at.x - 7.0F, at.y + 7.0F},
                       {at.x + 7.0F, at.y + 7.0F},
                       {at.x + 7.0F, at.y + 2.5F}};
  f.paint.polyline(tray, ink, 2.0F);
}

// Who goes elsewhere leaves what differs in a backup as it is.
void leave_restore(Frame& f) {
  if (f.view.restore.shows) f.rack_commands.push_back({.deed = RackDeed::LeaveBack});
}

void metal_end(Frame& f, const Box& box) {
  f.paint.fill(box, f.colours.metal);
  f.paint.line({box.x, box.y + 0.5F}, {box.right(), box.y + 0.5F},
               mixed(f.colours.metal, f.colours.paper, 0.5F), 1.0F);
  f.paint.line({box.right() - 1.0F, box.y}, {box.right() - 1.0F, box.bottom()},
               f.colours.metal_hole, 2.0F);
  const float mid = box.centre().y;
  const std::string reminder = backup_reminder(f);
  const bool small = box.w < 130.0F;  // room for the names alone
  if (reminder.empty() && !small) {
    f.paint.disc({box.x + 26.0F, mid}, 9.0F, f.colours.metal_hole);
    f.paint.disc({box.x + 26.0F, mid}, 4.0F, f.colours.table);
  }
  const std::string dog = f.ticket.dog.empty() ? f.words("ui.no-dog") : f.ticket.dog;
  const std::string coat =
      f.ticket.name.empty() ? f.words("style." + f.ticket.style) : f.ticket.name;
  const float before = small ? 6.0F : 48.0F;
  const float x = box.x + before, room = box.w - before - 6.0F;
  f.paint.clipped_text({x, mid - 10.0F}, room, dog, kStrong, f.colours.metal_ink);
  f.paint.clipped_text({x, mid + 11.0F}, room, coat, kBody, f.colours.metal_ink);
  if (!reminder.empty()) {
    backup_sign(f,
                small ? Spot{box.right() - 15.0F, box.bottom() - 14.0F} : Spot{box.x + 26.0F, mid});
  }
  f.ui.add({.id = "ticket",
            .role = ControlRole::Button,
            .name = f.words("ui.ticket", {dog, coat}),
            .box = box,
            .note = f.words(f.view.rack ? "ui.rack-closes" : "ui.rack-opens") +
                    (reminder.empty() ? "" : " " + reminder),
            .jump = 0});
  if (f.ui.acted("ticket")) {
    f.view.rack = f.view.restore.shows || !f.view.rack;
    if (f.view.rack) f.view.focus_on = kSheetPart;
    leave_restore(f);
    f.view.notice.clear();  // it was about the ticket, and would lie over the cards
    f.view.moved.reset();
  }
}

Type name_type(const Frame& f) { return f.layout.narrow ? kStrong : kLarge; }

// Sections of one width, or where the longest name has no room in that, what is left of the tape in
// equal parts beside the names; a section is never narrower than a fingertip.
std::array<float, kStations> section_widths(const Frame& f, float width) {
  std::array<float, kStations> out{};
  const float even = width / static_cast<float>(kStations);
  float names = 0.0F, longest = 0.0F;
  for (int i = 0; i < kStations; ++i) {
    const std::string id = std::string("station.") + station_id(static_cast<Station>(i));
    const float name = std::max(text_width(f.words(id), name_type(f)), kTarget);
    out[static_cast<size_t>(i)] = name;
    names += name;
    longest = std::max(longest, name);
  }
  const float room = (width - names) / static_cast<float>(kStations);
  for (float& w : out) w = longest + 6.0F <= even ? even : w + room;
  return out;
}

void station(Frame& f, const Box& box, Station s, int number) {
  const bool lit = f.view.station == s && !f.view.rack && f.view.slip.shows == SlipShows::Nothing;
  const std::string id = std::string("station.") + station_id(s);
  const std::string name = f.words(id);
  f.ui.add({.id = id,
            .role = ControlRole::Tab,
            .name = name,
            .box = box,
            .group = f.words("ui.stations"),
            .jump = number,
            .chosen = lit});
  if (lit) {
    f.paint.fill(box, f.colours.tape_lit);
    const float x = box.centre().x, y = box.bottom();
    const Spot notch[] = {{x - 11.0F, y + 0.5F}, {x, y - 11.5F}, {x + 11.0F, y + 0.5F}};
    f.paint.convex(notch, f.colours.table);
  } else if (f.ui.pressed == id) {
    f.paint.fill(box, mixed(f.colours.tape, f.colours.tape_lit, 0.4F));
  }
  const float mid = box.y + 0.45F * box.h;
  f.paint.text({box.centre().x, mid}, name, name_type(f), f.colours.tape_ink, Align::Middle);
  if (!f.layout.narrow) {
    f.paint.text({box.x + 9.0F, box.y + 15.0F}, std::to_string(number), kStrong,
                 f.colours.tape_ink);
  }
  if (f.ui.acted(id)) {
    if (f.view.station != s) {  // what was told was about the work there
      f.view.notice.clear();
      f.view.moved.reset();
    }
    f.view.station = s;
    f.view.rack = false;
    leave_restore(f);
    f.view.slip = {};
  }
}

constexpr float kMetalRow = 48.0F;  // where it stands over the tape

// As much of a small phone's tape as its stations leave.
float metal_width(const Frame& f, float width) {
  if (!f.layout.narrow) return std::round(std::min(208.0F, 0.26F * width));
  float names = 0.0F;
  for (int i = 0; i < kStations; ++i) {
    const std::string id = std::string("station.") + station_id(static_cast<Station>(i));
    names += std::max(text_width(f.words(id), name_type(f)), kTarget);
  }
  return std::floor(std::min(0.28F * width, width - names));
}

}  // namespace

void station_bar(Frame& f) {
  const Box bar = f.layout.tape;
  const float metal = f.layout.stacked ? kMetalRow : metal_width(f, bar.w);
  const Box tape = f.layout.stacked ? bar.below(metal) : bar.after(metal);
  f.paint.fill(tape, f.colours.tape);
  metal_end(f, f.layout.stacked ? bar.top(metal) : bar.left(metal));
  const std::array<float, kStations> widths = section_widths(f, tape.w);
  const float even = tape.w / static_cast<float>(kStations);
  const int parts = even > 200.0F ? 32 : even > 70.0F ? 16 : 8;
  float x = tape.x;
  for (int i = 0; i < kStations; ++i) {
    const Box section{x, tape.y, widths[static_cast<size_t>(i)], tape.h};
    station(f, section, static_cast<Station>(i), i + 1);
    ticks(f, section, parts);
    x += section.w;
  }
}

namespace {

constexpr std::string_view kTools = "part.tools";

struct RowKey {
  std::string id;
  std::string words;
  std::string name;
  bool enabled = true;
};

std::vector<RowKey> row_keys(const Frame& f, bool short_words) {
  const bool inch = f.ticket.unit == Unit::Inch;
  const std::string light = f.words(f.view.evening ? "ui.day" : "ui.evening");
  return {{"undo", f.words("ui.undo"), f.words("ui.undo"), f.history.can_undo()},
          {"redo", f.words("ui.redo"), f.words("ui.redo"), f.history.can_redo()},
          {"fit", f.words(short_words ? "ui.fit-short" : "ui.fit"), f.words("ui.fit"), true},
          {"unit", f.words("ui.in") + " " + f.words("ui.cm"),
           f.words(inch ? "ui.to-cm" : "ui.to-inch"), true},
          {"evening", light, light, true}};
}

float key_width(const RowKey& key) {
  return std::max(72.0F, text_width(key.words, kStrong) + 46.0F);
}

}  // namespace

void table_row(Frame& f) {
  const Box row = f.layout.row;
  std::vector<RowKey> keys = row_keys(f, f.layout.narrow);
  float wanted = kGap * static_cast<float>(keys.size() - 1);
  for (const RowKey& key : keys) wanted += key_width(key);
  // On a phone the pill stands on the sheet.
  constexpr float kPill = 200.0F;
  const Box room = f.layout.narrow ? row : row.left(row.w - kPill - kGap);
  const bool tight = wanted > room.w;  // then equal keys fill it
  if (tight) keys = row_keys(f, true);
  const float gap = tight ? 6.0F : kGap;
  const auto n = static_cast<int>(keys.size());
  const auto width = [&](const RowKey& key) {
    return tight ? room.column(0, n, gap).w : key_width(key);
  };
  if (!f.layout.narrow) {
    float x = row.x;
    for (const RowKey& key : keys) x += width(key) + gap;
    status_pill(f, {x, row.y, row.right() - x, row.h});
  }
  f.ui.begin_part({.id = kTools, .role = "toolbar", .name = f.words("ui.part-tools")});
  float x = row.x;
  for (const RowKey& key : keys) {
    const Box box{x, row.y, width(key), row.h};
    if (key.id == "unit") {
      (void)unit_switch(f, key.id, box, f.words("ui.in"), f.words("ui.cm"), true);
    } else {
      button(f, key.id, box, key.words,
             {.look = Look::Table, .enabled = key.enabled, .name = key.name, .in_set = true});
    }
    x += width(key) + gap;
  }
  f.ui.end_part();
}

}  // namespace coatwright::studio
