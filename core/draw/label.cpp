#include "core/draw/label.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/draw/sketch.h"

namespace coatwright {
namespace {

// Lines are thinned by this for the search, and boxes keep at least as much clear of them, mm.
constexpr double kThin = 0.25;
constexpr double kClear = 0.8;

// Whether the segment from a to b, in a rectangle's own frame, meets it: |x| <= hw, |y| <= hh. Two
// convex shapes are apart if they are so along the normal of one of their sides: the rectangle's, or
// the segment's.
bool enters(Point a, Point b, double hw, double hh) {
  if ((a.x > hw && b.x > hw) || (a.x < -hw && b.x < -hw)) return false;
  if ((a.y > hh && b.y > hh) || (a.y < -hh && b.y < -hh)) return false;
  const Vec d = b - a;
  return std::abs(d.x * a.y - d.y * a.x) <= hw * std::abs(d.y) + hh * std::abs(d.x);
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

LabelSpace::Frame::Frame(const LabelBox& box)
    : centre(box.centre),
      along{std::cos(box.angle), std::sin(box.angle)},
      half_width(box.half_width + kClear),
      half_height(box.half_height + kClear) {
  const double c = std::abs(along.x), s = std::abs(along.y);
  const Vec reach{c * half_width + s * half_height, s * half_width + c * half_height};
  bounds = {centre.x - reach.x, centre.y - reach.y, centre.x + reach.x, centre.y + reach.y};
}

Point LabelSpace::Frame::of(Point p) const {
  const Vec v = p - centre;
  return {along.x * v.x + along.y * v.y, along.x * v.y - along.y * v.x};
}

bool LabelSpace::Frame::contains(Point p) const {
  const Point q = of(p);
  return std::abs(q.x) <= half_width && std::abs(q.y) <= half_height;
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

void LabelSpace::take(const LabelBox& box) { taken_.push_back({box, Frame(box)}); }

void LabelSpace::give_back(const LabelBox& box) {
  std::erase_if(taken_, [&](const Taken& one) { return one.box == box; });
}

bool LabelSpace::clear_of(const std::vector<Segment>& segments, const Frame& frame) {
  const Rect& in = frame.bounds;
  return std::none_of(segments.begin(), segments.end(), [&](const Segment& s) {
    const bool far = (s.a.x > in.x1 && s.b.x > in.x1) || (s.a.x < in.x0 && s.b.x < in.x0) ||
                     (s.a.y > in.y1 && s.b.y > in.y1) || (s.a.y < in.y0 && s.b.y < in.y0);
    return !far && enters(frame.of(s.a), frame.of(s.b), frame.half_width, frame.half_height);
  });
}

// The clear is kept once, between the two; a box's own corners have none.
bool LabelSpace::overlap(const Taken& taken, const LabelBox& box, const Frame& frame) {
  if (!meet(taken.frame.bounds, frame.bounds)) return false;
  if (taken.frame.contains(box.centre) || frame.contains(taken.box.centre)) return true;
  const Vec along = box.half_width * frame.along;
  const Vec down = box.half_height * Vec{-frame.along.y, frame.along.x};
  const Point corners[] = {box.centre - along - down, box.centre + along - down,
                           box.centre + along + down, box.centre - along + down};
  for (size_t i = 0; i < 4; ++i) {
    if (enters(taken.frame.of(corners[i]), taken.frame.of(corners[(i + 1) % 4]),
               taken.frame.half_width, taken.frame.half_height)) {
      return true;
    }
  }
  return false;
}

bool LabelSpace::is_free(const LabelBox& box, bool strictly) const {
  const Frame frame(box);
  // What is quickly told comes first.
  return std::none_of(taken_.begin(), taken_.end(),
                      [&](const Taken& other) { return overlap(other, box, frame); }) &&
         (!strictly || clear_of(soft_, frame)) && clear_of(segments_, frame) &&
         contains(outline_, box.centre);
}

std::optional<LabelBox> find_room(const LabelSpace& space, Point wish, const Rect& within,
                                  double half_width, double half_height, const Search& search) {
  constexpr int kAcross = 17, kDown = 13;
  constexpr double kUpright = -0.5 * std::numbers::pi;
  struct Place {
    Point point;
    double away;
  };
  std::vector<Place> places = {{wish, 0.0}};
  places.reserve(kAcross * kDown);
  for (int i = 1; i < kAcross; ++i) {
    for (int j = 1; j < kDown; ++j) {
      const Point p = {std::lerp(within.x0, within.x1, i / double{kAcross}),
                       std::lerp(within.y0, within.y1, j / double{kDown})};
      places.push_back({p, distance(p, wish)});
    }
  }
  std::stable_sort(places.begin(), places.end(),
                   [](const Place& a, const Place& b) { return a.away < b.away; });
  const std::vector<double> angles =
      search.angle ? std::vector<double>{*search.angle} : std::vector<double>{0.0, kUpright};
  for (const double angle : angles) {
    for (const Place& place : places) {
      const LabelBox box{place.point, half_width, half_height, angle};
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
  constexpr double kPlaces[] = {0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9};
  // Further in, where the line is bent or another runs beside it; of half the text's height.
  constexpr double kSteps[] = {0.3, 0.8, 1.5, 2.5, 3.3, 4.0};
  for (const double part : kSteps) {
    const double step = part * half_height;
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
