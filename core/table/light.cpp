#include "core/table/light.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

// Lines are drawn with fewer points, none further than this from where they were.
constexpr double kLoose = 0.02;  // mm
// What is so much farther away than the rectangle's nearest corner is left out: beyond the horizon
// there is no picture.
constexpr double kFarthest = 8.0;

// Dashes on the table for a line that is 2 mm wide; they grow with it.
std::vector<double> dashes_of(LineKind kind) {
  switch (kind) {
    case LineKind::Sewn:
      return {12.0, 8.0};
    case LineKind::Fold:
      return {30.0, 8.0, 6.0, 8.0};
    case LineKind::Marking:
      return {6.0, 6.0};
    case LineKind::Stripe:
      return {2.0, 14.0};
    default:
      return {};
  }
}

double part_of_width(LineKind kind) {
  return kind == LineKind::Cut || kind == LineKind::Slit || kind == LineKind::Rectangle ||
                 kind == LineKind::Check
             ? 1.0
             : 0.5;
}

class Caster {
 public:
  Caster(const TableSetUp& set_up, const LightStyle& style)
      : to_picture_(table_to_picture(set_up)), style_(style) {
    double nearest = 0.0;
    for (const Point corner :
         {Point{0.0, 0.0}, Point{set_up.width_mm, 0.0}, Point{set_up.width_mm, set_up.height_mm},
          Point{0.0, set_up.height_mm}}) {
      nearest = std::max(nearest, to_picture_.depth(corner));
    }
    least_depth_ = nearest / kFarthest;
  }

  void line(const TableLine& line, const TablePlace& place, bool lit) {
    Polyline points = line.points;
    for (Point& p : points) p = on_table(p, place);
    LightShape& into = shape(line.kind, lit);
    if (line.filled) return fill(points, into);
    if (line.closed) points.push_back(points.front());
    points = thinned(points, kLoose);
    const double width = style_.line_mm * part_of_width(line.kind);
    const std::vector<double> dashes = dashes_of(line.kind);
    if (dashes.empty()) return stroke(points, width, line.closed, into);
    for (const Polyline& dash : dashed(points, dashes)) stroke(dash, width, false, into);
  }

  void text(const TextItem& item, const TablePlace& place, bool lit) {
    const Point at = on_table(item.at, place);
    if (to_picture_.depth(at) < least_depth_) return;
    const LocalMap here = to_picture_.at(at);
    const double angle = item.angle + 0.5 * std::numbers::pi * place.quarters;
    const Vec along = {item.size_mm * std::cos(angle), item.size_mm * std::sin(angle)};
    const Vec down = {-along.y, along.x};
    out_.texts.push_back(
        {item.text,
         lit,
         to_picture_(at),
         {along.x * here.x + along.y * here.y, down.x * here.x + down.y * here.y}});
  }

  [[nodiscard]] Light light() && {
    std::erase_if(out_.shapes, [](const LightShape& s) { return s.contours.empty(); });
    return std::move(out_);
  }

 private:
  LightShape& shape(LineKind kind, bool lit) {
    const auto found =
        std::find_if(out_.shapes.begin(), out_.shapes.end(),
                     [&](const LightShape& s) { return s.kind == kind && s.lit == lit; });
    if (found != out_.shapes.end()) return *found;
    return out_.shapes.emplace_back(LightShape{kind, lit, {}});
  }

  // Of a closed convex shape, or one that lies wholly near enough, what is near enough.
  [[nodiscard]] Polyline near_part(const Polyline& closed) const {
    Polyline out;
    for (size_t i = 0; i < closed.size(); ++i) {
      const Point a = closed[i], b = closed[(i + 1) % closed.size()];
      const double da = to_picture_.depth(a) - least_depth_,
                   db = to_picture_.depth(b) - least_depth_;
      if (da >= 0.0) out.push_back(a);
      if ((da < 0.0) != (db < 0.0)) out.push_back(lerp(a, b, da / (da - db)));
    }
    return out;
  }

  void fill(const Polyline& closed, LightShape& into) {
    Polyline points = near_part(closed);
    if (points.size() < 3) return;
    // One way round, so that shapes that lie over each other are one.
    if (signed_area(points) < 0.0) std::reverse(points.begin(), points.end());
    Rect box{1e12, 1e12, -1e12, -1e12};
    for (Point& p : points) {
      p = to_picture_(p);
      box = {std::min(box.x0, p.x), std::min(box.y0, p.y), std::max(box.x1, p.x),
             std::max(box.y1, p.y)};
    }
    if (!meet(box, {0.0, 0.0, style_.px_wide, style_.px_high})) return;
    into.contours.push_back(std::move(points));
  }

  void stroke(const Polyline& points, double width, bool closed, LightShape& into) {
    const double half = 0.5 * width;
    for (size_t i = 0; i + 1 < points.size(); ++i) {
      const Vec side = half * right_of(unit(points[i + 1] - points[i]));
      fill({points[i] + side, points[i + 1] + side, points[i + 1] - side, points[i] - side}, into);
    }
    for (size_t i = closed ? 0 : 1; i + 1 < points.size(); ++i) {
      const Point before = points[i == 0 ? points.size() - 2 : i - 1];
      // Where a line turns, its two ends leave a wedge open.
      constexpr double kNoTurn = 0.02;  // sine: of a line 2 mm wide, 0.02 mm
      const Vec in = unit(points[i] - before), on = unit(points[i + 1] - points[i]);
      if (std::abs(cross(in, on)) > kNoTurn || dot(in, on) < 0.0) disc(points[i], half, into);
    }
  }

  void disc(Point middle, double radius, LightShape& into) {
    constexpr int kCorners = 12;
    Polyline round;
    for (int k = 0; k < kCorners; ++k) {
      const double angle = 2.0 * std::numbers::pi * k / kCorners;
      round.push_back(middle + radius * Vec{std::cos(angle), std::sin(angle)});
    }
    fill(round, into);
  }

  [[nodiscard]] std::vector<Polyline> dashed(const Polyline& points,
                                             const std::vector<double>& dashes) const {
    const double times = std::max(0.5, 0.5 * style_.line_mm);
    std::vector<Polyline> out;
    size_t part = 0;
    double left = times * dashes[0];
    Polyline dash = {points.front()};
    for (size_t i = 0; i + 1 < points.size(); ++i) {
      Point from = points[i];
      double rest = distance(from, points[i + 1]);
      while (rest > left) {
        from = lerp(from, points[i + 1], left / rest);
        rest -= left;
        if (part % 2 == 0) {
          dash.push_back(from);
          out.push_back(std::move(dash));
        }
        dash = {from};
        part = (part + 1) % dashes.size();
        left = times * dashes[part];
      }
      left -= rest;
      dash.push_back(points[i + 1]);
    }
    if (part % 2 == 0 && dash.size() > 1) out.push_back(std::move(dash));
    return out;
  }

  Homography to_picture_;
  LightStyle style_;
  double least_depth_ = 0.0;
  Light out_;
};

Polyline box_about(Point middle, double wide, double high) {
  const double x = 0.5 * wide, y = 0.5 * high;
  return {{middle.x - x, middle.y - y},
          {middle.x + x, middle.y - y},
          {middle.x + x, middle.y + y},
          {middle.x - x, middle.y + y}};
}

Point middle_of(const TableSetUp& s) { return {0.5 * s.width_mm, 0.5 * s.height_mm}; }

}  // namespace

Point on_table(Point p, const TablePlace& place) {
  for (int k = 0; k < place.quarters % 4; ++k) p = {-p.y, p.x};
  return p + place.shift;
}

Light light_of_grid(const TableSetUp& s, double step_mm, const LightStyle& style) {
  Caster caster(s, style);
  const auto draw = [&](LineKind kind, Polyline points, bool closed = false) {
    caster.line({kind, std::move(points), closed}, {}, kind == LineKind::Rectangle);
  };
  for (int k = 1; k * step_mm < s.width_mm; ++k) {
    draw(LineKind::Cloth, {{k * step_mm, 0.0}, {k * step_mm, s.height_mm}});
  }
  for (int k = 1; k * step_mm < s.height_mm; ++k) {
    draw(LineKind::Cloth, {{0.0, k * step_mm}, {s.width_mm, k * step_mm}});
  }
  draw(LineKind::Rectangle, box_about(middle_of(s), s.width_mm, s.height_mm), true);
  return std::move(caster).light();
}

Light light_of_check(const TableSetUp& s, double side_mm, const LightStyle& style) {
  Caster caster(s, style);
  const Polyline square = box_about(middle_of(s), side_mm, side_mm);
  caster.line({LineKind::Check, square, true}, {}, true);
  caster.line({LineKind::Check, {square[0], square[2]}}, {}, true);
  return std::move(caster).light();
}

Light light_of_lay(const TableSetUp& s, const TableLay& lay, const TablePlace& place,
                   std::optional<size_t> lit, bool alone, const LightStyle& style) {
  Caster caster(s, style);
  if (!alone) {
    for (const TableLine& line : lay.ground) caster.line(line, place, false);
  }
  for (size_t i = 0; i < lay.pieces.size(); ++i) {
    const bool now = lit == i;
    if (alone && !now) continue;
    for (const TableLine& line : lay.pieces[i].lines) caster.line(line, place, now);
    for (const TextItem& text : lay.pieces[i].texts) caster.text(text, place, now);
  }
  return std::move(caster).light();
}

}  // namespace coatwright
