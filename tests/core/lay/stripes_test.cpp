// Stripes run on over the seams of a coat: looked at on the pieces as they lie, by the notches and
// folds that a maker goes by, not by what the lay says of itself.
#include "core/lay/stripes.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/lay/coat_lay.h"
#include "core/lay/hand_lay.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/choices.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/lay_orders.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

constexpr double kNear = 0.11;  // mm: two units of the packer's grid, and one for turning

struct Case {
  Pattern pattern;
  LayOrder order;
  Lay lay;
};

// Every lay of coats of all styles, as they come and with a collar, a hood, a spine seam, on cloth
// with these repeats.
template <class F>
int for_every_striped_lay(double along, double across, F&& check) {
  int lays = 0;
  for (const StyleInfo* style : styles()) {
    for (const char* dog : test::asked_of<const char*>({"toy", "ordinary", "giant"})) {
      for (const char* option : {"", "collar", "hood", "shaping"}) {
        Choices choices;
        if (*option != '\0')
          choices.set(*choice_by_id(option), std::string(option) == "shaping" ? 2.0 : 1.0);
        const auto made = make_pattern(assess(test::hard_dog(dog)), choices, *style);
        if (!made.result.ok()) continue;
        for (const LayOrder& order : lay_orders(made.result->cut)) {
          Cloth cloth = usual_cloth(order.use);
          cloth.width_mm = 1500.0;
          cloth.repeat_mm = along;
          cloth.repeat_across_mm = across;
          cloth.first_stripe_mm = across > 0.0 ? 31.0 : 0.0;
          auto search = LaySearch::begin(order, cloth, 1);
          if (!search.ok()) {
            ADD_FAILURE() << dog << ' ' << style->id << ' ' << option << ' '
                          << code_name(search.problem().code);
            continue;
          }
          search.value().step(80);
          check(Case{made.result.value(), order, search->best()});
          ++lays;
        }
      }
    }
  }
  return lays;
}

// A point of the drafted piece where it lies: mirrored, turned, moved, as lay.json says.
Point lies(const LaidPiece& piece, Point p) {
  if (piece.face_down) p.y = -p.y;
  const double a = piece.turned_deg * M_PI / 180.0;
  return {piece.at.x + std::cos(a) * p.x - std::sin(a) * p.y,
          piece.at.y + std::sin(a) * p.x + std::cos(a) * p.y};
}

// How far `at` lies past the middle of a stripe, as the dog wears it: a piece that lies the other
// way round has the stripes run backward.
double phase(double at, double first, double repeat, bool backward) {
  const double past = std::remainder(at - first, repeat);
  return backward ? -past : past;
}

TEST(Stripes, RoundTheDogLieOnTheGirthLineAndMeetAtItsNotches) {
  int notches = 0, marks = 0;
  for_every_striped_lay(57.0, 0.0, [&](const Case& c) {
    for (const LaidPiece& piece : c.lay.pieces) {
      const CutPiece& cut = *c.pattern.cut.find(piece.id);
      const auto on_stripe = [&](Point p) {
        EXPECT_NEAR(phase(lies(piece, p).x, c.lay.first_stripe_mm, 57.0, false), 0.0, kNear)
            << piece.id;
      };
      for (const CutNotch& n : cut.notches) {
        if (n.name != "girth-line") continue;
        on_stripe(n.on_net);
        ++notches;
      }
      for (const Mark& m : cut.piece.marks) {
        if (m.kind != MarkKind::GirthLine || !piece.id.starts_with("body")) continue;
        on_stripe(m.line.front());
        ++marks;
      }
    }
  });
  EXPECT_GT(notches, test::asked(20));
  EXPECT_GT(marks, test::asked(40));
}

TEST(Stripes, AlongTheDogLieOnEveryFold) {
  int folds = 0;
  for_every_striped_lay(0.0, 41.3, [&](const Case& c) {
    for (const LaidPiece& piece : c.lay.pieces) {
      const CutPiece& cut = *c.pattern.cut.find(piece.id);
      if (!cut.piece.on_fold) continue;
      const double y = lies(piece, cut.edges.front().net.front()).y;
      EXPECT_NEAR(phase(y, 31.0, 41.3, false), 0.0, kNear) << piece.id;
      ++folds;
    }
  });
  EXPECT_GT(folds, test::asked(60));
}

TEST(Stripes, TheHalvesOfAPairAreMirrorImagesInTheirStripesToo) {
  int pairs = 0;
  for_every_striped_lay(44.0, 38.0, [&](const Case& c) {
    for (const LaidPiece& piece : c.lay.pieces) {
      const Piece& drafted = c.pattern.cut.find(piece.id)->piece;
      if (!drafted.mirrored_pair || piece.face_down) continue;
      for (const LaidPiece& other : c.lay.pieces) {
        if (other.id != piece.id || !other.face_down) continue;
        // Any point will do: the grain is where these pieces' own x axes lie.
        const Point p = drafted.grain_from;
        const Point a = lies(piece, p), b = lies(other, p);
        EXPECT_NEAR(std::remainder(phase(a.x, c.lay.first_stripe_mm, 44.0, piece.turned) -
                                       phase(b.x, c.lay.first_stripe_mm, 44.0, other.turned),
                                   44.0),
                    0.0, 2.0 * kNear)
            << piece.id;
        // Mirrored, so that what lies below in one lies above in the other.
        EXPECT_NEAR(
            std::remainder(
                phase(a.y, 31.0, 38.0, piece.turned) - phase(b.y, 31.0, 38.0, !other.turned), 38.0),
            0.0, 2.0 * kNear)
            << piece.id;
        ++pairs;
      }
    }
  });
  EXPECT_GT(pairs, test::asked(10));
}

TEST(Stripes, ASeamBetweenTwoPiecesBindsTheSecondToTheFirstAtItsMiddle) {
  // Two rectangles sewn long side to long side; the second is drawn the other way round, its grain
  // toward its own beginning, and 300 mm from its origin.
  const auto box = [](const char* id, Point at, double grain, double fold_y) {
    CutPiece p;
    p.piece.id = id;
    p.piece.grain_from = {at.x + 20.0, at.y + 5.0};
    p.piece.grain_to = {at.x + 20.0 + grain, at.y + 5.0};
    const Polyline side = fold_y > at.y ? Polyline{{at.x + 400.0, fold_y}, {at.x, fold_y}}
                                        : Polyline{{at.x, fold_y}, {at.x + 400.0, fold_y}};
    p.edges = {{.id = std::string(id) + ".side", .seam = "side", .net = side}};
    return p;
  };
  CutSet cut{{box("body", {0.0, 0.0}, 100.0, 100.0), box("panel", {300.0, 50.0}, 100.0, 50.0)}};
  auto matches = stripe_matches(cut);
  ASSERT_TRUE(matches[0].along && matches[1].along);
  EXPECT_NEAR(*matches[0].along, 20.0, 1e-9) << "the tail of the first piece's grain line";
  EXPECT_NEAR(*matches[1].along, 320.0, 1e-9) << "180 mm before the middle of the seam, as there";
  // Across the grain nothing is bound by a seam that runs along it.
  EXPECT_FALSE(matches[1].across);
  // With its grain the other way the same line is found from the other side.
  std::swap(cut.pieces[1].piece.grain_from, cut.pieces[1].piece.grain_to);
  matches = stripe_matches(cut);
  EXPECT_NEAR(*matches[1].along, -320.0, 1e-9);
  // A piece whose grain runs across its neighbour's cannot match it.
  cut.pieces[1].piece.grain_to = cut.pieces[1].piece.grain_from + Vec{0.0, 50.0};
  EXPECT_FALSE(stripe_matches(cut)[1].along);
}

TEST(Stripes, NeverNeedLessClothThanNone) {
  const int lays =
      test::for_every_order([](const Pattern&, const LayOrder& order, std::string_view dog) {
        Cloth cloth = usual_cloth(order.use);
        cloth.width_mm = 1300.0;
        const auto laid = [&](const Cloth& on) {
          auto search = LaySearch::begin(order, on, 1);
          search.value().step(1500);
          return search->best();
        };
        const Lay free = laid(cloth);
        for (const double repeat : {20.0, 90.0}) {
          Cloth striped = cloth;
          striped.repeat_mm = repeat;
          striped.repeat_across_mm = 30.0;
          const Lay lay = laid(striped);
          // A lay on stripes is a lay without them too: only a search that stopped early can find
          // less there, and by little.
          EXPECT_GE(lay.length_mm, 0.985 * free.length_mm) << dog;
          EXPECT_GE(length_to_buy(striped, lay.length_mm, Unit::Inch),
                    length_to_buy(cloth, free.length_mm, Unit::Inch));
        }
      });
  EXPECT_GE(lays, test::asked(10));
}

TEST(Stripes, AFoldThatNoStripeReachesIsRefusedWithThePiecesName) {
  const LayOrder order{.pieces = {{.id = "body",
                                   .outline = {{0, -140}, {300, -140}, {300, 140}, {0, 140}},
                                   .stripes = {.across = 0.0}}}};
  Cloth cloth{.width_mm = 300.0, .selvage_mm = 0.0, .repeat_across_mm = 200.0};
  const auto search = LaySearch::begin(order, cloth, 1);
  ASSERT_FALSE(search.ok());
  EXPECT_EQ(search.problem(), (Problem{Code::LayPieceOffStripes, "body", {}, "shell"}));
  cloth.first_stripe_mm = 150.0;
  EXPECT_TRUE(LaySearch::begin(order, cloth, 1).ok());
}

TEST(Stripes, ARepeatTooFineToBeMatchedBindsNothing) {
  const Pattern p = make_pattern(assess(test::hard_dog("ordinary")), {}).result.value();
  const LayOrder order = lay_orders(p.cut).front();
  Cloth cloth = usual_cloth(order.use);
  cloth.repeat_mm = cloth.repeat_across_mm = 0.5 * kLeastRepeat;
  auto search = LaySearch::begin(order, cloth, 1);
  ASSERT_TRUE(search.ok());
  for (const LaidPiece& piece : search->best().pieces) {
    EXPECT_FALSE(piece.stripes.along || piece.stripes.across);
  }
}

// ---- by hand ------------------------------------------------------------------------------------

Cloth striped() {
  return {.width_mm = 1000.0,
          .selvage_mm = 10.0,
          .gap_mm = 3.0,
          .repeat_mm = 60.0,
          .repeat_across_mm = 50.0,
          .first_stripe_mm = 25.0};
}
// The first is bound both ways, at a point in its middle; the second along the cloth alone.
LayOrder two_boxes() {
  return {.pieces = {{.id = "body",
                      .outline = {{0, 0}, {400, 0}, {400, 300}, {0, 300}},
                      .stripes = {.along = 200.0, .across = 150.0}},
                     {.id = "panel",
                      .outline = {{0, 0}, {100, 0}, {100, 50}, {0, 50}},
                      .stripes = {.along = 30.0}}}};
}

TEST(Stripes, AFoundLayIsOnTheStripesByHandToo) {
  int lays = for_every_striped_lay(57.0, 41.3, [](const Case& c) {
    auto table = LayTable::begin(c.order, c.lay.cloth);
    ASSERT_TRUE(table.ok());
    const auto laid = table.value().laid(hand_lay_of(c.lay));
    EXPECT_TRUE(table.value().faults(laid.lay).none()) << c.lay.pieces.front().id;
    EXPECT_EQ(laid.lay.first_stripe_mm, c.lay.first_stripe_mm);
  });
  EXPECT_GT(lays, test::asked(20));
}

TEST(Stripes, APieceLaidOffThemIsToldLikeAnOverlap) {
  auto table = LayTable::begin(two_boxes(), striped());
  ASSERT_TRUE(table.ok());
  const Lay start = table.value().laid({}).lay;  // pieces without a place lie on the stripes
  EXPECT_TRUE(table.value().faults(start).none());
  HandLay hand = hand_lay_of(start);
  hand.places[1].at.y += 7.0;  // it is bound along the cloth alone
  EXPECT_TRUE(table.value().faults(table.value().laid(hand).lay).none());
  hand.places[1].at.x += 60.0;
  EXPECT_TRUE(table.value().faults(table.value().laid(hand).lay).none());
  hand.places[1].at.x += 0.3;
  const LayFaults faults = table.value().faults(table.value().laid(hand).lay);
  EXPECT_EQ(faults.off_stripes, std::vector<size_t>{1});
  EXPECT_EQ(problem_of(faults, ClothUse::Shell)->code, Code::LayHandOffStripes);
}

TEST(Stripes, APieceThatIsDraggedComesToRestOnThem) {
  auto made = LayTable::begin(two_boxes(), striped());
  ASSERT_TRUE(made.ok());
  LayTable& table = made.value();
  const Lay start = table.laid({}).lay;
  HandLay hand = hand_lay_of(start);
  const Point from = hand.places[1].at;
  for (const Vec by : {Vec{70.0, 203.0}, Vec{133.0, 511.0}, Vec{29.0, 340.0}}) {
    hand.places[1].at = table.snapped(start, 1, from + by, 4.0);
    const Vec moved = hand.places[1].at - from;
    EXPECT_NEAR(std::remainder(moved.x, 60.0), 0.0, 0.06);
    EXPECT_LE(std::abs(moved.x - by.x), 30.1);
    EXPECT_LE(std::abs(moved.y - by.y), 4.0);
    EXPECT_TRUE(table.faults(table.laid(hand).lay).off_stripes.empty());
  }
  // Near the selvage it touches that, and keeps to its stripe.
  hand.places[1].at = table.snapped(start, 1, from + Vec{65.0, 2.0}, 4.0);
  EXPECT_NEAR(hand.places[1].at.x - from.x, 60.0, 0.06);
  EXPECT_NEAR(hand.places[1].at.y, 10.6, 0.06);
  // With no reach it lies as it was typed; a key moves it by a whole repeat.
  EXPECT_EQ(table.snapped(start, 1, {33.0, 44.0}, 0.0), (Point{33.0, 44.0}));
  EXPECT_EQ(table.step_of(0, 1.0), (Vec{60.0, 50.0}));
  EXPECT_EQ(table.step_of(1, 1.0), (Vec{60.0, 1.0}));
  // Turned round, it comes to the nearest place where its stripes are right again.
  hand.places[1].turned = true;
  hand.places[1].at = table.on_stripes(1, true, from);
  EXPECT_TRUE(table.faults(table.laid(hand).lay).off_stripes.empty());
}

}  // namespace
}  // namespace coatwright
