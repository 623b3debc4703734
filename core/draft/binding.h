// Strips on the bias that wrap an edge: how wide and how long they are cut, and where they lie flat.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/draft/draft.h"

namespace coatwright {

enum BindingFolds { kDoubleFold, kFrenchFold };

// How wide the strip is cut: so many times the finished width, as the edge is wrapped, and what the
// stack of layers takes on the way round.
[[nodiscard]] double binding_cut_width(int fold, double finished_mm, double stack_mm);

// Finished, round the edge of one layer or two: a slit, the allowance of a neckline seam. Of the
// cloth, not of the dog; common practice, no source.
inline constexpr double kNarrowBinding = 6.0;  // mm

// The smallest radius that a binding of a finished width lies flat on.
[[nodiscard]] double tightest_bind(double finished_mm);

// A run of binding on the sewn coat: bound edges one behind the other, from piece to piece over the
// seams and to the other half over the fold.
struct BoundRun {
  std::string piece;               // that has most of it
  std::vector<std::string> edges;  // by id, each once
  int count = 1;                   // of runs that are alike: round the one leg and the other
  double length = 0.0;             // of each, as it is sewn: darts closed
  int ends = 0;                    // none: it is a ring
};
// Of the outside layer, in the order of the draft.
[[nodiscard]] std::vector<BoundRun> bound_runs(const Draft& draft);
// The strip for a run: joined to a ring, or folded under at its ends.
[[nodiscard]] double binding_length(const BoundRun& run, double cut_width_mm);
// The length of all runs, read off the pieces' outlines.
[[nodiscard]] double measured_bound(const Draft& draft);

// What the strips are known by beside the pieces: "piece.binding" in the words.
inline constexpr const char* kBindingStrips = "binding";

// Strips of one width and length, cut on the bias: across the cloth at 45 degrees, their ends along
// the grain, so that they are joined end to end with a seam along the grain.
struct BiasStrips {
  double width_mm = 0.0;
  int count = 0;
  double length_mm = 0.0;  // of each along its middle, joins included
};
// The fewest, none longer than `longest_mm`, that give one strip of `length_mm`.
[[nodiscard]] BiasStrips bias_strips(double length_mm, double width_mm, double longest_mm);
// Two strips that are joined are shorter than both by this: their seam runs across them at 45 degrees.
inline constexpr double kStripSeam = 6.35;  // mm, its allowance: 1/4 in; common practice, no source
[[nodiscard]] double bias_join();
// As they lie beside one another on the cloth, cut in one block: a parallelogram with its short
// sides along x, which is the grain.
[[nodiscard]] Polyline bias_block(const BiasStrips& strips);
// All binding of the coat that is cut from its outer cloth, which is of one width; none where there
// is none. Strips are as long as a table and the coat's own cloth have room for.
[[nodiscard]] std::optional<BiasStrips> binding_strips(const Draft& draft);

}  // namespace coatwright
