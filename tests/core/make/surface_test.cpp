// What can be turned right side out: the rings that hold two layers, counted another way, and why more
// than one of them holds a coat inside out.
#include "core/make/surface.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "core/draft/seams.h"
#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/drafted.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

Draft drafted(const char* style, const std::vector<std::pair<const char*, double>>& choices) {
  Choices chosen;
  for (const auto& [id, value] : choices) chosen.set(*choice_by_id(id), value);
  auto made = make_pattern(assess(test::population(60, 5).front()), chosen, *style_by_id(style));
  EXPECT_TRUE(made.result.ok());
  return std::move(made.result->draft);
}

std::vector<const Piece*> shells(const Draft& d, std::initializer_list<const char*> ids) {
  std::vector<const Piece*> out;
  for (const char* id : ids) out.push_back(find_piece(d, id));
  return out;
}

// Of a surface without handles: rings = 2 - its Euler characteristic, to which each piece of cloth gives
// one and from which each seam takes one.
int rings_by_euler(const std::vector<const Piece*>& pieces,
                   const std::vector<std::string>& joined) {
  int faces = 0, sides = 0;
  for (const Piece* p : pieces) {
    faces += p->mirrored_pair ? 2 : 1;
    for (const Edge& e : p->edges) {
      if (names(joined, e.id)) sides += p->mirrored_pair || p->on_fold ? 2 : 1;
    }
  }
  return 2 - (faces - sides / 2);
}

int rings(const std::vector<const Piece*>& pieces, const std::vector<std::string>& joined) {
  const SewnRings out = sewn_rings(
      pieces, [&](const Piece&, const Edge& e) { return names(joined, e.id); },
      [](const Piece&, const Edge&) { return true; },
      [](const Piece&, const Edge&) { return true; });
  EXPECT_EQ(out.surfaces, 1);
  return out.sewn;
}

TEST(Surface, HasAsManyRingsAsItsPiecesAndSeamsGive) {
  const Draft under = drafted("underpanel", {});
  const auto coat = shells(under, {"body", "panel"});
  const std::vector<std::string> breast = {"body.breast", "panel.breast"};
  std::vector<std::string> closed = breast;
  closed.insert(closed.end(), {"body.side", "panel.side"});
  EXPECT_EQ(rings(coat, breast), 1);
  EXPECT_EQ(rings(coat, closed), 3) << "outside, and round each leg";
  const Draft wrap = drafted("wrap", {{"shaping", 2.0}, {"hood", 1.0}});
  struct Case {
    const Draft& draft;
    std::vector<const Piece*> pieces;
    std::vector<std::string> joined;
  };
  for (const Case& c : {Case{under, coat, breast}, Case{under, coat, closed},
                        Case{under, shells(under, {"panel"}), {}},
                        Case{wrap, shells(wrap, {"body"}), {"body.spine"}},
                        Case{wrap, shells(wrap, {"hood"}), {"hood.crown"}}}) {
    EXPECT_EQ(rings(c.pieces, c.joined), rings_by_euler(c.pieces, c.joined)) << c.joined.size();
  }
}

// ---- why two rings do not turn -------------------------------------------------------------------

struct Place {
  double x, y, z;
};
using Loop = std::vector<Place>;

// From a direction in which no two lines lie on each other.
Loop seen_aslant(Loop loop) {
  for (Place& p : loop) {
    const double c = std::cos(0.7), s = std::sin(0.7), k = std::cos(0.5), t = std::sin(0.5);
    const Place q{c * p.x - s * p.z, p.y, s * p.x + c * p.z};
    p = {q.x, k * q.y - t * q.z, t * q.y + k * q.z};
  }
  return loop;
}

// How often one closed line goes through the other: the signs of the crossings where it lies above
// (Gauss's linking number; Rolfsen, Knots and Links, 1976, has both it and Seifert's form; from memory).
int linking(const Loop& first, const Loop& second) {
  const Loop a = seen_aslant(first), b = seen_aslant(second);
  int sum = 0;
  for (size_t i = 0; i < a.size(); ++i) {
    for (size_t k = 0; k < b.size(); ++k) {
      const Place &p = a[i], &q = a[(i + 1) % a.size()], &r = b[k], &s = b[(k + 1) % b.size()];
      const Vec u{q.x - p.x, q.y - p.y}, v{s.x - r.x, s.y - r.y}, w{r.x - p.x, r.y - p.y};
      const double across = cross(u, v);
      if (across == 0.0) continue;
      const double at = cross(w, v) / across, on = cross(w, u) / across;
      if (at < 0.0 || at >= 1.0 || on < 0.0 || on >= 1.0) continue;
      if (std::lerp(p.z, q.z, at) > std::lerp(r.z, s.z, on)) sum += across > 0.0 ? 1 : -1;
    }
  }
  return sum;
}

Loop at_height(const Polyline& ring, double z) {
  Loop out;
  for (const Point p : ring) out.push_back({p.x, p.y, z});
  return out;
}

TEST(Surface, LinkingIsThatOfRingsThatHangInEachOther) {
  const Loop flat = {{0, 0, 0}, {4, 0, 0}, {4, 4, 0}, {0, 4, 0}};
  const Loop through = {{2, 2, -3}, {9, 2, -3}, {9, 2, 3}, {2, 2, 3}};
  const Loop beside = {{5, 2, -3}, {9, 2, -3}, {9, 2, 3}, {5, 2, 3}};
  EXPECT_EQ(std::abs(linking(flat, through)), 1);
  EXPECT_EQ(linking(flat, through), linking(through, flat));
  EXPECT_EQ(linking(flat, beside), 0);
}

// The layers S and L, sewn to each other along their outer edge and round a hole, with a gap in one of
// the seams, are a surface in space. On it lie two closed lines: l goes round the hole in S; m goes
// through S from the one ring to the other and back through L. Push l off S to the cloth's right side.
//   Sewn right sides together, the right side lies between the layers: l is pushed in there, and m goes
//   round it once. Turned, with the wrong sides between the layers, l is pushed off outward: m does not
//   go round it.
// Turning moves the whole surface through space, tears nothing, and takes m, l and the pushed l along: how
// often they go round each other cannot change in it (it is an entry of the surface's Seifert form). So no
// such coat turns into one whose layers lie flat on each other again; a torus with a hole can be turned,
// but l and m have changed places then, and one layer would have to lie round the other like a sleeve. The
// gap alters nothing, as both lines go past it. With one ring alone, every closed line on the surface can be
// drawn together to a point, and nothing is in the way.
TEST(Surface, TwoLayersSewnRoundAHoleTooCannotBeTurned) {
  const Draft d = drafted("wrap", {{"opening", 1.0}});
  const Piece& body = *find_piece(d, "body");
  ASSERT_EQ(body.edges.front().finish, Finish::Fold);
  Polyline outside = outline_of(body, 1.0), hole;
  for (const Mark& m : body.marks) {
    if (m.kind == MarkKind::Opening) hole = m.line;
  }
  ASSERT_GE(hole.size(), 4u);
  // Whole, of the half beside the fold.
  const auto whole = [](Polyline half) {
    Polyline out = half;
    for (auto p = half.rbegin(); p != half.rend(); ++p) {
      if (p->y > 1e-9) out.push_back({p->x, -p->y});
    }
    return out;
  };
  for (Polyline* line : {&outside, &hole}) {  // from the fold to the fold
    std::rotate(line->begin(), line->begin() + 1, line->end());
  }
  hole = whole(hole);
  const Rect box = bounds(hole);
  Polyline round;  // l
  const Point middle{0.5 * (box.x0 + box.x1), 0.0};
  for (const Point p : hole) round.push_back(middle + 1.5 * (p - middle));
  const Polyline whole_outside = whole(outside);
  for (const Point p : round) ASSERT_TRUE(contains(whole_outside, p));
  // m, along the spine from the opening to the neckline, away from the gap: S above and L below.
  const double ahead = bounds({body.edges.front().path.cubics.front().p0, {box.x0, 0.0}}).x0;
  const Loop m = {{box.x0, 0.1, 1.0}, {ahead, 0.1, 1.0}, {ahead, 0.1, -1.0}, {box.x0, 0.1, -1.0}};
  const int together = linking(m, at_height(round, 0.0));  // pushed in between
  const int turned = linking(m, at_height(round, 2.0));    // pushed off S
  EXPECT_EQ(std::abs(together), 1);
  EXPECT_EQ(turned, 0);
}

// Collar, fall, snood, hood, pocket, flap, extension and band: their layers are sewn along one ring, of which
// a stretch stays open, so that each turns right side out.
TEST(Surface, EveryPartThatIsTurnedByItselfIsHeldByOneOpenRing) {
  struct Part {
    const char* style;
    std::vector<std::pair<const char*, double>> choices;
    const char* piece;
    std::vector<std::string> joined = {};
  };
  const Part parts[] = {{"wrap", {{"collar", 1.0}}, "collar"},
                        {"wrap", {{"collar", 2.0}}, "collar"},
                        {"wrap", {{"collar", 2.0}}, "fall"},
                        {"wrap", {{"collar", 3.0}}, "collar"},
                        {"strap", {{"hood", 1.0}}, "hood", {"hood.crown"}},
                        {"wrap", {{"pocket", 1.0}}, "pocket"},
                        {"wrap", {{"pocket", 2.0}}, "flap"},
                        {"wrap", {{"front-closing", 1.0}}, "extension"},
                        {"wrap", {{"lining", 1.0}}, "band"}};
  for (const Part& part : parts) {
    const Draft d = drafted(part.style, part.choices);
    const auto pieces = shells(d, {part.piece});
    ASSERT_NE(pieces.front(), nullptr) << part.piece;
    const auto made = std::find_if(d.operations.begin(), d.operations.end(), [&](const auto& o) {
      return o.deed == Deed::MakeUp && names(o.pieces, part.piece);
    });
    ASSERT_NE(made, d.operations.end()) << part.piece;
    EXPECT_EQ(rings_by_euler(pieces, part.joined), 1) << part.piece;
    const auto in = [](const std::vector<std::string>& list) {
      return [&list](const Piece&, const Edge& e) { return names(list, e.id); };
    };
    const SewnRings held = sewn_rings(pieces, in(part.joined), in(made->edges), in(made->open));
    EXPECT_EQ(held.sewn, 1) << part.piece;
    EXPECT_TRUE(turns_right_side_out(held)) << part.piece;
  }
}

TEST(Surface, OnlyOneRingWithAStretchLeftOpenTurns) {
  EXPECT_TRUE(turns_right_side_out({.sewn = 1, .left_open = 1, .surfaces = 1}));
  EXPECT_TRUE(turns_right_side_out({.sewn = 2, .left_open = 2, .surfaces = 2}));
  EXPECT_FALSE(turns_right_side_out({.sewn = 1, .left_open = 0, .surfaces = 1})) << "no gap";
  EXPECT_FALSE(turns_right_side_out({.sewn = 3, .left_open = 3, .surfaces = 1})) << "two legs";
  EXPECT_FALSE(turns_right_side_out({.sewn = 2, .left_open = 1, .surfaces = 2}));
  EXPECT_FALSE(turns_right_side_out({.sewn = 0, .left_open = 0, .surfaces = 0}));
}

}  // namespace
}  // namespace coatwright
