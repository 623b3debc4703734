// One ring of the body form: the section of the dog in a plane that is square to its middle plane.
// Pure numbers, any unit of length.
//
//      .-.      t = 0 at the top, pi at the bottom, along one side
//     (   )     depth from top to bottom, width from side to side at the widest
//      \ /      keel: the lower half is narrower than the upper
//       '       slim: both ends are narrower than an ellipse's; flat: the top is flatter
#pragma once

namespace coatwright {

// How a section differs from an ellipse; all 0: it is one. Sections are convex for the defaults
// and up to keel 0.4, slim 0.3, flat 0.2.
struct RingShape {
  // No table of it was found: own rule, on pictures of sections.
  double keel = 0.2;
  // With this keel, girth over the ellipse's is 0.973, as of the Akbash group (n = 96, Urosevic et
  // al. 2020, TURJAF 8(7):1571-1576), for which a test stands.
  double slim = 0.235;
  // No table of it was found: own rule.
  double flat = 0.0;
  bool operator==(const RingShape&) const = default;
};

struct Ring {
  RingShape shape;
  double depth = 0.0;
  double width = 0.0;

  struct At {
    double across = 0.0;  // from the middle plane, >= 0
    double down = 0.0;    // from the top
  };
  [[nodiscard]] At at(double t) const;  // t in 0..pi
  [[nodiscard]] double girth() const;   // within 1e-6 of itself
  // How far round from the top to t, as a length.
  [[nodiscard]] double length_to(double t) const;
  // The inverse; t within 1e-9.
  [[nodiscard]] double at_length(double length) const;
  [[nodiscard]] double area() const;
};

// A ring to be walked round many times: what its shape alone decides is found once.
class RingWalk {
 public:
  explicit RingWalk(const Ring& ring);
  struct Step {
    Ring::At at, slope;  // slope: of both, by t
  };
  [[nodiscard]] Step at(double t) const;

 private:
  Ring ring_;
  double half_;  // of the width, where the shape is as wide as 1
};

// The ring of the given depth with the given girth. A girth that is too short for the depth makes
// a ring that is as narrow as kNarrowest of its depth, and less deep.
inline constexpr double kNarrowestRing = 0.3;
[[nodiscard]] Ring ring_of(double girth, double depth, const RingShape& shape);

}  // namespace coatwright
