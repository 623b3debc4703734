#include "core/draft/belly.h"

#include <algorithm>

#include "core/body/estimates.h"
#include "core/body/section.h"

namespace coatwright {
namespace {

// Of the underline, kept free ahead of the sheath; common practice, no source.
constexpr double kSheathClearance = 0.08;

// Of the way from the breastbone to the girth line on the flat body: what it is on the body form.
constexpr double kOrdinary = 0.96, kBroad = 0.84, kDeep = 1.0, kLongLow = 0.83;

// A neck that is carried high draws the cloth over the shoulder forward, and the band with it: by
// 0.03 to 0.35 of what its throat is longer than that of a low neck, tried on the forms of ten dogs
// with necks at 45 and 60 degrees. Of the estimate, which is for a neck in the middle, a low neck's
// throat is 0.88; a deep dog's neck may stand upright, 1.3, until its throat is read.
constexpr double kForwardOfThroat = 0.2;
constexpr double kLowNeck = 0.88, kUprightNeck = 1.3;

}  // namespace

double drawn_forward(const Body& body) {
  const Value& throat = body.of(Measure::Throat);
  const double usual = estimate(Measure::Throat, body);
  const double unread = body.build == Build::Deep ? kUprightNeck * usual : usual;
  const double longest = throat.estimated() ? unread : throat.value - throat.altered;
  return std::max(0.0, kForwardOfThroat * (longest - kLowNeck * usual));
}

double breast_to_girth(const Body& body, const BodyMap& map, Point breastbone) {
  return by_build(body.build, kOrdinary, kBroad, kDeep, kLongLow) *
         distance(breastbone, map.girth_point());
}

double belly_end(const Body& body) {
  const double free = body.sex == Sex::Female ? 0.0 : kSheathClearance;
  return (1.0 - free) * body.mm(Measure::Underline);
}

double belly_limit(const Body& body) {
  return belly_end(body) - (body.mm(Measure::Breast) - body.mm(Measure::Back));
}

Mark place_on_hem(const Rear& rear, double from, double to, double up, const char* label) {
  Mark mark{MarkKind::BandPlace, label, {}, true};
  constexpr int kSteps = 8;
  for (int i = 0; i <= kSteps; ++i) {
    const double u = from + (to - from) * i / kSteps;
    mark.line.push_back({u, rear.height(u)});
  }
  for (int i = kSteps; i >= 0; --i) {
    const double u = from + (to - from) * i / kSteps;
    mark.line.push_back({u, rear.height(u) - up});
  }
  return mark;
}

Mark place_over_back(double from, double to, double overlap, const char* label) {
  const double half = 0.5 * overlap;
  return {MarkKind::BandPlace, label, {{from, 0.0}, {to, 0.0}, {to, half}, {from, half}}, true};
}

}  // namespace coatwright
