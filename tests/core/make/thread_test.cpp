// Thread, from the lines that operations sew.
#include "core/make/thread.h"

#include <gtest/gtest.h>

#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

// Two pieces with a seam of 1000 mm and a free edge of 500 mm each.
Draft two_pieces() {
  Draft d;
  Piece p;
  p.id = "one";
  p.edges = {{"one.seam", "s", Finish::Seam, {{straight({0, 0}, {1000, 0})}}},
             {"one.free", "one.free", Finish::Turned, {{straight({1000, 0}, {1000, 500})}}}};
  d.pieces = {p, p};
  d.pieces[1].id = "two";
  d.pieces[1].edges[0].id = "two.seam";
  d.pieces[1].edges[1].id = d.pieces[1].edges[1].seam = "two.free";
  return d;
}

// Thread ratios of the trade, needle and bobbin together (secondary): lockstitch, ISO 4915 type 301,
// about 2.5 times the seam; zigzag, type 304, about 5.5 times.
TEST(Thread, OfASeamIsTwoAndAHalfTimesItsLengthOnce) {
  Draft d = two_pieces();
  d.operations = {
      {Deed::Join, Stage::Join, "join", {}, {"one.seam", "two.seam"}, {}, {"one", "two"}}};
  EXPECT_NEAR(thread_length(d), 2.5 * 1000.0, 1e-6);
}

TEST(Thread, OfAHemIsTwoRowsAndTheOvercasting) {
  Draft d = two_pieces();
  d.operations = {
      {Deed::Hem, Stage::Edges, "hem", {}, {"one.free", "two.free"}, {}, {"one", "two"}}};
  d.operations[0].rows = 2;
  d.operations[0].together = true;
  EXPECT_NEAR(thread_length(d), (2.0 * 2.5 + 5.5) * 2.0 * 500.0, 1e-6);
}

TEST(Thread, GoesRoundBothHalvesOfAHookAndLoopAndOnceAcross) {
  Draft d;
  d.notions = {{.kind = NotionKind::HookLoop,
                .place = "mark.tape",
                .count = 3,
                .length_mm = 80.0,
                .width_mm = 20.0,
                .step = "tape"}};
  d.operations = {{Deed::Attach, Stage::Pieces, "tape", {}, {}, {"mark.tape"}}};
  const double round = 2.0 * (80.0 + 20.0), across = 80.0, halves = 2.0;
  EXPECT_NEAR(thread_length(d), 2.5 * 3.0 * halves * (round + across), 1e-9);
}

// A wrap coat's lines by hand: round once and once more beside the edge, the gap, the band likewise,
// and its box with a cross; the tapes.
TEST(Thread, OfAPlainCoatIsTheSumOfItsLines) {
  const auto made = make_pattern(assess(test::hard_dog("ordinary")), {});
  ASSERT_TRUE(made.result.ok());
  const Draft& d = made.result->draft;
  double outer = 0.0, band = 0.0, gap = 0.0, tapes = 0.0, box = 0.0;
  for (const Piece& p : d.pieces) {
    for (const Edge& e : p.edges) {
      const double length = arc_length(e.path, 1e-3);
      if (p.id == "body" && e.finish == Finish::Turned) outer += 2.0 * length;
      if (p.id == "band" && e.id != "band.attach") band += length;
    }
    for (const Mark& m : p.marks) {
      if (m.kind == MarkKind::TurningGap) gap = 2.0 * polyline_length(m.line);
      if (p.id != "body" || m.label != "mark.band-attach") continue;
      for (size_t i = 0; i < m.line.size(); ++i) {
        box += distance(m.line[i], m.line[(i + 1) % m.line.size()]);
      }
      box += distance(m.line[0], m.line[2]) + distance(m.line[1], m.line.back());
    }
  }
  for (const Notion& n : d.notions) {
    if (n.kind != NotionKind::HookLoop) continue;
    tapes += n.count * 2.0 * (3.0 * n.length_mm + 2.0 * n.width_mm);
  }
  EXPECT_NEAR(thread_length(d), 2.5 * (2.0 * outer + 2.0 * band + gap + box + tapes), 1.0);
}

}  // namespace
}  // namespace coatwright
