#include "shell/kit/entry.h"

#include <algorithm>

#include "shell/kit/keypad.h"
#include "shell/kit/widgets.h"

namespace coatwright::studio {
namespace {

constexpr float kUnits = 92.0F;  // width of the switch at the number's end
constexpr size_t kLongest = 40;

}  // namespace

bool number_entry(Frame& f, const Box& box, const NumberEntry& entry) {
  bool whole = false;
  if (std::optional<std::string> entered = f.ui.entered("entry", f.view.entry)) {
    whole = entered->ends_with('\n');
    if (whole) entered->pop_back();
    f.view.entry = entered->substr(0, kLongest);
    f.view.entry_problem.reset();
  }
  const bool wrong = f.view.entry_problem.has_value();
  f.ui.add({.id = "entry",
            .role = ControlRole::Number,
            .name = entry.name,
            .value = f.view.entry,
            .box = box.left(box.w - kUnits),
            .note = wrong ? entry.wrong : "",
            .about = entry.about});
  f.paint.fill(box, f.colours.card, 12.0F);
  f.paint.outline(box, wrong ? f.colours.brick : f.colours.ink, wrong ? 3.0F : 2.0F, 12.0F);
  const Spot at{box.x + (f.layout.narrow ? 12.0F : 18.0F), box.centre().y};
  const float room = box.right() - kUnits - 10.0F - at.x;
  const std::string shown = set_entry(f.view.entry);
  const Type type = text_width(shown, kFigure) <= room ? kFigure : kTitle;
  f.paint.clipped_text(at, room, shown, type, wrong ? f.colours.brick : f.colours.ink);
  const float caret = at.x + std::min(room, text_width(shown, type)) + 3.0F;
  f.paint.line({caret, at.y - 17.0F}, {caret, at.y + 17.0F}, f.colours.chalk, 2.0F);
  const bool inches = f.ticket.unit == Unit::Inch;
  const std::string inch = f.words(entry.weight ? "ui.lb" : "ui.in");
  const std::string metric = f.words(entry.weight ? "ui.kg" : "ui.cm");
  const Box units{box.right() - kUnits, box.centre().y - 0.5F * kTarget, kUnits, kTarget};
  words_at(f, "entry.unit", units, inches ? inch : metric);  // the one that is on
  if (unit_switch(f, "pad.unit", units, inch, metric, false)) {
    f.commands.push_back(SetUnit{inches ? Unit::Centimetre : Unit::Inch});
  }
  return whole;
}

void keys_into_entry(Frame& f, const std::function<void()>& enter,
                     const std::function<void()>& escape) {
  if (const Control* c = f.ui.control(f.ui.focus); c != nullptr && c->role == ControlRole::Text)
    return;
  std::erase_if(f.ui.keys(), [&](const Key& key) {
    if (key.control) return false;
    if (key.name == "Enter") {
      enter();
    } else if (key.name == "Escape") {
      escape();
    } else if (key.name == "Backspace") {
      f.view.entry = edited(f.view.entry, "back");
      f.view.entry_problem.reset();
    } else if (key.name.size() == 1 || static_cast<unsigned char>(key.name[0]) >= 0x80) {
      if (f.view.entry.size() < kLongest) f.view.entry += key.name;
      f.view.entry_problem.reset();
    } else {
      return false;
    }
    return true;
  });
}

}  // namespace coatwright::studio
