#include "core/body/ratios.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace coatwright {

namespace {


const std::vector<Band> kBands = {
    {"chest/weight", Measure::Chest, Measure::Weight, 20.0, 27.0, 16.0, 32.0,
     "girth-weight law from Cilek & Kavak 2012 (Kangal), Ozbeyaz 1994 (Kangal f/m), BEU J. Sci. "
     "Tech. 1(2) (Akbash), Elmaz et al. 2012 (pups)"},
    {"neck/chest", Measure::Neck, Measure::Chest, 0.42, 0.72, 0.28, 1.10,
     "upper: Bulldog airway-risk cut-off 0.71, Liu et al. 2017, PLoS ONE 12, pone.0181928; lower: "
     "own rule"},
    {"back/chest", Measure::Back, Measure::Chest, 0.53, 1.25, 0.33, 2.00, "own rule"},
    {"breast/back", Measure::Breast, Measure::Back, 1.05, 1.45, 1.00, 2.00, "own rule"},
    {"drop/chest", Measure::Drop, Measure::Chest, 0.28, 0.45, 0.12, 0.50,
     "own rule; at 0.5 the hem meets the midline below"},
    {"loin/chest", Measure::Loin, Measure::Chest, 0.50, 1.15, 0.35, 1.60, "own rule"},
    {"underline/breast", Measure::Underline, Measure::Breast, 0.35, 0.85, 0.15, 1.20, "own rule"},
    {"chest/withers", Measure::Chest, Measure::WithersHeight, 0.90, 2.30, 0.60, 3.20,
     "0.95-1.35: Kangal, Akbash (Cilek & Kavak 2012; Urosevic et al. 2020); short-legged: own "
     "rule"},
    {"withers/weight", Measure::WithersHeight, Measure::Weight, 11.0, 23.0, 7.0, 32.0,
     "274 breed midpoints: p5 13.1, p95 21.2"},
    {"elbow/withers", Measure::ElbowHeight, Measure::WithersHeight, 0.25, 0.65, 0.10, 0.80,
     "0.553: Akbash n=96 (Urosevic et al. 2020); short-legged: own rule"},
    {"head/chest", Measure::HeadGirth, Measure::Chest, 0.45, 0.95, 0.25, 1.40,
     "0.675: Kangal n=50 (Cilek & Kavak 2012); band: own rule"},
    {"neck-length/chest", Measure::NeckLength, Measure::Chest, 0.10, 0.55, 0.04, 0.90, "own rule"},
    {"foreleg-girth/chest", Measure::ForelegGirth, Measure::Chest, 0.17, 0.42, 0.08, 0.70,
     "own rule"},
    {"foreleg-spacing/chest", Measure::ForelegSpacing, Measure::Chest, 0.03, 0.30, 0.0, 0.60,
     "own rule"},
};

double log_ratio(const Band& b, double over, double under) {
  return std::log(band_ratio(b, over, under));
}
double centre(const Band& b) { return 0.5 * (std::log(b.low) + std::log(b.high)); }
double half_width(const Band& b) { return 0.5 * (std::log(b.high) - std::log(b.low)); }
double power(const Band& b, Measure m) {
  if (m == b.over) return 1.0;
  return b.under == Measure::Weight ? -1.0 / 3.0 : -1.0;
}

struct Fit {
  double cost = 0.0;   // sum of squared deviations in half widths of the bands
  double value = 0.0;  // of the measure that was let go
};

// The joint misfit of all bands when `free` may take whatever value agrees best with the others.
Fit fit_without(const Taken& taken, Measure free) {
  double weight = 0.0, pull = 0.0;
  const double held = std::log(*taken[static_cast<size_t>(free)]);
  const auto each = [&](auto&& use) {
    for (const Band& b : kBands) {
      const auto& over = taken[static_cast<size_t>(b.over)];
      const auto& under = taken[static_cast<size_t>(b.under)];
      if (over && under) use(b, (log_ratio(b, *over, *under) - centre(b)) / half_width(b));
    }
  };
  each([&](const Band& b, double z) {
    if (b.over != free && b.under != free) return;
    const double slope = power(b, free) / half_width(b);
    weight += slope * slope;
    pull -= slope * z;
  });
  const double step = weight > 0.0 ? pull / weight : 0.0;
  Fit fit = {0.0, std::exp(held + step)};
  each([&](const Band& b, double z) {
    if (b.over == free || b.under == free) z += step * power(b, free) / half_width(b);
    fit.cost += z * z;
  });
  return fit;
}

Problem band_problem(const Band& b, double ratio, double low, double high, Measure culprit) {
  const bool is_weight_band = b.over == Measure::Chest && b.under == Measure::Weight;
  const Measure other = culprit == b.over ? b.under : b.over;
  Problem p;
  p.subject = info(culprit).id;
  p.other = info(other).id;
  if (is_weight_band) {
    p.code = Code::GirthForWeight;
    p.values = {ratio, low, high};
  } else if (culprit == b.over) {
    p.code = ratio < low ? Code::RatioLow : Code::RatioHigh;
    p.values = {ratio, low, high};
  } else {
    p.code = ratio < low ? Code::RatioHigh : Code::RatioLow;
    p.values = {1.0 / ratio, 1.0 / high, 1.0 / low};
  }
  return p;
}

}  // namespace

const std::vector<Band>& bands() { return kBands; }

double band_ratio(const Band& band, double over, double under) {
  return band.under == Measure::Weight ? over / 10.0 / std::cbrt(under) : over / under;
}

Findings check_ratios(const Taken& taken, Build) {
  Findings findings;
  for (const Band& b : kBands) {
    const auto& over = taken[static_cast<size_t>(b.over)];
    const auto& under = taken[static_cast<size_t>(b.under)];
    if (!over || !under) continue;
    const double ratio = band_ratio(b, *over, *under);
    if (ratio >= b.low && ratio <= b.high) continue;
    const Fit with_over_free = fit_without(taken, b.over);
    const Fit with_under_free = fit_without(taken, b.under);
    const bool over_is_culprit = with_over_free.cost <= with_under_free.cost;
    const Measure culprit = over_is_culprit ? b.over : b.under;
    const bool refused = ratio < b.refuse_low || ratio > b.refuse_high;
    findings.push_back(
        {refused ? Level::Refused : Level::Check, band_problem(b, ratio, b.low, b.high, culprit)});
    findings.push_back({Level::Check,
                        {Code::LikelyCulprit,
                         info(culprit).id,
                         {*taken[static_cast<size_t>(culprit)],
                          over_is_culprit ? with_over_free.value : with_under_free.value, 0.0},
                         {}}});
  }
  return findings;
}

}  // namespace coatwright
