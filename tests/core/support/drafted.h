// Coats with some choices set, and what is on their pieces.
#pragma once

#include <string_view>
#include <utility>
#include <vector>

#include "core/pattern/pattern.h"

namespace coatwright::test {

using Settings = std::vector<std::pair<const ChoiceInfo*, double>>;

inline Checked<Pattern> made_with(const Tape& tape, const Settings& set,
                                  const StyleInfo& style = kWrapCoat) {
  Choices choices;
  for (const auto& [choice, value] : set) choices.set(*choice, value);
  return make_pattern(assess(tape), choices, style);
}

// The mark with this label, and the first whose label begins so; none if there is none.
inline const Mark* mark_of(const Piece& piece, std::string_view label) {
  for (const Mark& m : piece.marks) {
    if (m.label == label) return &m;
  }
  return nullptr;
}
inline const Mark* mark_beginning(const Piece& piece, std::string_view label) {
  for (const Mark& m : piece.marks) {
    if (m.label.starts_with(label)) return &m;
  }
  return nullptr;
}

}  // namespace coatwright::test
