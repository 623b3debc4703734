#include "shell/desk/trail.h"

#include <algorithm>

namespace coatwright::studio {
namespace {

constexpr double kSeen = 0.4;  // mm; what lies nearer than this has not moved

std::vector<PieceLine> lines_of(const PatternDrawing& drawing) {
  std::vector<PieceLine> lines;
  for (const PlacedPiece& piece : drawing.placed) {
    const auto own = [&](Polyline line) {
      for (Point& p : line) p = p - piece.shift;
      return line;
    };
    lines.push_back({piece.id, "", own(thinned(piece.cut, 0.05))});
    for (const DrawItem& item : drawing.drawing.items) {
      const auto* stroke = std::get_if<StrokeItem>(&item);
      if (stroke == nullptr || !stroke->id.starts_with(piece.id + ".")) continue;
      if (stroke->role == Role::CutLine) continue;
      lines.push_back({piece.id, stroke->id, own(stroke->points)});
    }
  }
  return lines;
}

const PieceLine* find_line(const std::vector<PieceLine>& lines, const PieceLine& like) {
  const auto found = std::find_if(lines.begin(), lines.end(), [&](const PieceLine& l) {
    return l.piece == like.piece && l.id == like.id;
  });
  return found == lines.end() ? nullptr : &*found;
}

bool same_points(const Polyline& line, const Polyline& other) {
  return std::equal(line.begin(), line.end(), other.begin(), other.end(),
                    [](Point a, Point b) { return distance(a, b) <= kSeen; });
}

bool lies_elsewhere(const Polyline& line, const Polyline& other) {
  if (same_points(line, other)) return false;
  return other.size() < 2 || std::any_of(line.begin(), line.end(), [&](Point p) {
           return distance_to_polyline(other, p) > kSeen;
         });
}

// Those of `lines` that lie elsewhere in `others`: the pieces' outlines, or the net lines. An
// outline that grew past its corners has left no point of them: it is looked at from both sides.
std::vector<PieceLine> elsewhere(const std::vector<PieceLine>& lines,
                                 const std::vector<PieceLine>& others, bool outlines) {
  std::vector<PieceLine> out;
  for (const PieceLine& line : lines) {
    if (line.id.empty() != outlines) continue;
    const PieceLine* other = find_line(others, line);
    if (other == nullptr) continue;
    if (lies_elsewhere(line.points, other->points) ||
        (outlines && lies_elsewhere(other->points, line.points))) {
      out.push_back(line);
    }
  }
  return out;
}

}  // namespace

void follow_change(Trail& trail, const PatternDrawing& drawing, int redrafts, int stroke,
                   double now_ms) {
  if (trail.redrafts == redrafts) return;
  const bool same_stroke = stroke == trail.stroke && now_ms - trail.changed_ms < kGhostMs;
  if (!same_stroke) trail.before = trail.now;
  trail.now = lines_of(drawing);
  trail.left = elsewhere(trail.before, trail.now, true);
  trail.moved = elsewhere(trail.now, trail.before, false);
  if (trail.redrafts > 0) trail.changed_ms = now_ms;  // the first draft changes nothing
  trail.redrafts = redrafts;
  trail.stroke = stroke;
}

}  // namespace coatwright::studio
