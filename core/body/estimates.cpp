#include "core/body/estimates.h"

#include <algorithm>
#include <cmath>

#include "core/body/section.h"

namespace coatwright {

namespace {

// One number for each build, in the order of Build: ordinary, broad, deep, long and low.
struct ByBuild {
  double ordinary, broad, deep, long_low;
  [[nodiscard]] double of(Build b) const { return by_build(b, ordinary, broad, deep, long_low); }
};

// No published tuck-up is known: common practice, no source.
constexpr ByBuild kLoinOverChest = {0.82, 0.88, 0.68, 0.85};

// Chest girth over the cube root of weight, cm and kg: mean of five measured groups, which the rule
// "weight-from-chest" below names.
constexpr double kGirthForWeight = 23.4;

// Chest girth over withers height. Ordinary: Akbash n = 96 1.19, Akbash n = 59 1.15, Kangal n = 50
// 1.13 (papers in kRules below). The other builds are our own: no table of them was found.
constexpr ByBuild kChestOverWithers = {1.16, 1.45, 1.05, 1.85};

// Elbow height + chest depth over withers height, (36.07 + 29.58) / 65.22 cm of Akbash n = 96
// (Urosevic et al. 2020): the elbow lies at the level of the brisket.
constexpr double kElbowAndDepth = 1.007;

// Breast width over chest width, Akbash n = 96: 16.86 / 21.02 (Urosevic 2020).
constexpr double kBreastOverChestWidth = 16.86 / 21.02;

// Foreleg at the elbow, of the chest girth; and its thickness from side to side. Own rules.
constexpr double kForelegGirthOverChest = 0.27;
constexpr double kForelegThicknessOverChest = 0.06;

// Head girth over chest girth of four measured groups, which the rule "head-girth-from-chest" below
// names: 0.675, 0.562, 0.574 and 0.607. Only the first had both measured on the same dogs; the second
// and third were a year old, and stand over the chest of the grown group of their breed; the fourth is
// over the chest that the girth-weight law gives dogs of 15.99 and 15.09 kg.
constexpr double kHeadKangal = 58.14 / 86.12, kHeadKangalYear = 48.43 / 86.12;
constexpr double kHeadAkbashYear = 44.72 / 77.86, kHeadNigerian = 35.45 / 58.4;
constexpr double kHeadOfGroups =
    (kHeadKangal + kHeadKangalYear + kHeadAkbashYear + kHeadNigerian) / 4.0;
// A broad dog's head is that of the group with the widest, a deep one's is hardly wider than its
// neck: own rules (no table by build is known).
constexpr ByBuild kHeadOverChest = {kHeadOfGroups, kHeadKangal, 0.55, kHeadOfGroups};

// Own rule; greater for the sighthound, whose neck is long (no published table known).
constexpr ByBuild kNeckLengthOverChest = {0.28, 0.20, 0.36, 0.28};

// How far ahead of the tail base a belly band may end, of the back length: own rule, a hand's
// breadth ahead of the hind legs, and ahead of the sheath for a male.
constexpr double kBandEndFromTail = 0.37;
constexpr double kBandEndFromTailMale = 0.44;

// Head girth: the four groups lie 7 % below to 12 % above their mean; single dogs a little further.
constexpr double kHeadSpread = 0.15;

// Breast width: of the chest's width one standard deviation is 3.18 of 21.02 cm (Akbash n = 96,
// Urosevic et al. 2020).
constexpr double kChestWidthSpread = 3.18 / 21.02;

// Elbow height: the brisket lies at the elbow within 5 % of the withers' height (Akbash n = 96 and
// the FCI's standard 270).
constexpr double kElbowSpread = 0.05;

// Withers height: chest girth over it is 0.95 to 1.35 in the measured groups and standards, about
// 1.16.
constexpr double kWithersSpread = 0.16;

// Chest girth over the cube root of weight: 20 to 27, about 23.4.
constexpr double kWeightSpread = 0.45;

// Throat to breastbone, from the depth of chest and neck and the withers' height; never less than a
// part of the neck's depth, since the breastbone lies below the neck's ring. Own rule, drawn from
// heights and depths of the Akbash group (n = 96, Urosevic et al. 2020), whose breastbone lies 68 %
// of the chest's depth below the withers, and made 1.14 times as long, for a neck in the middle of
// 30 to 60 degrees: so laid on the forms of ten dogs the front closes at 0.99 to 1.02 of the body
// and its breastbone lies 1 to 11 mm from the dog's, where it was 0.96 to 0.98 and 3 to 22 mm. About
// 0.344 chest - 0.35 neck for an ordinary dog.
constexpr double kThroatOfChestDepth = 0.775;
constexpr double kThroatOfWithers = 0.046;
constexpr double kThroatOfNeckDepth = -0.97;
constexpr double kLeastThroatOfNeckDepth = 0.25;

// Collar to girth tape: the elbow follows the length of the body and the size of the chest. Own rule:
// no table of neck-to-elbow lengths was found.
constexpr double kGirthPlaceOfBack = 0.14;
constexpr double kGirthPlaceOfChest = 0.107;

// Tuck-up, neck and foreleg: no published spread is known. A tenth for the loin, whose build the
// maker sees; the rest as uncertain as the head: own rule.
constexpr double kLoinSpread = 0.10;

const std::vector<EstimateRule> kRules = {
    {Measure::Loin, "loin-from-chest", "common practice, no source"},
    {Measure::Underline, "underline-from-breast-and-back", "own rule"},
    {Measure::Weight, "weight-from-chest",
     "mean of Kangal n=50 (Cilek & Kavak 2012, AJAVA 7(5):403-411), Kangal f/m (Ozbeyaz 1994), "
     "Akbash n=59 (BEU J. Sci. Tech. 1(2)) and Kangal pups n=38 (Elmaz et al. 2012)"},
    {Measure::ForelegSpacing, "foreleg-spacing-from-chest-width",
     "breast width of Akbash n=96 (Urosevic et al. 2020, TURJAF 8(7):1571-1576) less two legs"},
    {Measure::ForelegGirth, "foreleg-girth-from-chest", "own rule"},
    {Measure::WithersHeight, "withers-height-from-chest",
     "Akbash n=96 (Urosevic et al. 2020), Akbash n=59, Kangal n=50 (Cilek & Kavak 2012); other "
     "builds: own rule"},
    {Measure::ElbowHeight, "elbow-height-at-brisket",
     "Akbash n=96 (Urosevic et al. 2020, TURJAF 8(7):1571-1576)"},
    {Measure::Throat, "throat-from-depths",
     "own rule on the depths of Akbash n=96 (Urosevic et al. 2020)"},
    {Measure::GirthPlace, "girth-place-from-back-and-chest", "own rule"},
    {Measure::NeckLength, "neck-length-from-chest", "own rule"},
    {Measure::HeadGirth, "head-girth-from-chest",
     "mean of Kangal n=50 (Cilek & Kavak 2012, AJAVA 7(5):403-411), Kangal n=33 and Akbash n=30 at "
     "one year (Tepeli & Cetin 2003, Vet. Bil. Derg. 19(1-2):17-20) and Nigerian dogs n=144 "
     "(Bukar-Kolo et al. 2016, Res. J. Vet. Pract.); broad and deep: own rule"},
};

double breast_width(const Body& b) {
  return kBreastOverChestWidth * section_of(b.mm(Measure::Chest), b.build).width;
}

}  // namespace

const std::vector<EstimateRule>& estimate_rules() { return kRules; }

double estimate(Measure m, const Body& b) {
  const double chest = b.mm(Measure::Chest);
  switch (m) {
    case Measure::Loin:
      return kLoinOverChest.of(b.build) * chest;
    case Measure::Underline: {
      const double from_tail = b.sex == Sex::Male ? kBandEndFromTailMale : kBandEndFromTail;
      return b.mm(Measure::Breast) - from_tail * b.mm(Measure::Back);
    }
    case Measure::Weight:
      return weight_for_chest(chest);
    case Measure::ForelegGirth:
      return kForelegGirthOverChest * chest;
    case Measure::ForelegSpacing:
      return breast_width(b) - 2.0 * kForelegThicknessOverChest * chest;
    case Measure::WithersHeight:
      return chest / kChestOverWithers.of(b.build);
    case Measure::ElbowHeight: {
      const double withers = b.mm(Measure::WithersHeight);
      // Some leg is left however low the dog: a quarter of its height.
      return std::max(kElbowAndDepth * withers - section_of(chest, b.build).depth, 0.25 * withers);
    }
    case Measure::Throat: {
      const double neck_depth = neck_section(b.mm(Measure::Neck)).depth;
      return std::max(kThroatOfChestDepth * section_of(chest, b.build).depth +
                          kThroatOfWithers * b.mm(Measure::WithersHeight) +
                          kThroatOfNeckDepth * neck_depth,
                      kLeastThroatOfNeckDepth * neck_depth);
    }
    case Measure::GirthPlace:
      return kGirthPlaceOfBack * b.mm(Measure::Back) + kGirthPlaceOfChest * chest;
    case Measure::NeckLength:
      return kNeckLengthOverChest.of(b.build) * chest;
    case Measure::HeadGirth:
      return kHeadOverChest.of(b.build) * chest;
    case Measure::Back:
    case Measure::Neck:
    case Measure::Chest:
    case Measure::Drop:
    case Measure::Breast:
      break;
  }
  return 0.0;
}

double weight_for_chest(double chest_mm) {
  return std::pow(chest_mm / 10.0 / kGirthForWeight, 3.0);
}

double estimate_spread(Measure m, const Body& b) {
  switch (m) {
    case Measure::Loin:
      return kLoinSpread * b.mm(m);
    case Measure::Weight:
      return kWeightSpread * b.weight_kg();
    case Measure::ForelegSpacing:
      return kChestWidthSpread * breast_width(b);
    case Measure::ElbowHeight:
      return kElbowSpread * b.mm(Measure::WithersHeight);
    case Measure::WithersHeight:
      return kWithersSpread * b.mm(m);
    case Measure::HeadGirth:
      return kHeadSpread * b.mm(m);
    case Measure::Throat:
    case Measure::GirthPlace:
    case Measure::Underline:
    case Measure::ForelegGirth:
    case Measure::NeckLength:
      return kOwnSpread * b.mm(m);
    case Measure::Back:
    case Measure::Neck:
    case Measure::Chest:
    case Measure::Drop:
    case Measure::Breast:
      break;
  }
  return 0.0;
}

void estimate_missing(Body& body) {
  for (Value& v : body.values) v.value -= v.altered;
  // In the order of the rules: the elbow's stands on the withers' height.
  for (const EstimateRule& rule : kRules) {
    Value& v = body.values[static_cast<size_t>(rule.measure)];
    if (v.readings == 0) v = {estimate(rule.measure, body), 0.0, 0, rule.id, v.altered};
  }
  for (Value& v : body.values) v.value += v.altered;
}

}  // namespace coatwright
