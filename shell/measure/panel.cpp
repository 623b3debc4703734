#include "shell/measure/panel.h"

#include <algorithm>

#include "shell/kit/keypad.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"
#include "shell/measure/list.h"

namespace coatwright::studio {
namespace {

std::string word_key(Measure m) { return std::string("measure.") + info(m).id; }

void keep_reading(Frame& f, Measure m) {
  f.view.entry_problem.reset();
  f.commands.push_back(AddReading{m, f.view.entry, f.today.month});
}

// The nearest measure of the list before (-1) or after
// (1) `m`, also where `m` is not on it any more.
std::optional<Measure> neighbour(const Frame& f, Measure m, int step) {
  std::optional<Measure> nearest;
  for (const Measure other : measures_of(style_of(f.ticket), f.ticket.choices)) {
    if (step < 0 && other < m) nearest = other;
    if (step > 0 && other > m) return other;
  }
  return nearest;
}

// Figures, fractions and units typed on a keyboard go into the entry as they are.
void typed_keys(Frame& f, Measure m) {
  if (const Control* c = f.ui.control(f.ui.focus); c != nullptr && c->role == ControlRole::Text)
    return;
  std::erase_if(f.ui.keys(), [&](const Key& key) {
    if (key.control) return false;
    if (key.name == "Enter" && !f.view.entry.empty()) {
      keep_reading(f, m);
    } else if (key.name == "Backspace") {
      f.view.entry = edited(f.view.entry, "back");
    } else if (key.name == "Escape") {
      go_to_measure(f, std::nullopt);
    } else if (key.name.size() == 1 || static_cast<unsigned char>(key.name[0]) >= 0x80) {
      if (f.view.entry.size() < 40) f.view.entry += key.name;
      f.view.entry_problem.reset();
    } else {
      return false;
    }
    return true;
  });
}

void head(Frame& f, Columns& flow, Measure m) {
  const bool narrow = f.layout.narrow;
  const Box row = flow.next(kTarget);
  const float steps = 2.0F * kTarget + 16.0F, list = narrow ? 64.0F : row.w - steps;
  const ButtonStyle all{.name = f.words("ui.all-measures")};
  const char* face = narrow ? "ui.all-measures-short" : "ui.all-measures";
  if (button(f, "measure.list", row.left(list), f.words(face), all)) {
    go_to_measure(f, std::nullopt);
  }
  if (narrow) {
    const Box middle = row.after(list).left(row.w - list - steps);
    const std::string name = f.words(word_key(m));
    const float room = middle.w - 12.0F;
    const Type& type = text_width(name, kLarge) <= room ? kLarge : kStrong;
    f.paint.clipped_text(middle.centre(), room, name, type, f.colours.ink, Align::Middle);
    f.ui.add({.id = "measure.title", .role = ControlRole::Heading, .name = name, .box = middle});
  }
  const Box ends = row.after(row.w - steps + 8.0F);
  const char* names[] = {"ui.measure-before", "ui.measure-after"};
  const char* faces[] = {"◀", "▶"};
  for (int i = 0; i < 2; ++i) {
    const auto to = neighbour(f, m, i == 0 ? -1 : 1);
    const ButtonStyle style{.enabled = to.has_value(), .name = f.words(names[i])};
    if (button(f, names[i], ends.column(i, 2, 8.0F), faces[i], style)) go_to_measure(f, to);
  }
}

void title(Frame& f, Columns& flow, Measure m) {
  const Box line = flow.next(24.0F);
  heading(f, "measure.title", {line.x, line.centre().y}, f.words(word_key(m)));
}

void how_to(Frame& f, Columns& flow, Measure m) {
  const std::string how = f.words(word_key(m) + ".tape");
  const Box text = flow.next(paragraph_height(how, flow.width(), kBody));
  f.paint.paragraph({text.x, text.y - 4.0F}, text.w, how, kBody, f.colours.soft);
}

std::string entry_unit(const Frame& f, Measure m) {
  if (info(m).is_weight) return f.words(f.ticket.unit == Unit::Inch ? "ui.lb" : "ui.kg");
  return f.words(f.ticket.unit == Unit::Inch ? "ui.in" : "ui.cm");
}

void entry_field(Frame& f, const Box& box, Measure m) {
  if (std::optional<std::string> entered = f.ui.entered("entry", f.view.entry)) {
    const bool whole = entered->ends_with('\n');
    if (whole) entered->pop_back();
    f.view.entry = entered->substr(0, 40);
    f.view.entry_problem.reset();
    if (whole && !f.view.entry.empty()) keep_reading(f, m);
  }
  const bool wrong = f.view.entry_problem.has_value();
  f.ui.add({.id = "entry",
            .role = ControlRole::Number,
            .name = f.words(word_key(m)),
            .value = f.view.entry,
            .box = box,
            .note = wrong ? sentence_of(f, *f.view.entry_problem) : ""});
  f.paint.fill(box, f.colours.card, 12.0F);
  f.paint.outline(box, wrong ? f.colours.brick : f.colours.ink, wrong ? 3.0F : 2.0F, 12.0F);
  const Spot at{box.x + 18.0F, box.centre().y};
  const std::string unit = entry_unit(f, m);
  const float room = box.w - 36.0F - text_width(unit, kLarge) - 12.0F;
  const std::string shown = set_entry(f.view.entry);
  const Type type = text_width(shown, kFigure) <= room ? kFigure : kTitle;
  f.paint.clipped_text(at, room, shown, type, wrong ? f.colours.brick : f.colours.ink);
  const float caret = at.x + std::min(room, text_width(shown, type)) + 3.0F;
  f.paint.line({caret, at.y - 17.0F}, {caret, at.y + 17.0F}, f.colours.chalk, 2.0F);
  f.paint.text({box.right() - 18.0F, at.y}, unit, kLarge, f.colours.soft, Align::End);
}

// A reading as it was typed, with its fraction set, and a cross that takes it out.
void reading_chip(Frame& f, const Box& box, Measure m, int index, const std::string& text) {
  const std::string id = "reading." + std::to_string(index);
  f.ui.add({.id = id,
            .role = ControlRole::Button,
            .name = f.words("ui.remove-reading", {text}),
            .box = box});
  f.paint.fill(box.inset(0.0F, 4.0F), f.ui.pressed == id ? f.colours.card_edge : f.colours.key,
               20.0F);
  f.paint.text({box.x + 14.0F, box.centre().y}, set_entry(text), kStrong, f.colours.key_text);
  const Spot c{box.right() - 17.0F, box.centre().y};
  f.paint.line({c.x - 5.0F, c.y - 5.0F}, {c.x + 5.0F, c.y + 5.0F}, f.colours.soft, 2.0F);
  f.paint.line({c.x - 5.0F, c.y + 5.0F}, {c.x + 5.0F, c.y - 5.0F}, f.colours.soft, 2.0F);
  if (f.ui.acted(id)) f.commands.push_back(RemoveReading{m, index});
}

void readings(Frame& f, Columns& flow, Measure m) {
  const auto& texts = f.ticket.of(m);
  if (texts.empty()) {
    const Value* value = f.derived.body ? &f.derived.body->of(m) : nullptr;
    if (value == nullptr || !value->estimated()) return;
    const std::string words = estimate_words(f, m);
    const Box line = flow.next(paragraph_height(words, flow.width(), kBody));
    f.paint.paragraph({line.x, line.y}, line.w, words, kBody, f.colours.chalk_text);
    return;
  }
  Box row = flow.next(kTarget);
  float x = row.x;
  for (int i = 0; i < static_cast<int>(texts.size()); ++i) {
    const std::string& text = texts[static_cast<size_t>(i)];
    const float width = text_width(set_entry(text), kStrong) + 46.0F;
    if (x > row.x && x + width > row.right()) {
      row = flow.next(kTarget);
      x = row.x;
    }
    reading_chip(f, {x, row.y, width, row.h}, m, i, text);
    x += width + 6.0F;
  }
}

void value_line(Frame& f, Columns& flow, Measure m) {
  const auto& readings = f.derived.tape.of(m);
  if (readings.size() < 2 || info(m).is_weight) return;
  const Value v = value_of(readings);
  const Box line = flow.next(20.0F);
  f.paint.text({line.x, line.centre().y},
               f.words("ui.middle-and-spread", {f.length(v.value), f.length(v.spread)}), kBody,
               f.colours.soft);
}

// What is wrong with the measure, then what else is worth knowing of it. Where the keypad stands
// below, only the first sentence, so that the keys stay in reach; the board shows the next.
void sentences(Frame& f, Columns& flow, Measure m, size_t most) {
  std::vector<std::string> all = sentences_about(f, info(m).id);
  if (f.view.entry_problem) all.insert(all.begin(), sentence_of(f, *f.view.entry_problem));
  const size_t wrong = all.size();
  for (std::string& note : notes_about(f, info(m).id)) all.push_back(std::move(note));
  for (size_t i = 0; i < std::min(most, all.size()); ++i) {
    const Box box = flow.next(sentence_height(all[i], flow.width()));
    sentence(f, "sentence." + std::to_string(i), box, all[i], i < wrong);
  }
}

void pad_and_keep(Frame& f, Columns& flow, Measure m) {
  const PadKind kind = info(m).is_weight             ? PadKind::Weight
                       : f.ticket.unit == Unit::Inch ? PadKind::Inches
                                                     : PadKind::Centimetres;
  keypad(f, flow.next(keypad_height(f)), kind);
  const ButtonStyle keep{.look = Look::Solid, .type = kLarge, .enabled = !f.view.entry.empty()};
  if (button(f, "keep", flow.next(f.layout.narrow ? 50.0F : 56.0F), f.words("ui.keep"), keep)) {
    keep_reading(f, m);
  }
}

// On a phone, where one thing has room above the keypad: where the tape runs, for a measure that
// nothing was read of and that nothing is wrong with.
bool tells_how_to_first(const Frame& f, Measure m) {
  return f.ticket.of(m).empty() && !f.view.entry_problem && sentences_about(f, info(m).id).empty();
}

// One column. On a phone the keypad comes first, so that it can be used without scrolling.
float taking_on_phone(Frame& f, const Box& box, Measure m) {
  Columns flow(box, box.w, 8.0F);
  const bool how_to_first = tells_how_to_first(f, m);
  head(f, flow, m);
  entry_field(f, flow.next(54.0F), m);
  if (how_to_first) {
    (void)flow.next(0.0F);  // off the field's focus ring
    how_to(f, flow, m);
  } else {
    sentences(f, flow, m, 1);
  }
  pad_and_keep(f, flow, m);
  readings(f, flow, m);
  value_line(f, flow, m);
  if (how_to_first) {
    sentences(f, flow, m, 1);
  } else {
    how_to(f, flow, m);
  }
  status_row(f, flow);
  return flow.height();
}

float taking_in_one(Frame& f, const Box& box, Measure m) {
  Columns flow(box, box.w, kGap);
  head(f, flow, m);
  title(f, flow, m);
  how_to(f, flow, m);
  entry_field(f, flow.next(60.0F), m);
  readings(f, flow, m);
  value_line(f, flow, m);
  sentences(f, flow, m, 1);
  pad_and_keep(f, flow, m);
  return flow.height();
}

// Two columns: the measure on the left, the number on the right.
float taking_in_two(Frame& f, const Box& box, Measure m) {
  const Box half = box.column(0, 2, kColumnGap);
  Columns left(half, half.w, kGap);
  head(f, left, m);
  title(f, left, m);
  how_to(f, left, m);
  readings(f, left, m);
  value_line(f, left, m);
  sentences(f, left, m, 3);
  Columns right(box.column(1, 2, kColumnGap), half.w, kGap);
  entry_field(f, right.next(60.0F), m);
  pad_and_keep(f, right, m);
  return std::max(left.height(), right.height());
}

float taking(Frame& f, const Box& box, Measure m) {
  typed_keys(f, m);
  if (box.w > 640.0F) return taking_in_two(f, box, m);
  return f.layout.narrow ? taking_on_phone(f, box, m) : taking_in_one(f, box, m);
}

}  // namespace

void go_to_measure(Frame& f, std::optional<Measure> next) {
  if (f.view.measure == next) return;
  if (f.view.measure && !f.view.entry.empty()) {
    const AddReading kept{*f.view.measure, f.view.entry, f.today.month};
    const auto result = apply(f.ticket, kept);
    if (!result) {
      f.view.entry_problem = result.problem();
      return;
    }
    f.commands.push_back(kept);
  }
  f.view.entry.clear();
  f.view.entry_problem.reset();
  f.view.measure = next;
  f.view.scrolls["sheet.taking"] = 0.0F;
}

void measure_sheet(Frame& f, const Box& box) {
  const bool list = !f.view.measure.has_value();
  scrolled(f, list ? "sheet.measure" : "sheet.taking", box, [&](const Box& content) {
    const Box inner = sheet_content(f, content);
    const float height = list ? measure_list(f, inner) : taking(f, inner, *f.view.measure);
    return height + kSheetPad;
  });
}

}  // namespace coatwright::studio
