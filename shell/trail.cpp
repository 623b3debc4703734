#include "shell/trail.h"

#include <algorithm>

namespace coatwright::studio {
namespace {

constexpr double kSeen = 0.4;  // mm

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

bool lies_elsewhere(const Polyline& line, const Polyline& other) {
  return other.size() < 2 || std::any_of(line.begin(), line.end(), [&](Point p) {
           return distance_to_polyline(other, p) > kSeen;
         });
}

}  // namespace

void follow_change(Trail& trail, const PatternDrawing& drawing, int redrafts, int stroke,
                   double now_ms) {
  if (trail.redrafts == redrafts) return;
  const bool same_stroke = stroke == trail.stroke && now_ms - trail.changed_ms < kGhostMs;
  if (!same_stroke) trail.before = trail.now;
  trail.now = lines_of(drawing);
  if (trail.redrafts > 0) trail.changed_ms = now_ms;  // the first draft changes nothing
  trail.redrafts = redrafts;
  trail.stroke = stroke;
}

std::vector<PieceLine> moved_lines(const Trail& trail) {
  std::vector<PieceLine> moved;
  for (const PieceLine& line : trail.now) {
    if (line.id.empty()) continue;
    const PieceLine* before = find_line(trail.before, line);
    if (before != nullptr && lies_elsewhere(line.points, before->points)) moved.push_back(line);
  }
  return moved;
}

}  // namespace coatwright::studio
