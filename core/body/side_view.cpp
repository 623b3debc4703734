#include "core/body/side_view.h"

#include "core/body/side_parts.h"
#include "core/geometry/polygon.h"

namespace coatwright {

namespace {

Path body_outline(const Landmarks& at, Build build) {
  using side::Knots;
  Knots knots;
  const auto append = [&](const Knots& more) {
    knots.insert(knots.end(), more.begin(), more.end());
  };
  for (const Cubic& c : at.topline.cubics) knots.push_back({c.p0});
  knots.push_back({at.tail_base});
  append(side::hind_leg_knots(at));
  append(side::belly_knots(at));
  append(side::foreleg_knots(at));
  append({{at.breastbone}, {at.neck_front}});
  append(side::head_knots(at, build));
  return closed_through(knots);
}

}  // namespace

Tape ordinary_tape(Build build) {
  Tape tape;
  tape.build = build;
  tape.of(Measure::Back) = {560.0};
  tape.of(Measure::Neck) = {400.0};
  tape.of(Measure::Chest) = {660.0};
  tape.of(Measure::Drop) = {240.0};
  tape.of(Measure::Breast) = {680.0};
  return tape;
}

SideView draw_side_view(const Body& body) {
  const Landmarks at = make_landmarks(body);
  SideView view;
  side::add_far_legs(at, view.shapes);
  view.shapes.push_back({SidePart::Tail, side::tail_outline(at, body.build)});
  view.shapes.push_back({SidePart::Body, body_outline(at, body.build)});
  side::add_leg_creases(at, view.shapes);
  side::add_head_details(at, body.build, view.shapes);
  view.tapes = side::tapes(at, body);

  view.bounds = bounds(flatten(view.shapes.front().path, 0.5));
  for (const SideShape& shape : view.shapes) {
    view.bounds = united(view.bounds, bounds(flatten(shape.path, 0.5)));
  }
  return view;
}

}  // namespace coatwright
