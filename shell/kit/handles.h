// Handles on the board: points of the draft that a finger moves (core/draft/option.h).
//
// A handle follows the finger for any choice by one rule: the draft says where the handle's point
// stands for a value, so the value that brings it nearest to the finger is found by stepping along
// d(point)/d(value), measured on the draft itself.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "core/fit/fitted.h"

namespace coatwright::studio {

[[nodiscard]] std::string handle_id(const HandleInfo& handle);  // "handle.front-depth"

// Where a handle's point stands for a value of its choice, in the piece's coordinates; nothing where
// that cannot be drafted. Each call costs a draft. Good for as long as what it is made of.
using PointAt = std::function<std::optional<Point>(double value)>;
[[nodiscard]] PointAt point_of(const HandleInfo& handle, const StyleInfo& style, const Body& body,
                               const Choices& choices, const Alterations& alterations);

// The value within `range` that brings the point nearest to `target`, from where it stands now
// (`here`, at `value`); within about 0.1 mm where it moves smoothly. This is done at every frame of
// a drag, so it asks for few drafts: none for a point that is there already, two for a straight
// path, three at the most.
[[nodiscard]] double value_toward(const ChoiceRange& range, double value, Point here,
                                  const PointAt& point_at, Point target);

}  // namespace coatwright::studio
