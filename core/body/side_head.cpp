#include <cmath>
#include <numbers>

#include "core/body/side_parts.h"

namespace coatwright::side {

namespace {

// Shape of the head by build, in the head's frame.
struct HeadShape {
  double stop;     // how far the muzzle's top lies below the crown
  double muzzle;   // depth of the muzzle
  double stop_at;  // how far forward the stop is
  double jaw;      // depth of the cheek
};
HeadShape shape_of(Build build) {
  switch (build) {
    case Build::Broad:
      return {0.26, 0.56, 0.62, 1.00};
    case Build::Deep:
      return {0.13, 0.38, 0.48, 0.94};
    case Build::LongLow:
      return {0.20, 0.42, 0.50, 0.96};
    case Build::Ordinary:
      break;
  }
  return {0.22, 0.47, 0.52, 0.98};
}

}  // namespace

HeadFrame head_frame(const Landmarks& at) {
  constexpr double kNod = 0.20;  // radians, nose below the horizontal
  return {at.occiput, at.head_length * Vec{-std::cos(kNod), std::sin(kNod)},
          at.head_depth * Vec{std::sin(kNod), std::cos(kNod)}};
}

Point cheek(const Landmarks& at, Build build) {
  return head_frame(at).at(0.37, shape_of(build).jaw);
}

Point brow_point(const Landmarks& at, Build build) {
  return head_frame(at).at(shape_of(build).stop_at - 0.12, -0.02);
}

Knots head_knots(const Landmarks& at, Build build) {
  const HeadFrame head = head_frame(at);
  const HeadShape s = shape_of(build);
  const double lip = s.stop + s.muzzle;
  // The throat: hollow between breast and jaw, filled by a neck that is thick for its head.
  const Point jaw_corner = cheek(at, build);
  const double fill = 0.8 * at.neck_swell - 0.05 * at.neck_depth;
  return {
      {lerp(at.neck_front, jaw_corner, 0.5) + fill * at.across},
      {jaw_corner},
      {head.at(0.62, lip + 0.12)},
      {head.at(0.86, lip + 0.06)},
      {head.at(0.95, lip - 0.05)},
      {head.at(1.00, s.stop + 0.52 * s.muzzle)},
      {head.at(0.985, s.stop + 0.20 * s.muzzle)},
      {head.at(0.93, s.stop + 0.06)},
      {head.at(s.stop_at + 0.16, s.stop)},
      {head.at(s.stop_at, 0.62 * s.stop)},
      {brow_point(at, build)},
      {crown(head)},
      {skull_base(head)},
      {at.crest_low},
  };
}

void add_head_details(const Landmarks& at, Build build, std::vector<SideShape>& shapes) {
  const HeadFrame head = head_frame(at);
  const HeadShape s = shape_of(build);
  const double lip = s.stop + s.muzzle;

  shapes.push_back({SidePart::Crease,
                    through({{head.at(0.955, s.stop + 0.66 * s.muzzle)},
                             {head.at(0.84, lip - 0.13)},
                             {head.at(0.70, lip - 0.07)},
                             {head.at(0.60, lip - 0.02)}}),
                    false});

  Knots ear;
  switch (build) {
    case Build::Deep:  // folded back
      ear = {{head.at(0.20, 0.05)},
             {head.at(0.06, 0.08)},
             {head.at(-0.18, 0.20), true},
             {head.at(-0.02, 0.36)},
             {head.at(0.16, 0.34)}};
      break;
    case Build::Broad:  // small, half dropped
      ear = {{head.at(0.30, -0.02)},
             {head.at(0.14, 0.0)},
             {head.at(0.10, 0.26)},
             {head.at(0.24, 0.44), true},
             {head.at(0.34, 0.18)}};
      break;
    case Build::LongLow:  // long and hanging
      ear = {{head.at(0.30, 0.06)}, {head.at(0.13, 0.06)}, {head.at(0.02, 0.42)},
             {head.at(0.06, 0.92)}, {head.at(0.20, 1.10)}, {head.at(0.32, 0.86)},
             {head.at(0.33, 0.40)}};
      break;
    case Build::Ordinary:
      ear = {{head.at(0.29, 0.02)}, {head.at(0.12, 0.01)}, {head.at(0.04, 0.30)},
             {head.at(0.10, 0.66)}, {head.at(0.22, 0.78)}, {head.at(0.31, 0.52)},
             {head.at(0.33, 0.22)}};
      break;
  }
  shapes.push_back({SidePart::Ear, closed_through(ear)});

  const Point eye = head.at(s.stop_at - 0.05, 0.5 * s.stop + 0.13);
  const double r = 0.026 * (at.head_length + at.head_depth);
  const auto disc = [](Point centre, double radius) {
    return Path{arc(centre, centre + Vec{radius, 0.0}, 2.0 * std::numbers::pi)};
  };
  shapes.push_back({SidePart::Eye, disc(eye, r)});
  shapes.push_back({SidePart::Nose, closed_through({{head.at(0.90, s.stop + 0.03)},
                                                    {head.at(0.985, s.stop + 0.09)},
                                                    {head.at(0.998, s.stop + 0.19)},
                                                    {head.at(0.93, s.stop + 0.18)}})});
  shapes.push_back({SidePart::Glint, disc(eye + r * Vec{-0.30, -0.34}, 0.28 * r)});
}

}  // namespace coatwright::side
