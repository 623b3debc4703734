// A cloth on the shelf: what the maker has or would buy, and what a lay on it must keep to.
#pragma once

#include <optional>

#include "core/base/problem.h"
#include "core/units/length.h"

namespace coatwright {

enum class ClothUse { Shell, Insulation, Lining, Laminate };
inline constexpr int kClothUses = 4;
[[nodiscard]] const char* cloth_use_id(ClothUse use);  // "shell", ... "cloth.shell" in the words

struct Cloth {
  ClothUse use = ClothUse::Shell;
  double width_mm = 1120.0;  // from selvage to selvage, or of a roll
  double selvage_mm = 10.0;  // at each side, where no piece may lie
  double gap_mm = 3.0;       // between pieces, for the blade
  bool one_way = false;      // nap, or a print that has a top
  double shrinkage = 0.0;    // part of its length that the first wash takes, 0 to 0.2
  double price = 0.0;        // of a metre, or a yard for those who measure in inches; 0: not known
  bool operator==(const Cloth&) const = default;
};

// What shops sell most for this use: quilting cotton and fleece as conversion charts list their
// widths (44-45 in, 58-60 in); the rest common practice, no source.
[[nodiscard]] Cloth usual_cloth(ClothUse use);

// Between the selvages.
[[nodiscard]] double usable_width(const Cloth& cloth);

// ClothLengthOutOfRange or ClothNumberOutOfRange with the field as its subject, or ClothTooNarrow
// when nothing is left between the selvages.
[[nodiscard]] std::optional<Problem> fault_of(const Cloth& cloth);

// Rounded up to what shops cut: an eighth of a yard (yardage charts) or, common practice, no
// source, 10 cm.
[[nodiscard]] double as_shops_cut(double length_mm, Unit unit);
// What has to be bought for this length of lay, shrinkage added.
[[nodiscard]] double length_to_buy(const Cloth& cloth, double lay_mm, Unit unit);

}  // namespace coatwright
