#include "tests/core/support/population.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace coatwright::test {

namespace {

struct Range {
  double low, high;
};

// Ranges by build. Weight: breeds span 1..115 kg (Hawthorne et al. 2004). Neck/chest up to the
// Bulldog's 0.71 (Liu et al. 2017). Chest/withers: Kangal n=50 and Akbash n=59 and n=96 1.13-1.19,
// accepted 0.95-1.35, short-legged higher. Loin/chest within 0.5..1.15: common practice, no source.
// The other ranges are the project's own: no table of back, breast or drop against girth was found.
struct BuildRanges {
  Build build;
  Range weight, neck, back, drop, loin, withers, throat, girth_place;
};
constexpr BuildRanges kBuilds[] = {
    {Build::Ordinary,
     {1.0, 100.0},
     {0.53, 0.67},
     {0.62, 0.98},
     {0.33, 0.42},
     {0.72, 0.94},
     {1.02, 1.32},
     {0.08, 0.17},
     {0.22, 0.32}},
    {Build::Broad,
     {4.0, 90.0},
     {0.60, 0.715},
     {0.55, 0.76},
     {0.33, 0.42},
     {0.78, 1.00},
     {1.15, 1.90},
     {0.05, 0.11},
     {0.25, 0.36}},
    {Build::Deep,
     {3.0, 75.0},
     {0.45, 0.56},
     {0.70, 0.98},
     {0.34, 0.42},
     {0.58, 0.76},
     {1.00, 1.18},
     {0.11, 0.20},
     {0.21, 0.31}},
    {Build::LongLow,
     {2.5, 38.0},
     {0.54, 0.66},
     {0.82, 1.22},
     {0.33, 0.41},
     {0.76, 0.94},
     {1.40, 2.15},
     {0.055, 0.12},
     {0.20, 0.30}},
};

double draw(Dice& dice, Range r) { return dice.around(r.low, r.high); }

}  // namespace

double Dice::uniform(double low, double high) {
  const double unit = static_cast<double>(engine_() >> 11) * 0x1.0p-53;
  return low + (high - low) * unit;
}

double Dice::log_uniform(double low, double high) {
  return std::exp(uniform(std::log(low), std::log(high)));
}

double Dice::around(double low, double high) {
  const double first = uniform(low, high);
  return 0.5 * (first + uniform(low, high));
}

int Dice::below(int n) {
  return std::min(n - 1, static_cast<int>(uniform(0.0, static_cast<double>(n))));
}

Tape random_dog(Dice& dice) {
  // Half of the dogs are of ordinary build.
  const BuildRanges& b = kBuilds[dice.chance(0.5) ? 0 : 1 + dice.below(3)];
  Tape t;
  t.build = b.build;
  t.sex = static_cast<Sex>(dice.below(3));
  t.coat = static_cast<Coat>(dice.below(3));

  // Chest girth over the cube root of weight: 22.5 to 24.3 in five measured groups (Kangal, Akbash
  // and pups, as in estimates.cpp), accepted 20 to 27.
  const double weight = dice.log_uniform(b.weight.low, b.weight.high);
  const double chest = 10.0 * dice.around(20.0, 27.0) * std::cbrt(weight);
  const double neck = draw(dice, b.neck) * chest;
  const double back = draw(dice, b.back) * chest;
  // How far the breastbone lies ahead of the collar, of the neck girth.
  const double ahead = dice.uniform(0.20, 0.33) * neck;
  const double loin = draw(dice, b.loin) * chest;
  // Height over the cube root of weight, 274 breed midpoints: p5 13.1, p95 21.2, accepted 11 to 23
  // (derived from a public table of breeds, tmfilho/akcdata).
  const double withers = std::clamp(chest / draw(dice, b.withers), 112.0 * std::cbrt(weight),
                                    225.0 * std::cbrt(weight));
  // Chest depth over withers height: Akbash 0.454, Kangal 0.496; the German Shepherd's standard 0.45
  // to 0.48.
  const double depth_share = dice.uniform(0.42, 0.50);

  t.of(Measure::Back) = {back};
  t.of(Measure::Neck) = {neck};
  t.of(Measure::Chest) = {chest};
  t.of(Measure::Drop) = {draw(dice, b.drop) * chest};
  t.of(Measure::Breast) = {back + ahead};
  const auto sometimes = [&](Measure m, double share, double value) {
    if (dice.chance(share)) t.of(m) = {value};
  };
  sometimes(Measure::Weight, 0.7, weight);
  sometimes(Measure::Loin, 0.6, loin);
  sometimes(Measure::Underline, 0.5, ahead + dice.uniform(0.50, 0.68) * back);
  sometimes(Measure::ForelegSpacing, 0.25, dice.uniform(0.06, 0.15) * chest);
  sometimes(Measure::ForelegGirth, 0.25, dice.around(0.22, 0.32) * chest);
  sometimes(Measure::WithersHeight, 0.25, withers);
  if (b.build != Build::LongLow) {
    sometimes(Measure::ElbowHeight, 0.25, (1.0 - depth_share) * withers);
  } else {
    sometimes(Measure::ElbowHeight, 0.25, dice.uniform(0.32, 0.48) * withers);
  }
  sometimes(Measure::NeckLength, 0.25, dice.uniform(0.18, 0.38) * chest);
  sometimes(Measure::HeadGirth, 0.25, dice.uniform(0.58, 0.78) * chest);
  // With dice of their own: the dogs are otherwise those that they were before there were these two.
  Dice later(static_cast<uint64_t>(1e6 * chest));
  if (later.chance(0.25)) t.of(Measure::Throat) = {draw(later, b.throat) * chest};
  if (later.chance(0.25)) t.of(Measure::GirthPlace) = {draw(later, b.girth_place) * back};
  return t;
}

std::vector<Tape> population(int count, uint64_t seed) {
  Dice dice(seed);
  std::vector<Tape> dogs;
  dogs.reserve(static_cast<size_t>(count));
  for (int i = 0; i < count; ++i) dogs.push_back(random_dog(dice));
  return dogs;
}

Tape five(double back, double neck, double chest, double drop, double breast) {
  Tape t;
  t.of(Measure::Back) = {back};
  t.of(Measure::Neck) = {neck};
  t.of(Measure::Chest) = {chest};
  t.of(Measure::Drop) = {drop};
  t.of(Measure::Breast) = {breast};
  return t;
}

Tape scaled(const Tape& tape, double scale) {
  Tape out = tape;
  for (const MeasureInfo& m : measure_table()) {
    const double factor = m.is_weight ? scale * scale * scale : scale;
    for (double& reading : out.of(m.measure)) reading *= factor;
  }
  return out;
}

const std::vector<NamedDog>& hard_dogs() {
  static const std::vector<NamedDog> dogs = [] {
    std::vector<NamedDog> list;
    const auto add = [&](const char* name, Build build, Sex sex, Tape t, double weight, double loin,
                         double withers) {
      t.build = build;
      t.sex = sex;
      t.of(Measure::Weight) = {weight};
      if (loin > 0.0) t.of(Measure::Loin) = {loin};
      if (withers > 0.0) t.of(Measure::WithersHeight) = {withers};
      list.push_back({name, t});
    };
    // back, neck, chest, drop, breast; then kg, loin, withers (0: not taken)
    add("ordinary", Build::Ordinary, Sex::Male, five(549, 419, 705, 260, 660), 27.0, 0, 0);
    add("toy", Build::Ordinary, Sex::Female, five(225, 185, 300, 110, 272), 2.0, 245, 225);
    add("long-low", Build::LongLow, Sex::Male, five(440, 262, 430, 162, 508), 8.5, 365, 225);
    add("bulldog", Build::Broad, Sex::Female, five(430, 500, 720, 268, 572), 24.0, 640, 380);
    add("sighthound", Build::Deep, Sex::Female, five(640, 372, 760, 300, 742), 30.0, 505, 710);
    add("giant", Build::Ordinary, Sex::Male, five(800, 590, 990, 362, 962), 74.0, 830, 830);
    // Every ratio near an end of its range at once.
    add("shortest back", Build::Broad, Sex::Male, five(402, 515, 720, 295, 560), 21.0, 710, 0);
    add("longest back", Build::LongLow, Sex::Female, five(520, 240, 430, 142, 570), 9.5, 330, 238);
    return list;
  }();
  return dogs;
}

const Tape& hard_dog(const std::string& name) {
  for (const NamedDog& d : hard_dogs()) {
    if (d.name == name) return d.tape;
  }
  std::abort();
}

std::vector<NamedDog> ten_dogs() {
  std::vector<NamedDog> dogs = hard_dogs();
  dogs.push_back({"small terrier", five(340, 310, 470, 178, 410)});
  dogs.push_back({"large shepherd", five(610, 470, 790, 290, 735)});
  return dogs;
}

}  // namespace coatwright::test
