// Rectangles and points of the page, in CSS pixels, y down.
#pragma once

#include <algorithm>

namespace coatwright::studio {

struct Spot {
  float x = 0.0F;
  float y = 0.0F;
  bool operator==(const Spot&) const = default;
};
constexpr Spot operator+(Spot a, Spot b) { return {a.x + b.x, a.y + b.y}; }
constexpr Spot operator-(Spot a, Spot b) { return {a.x - b.x, a.y - b.y}; }
constexpr Spot operator*(float s, Spot a) { return {s * a.x, s * a.y}; }

struct Box {
  float x = 0.0F, y = 0.0F, w = 0.0F, h = 0.0F;

  [[nodiscard]] constexpr float right() const { return x + w; }
  [[nodiscard]] constexpr float bottom() const { return y + h; }
  [[nodiscard]] constexpr Spot centre() const { return {x + 0.5F * w, y + 0.5F * h}; }
  [[nodiscard]] constexpr bool contains(Spot p) const {
    return p.x >= x && p.x < right() && p.y >= y && p.y < bottom();
  }
  [[nodiscard]] constexpr Box inset(float dx, float dy) const {
    return {x + dx, y + dy, w - 2.0F * dx, h - 2.0F * dy};
  }
  [[nodiscard]] constexpr Box moved(float dx, float dy) const { return {x + dx, y + dy, w, h}; }
  // The first `height` from the top, and what is left below it and a gap.
  [[nodiscard]] constexpr Box top(float height) const { return {x, y, w, height}; }
  [[nodiscard]] constexpr Box below(float height) const { return {x, y + height, w, h - height}; }
  [[nodiscard]] constexpr Box left(float width) const { return {x, y, width, h}; }
  [[nodiscard]] constexpr Box after(float width) const { return {x + width, y, w - width, h}; }
  // Cell `i` of `n` equal columns with a gap between them.
  [[nodiscard]] constexpr Box column(int i, int n, float gap) const {
    const float width = (w - gap * static_cast<float>(n - 1)) / static_cast<float>(n);
    return {x + static_cast<float>(i) * (width + gap), y, width, h};
  }
  bool operator==(const Box&) const = default;
};

constexpr Box intersected(const Box& a, const Box& b) {
  const float x0 = std::max(a.x, b.x), y0 = std::max(a.y, b.y);
  const float x1 = std::min(a.right(), b.right()), y1 = std::min(a.bottom(), b.bottom());
  return {x0, y0, std::max(0.0F, x1 - x0), std::max(0.0F, y1 - y0)};
}

// The box of `size` around a spot.
constexpr Box around(Spot c, float size) {
  return {c.x - 0.5F * size, c.y - 0.5F * size, size, size};
}

}  // namespace coatwright::studio
