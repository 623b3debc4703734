#include "core/sheet/scale_check.h"

#include <algorithm>
#include <numbers>
#include <string>

#include "core/draw/text.h"

namespace coatwright {
namespace {

constexpr double kLinesApart = 2.0;  // between the mm line and the inch line
constexpr double kTextSize = 3.2;

Rect box_of(const CheckPlace& p, double along_x0, double along_x1, double along_y0,
            double along_y1) {
  const double sx = p.left ? -1.0 : 1.0, sy = p.up ? -1.0 : 1.0;
  const Polyline corners = {{p.corner.x + sx * along_x0, p.corner.y + sy * along_y0},
                            {p.corner.x + sx * along_x1, p.corner.y + sy * along_y1}};
  return bounds(corners);
}

// One arm: `along` from the corner, `inside` towards the other arm.
struct Arm {
  Point corner;
  Vec along, inside;
  std::string axis;
};

void ruler(const Arm& arm, const std::string& name, const std::string& words, double whole,
           double step, int steps, int middle_each, int long_each, double side, DrawItems& out) {
  // The inch line lies outside the mm line, its ticks point away.
  const Point from = arm.corner + (side > 0.0 ? 0.0 : -kLinesApart) * arm.inside;
  const Vec tick = side * arm.inside;
  out.push_back(
      StrokeItem{Role::Scale, {from, from + whole * arm.along}, false, name + "-" + arm.axis});
  for (int k = 0; k <= steps; ++k) {
    // On the inside the first ticks of both arms would cross.
    if (side > 0.0 && k * step < 4.0 && k > 0) continue;
    const double height = k == 0 || k == steps || k % long_each == 0 ? 3.0
                          : k % middle_each == 0                     ? 2.0
                                                                     : 1.2;
    if (k == 0 && side > 0.0) continue;
    const Point at = from + (k * step) * arm.along;
    out.push_back(StrokeItem{Role::Scale, {at, at + height * tick}});
  }
  // Words beyond the ticks, level or upright and never upside down.
  const bool upright = arm.axis == "y";
  const double angle = upright ? -0.5 * std::numbers::pi : 0.0;
  const Vec down = upright ? Vec{1.0, 0.0} : Vec{0.0, 1.0};
  const Point middle = from + 0.5 * whole * arm.along + (3.0 + 0.62 * kTextSize) * tick;
  out.push_back(TextItem{Role::Caption, middle + kTextMiddle * kTextSize * down, kTextSize, angle,
                         0.5, words});
}

}  // namespace

std::vector<Rect> check_boxes(const CheckPlace& p) {
  return {box_of(p, -kCheckBehind, kCheckReach, -kCheckBehind, kCheckInside),
          box_of(p, -kCheckBehind, kCheckInside, kCheckInside, kCheckReach), notes_box(p)};
}

Rect notes_box(const CheckPlace& p) {
  return box_of(p, kNotesFrom, kNotesFrom + kNotesWidth, kNotesFrom, kNotesFrom + kNotesHeight);
}

void draw_check(const CheckPlace& p, DrawItems& out) {
  const Vec x = {p.left ? -1.0 : 1.0, 0.0}, y = {0.0, p.up ? -1.0 : 1.0};
  for (const Arm& arm : {Arm{p.corner, x, y, "x"}, Arm{p.corner, y, x, "y"}}) {
    ruler(arm, "check-100mm", "100 mm", kCheckMm, 5.0, 20, 2, 10, 1.0, out);
    ruler(arm, "check-4in", "4 in", kCheckInches, 25.4 / 4.0, 16, 2, 4, -1.0, out);
  }
}

}  // namespace coatwright
