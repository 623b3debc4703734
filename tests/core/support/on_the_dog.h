// A coat tried on the dog: the flat half body laid on the body form, and what is seen there.
//
// It knows the pattern's outline and nothing of the rules that drew it, so that a rule that is only
// true on paper is found out. The half is laid twice: *free*, smoothed onto the body by hand with
// nothing but the fold held, where its centre front should come to lie in the middle of the breast;
// and *worn*, closed there and hanging by its weight. Millimetres; axes as in core/body/form.h.
#pragma once

#include <algorithm>
#include <optional>
#include <string>

#include "core/draft/draft.h"
#include "tests/core/support/lay.h"

namespace coatwright::test {

// The form as something that can be touched.
struct Stand {
  BodyForm form;
  double chest = 0.0;                          // girth, by which everything is sized
  Obstacle trunk;                              // torso and neck
  std::optional<Obstacle> legs;                // the forelegs
  [[nodiscard]] Vec3 on_back(double u) const;  // along the topline; past its ends straight on
};
[[nodiscard]] Stand stand_of(BodyForm form);

// The breast's taut tape on the form, from the breastbone along the side to the tail base, bridging
// hollows: what Measure::Breast is there.
[[nodiscard]] double taut_breast_tape(const Stand& stand);

// The flat half inside its centre front: what lies past it lies on the other half.
struct HalfCoat {
  // End to end, counter-clockwise: N-T, T-rear corner, hem forward, front edge to F2, F2-F, F-N.
  // Where a dart is cut into the neckline: F to the dart, its leg to the tip, its leg back, on to N.
  enum Side : size_t { Fold, Tail, Hem, FrontEdge, CentreFront, Neckline, Leg, OtherLeg, NeckOn };
  std::vector<Polyline> sides;
  [[nodiscard]] bool has_dart() const { return sides.size() > Leg; }
  Point breastbone;                 // where the coat marks it
  std::optional<double> band_from;  // u on the hem
};
[[nodiscard]] HalfCoat half_coat(const Draft& draft);

// The closed coat's taut ring through its front's lower end and N, flat; and the body's through N and
// the place as far below the breastbone as the front's end below the coat's mark of it.
struct FrontRing {
  double cloth = 0.0, body = 0.0;
};
[[nodiscard]] FrontRing front_ring(const HalfCoat& coat, const Stand& stand);

struct OnTheDog {
  // Of the cloth over the body's (FrontRing): under 1 it cannot close without pulling, over 1 it has
  // room.
  double ring = 0.0;
  // Free: from the middle plane to the lower end of centre front. Above 0 it gapes by that much on
  // each side, below 0 it goes past the middle.
  double gape = 0.0;
  double gape_at_neck = 0.0;  // the same at its upper end
  // Worn:
  double breastbone_off = 0.0;  // from the coat's mark of the breastbone to the dog's
  double front_below = 0.0;     // from the dog's breastbone down the breast to the front's end
  double throat_sag = 0.0;      // how far the neckline lies below the collar's plane at the throat
  double side_sag = 0.0;        // and the most of it elsewhere
  double hem_below = 0.0;     // the most that the hem hangs below the belly; below 0: it ends above
  double hem_below_at = 0.0;  // u of that place
  double front_lift = 0.0;    // the most that the front edge stands off the trunk
  double leg_gap = 0.0;       // the least from the front edge to a foreleg; below 0: it lies on it
  double band_clear = 0.0;    // from the foreleg's fold back to the band's front edge, along x
  double strain95 = 0.0;      // of the whole coat's area, the 95th centile
  double front_strain95 = 0.0;  // of what lies ahead of the girth line
  // Flat:
  double shoulder = 0.0;  // the narrowest way from neckline to front edge over the chest girth

  Laid free, worn;
  Cloth cloth;
};

// What is seen, by name, with the bounds that a good coat keeps. A bound in mm is eased for the
// smallest and the largest dogs, for which it is a share of the chest girth.
template <class Seen>
struct Sight {
  const char* name;
  double Seen::*value;
  bool share = false;  // a plain number, not mm
  double low = -1e9, high = 1e9;
  double low_share = 1e9, high_share = -1e9;  // of the chest girth; the easier of both holds
  // How much further an odd dog may be out: in the same number, or mm a mm of chest girth.
  double odd = 0.0;
  [[nodiscard]] bool holds(double v, double chest, bool odd_dog = false) const {
    const double more = odd_dog ? (share ? odd : odd * chest) : 0.0;
    return v >= std::min(low, low_share * chest) - more &&
           v <= std::max(high, high_share * chest) + more;
  }
};
[[nodiscard]] const std::vector<Sight<OnTheDog>>& sights();

// Dogs of the same readings: the usual shape, and if asked for other shoulders (10 % narrower and
// wider), necks (their rings 30, 45 and 60 degrees from upright) and elbows (15 % lower and higher).
struct NamedShape {
  std::string name;  // "" for the usual one
  FormShape shape;
};
[[nodiscard]] std::vector<NamedShape> shapes_to_try(const Body& body, bool vary);

// The underpanel coat: a body in two sides that close on the back, sewn to a panel on the fold.
struct PanelCoat {
  // N-T, tail, hem forward, side seam forward, leg opening, breast seam to S, neckline to N; and the
  // panel: fold from the throat to its end, hem, side seam, leg opening, breast seam, neckline.
  enum Side : size_t { Back, Tail, Hem, BodySeam, BodyLeg, BodyBreast, BodyNeckline };
  enum PanelSide : size_t { Fold, PanelHem, PanelSeam, PanelLeg, PanelBreast, PanelNeckline };
  std::vector<Polyline> body, panel;
  double breastbone = 0.0;              // on the panel's fold
  double girth_s = 0.0, girth_u = 0.0;  // the girth line, on the panel and on the body
};
[[nodiscard]] PanelCoat panel_coat(const Draft& draft);

struct PanelOnTheDog {
  double breastbone_off = 0.0;  // from the panel's mark of the breastbone to the dog's
  double throat_sag = 0.0;      // how far the neckline lies below the collar's plane at the throat
  double side_sag = 0.0;        // and the most of it elsewhere
  double girth_off = 0.0;       // from the dog's girth line to the panel's, back along the belly
  double end_off = 0.0;         // from the dog's end of the underline to the panel's, the same way
  double leg_aft = 0.0;         // from the foreleg's rear back to the opening's, along x
  double hem_below = 0.0;
  double strain95 = 0.0;
  Laid worn;
  Cloth cloth;
};
[[nodiscard]] const std::vector<Sight<PanelOnTheDog>>& panel_sights();
// `underline`: from the breastbone along the belly to where the panel should end.
[[nodiscard]] PanelOnTheDog try_on(const PanelCoat& coat, const Stand& stand, double underline,
                                   const struct Trying& how);

struct Trying {
  double mesh = 1.0 / 36.0;  // size of the mesh, of the chest girth
  double hand = 0.001;       // of the cloth's stiffness, over the chest girth
  double weight = 0.0015;
  int rounds = 800;  // of laying, at most
};
[[nodiscard]] OnTheDog try_on(const HalfCoat& coat, const Stand& stand, const Trying& how = {});

}  // namespace coatwright::test
