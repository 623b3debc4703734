#include "core/draw/drawing.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/draw/text.h"

namespace coatwright {
namespace {

template <class... Fs>
struct Overload : Fs... {
  using Fs::operator()...;
};
template <class... Fs>
Overload(Fs...) -> Overload<Fs...>;

bool finite(Point p) { return std::isfinite(p.x) && std::isfinite(p.y); }

bool finite(const Polyline& line) {
  return std::all_of(line.begin(), line.end(), [](Point p) { return finite(p); });
}

// The part of segment ab inside the rectangle, as fractions along it (Liang & Barsky, A new concept
// and method for line clipping, ACM Transactions on Graphics 3(1), 1984).
struct Span {
  double from, to;
};
std::optional<Span> inside(Point a, Point b, const Rect& r) {
  double from = 0.0, to = 1.0;
  const double move[] = {a.x - b.x, b.x - a.x, a.y - b.y, b.y - a.y};
  const double room[] = {a.x - r.x0, r.x1 - a.x, a.y - r.y0, r.y1 - a.y};
  for (int side = 0; side < 4; ++side) {
    if (move[side] == 0.0) {
      if (room[side] < 0.0) return std::nullopt;
      continue;
    }
    const double t = room[side] / move[side];
    if (move[side] < 0.0) {
      from = std::max(from, t);
    } else {
      to = std::min(to, t);
    }
  }
  if (from >= to) return std::nullopt;
  return Span{from, to};
}

}  // namespace

Polyline text_box(const TextItem& text) {
  const double width = text_width(text.text, text.size_mm, is_bold(text.role));
  const Vec along = {std::cos(text.angle), std::sin(text.angle)};
  const Vec down = {-along.y, along.x};
  const Point start = text.at - text.anchor * width * along;
  const Vec up = -(text.size_mm * kTextAscent) * down, below = text.size_mm * kTextDescent * down;
  return {start + up, start + width * along + up, start + width * along + below, start + below};
}

Rect item_bounds(const DrawItem& item) {
  return std::visit(Overload{[](const StrokeItem& s) { return bounds(s.points); },
                             [](const FillItem& f) { return bounds(f.points); },
                             [](const TextItem& t) { return bounds(text_box(t)); }},
                    item);
}

void set_bounds(Drawing& drawing) {
  drawing.bounds = {};
  bool first = true;
  for (const DrawItem& item : drawing.items) {
    if (!is_finite(item)) continue;
    const Rect r = item_bounds(item);
    drawing.bounds = first ? r : united(drawing.bounds, r);
    first = false;
  }
}

bool is_finite(const DrawItem& item) {
  return std::visit(
      Overload{[](const StrokeItem& s) { return finite(s.points) && std::isfinite(s.dash_from); },
               [](const FillItem& f) { return finite(f.points); },
               [](const TextItem& t) {
                 return finite(t.at) && std::isfinite(t.size_mm) && std::isfinite(t.angle) &&
                        std::isfinite(t.anchor);
               }},
      item);
}

std::vector<StrokeItem> clipped(const StrokeItem& line, const Rect& window) {
  std::vector<StrokeItem> parts;
  if (line.points.empty()) return parts;
  const Rect box = bounds(line.points);
  if (holds(window, box)) return {line};
  // Not meet(): a level or upright line has a box without area.
  if (box.x0 > window.x1 || box.x1 < window.x0 || box.y0 > window.y1 || box.y1 < window.y0) {
    return parts;
  }
  const size_t n = line.points.size();
  double along = line.dash_from;
  bool open_end = false;  // the last part goes on with the next segment
  for (size_t i = 1; i < (line.closed ? n + 1 : n); ++i) {
    const Point a = line.points[i - 1], b = line.points[i % n];
    const double segment = distance(a, b);
    const std::optional<Span> span = inside(a, b, window);
    if (span) {
      if (!open_end || span->from > 0.0) {
        parts.push_back({line.role,
                         {lerp(a, b, span->from)},
                         false,
                         line.id,
                         along + span->from * segment,
                         line.part});
      }
      parts.back().points.push_back(span->to < 1.0 ? lerp(a, b, span->to) : b);
    }
    open_end = span && span->to >= 1.0;
    along += segment;
  }
  return parts;
}

// Sutherland & Hodgman, Reentrant polygon clipping, Communications of the ACM 17(1), 1974.
FillItem clipped(FillItem fill, const Rect& window) {
  const auto keep = [&fill](auto depth) {  // depth: how far inside one side of the window, mm
    Polyline kept;
    const Polyline& p = fill.points;
    for (size_t i = 0; i < p.size(); ++i) {
      const Point a = p[i], b = p[(i + 1) % p.size()];
      const double in_a = depth(a), in_b = depth(b);
      if (in_a >= 0.0) kept.push_back(a);
      if ((in_a >= 0.0) != (in_b >= 0.0)) kept.push_back(lerp(a, b, in_a / (in_a - in_b)));
    }
    fill.points = std::move(kept);
  };
  keep([&](Point p) { return p.x - window.x0; });
  keep([&](Point p) { return window.x1 - p.x; });
  keep([&](Point p) { return p.y - window.y0; });
  keep([&](Point p) { return window.y1 - p.y; });
  return fill;
}

DrawItem shifted(DrawItem item, Vec by) {
  const auto move = [by](Polyline& line) {
    for (Point& p : line) p = p + by;
  };
  std::visit(Overload{[&](StrokeItem& s) { move(s.points); }, [&](FillItem& f) { move(f.points); },
                      [&](TextItem& t) {
                        t.at = t.at + by;
                        if (t.clip) {
                          t.clip = Rect{t.clip->x0 + by.x, t.clip->y0 + by.y, t.clip->x1 + by.x,
                                        t.clip->y1 + by.y};
                        }
                      }},
             item);
  return item;
}

Drawing scaled(Drawing drawing, double by) {
  const auto larger = [by](Point p) { return Point{by * p.x, by * p.y}; };
  for (DrawItem& item : drawing.items) {
    if (auto* text = std::get_if<TextItem>(&item)) {
      text->at = larger(text->at);
      text->size_mm *= by;
      text->most_mm *= by;
      if (text->clip) {
        const Rect r = *text->clip;
        text->clip = Rect{by * r.x0, by * r.y0, by * r.x1, by * r.y1};
      }
    } else if (auto* stroke = std::get_if<StrokeItem>(&item)) {
      for (Point& p : stroke->points) p = larger(p);
      stroke->dash_from *= by;
    } else {
      for (Point& p : std::get<FillItem>(item).points) p = larger(p);
    }
  }
  set_bounds(drawing);
  return drawing;
}

}  // namespace coatwright
