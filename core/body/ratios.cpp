#include "core/body/ratios.h"

#include <cmath>

namespace coatwright {

namespace {

// Each with the papers behind it.
const std::vector<Band> kBands = {
    // cm for the cube root of a kilogram: five measured groups, 22.5 to 24.3.
    {"chest/weight", Measure::Chest, Measure::Weight, 20.0, 27.0, 16.0, 32.0,
     "girth-weight law of Cilek & Kavak 2012 (Kangal n=50), Ozbeyaz 1994 (Kangal f, m), BEU J. "
     "Sci. Tech. 1(2) (Akbash n=59), Elmaz et al. 2012 (pups n=38)"},
    // Above 0.71 is the airway-risk cut-off of male Bulldogs, so the high end of normal.
    {"neck/chest", Measure::Neck, Measure::Chest, 0.42, 0.72, 0.28, 1.10,
     "upper: Liu et al. 2017, PLoS ONE 12, pone.0181928 (Bulldog); lower: own rule"},
    // Body length (shoulder to buttock) over girth is 0.50 to 1.05, more for long and low dogs
    // (Italian cynometry's body index, through secondary pages); the coat's back length is another
    // length, so the band is our own and wider.
    {"back/chest", Measure::Back, Measure::Chest, 0.53, 1.25, 0.33, 2.00, "own rule"},
    // The breastbone lies ahead of the collar's place, and both tapes end at the tail.
    {"breast/back", Measure::Breast, Measure::Back, 1.05, 1.45, 1.00, 2.00, "own rule"},
    // At 0.5 the hem would meet the midline below.
    {"drop/chest", Measure::Drop, Measure::Chest, 0.28, 0.45, 0.12, 0.50, "own rule"},
    // The estimate is 0.06 for a broad dog to 0.18 for a deep one; a neck carried low shortens it.
    {"throat/chest", Measure::Throat, Measure::Chest, 0.04, 0.28, 0.01, 0.45, "own rule"},
    // The girth line lies just behind the elbow; on a short back further along it.
    {"girth-place/back", Measure::GirthPlace, Measure::Back, 0.18, 0.36, 0.10, 0.50, "own rule"},
    // No tuck-up is published.
    {"loin/chest", Measure::Loin, Measure::Chest, 0.50, 1.15, 0.35, 1.60, "own rule"},
    {"underline/breast", Measure::Underline, Measure::Breast, 0.35, 0.85, 0.15, 1.20, "own rule"},
    // Kangal 1.13, Akbash 1.15 and 1.19, so 0.95 to 1.35; short-legged dogs far more.
    {"chest/withers-height", Measure::Chest, Measure::WithersHeight, 0.90, 2.30, 0.60, 3.20,
     "Cilek & Kavak 2012 (Kangal n=50), Urosevic et al. 2020 (Akbash n=96); short-legged: own "
     "rule"},
    // cm for the cube root of a kilogram: p5 13.1, median 18.3, p95 21.2.
    {"withers-height/weight", Measure::WithersHeight, Measure::Weight, 11.0, 23.0, 7.0, 32.0,
     "midpoints of 274 breed descriptions"},
    // 0.553; short-legged dogs far less.
    {"elbow-height/withers-height", Measure::ElbowHeight, Measure::WithersHeight, 0.25, 0.65, 0.10,
     0.80, "Urosevic et al. 2020 (Akbash n=96); short-legged: own rule"},
    // Four groups 0.56 to 0.68 (estimates.cpp).
    {"head-girth/chest", Measure::HeadGirth, Measure::Chest, 0.45, 0.95, 0.25, 1.40,
     "Cilek & Kavak 2012 (Kangal n=50), Tepeli & Cetin 2003 (Kangal n=33, Akbash n=30); width of "
     "the band: own rule"},
    {"neck-length/chest", Measure::NeckLength, Measure::Chest, 0.10, 0.55, 0.04, 0.90, "own rule"},
    {"foreleg-girth/chest", Measure::ForelegGirth, Measure::Chest, 0.17, 0.42, 0.08, 0.70,
     "own rule"},
    {"foreleg-spacing/chest", Measure::ForelegSpacing, Measure::Chest, 0.03, 0.30, 0.0, 0.60,
     "own rule"},
};

}  // namespace

const std::vector<Band>& bands() { return kBands; }

std::optional<double> ratio_of(const Band& band, const Taken& taken) {
  const std::optional<double>& over = of(taken, band.over);
  const std::optional<double>& under = of(taken, band.under);
  if (!over || !under) return std::nullopt;
  return band.under == Measure::Weight ? *over / 10.0 / std::cbrt(*under) : *over / *under;
}

double reading_at(const Band& band, Measure end, double ratio, double other_reading) {
  const bool by_weight = band.under == Measure::Weight;
  if (end == band.over) {
    return ratio * (by_weight ? 10.0 * std::cbrt(other_reading) : other_reading);
  }
  const double under = other_reading / ratio;
  return by_weight ? std::pow(under / 10.0, 3.0) : under;
}

}  // namespace coatwright
