#include "shell/draft_panel.h"

#include <algorithm>
#include <cmath>

#include "shell/choice_control.h"
#include "shell/status.h"
#include "shell/widgets.h"

namespace coatwright::studio {
namespace {

std::string word_key(Choice c) { return std::string("choice.") + info(c).id; }

void section(Frame& f, Columns& flow, const char* key) {
  const Box box = flow.across(28.0F);
  heading(f, std::string("section.") + key, {box.x, box.centre().y + 2.0F}, f.words(key), kLarge);
}

// Problems of a choice, each in a box of its own below it.
void problems_of(Frame& f, Columns& flow, const std::string& subject) {
  const auto all = sentences_about(f, subject);
  for (size_t i = 0; i < all.size(); ++i) {
    const float height = sentence_height(all[i], flow.width());
    sentence(f, "problem." + subject + "." + std::to_string(i), flow.across(height), all[i], true);
  }
}

void reset_key(Frame& f, const Box& box, Choice c) {
  const std::string id = std::string("reset.") + info(c).id;
  const ButtonStyle style{
      .look = Look::Quiet, .type = kLarge, .name = f.words("ui.reset", {f.words(word_key(c))})};
  if (button(f, id, box, "↺", style)) f.commands.push_back(SetChoice{c, std::nullopt});
}

void slider(Frame& f, Columns& flow, Choice c) {
  const auto range = choice_range(f, c);
  if (!range) return;
  const double value = chosen_value(f, c);
  const Box box = flow.next(74.0F);
  const bool set = f.ticket.choices.of(c).has_value();
  const std::string name = f.words(word_key(c)), words = choice_words(f, c, value);
  const Box line = box.top(28.0F), track = box.below(26.0F);
  const float width =
      f.paint.text({line.right(), line.centre().y}, words, kStrong, f.colours.ink, Align::End);
  f.paint.clipped_text({line.x, line.centre().y}, line.w - width - 12.0F, name, kBody,
                       f.colours.ink);
  const float room = set ? kTarget + 2.0F : 0.0F;
  const SliderSpec spec{.id = std::string("choice.") + info(c).id,
                        .name = name,
                        .value = words,
                        .note = f.words(word_key(c) + ".hint"),
                        .low = range->lowest,
                        .high = range->highest,
                        .now = value,
                        .step = choice_step(c, f.ticket.unit),
                        .mark = range->sized};
  const Box rail{track.x - 4.0F, track.y, track.w + 8.0F - room, kTarget};
  if (const auto moved = slider_track(f, rail, spec)) set_choice(f, c, *moved);
  if (set) reset_key(f, {track.right() - kTarget + 8.0F, track.y, kTarget, kTarget}, c);
  problems_of(f, flow, info(c).id);
}

// A named choice: each option a small drawing of its line and its name.
void picture_options(Frame& f, Columns& flow, Choice c) {
  const int n = info(c).options;
  const float label = 26.0F, height = 84.0F;
  const Box box = flow.next(label + height);
  f.paint.text({box.x, box.y + 11.0F}, f.words(word_key(c)), kBody, f.colours.ink);
  const int chosen = static_cast<int>(std::lround(chosen_value(f, c)));
  for (int i = 0; i < n; ++i) {
    const Box cell = box.below(label).column(i, n, 8.0F);
    const std::string name = choice_words(f, c, i);
    const std::string id = std::string("choice.") + info(c).id + "." + std::to_string(i);
    f.ui.add({.id = id,
              .role = ControlRole::Option,
              .name = name,
              .box = cell,
              .group = f.words(word_key(c)),
              .chosen = i == chosen});
    f.paint.fill(cell, f.ui.pressed == id ? f.colours.card_edge : f.colours.key, 12.0F);
    if (i == chosen) f.paint.outline(cell, f.colours.ink, 2.5F, 12.0F);
    draw_option_line(f, cell.top(cell.h - 40.0F).inset(14.0F, 8.0F), c, i);
    const auto lines = broken(name, cell.w - 10.0F, kBody);
    float y = cell.bottom() - 22.0F - 9.5F * static_cast<float>(lines.size() - 1);
    for (const std::string_view one : lines) {
      f.paint.text({cell.centre().x, y}, one, kBody, f.colours.key_text, Align::Middle);
      y += 19.0F;
    }
    if (f.ui.acted(id)) f.commands.push_back(SetChoice{c, static_cast<double>(i)});
  }
}

// What the finished geometry measures, beside what was asked of it.
void checked(Frame& f, Columns& flow) {
  if (!f.derived.pattern || f.derived.stale) return;
  section(f, flow, "ui.measured-on-pattern");
  for (const Invariant& one : f.derived.pattern->draft.invariants) {
    if (one.id.starts_with("seam:")) continue;
    const Box row = flow.next(22.0F);
    const bool holds = one.holds(0.1);
    const Colour ink = holds ? f.colours.fir : f.colours.brick;
    const Spot at{row.x + 9.0F, row.centre().y};
    f.paint.disc(at, 7.5F, ink);
    const Spot tick[] = {
        {at.x - 3.6F, at.y}, {at.x - 0.8F, at.y + 3.0F}, {at.x + 4.0F, at.y - 3.0F}};
    if (holds) f.paint.polyline(tick, f.colours.paper, 2.0F);
    const std::string value = f.length(one.got_mm);
    const float width =
        f.paint.text({row.right(), row.centre().y}, value, kStrong, f.colours.ink, Align::End);
    const std::string name = f.words("invariant." + one.id);
    f.paint.clipped_text({row.x + 26.0F, row.centre().y}, row.w - width - 36.0F, name, kBody,
                         f.colours.ink);
    f.ui.add({.id = "checked." + one.id,
              .role = ControlRole::Status,
              .name = name + ": " + value,
              .box = row});
  }
}

float content(Frame& f, const Box& box) {
  Columns flow(box, 300.0F, 8.0F);
  const Box title = flow.across(30.0F);
  heading(f, "draft.title", {title.x, title.centre().y}, f.words("ui.cut-of-the-coat"));
  if (f.layout.narrow) status_pill(f, flow.across(40.0F));
  if (!f.derived.body) {
    const std::string words =
        f.derived.refusal ? sentence_of(f, *f.derived.refusal) : f.words("ui.cannot-draft");
    sentence(f, "refusal", flow.across(sentence_height(words, flow.width())), words, true);
    return flow.height();
  }
  using enum Choice;
  struct Group {
    const char* key;
    std::vector<Choice> choices;
  };
  const Group groups[] = {{"ui.group-ease", {ChestEase, NeckEase, BreastEase}},
                          {"ui.group-front", {Overlap, FrontDepth, NeckFullness, ForelegClearance}},
                          {"ui.group-hem", {HemLine, TailLine, HemDepth}},
                          {"ui.group-band", {BandWidth, BandPlace, BandOverlap}},
                          {"ui.group-sewing", {SeamAllowance, TurningGap}}};
  for (const Group& group : groups) {
    section(f, flow, group.key);
    for (const Choice c : group.choices) {
      if (info(c).options > 0) {
        picture_options(f, flow, c);
      } else {
        slider(f, flow, c);
      }
    }
  }
  checked(f, flow);
  return flow.height();
}

}  // namespace

void draft_sheet(Frame& f, const Box& box) {
  scrolled(f, "sheet.draft", box,
           [&](const Box& inner) { return content(f, sheet_content(f, inner)) + kSheetPad; });
}

}  // namespace coatwright::studio
