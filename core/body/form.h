// The body form: the dog of the side view in three dimensions, as rings lofted from its readings.
// It is what rules of drafting are tried on; no line of the pattern is taken from it.
//
//          N--.____________________T        rings in planes square to the middle plane: leaning
//         / \ |   |   |   |   |   |         at the neck, upright from the girth line on
//        /   \|   |   |   |   |___|
//      Q-----P\___|___|___|---'             Q: throat, end of the neckline
//                 C                         P: breastbone, where the breast tape begins
//
// Neck, chest, loin and foreleg are as long round it as the tape says, and so is the back along it,
// the breast tape over it, and the throat's where the breast tape leaves room for it; the heights are
// the side view's. All else is assumed (FormShape).
//
// x and y as in landmarks.h (x toward the tail, y down, 0 on the ground), z across: 0 in the middle
// plane, positive on either side, since both sides are the same. Millimetres.
#pragma once

#include <span>
#include <vector>

#include "core/body/landmarks.h"
#include "core/body/ring.h"

namespace coatwright {

struct Spot3 {
  double x = 0.0, y = 0.0, z = 0.0;
};

// What the readings do not say of the dog's shape. The defaults are those of its build; each can be
// another, so that a rule is tried on more than one dog of the same readings.
struct FormShape {
  RingShape ring;
  double depth_over_width = 0.0;  // of the chest at the girth line; depth_over_width(build)
  // Width of the breast between the shoulders over the chest's. Akbash n = 96: 16.86 / 21.02
  // (Urosevic et al. 2020).
  double breast_over_chest_width = 16.86 / 21.02;
  double loin_depth_over_width = 0.0;  // loin_depth_over_width(depth_over_width)
  double neck_lean = 0.0;              // of the neck's ring from upright, radians; kNeckRingLean
  double elbow_height = 1.0;           // of the elbow, of its value
  double elbow_forward = 0.0;          // how far the foreleg stands ahead of its place, mm
  bool operator==(const FormShape&) const = default;
};
[[nodiscard]] FormShape usual_form_shape(Build build);

// What is assumed, to be shown as such: each number with the range in which dogs have been found.
struct ShapeNumber {
  const char* id;
  double (*of)(const FormShape&);
  void (*set)(FormShape&, double);
  double low, high;
  const char* source;
};
[[nodiscard]] std::span<const ShapeNumber> shape_numbers();

struct FormRing {
  double u = 0.0;     // of its top along the spine from the collar's place; of torso rings
  Point top, bottom;  // in the middle plane
  Ring ring;          // its depth is their distance
  [[nodiscard]] Spot3 at(double t) const;
};

struct BodyForm {
  FormShape shape;
  // From the neck's ring at the collar to the tail base, about as far apart as they lie round.
  std::vector<FormRing> torso;
  size_t breast_ring = 0;      // in `torso`: that of the breastbone
  size_t girth_ring = 0;       // that of the girth line
  size_t loin_ring = 0;        // that of the loin
  std::vector<FormRing> neck;  // from the neck's ring up along the crest, half way to the head
  std::vector<FormRing>
      foreleg;               // one of two: rounded above the elbow, and down to half its height
  double foreleg_out = 0.0;  // z of its middle
  Point throat;              // Q
  Point breastbone;          // P
};

[[nodiscard]] BodyForm make_form(const Body& body, const FormShape& shape);

// The shortest way over the skin from the breastbone along the side to the tail base, as the breast
// tape runs; it follows hollows, which are shallow there.
[[nodiscard]] double breast_tape(const BodyForm& form);

// Half the girth of the form at u mm along the spine from the collar's place; behind the girth line
// these are the half girths of the body map.
[[nodiscard]] double half_girth(const BodyForm& form, double u);

// Of the skin between two rings, both sides (mm2), and of what it holds (mm3); by triangles.
struct FormSize {
  double area = 0.0;
  double volume = 0.0;
};
[[nodiscard]] FormSize size_of(const std::vector<FormRing>& rings);

}  // namespace coatwright
