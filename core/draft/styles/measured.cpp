#include "core/draft/styles/measured.h"

#include <algorithm>
#include <limits>

#include "core/draft/belly.h"
#include "core/draft/leg_opening.h"
#include "core/draft/options/band.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/front.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/panel.h"
#include "core/draft/options/strap.h"
#include "core/draft/seams.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

constexpr double kTolerance = 0.004;  // mm, of the flattened outlines that are measured

Polyline edge_line(const Piece& piece, std::string_view id) {
  for (const Edge& e : piece.edges) {
    if (e.id == id) return flatten(e.path, kTolerance);
  }
  return {};
}

// How far the outline reaches from the fold at u.
double width_at(const Polyline& closed, double u) {
  double most = 0.0;
  for (size_t i = 0; i < closed.size(); ++i) {
    const Point a = closed[i], b = closed[(i + 1) % closed.size()];
    if ((a.x - u) * (b.x - u) > 0.0 || a.x == b.x) continue;
    most = std::max(most, a.y + (u - a.x) / (b.x - a.x) * (b.y - a.y));
  }
  return most;
}

// How far the hem stays above the belly's level at the least; below 0: it hangs.
double above_belly(const Piece& shell, const BodyMap& map) {
  double least = std::numeric_limits<double>::infinity();
  for (const Point p : edge_line(shell, "body.hem")) {
    least = std::min(least, map.to_belly(p.x) - p.y);
  }
  return least;
}

}  // namespace

double off_foreleg(const Polyline& line, const ForelegZone& zone) {
  double least = std::numeric_limits<double>::infinity();
  for (const Point p : line) least = std::min(least, zone.distance(p));
  return least;
}

std::vector<Invariant> measure_tabbed(const Draft& draft, const Body& body) {
  const Piece& shell = *find_piece(draft, "body");
  const Chosen& c = draft.chosen;
  const Polyline around = outline_of(shell, kTolerance);
  const Polyline neckline = edge_line(shell, "body.neckline");
  const Polyline fold = flatten(shell.edges.front().path, kTolerance);  // or the seam in its place
  const Path& neck = find_edge(shell, "body.neckline")->path;           // from the throat
  const Point throat = neck.front();
  const Vec along_neck = unit(neck.cubics.front().derivative(0.0));
  const Vec down = unit(draft.front_end - throat), square{-along_neck.y, along_neck.x};
  return {
      {"neckline-closed", body.mm(Measure::Neck) + c.of(kNeckEase),
       2.0 *
           (polyline_length(neckline) - taken_by_darts(shell, *find_edge(shell, "body.neckline"))),
       false, Measure::Neck},
      {"breast-to-tail", body.mm(Measure::Breast) + c.of(kBreastEase),
       distance(throat + body.mm(Measure::Throat) * down, fold.back()), false, Measure::Breast},
      {"centre-front-square", 0.0,
       distance(draft.front_end, throat + distance(throat, draft.front_end) * square)},
      {"hem-above-belly", -std::max(0.0, past_belly(draft.map, hem_drop(body, c))),
       hem_line_of(c) == HemLine::Belly ? above_belly(shell, draft.map) : 0.0, true, Measure::Drop},
      {"back-on-fold", body.mm(Measure::Back), polyline_length(fold), false, Measure::Back},
      {"drop-at-girth-line", body.mm(Measure::Drop) + c.of(kHemDepth),
       width_at(around, draft.map.girth_u), false, Measure::Drop},
      {"foreleg-clearance", c.of(kForelegClearance), off_foreleg(around, draft.map.foreleg), true},
  };
}

std::vector<Invariant> measure_band(const Draft& draft, const Body& body) {
  const Draft::BandPlace& band = *draft.band;
  const Polyline shell = outline_of(*find_piece(draft, "body"), kTolerance);
  const Polyline flat = outline_of(*find_piece(draft, "band"), kTolerance);
  const Rect strap = bounds(flat);
  const double girth = 2.0 * draft.map.half_girth(band.middle());
  const double overlap = draft.chosen.of(kBandOverlap), width = width_at(shell, band.middle());
  const double over = closes_on_back(draft.chosen) ? width + 0.5 * overlap : overlap;
  return {
      {"girth-at-band", girth + draft.chosen.of(kChestEase),
       2.0 * width + strap.width() - over - band.attach, false, Measure::Chest},
      {"band-width", band.to - band.from, strap.height(), false, Measure::Underline},
      // Under the belly, half way between where the band comes off one hem and goes on the other.
      {"band-ahead-of-belly-end", 0.0,
       belly_limit(body) - band.from - width_at(flat, 0.5 * (band.attach + strap.width() - over)),
       true, Measure::Underline},
  };
}

std::vector<Invariant> measure_strap(const Draft& draft, const Body& body) {
  const Draft::BandPlace& place = *draft.band;
  const Polyline shell = outline_of(*find_piece(draft, "body"), kTolerance);
  const Rect strap = bounds(outline_of(*find_piece(draft, "strap"), kTolerance));
  const double girth = 2.0 * draft.map.half_girth(place.middle());
  const double width = width_at(shell, place.middle());
  const double over = width + 0.5 * draft.chosen.of(kStrapOverlap);
  const ForelegZone& leg = draft.map.foreleg;
  return {
      {"girth-at-strap", girth + draft.chosen.of(kChestEase),
       2.0 * width + strap.width() - over - place.attach, false, Measure::Chest},
      {"strap-width", place.to - place.from, strap.height()},
      {"strap-off-foreleg", draft.chosen.of(kForelegClearance),
       place.from - (leg.centre.x + leg.radius), true},
      {"strap-ahead-of-belly", 0.0, belly_limit(body) - place.to, true, Measure::Underline},
  };
}

namespace {

// A point of the panel where it lies beside the body, the breast seam's beginning on that of the
// body: as a flat sheet, as far as the seam runs straight.
Point across_breast_seam(const Piece& shell, const Piece& panel, Point on_panel) {
  const Path there = reversed(find_edge(panel, "panel.breast")->path);
  const Path here = reversed(find_edge(shell, "body.breast")->path);
  const Vec a = unit(there.cubics.front().derivative(0.0)),
            b = unit(here.cubics.front().derivative(0.0));
  const Vec off = on_panel - there.front();
  // The panel's d and the body's v grow toward each other: it is turned over.
  return here.front() + dot(off, a) * b - cross(off, a) * Vec{b.y, -b.x};
}

}  // namespace

std::vector<Invariant> measure_underpanel(const Draft& draft, const Body& body) {
  const Piece &shell = *find_piece(draft, "body"), &panel = *find_piece(draft, "panel");
  const Chosen& c = draft.chosen;
  const Polyline around = outline_of(shell, kTolerance), below = outline_of(panel, kTolerance);
  const auto length = [](const Piece& p, const char* id) {
    return polyline_length(edge_line(p, id));
  };
  const Polyline closing = edge_line(shell, "body.back");
  const Point end = edge_line(shell, "body.side").front();
  const Point panel_end = edge_line(panel, "panel.side").front();
  const double ease = c.of(kChestEase), girth_u = draft.map.girth_u;
  const double girth_s = panel.marks.front().line.front().x;  // the girth line
  double between = std::numeric_limits<double>::infinity();
  for (const Point p : edge_line(panel, "panel.leg")) between = std::min(between, p.y);
  // The panel as it lies round the leg, beside the body with the girth lines on each other.
  const double low = 0.5 * (body.mm(Measure::Chest) + ease);
  Polyline beside;
  for (const Point p : below) beside.push_back({girth_u + p.x - girth_s, low - p.y});
  return {
      {"neckline-closed", body.mm(Measure::Neck) + c.of(kNeckEase),
       2.0 * (length(shell, "body.neckline") + length(panel, "panel.neckline") -
              taken_by_darts(shell, *find_edge(shell, "body.neckline"))),
       false, Measure::Neck},
      {"breast-to-tail", body.mm(Measure::Breast) + c.of(kBreastEase),
       distance(across_breast_seam(shell, panel, {body.mm(Measure::Throat), 0.0}), closing.back()),
       false, Measure::Breast},
      {"back-at-closing", body.mm(Measure::Back), distance(closing.front(), closing.back()), false,
       Measure::Back},
      {"girth-at-girth-line", body.mm(Measure::Chest) + ease,
       2.0 * (width_at(around, girth_u) + width_at(below, girth_s)), false, Measure::Chest},
      {"girth-at-panel-end", 2.0 * draft.map.half_girth(end.x) + ease, 2.0 * (end.y + panel_end.y),
       false, Measure::Loin},
      {"drop-at-panel-end", chosen_hem(draft.map, c, hem_drop(body, c)).height(end.x), end.y, false,
       Measure::Drop},
      {"panel-length", belly_end(body) - breast_to_girth(body, draft.map, draft.breastbone),
       length(panel, "panel.fold") - girth_s, false, Measure::Underline},
      {"panel-between-legs", 0.0, body.mm(Measure::ForelegSpacing) - 2.0 * between, true,
       Measure::ForelegSpacing},
      {"leg-opening", body.mm(Measure::ForelegGirth) + c.of(kLegEase),
       length(shell, "body.leg") + length(panel, "panel.leg"), false, Measure::ForelegGirth},
      {"breast-seam", length(shell, "body.breast"), length(panel, "panel.breast"), false,
       Measure::Breast},
      {"side-seam", length(shell, "body.side"), length(panel, "panel.side"), false,
       Measure::Underline},
      {"foreleg-clearance", kClearOfLeg * body.mm(Measure::Chest),
       std::min(off_foreleg(around, draft.map.foreleg), off_foreleg(beside, draft.map.foreleg)),
       true},
  };
}

namespace {

// An edge of a piece, in all its copies as it lies.
struct Side {
  const Piece* piece;
  const Edge* edge;
  double length;
};

// Ease is stated on one side; stated on both it would hide that they differ.
Invariant compared(const Side& a, const Side& b) {
  const bool first = a.edge->ease_mm != 0.0;
  const Side &plain = first ? b : a, &eased = first ? a : b;
  return {"seam:" + a.edge->seam, sides(*plain.piece) * plain.length,
          sides(*eased.piece) * (eased.length - eased.edge->ease_mm)};
}

}  // namespace

std::vector<Invariant> measure_seams(const Draft& draft) {
  std::vector<Invariant> out;
  std::vector<Side> all;
  const auto below_shell = [](const Piece& p) {
    return p.layer == Layer::Insulation || p.layer == Layer::Lining;
  };
  for (const Piece& piece : draft.pieces) {
    for (size_t i = 0; i < piece.edges.size(); ++i) {
      const Edge& edge = piece.edges[i];
      if (edge.seam.empty()) continue;
      const auto shell = std::find_if(all.begin(), all.end(), [&](const Side& s) {
        return below_shell(piece) && s.edge == &shell_of(draft, piece).edges[i];
      });
      const bool alike = shell != all.end() && shell->edge->path == edge.path;
      const Side side{&piece, &edge, alike ? shell->length : sewn_length(piece, edge)};
      if (shell != all.end() && !joins_own_layer(draft, piece, edge)) {
        out.push_back(compared(*shell, side));
      }
      const auto partner = std::find_if(all.begin(), all.end(), [&](const Side& s) {
        return s.piece->layer == piece.layer && s.edge->seam == edge.seam;
      });
      if (partner != all.end()) out.push_back(compared(*partner, side));
      all.push_back(side);
    }
  }
  return out;
}

}  // namespace coatwright
