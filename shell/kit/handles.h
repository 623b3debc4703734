// Handles on the board: points of the draft that a finger moves (core/draft/option.h).
//
// A handle follows the finger for any choice by one rule: the draft says where the handle's point
// stands for a value, so the value that brings it nearest to the finger is found by stepping along
// d(point)/d(value), measured on the draft itself.
#pragma once

#include <string>

#include "core/cut/cut.h"
#include "core/draft/styles/style.h"

namespace coatwright::studio {

[[nodiscard]] std::string handle_id(const HandleInfo& handle);  // "handle.front-depth"

// The value of the handle's choice that brings it nearest to `target` (piece coordinates), inside
// the choice's range; within about 0.1 mm where the point moves smoothly.
[[nodiscard]] double value_toward(const HandleInfo& handle, const StyleInfo& style,
                                  const Body& body, const Choices& choices, Point target);

}  // namespace coatwright::studio
