// A picture on a page: a dog as its side view has it, pieces beside it, and numbers that stand in
// rings. White inside, so that what is nearer hides what is farther. Millimetres on the page.
#pragma once

#include <vector>

#include "core/body/side_view.h"
#include "core/draw/drawing.h"

namespace coatwright {

class PaperPicture {
 public:
  explicit PaperPicture(double height) : height_(height) {}

  // What is drawn from now on: `box` of it as large as there is room between `left` and `left` + `wide`.
  void frame(const Rect& box, double left, double wide);

  void line(Role role, const Polyline& points, bool closed, bool white = false);
  void path(Role role, const Path& path, bool closed, bool white = false);
  void dog(const SideView& view);
  // A number in a ring; `aside`: how far from the place on the picture, on the page, or as much
  // farther as other rings need.
  void number(Point at, int n, Vec aside = {});
  [[nodiscard]] Drawing close() &&;

 private:
  [[nodiscard]] Point spot(Point p) const { return Point{} + scale_ * (p - origin_); }

  double height_;
  double scale_ = 1.0;
  Point origin_;
  std::vector<Point> rings_ = {};
  Drawing out_;
};

}  // namespace coatwright
