#include "core/make/thread.h"

#include <algorithm>

#include "core/draft/seams.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

constexpr double kTight = 1e-3;  // mm, tolerance of lengths

// The edges of an operation on one layer after the other, or on the shell for all of them together.
double edge_lines(const Draft& draft, const Operation& o) {
  double sum = 0.0;
  for (const Piece& p : draft.pieces) {
    const bool below = p.layer == Layer::Insulation || p.layer == Layer::Lining;
    if (!names(o.through, p.id) || (o.together && below)) continue;
    for (const Edge& e : p.edges) {
      if (names(o.edges, e.id)) sum += sides(p) * arc_length(e.path, kTight);
    }
  }
  return sum;
}
// The same where only the layer outside counts, though each is sewn by itself.
double outer_edges(const Draft& draft, Operation o) {
  o.together = true;
  return edge_lines(draft, o);
}
double inner_edges(const Draft& draft, const Operation& o) {
  double sum = 0.0;
  for (const Piece& p : draft.pieces) {
    if (p.layer != Layer::Lining || !names(o.through, p.id)) continue;
    for (const Edge& e : p.edges) {
      if (names(o.open, e.id)) sum += sides(p) * arc_length(e.path, kTight);
    }
    for (const Mark& m : p.marks) {
      if (names(o.open, m.label)) sum += 2.0 * polyline_length(m.line);
    }
  }
  return sum;
}

double round(const Polyline& closed) {
  Polyline ring = closed;
  ring.push_back(closed.front());
  return polyline_length(ring);
}

// A half box on the fold has no line there.
double box_round(const Piece& p, const Mark& m) {
  if (!m.closed) return sides(p) * 2.0 * polyline_length(m.line);
  double on_fold = 0.0;
  for (size_t i = 0; i < m.line.size(); ++i) {
    const Point a = m.line[i], b = m.line[(i + 1) % m.line.size()];
    if (a.y == 0.0 && b.y == 0.0) on_fold += distance(a, b);
  }
  return sides(p) * (round(m.line) - on_fold);
}

bool of_one_side(std::string_view label) {
  for (const char* end : {"-one-side", "-right", "-left", "-attach", "-lap", "-side"}) {
    if (label.ends_with(end)) return true;
  }
  return false;
}

// What is sewn down on marks. Tapes are measured by what is bought of them; ends of bands, straps and
// loops lie under a box with a cross.
double lines_on_marks(const Draft& draft, const Operation& o) {
  double sum = 0.0;
  for (const Notion& n : draft.notions) {
    if (n.step != o.id) continue;
    const double edges = 2.0 * (n.length_mm + n.width_mm);
    if (n.kind == NotionKind::HookLoop) sum += n.count * 2.0 * (edges + n.length_mm);
    if (n.kind == NotionKind::ReflectiveTape) sum += n.count * (o.rows > 1 ? edges : n.length_mm);
  }
  for (const Piece& p : draft.pieces) {
    if (p.layer == Layer::Lining) continue;  // marked there again
    for (const Mark& m : p.marks) {
      const bool end = m.label.starts_with("mark.leg-loop") || m.label.ends_with("-attach") ||
                       m.label.starts_with("mark.extension-sewn");
      if (!end || !names(o.marks, m.label)) continue;
      const double both = of_one_side(m.label) ? 1.0 : 2.0;
      sum += both *
             (round(m.line) + distance(m.line[0], m.line[2]) + distance(m.line[1], m.line.back()));
    }
  }
  return sum;
}

// The parts' own edges, where they are sewn down.
double part_edges(const Draft& draft, const Operation& o) {
  double sum = 0.0;
  for (const Piece& p : draft.pieces) {
    if (!names(o.pieces, p.id) || p.id == "band" || p.layer == Layer::Webbing) continue;
    for (const Edge& e : p.edges) {
      if (names(o.edges, e.id)) sum += sides(p) * arc_length(e.path, kTight);
    }
  }
  return sum;
}

double marks_round(const Draft& draft, const Operation& o) {
  double sum = 0.0;
  for (const Piece& p : draft.pieces) {
    if (!names(o.through, p.id)) continue;
    for (const Mark& m : p.marks) {
      if (names(o.marks, m.label)) sum += box_round(p, m);
    }
    if (o.together) break;  // through all layers at once
  }
  return sum;
}

double dart_lines(const Draft& draft, const Operation& o) {
  double sum = 0.0;
  for (const Piece& p : draft.pieces) {
    if (!names(o.through, p.id)) continue;
    for (const Mark& m : p.marks) {
      if (m.kind == MarkKind::Dart) sum += sides(p) * distance(m.line[0], m.line[1]);
    }
  }
  return sum;
}

}  // namespace

SewnLines lines_of(const Draft& draft, const Operation& o) {
  switch (o.deed) {
    case Deed::Dart:
      return {dart_lines(draft, o)};
    case Deed::Join:  // the edges of both sides, one line
      return {0.5 * o.rows * edge_lines(draft, o)};
    case Deed::Face:
      return {marks_round(draft, o) + part_edges(draft, o)};
    case Deed::Attach:
      return {lines_on_marks(draft, o) + o.rows * part_edges(draft, o)};
    case Deed::MakeUp:  // sewn, turned, and stitched beside the edge
      return {2.0 * outer_edges(draft, o) + lines_on_marks(draft, o)};
    case Deed::Baste:
      return {o.edges.empty() ? 0.0 : 0.5 * edge_lines(draft, o)};
    case Deed::Enclose:
      return {outer_edges(draft, o)};
    case Deed::Close:
      return {inner_edges(draft, o)};
    case Deed::Fell:
      return {o.marks.empty() ? 0.5 * o.rows * edge_lines(draft, o) : marks_round(draft, o)};
    case Deed::Edgestitch:
    case Deed::Bind:
      return {o.rows * edge_lines(draft, o)};
    case Deed::Hem: {  // overcast, folded, and stitched down
      const double edge = edge_lines(draft, o);
      return {o.rows * edge, edge};
    }
    case Deed::Slit:
      return {2.0 * marks_round(draft, o)};
    default:
      return {};
  }
}

// ISO 4916:1991, its classes by name: superimposed, lapped, bound, flat, decorative, edge neatening,
// applied (names from secondary sources; five-digit codes are not given, none was confirmed).
const char* seam_of(Deed deed) {
  switch (deed) {
    case Deed::Dart:
    case Deed::Join:
    case Deed::Face:
    case Deed::MakeUp:
    case Deed::Enclose:
      return "superimposed";
    case Deed::Attach:
      return "lapped";
    case Deed::Bind:
    case Deed::Slit:
      return "bound";
    case Deed::Fell:
      return "felled";
    case Deed::Hem:
    case Deed::Edgestitch:
      return "edge";
    default:
      return nullptr;
  }
}

double thread_length(const Draft& draft) {
  double thread = 0.0;
  for (const Operation& o : draft.operations) {
    const SewnLines lines = lines_of(draft, o);
    thread += kThreadOfLockstitch * lines.lockstitch + kThreadOfZigzag * lines.zigzag;
  }
  return thread;
}

double thread_length(const Drafts& drafts) {
  double length = 0.0;
  for (const Draft* draft : drafts) length += thread_length(*draft);
  return length;
}

}  // namespace coatwright
