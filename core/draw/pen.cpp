#include "core/draw/pen.h"

#include <array>

namespace coatwright {
namespace {

using Pens = std::array<Pen, kRoles>;

// In the order of Role.
Pens paper_pens() {
  return {{
      {"cut-line", 0.7, {}},
      {"sewn-line", 0.35, {4.0, 2.0}},
      {"fold-line", 0.6, {9.0, 2.0, 2.0, 2.0}},
      {"grain", 0.35, {}},
      {"notch", 0.45, {}},
      {"placement", 0.25, {1.5, 1.5}},
      {"centre-line", 0.3, {7.0, 1.8, 0.6, 1.8}},
      {"body-line", 0.4, {0.5, 1.4}},
      {"cloth", 0.0, {}, "#000", false},
      {"lining-cloth", 0.0, {}, "#000", false},
      {"sheet-edge", 0.18, {}},
      {"join-line", 0.18, {3.0, 1.5}},
      {"register", 0.2, {}},
      {"scale", 0.2, {}},
      {"caption", 0.2, {}},
      {"name", 0.2, {}},
      {"size", 0.2, {}},
      {"stripe", 0.2, {0.3, 1.5}},
      {"former", 0.2, {2.0, 2.0}},
      {"nest-1", 0.4, {}},
      {"nest-2", 0.4, {6.0, 2.0}},
      {"nest-3", 0.4, {2.0, 1.5}},
      {"nest-4", 0.4, {8.0, 1.5, 1.0, 1.5}},
      {"nest-5", 0.4, {0.6, 1.4}},
      {"nest-6", 0.4, {5.0, 1.5, 1.0, 1.5, 1.0, 1.5}},
      {"blank", 0.0, {}, "#fff"},
      {"tape", 0.7, {2.4, 1.2}},
  }};
}

Pens picture_pens() {
  Pens pens = paper_pens();
  const auto colour = [&](Role role, const char* c) {
    pens[static_cast<size_t>(role)].colour = c;
    pens[static_cast<size_t>(role)].fills = true;
  };
  for (Pen& p : pens) p.colour = "#1F2937";
  colour(Role::SewnLine, "#7A5C3E");
  colour(Role::Placement, "#4A6B91");
  colour(Role::CentreLine, "#4A6B91");
  colour(Role::BodyLine, "#5A7FA8");
  colour(Role::Stripe, "#5A7FA8");
  colour(Role::Former, "#6B7280");
  colour(Role::Cloth, "#DCE7EE");
  colour(Role::LiningCloth, "#F1EADA");
  colour(Role::Blank, "#FFFDF7");
  return pens;
}

}  // namespace

const Pen& pen(Role role, Ink ink) {
  static const Pens paper = paper_pens();
  static const Pens picture = picture_pens();
  return (ink == Ink::Paper ? paper : picture)[static_cast<size_t>(role)];
}

}  // namespace coatwright
