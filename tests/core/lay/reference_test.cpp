// The packer against GEOS, which knows nothing of no-fit regions: packings do not overlap, and a
// region forbids exactly the places where the pieces do.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>

#include "core/lay/coat_lay.h"
#include "core/lay/hand_lay.h"
#include "core/pack/convex_parts.h"
#include "core/pack/no_fit.h"
#include "core/pack/packer.h"
#include "core/pattern/pattern.h"
#include "core/ticket/ticket.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/geos.h"
#include "tests/core/support/lay_shapes.h"
#include "tests/core/support/population.h"
#include "tests/support/place.h"

namespace coatwright {
namespace {

geos::Shape shape_of(const GridOutline& outline) {
  const auto ring = [](const Ring& points) {
    Polyline line;
    for (const GridPoint p : points) line.push_back({p.x, p.y});
    return GEOSGeom_createLinearRing_r(geos::context(), geos::sequence(line, true));
  };
  std::vector<GEOSGeometry*> holes;
  for (const Ring& hole : outline.holes) holes.push_back(ring(hole));
  return geos::own(GEOSGeom_createPolygon_r(geos::context(), ring(outline.outer), holes.data(),
                                            static_cast<unsigned>(holes.size())));
}

double common_area(const geos::Shape& a, const geos::Shape& b) {
  return geos::area(geos::own(GEOSIntersection_r(geos::context(), a.get(), b.get())));
}

double distance_between(const geos::Shape& a, const geos::Shape& b) {
  double out = 0.0;
  GEOSDistance_r(geos::context(), a.get(), b.get(), &out);
  return out;
}

PackTask random_task(std::uint32_t seed, std::vector<Stance> stances, double gap) {
  Random random(seed);
  PackTask task{.strip_width = 60000.0, .gap = gap, .pieces = {}, .fixed = {}, .seed = seed};
  for (size_t k = 0; k < 7; ++k) {
    GridOutline outline{test::random_star(random, 4 + 2 * k, 15000.0), {}};
    if (k == 6)
      outline = {test::rectangle(0, 0, 25000, 25000), {test::rectangle(4000, 4000, 17000, 17000)}};
    task.pieces.push_back({outline, stances, 2});
  }
  return task;
}

TEST(PackerAgainstGeos, PackingsDoNotOverlapAndKeepTheirGap) {
  int touching = 0;
  int in_a_hole = 0;
  for (const std::uint32_t seed : {1u, 2u}) {
    for (const double gap : {0.0, 700.0}) {
      for (const std::vector<Stance>& stances :
           {std::vector<Stance>{{0.0}, {180.0, true}}, {{90.0}, {17.0}, {211.5}}}) {
        const PackTask task = random_task(seed, stances, gap);
        Result<PackSearch> search = PackSearch::begin(task);
        ASSERT_TRUE(search.ok());
        search.value().step(600);
        std::vector<geos::Shape> shapes;
        for (const PackPlace& place : search->best().places) {
          shapes.push_back(shape_of(test::placed(task, place)));
        }
        for (size_t i = 0; i < shapes.size(); ++i) {
          for (size_t j = 0; j < i; ++j) {
            EXPECT_LT(common_area(shapes[i], shapes[j]), 1e-3);
            const double apart = distance_between(shapes[i], shapes[j]);
            EXPECT_GE(apart, gap - 1e-6);
            if (apart < gap + 3.0) ++touching;
            const auto box_of = [&](size_t k) {
              return bounds(test::placed(task, search->best().places[k]).outer);
            };
            const GridBox a = box_of(i);
            const GridBox b = box_of(j);
            if (b.x0 > a.x0 && b.x1 < a.x1 && b.y0 > a.y0 && b.y1 < a.y1) ++in_a_hole;
          }
        }
      }
    }
  }
  EXPECT_GT(touching, 50);
  EXPECT_GT(in_a_hole, 0);
}

TEST(PackerAgainstGeos, RegionsForbidExactlyWherePiecesOverlap) {
  Random random(11);
  int forbidden = 0;
  int allowed = 0;
  int corners = 0;
  for (int k = 0; k < 60; ++k) {
    const auto piece = [&] {
      for (;;) {
        GridOutline outline{test::random_star(random, 3 + random.below(12), 300.0), {}};
        if (k % 4 == 0) outline.holes.push_back(test::rectangle(-9, -8, 20, 17));
        if (const auto cleaned = cleaned_outline(outline)) return *cleaned;
      }
    };
    const GridOutline still = piece();
    const GridOutline moving = piece();
    const NoFit region = no_fit(*convex_parts(still), *convex_parts(moving), 0.0);
    const geos::Shape fixed = shape_of(still);
    const auto overlap_at = [&](GridPoint at) {
      GridOutline there = moving;
      for (GridPoint& p : there.outer) p = p + at;
      for (Ring& hole : there.holes) {
        for (GridPoint& p : hole) p = p + at;
      }
      return common_area(fixed, shape_of(there));
    };
    for (int t = 0; t < 60; ++t) {
      const GridPoint at{to_grid(700.0 * (random.part() - 0.5)),
                         to_grid(700.0 * (random.part() - 0.5))};
      const double overlap = overlap_at(at);
      if (forbids(region, at)) {
        EXPECT_GT(overlap, 1e-9);
        ++forbidden;
        // A way out as long as the depth, and none much shorter: along eight directions.
        const double depth = depth_in(region, at, 1e9);
        if (depth < 0.5) continue;  // at least a quarter of a unit is told
        for (const GridPoint d : {GridPoint{1, 0},
                                  {0, 1},
                                  {-1, 0},
                                  {0, -1},
                                  {0.7, 0.7},
                                  {-0.7, 0.7},
                                  {0.7, -0.7},
                                  {-0.7, -0.7}}) {
          EXPECT_GT(overlap_at({at.x + 0.98 * depth * d.x, at.y + 0.98 * depth * d.y}), 0.0);
        }
      } else {
        EXPECT_LT(overlap, 1e-9);
        EXPECT_EQ(depth_in(region, at, 1e9), 0.0);
        ++allowed;
      }
    }
    for (const GridPoint p : region.corners) {
      EXPECT_LT(overlap_at(p), 1e-9);
      ++corners;
    }
  }
  EXPECT_GT(forbidden, 500);
  EXPECT_GT(allowed, 500);
  EXPECT_GT(corners, 500);
}

// Coats of all styles and sizes with every piece an option adds, on their usual cloths.
TEST(CoatLayAgainstGeos, PiecesKeepTheirGapAsTheyAreCut) {
  int pairs = 0;
  for (const StyleInfo* style : styles()) {
    Choices all;
    for (const ChoiceInfo* c : choices_of(*style)) {
      if (c->named()) all.set(*c, static_cast<double>(c->options.size() - 1));
    }
    for (const Choices& choices : {Choices{}, all}) {
      for (const auto& dog : test::asked_of(test::hard_dogs())) {
        const auto made = make_pattern(assess(dog.tape), choices, *style);
        if (!made.result.ok()) continue;
        for (const LayOrder& order : lay_orders(made.result->cut)) {
          Cloth cloth = usual_cloth(order.use);
          cloth.width_mm = 1600.0;
          auto search = LaySearch::begin(order, cloth, 1);
          ASSERT_TRUE(search.ok()) << dog.name << ' ' << style->id;
          search.value().step(200);
          const Lay lay = search->best();
          std::vector<geos::Shape> shapes;
          for (const LaidPiece& piece : lay.pieces) shapes.push_back(geos::area_of(piece.outline));
          for (size_t i = 0; i < shapes.size(); ++i) {
            for (size_t j = 0; j < i; ++j) {
              ++pairs;
              EXPECT_GE(distance_between(shapes[i], shapes[j]), cloth.gap_mm - 1e-6)
                  << dog.name << ' ' << style->id << ' ' << lay.pieces[i].id << ' '
                  << lay.pieces[j].id;
            }
          }
        }
      }
    }
  }
  EXPECT_GT(pairs, test::asked(300));
}

// ---- layouts made by hand -----------------------------------------------------------------------

// Where a person laid a piece: its cut line turned over or not, turned by so many degrees, and
// moved until its least x and y are these (mm, from the beginning and the edge of the cloth).
struct HandPut {
  const char* piece;
  bool face_down;
  double turned_deg;
  double x, y;
};

Polyline put(const CutPiece& whole, const HandPut& how) {
  Polyline line = whole.cut;
  const double a = how.turned_deg * M_PI / 180.0;
  double least_x = 1e9, least_y = 1e9;
  for (Point& p : line) {
    if (how.face_down) p.y = -p.y;
    p = {std::cos(a) * p.x - std::sin(a) * p.y, std::sin(a) * p.x + std::cos(a) * p.y};
    least_x = std::min(least_x, p.x);
    least_y = std::min(least_y, p.y);
  }
  for (Point& p : line) p = {p.x - least_x + how.x, p.y - least_y + how.y};
  return line;
}

struct HandMade {
  const char* ticket;
  double width_mm;
  std::vector<HandPut> puts;
};

// Two tickets of the demo, their shell cloth laid by hand, with some millimetres of air for lines that
// are drawn anew. Neither is as short as can be: no more is asked than to beat a plain layout.
const HandMade kHandMade[] = {
    // The band beside a rounded rear corner of the body.
    {"bollard", 920.0, {{"body", false, 0.0, 3.0, 12.0}, {"band", false, 0.0, 762.0, 730.0}}},
    // The halves one beside the other, the panel beside them and the collar behind.
    {"pennant",
     1120.0,
     {{"body", true, 180.0, 3.0, 12.0},
      {"body", false, 180.0, 3.0, 389.0},
      {"panel", false, 0.0, 3.0, 767.0},
      {"collar", false, 0.0, 756.0, 12.0}}},
};

TEST(CoatLayAgainstGeos, NeedsNoMoreClothThanTwoLayoutsMadeByHand) {
  for (const HandMade& made : kHandMade) {
    std::ifstream file(assets_folder() + "/tickets/" + made.ticket + ".json");
    std::stringstream text;
    text << file.rdbuf();
    const Result<Ticket> ticket = read_ticket(text.str());
    ASSERT_TRUE(ticket.ok()) << made.ticket;
    const auto pattern = make_pattern(assess(tape_of(*ticket).value()), ticket->choices,
                                      *style_by_id(ticket->style));
    ASSERT_TRUE(pattern.result.ok());
    const LayOrder order = lay_orders(pattern.result->cut).front();
    ASSERT_EQ(order.use, ClothUse::Shell);
    Cloth cloth = usual_cloth(ClothUse::Shell, Unit::Centimetre);
    cloth.width_mm = made.width_mm;

    // The layout is one: every piece as often as it is cut and no two nearer than the gap, inside
    // the cloth.
    std::vector<geos::Shape> shapes;
    double length = 0.0, area = 0.0;
    std::vector<std::string> laid, wanted;
    for (const HandPut& how : made.puts) {
      const Polyline line = put(opened(*pattern.result->cut.find(how.piece)), how);
      for (const Point p : line) {
        EXPECT_GE(p.x, 0.0) << how.piece;
        EXPECT_GE(p.y, cloth.selvage_mm) << how.piece;
        EXPECT_LE(p.y, cloth.width_mm - cloth.selvage_mm) << how.piece;
        length = std::max(length, p.x);
      }
      shapes.push_back(geos::area_of(line));
      area += geos::area(shapes.back());
      laid.push_back(std::string(how.piece) + (how.face_down ? " face down" : ""));
      for (size_t k = 0; k + 1 < shapes.size(); ++k) {
        EXPECT_GE(distance_between(shapes[k], shapes.back()), cloth.gap_mm)
            << how.piece << ' ' << made.puts[k].piece;
      }
    }
    for (const LayPiece& piece : order.pieces) {
      for (int n = 0; n < piece.face_up; ++n) wanted.push_back(piece.id);
      for (int n = 0; n < piece.face_down; ++n) wanted.push_back(piece.id + " face down");
    }
    std::sort(laid.begin(), laid.end());
    std::sort(wanted.begin(), wanted.end());
    EXPECT_EQ(laid, wanted) << made.ticket;

    auto search = LaySearch::begin(order, cloth, 1);
    ASSERT_TRUE(search.ok());
    search.value().step(3000);  // of a millisecond each at most
    const Lay found = search->best();
    EXPECT_LE(found.length_mm, length) << made.ticket;
    EXPECT_GE(found.length_mm, area / usable_width(cloth)) << made.ticket;
  }
}

// Pieces of a coat strewn over the cloth by hand: what is passed keeps the gap and lies inside,
// what is told to overlap is nearer than the gap and 2 mm; and where a piece snaps, it is free.
TEST(HandLayAgainstGeos, WhatIsPassedKeepsTheGapAndWhatIsToldIsNear) {
  Random random(5);
  int passed = 0, told = 0, snapped = 0;
  for (const StyleInfo* style : styles()) {
    Choices all;
    for (const ChoiceInfo* c : choices_of(*style)) {
      if (c->named()) all.set(*c, static_cast<double>(c->options.size() - 1));
    }
    const auto made = make_pattern(assess(test::hard_dog("ordinary")), all, *style);
    ASSERT_TRUE(made.result.ok());
    for (const LayOrder& order : lay_orders(made.result->cut)) {
      Cloth cloth = usual_cloth(order.use);
      cloth.width_mm = 1500.0;
      cloth.one_way = false;
      auto begun = LayTable::begin(order, cloth);
      ASSERT_TRUE(begun.ok());
      LayTable& table = begun.value();
      for (int round = 0; round < 25; ++round) {
        HandLay hand = hand_lay_of(table.laid({}).lay);
        for (HandPlace& p : hand.places) {
          p.at = {2500.0 * random.part(), 1300.0 * random.part()};
          p.turned = random.below(2) == 1;
        }
        Lay lay = table.laid(hand).lay;
        const size_t moved = random.below(lay.pieces.size());
        const Point to = table.snapped(lay, moved, hand.places[moved].at, 40.0);
        const bool snaps = to != hand.places[moved].at;
        hand.places[moved].at = to;
        lay = table.laid(hand).lay;
        const LayFaults faults = table.faults(lay);
        std::vector<geos::Shape> shapes;
        for (const LaidPiece& piece : lay.pieces) shapes.push_back(geos::area_of(piece.outline));
        for (size_t i = 0; i < shapes.size(); ++i) {
          for (size_t j = 0; j < i; ++j) {
            const bool overlap = std::find(faults.overlaps.begin(), faults.overlaps.end(),
                                           std::pair{j, i}) != faults.overlaps.end();
            const double gap = distance_between(shapes[i], shapes[j]);
            if (overlap) {
              EXPECT_LT(gap, cloth.gap_mm + 2.0);
              ++told;
            } else {
              EXPECT_GE(gap, cloth.gap_mm - 1e-6);
              ++passed;
            }
            if (snaps && (i == moved || j == moved)) {
              EXPECT_FALSE(overlap);
            }
          }
        }
        snapped += snaps ? 1 : 0;
      }
    }
  }
  EXPECT_GT(passed, 500);
  EXPECT_GT(told, 100);
  EXPECT_GT(snapped, 20);
}

}  // namespace
}  // namespace coatwright
