#include "shell/kit/theme.h"

#include <algorithm>
#include <cmath>

namespace coatwright::studio {
namespace {

constexpr Palette kDay{
    .table = rgb(0x2F3A4C),
    .table_key = rgb(0x414F66),
    .table_text = rgb(0xF7F2E4),
    .table_soft = rgb(0xAEB8C8),
    .card = rgb(0xF5EEDC),
    .card_dot = rgb(0xE2D6B8),
    .card_edge = rgb(0xD9C7A0),
    .paper = rgb(0xFFFDF7),
    .paper_corner = rgb(0xD9C7A0),
    .paper_line = rgb(0xE6DBC1),
    .ink = rgb(0x1F2937),
    .soft = rgb(0x5B5648),
    .tape = rgb(0xF2C14E),
    .tape_ink = rgb(0x3A2E12),
    .tape_lit = rgb(0xFFFDF7),
    .metal = rgb(0xC9CCD1),
    .metal_hole = rgb(0x9AA0A8),
    .metal_ink = rgb(0x1F2937),
    .chalk = rgb(0x5A7FA8),
    .chalk_text = rgb(0x3B5E86),
    .chalk_wash = rgb(0xE6EEF4),
    .thread = rgb(0x7A5C3E),
    .cloth = rgb(0xC9DAE0),
    .lining = rgb(0xE9D5C4),
    .dog = rgb(0xE9DDBF),
    .dog_shade = rgb(0xD9C7A0),
    .brick = rgb(0xA93C24),
    .brick_wash = rgb(0xFBEFE6),
    .fir = rgb(0x2A6549),
    .fir_wash = rgb(0xE4EFE6),
    .key = rgb(0xF0E6CC),
    .key_fraction = rgb(0xB9D2E4),
    .key_text = rgb(0x1F2937),
    .solid = rgb(0x1F2937),
    .solid_text = rgb(0xFFFDF7),
    .slider = rgb(0x5A7FA8),
    .slider_rest = rgb(0xD9C7A0),
    .knob = rgb(0xFFFDF7),
    .focus = rgb(0x3B5E86),
};

constexpr Palette kEvening{
    .table = rgb(0x14181F),
    .table_key = rgb(0x2A3340),
    .table_text = rgb(0xEDE6D4),
    .table_soft = rgb(0x9AA5B5),
    .card = rgb(0x262B33),
    .card_dot = rgb(0x343B46),
    .card_edge = rgb(0x474F5C),
    .paper = rgb(0x20252D),
    .paper_corner = rgb(0x4A4437),
    .paper_line = rgb(0x3B424E),
    .ink = rgb(0xEFE8D6),
    .soft = rgb(0xB8B09C),
    .tape = rgb(0xA67C22),
    .tape_ink = rgb(0x130E03),
    .tape_lit = rgb(0xE9C878),
    .metal = rgb(0x4B525D),
    .metal_hole = rgb(0x2C323B),
    .metal_ink = rgb(0xF4EFE3),
    .chalk = rgb(0x86AAD0),
    .chalk_text = rgb(0xA3C2E2),
    .chalk_wash = rgb(0x26323F),
    .thread = rgb(0xC9A67F),
    .cloth = rgb(0x3A4B58),
    .lining = rgb(0x54463C),
    .dog = rgb(0x4A4438),
    .dog_shade = rgb(0x6A6050),
    .brick = rgb(0xF29B82),
    .brick_wash = rgb(0x3D2721),
    .fir = rgb(0x8CCFAC),
    .fir_wash = rgb(0x1F3A2E),
    .key = rgb(0x343B46),
    .key_fraction = rgb(0x31485C),
    .key_text = rgb(0xF4EFE3),
    .solid = rgb(0xEFE8D6),
    .solid_text = rgb(0x1B2027),
    .slider = rgb(0x86AAD0),
    .slider_rest = rgb(0x4A4F58),
    .knob = rgb(0xEFE8D6),
    .focus = rgb(0xA3C2E2),
};

double linear(std::uint8_t channel) {
  const double c = channel / 255.0;
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

double luminance(Colour c) {
  return 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b);
}

std::uint8_t mix_channel(std::uint8_t a, std::uint8_t b, float t) {
  return static_cast<std::uint8_t>(
      std::lround(std::lerp(static_cast<float>(a), static_cast<float>(b), t)));
}

}  // namespace

const Palette& day() { return kDay; }
const Palette& evening() { return kEvening; }

Colour mixed(Colour a, Colour b, float t) {
  return {mix_channel(a.r, b.r, t), mix_channel(a.g, b.g, t), mix_channel(a.b, b.b, t),
          mix_channel(a.a, b.a, t)};
}

Colour coat_hue(const Palette& p, int tint, Colour cloth) {
  switch (tint) {
    case 1:
      return mixed(p.tape, p.card, 0.55F);
    case 2:
      return mixed(p.fir, p.card, 0.65F);
    case 3:
      return mixed(p.thread, p.card, 0.6F);
    case 4:
      return p.metal;
    case 5:
      return mixed(p.chalk, p.card, 0.58F);
    default:
      return cloth;
  }
}

double contrast(Colour a, Colour b) {
  const double la = luminance(a), lb = luminance(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

std::vector<TextPair> text_pairs(const Palette& p) {
  const auto hue = [&](int tint) { return coat_hue(p, tint, p.cloth); };
  return {{"key on the table", p.table_text, p.table_key},
          {"text on the table", p.table_text, p.table},
          {"resting key on the table", p.table_soft, p.table},
          {"ink on card", p.ink, p.card},
          {"soft on card", p.soft, p.card},
          {"chalk on card", p.chalk_text, p.card},
          {"brick on card", p.brick, p.card},
          {"ink on paper", p.ink, p.paper},
          {"soft on paper", p.soft, p.paper},
          {"chalk on paper", p.chalk_text, p.paper},
          {"brick on paper", p.brick, p.paper},
          {"fir on paper", p.fir, p.paper},
          {"chalk on its wash", p.chalk_text, p.chalk_wash},
          {"brick on its wash", p.brick, p.brick_wash},
          {"ink on the brick wash", p.ink, p.brick_wash},
          {"fir on its wash", p.fir, p.fir_wash},
          {"station", p.tape_ink, p.tape},
          {"chosen station", p.tape_ink, p.tape_lit},
          {"metal end", p.metal_ink, p.metal},
          {"backup sign", p.tape, p.table},
          {"chosen on the board", p.tape_ink, p.tape},
          {"key", p.key_text, p.key},
          {"fraction key", p.key_text, p.key_fraction},
          {"chosen option", p.solid_text, p.solid},
          {"ink on cloth", p.ink, p.cloth},
          {"ink on lining", p.ink, p.lining},
          {"ink on the second coat", p.ink, hue(1)},
          {"ink on the third coat", p.ink, hue(2)},
          {"ink on the fourth coat", p.ink, hue(3)},
          {"ink on the fifth coat", p.ink, hue(4)},
          {"ink on the sixth coat", p.ink, hue(5)},
          {"ink on the dog", p.ink, p.dog}};
}

}  // namespace coatwright::studio
