#include "core/lay/cloth.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

constexpr double kYard = Length::yards(1.0).mm();
constexpr ClothNumber kNumbers[] = {
    {"cloth-width", &Cloth::width_mm, 50.0, 5000.0, true},
    {"cloth-selvage", &Cloth::selvage_mm, 0.0, 100.0, true},
    {"cloth-gap", &Cloth::gap_mm, 0.0, 50.0, true},
    {"cloth-repeat", &Cloth::repeat_mm, 0.0, 1000.0, true},
    {"cloth-repeat-across", &Cloth::repeat_across_mm, 0.0, 1000.0, true},
    {"cloth-first-stripe", &Cloth::first_stripe_mm, 0.0, 1000.0, true},
    {"cloth-thickness", &Cloth::thickness_mm, 0.0, 30.0, true},
    {"cloth-piece", &Cloth::piece_mm, 0.0, 50000.0, true},
    {"cloth-rest", &Cloth::rest_mm, 0.0, 50000.0, true},
    {"cloth-shrinkage", &Cloth::shrinkage, 0.0, 0.2, false},
    {"cloth-fusing", &Cloth::fusing, 0.0, 0.2, false},
    {"cloth-iron", &Cloth::iron_c, 0.0, 230.0, false},
    {"cloth-fuse-seconds", &Cloth::fuse_s, 0.0, 120.0, false},
    {"cloth-price", &Cloth::price, 0.0, 100000.0, false},
};

}  // namespace

std::span<const ClothNumber> cloth_numbers() { return kNumbers; }

const char* cloth_use_id(ClothUse use) {
  switch (use) {
    case ClothUse::Shell:
      return "shell";
    case ClothUse::Insulation:
      return "insulation";
    case ClothUse::Lining:
      return "lining";
    case ClothUse::Laminate:
      return "laminate";
    case ClothUse::Trial:
      return "trial";
  }
  return "";
}

std::optional<ClothUse> cloth_use_by_id(std::string_view id) {
  for (int i = 0; i < kClothUses; ++i) {
    if (id == cloth_use_id(static_cast<ClothUse>(i))) return static_cast<ClothUse>(i);
  }
  return std::nullopt;
}

Cloth usual_cloth(ClothUse use, Unit unit) {
  const bool inch = unit == Unit::Inch;
  // As wide as it is sold in inches or in centimetres.
  const auto wide = [&](double in, double cm) {
    return (inch ? Length::inches(in) : Length::cm(cm)).mm();
  };
  Cloth cloth{.use = use,
              .selvage_mm = wide(0.375, 1.0),
              .gap_mm = wide(0.125, 0.3),
              .priced_by = inch ? PricedBy::Yard : PricedBy::Metre};
  constexpr double kOneDot = 110.0, kThreeDots = 200.0;
  switch (use) {
    case ClothUse::Shell:
    case ClothUse::Trial:  // muslin comes as wide as quilting cotton
      cloth.width_mm = wide(44.0, 112.0);
      cloth.iron_c = kThreeDots;
      break;
    case ClothUse::Insulation:
      cloth.width_mm = wide(60.0, 150.0);
      cloth.selvage_mm = 0.0;
      cloth.iron_c = kOneDot;
      break;
    case ClothUse::Lining:
      cloth.width_mm = wide(58.0, 150.0);
      cloth.one_way = true;  // fleece is laid with its nap
      cloth.iron_c = kOneDot;
      break;
    case ClothUse::Laminate:
      cloth.width_mm = wide(17.0, 43.0);
      cloth.selvage_mm = 0.0;
      cloth.iron_c = 120.0;
      cloth.fuse_s = 15.0;
      break;
  }
  return cloth;
}

double usable_width(const Cloth& cloth) { return cloth.width_mm - 2.0 * cloth.selvage_mm; }

std::optional<Problem> fault_of(const Cloth& cloth) {
  for (const ClothNumber& n : kNumbers) {
    const double value = cloth.*n.number;
    if (value >= n.lowest && value <= n.highest) continue;
    return Problem{.code = n.is_length ? Code::ClothLengthOutOfRange : Code::ClothNumberOutOfRange,
                   .subject = n.field,
                   .values = {value, n.lowest, n.highest},
                   .other = cloth_use_id(cloth.use)};
  }
  if (cloth.priced_by == PricedBy::Piece && cloth.piece_mm < 10.0) {
    return Problem{.code = Code::ClothPieceMissing, .subject = cloth_use_id(cloth.use)};
  }
  if (usable_width(cloth) >= 20.0) return std::nullopt;
  return Problem{.code = Code::ClothTooNarrow,
                 .subject = cloth_use_id(cloth.use),
                 .values = {cloth.width_mm, cloth.selvage_mm}};
}

double as_shops_cut(double length_mm, Unit unit) {
  const double step = unit == Unit::Inch ? kYard / 8.0 : 100.0;
  return step * std::ceil(length_mm / step - 1e-9);
}

double length_to_buy(const Cloth& cloth, double lay_mm, Unit unit) {
  if (cloth.rest_mm > 0.0) return 0.0;
  const double needed = (lay_mm + cloth.repeat_mm) / (1.0 - cloth.shrinkage);
  if (cloth.priced_by != PricedBy::Piece) return as_shops_cut(needed + kCrookedCut, unit);
  return cloth.piece_mm * std::ceil(needed / cloth.piece_mm - 1e-9);
}

double lacks_of_rest(const Cloth& cloth, double lay_mm) {
  if (cloth.rest_mm <= 0.0) return 0.0;
  return std::max(0.0, (lay_mm + cloth.repeat_mm) / (1.0 - cloth.shrinkage) - cloth.rest_mm);
}

std::optional<double> cost_of(const Cloth& cloth, double bought_mm) {
  if (cloth.rest_mm > 0.0) return 0.0;
  if (cloth.price <= 0.0) return std::nullopt;
  switch (cloth.priced_by) {
    case PricedBy::Metre:
      return cloth.price * bought_mm / 1000.0;
    case PricedBy::Yard:
      return cloth.price * bought_mm / kYard;
    case PricedBy::Piece:
      return cloth.price * bought_mm / cloth.piece_mm;
  }
  return std::nullopt;
}

}  // namespace coatwright
