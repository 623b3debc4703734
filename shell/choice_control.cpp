#include "shell/choice_control.h"

#include <algorithm>
#include <cmath>

namespace coatwright::studio {

double choice_step(Choice c, Unit unit) {
  if (info(c).options > 0) return 1.0;
  if (c == Choice::NeckFullness) return 0.01;
  return unit == Unit::Inch ? 25.4 / 16.0 : 1.0;
}

std::string choice_words(const Frame& f, Choice c, double value) {
  if (info(c).options > 0) {
    const int n = static_cast<int>(std::lround(value));
    return f.words(std::string(info(c).id) + "." + option_id(c, n));
  }
  if (c == Choice::NeckFullness) return std::to_string(std::lround(100.0 * value)) + " %";
  LengthStyle style = f.lengths();
  style.steps_per_inch = 16;
  if (value > -1e-9) return format_length(Length::mm(std::max(0.0, value)), style);
  std::string words = "−";
  words += format_length(Length::mm(-value), style);
  return words;
}

double chosen_value(const Frame& f, Choice c) {
  if (f.derived.pattern) return f.derived.pattern->draft.chosen.of(c);
  const auto range = choice_range(f, c);
  return f.ticket.choices.of(c).value_or(range ? range->sized : 0.0);
}

std::optional<ChoiceRange> choice_range(const Frame& f, Choice c) {
  if (!f.derived.body) return std::nullopt;
  return range_of(c, *f.derived.body);
}

void set_choice(Frame& f, Choice c, double value) {
  const auto range = choice_range(f, c);
  if (!range) return;
  const double step = choice_step(c, f.ticket.unit);
  const double near = std::clamp(std::round(value / step) * step, range->lowest, range->highest);
  if (f.ticket.choices.of(c) == near) return;
  if (!f.ticket.choices.of(c) && std::abs(near - range->sized) < 0.5 * step) return;
  f.commands.push_back(SetChoice{c, near});
}

void add_choice_slider(Frame& f, const std::string& id, Choice c, const Box& box, Travel travel) {
  const auto range = choice_range(f, c);
  if (!range) return;
  const double value = chosen_value(f, c);
  const std::string key = std::string("choice.") + info(c).id;
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
            .travel = travel});
  if (const Gesture* entry = f.ui.find(Gesture::Kind::Entry, id)) {
    char* end = nullptr;
    const double typed = std::strtod(entry->text.c_str(), &end);
    if (end != entry->text.c_str() && std::isfinite(typed)) set_choice(f, c, typed);
  }
}

void draw_option_line(Frame& f, const Box& box, Choice c, int option) {
  Line line;
  for (int i = 0; i <= 24; ++i) {
    const float t = static_cast<float>(i) / 24.0F;
    float y = 0.5F;
    if (c == Choice::HemLine && option == 1) y = 0.5F + 0.28F * std::sin(6.2832F * t);
    if (c == Choice::HemLine && option == 2) y = 0.75F - 0.6F * t * t;
    line.push_back({box.x + box.w * t, box.y + box.h * y});
  }
  if (c == Choice::TailLine) {  // the rear corner, seen from the side
    const float x = box.centre().x, side = 0.5F * std::min(box.w, 1.6F * box.h);
    const float r = option == 0 ? 0.35F * box.h : 0.95F * box.h;
    line = {{x - side, box.bottom()}};
    for (int i = 0; i <= 12; ++i) {
      const float a = 1.5708F * static_cast<float>(i) / 12.0F;
      line.push_back({x + side - r + r * std::sin(a), box.bottom() - r + r * std::cos(a)});
    }
    line.push_back({x + side, box.y});
  }
  f.paint.polyline(line, f.colours.key_text, 2.5F);
}

}  // namespace coatwright::studio
