#include "shell/kit/choice_control.h"

#include <algorithm>
#include <cmath>

namespace coatwright::studio {

double choice_step(const ChoiceInfo& c, Unit unit) {
  if (c.named()) return 1.0;
  if (c.amount == Amount::Share) return 0.01;
  return unit == Unit::Inch ? 25.4 / 16.0 : 1.0;
}

std::string choice_words(const Frame& f, const ChoiceInfo& c, double value) {
  if (c.named()) {
    const auto n = static_cast<size_t>(std::lround(value));
    return f.words(std::string(c.id) + "." + c.options[n]);
  }
  if (c.amount == Amount::Share) return std::to_string(std::lround(100.0 * value)) + " %";
  LengthStyle style = f.lengths();
  style.steps_per_inch = 16;
  if (value > -1e-9) return format_length(Length::mm(std::max(0.0, value)), style);
  std::string words = "−";
  words += format_length(Length::mm(-value), style);
  return words;
}

double chosen_value(const Frame& f, const ChoiceInfo& c) {
  return f.derived.chosen ? f.derived.chosen->of(c) : f.ticket.choices.of(c).value_or(c.usual);
}

std::optional<ChoiceRange> choice_range(const Frame& f, const ChoiceInfo& c) {
  if (!f.derived.body) return std::nullopt;
  return range_of(c, *f.derived.body);
}

void set_choice(Frame& f, const ChoiceInfo& c, double value) {
  const auto range = choice_range(f, c);
  if (!range) return;
  const double step = choice_step(c, f.ticket.unit);
  const double near = std::clamp(std::round(value / step) * step, range->lowest, range->highest);
  if (f.ticket.choices.of(c) == near) return;
  if (!f.ticket.choices.of(c) && std::abs(near - range->sized) < 0.5 * step) return;
  f.commands.push_back(SetChoice{&c, near, *range});
}

void add_choice_slider(Frame& f, const std::string& id, const ChoiceInfo& c, const Box& box,
                       Travel travel) {
  const auto range = choice_range(f, c);
  if (!range) return;
  const double value = chosen_value(f, c);
  const std::string key = std::string("choice.") + c.id;
  f.ui.add({.id = id,
            .role = ControlRole::Slider,
            .name = f.words("ui.handle", {f.words(key)}),
            .value = choice_words(f, c, value),
            .box = box,
            .note = f.words(key + ".hint"),
            .low = range->lowest,
            .high = range->highest,
            .now = value,
            .step = choice_step(c, f.ticket.unit),
            .travel = travel,
            .tab = false});  // the side sheet has the same slider
  if (const Gesture* entry = f.ui.find(Gesture::Kind::Entry, id)) {
    char* end = nullptr;
    const double typed = std::strtod(entry->text.c_str(), &end);
    if (end != entry->text.c_str() && std::isfinite(typed)) set_choice(f, c, typed);
  }
}

void draw_option_line(Frame& f, const Box& box, const ChoiceInfo& c, int option) {
  const float side = std::min(box.w, 3.0F * box.h);
  Line line;
  for (const Point p : c.picture(option)) {
    line.push_back({box.centre().x + side * (static_cast<float>(p.x) - 0.5F),
                    box.y + box.h * static_cast<float>(p.y)});
  }
  f.paint.polyline(line, f.colours.key_text, 2.5F);
}

}  // namespace coatwright::studio
