#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"
#include "core/lay/hand_lay.h"
#include "core/pattern/pattern.h"
#include "core/table/light.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

const TableSetUp kSetUp{.width_mm = 420.0,
                        .height_mm = 297.0,
                        .pins = {{{300, 200}, {1500, 180}, {1620, 930}, {260, 960}}}};
const LightStyle kStyle{.line_mm = 2.0, .px_wide = 1920.0, .px_high = 1080.0};

SetUpFault fault_with(const Quad& pins) {
  TableSetUp s = kSetUp;
  s.pins = pins;
  return fault_of(s);
}

TEST(TableSetUp, RefusesPinsThatHoldNoMap) {
  EXPECT_EQ(SetUpFault::None, fault_of(kSetUp));
  EXPECT_EQ(SetUpFault::PinsNotConvex,
            fault_with({{{300, 200}, {1500, 180}, {500, 400}, {260, 960}}}));
  EXPECT_EQ(SetUpFault::PinsNotConvex,
            fault_with({{{300, 200}, {1620, 930}, {1500, 180}, {260, 960}}}));
  // The first two changed places with each other, and the last two: a mirror image.
  EXPECT_EQ(SetUpFault::PinsTurned,
            fault_with({{{1500, 180}, {300, 200}, {260, 960}, {1620, 930}}}));
  EXPECT_EQ(SetUpFault::PinsTooClose,
            fault_with({{{300, 200}, {310, 200}, {1620, 930}, {260, 960}}}));
  EXPECT_EQ(SetUpFault::PinsTooClose,
            fault_with({{{std::nan(""), 200}, {1500, 180}, {1620, 930}, {260, 960}}}));
  TableSetUp s = kSetUp;
  s.width_mm = 99.0;
  EXPECT_EQ(SetUpFault::RectangleSize, fault_of(s));
  s.width_mm = std::nan("");
  EXPECT_EQ(SetUpFault::RectangleSize, fault_of(s));
  s = kSetUp;
  s.mending.xy = 0.2;
  EXPECT_EQ(SetUpFault::MendingTooLarge, fault_of(s));
}

TEST(TableSetUp, SaysHowLargeAPixelIs) {
  TableSetUp s{
      .width_mm = 400.0, .height_mm = 300.0, .pins = {{{0, 0}, {800, 0}, {800, 300}, {0, 300}}}};
  const Resolution pixel = resolution(s);
  EXPECT_NEAR(0.5, pixel.finest_mm, 1e-9);
  EXPECT_NEAR(1.0, pixel.coarsest_mm, 1e-9);
  // No smaller and no larger one anywhere within the pins.
  const Resolution tilted = resolution(kSetUp);
  const Homography h = table_to_picture(kSetUp);
  for (double x = 0.0; x <= 420.0; x += 21.0) {
    for (double y = 0.0; y <= 297.0; y += 27.0) {
      const Stretches px = stretches(h.at({x, y}));
      EXPECT_LE(1.0 / px.least, tilted.coarsest_mm + 1e-9);
      EXPECT_GE(1.0 / px.most, tilted.finest_mm - 1e-9);
    }
  }
}

// What a set-up that is wrong draws on a table that is flat and true: the way from the drawn point
// to the table's own millimetres, known because it is made up here.
struct WrongTable {
  Mending lies;  // table = lies * drawn, about the rectangle's middle
  [[nodiscard]] MeasuredSquare read(double side, const Mending& now) const {
    const Mending m = lies * now;
    const auto at = [&](double x, double y) { return Point{m.xx * x + m.xy * y, m.yy * y}; };
    return {distance(at(0, 0), at(side, 0)), distance(at(0, 0), at(0, side)),
            distance(at(0, 0), at(side, side))};
  }
};

TEST(TableCheck, ThreeLengthsMendScaleAndSkewAtOnce) {
  for (const Mending& lies :
       {Mending{1.02, 0.0, 0.985}, Mending{0.97, 0.02, 1.01}, Mending{1.0, -0.03, 1.0}}) {
    const WrongTable table{lies};
    const CheckedSquare first = checked(250.0, table.read(250.0, {}), {});
    EXPECT_EQ(CheckEnd::Off, first.end);
    const CheckedSquare second = checked(250.0, table.read(250.0, first.mending), first.mending);
    EXPECT_EQ(CheckEnd::True, second.end);
    EXPECT_NEAR(0.0, second.across, 1e-9);
    EXPECT_NEAR(0.0, second.along, 1e-9);
    EXPECT_NEAR(0.0, second.diagonal, 1e-9);
  }
}

TEST(TableCheck, SaysWhatIsOffAndRefusesMoreThanFivePerCent) {
  const double diagonal = std::sqrt(2.0) * 200.0;
  EXPECT_EQ(CheckEnd::True, checked(200.0, {200.9, 199.1, diagonal}, {}).end);
  const CheckedSquare off = checked(200.0, {204.0, 200.0, diagonal}, {});
  EXPECT_EQ(CheckEnd::Off, off.end);
  EXPECT_NEAR(0.02, off.across, 1e-12);
  // A rhomb has true edges: its diagonal tells.
  EXPECT_EQ(CheckEnd::Off, checked(200.0, {200.0, 200.0, diagonal + 4.0}, {}).end);
  for (const double wrong : {189.0, 211.0, 0.0, -200.0, std::nan("")}) {
    EXPECT_EQ(CheckEnd::TooFarOff, checked(200.0, {wrong, 200.0, diagonal}, {}).end) << wrong;
    EXPECT_EQ(CheckEnd::TooFarOff, checked(200.0, {200.0, wrong, diagonal}, {}).end) << wrong;
    EXPECT_EQ(CheckEnd::TooFarOff, checked(200.0, {200.0, 200.0, wrong}, {}).end) << wrong;
  }
  EXPECT_EQ(CheckEnd::TooFarOff, checked(200.0, {208.0, 200.0, diagonal}, {0.89, 0.0, 1.0}).end)
      << "little by little it would come to more";
}

TEST(TableCheck, SquareHasRoomInTheRectangle) {
  EXPECT_EQ(250.0, check_side(kSetUp, 50.0));
  EXPECT_NEAR(10 * 25.4, check_side(kSetUp, 50.8), 1e-9);
  EXPECT_EQ(50.0, check_side({.width_mm = 100.0, .height_mm = 900.0}, 50.0));
}

// ---- what is drawn --------------------------------------------------------------------------------

struct Made {
  Pattern pattern;
  Lay lay;
};
Made made_lay(const Choices& choices = {}) {
  auto made = make_pattern(assess(test::hard_dog("ordinary")), choices);
  Pattern pattern = std::move(made.result.value());
  const LayOrder order = lay_orders(pattern.cut).front();
  Cloth cloth = usual_cloth(order.use);
  auto search = LaySearch::begin(order, cloth, 1);
  for (int i = 0; i < 30; ++i) search.value().step(1);
  return {std::move(pattern), search->best()};
}
const Words kNoWords;

const TableLine* cut_line(const TablePiece& piece) {
  const auto line = std::find_if(piece.lines.begin(), piece.lines.end(), [](const TableLine& l) {
    return l.kind == LineKind::Cut && l.closed;
  });
  return line == piece.lines.end() ? nullptr : &*line;
}

TEST(TableLay, HasEveryOutlineOfTheLayWhereItLies) {
  const Made made = made_lay();
  const TableLay lay = table_lay(made.lay, {{.key = {}, .cut = &made.pattern.cut}}, {}, kNoWords);
  ASSERT_EQ(made.lay.pieces.size(), lay.pieces.size());
  ASSERT_GT(lay.pieces.size(), 1U);
  for (const LaidPiece& laid : made.lay.pieces) {
    EXPECT_TRUE(std::any_of(lay.pieces.begin(), lay.pieces.end(), [&](const TablePiece& piece) {
      return piece.id == laid.id && cut_line(piece) != nullptr &&
             cut_line(piece)->points == laid.outline;
    })) << laid.id;
  }
}

// What is sewn lies inside what is cut, whichever way a piece is turned and whichever side is up.
TEST(TableLay, InnerLinesLieWithinTheirPiecesHoweverTheseAreTurned) {
  Made made = made_lay();
  int mirrored = 0, turned = 0, lines = 0;
  for (const LayOrder& order : lay_orders(made.pattern.cut)) {
    auto table = LayTable::begin(order, usual_cloth(order.use));
    ASSERT_TRUE(table);
    HandLay hand{order.use, order.laminated, {}};
    double at = 0.0;
    for (HandPlace place : hand_lay_of(table->laid({}).lay).places) {
      place.turned = (turned + mirrored) % 2 == 0;
      place.at = {at += 900.0, 20.0};
      hand.places.push_back(place);
      turned += place.turned ? 1 : 0;
    }
    const Lay laid = table->laid(hand).lay;
    for (const LaidPiece& piece : laid.pieces) mirrored += piece.face_down ? 1 : 0;
    for (const TablePiece& piece :
         table_lay(laid, {{.key = {}, .cut = &made.pattern.cut}}, {}, kNoWords).pieces) {
      const TableLine* cut = cut_line(piece);
      ASSERT_NE(nullptr, cut);
      for (const TableLine& line : piece.lines) {
        if (line.kind != LineKind::Sewn && line.kind != LineKind::Fold &&
            line.kind != LineKind::Grain)
          continue;
        ++lines;
        for (const Point p : line.points)
          EXPECT_GT(depth_inside(cut->points, p), -0.05)
              << piece.id << " " << line_kind_id(line.kind);
      }
    }
  }
  EXPECT_GT(lines, 20);
  EXPECT_GT(turned, 0);
}

TEST(TableLay, ShowsTheFoldOfAPieceOpenedAndOneHeadOfItsGrainWhereClothGoesOneWay) {
  Made made = made_lay();
  const auto heads = [&](const TablePiece& piece) {
    return std::count_if(piece.lines.begin(), piece.lines.end(),
                         [](const TableLine& l) { return l.filled; });
  };
  const auto body = [&](const TableLay& lay) {
    return *std::find_if(lay.pieces.begin(), lay.pieces.end(),
                         [](const TablePiece& p) { return p.id == "body"; });
  };
  const std::vector<LayCoat> coats = {{.key = {}, .cut = &made.pattern.cut}};
  const TablePiece both = body(table_lay(made.lay, coats, {}, kNoWords));
  EXPECT_EQ(2, heads(both));
  EXPECT_TRUE(std::any_of(both.lines.begin(), both.lines.end(),
                          [](const TableLine& l) { return l.kind == LineKind::Fold; }));
  made.lay.cloth.one_way = true;
  EXPECT_EQ(1, heads(body(table_lay(made.lay, coats, {}, kNoWords))));
}

TEST(TableLay, PiecesOneByOneLieWithTheirMiddleAtNothingAndTheirGrainAlong) {
  const Made made = made_lay();
  const TableLay lay = table_pieces(made.pattern.cut, false, kNoWords);
  ASSERT_GT(lay.pieces.size(), 1U);
  for (const TablePiece& piece : lay.pieces) {
    EXPECT_NEAR(0.0, piece.box.x0 + piece.box.x1, 1e-6);
    EXPECT_NEAR(0.0, piece.box.y0 + piece.box.y1, 1e-6);
    const CutPiece whole = opened(*made.pattern.cut.find(piece.id));
    EXPECT_NEAR(std::abs(signed_area(whole.cut)), std::abs(signed_area(cut_line(piece)->points)),
                1e-3);
  }
}

TEST(TableLay, StandsInTheOrderOfCuttingAlongTheCloth) {
  const Made made = made_lay();
  const TableLay lay = table_lay(made.lay, {{.key = {}, .cut = &made.pattern.cut}}, {}, kNoWords);
  for (size_t i = 0; i + 1 < lay.pieces.size(); ++i) {
    EXPECT_LT(lay.pieces[i].box.x0, lay.pieces[i + 1].box.x0 + 5.0);
  }
}

// The width of a straight line on the table, measured back from its shape in the picture.
TEST(Light, LinesAreAsWideOnTheTableAsTheyWereAskedFor) {
  const Light light = light_of_check(kSetUp, 200.0, kStyle);
  const Homography back = inverse(table_to_picture(kSetUp));
  ASSERT_EQ(1U, light.shapes.size());
  int quads = 0;
  for (const Polyline& contour : light.shapes.front().contours) {
    if (contour.size() != 4) continue;
    ++quads;
    Polyline on = contour;
    for (Point& p : on) p = back(p);
    const double a = distance(on[0], on[1]), b = distance(on[1], on[2]);
    EXPECT_NEAR(2.0, std::min(a, b), 1e-6);
    const double length = std::max(a, b);
    EXPECT_NEAR(length > 220.0 ? std::sqrt(2.0) * 200.0 : 200.0, length, 1e-6);
  }
  EXPECT_EQ(5, quads);
}

TEST(Light, LeavesOutWhatLiesOutsideThePictureOrBeyondTheHorizon) {
  TableSetUp steep = kSetUp;
  steep.pins = {{{800, 300}, {1100, 300}, {1700, 1000}, {200, 1000}}};
  ASSERT_EQ(SetUpFault::None, fault_of(steep));
  TableLay lay;
  lay.pieces.push_back({.id = "long",
                        .name = "",
                        .lines = {{LineKind::Cut, {{200.0, 200.0}, {200.0, -90000.0}}}},
                        .texts = {},
                        .box = {}});
  lay.pieces.push_back({.id = "far",
                        .name = "",
                        .lines = {{LineKind::Cut, {{9000.0, 200.0}, {9100.0, 200.0}}}},
                        .texts = {},
                        .box = {}});
  const Light light = light_of_lay(steep, lay, {}, {}, false, kStyle);
  ASSERT_EQ(1U, light.shapes.size());
  ASSERT_EQ(1U, light.shapes.front().contours.size());
  for (const Point p : light.shapes.front().contours.front()) {
    EXPECT_TRUE(std::isfinite(p.x) && std::isfinite(p.y));
    EXPECT_LT(std::abs(p.x), 1e5);
    EXPECT_GT(p.y, -1e5);
  }
}

TEST(Light, ShowsThePieceThatIsCutNextAloneOrAmongTheOthers) {
  const Made made = made_lay();
  TableSetUp wide = kSetUp;
  wide.width_mm = 2000.0;
  wide.height_mm = 1500.0;
  const TableLay lay = table_lay(made.lay, {{.key = {}, .cut = &made.pattern.cut}}, {}, kNoWords);
  const auto lit = [](const Light& light, bool which) {
    return std::count_if(light.shapes.begin(), light.shapes.end(),
                         [&](const LightShape& s) { return s.lit == which; });
  };
  const Light among = light_of_lay(wide, lay, {}, 1, false, kStyle);
  const Light alone = light_of_lay(wide, lay, {}, 1, true, kStyle);
  EXPECT_GT(lit(among, true), 0);
  EXPECT_GT(lit(among, false), 0);
  EXPECT_GT(lit(alone, true), 0);
  EXPECT_EQ(0, lit(alone, false));
  EXPECT_GT(among.texts.size(), alone.texts.size());
}

TEST(Light, ALayIsTurnedByQuartersAndMovedOnTheTable) {
  EXPECT_EQ((Point{10.0, 20.0}), on_table({10.0, 20.0}, {}));
  EXPECT_EQ((Point{-20.0 + 5.0, 10.0 + 6.0}), on_table({10.0, 20.0}, {1, {5.0, 6.0}}));
  EXPECT_EQ((Point{20.0, -10.0}), on_table({10.0, 20.0}, {3, {}}));
}

}  // namespace
}  // namespace coatwright
