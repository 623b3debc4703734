// The look: colours by what they stand for, by day and by evening, and the sizes of type.
//
// Text colours keep a contrast of 4.5:1 to the ground that they stand on (WCAG 2.2, 1.4.3); the
// pairs are listed in text_pairs() and tested.
#pragma once

#include <cstdint>
#include <vector>

namespace coatwright::studio {

struct Colour {
  std::uint8_t r = 0, g = 0, b = 0, a = 255;
  bool operator==(const Colour&) const = default;
};
constexpr Colour rgb(std::uint32_t hex) {
  return {static_cast<std::uint8_t>(hex >> 16), static_cast<std::uint8_t>(hex >> 8),
          static_cast<std::uint8_t>(hex), 255};
}
constexpr Colour faded(Colour c, float alpha) {
  c.a = static_cast<std::uint8_t>(static_cast<float>(c.a) * alpha);
  return c;
}
[[nodiscard]] Colour mixed(Colour a, Colour b, float t);

struct Palette {
  Colour table, table_key, table_text, table_soft;  // the dark table and the keys that lie on it
  Colour card, card_dot, card_edge;                 // the board
  Colour paper, paper_corner, paper_line;           // the side sheet
  Colour ink, soft;                                 // text on card and paper
  Colour tape, tape_ink, tape_lit;                  // the station bar; lit: the chosen station
  Colour metal, metal_hole, metal_ink;              // its metal end
  Colour chalk, chalk_text, chalk_wash;             // the dog's own lines; what is open or to know
  Colour thread;                                    // sewn lines
  Colour cloth, lining, dog, dog_shade;             // washes
  Colour brick, brick_wash;                         // what is wrong
  Colour fir, fir_wash;                             // what is right
  Colour key, key_fraction, key_text;               // the keypad
  Colour solid, solid_text;                         // the chosen option, the main action
  Colour slider, slider_rest, knob;
  Colour focus;  // ring round the control that the keyboard is on
};
[[nodiscard]] const Palette& day();
[[nodiscard]] const Palette& evening();

// The hue of a coat's pieces among those that are laid together: `tint` 0 is that of the cloth
// itself, 1 to 5 are others of the palette, made as quiet.
inline constexpr int kCoatHues = 5;
[[nodiscard]] Colour coat_hue(const Palette& palette, int tint, Colour cloth);

struct TextPair {
  const char* name;
  Colour text, ground;
};
[[nodiscard]] std::vector<TextPair> text_pairs(const Palette& palette);
// Contrast ratio by WCAG 2.2's relative luminance, 1 to 21.
[[nodiscard]] double contrast(Colour a, Colour b);

enum class Face { Regular, Semibold };

// A style of type; size in CSS pixels as in font-size.
struct Type {
  Face face = Face::Regular;
  float size = 16.0F;
};
inline constexpr Type kBody{Face::Regular, 16.0F};
inline constexpr Type kStrong{Face::Semibold, 16.0F};
inline constexpr Type kLarge{Face::Semibold, 19.0F};
inline constexpr Type kTitle{Face::Semibold, 24.0F};
inline constexpr Type kFigure{Face::Semibold, 34.0F};
inline constexpr float kLeastType = 13.0F;  // smaller cannot be read
// Height of a line of text over its size (Cabin: ascender 0.965, descender 0.25).
inline constexpr float kLineHeight = 1.215F;

inline constexpr float kTarget = 48.0F;  // least side of what a finger touches
inline constexpr float kGap = 10.0F;     // between controls

}  // namespace coatwright::studio
