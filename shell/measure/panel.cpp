#include "shell/measure/panel.h"

#include <algorithm>

#include "shell/kit/entry.h"
#include "shell/kit/keypad.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"
#include "shell/measure/list.h"

namespace coatwright::studio {
namespace {

std::string word_key(Measure m) { return std::string("measure.") + info(m).id; }

void keep_reading(Frame& f, Measure m) {
  f.view.focus_on = "entry";
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

// The next measure that nothing was read of yet, else the next one at all, else the list.
std::optional<Measure> next_to_take(const Frame& f, Measure m) {
  for (const Measure other : measures_of(style_of(f.ticket), f.ticket.choices)) {
    if (other > m && f.ticket.of(other).empty()) return other;
  }
  return neighbour(f, m, 1);
}

// Keeps what was typed; where nothing was, goes on.
void enter(Frame& f, Measure m) {
  if (f.view.entry.empty()) {
    go_to_measure(f, next_to_take(f, m));
  } else {
    keep_reading(f, m);
  }
}

void typed_keys(Frame& f, Measure m) {
  keys_into_entry(
      f, [&] { enter(f, m); },
      [&] {
        if (f.view.entry_problem) f.view.entry.clear();  // it was told why, and is given up
        go_to_measure(f, std::nullopt);
      });
}

void head(Frame& f, const Box& row, Measure m) {
  const bool narrow = f.layout.narrow;
  const float steps = 2.0F * kTarget + 16.0F, list = narrow ? 64.0F : row.w - steps;
  const ButtonStyle all{.name = f.words("ui.all-measures")};
  const char* face = narrow ? "ui.all-measures-short" : "ui.all-measures";
  if (button(f, "measure.list", row.left(list), f.words(face), all)) {
    go_to_measure(f, std::nullopt);
  }
  if (narrow) {
    const Box middle = row.after(list).left(row.w - list - steps);
    const std::string name = f.words(word_key(m));
    f.paint.boxed_text(middle.inset(6.0F, 0.0F), name, kLarge, f.colours.ink);
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
  words_at(f, "measure.how", text, how);
}

void entry_field(Frame& f, const Box& box, Measure m) {
  const bool wrong = f.view.entry_problem.has_value();
  if (number_entry(f, box,
                   {.name = f.words(word_key(m)),
                    .wrong = wrong ? sentence_of(f, *f.view.entry_problem) : "",
                    .about = "entry.unit measure.how",
                    .weight = info(m).is_weight})) {
    enter(f, m);
  }
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
  if (f.ui.acted(id)) {
    f.commands.push_back(RemoveReading{m, index});
    f.view.focus_on = "entry";  // it is likely to be taken again
  }
}

void readings(Frame& f, Columns& flow, Measure m) {
  const auto& texts = f.ticket.of(m);
  if (texts.empty()) {
    const Value* value = f.derived.body ? &f.derived.body->of(m) : nullptr;
    if (value == nullptr || !value->estimated()) return;
    const std::string words = estimate_words(f, m);
    const Box line = flow.next(paragraph_height(words, flow.width(), kBody));
    f.paint.paragraph({line.x, line.y}, line.w, words, kBody, f.colours.chalk_text);
    words_at(f, "measure.estimate", line, words);
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
  const std::string words =
      f.words("ui.middle-and-spread", {f.length(v.value), f.length(v.spread)});
  f.paint.text({line.x, line.centre().y}, words, kBody, f.colours.soft);
  words_at(f, "measure.spread", line, words);
}

// What is wrong with the measure, then what else is worth knowing of it.
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

// How high the parts of the keypad's block are, which stands at the foot of the sheet and stays there:
// the number, its keys, and what keeps it, below them or where that has no room beside the number.
struct Pad {
  float entry, key, keep, gap;
  bool beside;

  [[nodiscard]] float height(const Frame& f) const {
    return entry + gap + keypad_height(f, key) + (beside ? 0.0F : gap + keep);
  }
};

Pad pad_of(const Frame& f, float room) {
  if (f.layout.narrow) {
    return {.entry = kTarget, .key = kTarget, .keep = 50.0F, .gap = 6.0F, .beside = f.layout.bare};
  }
  const bool high = room > 700.0F;
  return {.entry = 60.0F, .key = high ? 56.0F : 50.0F, .keep = 56.0F, .gap = kGap, .beside = false};
}

// Keeps what was typed; with nothing typed it leads on, and says where to.
void keep_key(Frame& f, const Box& box, Measure m) {
  const std::optional<Measure> next = next_to_take(f, m);
  std::string words = f.words("ui.keep");
  if (f.view.entry.empty()) {
    words = next ? f.words("ui.keep-next", {f.words(word_key(*next))}) : f.words("ui.keep-done");
  }
  const bool quiet = f.view.entry.empty();
  const ButtonStyle style{.look = quiet ? Look::Outline : Look::Solid,
                          .type = f.layout.bare ? kStrong : kLarge};
  if (button(f, "keep", box, words, style)) enter(f, m);
}

void pad_block(Frame& f, const Box& box, Measure m, const Pad& pad) {
  const PadKind kind = info(m).is_weight             ? PadKind::Weight
                       : f.ticket.unit == Unit::Inch ? PadKind::Inches
                                                     : PadKind::Centimetres;
  const Box first = box.top(pad.entry);
  const float keep = pad.beside ? std::min(0.36F * box.w, 130.0F) : 0.0F;
  entry_field(f, first.left(first.w - (pad.beside ? keep + pad.gap : 0.0F)), m);
  if (pad.beside) keep_key(f, first.after(first.w - keep), m);
  const Box keys = box.below(pad.entry + pad.gap).top(keypad_height(f, pad.key));
  keypad(f, keys, kind);
  if (!pad.beside) keep_key(f, {box.x, keys.bottom() + pad.gap, box.w, pad.keep}, m);
}

// On a phone, where one thing has room above the keypad: where the tape runs, unless something is
// wrong.
bool tells_how_to_first(const Frame& f, Measure m) {
  return !f.view.entry_problem && sentences_about(f, info(m).id).empty();
}

// What is known of the measure, above the keypad or beside it; it scrolls by itself, so that the keys
// stay under the thumb whatever is said.
// A reading of an earlier coat may count for this one.
void still_same(Frame& f, Columns& flow, Measure m) {
  if (!f.ticket.carried[static_cast<size_t>(m)]) return;
  if (button(f, "still-same", flow.next(kTarget), f.words("ui.still-same", {value_words(f, m)}))) {
    f.commands.emplace_back(StillSame{m, f.today.month});
  }
}

float told_of_measure(Frame& f, const Box& box, Measure m) {
  Columns flow(box, box.w, f.layout.narrow ? 8.0F : kGap);
  if (f.layout.bare && !f.layout.portrait) {
    head(f, flow.next(kTarget).left(flow.width() - 12.0F), m);
  }
  if (!f.layout.narrow) title(f, flow, m);
  const bool how_to_first = !f.layout.narrow || tells_how_to_first(f, m);
  if (how_to_first) how_to(f, flow, m);
  still_same(f, flow, m);
  sentences(f, flow, m, 3);
  readings(f, flow, m);
  value_line(f, flow, m);
  if (!how_to_first) how_to(f, flow, m);
  if (f.layout.narrow) status_row(f, flow);
  return flow.height();
}

void taking(Frame& f, const Box& sheet, Measure m) {
  typed_keys(f, m);
  const bool narrow = f.layout.narrow, lying = f.layout.bare && !f.layout.portrait;
  const float side = narrow ? 14.0F : 22.0F, top = narrow ? 10.0F : 26.0F;
  const float foot = narrow ? 8.0F : 20.0F;
  const Box box{sheet.x + side, sheet.y + top, sheet.w - 2.0F * side, sheet.h - top - foot};
  const Pad pad = pad_of(f, sheet.h);
  const float height = pad.height(f);
  const bool two = box.w > 640.0F;
  const Box left = two ? box.column(0, 2, kColumnGap) : box;
  const Box block{two ? box.column(1, 2, kColumnGap).x : box.x, two ? box.y : box.bottom() - height,
                  left.w, height};
  const float above = lying ? 0.0F : kTarget + (narrow ? 6.0F : kGap);
  // Clear of the sheet's turned corner.
  const float corner = narrow ? 12.0F : 0.0F;
  if (!lying) head(f, left.left(left.w - corner).top(kTarget), m);
  Box told{sheet.x, box.y + above, two ? left.right() + 4.0F - sheet.x : sheet.w, 0.0F};
  told.h = (two ? sheet.bottom() : block.y - pad.gap) - told.y;
  scrolled(f, "sheet.taking", told, [&](const Box& inner) {
    return told_of_measure(f, {left.x, inner.y, left.w, inner.h}, m) + 4.0F;
  });
  pad_block(f, block, m, pad);
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
  f.view.focus_on = next ? "entry" : std::string("measure.") + info(*f.view.measure).id;
  f.view.entry.clear();
  f.view.entry_problem.reset();
  f.view.measure = next;
  f.view.scrolls["sheet.taking"] = 0.0F;
}

void measure_sheet(Frame& f, const Box& box) {
  if (f.view.measure) return taking(f, box, *f.view.measure);
  scrolled(f, "sheet.measure", box, [&](const Box& content) {
    return measure_list(f, sheet_content(f, content)) + kSheetPad;
  });
}

}  // namespace coatwright::studio
