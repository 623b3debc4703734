#include "shell/kit/handles.h"

#include <algorithm>
#include <cmath>

#include "core/pattern/pattern.h"

namespace coatwright::studio {
namespace {

constexpr double kProbe = 0.02;  // of the choice's range, to measure how the point moves
constexpr double kNear = 0.1;    // mm from where the point should be
constexpr int kRounds = 3;

}  // namespace

std::string handle_id(const HandleInfo& handle) {
  return std::string("handle.") + handle.choice->id;
}

double value_toward(const HandleInfo& handle, const StyleInfo& style, const Body& body,
                    const Choices& choices, Point target) {
  const Checked<Body> assessed{body, {}};  // what was found is told elsewhere
  const ChoiceRange range = range_of(*handle.choice, body);
  const double set = choices.of(*handle.choice).value_or(range.sized);
  double value = std::clamp(set, range.lowest, range.highest);
  const auto point_at = [&](double v) -> std::optional<Point> {
    Choices tried = choices;
    tried.set(*handle.choice, v);
    const auto pattern = make_pattern(assessed, tried, style);
    return pattern.result ? handle.place(pattern.result->draft) : std::nullopt;
  };
  const double step = kProbe * (range.highest - range.lowest);
  const double probe = value + step <= range.highest ? step : -step;
  const auto from = point_at(value), beside = point_at(value + probe);
  if (!from || !beside) return value;
  const Vec rate = (1.0 / probe) * (*beside - *from);
  const double size = dot(rate, rate);
  if (size < 1e-9) return value;  // the point stands still: another limit holds it
  // The first step is exact for a straight path; later ones keep its rate (the chord method).
  Point here = *from;
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
