// What the maker may choose about the cut. Every choice has an id, a range and a default that are
// sized by the body: a toy's band is not a giant's. An unset choice follows its default.
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "core/body/measures.h"

namespace coatwright {

enum class Choice {
  ChestEase,         // mm round the girth
  NeckEase,          // mm round the neck
  BreastEase,        // mm from breastbone to tail
  NeckFullness,      // 0..1, how far the neckline bows
  Overlap,           // mm, closure at the front
  FrontDepth,        // mm along the centre front
  ForelegClearance,  // mm from the foreleg zone
  HemDepth,          // mm added to the side drop
  HemLine,           // 0 level, 1 gentle wave, 2 raised at the loin
  TailLine,          // 0 square with a rounded corner, 1 rounded
  BandWidth,         // mm along the spine
  BandPlace,         // mm behind the foremost place that the foreleg allows
  BandOverlap,       // mm, closure of the band
  SeamAllowance,     // mm, turned edges and seams
  TurningGap,        // mm left open in the lining
};
inline constexpr int kChoices = 15;

struct ChoiceInfo {
  Choice choice;
  const char* id;  // "chest-ease", ... as in tickets and the word table
  int options;     // 0 for a number; else the count of named options (values 0..options-1)
};
[[nodiscard]] const std::array<ChoiceInfo, kChoices>& choice_table();
[[nodiscard]] const ChoiceInfo& info(Choice c);
[[nodiscard]] std::optional<Choice> choice_by_id(std::string_view id);
// The id of option `n` of a named choice, e.g. "level"; used in tickets and as "hem-line.level" in
// the word table.
[[nodiscard]] const char* option_id(Choice c, int n);

// The range that makes sense for this body, and the default. mm or plain numbers.
struct ChoiceRange {
  double lowest = 0.0;
  double highest = 0.0;
  double sized = 0.0;  // the default
};
[[nodiscard]] ChoiceRange range_of(Choice c, const Body& body);

struct Choices {
  std::array<std::optional<double>, kChoices> set;
  [[nodiscard]] const std::optional<double>& of(Choice c) const {
    return set[static_cast<size_t>(c)];
  }
  [[nodiscard]] std::optional<double>& of(Choice c) { return set[static_cast<size_t>(c)]; }
  bool operator==(const Choices&) const = default;
};

// Every choice with a number.
struct Chosen {
  std::array<double, kChoices> value;
  [[nodiscard]] double of(Choice c) const { return value[static_cast<size_t>(c)]; }
};
// A set choice that this body cannot take (the readings may have changed since) is drafted at the
// nearest end of its range, and a ChoiceOutOfRange finding says so; the ticket keeps what was set.
[[nodiscard]] Chosen resolve(const Choices& choices, const Body& body, Findings& findings);

}  // namespace coatwright
