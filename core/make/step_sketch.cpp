#include "core/make/step_sketch.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "core/draw/signs.h"
#include "core/draw/sketch.h"
#include "core/draw/text.h"
#include "core/geometry/polygon.h"
#include "core/make/course.h"

namespace coatwright {
namespace {

// On paper, mm.
constexpr double kSign = 2.8, kName = 2.8;      // sizes of letters: 8 pt
constexpr double kApart = 3.0;                  // between pieces
constexpr double kSignRoom = 4.5, kPen = 0.5;   // round a piece: where its signs stand; half a line
constexpr double kLargest = 0.25;               // of the true size
constexpr double kLeastPiece = 13.0;            // a smaller one is drawn larger than the others
constexpr double kHigh = 30.0, kHigher = 52.0;  // of one piece; of several
constexpr double kLeastBeside = 28.0;           // of the largest: else they stand below the words
constexpr double kSmaller = 0.96;               // from one size that is tried to the next
constexpr double kOpenPart = 1.0 / 3.0;         // of an edge that stays open in its middle

// One outline: a piece, with the marks that only its other layers have.
struct Drawn {
  const CutPiece* piece;
  std::vector<const Mark*> marks = {};
  Polyline outline = thinned(piece->net, 0.5);  // near enough for a name to be put in
};

// What was sewn before, or is of whole pieces.
bool says_nothing(const Operation& o) {
  switch (o.deed) {
    case Deed::Turn:
    case Deed::Roll:
    case Deed::Edgestitch:
    case Deed::Try:
      return true;
    default:
      return o.edges.empty() && o.marks.empty() && o.open.empty();
  }
}

std::vector<Drawn> drawn_pieces(const Draft& draft, const CutSet& cut, const Operation& o) {
  std::vector<Drawn> out;
  const auto here = [&](const CutPiece& p) {
    return names(o.pieces, p.piece.id) || names(o.through, p.piece.id);
  };
  for (const CutPiece& p : cut.pieces) {
    if (!here(p)) continue;
    const std::string_view outside = outside_of(draft, p.piece.id);
    auto of = std::find_if(out.begin(), out.end(), [&](const Drawn& d) {
      return outside_of(draft, d.piece->piece.id) == outside;
    });
    if (of == out.end()) of = out.insert(out.end(), {.piece = &p});
    for (const Mark& m : p.piece.marks) {
      const bool known = std::any_of(of->marks.begin(), of->marks.end(),
                                     [&](const Mark* k) { return k->label == m.label; });
      const bool named = names(o.marks, m.label) || names(o.open, m.label);
      const bool own_layer = &p == of->piece;
      if (named && (own_layer || !known)) of->marks.push_back(&m);
    }
  }
  return out;
}

// ---- signs ----------------------------------------------------------------------------------------

std::string letter(size_t i) { return std::string(1, static_cast<char>('a' + i % 26)); }

template <class Name>
void sign(Signs& out, std::vector<std::string>& keys, std::string what, const std::string& key,
          Name&& name) {
  if (std::any_of(out.begin(), out.end(), [&](const auto& s) { return s.first == what; })) return;
  const auto at = std::find(keys.begin(), keys.end(), key);
  const auto i = static_cast<size_t>(at - keys.begin());
  if (at == keys.end()) keys.push_back(key);
  out.emplace_back(std::move(what), name(i));
}

// Edges that are told of and lie under others have theirs, too.
void add_signs(StepSketch& out, const CutSet& cut, const std::vector<Drawn>& all,
               const Operation& o, const Words& words) {
  std::vector<std::string> seams, labels;
  for (const CutPiece& p : cut.pieces) {
    for (const CutEdge& e : p.edges) {
      if (stroke_of(o, e.id) == Stroke::Plain) continue;
      sign(out.edges, seams, e.id, e.seam.empty() ? e.id : e.seam, letter);
    }
  }
  for (const Drawn& d : all) {
    for (const Mark* m : d.marks) {
      sign(out.marks, labels, m->label, words(m->label),
           [](size_t i) { return std::to_string(i + 1); });
    }
  }
  if (seams.size() < 2) out.edges.clear();
  if (labels.size() < 2) out.marks.clear();
}

bool has_signs(const Drawn& d, const StepSketch& signs) {
  const auto edge = [&](const CutEdge& e) { return !sign_of(signs.edges, e.id).empty(); };
  const auto mark = [&](const Mark* m) { return !sign_of(signs.marks, m->label).empty(); };
  return std::any_of(d.piece->edges.begin(), d.piece->edges.end(), edge) ||
         std::any_of(d.marks.begin(), d.marks.end(), mark);
}

// ---- lines ----------------------------------------------------------------------------------------

Polyline part_of(const Polyline& line, double from, double to) {
  Polyline out;
  double at = 0.0;
  for (size_t i = 1; i < line.size(); ++i) {
    const double step = distance(line[i - 1], line[i]);
    const double a = std::max(from, at), b = std::min(to, at + step);
    if (step > 0.0 && b > a) {
      const Vec along = (1.0 / step) * (line[i] - line[i - 1]);
      if (out.empty()) out.push_back(line[i - 1] + (a - at) * along);
      out.push_back(line[i - 1] + (b - at) * along);
    }
    at += step;
  }
  return out;
}

Point middle_of(const Polyline& line) {
  const Polyline half = first_part(line, 0.5 * polyline_length(line));
  return half.empty() ? Point{} : half.back();
}

Role role_of(Stroke s) {
  return s == Stroke::Worked ? Role::CutLine
         : s == Stroke::Open ? Role::Placement
                             : Role::SheetEdge;
}

// Whether needle or blade follows the mark itself.
bool follows_mark(const Operation& o, const Mark& mark) {
  switch (mark.kind) {
    case MarkKind::Dart:
    case MarkKind::Opening:
    case MarkKind::HookLoop:
      return true;
    case MarkKind::Placement:
      return o.pieces.empty() && o.deed == Deed::Attach;
    default:
      return false;
  }
}

// One piece of the sketch, in its place on the paper.
class Pen {
 public:
  Pen(const Operation& o, const StepSketch& signs, double scale, Vec to, DrawItems& out)
      : step_(o), signs_(signs), scale_(scale), to_(to), out_(out) {}

  void piece(const Drawn& d) {
    outlines_ = {placed(d.piece->net)};
    for (const CutEdge& e : d.piece->edges) edge(d, e);
    for (const Mark* m : d.marks) mark(*m);
    write_signs();
  }

 private:
  [[nodiscard]] Polyline placed(const Polyline& line) const {
    Polyline out;
    for (const Point p : thinned(line, 0.03 / scale_)) {
      out.push_back({to_.x + scale_ * p.x, to_.y + scale_ * p.y});
    }
    return out;
  }
  void line(Role role, const Polyline& on_piece, bool closed = false) {
    if (on_piece.size() > 1) out_.emplace_back(StrokeItem{role, placed(on_piece), closed});
  }

  // Along an edge, from `from` to `to` otherwise than before and behind.
  void edge_with_part(const Polyline& net, double from, double to, Stroke whole) {
    line(role_of(whole), part_of(net, 0.0, from));
    line(role_of(Stroke::Open), part_of(net, from, to));
    line(role_of(whole), part_of(net, to, polyline_length(net)));
  }

  void edge(const Drawn& d, const CutEdge& e) {
    const bool fold = d.piece->piece.on_fold && &e == &d.piece->edges.front();
    if (fold) return line(Role::CentreLine, e.net);
    const Stroke stroke = stroke_of(step_, e.id);
    const double length = polyline_length(e.net);
    if (stroke != Stroke::Plain) point(sign_of(signs_.edges, e.id), middle_of(e.net));
    if (stroke == Stroke::PartOpen) {
      const double from = 0.5 * (1.0 - kOpenPart) * length;
      return edge_with_part(e.net, from, length - from, Stroke::Worked);
    }
    if (const auto open = opening_in(*d.piece, e); open && stroke == Stroke::Worked) {
      return edge_with_part(e.net, open->first, open->second, stroke);
    }
    for (const Mark* m : d.marks) {
      if (m->kind != MarkKind::TurningGap || !lies_on(e, m->line, *d.piece)) continue;
      double from = length_to_nearest(e.net, m->line.front());
      double to = length_to_nearest(e.net, m->line.back());
      if (from > to) std::swap(from, to);
      if (step_.deed != Deed::Close) return edge_with_part(e.net, from, to, stroke);
      line(role_of(stroke), e.net);
      return line(role_of(Stroke::Worked), part_of(e.net, from, to));
    }
    line(role_of(stroke), e.net);
  }
  // The stretch of a seam that is left open for a leash or harness, between its notches.
  static std::optional<std::pair<double, double>> opening_in(const CutPiece& piece,
                                                             const CutEdge& edge) {
    std::optional<double> from, to;
    for (const CutNotch& n : piece.notches) {
      if (n.edge != edge.id) continue;
      if (n.name == "opening") from = length_to_nearest(edge.net, n.on_net);
      if (n.name == "opening-end") to = length_to_nearest(edge.net, n.on_net);
    }
    if (!from || !to) return std::nullopt;
    return std::minmax(*from, *to);
  }
  // The gap is marked on the lining, whose edges may lie beside the shell's.
  static bool lies_on(const CutEdge& edge, const Polyline& gap, const CutPiece& piece) {
    const Point middle = middle_of(gap);
    const double away = distance_to_polyline(edge.net, middle);
    return std::all_of(piece.edges.begin(), piece.edges.end(), [&](const CutEdge& e) {
      return distance_to_polyline(e.net, middle) >= away;
    });
  }

  void mark(const Mark& m) {
    if (m.kind != MarkKind::TurningGap) {
      const bool whole = m.closed && m.kind != MarkKind::Dart;  // a dart's mouth is not sewn
      line(follows_mark(step_, m) ? Role::CutLine : Role::SheetEdge, m.line, whole);
    }
    Point middle = middle_of(m.line);
    if (m.closed) {
      outlines_.push_back(placed(m.line));
      const Rect r = bounds(m.line);
      middle = {0.5 * (r.x0 + r.x1), 0.5 * (r.y0 + r.y1)};
    }
    const Point spot{to_.x + scale_ * middle.x, to_.y + scale_ * middle.y};
    out_.emplace_back(FillItem{Role::Register, circle(spot, kDot)});
    point(sign_of(signs_.marks, m.label), middle);
  }

  void point(std::string sign, Point on_piece) {
    if (sign.empty()) return;
    texts_.push_back(std::move(sign));
    points_.push_back({to_.x + scale_ * on_piece.x, to_.y + scale_ * on_piece.y});
  }
  void write_signs() {
    const std::vector<Point> at = places_of_names(points_, outlines_);
    for (size_t i = 0; i < at.size(); ++i) {
      out_.emplace_back(
          TextItem{Role::Name, at[i] + Vec{0.0, kTextMiddle * kSign}, kSign, 0.0, 0.5, texts_[i]});
    }
  }

  const Operation& step_;
  const StepSketch& signs_;
  const double scale_;
  const Vec to_;
  DrawItems& out_;
  std::vector<Polyline> outlines_;  // of the piece, and of marks on it
  std::vector<std::string> texts_;
  std::vector<Point> points_;
};

// ---- pieces beside each other -----------------------------------------------------------------------

struct Cell {
  std::string title = {};
  bool has_signs = false;
  double scale = 1.0;
  Rect box = {};  // on the paper, with signs and name
  Vec to = {};    // of the piece's origin
  Point name_at = {};
};

// Where the middle of the piece's name stands in it, if it has room there: as near to its label's
// place as is clear of marks.
std::optional<Point> place_in(const Drawn& d, const Cell& c) {
  constexpr int kTried = 8;  // along and across
  const Polyline& net = d.outline;
  const Rect all = bounds(net);
  const double half = (0.5 * text_width(c.title, kName, false) + kPen) / c.scale;
  const double up = 0.6 * kName / c.scale;
  const auto is_clear = [&](Point p) {
    const Rect box{p.x - half, p.y - up, p.x + half, p.y + up};
    const bool marked = std::any_of(d.marks.begin(), d.marks.end(), [&](const Mark* m) {
      return meet(box, inset(bounds(m->line), -kSignRoom / c.scale));
    });
    if (marked) return false;
    constexpr int kAlong = 4;
    for (int i = 0; i <= kAlong; ++i) {
      const double x = box.x0 + box.width() * i / kAlong;
      for (const Point on_box : {Point{x, box.y0}, Point{x, box.y1}}) {
        if (depth_inside(net, on_box) < kPen / c.scale) return false;
      }
    }
    return true;
  };
  const Point wanted = d.piece->piece.label_at;
  if (is_clear(wanted)) return wanted;
  std::optional<Point> nearest;
  for (int i = 1; i < kTried; ++i) {
    for (int k = 1; k < kTried; ++k) {
      const Point p{all.x0 + all.width() * i / kTried, all.y0 + all.height() * k / kTried};
      const bool nearer = !nearest || distance(p, wanted) < distance(*nearest, wanted);
      if (nearer && is_clear(p)) nearest = p;
    }
  }
  return nearest;
}

// Beside and below each other in a width; the height that they take.
double arrange(std::vector<Cell>& cells, const std::vector<Drawn>& all, double scale, double wide) {
  double x = 0.0, y = 0.0, row = 0.0;
  for (size_t i = 0; i < all.size(); ++i) {
    const Rect net = bounds(all[i].outline);
    const double longest = std::max(net.width(), net.height());
    Cell& c = cells[i];
    c.scale = std::max(scale, std::min(kLargest, kLeastPiece / longest));
    const std::optional<Point> inside = place_in(all[i], c);
    const double around = c.has_signs ? kSignRoom : kPen;
    const double title = inside ? 0.0 : text_width(c.title, kName, false);
    const double w = std::max(c.scale * net.width() + 2.0 * around, title);
    const double below = inside ? 0.0 : kLineHeight * kName;
    const double h = c.scale * net.height() + 2.0 * around + below;
    if (x > 0.0 && x + w > wide) x = 0.0, y += row + kApart, row = 0.0;
    c.box = {x, y, x + w, y + h};
    c.to = {x + 0.5 * w - c.scale * 0.5 * (net.x0 + net.x1), y + around - c.scale * net.y0};
    c.name_at = inside ? Point{c.to.x + c.scale * inside->x,
                               c.to.y + c.scale * inside->y + kTextMiddle * kName}
                       : Point{x + 0.5 * w, y + h - kTextDescent * kName};
    x += w + kApart;
    row = std::max(row, h);
  }
  return y + row;
}

bool fits(const std::vector<Cell>& cells, double wide) {
  return std::all_of(cells.begin(), cells.end(),
                     [&](const Cell& c) { return c.box.x1 <= wide + 1e-6; });
}

std::string title_of(const CutPiece& p, const Words& words) {
  const std::string name = words("piece." + p.piece.id);
  return p.piece.on_fold   ? words("make.sketch-half", {name})
         : p.piece.cut > 1 ? words("make.sketch-cut", {name, std::to_string(p.piece.cut)})
                           : name;
}

// As large as they may be; whether they fit.
bool arrange_well(std::vector<Cell>& cells, const std::vector<Drawn>& all, double wide,
                  double least) {
  const double high = all.size() > 1 ? kHigher : kHigh;
  for (double scale = kLargest; scale >= least; scale *= kSmaller) {
    if (arrange(cells, all, scale, wide) <= high && fits(cells, wide)) return true;
  }
  return false;
}

Drawing drawing_of(const std::vector<Drawn>& all, const Operation& step, const StepSketch& signs,
                   const SketchRoom& room, const Words& words) {
  std::vector<Cell> cells;
  double longest = 0.0;
  for (const Drawn& d : all) {
    const Rect box = bounds(d.outline);
    longest = std::max({longest, box.width(), box.height()});
    cells.push_back({.title = shortened(title_of(*d.piece, words), room.beside, kName, false),
                     .has_signs = has_signs(d, signs)});
  }
  constexpr double kSmallest = 0.005;
  const double least = std::min(kLargest, kLeastBeside / longest);
  if (!arrange_well(cells, all, room.beside, least)) {
    arrange_well(cells, all, room.across, kSmallest);
  }
  Drawing out;
  for (size_t i = 0; i < all.size(); ++i) {
    const Cell& c = cells[i];
    Pen(step, signs, c.scale, c.to, out.items).piece(all[i]);
    out.items.emplace_back(TextItem{Role::Caption, c.name_at, kName, 0.0, 0.5, c.title});
  }
  set_bounds(out);
  return out;
}

}  // namespace

std::string sign_of(const Signs& signs, std::string_view what) {
  const auto at =
      std::find_if(signs.begin(), signs.end(), [&](const auto& s) { return s.first == what; });
  return at == signs.end() ? "" : at->second;
}

Stroke stroke_of(const Operation& step, const std::string& edge) {
  if (step.deed == Deed::Dart) return Stroke::Plain;  // its legs are sewn, not the edge
  const bool sewn = names(step.edges, edge), open = names(step.open, edge);
  const bool stays = step.deed == Deed::Enclose || step.deed == Deed::MakeUp;
  if (open && stays) return sewn ? Stroke::PartOpen : Stroke::Open;
  return sewn || open ? Stroke::Worked : Stroke::Plain;
}

StepSketch sketch_step(const Draft& draft, const CutSet& cut, const Operation& step,
                       const SketchRoom& room, const Words& words) {
  StepSketch out;
  if (says_nothing(step)) return out;
  const std::vector<Drawn> all = drawn_pieces(draft, cut, step);
  add_signs(out, cut, all, step, words);
  out.drawing = drawing_of(all, step, out, room, words);
  return out;
}

Drawing sketch_all(const CutSet& cut, double wide, const Words& words) {
  std::vector<Drawn> all;
  for (const CutPiece& p : cut.pieces) {
    if (p.piece.layer != Layer::Insulation && p.piece.layer != Layer::Lining)
      all.push_back({.piece = &p});
  }
  const Operation nothing{Deed::Cut, Stage::Cut, kCutStep};
  return drawing_of(all, nothing, {}, {wide, wide}, words);
}

}  // namespace coatwright
