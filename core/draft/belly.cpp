#include "core/draft/belly.h"

namespace coatwright {
namespace {

// Of the underline, kept free ahead of the sheath; common practice, no source.
constexpr double kSheathClearance = 0.08;

}  // namespace

double belly_end(const Body& body) {
  const double free = body.sex == Sex::Female ? 0.0 : kSheathClearance;
  return (1.0 - free) * body.mm(Measure::Underline);
}

double belly_limit(const Body& body) {
  return belly_end(body) - (body.mm(Measure::Breast) - body.mm(Measure::Back));
}

}  // namespace coatwright
