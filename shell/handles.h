// Handles on the board: points of the draft that a finger moves, each the servant of one choice.
//
// A handle follows the finger for any choice by one rule: the draft says where the handle's point
// stands for a value, so the value that brings it nearest to the finger is found by stepping along
// d(point)/d(value), measured on the draft itself.
#pragma once

#include <string>
#include <vector>

#include "core/cut/cut.h"

namespace coatwright::studio {

struct Handle {
  const char* id;  // of the control: "handle.front-depth"
  Choice choice;
  const char* piece;  // whose coordinates its point is in
};
[[nodiscard]] const std::vector<Handle>& handles();

// Where the handle stands on the pattern, in its piece's coordinates; nothing if it has no place.
[[nodiscard]] std::optional<Point> place_of(const Handle& handle, const Pattern& pattern);

// The value of the handle's choice that brings it nearest to `target` (piece coordinates), inside
// the choice's range; within about 0.1 mm where the point moves smoothly.
[[nodiscard]] double value_toward(const Handle& handle, const Tape& tape, const Choices& choices,
                                  Point target);

}  // namespace coatwright::studio
