#include "core/sheet/label.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "core/sheet/sketch.h"

namespace coatwright {
namespace {

// Lines are thinned by this for the search, and boxes keep at least as much clear of them, mm.
constexpr double kThin = 0.25;
constexpr double kClear = 0.8;

// A point in the frame of a box: x along the writing, y down from the centre.
Point in_frame(const LabelBox& box, Point p) {
  const double c = std::cos(box.angle), s = std::sin(box.angle);
  const Vec v = p - box.centre;
  return {c * v.x + s * v.y, c * v.y - s * v.x};
}

// Whether segment ab enters the rectangle |x| <= hw, |y| <= hh.
bool enters(Point a, Point b, double hw, double hh) {
  double from = 0.0, to = 1.0;
  const double move[] = {b.x - a.x, b.y - a.y}, start[] = {a.x, a.y}, half[] = {hw, hh};
  for (int k = 0; k < 2; ++k) {
    if (move[k] == 0.0) {
      if (std::abs(start[k]) > half[k]) return false;
      continue;
    }
    double t0 = (-half[k] - start[k]) / move[k], t1 = (half[k] - start[k]) / move[k];
    if (t0 > t1) std::swap(t0, t1);
    from = std::max(from, t0);
    to = std::min(to, t1);
    if (from > to) return false;
  }
  return true;
}

std::array<Point, 4> corners(const LabelBox& box) {
  const Vec along = box.half_width * Vec{std::cos(box.angle), std::sin(box.angle)};
  const Vec down = box.half_height * Vec{-std::sin(box.angle), std::cos(box.angle)};
  return {box.centre - along - down, box.centre + along - down, box.centre + along + down,
          box.centre - along + down};
}

bool overlap(const LabelBox& a, const LabelBox& b) {
  const auto inside = [](const LabelBox& box, Point p) {
    const Point q = in_frame(box, p);
    return std::abs(q.x) <= box.half_width + kClear && std::abs(q.y) <= box.half_height + kClear;
  };
  if (inside(a, b.centre) || inside(b, a.centre)) return true;
  const std::array<Point, 4> c = corners(b);
  for (size_t i = 0; i < 4; ++i) {
    if (enters(in_frame(a, c[i]), in_frame(a, c[(i + 1) % 4]), a.half_width + kClear,
               a.half_height + kClear)) {
      return true;
    }
  }
  return false;
}

struct Walked {
  Point point;
  Vec along;
};
Walked walk(const Polyline& line, double distance_mm) {
  size_t i = 1;
  while (i + 1 < line.size() && distance_mm > distance(line[i - 1], line[i])) {
    distance_mm -= distance(line[i - 1], line[i]);
    ++i;
  }
  const Vec along = unit(line[i] - line[i - 1]);
  return {line[i - 1] + distance_mm * along, along};
}

}  // namespace

double readable_angle(Vec along) {
  constexpr double kHalfTurn = std::numbers::pi;
  constexpr double kSame = 1e-9;  // an upright line reads upward, however it was rounded
  double angle = std::atan2(along.y, along.x);
  if (angle > 0.5 * kHalfTurn - kSame) angle -= kHalfTurn;
  if (angle <= -0.5 * kHalfTurn - kSame) angle += kHalfTurn;
  return angle;
}

LabelSpace::LabelSpace(const Polyline& outline) {
  outline_ = thinned(outline, kThin);
  avoid(outline, true);
}

void LabelSpace::avoid(const Polyline& line, bool closed) {
  Polyline thin = thinned(line, kThin);
  if (closed && !thin.empty()) thin.push_back(thin.front());
  for (size_t i = 1; i < thin.size(); ++i) segments_.push_back({thin[i - 1], thin[i]});
}

void LabelSpace::avoid_if_possible(Point from, Point to) { soft_.push_back({from, to}); }

void LabelSpace::take(const LabelBox& box) { taken_.push_back(box); }

bool LabelSpace::clear_of(const std::vector<Segment>& segments, const LabelBox& box) {
  const double hw = box.half_width + kClear, hh = box.half_height + kClear;
  const double reach = std::hypot(hw, hh);
  return std::none_of(segments.begin(), segments.end(), [&](const Segment& s) {
    const bool far = std::min(s.a.x, s.b.x) > box.centre.x + reach ||
                     std::max(s.a.x, s.b.x) < box.centre.x - reach ||
                     std::min(s.a.y, s.b.y) > box.centre.y + reach ||
                     std::max(s.a.y, s.b.y) < box.centre.y - reach;
    return !far && enters(in_frame(box, s.a), in_frame(box, s.b), hw, hh);
  });
}

bool LabelSpace::is_free(const LabelBox& box, bool strictly) const {
  return contains(outline_, box.centre) && clear_of(segments_, box) &&
         (!strictly || clear_of(soft_, box)) &&
         std::none_of(taken_.begin(), taken_.end(),
                      [&](const LabelBox& other) { return overlap(other, box); });
}

std::optional<LabelBox> find_room(const LabelSpace& space, Point wish, const Rect& within,
                                  double half_width, double half_height, const Search& search) {
  constexpr int kAcross = 17, kDown = 13;
  constexpr double kUpright = -0.5 * std::numbers::pi;
  std::vector<Point> places = {wish};
  for (int i = 1; i < kAcross; ++i) {
    for (int j = 1; j < kDown; ++j) {
      places.push_back({std::lerp(within.x0, within.x1, i / double{kAcross}),
                        std::lerp(within.y0, within.y1, j / double{kDown})});
    }
  }
  std::stable_sort(places.begin(), places.end(),
                   [wish](Point a, Point b) { return distance(a, wish) < distance(b, wish); });
  for (const double angle : {0.0, kUpright}) {
    for (const Point p : places) {
      const LabelBox box{p, half_width, half_height, angle};
      if (space.is_free(box, search.strictly)) return box;
    }
  }
  return std::nullopt;
}

std::optional<LabelBox> find_room_along(const LabelSpace& space, const Polyline& line,
                                        double half_width, double half_height,
                                        const Search& search) {
  if (line.size() < 2) return std::nullopt;
  const double whole = polyline_length(line);
  constexpr double kPlaces[] = {0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82};
  constexpr double kSteps[] = {0.6, 1.6, 3.0, 5.0, 8.0};  // further in, where the line is bent
  for (const double step : kSteps) {
    if (step > search.reach) break;
    for (const double place : kPlaces) {
      const Walked at = walk(line, place * whole);
      const Vec inward = {-at.along.y, at.along.x};
      const LabelBox box{at.point + (half_height + kClear + step) * inward, half_width, half_height,
                         readable_angle(at.along)};
      if (space.is_free(box, search.strictly)) return box;
    }
  }
  return std::nullopt;
}

}  // namespace coatwright
