#include "shell/kit/handles.h"

#include <algorithm>
#include <cmath>

namespace coatwright::studio {
namespace {

constexpr double kProbe = 0.02;  // of the choice's range, to measure how the point moves
constexpr double kNear = 0.1;    // mm from where the point should be
constexpr int kRounds = 3;

}  // namespace

std::string handle_id(const HandleInfo& handle) {
  return std::string("handle.") + handle.choice->id;
}

PointAt point_of(const HandleInfo& handle, const StyleInfo& style, const Body& body,
                 const Choices& choices, const Alterations& alterations) {
  return [&](double value) -> std::optional<Point> {
    Choices tried = choices;
    tried.set(*handle.choice, value);
    const auto draft = draft_fitted(style, fitted(body, tried, style, alterations));
    return draft.result ? handle.place(*draft.result) : std::nullopt;
  };
}

double value_toward(const ChoiceRange& range, double value, Point here, const PointAt& point_at,
                    Point target) {
  if (distance(here, target) < kNear) return value;
  const double step = kProbe * (range.highest - range.lowest);
  const double probe = value + step <= range.highest ? step : -step;
  const auto beside = point_at(value + probe);
  if (!beside) return value;
  const Vec rate = (1.0 / probe) * (*beside - here);
  const double size = dot(rate, rate);
  if (size < 1e-9) return value;  // the point stands still: another limit holds it
  // The first step is exact for a straight path; later ones keep its rate (the chord method).
  for (int round = 0; round < kRounds; ++round) {
    const double wanted = value + dot(target - here, rate) / size;
    const double next = std::clamp(wanted, range.lowest, range.highest);
    const bool near = std::abs(next - value) * std::sqrt(size) < kNear;
    value = next;
    const auto there = near || round + 1 == kRounds ? std::nullopt : point_at(value);
    if (!there) break;
    here = *there;
  }
  return value;
}

}  // namespace coatwright::studio
