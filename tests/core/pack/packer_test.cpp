// The packer: sound packings of every kind of task, and the same one for the same steps.
#include "core/pack/packer.h"

#include <gtest/gtest.h>

#include <numeric>

#include "core/pack/convex_parts.h"
#include "core/pack/depth_map.h"
#include "core/pack/no_fit.h"
#include "core/pack/placer.h"
#include "tests/core/support/lay_shapes.h"

namespace coatwright {
namespace {

using test::rectangle;

PackSearch begun(const PackTask& task) {
  Result<PackSearch> search = PackSearch::begin(task);
  EXPECT_TRUE(search.ok());
  return std::move(search.value());
}

Packing packed(const PackTask& task, int steps) {
  PackSearch search = begun(task);
  search.step(steps);
  return search.best();
}

// Every copy is there, in an allowed stance, inside the
// strip; overlaps are the business of lay_reference_test.
void expect_complete(const PackTask& task, const Packing& packing) {
  std::vector<int> found(task.pieces.size());
  double end = 0.0;
  for (const PackPlace& place : packing.places) {
    ASSERT_LT(static_cast<size_t>(place.piece), task.pieces.size());
    const PackPiece& piece = task.pieces[static_cast<size_t>(place.piece)];
    ASSERT_LT(static_cast<size_t>(place.stance), piece.stances.size());
    ++found[static_cast<size_t>(place.piece)];
    const GridBox box = bounds(test::placed(task, place).outer);
    EXPECT_GE(box.x0, 0.0);
    EXPECT_GE(box.y0, 0.0);
    EXPECT_LE(box.y1, task.strip_width);
    end = std::max(end, box.x1);
    EXPECT_EQ(place.at, (GridPoint{to_grid(place.at.x), to_grid(place.at.y)}));
  }
  for (size_t p = 0; p < found.size(); ++p) EXPECT_EQ(found[p], task.pieces[p].quantity);
  EXPECT_NEAR(end, packing.length, 1.0);  // a unit for corners that were rounded
}

PackTask task_of_stars(std::uint32_t seed, std::vector<Stance> stances) {
  Random random(seed);
  PackTask task{.strip_width = 60000.0, .pieces = {}, .fixed = {}, .seed = seed};
  for (size_t k = 0; k < 8; ++k) {
    task.pieces.push_back({{test::random_star(random, 4 + k, 12000.0), {}}, stances, 2});
  }
  return task;
}

double density(const PackTask& task, const Packing& packing) {
  double sum = 0.0;
  for (const PackPlace& p : packing.places) {
    sum += area(task.pieces[static_cast<size_t>(p.piece)].outline);
  }
  return sum / (task.strip_width * packing.length);
}

TEST(Packer, PutsJigsawsTogetherAgain) {
  for (const std::uint32_t seed : {1u, 2u}) {
    Random random(seed);
    PackTask task{.strip_width = 30000.0, .pieces = {}, .fixed = {}, .seed = seed};
    for (const Ring& ring : test::jigsaw(random, 3, 3, 10000.0))
      task.pieces.push_back({{ring, {}}});
    random.shuffle(task.pieces);
    const Packing packing = packed(task, 100000);
    expect_complete(task, packing);
    EXPECT_GT(density(task, packing), 0.995) << seed;
  }
}

TEST(Packer, PacksEqualRectanglesWithoutWaste) {
  PackTask task{.strip_width = 100.0, .pieces = {}, .fixed = {}};
  task.pieces.push_back({{rectangle(0, 0, 50, 30), {}}, {{0.0}, {90.0}}, 6});
  const Packing packing = packed(task, 2000);
  expect_complete(task, packing);
  EXPECT_EQ(packing.length, 90.0);
}

TEST(Packer, TurnsAndMirrorsOnlyAsAllowed) {
  // A long piece in a narrow strip must be turned; a right-angled triangle and its mirror image
  // make a rectangle, which two alike cannot without turning.
  PackTask task{.strip_width = 100.0, .pieces = {}, .fixed = {}};
  task.pieces.push_back({{rectangle(0, 0, 20, 150), {}}, {{0.0}, {90.0}}, 1});
  EXPECT_EQ(packed(task, 10).length, 150.0);

  const Ring triangle = {{0, 0}, {100, 0}, {0, 100}};
  PackTask pair{.strip_width = 100.0, .pieces = {}, .fixed = {}};
  pair.pieces.push_back({{triangle, {}}, {{0.0}}, 2});
  EXPECT_GT(packed(pair, 2000).length, 149.0);
  pair.pieces[0].stances = {{0.0}, {180.0}};
  EXPECT_EQ(packed(pair, 2000).length, 100.0);
  pair.pieces[0].stances = {{0.0}, {180.0, true}};  // mirrored in y and turned: mirrored in x
  EXPECT_GT(packed(pair, 2000).length, 100.0);
}

TEST(Packer, UsesHoles) {
  PackTask task{.strip_width = 100.0, .pieces = {}, .fixed = {}};
  task.pieces.push_back({{rectangle(0, 0, 100, 100), {rectangle(20, 20, 60, 60)}}});
  task.pieces.push_back({{rectangle(0, 0, 60, 60), {}}});
  const Packing packing = packed(task, 500);
  expect_complete(task, packing);
  EXPECT_EQ(packing.length, 100.0);
}

TEST(Packer, PacksEveryKindOfTask) {
  for (const std::uint32_t seed : {1u, 2u}) {
    for (const std::vector<Stance>& stances :
         {std::vector<Stance>{{0.0}}, {{0.0}, {180.0}}, {{0.0, true}, {90.0}}, {{45.0}, {33.3}}}) {
      const PackTask task = task_of_stars(seed, stances);
      PackSearch search = begun(task);
      double length = search.best().length;
      expect_complete(task, search.best());
      for (int k = 0; k < 10; ++k) {
        search.step(100);
        EXPECT_LE(search.best().length, length);
        length = search.best().length;
      }
      expect_complete(task, search.best());
      EXPECT_NEAR(search.density(), density(task, search.best()), 1e-4);
      EXPECT_GT(search.density(), 0.5);
    }
  }
}

// Natively and in WebAssembly: the numbers were written down once.
TEST(Packer, GivesTheSamePackingForTheSameSteps) {
  const PackTask task = task_of_stars(7, {{0.0}, {180.0}, {37.0}});
  const Packing packing = packed(task, 1200);
  PackSearch sliced = begun(task);
  for (int k = 0; k < 400; ++k) sliced.step(3);
  EXPECT_EQ(packing, sliced.best());
  double sum = 0.0;
  for (const PackPlace& p : packing.places) sum = sum * 3.0 + p.at.x + 2.0 * p.at.y + p.stance;
  EXPECT_EQ(packing.length, 37549.0);
  EXPECT_EQ(static_cast<std::int64_t>(sum), 1689013102830);

  PackTask other = task;
  other.seed = 8;
  EXPECT_NE(packing, packed(other, 1200));
}

TEST(Packer, KeepsTheGap) {
  PackTask task{.strip_width = 100000.0, .gap = 1000.0, .pieces = {}, .fixed = {}};
  task.pieces.push_back({{rectangle(0, 0, 30000, 49500), {}}, {{0.0}}, 4});
  const Packing packing = packed(task, 500);
  expect_complete(task, packing);
  EXPECT_GE(packing.length, 61000.0);
  EXPECT_LE(packing.length, 61023.0);  // 2 % of the gap and three units
}

TEST(Packer, LeavesFixedPiecesWhereTheyAre) {
  PackTask task = task_of_stars(3, {{0.0}, {90.0}});
  task.fixed = {{4, 1, {40000.0, 20000.0}}, {5, 0, {70000.0, 30000.0}}};
  const Packing packing = packed(task, 1500);
  expect_complete(task, packing);
  EXPECT_EQ(packing.places[0], task.fixed[0]);
  EXPECT_EQ(packing.places[1], task.fixed[1]);

  task.fixed[1].at = {41000.0, 20000.0};  // over the first
  EXPECT_EQ(PackSearch::begin(task).problem().code, Code::PackFixedMisplaced);
  task.fixed[1].at = {70000.0, 55000.0};  // over the edge
  EXPECT_EQ(PackSearch::begin(task).problem().code, Code::PackFixedMisplaced);
}

TEST(Packer, OnePieceIsPackedAtOnce) {
  PackTask task{.strip_width = 10.0, .pieces = {}, .fixed = {}};
  task.pieces.push_back({{rectangle(-5, -5, 10, 7), {}}});
  EXPECT_EQ(packed(task, 0).length, 10.0);
  EXPECT_EQ(packed(task, 100).length, 10.0);
}

TEST(Packer, RefusesWhatCannotBePacked) {
  const auto refusal = [](PackPiece piece, double width = 100.0) {
    PackTask task{
        .strip_width = width, .pieces = {{{rectangle(0, 0, 1, 1), {}}}, piece}, .fixed = {}};
    const Result<PackSearch> search = PackSearch::begin(task);
    return search.ok() ? Problem{} : search.problem();
  };
  const Problem wide = refusal({{rectangle(0, 0, 150, 120), {}}, {{0.0}, {90.0}}});
  EXPECT_EQ(wide, (Problem{Code::PackPieceTooWide, "1", {120.0, 100.0}, ""}));
  for (const Ring& ring :
       {Ring{}, Ring{{0, 0}, {1, 1}}, Ring{{0, 0}, {5, 0}, {9, 0}},
        Ring{{0, 0}, {9, 9}, {9, 0}, {0, 9}}, Ring{{0, 0}, {9, 0}, {0, 0}, {9, 0}}}) {
    EXPECT_EQ(refusal({{ring, {}}}).code, Code::PackOutlineUnsound);
  }
  const Ring outer = rectangle(0, 0, 50, 50);
  EXPECT_EQ(refusal({{outer, {rectangle(40, 40, 20, 20)}}}).code, Code::PackOutlineUnsound);
  EXPECT_EQ(refusal({{outer, {rectangle(60, 60, 20, 20)}}}).code, Code::PackOutlineUnsound);
  EXPECT_EQ(refusal({{outer, {rectangle(5, 5, 9, 9), rectangle(7, 7, 2, 2)}}}).code,
            Code::PackOutlineUnsound);
  EXPECT_EQ(refusal({{rectangle(0, 0, 3e7, 10), {}}}).code, Code::PackPieceTooLarge);
  EXPECT_EQ(refusal({{outer, {}}, {{}}, kMostCopies}).code, Code::PackTooMuch);
  EXPECT_EQ(refusal({{Ring(kMostOutlineCorners + 1), {}}}).code, Code::PackTooMuch);
  EXPECT_EQ(PackSearch::begin({.strip_width = 10.0, .pieces = {}, .fixed = {}}).problem().code,
            Code::PackNothing);
}

// ---- parts and regions --------------------------------------------------------------------------

TEST(ConvexParts, FillTheOutlineAndAreConvex) {
  Random random(5);
  size_t not_convex = 0;
  for (int k = 0; k < 300; ++k) {
    GridOutline outline{test::random_star(random, 3 + random.below(20), 100000.0), {}};
    if (k % 3 == 0) {
      outline.holes.push_back(rectangle(-1000, -900, 1500, 1200));
      outline.holes.push_back({{1500, -1000}, {2500, 0}, {1500, 1000}});
    }
    const auto cleaned = cleaned_outline(outline);
    if (!cleaned) continue;
    const auto parts = convex_parts(*cleaned);
    ASSERT_TRUE(parts) << k;
    double sum = 0.0;
    for (const Ring& part : *parts) {
      for (size_t i = 0; i < part.size(); ++i) {
        EXPECT_GT(turn(part[i], part[(i + 1) % part.size()], part[(i + 2) % part.size()]), 0.0);
      }
      sum += 0.5 * twice_signed_area(part);
    }
    EXPECT_EQ(sum, area(*cleaned)) << k;
    if (parts->size() > 1) ++not_convex;
  }
  EXPECT_GT(not_convex, 150u);
}

TEST(ConvexParts, OutlinesInAnyDirectionAndWithIdlePointsAreTheSame) {
  const GridOutline idle{{{0, 10}, {10, 10}, {10, 10}, {10, 5}, {10, 0}, {0, 0}, {0, 10}}, {}};
  const auto cleaned = cleaned_outline(idle);
  ASSERT_TRUE(cleaned);
  EXPECT_EQ(cleaned->outer.size(), 4u);
  EXPECT_EQ(twice_signed_area(cleaned->outer), 200.0);
}

TEST(NoFit, OfTwoRectanglesIsARectangle) {
  const NoFit region = no_fit({rectangle(0, 0, 30, 20)}, {rectangle(0, 0, 10, 5)}, 0.0);
  EXPECT_EQ(region.box, (GridBox{-10, -5, 30, 20}));
  EXPECT_FALSE(forbids(region, {30, 0}));
  EXPECT_TRUE(forbids(region, {29, 0}));
  EXPECT_EQ(depth_in(region, {28, 4}, 1e9), 2.0);
  EXPECT_EQ(depth_in(region, {-20, 4}, 1e9), 0.0);
  EXPECT_EQ(region.corners.size(), 4u);
}

TEST(NoFit, KnowsTheExactFitInANotch) {
  // A plug of width 10 stands in a slot of width 10, at one height only where it may.
  const std::vector<Ring> slot = {rectangle(0, 0, 30, 10), rectangle(0, 10, 10, 20),
                                  rectangle(20, 10, 10, 20)};
  const NoFit region = no_fit(slot, {rectangle(0, 0, 10, 20)}, 0.0);
  EXPECT_FALSE(forbids(region, {10, 10}));
  EXPECT_TRUE(forbids(region, {10, 9}));
  EXPECT_TRUE(forbids(region, {11, 10}));
  EXPECT_FALSE(forbids(region, {10, 17}));
  const auto& corners = region.corners;
  EXPECT_NE(std::find(corners.begin(), corners.end(), GridPoint{10, 10}), corners.end());
}

std::vector<Ring> random_parts(Random& random, double size) {
  for (;;) {
    const auto cleaned =
        cleaned_outline({test::random_star(random, 3 + random.below(9), size), {}});
    if (cleaned) return *convex_parts(*cleaned);
  }
}

// Read for a cell of another grid, which lies up to half a cell aside.
TEST(DepthMap, HoldsForEveryPlaceInACellAndListsItsBorders) {
  Random random(4);
  int deep = 0;
  int outside = 0;
  int edges = 0;
  int corners = 0;
  for (int k = 0; k < 60; ++k) {
    const NoFit region = no_fit(random_parts(random, 9000.0), random_parts(random, 9000.0), 0.0);
    const double cell = 300.0 + 700.0 * random.part();
    const DepthMap map = depth_map(region, cell);
    for (int t = 0; t < 3000; ++t) {
      const int column = static_cast<int>(random.below(static_cast<size_t>(map.columns)));
      const int row = static_cast<int>(random.below(static_cast<size_t>(map.rows)));
      const auto at = static_cast<size_t>(row * map.columns + column);
      const GridPoint p{map.origin.x + cell * (column - 0.5 + 2.0 * random.part()),
                        map.origin.y + cell * (row - 0.5 + 2.0 * random.part())};
      const double least = static_cast<double>(map.least[at]);
      deep += least > 0.0 ? 1 : 0;
      outside += least < 0.0 ? 1 : 0;
      EXPECT_FALSE(least < 0.0 && forbids(region, p));
      EXPECT_FALSE(least > 0.0 && !forbids(region, p));
      EXPECT_GE(depth_in(region, p, 1e9), least - 0.71 * (cell + 4.0));
    }
    const auto lists = [&](GridPoint p, const std::vector<int>& first, const std::vector<int>& list,
                           size_t thing) {
      const int column = static_cast<int>((p.x - map.origin.x) / cell + random.part() - 0.5);
      const int row = static_cast<int>((p.y - map.origin.y) / cell + random.part() - 0.5);
      const auto at = static_cast<size_t>(row * map.columns + column);
      EXPECT_NE(map.borders[at], kNoBorder);
      EXPECT_EQ(map.least[at], 0.0F);
      const auto end = list.begin() + first[at + 1];
      return std::find(list.begin() + first[at], end, static_cast<int>(thing)) != end;
    };
    for (size_t e = 0; e < region.border.size(); ++e) {
      const NoFitEdge& edge = region.border[e];
      const double along = random.part();
      const GridPoint p{edge.a.x + along * (edge.b.x - edge.a.x),
                        edge.a.y + along * (edge.b.y - edge.a.y)};
      EXPECT_TRUE(lists(p, map.first_edge, map.edges, e));
      ++edges;
    }
    for (size_t c = 0; c < region.corners.size(); ++c) {
      EXPECT_TRUE(lists(region.corners[c], map.first_corner, map.corners, c));
      ++corners;
    }
  }
  EXPECT_GT(deep, 20000);
  EXPECT_GT(outside, 20000);
  EXPECT_GT(edges, 500);
  EXPECT_GT(corners, 500);
}

TEST(NoFit, CornersAreAllowedAndTouchTheBorder) {
  Random random(9);
  size_t seen = 0;
  for (int k = 0; k < 40; ++k) {
    const NoFit region = no_fit(random_parts(random, 9000.0), random_parts(random, 9000.0), 0.0);
    for (const GridPoint p : region.corners) {
      EXPECT_FALSE(forbids(region, p));
      ++seen;
    }
    EXPECT_GE(region.corners.size(), 3u);
  }
  EXPECT_GT(seen, 300u);
}

// Against every place of the grid, one by one.
void expect_the_best_places(const Lattice& lattice, int least_free) {
  Random random(21);
  int free = 0;
  int crowded = 0;
  for (int k = 0; k < 40; ++k) {
    constexpr double kCell = 8.0;
    std::vector<NoFit> regions;
    std::vector<DepthMap> maps;
    std::vector<Neighbour> neighbours;
    const size_t n = 3 + random.below(25);
    const std::vector<Ring> moving = random_parts(random, 40.0);
    for (size_t i = 0; i < n; ++i)
      regions.push_back(no_fit(random_parts(random, 40.0), moving, 0.0));
    for (const NoFit& region : regions) maps.push_back(depth_map(region, kCell));
    for (size_t i = 0; i < n; ++i) {
      neighbours.push_back({&regions[i],
                            &maps[i],
                            {to_grid(90.0 * random.part()), to_grid(60.0 * random.part())},
                            1.0 + 3.0 * random.part()});
    }
    const GridBox room{0.0, 0.0, 90.0, 60.0};
    double least = 1e9;
    double left = 1e9;
    for (double x = room.x0; x <= room.x1; ++x) {
      for (double y = room.y0; y <= room.y1; ++y) {
        if (!lattice.hold({x, y})) continue;
        double loss = 0.0;
        for (const Neighbour& m : neighbours) {
          loss += m.weight * depth_in(*m.region, GridPoint{x, y} - m.at, 1e9);
        }
        least = std::min(least, loss);
        if (loss == 0.0) left = std::min(left, x);
      }
    }
    Placer placer;
    placer.set(room, neighbours, kCell, random.next(), lattice);
    const std::optional<Offer> offer = placer.least_loss(1e9);
    ASSERT_TRUE(offer);
    EXPECT_TRUE(lattice.hold(offer->at));
    const std::optional<GridPoint> leftmost = placer.leftmost(1e9);
    if (least == 0.0) {
      EXPECT_EQ(offer->loss, 0.0);
      ASSERT_TRUE(leftmost);
      EXPECT_TRUE(lattice.hold(*leftmost));
      EXPECT_LE(leftmost->x, std::max(lattice.x.least_from(left + 3.0),
                                      left));  // edges were moved outward before rounding
      ++free;
    } else {
      EXPECT_FALSE(leftmost);
      // The loss of the best place in regions that are not convex may be less between borders.
      EXPECT_LE(offer->loss, 1.5 * least + 2.0);
      ++crowded;
    }
    EXPECT_FALSE(placer.least_loss(0.0));
  }
  EXPECT_GT(free, least_free);
  EXPECT_GT(crowded, 5);
}

TEST(Placer, FindsTheLeastLossAndTheLeftmostPlace) { expect_the_best_places({}, 5); }

TEST(Placer, FindsThemOnALatticeToo) {
  expect_the_best_places({.x = {3.0, 7.0}}, 4);
  expect_the_best_places({.y = {2.0, 9.5}}, 4);
  expect_the_best_places({.x = {1.0, 4.3}, .y = {2.0, 3.0}}, 4);
}

TEST(Lattice, LinesLieAStepApartHoweverFarAndAreFoundFromBothSides) {
  const Lines lines{1.25, 63.5};
  EXPECT_EQ(lines.least_from(0.0), 1.0);
  EXPECT_EQ(lines.least_from(1.5), 65.0);
  // A thousand steps on it is still where a thousand times the step says, to the nearest unit.
  EXPECT_NEAR(lines.least_from(63501.0), 1.25 + 1000.0 * 63.5, 0.5);
  for (double v = -300.0; v < 300.0; v += 0.5) {
    EXPECT_GE(lines.least_from(v), v);
    EXPECT_LE(lines.most_to(v), v);
    EXPECT_LT(lines.least_from(v) - lines.most_to(v), 65.0);
    EXPECT_EQ(lines.hold(v), lines.least_from(v) == lines.most_to(v));
    EXPECT_TRUE(lines.moved(17.0).hold(lines.least_from(v) + 17.0));
  }
}

// ---- stripes ------------------------------------------------------------------------------------

TEST(Packer, KeepsThePointOfEveryPieceOnTheLatticeInEveryStance) {
  int seen = 0;
  for (const Lattice& lattice : {Lattice{.x = {100.0, 4000.0}}, Lattice{.y = {350.0, 3333.3}},
                                 Lattice{.x = {0.0, 2500.5}, .y = {700.0, 2000.0}}}) {
    PackTask task = task_of_stars(3, {{0.0}, {180.0}, {0.0, true}});
    for (size_t k = 0; k < task.pieces.size(); ++k) {
      if (k % 4 == 3) continue;  // not all pieces of a coat are matched
      task.pieces[k].lattice = lattice;
      task.pieces[k].match = {to_grid(700.0 * static_cast<double>(k)), -900.0};
    }
    const Packing packing = packed(task, 3000);
    expect_complete(task, packing);
    for (const PackPlace& place : packing.places) {
      const PackPiece& piece = task.pieces[static_cast<size_t>(place.piece)];
      if (piece.lattice.anywhere()) continue;
      const Stance& stance = piece.stances[static_cast<size_t>(place.stance)];
      GridPoint at = piece.match;  // the stances of this test, by hand
      if (stance.mirrored) at.y = -at.y;
      if (stance.turned_deg == 180.0) at = {-at.x, -at.y};
      at = at + place.at;
      const auto off = [](double v, const Lines& lines) {
        return lines.anywhere() ? 0.0 : std::abs(std::remainder(v - lines.first, lines.step));
      };
      EXPECT_LE(off(at.x, lattice.x), 0.5);
      EXPECT_LE(off(at.y, lattice.y), 0.5);
      ++seen;
    }
  }
  EXPECT_EQ(seen, 3 * 12);
}

TEST(Packer, FindsTheShortestPackingThatALatticeAllows) {
  // Six boxes 50 x 30 on a strip 100 wide take 90; where their left sides may stand only 40 apart,
  // three rows of two end at 80 + 30.
  PackTask task{.strip_width = 100.0, .pieces = {}, .fixed = {}};
  task.pieces.push_back({{rectangle(0, 0, 30, 50), {}}, {{0.0}}, 6, {}, {.x = {0.0, 40.0}}});
  EXPECT_EQ(packed(task, 2000).length, 110.0);
  // And where they may not touch the edge of the strip, only one fits beside another.
  task.pieces[0].lattice = {.y = {10.0, 60.0}};
  EXPECT_EQ(packed(task, 2000).length, 180.0);
  task.pieces[0].lattice = {.y = {60.0, 100.0}};
  const auto refused = PackSearch::begin(task);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.problem().code, Code::PackPieceOffLattice);
}

TEST(Packer, GoesOnFromAStartOnTheLatticeAndMovesOneThatIsOffIt) {
  PackTask task{.strip_width = 100.0, .pieces = {}, .fixed = {}};
  task.pieces.push_back({{rectangle(0, 0, 30, 50), {}}, {{0.0}}, 2, {}, {.x = {0.0, 40.0}}});
  task.start = {{0, 0, {40.0, 0.0}}, {0, 0, {80.0, 50.0}}};
  EXPECT_EQ(begun(task).best().length, 110.0);
  task.start[0].at.x = 43.0;
  PackSearch search = begun(task);
  search.step(500);
  EXPECT_EQ(search.best().length, 30.0);
  for (const PackPlace& place : search.best().places) EXPECT_EQ(place.at.x, 0.0);
}

}  // namespace
}  // namespace coatwright
