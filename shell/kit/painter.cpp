#include "shell/kit/painter.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>

#include "core/units/length.h"
#include "shell/desk/letters.h"
#include "shell/kit/script_lines.h"
#include "shell/words/fonts.h"

namespace coatwright::studio {
namespace {

// The sizes that are rasterised; others are scaled from the next larger one.
struct Baked {
  Type type;
  bool letters;  // all letters, or figures and capitals only
};
constexpr std::array<Baked, 6> kBaked{{{{Face::Regular, 16.0F}, true},
                                       {{Face::Regular, 19.0F}, true},
                                       {{Face::Semibold, 16.0F}, true},
                                       {{Face::Semibold, 19.0F}, true},
                                       {{Face::Semibold, 24.0F}, true},
                                       {{Face::Semibold, 34.0F}, false}}};

// A fraction's figures over the size of the type, and how far the numerator's foot is raised.
constexpr float kFractionScale = 0.66F;
constexpr float kFractionRise = 0.27F;
constexpr float kFractionKern = 0.1F;  // how far the slash moves under its figures
constexpr unsigned kFractionSlash = 0x2044;

struct Vulgar {
  unsigned code;
  char over, under;
};
constexpr std::array<Vulgar, 9> kVulgar{{{0xBC, '1', '4'},
                                         {0xBD, '1', '2'},
                                         {0xBE, '3', '4'},
                                         {0x2153, '1', '3'},
                                         {0x2154, '2', '3'},
                                         {0x215B, '1', '8'},
                                         {0x215C, '3', '8'},
                                         {0x215D, '5', '8'},
                                         {0x215E, '7', '8'}}};

// Letters with accents: wanted once one was written, and in the atlas from its next making on.
struct Accents {
  bool wanted = false, made = false;
};
Accents& accents() {
  static Accents state;
  return state;
}
bool is_accented(unsigned code) { return code >= 0xC0 && code <= 0x17F && code != 0xD7; }

// Lines with letters that the faces lack, where the host has them; drawn at the type's ratio.
struct Scripts {
  ScriptLines lines;
  float ratio = 1.0F;
};
Scripts& scripts() {
  static Scripts state;
  return state;
}
bool is_the_hosts(std::string_view words) { return letters() != nullptr && !type_has(words); }
Type in_pixels(Type type, float ratio) { return {type.face, type.size * ratio}; }

LayGround& the_ground() {
  static LayGround host = nullptr;
  return host;
}

ImU32 packed(Colour c) { return IM_COL32(c.r, c.g, c.b, c.a); }

void add_face(std::span<const unsigned char> face, float size_px, bool fine, const ImWchar* ranges,
              bool merge) {
  ImFontConfig config;
  config.FontDataOwnedByAtlas = false;
  config.MergeMode = merge;
  config.OversampleH = fine ? 1 : 2;
  // The atlas only reads the bytes; its interface predates const.
  ImGui::GetIO().Fonts->AddFontFromMemoryTTF(const_cast<unsigned char*>(face.data()),
                                             static_cast<int>(face.size()), size_px, &config,
                                             ranges);
}

const ImFont* font_for(Type type) {
  const auto& fonts = ImGui::GetIO().Fonts->Fonts;
  int best = -1;
  for (int i = 0; i < static_cast<int>(kBaked.size()); ++i) {
    const Type baked = kBaked[static_cast<size_t>(i)].type;
    if (baked.face != type.face) continue;
    best = i;
    if (baked.size >= type.size - 0.5F) break;
  }
  return fonts[best];
}

// The next code point of UTF-8 text; broken bytes are taken as they stand.
unsigned next_code(std::string_view words, size_t& at) {
  const auto byte = [&](size_t i) {
    return i < words.size() ? static_cast<unsigned char>(words[i]) : 0U;
  };
  const unsigned first = byte(at);
  const size_t more = first >= 0xF0 ? 3 : first >= 0xE0 ? 2 : first >= 0xC0 ? 1 : 0;
  unsigned code = more == 0 ? first : first & (0x3FU >> more);
  for (size_t i = 1; i <= more; ++i) code = (code << 6) | (byte(at + i) & 0x3FU);
  at = std::min(words.size(), at + more + 1);
  return code;
}

bool is_figure(char c) { return c >= '0' && c <= '9'; }

// If a fraction written with U+2044 begins at `at`, its numerator's and denominator's lengths.
bool fraction_at(std::string_view words, size_t at, size_t& over, size_t& under) {
  over = 0;
  while (at + over < words.size() && is_figure(words[at + over])) ++over;
  if (over == 0 || words.substr(at + over, 3) != "\u2044") return false;
  const size_t from = at + over + 3;
  under = 0;
  while (from + under < words.size() && is_figure(words[from + under])) ++under;
  return under > 0;
}

// The bytes of a space, one that breaks or one that does not; 0 if there is none.
size_t space_at(std::string_view words, size_t at) {
  constexpr std::string_view kUnbroken = "\u00A0";
  const std::string_view rest = words.substr(at);
  return rest.starts_with(kUnbroken) ? kUnbroken.size() : rest.starts_with(' ') ? 1 : 0;
}

// Lays one line out: calls emit(code, x, rise, scale) for each glyph, x and rise over the type's
// size; returns the width over the size. The one place that knows how fractions are set.
class Setter {
 public:
  Setter(const ImFont& font) : font_(font), unit_(kLineHeight / font.FontSize) {}

  template <class Emit>
  float set(std::string_view words, const Emit& emit) {
    x_ = 0.0F;
    bool after_figure = false;
    for (size_t at = 0; at < words.size();) {
      size_t over = 0, under = 0;
      if (fraction_at(words, at, over, under)) {
        fraction(words.substr(at, over), words.substr(at + over + 3, under), after_figure, emit);
        at += over + 3 + under;
        after_figure = false;
        continue;
      }
      // "20 3⁄16": the fraction follows its whole number without the space, whichever it is.
      const size_t space = space_at(words, at);
      if (after_figure && space > 0 && fraction_at(words, at + space, over, under)) {
        at += space;
        continue;
      }
      const unsigned code = next_code(words, at);
      const auto* vulgar = std::find_if(kVulgar.begin(), kVulgar.end(),
                                        [&](const Vulgar& v) { return v.code == code; });
      if (vulgar != kVulgar.end()) {
        fraction({&vulgar->over, 1}, {&vulgar->under, 1}, after_figure, emit);
      } else {
        glyph(code == kFractionSlash ? '/' : code, 0.0F, 1.0F, emit);
      }
      after_figure = code < 0x80 && is_figure(static_cast<char>(code));
    }
    return x_;
  }

 private:
  template <class Emit>
  void glyph(unsigned code, float rise, float scale, const Emit& emit) {
    if (is_accented(code)) accents().wanted = true;
    emit(code, x_, rise, scale);
    x_ += font_.GetCharAdvance(static_cast<ImWchar>(code)) * unit_ * scale;
  }
  template <class Emit>
  void fraction(std::string_view over, std::string_view under, bool gap, const Emit& emit) {
    if (gap) x_ += 0.04F;
    for (const char c : over)
      glyph(static_cast<unsigned char>(c), kFractionRise, kFractionScale, emit);
    x_ -= kFractionKern;
    glyph('/', 0.03F, 0.86F, emit);
    x_ -= kFractionKern;
    for (const char c : under) glyph(static_cast<unsigned char>(c), 0.0F, kFractionScale, emit);
  }

  const ImFont& font_;
  float unit_;  // font units to type sizes
  float x_ = 0.0F;
};

float aligned(float x, float width, Align align) {
  return align == Align::Start ? x : align == Align::Middle ? x - 0.5F * width : x - width;
}

}  // namespace

void load_type(float device_ratio) {
  scripts().ratio = device_ratio;
  device_ratio = std::min(device_ratio, kMostTypeRatio);
  ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
  atlas.Clear();
  atlas.TexDesiredWidth = device_ratio > 1.5F ? 2048 : 1024;
  std::vector<ImWchar> symbols;
  for (const auto* r = font_symbol_ranges(); *r != 0; ++r) symbols.push_back(*r);
  symbols.push_back(0);
  static constexpr ImWchar kPlain[] = {0x20, 0xBF, 0xD7, 0xD7, 0x2013, 0x2043, 0x20AC, 0x20AC, 0};
  static constexpr ImWchar kAll[] = {0x20, 0x17F, 0x2013, 0x2043, 0x20AC, 0x20AC, 0};
  static constexpr ImWchar kFigures[] = {0x20, 0x7E, 0};
  for (const Baked& baked : kBaked) {
    const float size_px = baked.type.size * kLineHeight * device_ratio;
    const bool fine = device_ratio * baked.type.size > 30.0F;
    add_face(baked.type.face == Face::Regular ? font_regular() : font_semibold(), size_px, fine,
             !baked.letters     ? kFigures
             : accents().wanted ? kAll
                                : kPlain,
             false);
    if (baked.letters) add_face(font_symbols(), size_px, fine, symbols.data(), true);
  }
  atlas.Build();
  accents().made = accents().wanted;
}

bool type_lacks_letters() { return accents().wanted && !accents().made; }

void lay_grounds_by(LayGround host) { the_ground() = host; }

void forget_script_lines() { scripts().lines.forget(); }

Painter::Painter(float device_ratio) : list_(ImGui::GetBackgroundDrawList()), ratio_(device_ratio) {
  scripts().lines.next_picture();
}

namespace {

ImVec2 px(Spot p, float ratio) { return {p.x * ratio, p.y * ratio}; }

// Edges of filled boxes fall on device pixels.
ImVec2 snapped(Spot p, float ratio) { return {std::round(p.x * ratio), std::round(p.y * ratio)}; }

}  // namespace

// Most of a long side sheet lies outside its clip, and nearly all of the board outside the
// magnifier's: what cannot be seen costs no vertex.
bool Painter::in_sight(const Box& box, float beyond) const {
  const ImVec2 low = list_->GetClipRectMin(), high = list_->GetClipRectMax();
  return (box.x - beyond) * ratio_ <= high.x && (box.right() + beyond) * ratio_ >= low.x &&
         (box.y - beyond) * ratio_ <= high.y && (box.bottom() + beyond) * ratio_ >= low.y;
}

namespace {

Box box_round(std::span<const Spot> points) {
  Spot low = points[0], high = points[0];
  for (const Spot p : points) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
  }
  return {low.x, low.y, high.x - low.x, high.y - low.y};
}

Box box_round(Spot centre, float radius) {
  return {centre.x - radius, centre.y - radius, 2.0F * radius, 2.0F * radius};
}

constexpr float kGround = 10000.0F;  // CSS px²: from here on a box is worth a command of its own
constexpr float kSoftEdge = 2.0F;    // CSS px: rounding to device pixels, and the smoothed edge

}  // namespace

void Painter::lay_ground(const ImVec2& from, const ImVec2& to, unsigned colour) {
  list_->PushClipRect(from, to, true);
  list_->AddCallback(the_ground(), reinterpret_cast<void*>(static_cast<std::uintptr_t>(colour)));
  list_->PopClipRect();
}

void Painter::fill(const Box& box, Colour colour, float radius) {
  if (!in_sight(box, kSoftEdge)) return;
  const ImVec2 from = snapped({box.x, box.y}, ratio_);
  const ImVec2 to = snapped({box.right(), box.bottom()}, ratio_);
  const ImU32 ink = packed(colour);
  const float round = radius * ratio_;
  if (the_ground() == nullptr || colour.a < 255 || box.w * box.h < kGround) {
    list_->AddRectFilled(from, to, ink, round);
    return;
  }
  // The rows with the round corners are triangles; their smoothed inner edge is laid over.
  const float corner = round > 0.0F ? std::ceil(round) : 0.0F;
  if (corner > 0.0F) {
    list_->AddRectFilled(from, {to.x, from.y + corner + 2.0F}, ink, round,
                         ImDrawFlags_RoundCornersTop);
    list_->AddRectFilled({from.x, to.y - corner - 2.0F}, to, ink, round,
                         ImDrawFlags_RoundCornersBottom);
  }
  lay_ground({from.x, from.y + corner}, {to.x, to.y - corner}, ink);
}

void Painter::outline(const Box& box, Colour colour, float width, float radius) {
  if (!in_sight(box, width + kSoftEdge)) return;
  const float w = std::max(1.0F, std::round(width * ratio_));
  const ImVec2 a = snapped({box.x, box.y}, ratio_);
  const ImVec2 b = snapped({box.right(), box.bottom()}, ratio_);
  // AddRect strokes the middle of a line half a pixel inside; move it so that it stays in the box.
  const float in = 0.5F * w - 0.5F;
  list_->AddRect({a.x + in, a.y + in}, {b.x - in, b.y - in}, packed(colour), radius * ratio_ - in,
                 0, w);
}

void Painter::line(Spot a, Spot b, Colour colour, float width) {
  const Spot ends[] = {a, b};
  if (!in_sight(box_round(ends), width + kSoftEdge)) return;
  const float w = width * ratio_;
  if (a.x == b.x || a.y == b.y) {  // a ruled line: whole device pixels
    const float half = 0.5F * std::max(1.0F, std::round(w));
    const ImVec2 p = snapped(a, ratio_), q = snapped(b, ratio_);
    const bool upright = a.x == b.x;
    const float dx = upright ? half : 0.0F, dy = upright ? 0.0F : half;
    list_->AddRectFilled({std::floor(std::min(p.x, q.x) - dx), std::floor(std::min(p.y, q.y) - dy)},
                         {std::floor(std::max(p.x, q.x) + dx), std::floor(std::max(p.y, q.y) + dy)},
                         packed(colour));
    return;
  }
  list_->AddLine(px(a, ratio_), px(b, ratio_), packed(colour), w);
}

void Painter::polyline(std::span<const Spot> points, Colour colour, float width, bool closed) {
  if (points.empty() || !in_sight(box_round(points), width + kSoftEdge)) return;
  list_->PathClear();
  for (const Spot p : points) list_->PathLineTo(px(p, ratio_));
  list_->PathStroke(packed(colour), closed ? ImDrawFlags_Closed : 0, width * ratio_);
}

void Painter::dashes(std::span<const Spot> points, std::span<const float> pattern, Colour colour,
                     float width, bool closed) {
  if (points.size() < 2) return;
  size_t phase = 0;
  float left = pattern[0];
  Line dash{points[0]};
  const size_t n = closed ? points.size() : points.size() - 1;
  for (size_t i = 0; i < n; ++i) {
    Spot from = points[i];
    const Spot to = points[(i + 1) % points.size()];
    float length = std::hypot(to.x - from.x, to.y - from.y);
    while (length > left) {
      from = from + (left / length) * (to - from);
      length -= left;
      dash.push_back(from);
      if (phase % 2 == 0) polyline(dash, colour, width);
      dash.assign(1, from);
      phase = (phase + 1) % pattern.size();
      left = pattern[phase];
    }
    left -= length;
    dash.push_back(to);
  }
  if (phase % 2 == 0 && dash.size() > 1) polyline(dash, colour, width);
}

void Painter::disc(Spot centre, float radius, Colour colour) {
  if (!in_sight(box_round(centre, radius), kSoftEdge)) return;
  list_->AddCircleFilled(px(centre, ratio_), radius * ratio_, packed(colour));
}

void Painter::dots(std::span<const Spot> centres, float diameter, Colour colour) {
  constexpr ImWchar kBullet = 0x2022;
  constexpr float kOfType = 0.218F;  // the bullet's diameter over the size of the type, in Cabin
  const ImFont& font = *font_for(kBody);
  const ImFontGlyph* g = font.FindGlyph(kBullet);
  const float scale = diameter * ratio_ / (kOfType * font.FontSize / kLineHeight);
  const ImVec2 half{0.5F * scale * (g->X1 - g->X0), 0.5F * scale * (g->Y1 - g->Y0)};
  const auto n = static_cast<int>(centres.size());
  list_->PrimReserve(6 * n, 4 * n);
  for (const Spot centre : centres) {
    const ImVec2 at = px(centre, ratio_);
    list_->PrimRectUV({at.x - half.x, at.y - half.y}, {at.x + half.x, at.y + half.y},
                      {g->U0, g->V0}, {g->U1, g->V1}, packed(colour));
  }
}

void Painter::ring(Spot centre, float radius, Colour colour, float width) {
  if (!in_sight(box_round(centre, radius), width + kSoftEdge)) return;
  list_->AddCircle(px(centre, ratio_), radius * ratio_, packed(colour), 0, width * ratio_);
}

void Painter::convex(std::span<const Spot> points, Colour colour) {
  if (points.empty() || !in_sight(box_round(points), kSoftEdge)) return;
  list_->PathClear();
  for (const Spot p : points) list_->PathLineTo(px(p, ratio_));
  list_->PathFillConvex(packed(colour));
}

void Painter::triangles(std::span<const Spot> points, std::span<const int> corners, Colour colour) {
  if (corners.empty()) return;
  const ImVec2 white = ImGui::GetFontTexUvWhitePixel();
  list_->PrimReserve(static_cast<int>(corners.size()), static_cast<int>(points.size()));
  const auto base = static_cast<ImDrawIdx>(list_->_VtxCurrentIdx);
  for (const int corner : corners) {
    list_->PrimWriteIdx(static_cast<ImDrawIdx>(base + static_cast<ImDrawIdx>(corner)));
  }
  for (const Spot p : points) list_->PrimWriteVtx(px(p, ratio_), white, packed(colour));
}

void Painter::run(Spot origin_px, std::string_view words, Type type, Colour colour, float cosine,
                  float sine) {
  if (is_the_hosts(words)) return host_run(origin_px, words, type, colour, cosine, sine);
  const ImFont& font = *font_for(type);
  const float em_px = type.size * ratio_;
  const float to_px = em_px * kLineHeight / font.FontSize;
  const ImU32 ink = packed(colour);
  const auto corner = [&](float x, float y) {
    return ImVec2{origin_px.x + x * cosine - y * sine, origin_px.y + x * sine + y * cosine};
  };
  Setter(font).set(words, [&](unsigned code, float x, float rise, float scale) {
    const ImFontGlyph* g = font.FindGlyph(static_cast<ImWchar>(code));
    if (g == nullptr || !g->Visible) return;
    const float s = to_px * scale;
    const float left = x * em_px + g->X0 * s, right = x * em_px + g->X1 * s;
    const float top = (g->Y0 - font.Ascent) * s - rise * em_px;
    const float foot = (g->Y1 - font.Ascent) * s - rise * em_px;
    list_->PrimReserve(6, 4);
    list_->PrimQuadUV(corner(left, top), corner(right, top), corner(right, foot),
                      corner(left, foot), {g->U0, g->V0}, {g->U1, g->V0}, {g->U1, g->V1},
                      {g->U0, g->V1}, ink);
  });
}

void Painter::host_run(Spot origin_px, std::string_view words, Type type, Colour colour,
                       float cosine, float sine) {
  const ScriptLine* line = scripts().lines.line(words, in_pixels(type, ratio_), colour);
  if (line == nullptr) return;
  const auto corner = [&](float x, float y) {
    return ImVec2{origin_px.x + x * cosine - y * sine, origin_px.y + x * sine + y * cosine};
  };
  const float right = line->left + line->width, foot = line->top + line->height;
  list_->AddImageQuad(line->texture, corner(line->left, line->top), corner(right, line->top),
                      corner(right, foot), corner(line->left, foot), {0.0F, 0.0F}, {1.0F, 0.0F},
                      {1.0F, 1.0F}, {0.0F, 1.0F}, IM_COL32(255, 255, 255, colour.a));
}

void Painter::picture(const Box& box, void* texture) {
  list_->AddImage(texture, {box.x * ratio_, box.y * ratio_},
                  {box.right() * ratio_, box.bottom() * ratio_});
}

namespace {

HearText& listener() {
  static HearText the_listener;
  return the_listener;
}

void tell_listener(std::string_view words, const Box& box) {
  if (listener()) listener()(words, box);
}

}  // namespace

void overhear(HearText hear) { listener() = std::move(hear); }

float Painter::text(Spot at, std::string_view words, Type type, Colour colour, Align align) {
  const float width = set(at, words, type, colour, align);
  tell_listener(words, {aligned(at.x, width, align), at.y, width, 0.0F});
  return width;
}

float Painter::set(Spot at, std::string_view words, Type type, Colour colour, Align align) {
  const float width = text_width(words, type);
  const Box box{aligned(at.x, width, align), at.y, width, 0.0F};
  if (!in_sight(box, type.size)) return width;
  const ImFont& font = *font_for(type);
  const float line_px = type.size * kLineHeight * ratio_;
  const float baseline = at.y * ratio_ - 0.5F * line_px + font.Ascent * line_px / font.FontSize;
  run({std::round(aligned(at.x, width, align) * ratio_), std::round(baseline)}, words, type, colour,
      1.0F, 0.0F);
  return width;
}

void Painter::turned_text(Spot at, std::string_view words, Type type, Colour colour, float angle,
                          Align align) {
  tell_listener(words, {at.x, at.y, 0.0F, 0.0F});
  const float width = text_width(words, type) * ratio_;
  const ImFont& font = *font_for(type);
  const float line_px = type.size * kLineHeight * ratio_;
  const float along = aligned(0.0F, width, align);
  const float across = -0.5F * line_px + font.Ascent * line_px / font.FontSize;
  const float c = std::cos(angle), s = std::sin(angle);
  run({at.x * ratio_ + along * c - across * s, at.y * ratio_ + along * s + across * c}, words, type,
      colour, c, s);
}

float Painter::paragraph(Spot top_left, float width, std::string_view words, Type type,
                         Colour colour) {
  float y = top_left.y + 0.5F * line_step(type);
  const auto lines = broken(words, width, type);
  for (const std::string_view one : lines) {
    set({top_left.x, y}, one, type, colour, Align::Start);
    y += line_step(type);
  }
  const float height = static_cast<float>(lines.size()) * line_step(type);
  tell_listener(words, {top_left.x, top_left.y, width, height});
  return height;
}

float Painter::clipped_text(Spot at, float width, std::string_view words, Type type, Colour colour,
                            Align align) {
  const float wanted = text_width(words, type);
  if (wanted <= width) return text(at, words, type, colour, align);
  type.size = std::clamp(std::floor(type.size * width / wanted), std::min(type.size, kLeastType),
                         type.size);
  if (text_width(words, type) <= width) return text(at, words, type, colour, align);
  cut_short_.emplace_back(words);
  tell_listener(words, {aligned(at.x, width, align), at.y, width, 0.0F});
  if (is_the_hosts(words)) {
    const std::string all(words);
    const size_t fits =
        letters()->fitting(all, type.face == Face::Semibold, type.size * ratio_, width * ratio_);
    return set(at, all.substr(0, fits) + "…", type, colour, align);
  }
  std::string shorter;
  for (size_t i = 0; i < words.size();) {
    size_t end = i;
    (void)next_code(words, end);
    const std::string longer = shorter + std::string(words.substr(i, end - i));
    if (text_width(longer + "…", type) > width) break;
    shorter = longer;
    i = end;
  }
  return set(at, shorter + "…", type, colour, align);
}

void Painter::boxed_text(const Box& box, std::string_view words, Type type, Colour colour) {
  constexpr float kClose = 1.15F;  // distance of lines in a key, over the size
  for (Type t = type; t.size >= kLeastType; t.size -= 1.0F) {
    const auto lines = broken(words, box.w, t);
    const float step = kClose * t.size, height = step * static_cast<float>(lines.size());
    const bool fits = height <= box.h && std::all_of(lines.begin(), lines.end(), [&](auto line) {
                        return text_width(line, t) <= box.w;
                      });
    if (!fits) continue;
    float y = box.centre().y - 0.5F * (height - step);
    for (const std::string_view line : lines) {
      text({box.centre().x, y}, line, t, colour, Align::Middle);
      y += step;
    }
    return;
  }
  clipped_text(box.centre(), box.w, words, type, colour, Align::Middle);
}

void Painter::push_clip(const Box& box) {
  list_->PushClipRect(snapped({box.x, box.y}, ratio_), snapped({box.right(), box.bottom()}, ratio_),
                      true);
}

void Painter::pop_clip() { list_->PopClipRect(); }

float text_width(std::string_view words, Type type) {
  if (is_the_hosts(words)) {
    const float ratio = scripts().ratio;
    return scripts().lines.width(words, in_pixels(type, ratio)) / ratio;
  }
  return type.size * Setter(*font_for(type)).set(words, [](unsigned, float, float, float) {});
}

std::vector<std::string_view> broken(std::string_view words, float width, Type type) {
  std::vector<std::string_view> lines;
  size_t from = 0, end = 0;  // the line so far is words[from, end)
  for (size_t at = 0; at <= words.size(); ++at) {
    const bool stop =
        at == words.size() || words[at] == '\n' || (words[at] == ' ' && !binds(words, at));
    if (!stop) continue;
    if (end > from && text_width(words.substr(from, at - from), type) > width) {
      lines.push_back(words.substr(from, end - from));
      from = end + 1;
    }
    end = at;
    if (at < words.size() && words[at] == '\n') {
      lines.push_back(words.substr(from, end - from));
      from = end = at + 1;
    }
  }
  if (end > from) lines.push_back(words.substr(from, end - from));
  return lines;
}

float paragraph_height(std::string_view words, float width, Type type) {
  return static_cast<float>(broken(words, width, type).size()) * line_step(type);
}

}  // namespace coatwright::studio
