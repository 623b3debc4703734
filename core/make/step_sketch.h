// A step of the work as a small drawing: the pieces that it is about as they were drafted, halves on
// the fold as halves; heavy what is sewn, pressed or finished, dashed what stays open, marks as dots.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/base/words.h"
#include "core/cut/cut.h"
#include "core/draw/drawing.h"

namespace coatwright {

// What stands beside an edge or a mark in the sketch, by its id: letters, the same for edges of one
// seam; numbers, the same for marks that are called alike. None where there is nothing to tell apart.
using Signs = std::vector<std::pair<std::string, std::string>>;
// Empty of what has none.
[[nodiscard]] std::string sign_of(const Signs& signs, std::string_view what);

struct StepSketch {
  Drawing drawing = {};  // true to its size, mm; no items where a sketch would say nothing
  Signs edges = {}, marks = {};
};
// How an edge or a mark is drawn.
enum class Stroke { Plain, Worked, Open, PartOpen };
[[nodiscard]] Stroke stroke_of(const Operation& step, const std::string& edge);

// How wide, mm: a few pieces beside the words of the step, more of them below.
struct SketchRoom {
  double beside = 0.0, across = 0.0;
};
// Nothing of a step that says nothing of single edges and marks, or only of what stood before.
[[nodiscard]] StepSketch sketch_step(const Draft& draft, const CutSet& cut, const Operation& step,
                                     const SketchRoom& room, const Words& words);
// Everything that is cut, by its names.
[[nodiscard]] Drawing sketch_all(const CutSet& cut, double wide, const Words& words);

}  // namespace coatwright
