#include "shell/counter/rack_panel.h"

#include <algorithm>
#include <cmath>

#include "core/fit/photograph.h"
#include "shell/desk/outputs.h"
#include "shell/desk/start.h"
#include "shell/kit/board.h"
#include "shell/kit/keeping_notes.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"
#include "shell/words/ticket_words.h"

namespace coatwright::studio {
namespace {

constexpr float kCardGap = 18.0F;
constexpr float kLeastCard = 236.0F;
constexpr float kPicture = 132.0F;  // height of the picture on a card
constexpr float kHang = 26.0F;      // from the rail to the card

std::string dog_of(const Frame& f, const Ticket& ticket) {
  return ticket.dog.empty() ? f.words("ui.no-dog") : ticket.dog;
}
std::string coat_of(const Frame& f, const Ticket& ticket) {
  return ticket.name.empty() ? f.words("style." + ticket.style) : ticket.name;
}

// ---- the cards -------------------------------------------------------------------------------

// A rail of metal, with the hooks of the cards that hang on it.
void rail(Frame& f, const Box& row, const std::vector<Box>& cards) {
  const Box bar{row.x, row.y, row.w, 8.0F};
  f.paint.fill(bar, f.colours.metal, 4.0F);
  f.paint.fill({bar.x + 3.0F, bar.y + 1.5F, bar.w - 6.0F, 2.0F},
               mixed(f.colours.metal, f.colours.paper, 0.5F), 1.0F);
  for (const Box& card : cards) {
    const float x = card.centre().x;
    f.paint.line({x, bar.centre().y}, {x, card.y + 13.0F}, f.colours.tape, 2.0F);
    f.paint.disc({x, bar.centre().y}, 5.0F, f.colours.metal_hole);
  }
}

// The ticket's paper, with the hole that it hangs by and a turned corner.
void ticket_paper(Frame& f, const Box& box, bool open, bool pressed) {
  constexpr float kTurn = 20.0F;
  const Spot outline[] = {{box.x, box.y},
                          {box.right() - kTurn, box.y},
                          {box.right(), box.y + kTurn},
                          {box.right(), box.bottom()},
                          {box.x, box.bottom()}};
  f.paint.convex(outline, pressed ? f.colours.card : f.colours.paper);
  const Spot fold[] = {{box.right() - kTurn, box.y},
                       {box.right(), box.y + kTurn},
                       {box.right() - kTurn, box.y + kTurn}};
  f.paint.convex(fold, f.colours.paper_corner);
  if (open) f.paint.fill({box.x, box.y, 6.0F, box.h}, f.colours.tape);
  f.paint.disc({box.centre().x, box.y + 13.0F}, 6.0F, f.colours.table);
}

void picture(Frame& f, const Box& box, const Thumbnail* thumbnail) {
  f.paint.fill(box, f.colours.card, 8.0F);
  if (thumbnail == nullptr) return;
  if (thumbnail->pieces.empty()) {
    f.paint.text(box.centre(), f.words("ui.no-pattern"), kBody, f.colours.soft, Align::Middle);
    return;
  }
  const Rect& drawn = thumbnail->bounds;
  const double across = static_cast<double>(box.w - 20.0F) / std::max(1.0, drawn.width());
  const double down = static_cast<double>(box.h - 16.0F) / std::max(1.0, drawn.height());
  const BoardMap map(box, {.centre = {0.5 * (drawn.x0 + drawn.x1), 0.5 * (drawn.y0 + drawn.y1)},
                           .scale = std::min(across, down),
                           .box = box});
  for (const Wash& piece : thumbnail->pieces) {
    const Line line = map.page(piece.points);
    f.paint.triangles(line, piece.corners,
                      piece.role == Role::LiningCloth ? f.colours.lining : f.colours.cloth);
    f.paint.polyline(line, f.colours.ink, 1.6F, true);
  }
}

// What can be done to a card, besides opening it.
enum class Deed { Copy, Archive, Delete, Back, Erase };
struct Action {
  const char* id;
  const char* words;
};
Action action_of(Deed deed) {
  switch (deed) {
    case Deed::Copy:
      return {"copy", "ui.copy"};
    case Deed::Archive:
      return {"archive", "ui.archive"};
    case Deed::Delete:
      return {"delete", "ui.delete"};
    case Deed::Back:
      return {"back", "ui.put-back"};
    case Deed::Erase:
      return {"erase", "ui.erase"};
  }
  return {"", ""};
}

std::vector<Deed> deeds_at(Place place) {
  if (place == Place::Bin) return {Deed::Back, Deed::Erase};
  if (place == Place::Archive) return {Deed::Copy, Deed::Back, Deed::Delete};
  return {Deed::Copy, Deed::Archive, Deed::Delete};
}

void carry_out(Frame& f, const std::string& id, Deed deed) {
  switch (deed) {
    case Deed::Copy:
      f.rack_commands.push_back({.deed = RackDeed::Copy, .id = id});
      break;
    case Deed::Archive:
      f.rack_commands.push_back({.deed = RackDeed::Move, .id = id, .place = Place::Archive});
      break;
    case Deed::Delete:
      f.rack_commands.push_back({.deed = RackDeed::Move, .id = id, .place = Place::Bin});
      break;
    case Deed::Back:
      f.rack_commands.push_back({.deed = RackDeed::Move, .id = id, .place = Place::Rack});
      break;
    case Deed::Erase:  // asked twice
      if (f.view.erasing == id) f.rack_commands.push_back({.deed = RackDeed::Erase, .id = id});
      f.view.erasing = f.view.erasing == id ? "" : id;
      break;
  }
}

void action_row(Frame& f, const Box& row, const Card& card) {
  const std::vector<Deed> deeds = deeds_at(card.place);
  for (size_t i = 0; i < deeds.size(); ++i) {
    const Action action = action_of(deeds[i]);
    const bool asked = deeds[i] == Deed::Erase && f.view.erasing == card.id;
    const std::string words = f.words(asked ? "ui.erase-really" : action.words);
    const Box box = row.column(static_cast<int>(i), static_cast<int>(deeds.size()), 6.0F);
    const ButtonStyle style{.look = asked ? Look::Solid : Look::Key,
                            .enabled = !f.keeping.follows,
                            .name = words + ": " + title_of(card.ticket, f.words)};
    if (button(f, "card." + card.id + "." + action.id, box, words, style)) {
      carry_out(f, card.id, deeds[i]);
    }
  }
}

// Of a slip that is still out; empty if there is none.
std::string slip_words(const Frame& f, const Card& card) {
  if (card.slips.empty() || card.slips.back().answered != 0) return {};
  return f.words("ui.slip-out", {date_words(card.slips.back().made, f.words)});
}

std::string since_words(const Frame& f, const Card& card) {
  return f.rack.is_example(card.ticket)
             ? f.words("ui.example")
             : f.words("ui.changed", {date_words(card.changed, f.words)});
}

// What stands on a card, from its words' top left corner; where a card is narrow, what is told of it
// has two lines.
void card_words(Frame& f, const Box& box, const Card& card, const Standing& standing) {
  f.paint.clipped_text({box.x, box.y + 12.0F}, box.w, dog_of(f, card.ticket), kLarge,
                       f.colours.ink);
  f.paint.clipped_text({box.x, box.y + 35.0F}, box.w, coat_of(f, card.ticket), kBody,
                       f.colours.ink);
  const std::string slip = slip_words(f, card), last = slip.empty() ? since_words(f, card) : slip;
  standing_mark(f, {box.x + 9.0F, box.y + 60.0F}, standing.tone);
  const Spot told{box.x + 25.0F, box.y + 60.0F};
  if (!f.layout.narrow) {
    f.paint.clipped_text(told, box.w - 25.0F, standing.words, kStrong, tone_ink(f, standing.tone));
    f.paint.clipped_text({box.x, box.y + 84.0F}, box.w, last, kBody, f.colours.soft);
    return;
  }
  const float half = 0.5F * line_step(kStrong);
  const float height = f.paint.paragraph({told.x, told.y - half}, box.w - 25.0F, standing.words,
                                         kStrong, tone_ink(f, standing.tone));
  f.paint.paragraph({box.x, told.y - half + height + 3.0F}, box.w, last, kBody, f.colours.soft);
}
constexpr float kWords = 98.0F, kWordsOnPhone = 136.0F;  // heights of card_words

float card_height(bool narrow) {
  const float body = narrow ? kWordsOnPhone : kPicture + 10.0F + kWords;
  return 28.0F + body + 10.0F + kTarget + 12.0F;
}

void paint_card(Frame& f, const Box& box, const Card& c, const Thumbnail* thumbnail,
                const Standing& standing) {
  ticket_paper(f, box, c.id == f.rack.open_id(), f.ui.pressed == "card." + c.id);
  const Box inner{box.x + 14.0F, box.y + 28.0F, box.w - 28.0F, box.h - 40.0F};
  if (f.layout.narrow) {
    picture(f, {inner.x, inner.y, 124.0F, 104.0F}, thumbnail);
    card_words(f, inner.after(138.0F), c, standing);
  } else {
    picture(f, inner.top(kPicture), thumbnail);
    card_words(f, inner.below(kPicture + 10.0F), c, standing);
  }
}

std::string note_of(const Frame& f, const Card& c, const Thumbnail* thumbnail) {
  std::string note = since_words(f, c);
  if (c.ticket.dog.empty()) note = f.words("ui.no-dog") + ", " + note;
  if (thumbnail != nullptr && thumbnail->pieces.empty()) note += ". " + f.words("ui.no-pattern");
  if (const std::string slip = slip_words(f, c); !slip.empty()) note += ", " + slip;
  if (c.id == f.rack.open_id()) note += " " + f.words("ui.card-open");
  return note;
}

// A card out of sight is there for the keyboard and for screen readers, but no work is done for its
// looks.
void card(Frame& f, const Box& box, const Card& c, bool in_sight) {
  const std::string id = "card." + c.id;
  const Thumbnail* thumbnail = in_sight ? f.thumbnails.of(c) : f.thumbnails.made_before(c);
  const Standing standing = standing_of(f, c.ticket, thumbnail);
  f.ui.add({.id = id,
            .role = ControlRole::Button,
            .name = f.words("ui.open-card", {title_of(c.ticket, f.words)}),
            .value = standing.words,
            .box = {box.x, box.y, box.w, box.h - kTarget - 16.0F},
            .note = note_of(f, c, thumbnail),
            .enabled = c.place != Place::Bin});
  if (in_sight) paint_card(f, box, c, thumbnail, standing);
  action_row(f, {box.x + 14.0F, box.bottom() - 12.0F - kTarget, box.w - 28.0F, kTarget}, c);
  if (f.ui.acted(id) && c.place != Place::Bin) {
    f.rack_commands.push_back({.deed = RackDeed::Open, .id = c.id});
  }
}

RackQuery query_of(const Frame& f) { return {f.view.place, f.view.search, f.rack.notes().order}; }

std::string reading_words(const Frame& f) {
  return f.words("ui.reading-rack", {std::to_string(f.rack.still_unread())});
}

constexpr float kFarAway = 1e7F;  // px, further than any rack is long
// What a whole page scrolls: most of what is seen goes, and a part stays to go on from.
float page_of(const Frame& f, const Box& sight) {
  return std::max(0.5F * sight.h, sight.h - 0.5F * card_height(f.layout.narrow));
}

// Says why nothing hangs here.
float nothing_found(Frame& f, const Box& box) {
  const bool searched = !f.view.search.empty();
  const std::string words = !f.rack.whole() ? reading_words(f)
                            : searched      ? f.words("ui.nothing-found", {f.view.search})
                                       : f.words(std::string("ui.none.") + place_id(f.view.place));
  const float height = f.paint.paragraph({box.x + 8.0F, box.y + 40.0F}, box.w - 16.0F, words,
                                         kLarge, f.colours.table_text);
  f.ui.add({.id = "rack.nothing",
            .role = ControlRole::Words,
            .name = words,
            .box = {box.x, box.y + 30.0F, box.w, height + 20.0F}});
  rail(f, box, {});
  return height + 60.0F;
}

// The cards as they hang, in rows of one height.
struct Hanging {
  const std::vector<size_t>& shown;  // places among the rack's cards
  size_t columns = 1;
  float card = 0.0F, row = 0.0F;  // heights

  [[nodiscard]] size_t rows() const { return (shown.size() + columns - 1) / columns; }
};

Hanging hanging(const Frame& f, float width) {
  const float fit = std::floor((width + kCardGap) / (kLeastCard + kCardGap));
  const float card = card_height(f.layout.narrow);
  return {f.rack.rail().found(query_of(f)), static_cast<size_t>(std::max(1.0F, fit)), card,
          kHang + card + kCardGap};
}

// The row of the card that the keyboard is on.
std::optional<size_t> focused_row(const Frame& f, const Hanging& all) {
  constexpr std::string_view kCard = "card.";
  constexpr size_t kIdCharacters = 8;
  if (!f.ui.focus.starts_with(kCard)) return std::nullopt;
  const Card* card = f.rack.card(std::string_view(f.ui.focus).substr(kCard.size(), kIdCharacters));
  if (card == nullptr) return std::nullopt;
  const auto place = static_cast<size_t>(card - f.rack.cards().data());
  const auto at = std::find(all.shown.begin(), all.shown.end(), place);
  if (at == all.shown.end()) return std::nullopt;
  return static_cast<size_t>(at - all.shown.begin()) / all.columns;
}

// The rows that are worked on, of however many: what can be seen and one more on either side, from
// where the keyboard comes to the next; and the row that the keyboard is on, so that it stays there.
std::vector<size_t> rows_near(const Frame& f, const Hanging& all, const Box& box,
                              const Box& sight) {
  const auto last = static_cast<float>(all.rows() - 1);
  const float above = std::floor((sight.y - box.y) / all.row) - 1.0F;
  const float below = std::floor((sight.bottom() - box.y) / all.row) + 1.0F;
  std::vector<size_t> out;
  const auto to = static_cast<size_t>(std::clamp(below, 0.0F, last));
  for (auto row = static_cast<size_t>(std::clamp(above, 0.0F, last)); row <= to; ++row) {
    out.push_back(row);
  }
  const auto focused = focused_row(f, all);
  if (focused && *focused < out.front()) out.insert(out.begin(), *focused);
  if (focused && *focused > out.back()) out.push_back(*focused);
  return out;
}

void row_of_cards(Frame& f, const Box& box, const Hanging& all, size_t row, const Box& sight) {
  const Box hung{box.x, box.y + static_cast<float>(row) * all.row + kHang, box.w, all.card};
  const bool in_sight = hung.bottom() > sight.y && hung.y - kHang < sight.bottom();
  const std::string list = f.words("ui.tickets", {std::to_string(all.shown.size())});
  std::vector<Box> places;
  for (size_t i = 0; i < all.columns && row * all.columns + i < all.shown.size(); ++i) {
    places.push_back(hung.column(static_cast<int>(i), static_cast<int>(all.columns), kCardGap));
    const size_t at = row * all.columns + i;
    const Card& c = f.rack.cards()[all.shown[at]];
    f.ui.begin_item({.list = list, .id = c.id, .place = at + 1, .of = all.shown.size()});
    card(f, places.back(), c, in_sight);
    f.ui.end_item();
  }
  if (in_sight) rail(f, {box.x, hung.y - kHang, box.w, 8.0F}, places);
}

// A way on for who steps from control to control: only what is near is there to step to.
void way_on(Frame& f, const char* id, const char* words, const Box& box, float by, bool more) {
  if (!more) return;
  f.ui.add({.id = id, .name = f.words(words), .box = box, .through = true});
  if (!f.ui.acted(id)) return;
  f.view.scrolls["rack.cards"] += by;
  f.again = true;
}

float rows_of_cards(Frame& f, const Box& box, const Box& sight) {
  const Hanging all = hanging(f, box.w);
  if (all.shown.empty()) return nothing_found(f, box);
  const float height = static_cast<float>(all.rows()) * all.row;
  const float page = page_of(f, sight);
  way_on(f, "rack.earlier", "ui.tickets-earlier", sight.top(kTarget), -page, box.y < sight.y);
  for (const size_t row : rows_near(f, all, box, sight)) row_of_cards(f, box, all, row, sight);
  way_on(f, "rack.later", "ui.tickets-later", {sight.x, sight.bottom() - kTarget, sight.w, kTarget},
         page, box.y + height > sight.bottom());
  return height;
}

// Whole pages, ends, and the way there: where no field takes the keys.
void scroll_by_keys(Frame& f, const Box& box) {
  float& offset = f.view.scrolls["rack.cards"];
  const float page = page_of(f, box);
  const std::pair<std::string_view, float> ways[] = {
      {"PageDown", page}, {"PageUp", -page}, {"Home", -kFarAway}, {"End", kFarAway}};
  const float far = offset;
  std::erase_if(f.ui.keys(), [&](const Key& key) {
    for (const auto& [name, by] : ways) {
      if (key.name == name) return offset += by, true;
    }
    return false;
  });
  if (offset != far) f.again = true;
}

}  // namespace

void rack_board(Frame& f, const Box& box) {
  constexpr float kThumb = 12.0F;  // where the scroll bar's thumb runs
  scroll_by_keys(f, box);
  scrolled(f, "rack.cards", box,
           [&](const Box& inner) { return rows_of_cards(f, inner.left(inner.w - kThumb), box); });
  notice(f, box);
  keeping_notes(f, box);
}

// ---- the side sheet --------------------------------------------------------------------------

namespace {

constexpr UnixMs kDay = 24LL * 60 * 60 * 1000;
// WebKit clears what a page keeps after seven days of use without a visit to it (as reported to
// Dexie.js, issue 739); a backup of that age is the last that can be trusted there. Elsewhere a
// month: common practice, no source.
constexpr UnixMs kBackupDaysForNow = 7, kBackupDays = 30;

UnixMs newest_change(const Rack& rack) {
  UnixMs newest = 0;
  for (const Place place : {Place::Rack, Place::Archive}) {
    const auto& cards = rack.rail().found({.place = place});
    if (!cards.empty()) newest = std::max(newest, rack.cards()[cards.front()].changed);
  }
  return newest;
}

void find_and_sort(Frame& f, Columns& flow) {
  if (const auto words =
          text_field(f, "rack.search", flow.next(kTarget), f.words("ui.search"), f.view.search)) {
    f.view.search = *words;
    f.view.scrolls["rack.cards"] = 0.0F;
  }
  const std::vector<std::string> orders = {f.words("ui.order-changed"), f.words("ui.order-dog")};
  const int order = options(f, "rack.order", flow.next(kTarget), f.words("ui.order"), orders,
                            static_cast<int>(f.rack.notes().order));
  if (order >= 0)
    f.rack_commands.push_back({.deed = RackDeed::Sort, .order = static_cast<RackOrder>(order)});
  std::vector<std::string> places;
  for (const Place place : {Place::Rack, Place::Archive, Place::Bin}) {
    const std::string n = std::to_string(f.rack.rail().count(place));
    places.push_back(f.words(std::string("ui.place.") + place_id(place), {n}));
  }
  const int place = options(f, "rack.place", flow.next(kTarget), f.words("ui.place"), places,
                            static_cast<int>(f.view.place));
  if (place < 0) return;
  f.view.place = static_cast<Place>(place);
  f.view.erasing.clear();
  f.view.scrolls["rack.cards"] = 0.0F;
}

}  // namespace

std::string backup_reminder(const Frame& f) {
  if (!f.rack.has_work()) return {};
  const UnixMs saved = f.rack.notes().backed_up;
  const bool for_now = f.keeping.kept != Kept::ForGood;
  if (saved == 0) return for_now ? f.words("ui.backup-never") : std::string();
  if (newest_change(f.rack) <= saved) return {};
  const UnixMs days = (f.rack.outside().now() - saved) / kDay;
  if (days < (for_now ? kBackupDaysForNow : kBackupDays)) return {};
  return f.words("ui.backup-old", {std::to_string(days)});
}

namespace {

// How far what takes longer than a moment is.
void on_its_way(Frame& f, Columns& flow) {
  if (f.saving != nullptr) {
    paragraph(f, flow, "rack.saving",
              f.words("ui.writing-backup", {std::to_string(f.saving->to_go())}));
  }
  if (f.restore == nullptr) return;
  const bool reads = f.restore->stage() == Restore::Stage::Reading;
  const std::string part = std::to_string(std::lround(100.0 * f.restore->part()));
  paragraph(f, flow, "rack.restoring", f.words(reads ? "ui.restoring" : "ui.hanging-back", {part}));
}

// Whether a backup is to have the photographs, where there are any that this host can read.
bool photographs_choice(Frame& f, Columns& flow) {
  size_t count = 0;
  for (const Card& card : f.rack.cards()) {
    if (card.place != Place::Bin) count += photographs_of(card.ticket.fittings).size();
  }
  if (count == 0 || !f.site.photographs) return false;
  const std::string words = f.words("ui.backup-photos", {std::to_string(count)});
  if (tick_box(f, "rack.photographs", flow.next(kTarget), words, f.view.backup_photos)) {
    f.view.backup_photos = !f.view.backup_photos;
  }
  return f.view.backup_photos;
}

void keep_safe(Frame& f, Columns& flow) {
  const Box title = flow.next(28.0F);
  heading(f, "rack.keeping", {title.x, title.centre().y}, f.words("ui.keeping"), kLarge);
  const Kept kept = f.keeping.kept;
  if (kept == Kept::ForGood || kept == Kept::ForNow) {
    paragraph(f, flow, "rack.kept", f.words(kept_key(kept)));
  } else if (kept != Kept::Unknown) {
    const std::string words = f.words(kept_key(kept));
    sentence(f, "rack.kept", flow.next(sentence_height(words, flow.column_width())), words, true);
  }
  if (f.keeping.installable &&
      button(f, "rack.install", flow.next(kTarget), f.words("ui.install"))) {
    f.effects.emplace_back(Install{});
  }
  if (const Unread& unread = f.rack.unread(); !unread.all().empty()) {
    const std::string words = unread_words(f);
    sentence(f, "rack.unreadable", flow.next(sentence_height(words, flow.column_width())), words,
             true);
    if (button(f, "rack.save-unread", flow.next(kTarget), f.words("ui.save-unread"))) {
      f.rack_commands.push_back({.deed = RackDeed::SaveUnread});
    }
  }
  on_its_way(f, flow);
  const std::string reminder = backup_reminder(f);
  if (!reminder.empty()) {
    sentence(f, "rack.reminder", flow.next(sentence_height(reminder, flow.column_width())),
             reminder, true);
  } else if (const UnixMs saved = f.rack.notes().backed_up; saved > 0) {
    paragraph(f, flow, "rack.backed-up", f.words("ui.backed-up", {date_words(saved, f.words)}));
  }
  const bool photographs = photographs_choice(f, flow);
  const ButtonStyle style{.look = reminder.empty() ? Look::Outline : Look::Solid};
  if (button(f, "rack.backup", flow.next(kTarget), f.words("ui.save-backup"), style)) {
    f.rack_commands.push_back({.deed = RackDeed::Backup, .photographs = photographs});
  }
  if (button(f, "rack.file", flow.next(kTarget), f.words("ui.open-file"),
             {.enabled = !f.keeping.follows})) {
    f.effects.emplace_back(AskForFile{});
  }
  paragraph(f, flow, "rack.file-hint", f.words("ui.open-file-hint"));
  if (button(f, "rack.about", flow.next(kTarget), f.words("ui.about"))) {
    f.view.about = true;
    f.view.focus_on = "about.close";
    f.view.scrolls["sheet.about"] = 0.0F;
  }
}

void make_and_find(Frame& f, Columns& flow) {
  const Box title = flow.next(30.0F);
  heading(f, "rack.title", {title.x, title.centre().y}, f.words("ui.rack"));
  const ButtonStyle main{.look = Look::Solid, .type = kLarge, .enabled = !f.keeping.follows};
  if (button(f, "rack.new", flow.next(54.0F), f.words("ui.new-ticket"), main)) {
    f.rack_commands.push_back({.deed = RackDeed::New});
  }
  if (button(f, "rack.answer", flow.next(kTarget), f.words("ui.client-answer"))) {
    f.view.slip = {.shows = SlipShows::Answer};
    f.view.focus_on = kSheetPart;
    f.view.rack = false;
  }
  find_and_sort(f, flow);
  if (!f.rack.whole()) paragraph(f, flow, "rack.reading", reading_words(f));
}

// Side by side where there is room for both.
float sheet(Frame& f, const Box& box) {
  const bool wide = box.w > 640.0F;
  const Box left = wide ? box.column(0, 2, kColumnGap) : box;
  Columns finding(left, left.w, kGap);
  make_and_find(f, finding);
  if (!wide) {
    keep_safe(f, finding);
    return finding.height();
  }
  Columns keeping(box.column(1, 2, kColumnGap), left.w, kGap);
  keep_safe(f, keeping);
  return std::max(finding.height(), keeping.height());
}

}  // namespace

void rack_sheet(Frame& f, const Box& box) {
  scrolled(f, "sheet.rack", box,
           [&](const Box& inner) { return sheet(f, sheet_content(f, inner)) + kSheetPad; });
}

void rack_edge(Frame& f) {
  constexpr float kReach = 14.0F, kPull = 48.0F;
  const Box edge{0.0F, f.layout.tape.bottom(), kReach, f.layout.page.h - f.layout.tape.bottom()};
  f.ui.add({.id = "rack.edge", .box = edge, .travel = Travel::Across, .silent = true});
  const Gesture* drag = f.ui.find(Gesture::Kind::Drag, "rack.edge");
  if (drag != nullptr && drag->at.x - drag->from.x > kPull) f.view.rack = true;
}

}  // namespace coatwright::studio
