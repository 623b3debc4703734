#include "shell/pages/paper_picture.h"

#include <algorithm>
#include <string>
#include <utility>

#include "core/draw/signs.h"

namespace coatwright {
namespace {

constexpr double kEdge = 3.0;
constexpr double kSag = 0.05;  // of curves
constexpr double kFigure = 3.6;

}  // namespace

void PaperPicture::frame(const Rect& box, double left, double wide) {
  scale_ = std::min((wide - 2.0 * kEdge) / box.width(), (height_ - 2.0 * kEdge) / box.height());
  origin_ = {box.x0 - (left + 0.5 * (wide - scale_ * box.width())) / scale_,
             box.y0 - 0.5 * (height_ - scale_ * box.height()) / scale_};
}

void PaperPicture::line(Role role, const Polyline& points, bool closed, bool white) {
  Polyline on_page;
  for (const Point p : points) on_page.push_back(spot(p));
  if (white) out_.items.push_back(FillItem{Role::Blank, on_page});
  out_.items.push_back(StrokeItem{role, std::move(on_page), closed});
}

void PaperPicture::path(Role role, const Path& path, bool closed, bool white) {
  line(role, flatten(path, kSag / scale_), closed, white);
}

void PaperPicture::dog(const SideView& view) {
  for (const SideShape& s : view.shapes) {
    if (s.part == SidePart::Glint) continue;
    const bool crease = s.part == SidePart::Crease;
    path(crease ? Role::Register : Role::Grain, s.path, s.closed, !crease);
  }
}

void PaperPicture::number(Point at, int n, Vec aside) {
  constexpr double kStep = 0.25, kFree = 2.0 * kRing + 0.5;
  Point middle = spot(at) + aside;
  const auto is_over = [&middle](Point ring) { return distance(ring, middle) < kFree; };
  while (aside != Vec{} && std::any_of(rings_.begin(), rings_.end(), is_over)) {
    middle = middle + kStep * unit(aside);
  }
  rings_.push_back(middle);
  const Polyline ring = circle(middle, kRing);
  out_.items.push_back(FillItem{Role::Blank, ring});
  out_.items.push_back(StrokeItem{Role::Grain, ring, true});
  out_.items.push_back(TextItem{Role::Caption, middle + Vec{0.0, 0.36 * kFigure}, kFigure, 0.0, 0.5,
                                std::to_string(n)});
}

Drawing PaperPicture::close() && {
  set_bounds(out_);
  return std::move(out_);
}

}  // namespace coatwright
