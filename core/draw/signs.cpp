#include "core/draw/signs.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace coatwright {

std::vector<Point> places_of_names(const std::vector<Point>& points,
                                   const std::vector<Polyline>& outlines) {
  constexpr double kNear = 3.2, kFar = 5.0, kClear = 2.4;  // mm on the page
  constexpr int kTurns = 16;
  std::vector<Polyline> rings = outlines;
  for (Polyline& ring : rings) ring.push_back(ring.front());
  const auto is_inside = [&](Point p) {
    return std::any_of(outlines.begin(), outlines.end(),
                       [&](const Polyline& o) { return contains(o, p); });
  };
  std::vector<Point> names;
  for (size_t i = 0; i < points.size(); ++i) {
    Point best = points[i];
    double widest = -1.0;
    for (const double away : {kNear, kFar}) {
      for (int k = 0; k < kTurns; ++k) {
        const double turn = 2.0 * std::numbers::pi * k / kTurns;
        const Point place = points[i] + away * Vec{std::cos(turn), std::sin(turn)};
        double room = kClear;
        for (const Polyline& ring : rings) room = std::min(room, distance_to_polyline(ring, place));
        for (const Point name : names) room = std::min(room, 0.6 * distance(name, place));
        for (size_t p = 0; p < points.size(); ++p) {
          if (p != i) room = std::min(room, distance(points[p], place) - 0.7);
        }
        // Outside the piece, and near, if there is enough room.
        room += is_inside(place) ? 0.0 : 0.2;
        if (room > widest + 1e-9) widest = room, best = place;
      }
    }
    names.push_back(best);
  }
  return names;
}

Polyline circle(Point middle, double radius) {
  const int corners = radius > 1.0 ? 40 : 16;
  Polyline line;
  for (int k = 0; k < corners; ++k) {
    const double turn = 2.0 * std::numbers::pi * k / corners;
    line.push_back(middle + radius * Vec{std::cos(turn), std::sin(turn)});
  }
  return line;
}

}  // namespace coatwright
