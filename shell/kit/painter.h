// Draws on the page in CSS pixels. The one place that knows Dear ImGui's draw lists and fonts: it
// turns CSS pixels into the canvas's device pixels and keeps text and straight lines sharp on them.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "shell/desk/box.h"
#include "shell/kit/theme.h"

struct ImDrawCmd;
struct ImDrawList;
struct ImVec2;

namespace coatwright::studio {

// Makes the type atlas of the current ImGui context for a device pixel ratio. Replaces an older
// one. Letters with accents are most of it and seldom wanted: they are in it once one was written.
// On a finer screen, or a page that its browser enlarges further, letters of this ratio are drawn
// larger: beyond it the atlas would be no texture that every telephone takes (4096 px a side).
inline constexpr float kMostTypeRatio = 4.0F;
void load_type(float device_ratio);
// Whether something was written with letters that the atlas lacks, and stands there without them:
// make the type again and draw again.
[[nodiscard]] bool type_lacks_letters();
// Lines that the host's letters drew (shell/desk/letters.h) are to be drawn anew: their textures
// are gone, or the host has found better letters.
void forget_script_lines();

// How the host lays one colour (an ImU32, the command's data) over a command's clip rectangle. A
// renderer clears a rectangle for next to nothing, where it blends a triangle's every pixel with what
// is there: without a graphics card that is most of a frame. Null, as at first: by triangles.
using LayGround = void (*)(const ImDrawList* list, const ImDrawCmd* command);
void lay_grounds_by(LayGround host);

using Line = std::vector<Spot>;

// From now on `hear` gets every text that is drawn and where it stands: whole, also where it is
// shortened or out of sight. For tests, which compare what is drawn with what is told.
using HearText = std::function<void(std::string_view words, const Box& box)>;
void overhear(HearText hear);

enum class Align { Start, Middle, End };

class Painter {
 public:
  // Draws into the current ImGui frame's background list, `device_ratio` device pixels a CSS pixel.
  explicit Painter(float device_ratio);

  // A large one whose colour covers what lies below is laid by the host (lay_grounds_by).
  void fill(const Box& box, Colour colour, float radius = 0.0F);
  void outline(const Box& box, Colour colour, float width, float radius = 0.0F);
  void line(Spot a, Spot b, Colour colour, float width);
  void polyline(std::span<const Spot> points, Colour colour, float width, bool closed = false);
  // `pattern`: lengths of dash, gap, dash, gap ...
  void dashes(std::span<const Spot> points, std::span<const float> pattern, Colour colour,
              float width, bool closed = false);
  void disc(Spot centre, float radius, Colour colour);
  // Many small discs of one size, at four vertices each.
  void dots(std::span<const Spot> centres, float diameter, Colour colour);
  void ring(Spot centre, float radius, Colour colour, float width);
  void convex(std::span<const Spot> points, Colour colour);
  // A texture of the host's over the whole box.
  void picture(const Box& box, void* texture);
  // Index triples into points.
  void triangles(std::span<const Spot> points, std::span<const int> corners, Colour colour);

  // One line of text; `at` is where its box begins, is centred or ends, vertically the middle.
  // Fractions (⅜, 3⁄16) are set with a raised numerator, whatever the face has. Returns the width.
  float text(Spot at, std::string_view words, Type type, Colour colour, Align align = Align::Start);
  // The same turned by `angle` (radians, clockwise) about `at`.
  void turned_text(Spot at, std::string_view words, Type type, Colour colour, float angle,
                   Align align = Align::Middle);
  // Text broken into lines of at most `width`, from the top left corner; returns its height.
  float paragraph(Spot top_left, float width, std::string_view words, Type type, Colour colour);
  // The words as large as the width holds them, down to kLeastType; then as much of them as it
  // holds, with an ellipsis.
  float clipped_text(Spot at, float width, std::string_view words, Type type, Colour colour,
                     Align align = Align::Start);

  // In the middle of a box: on one line, else on as many as its height holds.
  void boxed_text(const Box& box, std::string_view words, Type type, Colour colour);

  void push_clip(const Box& box);
  void pop_clip();

  [[nodiscard]] float device_ratio() const { return ratio_; }
  // What was cut short for want of room, for tests: there must be another way to read it.
  [[nodiscard]] const std::vector<std::string>& cut_short() const { return cut_short_; }

 private:
  // As text(), unheard: a part of what is drawn.
  float set(Spot at, std::string_view words, Type type, Colour colour, Align align);
  // Whether the box, grown by `beyond`, meets what is clipped to. CSS px.
  [[nodiscard]] bool in_sight(const Box& box, float beyond) const;
  void run(Spot origin_px, std::string_view words, Type type, Colour colour, float cosine,
           float sine);
  void host_run(Spot origin_px, std::string_view words, Type type, Colour colour, float cosine,
                float sine);

  // Whole device pixels.
  void lay_ground(const ImVec2& from, const ImVec2& to, unsigned colour);

  ImDrawList* list_;
  float ratio_;
  std::vector<std::string> cut_short_;
};

[[nodiscard]] float text_width(std::string_view words, Type type);
[[nodiscard]] std::vector<std::string_view> broken(std::string_view words, float width, Type type);
[[nodiscard]] float paragraph_height(std::string_view words, float width, Type type);
// Distance between the lines of a paragraph.
[[nodiscard]] constexpr float line_step(Type type) { return type.size * 1.3F; }

}  // namespace coatwright::studio
