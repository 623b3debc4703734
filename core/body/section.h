// The cross-section of the rib cage: an upright ellipse, a little slimmer than the true one, whose
// proportions follow the dog's build. Pure numbers, any unit of length.
//
//      .-.      depth D, top to bottom
//     /   \     width Wd, side to side
//     \   /     girth G = 0.973 x the ellipse's perimeter
//      '-'
#pragma once

#include "core/body/measures.h"

namespace coatwright {

// Measured girth / perimeter of the ellipse with the same depth and width: Akbash, n = 96 (Urosevic
// et al. 2020, TURJAF 8(7):1571-1576): D 29.58, Wd 21.02, G 77.86 cm.
inline constexpr double kGirthOfEllipse = 0.973;

// Depth over width of an ordinary dog. The Akbash group has 1.41; the Kangal group (n = 50, Cilek &
// Kavak 2012) is deeper for its girth (D 37.62 of G 86.12 cm, its width unknown). 1.56 brings the
// depth of both within 5 % of their withers height, inside the published class (1.25-1.60).
inline constexpr double kOrdinaryDepthOverWidth = 1.56;

// Which of four goes with a build.
template <class T>
[[nodiscard]] constexpr const T& by_build(Build b, const T& ordinary, const T& broad, const T& deep,
                                          const T& long_low) {
  switch (b) {
    case Build::Broad:
      return broad;
    case Build::Deep:
      return deep;
    case Build::LongLow:
      return long_low;
    case Build::Ordinary:
      break;
  }
  return ordinary;
}

// Depth over width by build. Classes: thoracic index of the Italian cynometry (Cane Corso standard
// commentary): brachymorph 1.00-1.11, mesomorph 1.11-1.67, dolichomorph 1.67-2.00.
[[nodiscard]] double depth_over_width(Build build);

struct Section {
  double depth = 0.0;
  double width = 0.0;
  [[nodiscard]] double girth() const;
  // How far round from the top to the level `down` x depth, as a share of the half girth;
  // 0 at the top, 1 at the bottom. `down` is clamped to 0..1.
  [[nodiscard]] double share_at_level(double down) const;
  // The inverse: the level, in depths, at a share of the half girth; within 1e-9.
  [[nodiscard]] double level_at_share(double share) const;
};

// The section with the given girth.
[[nodiscard]] Section section_of(double girth, double depth_over_width);
[[nodiscard]] inline Section section_of(double girth, Build build) {
  return section_of(girth, depth_over_width(build));
}

// The loin is half way between the chest's section and a round one; the neck is a little deeper
// than wide. Own rules: no table was found.
[[nodiscard]] constexpr double loin_depth_over_width(double of_chest) {
  return 0.5 * (1.0 + of_chest);
}
[[nodiscard]] inline Section loin_section(double girth, Build build) {
  return section_of(girth, loin_depth_over_width(depth_over_width(build)));
}
[[nodiscard]] inline Section neck_section(double girth) { return section_of(girth, 1.25); }

}  // namespace coatwright
