#include "core/lay/cloth.h"

#include <cmath>

namespace coatwright {
namespace {

struct Bound {
  const char* field;
  double Cloth::*number;
  double lowest, highest;
  Code code = Code::ClothLengthOutOfRange;
};
constexpr Bound kBounds[] = {
    {"cloth-width", &Cloth::width_mm, 50.0, 5000.0},
    {"cloth-selvage", &Cloth::selvage_mm, 0.0, 100.0},
    {"cloth-gap", &Cloth::gap_mm, 0.0, 50.0},
    {"cloth-shrinkage", &Cloth::shrinkage, 0.0, 0.2, Code::ClothNumberOutOfRange},
    {"cloth-price", &Cloth::price, 0.0, 100000.0, Code::ClothNumberOutOfRange},
};

}  // namespace

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
  }
  return "";
}

Cloth usual_cloth(ClothUse use) {
  switch (use) {
    case ClothUse::Shell:
      return {.use = use, .width_mm = 44.0 * 25.4};
    case ClothUse::Insulation:
      return {.use = use, .width_mm = 1500.0, .selvage_mm = 0.0};
    case ClothUse::Lining:
      return {.use = use, .width_mm = 58.0 * 25.4, .one_way = true};  // fleece is laid with its nap
    case ClothUse::Laminate:
      return {.use = use, .width_mm = 17.0 * 25.4, .selvage_mm = 0.0};
  }
  return {};
}

double usable_width(const Cloth& cloth) { return cloth.width_mm - 2.0 * cloth.selvage_mm; }

std::optional<Problem> fault_of(const Cloth& cloth) {
  for (const Bound& b : kBounds) {
    const double value = cloth.*b.number;
    if (value >= b.lowest && value <= b.highest) continue;
    return Problem{.code = b.code,
                   .subject = b.field,
                   .values = {value, b.lowest, b.highest},
                   .other = cloth_use_id(cloth.use)};
  }
  if (usable_width(cloth) >= 20.0) return std::nullopt;
  return Problem{.code = Code::ClothTooNarrow,
                 .subject = cloth_use_id(cloth.use),
                 .values = {cloth.width_mm, cloth.selvage_mm}};
}

double as_shops_cut(double length_mm, Unit unit) {
  constexpr double kYard = 914.4;
  const double step = unit == Unit::Inch ? kYard / 8.0 : 100.0;
  return step * std::ceil(length_mm / step - 1e-9);
}

double length_to_buy(const Cloth& cloth, double lay_mm, Unit unit) {
  return as_shops_cut(lay_mm / (1.0 - cloth.shrinkage), unit);
}

}  // namespace coatwright
