// Which reading is wrong when the readings do not go together.
#pragma once

#include "core/body/ratios.h"
#include "core/units/length.h"

namespace coatwright {

// A reading that, changed alone, would bring the others together, and the value that would.
struct Culprit {
  Measure measure;
  double taken = 0.0;   // mm or kg
  double agrees = 0.0;  // mm or kg
};

// Leaves each reading out in turn and asks what value the others want for it: the culprit is the
// one whose change clears most of the bands that are left, and then brings all proportions nearest
// to those usual for the build. Looks on for another as long as a band is left. Also names a
// reading that keeps to every band, but lies so far from what all others say together that changing
// it is the likelier story. Empty when the readings go together.
[[nodiscard]] std::vector<Culprit> likely_culprits(const Taken& taken, Build build);

// Two readings that stand in each other's place.
struct Swap {
  Measure one, other;
};
// The pair of required lengths whose exchange brings all readings together, where no change of a
// single one does clearly better. Nothing when the readings go together as they are, or when more
// than the pair is wrong. `taken` may hold readings outside the entry limits.
[[nodiscard]] std::optional<Swap> likely_swap(const Taken& taken, Build build);

// True if a reading lies outside its entry limits, or two go together in no dog.
[[nodiscard]] bool fits_no_dog(const Taken& taken);

// True if `given` breaks what no dog breaks, and `other`, the same readings read in another way,
// breaks nothing.
[[nodiscard]] bool fits_far_better(const Taken& other, const Taken& given);

// The unit in which all the lengths were read off the tape, if as they stand no dog has them, and
// in that unit they fit one another and the weight; the weight may have been read in the other unit
// too. `taken` may hold readings outside the entry limits. Lengths alone fit a larger or a smaller
// dog as well as their own: it is the weight and the entry limits that tell.
[[nodiscard]] std::optional<Unit> lengths_meant_in(const Taken& taken);

}  // namespace coatwright
