// A cloth on the shelf: what the maker has or would buy, and what a lay on it must keep to.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "core/base/problem.h"
#include "core/units/length.h"

namespace coatwright {

// Trial cloth is what the first, cheap coat is cut from.
enum class ClothUse { Shell, Insulation, Lining, Laminate, Trial };
inline constexpr int kClothUses = 5;
[[nodiscard]] const char* cloth_use_id(ClothUse use);  // "shell", ... "cloth.shell" in the words

[[nodiscard]] std::optional<ClothUse> cloth_use_by_id(std::string_view id);

// Which way a cloth gives when it is pulled.
enum class Stretch { None, Across, Along, Both };
enum class PricedBy { Metre, Yard, Piece };

struct Cloth {
  std::string name = {};  // as the maker calls it; empty: the usual cloth of its use
  ClothUse use = ClothUse::Shell;
  double width_mm = 1120.0;  // from selvage to selvage, or of a roll
  double selvage_mm = 10.0;  // at each side, where no piece may lie
  double gap_mm = 3.0;       // between pieces, for the blade
  bool one_way = false;      // nap, or a print that has a top
  Stretch stretch = Stretch::None;
  // Of stripes or a print along the cloth's length, and across its width; 0: none. Pieces are laid
  // so that stripes meet (core/lay/stripes.h).
  double repeat_mm = 0.0, repeat_across_mm = 0.0;
  double first_stripe_mm = 0.0;  // across the width: from the edge to the middle of a stripe
  double shrinkage = 0.0;        // part of its length that the first wash takes, 0 to 0.2
  double fusing = 0.0;           // part of its length and width that fusing laminate to it takes
  double iron_c = 0.0;  // °C, the hottest iron; of laminate, what it is fused at; 0: not known
  double fuse_s = 0.0;  // seconds a place that laminate is fused for; 0: not known
  bool keeps_holes = false;   // coated, waxed or laminated: what a needle makes stays and leaks
  double thickness_mm = 0.0;  // 0: not known
  double price = 0.0;         // in the maker's own money; 0: not known
  PricedBy priced_by = PricedBy::Metre;
  double piece_mm = 0.0;  // length of a piece, for cloth that is sold by the piece
  double rest_mm = 0.0;   // length of a rest that lies on the shelf; 0: cloth is bought by length
  bool operator==(const Cloth&) const = default;
};
// A repeat that is finer is not matched. Common practice, no source.
inline constexpr double kLeastRepeat = 2.0;   // mm
inline constexpr size_t kMostClothName = 60;  // characters

// A number of a cloth, and what is possible of it.
struct ClothNumber {
  const char* field;  // "cloth-width": "subject.cloth-width" in the words
  double Cloth::*number;
  double lowest, highest;
  bool is_length;
};
[[nodiscard]] std::span<const ClothNumber> cloth_numbers();

// What shops sell most for this use, in round numbers of the unit that they sell it in: quilting
// cotton and fleece as conversion charts list their widths (44-45 in, 58-60 in); the iron as the dots
// of care labels mean it (one 110, three 200 degrees: values from memory); the rest common practice,
// no source.
[[nodiscard]] Cloth usual_cloth(ClothUse use, Unit unit = Unit::Inch);

// Between the selvages.
[[nodiscard]] double usable_width(const Cloth& cloth);

// ClothLengthOutOfRange or ClothNumberOutOfRange with the field as its subject, or ClothTooNarrow
// when nothing is left between the selvages, ClothPieceMissing for a price by the piece without its
// length.
[[nodiscard]] std::optional<Problem> fault_of(const Cloth& cloth);

// Rounded up to what shops cut: an eighth of a yard (yardage charts) or, common practice, no
// source, 10 cm.
[[nodiscard]] double as_shops_cut(double length_mm, Unit unit);
// Cloth that a shop cuts is not always cut square: so much more is bought of it. Common practice, no
// source.
inline constexpr double kCrookedCut = 50.0;  // mm
// To buy for a lay: one repeat (common practice, no source) and shrinkage added, and what is lost to
// a crooked cut; or by pieces. Of a rest nothing is bought.
[[nodiscard]] double length_to_buy(const Cloth& cloth, double lay_mm, Unit unit);
// How much a rest is too short for a lay, a repeat and shrinkage added; 0 if it is long enough or
// no rest.
[[nodiscard]] double lacks_of_rest(const Cloth& cloth, double lay_mm);
// What that length costs, a rest nothing; nothing while the price is not known.
[[nodiscard]] std::optional<double> cost_of(const Cloth& cloth, double bought_mm);

}  // namespace coatwright
