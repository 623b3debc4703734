#include "core/body/measures.h"

#include <algorithm>

namespace coatwright {

namespace {

// Entry limits, mm and kg. Weight: breeds span 1 to 115 kg (Hawthorne et al. 2004), the smallest
// dog on record had about half a kilogram. Withers height: breeds span 19 to 84 cm (Frynta et al.
// 2012, PLoS ONE 7, pone.0046125), the record dogs stood 9.65 and 111.8 cm high (Guinness records,
// through secondary pages). Chest: those weights by the girth-weight law (ratios.cpp), rounded
// outward. The others are those limits carried over by the widest ratio that any dog is known to
// have (ratios.cpp), rounded outward; they keep out slips of the finger, the ratios keep out odd
// dogs.
constexpr std::array<MeasureInfo, kMeasures> kTable = {{
    {Measure::Back, "back", Need::Required, false, 80.0, 1300.0},
    {Measure::Neck, "neck", Need::Required, false, 70.0, 1000.0},
    {Measure::Chest, "chest", Need::Required, false, 160.0, 1350.0},
    {Measure::Drop, "drop", Need::Required, false, 40.0, 650.0},
    {Measure::Breast, "breast", Need::Required, false, 90.0, 1500.0},
    {Measure::Throat, "throat", Need::Recommended, false, 5.0, 450.0},
    {Measure::GirthPlace, "girth-place", Need::Recommended, false, 10.0, 500.0},
    {Measure::Loin, "loin", Need::Recommended, false, 80.0, 1500.0},
    {Measure::Underline, "underline", Need::Recommended, false, 40.0, 1200.0},
    {Measure::Weight, "weight", Need::Recommended, true, 0.5, 115.0},
    {Measure::ForelegSpacing, "foreleg-spacing", Need::ByStyle, false, 5.0, 350.0},
    {Measure::ForelegGirth, "foreleg-girth", Need::ByStyle, false, 25.0, 450.0},
    {Measure::ElbowHeight, "elbow-height", Need::ByStyle, false, 20.0, 700.0},
    {Measure::WithersHeight, "withers-height", Need::ByStyle, false, 90.0, 1120.0},
    {Measure::NeckLength, "neck-length", Need::ByStyle, false, 15.0, 500.0},
    {Measure::HeadGirth, "head-girth", Need::ByStyle, false, 80.0, 900.0},
}};

constexpr bool in_order() {
  for (size_t i = 0; i < kTable.size(); ++i) {
    if (static_cast<size_t>(kTable[i].measure) != i) return false;
  }
  return true;
}
static_assert(in_order(), "the table is indexed by Measure");

}  // namespace

Value value_of(const std::vector<double>& readings) {
  std::vector<double> sorted = readings;
  std::sort(sorted.begin(), sorted.end());
  const size_t half = sorted.size() / 2;
  const double median =
      sorted.size() % 2 == 1 ? sorted[half] : 0.5 * (sorted[half - 1] + sorted[half]);
  return {median, sorted.back() - sorted.front(), static_cast<int>(sorted.size()), nullptr};
}

const std::array<MeasureInfo, kMeasures>& measure_table() { return kTable; }

const MeasureInfo& info(Measure m) { return kTable[static_cast<size_t>(m)]; }

std::optional<Measure> measure_by_id(std::string_view id) {
  for (const MeasureInfo& row : kTable) {
    if (id == row.id) return row.measure;
  }
  return std::nullopt;
}

}  // namespace coatwright
