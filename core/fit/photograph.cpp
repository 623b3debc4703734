#include "core/fit/photograph.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

// To a ten thousandth: finer than any picture, and short in a file.
double part(double value) { return std::round(1e4 * std::clamp(value, 0.0, 1.0)) / 1e4; }

}  // namespace

const PhotoPin* pin_of(const Photograph& photograph, size_t note) {
  for (const PhotoPin& pin : photograph.pins) {
    if (pin.note == note) return &pin;
  }
  return nullptr;
}

Photograph with_pin(Photograph photograph, const PhotoPin& pin) {
  photograph = without_pin(std::move(photograph), pin.note);
  photograph.pins.push_back({pin.note, part(pin.x), part(pin.y)});
  return photograph;
}

Photograph without_pin(Photograph photograph, size_t note) {
  std::erase_if(photograph.pins, [&](const PhotoPin& pin) { return pin.note == note; });
  return photograph;
}

Fitting without_note(Fitting fitting, size_t note) {
  if (note >= fitting.notes.size()) return fitting;
  fitting.notes.erase(fitting.notes.begin() + static_cast<std::ptrdiff_t>(note));
  for (Photograph& photograph : fitting.photographs) {
    photograph = without_pin(std::move(photograph), note);
    for (PhotoPin& pin : photograph.pins) pin.note -= pin.note > note ? 1 : 0;
  }
  return fitting;
}

std::optional<size_t> place_of(const Fitting& fitting, const FitNote& note) {
  const auto same = std::find_if(fitting.notes.begin(), fitting.notes.end(), [&](const FitNote& n) {
    return n.place == note.place && n.kind == note.kind;
  });
  if (same == fitting.notes.end()) return std::nullopt;
  return static_cast<size_t>(same - fitting.notes.begin());
}

std::vector<Fitting> without_photographs(std::vector<Fitting> fittings) {
  for (Fitting& fitting : fittings) fitting.photographs.clear();
  return fittings;
}

std::vector<std::string> photographs_of(const std::vector<Fitting>& fittings) {
  std::vector<std::string> out;
  for (const Fitting& fitting : fittings) {
    for (const Photograph& photograph : fitting.photographs) out.push_back(photograph.id);
  }
  return out;
}

}  // namespace coatwright
