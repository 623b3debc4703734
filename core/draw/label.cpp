#include "core/draw/label.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "core/draw/sketch.h"

namespace coatwright {
namespace {

// Lines are thinned by this for the search, and boxes keep at least as much clear of them, mm.
constexpr double kThin = 0.25;
constexpr double kClear = 0.8;

// The frame of a box: x along the writing, y down from the centre. A box is tried against hundreds
// of lines, so its angle is resolved once.
class BoxFrame {
 public:
  explicit BoxFrame(const LabelBox& box)
      : centre_(box.centre), along_{std::cos(box.angle), std::sin(box.angle)} {}

  [[nodiscard]] Point of(Point p) const {
    const Vec v = p - centre_;
    return {along_.x * v.x + along_.y * v.y, along_.x * v.y - along_.y * v.x};
  }
  // Half of what a rectangle of this frame measures level and upright.
  [[nodiscard]] Vec reach(double hw, double hh) const {
    const double c = std::abs(along_.x), s = std::abs(along_.y);
    return {c * hw + s * hh, s * hw + c * hh};
  }

 private:
  Point centre_;
  Vec along_;
};

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
  const auto inside = [](const LabelBox& box, const BoxFrame& frame, Point p) {
    const Point q = frame.of(p);
    return std::abs(q.x) <= box.half_width + kClear && std::abs(q.y) <= box.half_height + kClear;
  };
  const BoxFrame frame(a);
  if (inside(a, frame, b.centre) || inside(b, BoxFrame(b), a.centre)) return true;
  const std::array<Point, 4> c = corners(b);
  for (size_t i = 0; i < 4; ++i) {
    if (enters(frame.of(c[i]), frame.of(c[(i + 1) % 4]), a.half_width + kClear,
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

void LabelSpace::give_back(const LabelBox& box) { std::erase(taken_, box); }

bool LabelSpace::clear_of(const std::vector<Segment>& segments, const LabelBox& box) {
  const double hw = box.half_width + kClear, hh = box.half_height + kClear;
  const BoxFrame frame(box);
  const Vec reach = frame.reach(hw, hh);
  const double left = box.centre.x - reach.x, right = box.centre.x + reach.x;
  const double top = box.centre.y - reach.y, bottom = box.centre.y + reach.y;
  return std::none_of(segments.begin(), segments.end(), [&](const Segment& s) {
    const bool far = (s.a.x > right && s.b.x > right) || (s.a.x < left && s.b.x < left) ||
                     (s.a.y > bottom && s.b.y > bottom) || (s.a.y < top && s.b.y < top);
    return !far && enters(frame.of(s.a), frame.of(s.b), hw, hh);
  });
}

bool LabelSpace::is_free(const LabelBox& box, bool strictly) const {
  // What is quickly told comes first.
  return std::none_of(taken_.begin(), taken_.end(),
                      [&](const LabelBox& other) { return overlap(other, box); }) &&
         (!strictly || clear_of(soft_, box)) && clear_of(segments_, box) &&
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
