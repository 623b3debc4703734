#include "shell/draft/panel.h"

#include <algorithm>
#include <cmath>

#include "shell/kit/choice_control.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"

namespace coatwright::studio {
namespace {

std::string word_key(const ChoiceInfo& c) { return std::string("choice.") + c.id; }

void section(Frame& f, Columns& flow, const std::string& key) {
  const Box box = flow.across(28.0F);
  heading(f, "section." + key, {box.x, box.centre().y + 2.0F}, f.words(key), kLarge);
}

// What is wrong with a choice and what is to be known of it, each in a box of its own below it.
void told_of(Frame& f, Columns& flow, const std::string& subject) {
  const auto tell = [&](const char* what, const std::vector<std::string>& all, bool wrong) {
    for (size_t i = 0; i < all.size(); ++i) {
      const std::string id = std::string(what) + "." + subject + "." + std::to_string(i);
      sentence(f, flow, id, all[i], wrong);
    }
  };
  tell("problem", sentences_about(f, subject), true);
  tell("note", notes_about(f, subject), false);
}

void reset_key(Frame& f, const Box& box, const ChoiceInfo& c) {
  const std::string id = std::string("reset.") + c.id;
  const ButtonStyle style{
      .look = Look::Quiet, .type = kLarge, .name = f.words("ui.reset", {f.words(word_key(c))})};
  if (button(f, id, box, "↺", style)) f.commands.push_back(SetChoice{&c, std::nullopt});
}

// A choice's slider, and what is told of it below; returns where it stands.
Box slider(Frame& f, Columns& flow, const ChoiceInfo& c) {
  const auto range = choice_range(f, c);
  if (!range) return {};
  const double value = chosen_value(f, c);
  const Box box = flow.next(80.0F);
  const bool set = f.ticket.choices.of(c).has_value();
  const std::string name = f.words(word_key(c)), words = choice_words(f, c, value);
  const Box line = box.top(28.0F), track = box.below(32.0F);
  const float width =
      f.paint.text({line.right(), line.centre().y}, words, kStrong, f.colours.ink, Align::End);
  f.paint.clipped_text({line.x, line.centre().y}, line.w - width - 12.0F, name, kBody,
                       f.colours.ink);
  const float room = set ? kTarget + 2.0F : 0.0F;
  const SliderSpec spec{.id = std::string("choice.") + c.id,
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
  told_of(f, flow, c.id);
  return box;
}

// A named choice: each option its name, under a small drawing of its line if it has one.
Box named_options(Frame& f, Columns& flow, const ChoiceInfo& c) {
  constexpr float kGapOfOptions = 8.0F;
  std::vector<std::string> names;
  for (size_t i = 0; i < c.options.size(); ++i) {
    names.push_back(choice_words(f, c, static_cast<double>(i)));
  }
  const auto n = static_cast<int>(names.size());
  const int columns = options_in_a_row(names, flow.column_width(), kBody, kGapOfOptions);
  const int rows = (n + columns - 1) / columns;
  const float cell_width =
      Box{0.0F, 0.0F, flow.column_width(), 0.0F}.column(0, columns, kGapOfOptions).w;
  float words_height = 0.0F;
  for (const std::string& name : names) {
    const auto lines = broken(name, cell_width - 10.0F, kBody).size();
    words_height = std::max(words_height, 19.0F * static_cast<float>(lines) + 10.0F);
  }
  const float picture = c.picture == nullptr ? 0.0F : 40.0F;
  const float label = 26.0F, cell_height = std::max(kTarget, picture + words_height);
  const float row_height = cell_height + 6.0F;
  const Box box = flow.next(label + row_height * static_cast<float>(rows) - 6.0F);
  f.paint.text({box.x, box.y + 11.0F}, f.words(word_key(c)), kBody, f.colours.ink);
  const int chosen = static_cast<int>(std::lround(chosen_value(f, c)));
  for (int i = 0; i < n; ++i) {
    const Box row = box.below(label + row_height * static_cast<float>(i / columns));
    const Box cell = row.top(cell_height).column(i % columns, columns, kGapOfOptions);
    const std::string& name = names[static_cast<size_t>(i)];
    const std::string id = std::string("choice.") + c.id + "." + std::to_string(i);
    f.ui.add({.id = id,
              .role = ControlRole::Option,
              .name = name,
              .box = cell,
              .group = f.words(word_key(c)),
              .chosen = i == chosen});
    f.paint.fill(cell, f.ui.pressed == id ? f.colours.card_edge : f.colours.key, 12.0F);
    if (i == chosen) f.paint.outline(cell, f.colours.ink, 2.5F, 12.0F);
    Box words = cell.inset(5.0F, 3.0F);
    if (c.picture != nullptr) {
      draw_option_line(f, cell.top(picture + 4.0F).inset(14.0F, 8.0F), c, i);
      words = words.below(picture);
    }
    f.paint.boxed_text(words, name, kBody, f.colours.key_text);
    if (f.ui.acted(id)) f.commands.push_back(SetChoice{&c, static_cast<double>(i)});
  }
  told_of(f, flow, c.id);
  return box;
}

// The style of the coat, and what it is for; a ticket
// keeps its readings and every choice when it changes.
void style_choice(Frame& f, Columns& flow) {
  const auto all = styles();
  std::vector<std::string> names;
  for (const StyleInfo* style : all) names.push_back(f.words(std::string("style.") + style->id));
  const StyleInfo& now = style_of(f.ticket);
  const std::string use = f.words(std::string("style.") + now.id + ".use");
  const float label = 26.0F, gap = 8.0F;
  const float lines = paragraph_height(use, flow.width(), kBody);
  const Box box = flow.across(label + kTarget + gap + lines);
  f.paint.text({box.x, box.y + 11.0F}, f.words("style"), kBody, f.colours.ink);
  const auto at = std::find(all.begin(), all.end(), &now) - all.begin();
  const Box row{box.x, box.y + label, box.w, kTarget};
  const int picked = options(f, "style", row, f.words("style"), names, static_cast<int>(at));
  if (picked >= 0) f.commands.push_back(SetStyle{all[static_cast<size_t>(picked)]});
  f.paint.paragraph({box.x, row.bottom() + gap}, box.w, use, kBody, f.colours.soft);
  words_at(f, "style.use", {box.x, row.bottom() + gap, box.w, lines}, use);
}

// Whether something is told about one of the choices.
bool is_told_of(Frame& f, const OptionInfo& option) {
  return std::any_of(option.choices.begin(), option.choices.end(), [&](const ChoiceInfo* c) {
    return !sentences_about(f, c->id).empty() || !notes_about(f, c->id).empty();
  });
}

// An option that a coat may do without begins with a choice whose first option is "none".
bool is_extra(const OptionInfo& option) {
  const ChoiceInfo& first = *option.choices.front();
  return first.named() && std::string_view(first.options.front()) == "none";
}

// The head of an extra: a line that tells what is chosen and unfolds the rest. Whether it is
// unfolded; what is told of a choice is never hidden.
bool fold_head(Frame& f, Columns& flow, const OptionInfo& option) {
  const ChoiceInfo& first = *option.choices.front();
  const std::string key = std::string("option.") + option.id, name = f.words(key);
  const std::string value = choice_words(f, first, chosen_value(f, first));
  const bool told = is_told_of(f, option);
  const bool unfolded = told || f.view.unfolded.contains(option.id);
  const Box box = unfolded ? flow.across(kTarget) : flow.next(kTarget);
  f.ui.add({.id = "fold." + std::string(option.id),
            .role = ControlRole::Fold,
            .name = name,
            .value = value,
            .box = box,
            .enabled = !told,
            .chosen = unfolded});
  const float mid = box.centre().y, x = box.right() - 9.0F;
  const Spot down[] = {{x - 5.0F, mid - 2.5F}, {x, mid + 2.5F}, {x + 5.0F, mid - 2.5F}};
  const Spot aside[] = {{x - 2.5F, mid - 5.0F}, {x + 2.5F, mid}, {x - 2.5F, mid + 5.0F}};
  if (!told) f.paint.polyline(unfolded ? down : aside, f.colours.soft, 1.8F);
  float width = 0.0F;
  if (!unfolded) {
    width = f.paint.text({x - 14.0F, mid}, value, kBody, f.colours.soft, Align::End) + 8.0F;
  }
  f.paint.clipped_text({box.x, mid}, box.w - 28.0F - width, name, kLarge, f.colours.ink);
  f.paint.line({box.x, box.bottom()}, {box.right(), box.bottom()}, f.colours.paper_line, 1.0F);
  if (f.ui.acted("fold." + std::string(option.id))) {
    if (unfolded) {
      f.view.unfolded.erase(option.id);
    } else {
      f.view.unfolded.insert(option.id);
    }
  }
  return unfolded;
}

// The choices of an option that mean anything beside what else is chosen; the flow begins at `top`.
void option_controls(Frame& f, Columns& flow, const OptionInfo& option, const Box& sheet,
                     float top) {
  const auto shown = [&](const ChoiceInfo* c) { return applies(*c, *f.derived.chosen); };
  if (std::none_of(option.choices.begin(), option.choices.end(), shown)) return;
  if (!is_extra(option)) {
    section(f, flow, std::string("option.") + option.id);
  } else if (!fold_head(f, flow, option)) {
    return;
  }
  for (const ChoiceInfo* c : option.choices) {
    if (!shown(c)) continue;
    Box row = c->named() ? named_options(f, flow, *c) : slider(f, flow, *c);
    row.h = std::max(row.h, top + flow.height() - row.y);  // with what is told below it
    reveal(f, c->id, "sheet.draft", row, sheet);
  }
  (void)flow.across(0.0F);  // what follows begins below, in every column
}

// What the finished geometry measures, beside what was asked of it.
void checked(Frame& f, Columns& flow) {
  if (!f.derived.pattern || f.derived.stale) return;
  section(f, flow, "ui.measured-on-pattern");
  for (const Invariant& one : f.derived.pattern->draft.invariants) {
    if (one.id.starts_with("seam:")) continue;
    const std::string value = f.length(one.got_mm), name = f.words("invariant." + one.id);
    const float room = flow.column_width() - text_width(value, kStrong) - 38.0F;
    const float lines = paragraph_height(name, room, kBody);
    const Box row = flow.next(std::max(22.0F, lines));
    const bool holds = one.holds(0.1);
    const Colour ink = holds ? f.colours.fir : f.colours.brick;
    const Spot at{row.x + 9.0F, row.y + 0.5F * line_step(kBody)};
    f.paint.disc(at, 7.5F, ink);
    const Spot tick[] = {
        {at.x - 3.6F, at.y}, {at.x - 0.8F, at.y + 3.0F}, {at.x + 4.0F, at.y - 3.0F}};
    if (holds) f.paint.polyline(tick, f.colours.paper, 2.0F);
    f.paint.text({row.right(), at.y}, value, kStrong, f.colours.ink, Align::End);
    f.paint.paragraph({row.x + 26.0F, row.y}, room, name, kBody, f.colours.ink);
    const std::string amiss = holds ? "" : ", " + f.words("level.check");
    words_at(f, "checked." + one.id, row, name + ": " + value + amiss);
  }
}

// What is told of lines and of choices that have no row here: above all rows, so that nothing is
// told nowhere.
void told_of_lines(Frame& f, Columns& flow, const Box& sheet, float top) {
  const auto& choices = choices_of(style_of(f.ticket));
  const auto has_row = [&](const std::string& subject) {
    return measure_by_id(subject) || std::any_of(choices.begin(), choices.end(), [&](auto* c) {
             return subject == c->id && applies(*c, *f.derived.chosen);
           });
  };
  std::vector<std::string> told;
  for (const Finding& finding : f.derived.findings) {
    const std::string& subject = finding.what.subject;
    if (has_row(subject) || std::find(told.begin(), told.end(), subject) != told.end()) continue;
    told.push_back(subject);
    const float from = flow.height();
    told_of(f, flow, subject);
    const Box told_here{sheet.x, top + from, sheet.w, flow.height() - from};
    reveal(f, subject, "sheet.draft", told_here, sheet);
  }
}

// What the rack's fittings have in common, each taken into the usual by its key.
void studio_habits(Frame& f, Columns& flow) {
  if (!f.view.habits) {
    if (button(f, "usual.learn", flow.next(kTarget), f.words("ui.usual-learn"),
               {.enabled = f.rack.whole()})) {
      f.view.habits = habits_of(f.rack.cards());
      f.view.focus_on = "habit.0";
    }
    return;
  }
  auto& habits = *f.view.habits;
  if (habits.empty()) {
    paragraph(f, flow, "habit.0", f.words("ui.habits-none"));
    return;
  }
  for (size_t i = 0; i < habits.size(); ++i) {
    const Habit habit = habits[i];
    const std::string id = "habit." + std::to_string(i);
    paragraph(f, flow, id + ".is",
              f.words(habit.mm > 0.0 ? "ui.habit.more" : "ui.habit.less",
                      {f.words(word_key(*habit.ease)), std::to_string(habit.coats),
                       std::to_string(habit.of), f.length(std::abs(habit.mm))}));
    if (!button(f, id, flow.next(kTarget),
                f.words("ui.habit-take", {f.words(word_key(*habit.ease))}),
                {.enabled = !f.keeping.follows})) {
      continue;
    }
    Usual fresh;
    fresh.start.unit = f.ticket.unit;
    const Usual now = f.rack.notes().usual.value_or(fresh);
    f.rack_commands.push_back({.deed = RackDeed::KeepUsual, .usual = with_habit(now, habit)});
    habits.erase(habits.begin() + static_cast<std::ptrdiff_t>(i));
    f.view.focus_on = "usual.forget";
    return;
  }
}

// What every new ticket begins with: kept, taken here as far as it depends on the dog, forgotten.
void studio_usual(Frame& f, Columns& flow) {
  const std::optional<Usual>& usual = f.rack.notes().usual;
  section(f, flow, "ui.usual");
  const bool may = !f.keeping.follows;
  if (usual) {
    const std::string style = f.words("style." + usual->start.style);
    paragraph(f, flow, "usual.is", f.words("ui.usual-is", {style}));
    const Choices eased =
        with_usual_eases(f.ticket.choices, *usual, style_of(f.ticket), *f.derived.body);
    if (eased != f.ticket.choices &&
        button(f, "usual.eases", flow.next(kTarget), f.words("ui.usual-eases"))) {
      f.commands.push_back(TakeUsualEases{eased});
      f.view.focus_on = "usual.forget";
    }
  }
  const Usual here = usual_of(f.ticket, *f.derived.body);
  if (usual != here &&
      button(f, "usual.keep", flow.next(kTarget), f.words("ui.usual-keep"), {.enabled = may})) {
    f.rack_commands.push_back({.deed = RackDeed::KeepUsual, .usual = here});
    f.view.focus_on = "usual.forget";
  }
  if (usual &&
      button(f, "usual.forget", flow.next(kTarget), f.words("ui.usual-forget"), {.enabled = may})) {
    f.rack_commands.push_back({.deed = RackDeed::KeepUsual});
    f.view.focus_on = "usual.keep";
  }
  paragraph(f, flow, "usual.hint", f.words("ui.usual-hint"));
  studio_habits(f, flow);
}

float content(Frame& f, const Box& box, const Box& sheet) {
  Columns flow(box, 300.0F, 8.0F);
  const Box title = flow.across(30.0F);
  heading(f, "draft.title", {title.x, title.centre().y}, f.words("ui.cut-of-the-coat"));
  status_row(f, flow);
  if (!f.derived.body) {
    refusal_sentence(f, flow);
    return flow.height();
  }
  style_choice(f, flow);
  told_of_lines(f, flow, sheet, box.y);
  for (const OptionInfo* option : style_of(f.ticket).options) {
    option_controls(f, flow, *option, sheet, box.y);
  }
  checked(f, flow);
  studio_usual(f, flow);
  return flow.height();
}

}  // namespace

void draft_sheet(Frame& f, const Box& box) {
  scrolled(f, "sheet.draft", box,
           [&](const Box& inner) { return content(f, sheet_content(f, inner), box) + kSheetPad; });
}

}  // namespace coatwright::studio
