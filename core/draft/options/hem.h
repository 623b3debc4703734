// The lower edge and the edge over the tail.
#pragma once

#include <optional>

#include "core/draft/option.h"
#include "core/draft/rear.h"

namespace coatwright {

extern const ChoiceInfo kHemLine;
extern const ChoiceInfo kHemRise;
extern const ChoiceInfo kHemLift;
extern const ChoiceInfo kTailLine;
extern const ChoiceInfo kTailFullness;
extern const ChoiceInfo kHemDepth;
extern const OptionInfo kHem;
extern const OptionInfo kPlainHem;  // above the belly, with the same depth and tail lines

[[nodiscard]] HemLine hem_line_of(const Chosen& chosen);
// v of the hem at the girth line.
[[nodiscard]] double hem_drop(const Body& body, const Chosen& chosen);
// The hem ahead of where the chosen line begins to differ from it: risen where it follows the belly,
// level at `drop` for every other line.
[[nodiscard]] BellyHem chosen_hem(const BodyMap& map, const Chosen& chosen, double drop);
// The same for many drops, where one is looked for.
class ChosenHems {
 public:
  ChosenHems(const BodyMap& map, const Chosen& chosen);
  [[nodiscard]] BellyHem at(double drop) const;

 private:
  double from_, to_, lift_ = 0.0;
  std::optional<BellyLevels> belly_;  // that the line follows
};
// What the rear is drafted from: the lines that are chosen, between H and the end of the spine.
[[nodiscard]] RearWanted rear_wanted(const Body& body, const Chosen& chosen, Point hem_start,
                                     double spine_end);

// The point of the body's hem at u; nothing where there is none.
[[nodiscard]] std::optional<Point> hem_at(const Draft& draft, double u);
// The middle of the edge that lies on the body of what is sewn to the hem: a belly band, a girth
// strap. A place for its handle, off the corners and off the hem's own.
[[nodiscard]] std::optional<Point> inside_band(const Draft& draft);

}  // namespace coatwright
