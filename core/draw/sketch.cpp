#include "core/draw/sketch.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

// Two outlines are one when no point differs by more than this, mm.
constexpr double kSameOutline = 0.01;

bool same(const Polyline& a, const Polyline& b) {
  return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(), [](Point p, Point q) {
           return distance(p, q) <= kSameOutline;
         });
}

// Opened or not, a half on the fold is cut as it was drafted.
SketchLayer layer_of(const Piece& p, const Piece& drafted) {
  return {p.layer, p.cut, p.on_fold, turned_over(drafted), p.laminated};
}

void merge_layer(PieceSketch& into, const CutPiece& from, const Piece& drafted) {
  const Piece& piece = from.piece;
  into.layers.push_back(layer_of(piece, drafted));
  // Marks that only this layer has, such as the turning gap of a lining.
  for (const Mark& mark : piece.marks) {
    const bool known = std::any_of(into.marks.begin(), into.marks.end(), [&](const Mark& m) {
      return m.kind == mark.kind && m.closed == mark.closed && same(m.line, mark.line);
    });
    if (!known) into.marks.push_back(mark);
  }
}

PieceSketch sketch(const CutPiece& from, const Piece& drafted) {
  const Piece& piece = from.piece;
  PieceSketch s;
  s.id = piece.id;
  s.layers = {layer_of(piece, drafted)};
  s.edges = from.edges;
  s.on_fold = piece.on_fold;
  s.net = from.net;
  s.cut = from.cut;
  s.notches = from.notches;
  s.marks = piece.marks;
  s.grain_from = piece.grain_from;
  s.grain_to = piece.grain_to;
  s.label_at = piece.label_at;
  return s;
}

}  // namespace

Polyline placed(Polyline line, const Placement& at) {
  for (Point& p : line) p = placed(p, at);
  return line;
}

std::vector<PieceSketch> sketch_pieces(const CutSet& set, bool open, bool merge) {
  std::vector<PieceSketch> sketches;
  for (const CutPiece& half : set.pieces) {
    const CutPiece whole = open ? opened(half) : half;
    const auto found = std::find_if(sketches.begin(), sketches.end(), [&](const PieceSketch& s) {
      const bool other_layer =
          std::none_of(s.layers.begin(), s.layers.end(),
                       [&](const SketchLayer& l) { return l.layer == whole.piece.layer; });
      return merge && other_layer && same(s.net, whole.net) && same(s.cut, whole.cut);
    });
    if (found != sketches.end()) {
      merge_layer(*found, whole, half.piece);
    } else {
      sketches.push_back(sketch(whole, half.piece));
    }
  }
  return sketches;
}

PieceSketch placed(PieceSketch s, const Placement& at) {
  const Placement direction{at.quarters, {}};
  for (CutEdge& e : s.edges) e.net = placed(std::move(e.net), at);
  s.net = placed(std::move(s.net), at);
  s.cut = placed(std::move(s.cut), at);
  for (CutNotch& n : s.notches) {
    n.on_net = placed(n.on_net, at);
    n.on_cut = placed(n.on_cut, at);
    const Point turned = placed(Point{n.outward.x, n.outward.y}, direction);
    n.outward = {turned.x, turned.y};
  }
  for (Mark& m : s.marks) m.line = placed(std::move(m.line), at);
  s.grain_from = placed(s.grain_from, at);
  s.grain_to = placed(s.grain_to, at);
  s.label_at = placed(s.label_at, at);
  return s;
}

std::vector<StrokeItem> outline_strokes(const PieceSketch& s) {
  const size_t n = s.cut.size();
  if (!s.on_fold || s.edges.empty() || s.edges.front().net.size() < 2 || n < 3) {
    return {{Role::CutLine, s.cut, true, s.id}};
  }
  const CutEdge& fold = s.edges.front();
  const Point from = fold.net.front();
  const Vec along = unit(fold.net.back() - from);
  const auto in_line = [&](Point p) { return std::abs(cross(along, p - from)) <= kSameOutline; };
  // Whether the segment from point k on lies in the fold's line.
  const auto is_fold = [&](size_t k) {
    return in_line(s.cut[k % n]) && in_line(s.cut[(k + 1) % n]);
  };
  // Begin where the kind changes, so that no line is split where the outline's list begins.
  size_t start = 0;
  while (start < n && is_fold(start) == is_fold(start + n - 1)) ++start;
  if (start == n) return {{Role::CutLine, s.cut, true, s.id}};
  std::vector<StrokeItem> lines;
  for (size_t k = start; k < start + n; ++k) {
    const bool on = is_fold(k);
    if (k == start || on != is_fold(k + n - 1)) {
      lines.push_back(
          {on ? Role::FoldLine : Role::CutLine, {s.cut[k % n]}, false, on ? fold.id : s.id});
    }
    lines.back().points.push_back(s.cut[(k + 1) % n]);
  }
  return lines;
}

Polyline notch_peak(const CutNotch& notch) {
  const Vec along = {-notch.outward.y, notch.outward.x};
  return {notch.on_cut + kNotchHalfWidth * along, notch.on_cut + kNotchHeight * notch.outward,
          notch.on_cut - kNotchHalfWidth * along};
}

}  // namespace coatwright
