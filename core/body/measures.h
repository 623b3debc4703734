// The measures of a dog as the tape gives them, and their values.
//
// Each measure holds one to five readings; its value is their median. A missing optional measure is
// estimated by a named rule with its source, and says so. Lengths in mm, weight in kg.
#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace coatwright {

enum class Measure {
  Back,    // along the spine, base of the neck to base of the tail
  Neck,    // round the base of the neck where the neckline will lie, two fingers under the tape
  Chest,   // round the deepest part of the rib cage, just behind the elbows
  Drop,    // from the spine at the girth line down the side to the wanted hem
  Breast,  // from the middle of the breastbone along the side to the base of the tail
  Throat,  // from the collar's place at the throat straight down to the middle of the breastbone
  GirthPlace,  // along the spine from the collar's place to the chest tape
  Loin,        // round the narrowest part before the hind legs
  Underline,  // from the middle of the breastbone, between the forelegs, back to where a belly band
              // may end
  Weight,     // kg
  ForelegSpacing,  // between the forelegs, inside to inside, at the breast
  ForelegGirth,    // round the foreleg at the elbow
  ElbowHeight,     // ground to elbow
  WithersHeight,   // ground to the highest point of the shoulders
  NeckLength,      // base of the skull to base of the neck, along the top
  HeadGirth,       // round the head before the ears
};
inline constexpr int kMeasures = 16;
inline constexpr int kMostReadings = 5;

enum class Need { Required, Recommended, ByStyle };

struct MeasureInfo {
  Measure measure;
  const char* id;  // "back", "neck", ... as in tickets and the word table
  Need need;
  bool is_weight;  // kg instead of mm
  double lowest;   // entry limits, mm or kg: below or above is refused
  double highest;
};
[[nodiscard]] const std::array<MeasureInfo, kMeasures>& measure_table();
[[nodiscard]] const MeasureInfo& info(Measure m);
[[nodiscard]] std::optional<Measure> measure_by_id(std::string_view id);

enum class Sex { Unknown, Female, Male };
enum class Build { Ordinary, Broad, Deep, LongLow };  // broad-chested, deep-chested, long and low
enum class Coat { Short, Medium, Thick };

// What the tape and the eye gave. Readings in mm (kg for weight), in the order taken.
struct Tape {
  std::array<std::vector<double>, kMeasures> readings;
  Sex sex = Sex::Unknown;
  Build build = Build::Ordinary;
  Coat coat = Coat::Short;
  std::optional<int> age_months;  // when measured

  [[nodiscard]] const std::vector<double>& of(Measure m) const {
    return readings[static_cast<size_t>(m)];
  }
  [[nodiscard]] std::vector<double>& of(Measure m) { return readings[static_cast<size_t>(m)]; }
  bool operator==(const Tape&) const = default;
};

// One measure's value as the draft uses it.
struct Value {
  double value = 0.0;          // mm or kg
  double spread = 0.0;         // largest less smallest reading
  int readings = 0;            // 0 when estimated
  const char* rule = nullptr;  // id of the estimating rule when estimated
  double altered = 0.0;        // of the value, what fittings have changed it by (core/fit)
  [[nodiscard]] bool estimated() const { return readings == 0; }
};

// The median of at least one reading, and their spread.
[[nodiscard]] Value value_of(const std::vector<double>& readings);

// A dog that can be drafted: every measure has a value.
struct Body {
  std::array<Value, kMeasures> values;
  Sex sex = Sex::Unknown;
  Build build = Build::Ordinary;
  Coat coat = Coat::Short;
  [[nodiscard]] const Value& of(Measure m) const { return values[static_cast<size_t>(m)]; }
  [[nodiscard]] double mm(Measure m) const { return of(m).value; }
  [[nodiscard]] double weight_kg() const { return of(Measure::Weight).value; }
};

}  // namespace coatwright
