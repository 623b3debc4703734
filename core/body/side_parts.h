// Parts of the side view; private to it. Knots run round the body as its outline does: along the
// back to the tail, down the hind leg, forward along the belly, down and up the foreleg, up the
// breast and round the head.
#pragma once

#include "core/body/contour.h"
#include "core/body/side_view.h"

namespace coatwright::side {

using Knots = std::vector<Knot>;

// Head, from the throat up over the nose to the base of the skull; and what is drawn on it.
[[nodiscard]] Knots head_knots(const Landmarks& at, Build build);
void add_head_details(const Landmarks& at, Build build, std::vector<SideShape>& shapes);

// Hind leg, from below the tail to the stifle; belly, from the flank to the back of the elbow;
// foreleg, from below the elbow to the breast, the last of it the forechest.
[[nodiscard]] Knots hind_leg_knots(const Landmarks& at);
[[nodiscard]] Knots belly_knots(const Landmarks& at);
[[nodiscard]] Knots foreleg_knots(const Landmarks& at);
[[nodiscard]] Knots forechest_knots(const Landmarks& at);
void add_far_legs(const Landmarks& at, std::vector<SideShape>& shapes);
void add_leg_creases(const Landmarks& at, std::vector<SideShape>& shapes);

[[nodiscard]] Path tail_outline(const Landmarks& at, Build build);

// The head's own frame: the base of the skull is (0, 0), `forward` runs to the nose in head
// lengths, `down` to the throat in head depths.
struct HeadFrame {
  Point occiput;
  Vec forward, down;
  [[nodiscard]] Point at(double f, double d) const { return occiput + f * forward + d * down; }
};
[[nodiscard]] HeadFrame head_frame(const Landmarks& at);
[[nodiscard]] inline Point skull_base(const HeadFrame& head) { return head.at(0.02, 0.02); }
[[nodiscard]] inline Point crown(const HeadFrame& head) { return head.at(0.20, -0.07); }
[[nodiscard]] Point cheek(const Landmarks& at, Build build);       // the corner of the jaw
[[nodiscard]] Point brow_point(const Landmarks& at, Build build);  // above the eye

[[nodiscard]] std::vector<SideTape> tapes(const Landmarks& at, const Body& body);

}  // namespace coatwright::side
