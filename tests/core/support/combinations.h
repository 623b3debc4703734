// Sets of options that between them hold every pair of option values.
//
// How they are made: the factors are the named choices of a style, their values the named options.
// Greedy covering, one set at a time: of a fixed number of candidates, each begun with a pair that
// is not covered yet and filled in, factor by factor in an order of its own, with the value that
// covers most new pairs, the candidate that covers most is taken, until no pair is left. Seeded, so
// the same on every machine.
#pragma once

#include <string>
#include <vector>

#include "core/draft/styles/style.h"

namespace coatwright::test {

// Every pair of named options of two choices of the style stands in at least one of the sets.
std::vector<Choices> pairwise(const StyleInfo& style, uint64_t seed = 11);

// The named choices of a style.
std::vector<const ChoiceInfo*> factors_of(const StyleInfo& style);

// Each named option alone, all else by default; then every set of pairwise().
std::vector<Choices> all_combinations(const StyleInfo& style);

// "wrap collar=stand hood=none", for a test that failed.
std::string told(const StyleInfo& style, const Choices& choices);
std::string told(const Problem& problem);

}  // namespace coatwright::test
