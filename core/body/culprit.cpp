#include "core/body/culprit.h"

#include <algorithm>
#include <cmath>

#include "core/body/section.h"

namespace coatwright {

namespace {

struct Range {
  double low, high;
};

// A proportion and where most dogs of a build lie (about two standard deviations to either side).
// The ratio is over/under, of `over` less how far the breastbone lies ahead of the collar
// (breast - back) where `ahead` says so: both tapes begin there.
// The girth-weight law and the heights are published (ratios.cpp); the rest are our own reading of
// what coats are cut for: no table of them was found. The ordinary column of the measures that are
// often left out is wide, because a maker who has said nothing of the build has said "ordinary".
struct Usual {
  Measure over, under;
  bool ahead;
  Range ordinary, broad, deep, long_low;
  [[nodiscard]] Range of(Build b) const { return by_build(b, ordinary, broad, deep, long_low); }
};

constexpr Usual same(Measure over, Measure under, bool ahead, Range r) {
  return {over, under, ahead, r, r, r, r};
}

constexpr Usual kUsual[] = {
    same(Measure::Chest, Measure::Weight, false, {20.0, 27.0}),
    {Measure::Neck, Measure::Chest, false, {0.53, 0.67}, {0.60, 0.72}, {0.45, 0.56}, {0.54, 0.66}},
    {Measure::Back, Measure::Chest, false, {0.62, 0.98}, {0.55, 0.76}, {0.70, 0.98}, {0.82, 1.22}},
    same(Measure::Breast, Measure::Neck, true, {0.20, 0.33}),
    same(Measure::Drop, Measure::Chest, false, {0.33, 0.42}),
    {Measure::Throat,
     Measure::Chest,
     false,
     {0.055, 0.21},
     {0.035, 0.13},
     {0.09, 0.25},
     {0.04, 0.15}},
    {Measure::GirthPlace,
     Measure::Back,
     false,
     {0.20, 0.34},
     {0.22, 0.37},
     {0.19, 0.33},
     {0.18, 0.32}},
    {Measure::Loin, Measure::Chest, false, {0.63, 0.98}, {0.78, 1.00}, {0.58, 0.76}, {0.76, 0.94}},
    same(Measure::Underline, Measure::Back, true, {0.48, 0.70}),
    {Measure::Chest,
     Measure::WithersHeight,
     false,
     {0.98, 1.90},
     {1.15, 1.90},
     {1.00, 1.18},
     {1.40, 2.15}},
    {Measure::ElbowHeight,
     Measure::WithersHeight,
     false,
     {0.34, 0.62},
     {0.45, 0.59},
     {0.49, 0.59},
     {0.32, 0.48}},
    {Measure::HeadGirth,
     Measure::Chest,
     false,
     {0.50, 0.76},
     {0.56, 0.80},
     {0.46, 0.66},
     {0.50, 0.74}},
    {Measure::NeckLength,
     Measure::Chest,
     false,
     {0.18, 0.36},
     {0.14, 0.30},
     {0.24, 0.44},
     {0.18, 0.36}},
    same(Measure::ForelegGirth, Measure::Chest, false, {0.21, 0.33}),
    same(Measure::ForelegSpacing, Measure::Chest, false, {0.05, 0.17}),
};

// A reading inside every band is named when changing it by at least kLeastChange (in the logarithm)
// takes the squared deviations down by kClearlyBetter, in standard deviations: about four of them.
constexpr double kClearlyBetter = 20.0;
constexpr double kLeastChange = 0.13;
// How much worse an exchange may fit than the best change of one reading, which is free to take any
// value where the exchange is not. More, and a back that was read a third too long passes for one
// exchanged with the breast; less, and exchanges pass for it.
constexpr double kSwapMargin = 2.0;
// At most so many readings are named: beyond, the whole tape should be taken again.
constexpr int kMostCulprits = 3;

// How far the proportion lies from the middle of its usual range, in standard deviations.
std::optional<double> deviation(const Usual& u, const Taken& t, Build build) {
  if (!of(t, u.over) || !of(t, u.under)) return std::nullopt;
  double over = *of(t, u.over);
  if (u.ahead) {
    if (!of(t, Measure::Breast) || !of(t, Measure::Back)) return std::nullopt;
    const double ahead = *of(t, Measure::Breast) - *of(t, Measure::Back);
    over = u.over == Measure::Breast ? ahead : over - ahead;
  }
  const double under = *of(t, u.under);
  const double ratio = u.under == Measure::Weight ? over / 10.0 / std::cbrt(under) : over / under;
  const Range r = u.of(build);
  if (u.ahead) return (ratio - 0.5 * (r.low + r.high)) / (0.25 * (r.high - r.low));
  return (std::log(ratio) - 0.5 * std::log(r.low * r.high)) / (0.25 * std::log(r.high / r.low));
}

bool touches(const Usual& u, Measure m) {
  return u.over == m || u.under == m || (u.ahead && (m == Measure::Breast || m == Measure::Back));
}

// The squared deviations of all proportions, or of those that one measure touches.
double misfit(const Taken& taken, Build build, std::optional<Measure> only = std::nullopt) {
  double sum = 0.0;
  for (const Usual& u : kUsual) {
    if (only && !touches(u, *only)) continue;
    const std::optional<double> z = deviation(u, taken, build);
    if (z) sum += *z * *z;
  }
  return sum;
}

int broken_bands(const Taken& taken) {
  int n = 0;
  for (const Band& band : bands()) {
    const std::optional<double> ratio = ratio_of(band, taken);
    if (ratio && !within(band, *ratio)) ++n;
  }
  return n;
}

bool outside_limits(const Taken& taken) {
  return std::any_of(measure_table().begin(), measure_table().end(), [&](const MeasureInfo& row) {
    const std::optional<double>& value = of(taken, row.measure);
    return value && !(*value >= row.lowest && *value <= row.highest);
  });
}

// The tape with the measure's value times exp(log_factor).
Taken changed(const Taken& taken, Measure m, double log_factor) {
  Taken out = taken;
  double& value = *out[static_cast<size_t>(m)];
  value *= std::exp(log_factor);
  return out;
}

// The change of one measure's logarithm that agrees best with the others: a scan of factors from a
// seventh to sevenfold (which holds the inch taken for the centimetre), then golden-section steps
// in the best gap, to 1e-3.
double best_change(const Taken& taken, Measure m, Build build) {
  const double reach = 1.95 * (m == Measure::Weight ? 3.0 : 1.0);
  constexpr int kScan = 60;
  const double gap = 2.0 * reach / kScan;
  const auto cost = [&](double x) { return misfit(changed(taken, m, x), build, m); };
  double best = 0.0, lowest = cost(0.0);
  for (int i = 0; i <= kScan; ++i) {
    const double x = -reach + gap * i;
    const double c = cost(x);
    if (c < lowest) {
      lowest = c;
      best = x;
    }
  }
  constexpr double kGolden = 0.6180339887498949;
  double a = best - gap, b = best + gap;
  while (b - a > 1e-3) {
    const double c = b - kGolden * (b - a), d = a + kGolden * (b - a);
    (cost(c) < cost(d) ? b : a) = cost(c) < cost(d) ? d : c;
  }
  return 0.5 * (a + b);
}

struct Candidate {
  Measure measure = Measure::Back;
  double change = 0.0;
  int broken = 0;
  double misfit = 0.0;
  [[nodiscard]] bool better_than(const Candidate& o) const {
    // Of two that are as good, the one that comes first in the table stays.
    return broken != o.broken ? broken < o.broken : misfit < o.misfit - 0.01;
  }
};

// The one measure to change; nothing when fewer than two have been taken.
std::optional<Candidate> best_candidate(const Taken& taken, Build build) {
  std::optional<Candidate> best;
  for (const MeasureInfo& row : measure_table()) {
    if (!of(taken, row.measure)) continue;
    const double change = best_change(taken, row.measure, build);
    const Taken mended = changed(taken, row.measure, change);
    const Candidate c = {row.measure, change, broken_bands(mended), misfit(mended, build)};
    if (!best || c.better_than(*best)) best = c;
  }
  return best;
}

// ---- readings in each other's place ------------------------------------------------------------

constexpr Measure kSwappable[] = {Measure::Back, Measure::Neck, Measure::Chest, Measure::Drop,
                                  Measure::Breast};

Taken exchanged(const Taken& taken, const Swap& swap) {
  Taken out = taken;
  std::swap(out[static_cast<size_t>(swap.one)], out[static_cast<size_t>(swap.other)]);
  return out;
}

// The exchange that leaves no band broken and the proportions nearest to the usual ones.
std::optional<Swap> best_swap(const Taken& taken, Build build) {
  std::optional<Swap> best;
  double lowest = kClearlyBetter;
  for (size_t i = 0; i < std::size(kSwappable); ++i) {
    for (size_t j = i + 1; j < std::size(kSwappable); ++j) {
      const Swap swap = {kSwappable[i], kSwappable[j]};
      if (!of(taken, swap.one) || !of(taken, swap.other)) continue;
      const Taken mended = exchanged(taken, swap);
      const double rest = misfit(mended, build);
      if (!(rest < lowest) || broken_bands(mended) > 0 || outside_limits(mended)) continue;
      lowest = rest;
      best = swap;
    }
  }
  return best;
}

// ---- another unit ------------------------------------------------------------------------------

Taken rescaled(const Taken& taken, double length, double weight) {
  Taken out = taken;
  for (const MeasureInfo& row : measure_table()) {
    std::optional<double>& value = out[static_cast<size_t>(row.measure)];
    if (value) *value *= row.is_weight ? weight : length;
  }
  return out;
}

}  // namespace

bool fits_no_dog(const Taken& taken) {
  return outside_limits(taken) ||
         std::any_of(bands().begin(), bands().end(), [&](const Band& band) {
           const std::optional<double> ratio = ratio_of(band, taken);
           return ratio && (*ratio < band.refuse_low || *ratio > band.refuse_high);
         });
}

bool fits_far_better(const Taken& other, const Taken& given) {
  // A scale that shows less than any dog weighs is misread itself.
  const std::optional<double>& weight = of(given, Measure::Weight);
  if (weight && *weight < info(Measure::Weight).lowest) return false;
  return fits_no_dog(given) && !outside_limits(other) && broken_bands(other) == 0;
}

std::optional<Unit> lengths_meant_in(const Taken& taken) {
  for (const double pounds : {1.0, kKilogramsInPound}) {
    if (fits_far_better(rescaled(taken, kCentimetresInInch, pounds), taken)) return Unit::Inch;
    if (fits_far_better(rescaled(taken, 1.0 / kCentimetresInInch, 1.0 / pounds), taken)) {
      return Unit::Centimetre;
    }
  }
  return std::nullopt;
}

std::optional<Swap> likely_swap(const Taken& taken, Build build) {
  const bool broken = broken_bands(taken) > 0 || outside_limits(taken);
  const double before = misfit(taken, build);
  if (!broken && before < kClearlyBetter) return std::nullopt;
  const std::optional<Swap> swap = best_swap(taken, build);
  if (!swap) return std::nullopt;
  const double after = misfit(exchanged(taken, *swap), build);
  if (!broken && before - after < kClearlyBetter) return std::nullopt;
  const std::optional<Candidate> single = best_candidate(taken, build);
  if (single && single->broken == 0 && single->misfit < after - kSwapMargin) return std::nullopt;
  return swap;
}

std::vector<Culprit> likely_culprits(const Taken& taken, Build build) {
  std::vector<Culprit> culprits;
  Taken now = taken;
  while (static_cast<int>(culprits.size()) < kMostCulprits) {
    const int broken = broken_bands(now);
    const double before = misfit(now, build);
    if (broken == 0 && before < kClearlyBetter) break;
    const std::optional<Candidate> c = best_candidate(now, build);
    if (!c) break;
    const bool clears = c->broken < broken;
    const bool likelier = before - c->misfit > kClearlyBetter && std::abs(c->change) > kLeastChange;
    if (!clears && !likelier) break;
    const Taken mended = changed(now, c->measure, c->change);
    culprits.push_back({c->measure, *of(taken, c->measure), *of(mended, c->measure)});
    now = mended;
  }
  return culprits;
}

}  // namespace coatwright
