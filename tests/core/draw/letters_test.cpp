// What is written on the pieces and drawn inside them, over every option of every style: it lies
// where it belongs, and nothing that a maker needs is left out.
#include <gtest/gtest.h>

#include <set>
#include <tuple>

#include "core/draft/options/band.h"
#include "core/draft/options/closure.h"
#include "core/draft/options/collar.h"
#include "core/draft/options/hood.h"
#include "core/draft/options/layers.h"
#include "core/draft/options/opening.h"
#include "core/draft/options/pocket.h"
#include "core/draw/pattern_drawing.h"
#include "core/draw/text.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/drafted.h"
#include "tests/core/support/sheet_fixture.h"

namespace coatwright {
namespace {

using test::items_of;
using test::made_with;

const DrawingChoices kPlain = {.ticket_name = "Bosun, winter coat"};

PatternDrawing drawn(const Pattern& pattern, const DrawingChoices& choices = kPlain) {
  return draw_pattern(pattern, choices, test::words());
}

// A piece as it stands in the drawing, and the texts on it.
struct Told {
  PieceSketch sketch;
  std::vector<TextItem> texts;

  [[nodiscard]] bool says(const std::string& what) const {
    return std::any_of(texts.begin(), texts.end(),
                       [&](const TextItem& t) { return t.text.find(what) != std::string::npos; });
  }
};

std::vector<Told> told_pieces(const Pattern& pattern, const PatternDrawing& d) {
  std::vector<Told> out;
  const auto sketches = sketch_pieces(pattern.cut, false, true);
  for (size_t i = 0; i < sketches.size(); ++i) {
    out.push_back({placed(sketches[i], Placement{0, d.placed[i].shift}), {}});
    for (const TextItem& t : items_of<TextItem>(d.drawing)) {
      const Polyline box = text_box(t);
      if (test::is_inside(out.back().sketch.cut, lerp(box[0], box[2], 0.5))) {
        out.back().texts.push_back(t);
      }
    }
  }
  return out;
}

// Every set of options of every style, as far as they are asked, on one of these dogs after the other.
template <class F>
void for_every_drawing(const std::vector<const char*>& dogs, F&& check) {
  size_t next = 0;
  for (const StyleInfo* style : styles()) {
    for (const Choices& choices : test::asked_of(test::all_combinations(*style))) {
      const char* dog = dogs[next++ % dogs.size()];
      SCOPED_TRACE(dog + (" " + test::told(*style, choices)));
      const auto made = make_pattern(assess(test::hard_dog(dog)), choices, *style);
      ASSERT_TRUE(made.result.ok());
      check(*made.result, drawn(*made.result));
      if (testing::Test::HasFailure()) return;
    }
  }
}

TEST(PatternWords, LieInsideTheirPieceAndOnNoLineWhateverIsChosen) {
  int seen = 0;
  for_every_drawing({"toy", "sighthound", "bulldog"}, [&](const Pattern& p,
                                                          const PatternDrawing& d) {
    size_t texts = 0;
    for (const Told& piece : told_pieces(p, d)) {
      texts += piece.texts.size();
      for (const TextItem& t : piece.texts) {
        for (const Point corner : text_box(t)) {
          EXPECT_TRUE(test::is_inside(piece.sketch.net, corner)) << t.text;
        }
      }
    }
    EXPECT_EQ(texts, items_of<TextItem>(d.drawing).size()) << "none stands between the pieces";
    for (const TextItem& t : items_of<TextItem>(d.drawing)) {
      const Polyline box = text_box(t);
      const Rect around = bounds(box);
      for (const StrokeItem& line : items_of<StrokeItem>(d.drawing)) {
        Polyline points = line.points;
        if (line.closed) points.push_back(points.front());
        for (size_t i = 1; i < points.size(); ++i) {
          const Rect r = bounds({points[i - 1], points[i]});
          if (r.x1 < around.x0 || r.x0 > around.x1 || r.y1 < around.y0 || r.y0 > around.y1)
            continue;
          for (size_t k = 0; k < 4; ++k) {
            EXPECT_FALSE(crossing(points[i - 1], points[i], box[k], box[(k + 1) % 4])) << t.text;
          }
        }
        ++seen;
      }
    }
  });
  EXPECT_GT(seen, 10000);
}

TEST(PatternWords, EveryPieceSaysWhatIsCutOfWhichLayerWhateverIsChosen) {
  int seen = 0;
  for_every_drawing({"long-low", "sighthound", "bulldog", "giant"},
                    [&](const Pattern& p, const PatternDrawing& d) {
                      for (const Told& piece : told_pieces(p, d)) {
                        const Rect box = bounds(piece.sketch.net);
                        // A flap that is no wider than a finger has room for its name only.
                        EXPECT_TRUE(piece.says(test::words()("piece." + piece.sketch.id)));
                        if (std::min(box.width(), box.height()) < 15.0) continue;
                        for (const std::string& count : cut_counts(piece.sketch, test::words())) {
                          EXPECT_TRUE(piece.says(count)) << piece.sketch.id << ' ' << count;
                          ++seen;
                        }
                      }
                    });
  EXPECT_GT(seen, test::asked(800));
}

TEST(PatternWords, OnAToyTheLargePiecesSaySoToo) {
  const std::set<std::string> large = {"body", "band", "panel", "hood", "collar"};
  std::set<std::string> met;
  for_every_drawing({"toy"}, [&](const Pattern& p, const PatternDrawing& d) {
    for (const Told& piece : told_pieces(p, d)) {
      if (!large.contains(piece.sketch.id)) continue;
      met.insert(piece.sketch.id);
      for (const std::string& count : cut_counts(piece.sketch, test::words())) {
        EXPECT_TRUE(piece.says(count)) << piece.sketch.id << ' ' << count;
      }
    }
  });
  if (test::kAllAsked) {
    EXPECT_EQ(met, large);
  }
}

// The two ends of a piece's grain arrow.
std::pair<Point, Point> grain_of(const PatternDrawing& d, const Told& piece) {
  for (const StrokeItem& line : items_of<StrokeItem>(d.drawing)) {
    if (line.role != Role::Grain || line.points.size() != 2) continue;
    if (test::is_inside(piece.sketch.cut, line.points[0])) return {line.points[0], line.points[1]};
  }
  ADD_FAILURE() << "no grain on " << piece.sketch.id;
  return {};
}

TEST(PatternWords, TheGrainArrowCrossesNothingThatIsSewnOn) {
  int seen = 0;
  for_every_drawing({"toy", "long-low", "sighthound", "bulldog", "giant"},
                    [&](const Pattern& p, const PatternDrawing& d) {
                      for (const Told& piece : told_pieces(p, d)) {
                        const std::string& id = piece.sketch.id;
                        if (id != "body" && id != "band" && id != "panel") continue;
                        const auto [from, to] = grain_of(d, piece);
                        EXPECT_NEAR(from.y, to.y, 1e-9) << "along the spine";
                        EXPECT_GT(std::abs(to.x - from.x), 8.0) << id;
                        for (const Mark& m : piece.sketch.marks) {
                          Polyline line = m.line;
                          if (m.closed) line.push_back(line.front());
                          for (size_t i = 1; i < line.size(); ++i) {
                            EXPECT_FALSE(crossing(from, to, line[i - 1], line[i]))
                                << id << ' ' << m.label;
                            ++seen;
                          }
                        }
                      }
                    });
  EXPECT_GT(seen, test::asked(3000));
}

TEST(PatternWords, TheFoldsBracketLeavesAnOpeningFree) {
  for (const double kind : {1.0, 2.0}) {
    for (const char* dog : {"toy", "ordinary", "giant"}) {
      const auto made = made_with(test::hard_dog(dog), {{&kOpening, kind}});
      const PatternDrawing d = drawn(*made.result);
      const Told body = told_pieces(*made.result, d).front();
      int brackets = 0;
      for (const StrokeItem& line : items_of<StrokeItem>(d.drawing)) {
        if (line.role != Role::Grain || line.points.size() != 4) continue;
        ++brackets;
        const Rect bracket = bounds(line.points);
        for (const Mark& m : body.sketch.marks) {
          if (m.kind != MarkKind::Opening && m.label != "mark.opening-facing") continue;
          EXPECT_FALSE(meet(bracket, bounds(m.line))) << dog << ' ' << m.label;
        }
      }
      EXPECT_EQ(brackets, 1) << dog;
    }
  }
}

TEST(PatternWords, ThePieceIsNotNamedInsideAPocketsPlace) {
  for (const char* dog : {"toy", "ordinary", "sighthound", "giant"}) {
    const auto made = made_with(test::hard_dog(dog), {{&kPocket, 1.0}});
    const PatternDrawing d = drawn(*made.result);
    const Told body = told_pieces(*made.result, d).front();
    const Mark* pocket = nullptr;
    for (const Mark& m : body.sketch.marks) {
      if (m.label == "mark.pocket-one-side") pocket = &m;
    }
    ASSERT_NE(pocket, nullptr) << dog;
    int names = 0;
    for (const TextItem& t : body.texts) {
      if (t.role != Role::Name) continue;
      ++names;
      EXPECT_FALSE(test::is_inside(pocket->line, t.at)) << dog;
    }
    EXPECT_EQ(names, 1) << dog;
  }
}

bool is_crossed(const Polyline& box, const StrokeItem& line) {
  const Rect around = bounds(box);
  Polyline points = line.points;
  if (line.closed) points.push_back(points.front());
  for (size_t i = 1; i < points.size(); ++i) {
    if (!meet(bounds({points[i - 1], points[i]}), inset(around, -1e-9))) continue;
    for (size_t k = 0; k < 4; ++k) {
      if (crossing(points[i - 1], points[i], box[k], box[(k + 1) % 4])) return true;
    }
    if (test::is_inside(box, points[i])) return true;
  }
  return false;
}

// On boards so many CSS pixels wide, where a name is wanted at 16 pixels and the other words at 14.5,
// up to 21 mm.
TEST(PatternWords, ThePiecesNameIsCrossedByNoArrowAndNoLineOnAnyBoard) {
  // At least so many of the names are large enough to be read there.
  for (const auto& of_board : {std::pair{740.0, 0.85}, std::pair{290.0, 0.55}}) {
    const double board = of_board.first, readable = of_board.second;
    int seen = 0, large = 0, arrows = 0;
    for_every_drawing(
        {"ordinary", "toy", "bulldog"}, [&](const Pattern& p, const PatternDrawing& on_paper) {
          const double pixel = on_paper.drawing.bounds.width() / board;  // mm
          DrawingChoices choices = kPlain;
          choices.text_mm = std::min(14.5 * pixel, 21.0);
          choices.name_mm = 16.0 * pixel;
          const PatternDrawing d = drawn(p, choices);
          const auto texts = items_of<TextItem>(d.drawing);
          const auto lines = items_of<StrokeItem>(d.drawing);
          for (const TextItem& t : texts) {
            if (t.role != Role::Name) continue;
            ++seen;
            EXPECT_GE(t.most_mm, t.size_mm) << t.text;
            TextItem largest = t;
            largest.size_mm = std::max(t.size_mm, std::min(t.most_mm, choices.name_mm));
            // It grows about the middle of its capitals.
            const Vec down{-std::sin(t.angle), std::cos(t.angle)};
            largest.at = t.at + kTextMiddle * (largest.size_mm - t.size_mm) * down;
            large += largest.size_mm >= 13.0 * pixel;
            const Polyline box = text_box(largest);
            for (const StrokeItem& line : lines) {
              EXPECT_FALSE(is_crossed(box, line)) << t.text;
            }
            for (const TextItem& other : texts) {
              if (other.text == t.text && other.at == t.at) continue;
              EXPECT_FALSE(test::is_inside(box, lerp(text_box(other)[0], text_box(other)[2], 0.5)))
                  << t.text << ' ' << other.text;
            }
          }
          for (const StrokeItem& line : lines) {
            arrows += line.role == Role::Grain && line.points.size() == 2;
          }
        });
    EXPECT_GT(seen, test::asked(600));
    if (!test::kAllAsked) continue;
    EXPECT_GT(large, readable * seen) << board;
    EXPECT_GT(arrows, 0.8 * seen) << board;
  }
}

TEST(PatternWords, WebbingIsToldItsLengthOnce) {
  const auto made = make_pattern(assess(test::hard_dog("toy")), {}, kStrapCoat);
  const Pattern& p = *made.result;
  const CutPiece& strap = *p.cut.find("strap");
  const std::string size = format_length(Length::mm(strap.edges.front().length_mm), kPlain.lengths);
  int told = 0;
  for (const Told& piece : told_pieces(p, drawn(p))) {
    if (piece.sketch.id != "strap") continue;
    for (const TextItem& t : piece.texts) told += t.text.find(size) != std::string::npos;
  }
  EXPECT_EQ(told, 1);
}

TEST(PatternWords, KeepOffWhatTheBoardPutsOnThem) {
  int seen = 0;
  for (const double text : {3.2, 9.0}) {
    for (const test::NamedDog& dog : test::hard_dogs()) {
      const Pattern p = make_pattern(assess(dog.tape), {}).result.value();
      DrawingChoices choices = kPlain;
      choices.text_mm = text;
      for (const HandleInfo& h : handles_of(kWrapCoat)) {
        if (const auto at = h.place(p.draft)) choices.occupied.push_back({h.piece, *at});
      }
      const PatternDrawing d = drawn(p, choices);
      for (const Occupied& o : choices.occupied) {
        for (const PlacedPiece& piece : d.placed) {
          if (piece.id != o.piece) continue;
          for (const TextItem& t : items_of<TextItem>(d.drawing)) {
            const Polyline box = text_box(t);
            const Point at = o.at + piece.shift;
            ++seen;
            EXPECT_FALSE(test::is_inside(box, at)) << dog.name << ' ' << t.text;
            // A disc of the size of the smallest text.
            EXPECT_GT(test::distance_to(box, true, at), text) << dog.name << ' ' << t.text;
          }
        }
      }
    }
  }
  EXPECT_GT(seen, 1000);
}

// A lining that is not its own mirror image is sewn to the shell right sides together: whether an
// outline is its own mirror image is looked at here, point by point.
TEST(PatternWords, CountsSayOfALiningThatItIsMirroredWhereTheOutlineIsNotItsOwnMirrorImage) {
  const Pattern p =
      *made_with(test::hard_dog("ordinary"),
                 {{&kFrontClosing, 1.0}, {&kBandShape, 1.0}, {&kHood, 1.0}, {&kPocket, 2.0}})
           .result;
  const auto own_mirror_image = [](const CutPiece& piece) {
    if (piece.piece.on_fold) return true;
    const Rect box = bounds(piece.cut);
    for (const bool upright : {false, true}) {
      bool same = true;
      for (const Point q : piece.cut) {
        const Point m =
            upright ? Point{box.x0 + box.x1 - q.x, q.y} : Point{q.x, box.y0 + box.y1 - q.y};
        same = same && test::distance_to(piece.cut, true, m) < 0.5;
      }
      if (same) return true;
    }
    return false;
  };
  int mirrored = 0, plain = 0, pairs = 0;
  for (const PieceSketch& sketch : sketch_pieces(p.cut, false, false)) {
    const CutPiece& piece = *p.cut.find(sketch.id);
    const std::string count = cut_counts(sketch, test::words()).front();
    const bool told = count.find("mirrored") != std::string::npos;
    if (piece.piece.layer != Layer::Lining) {
      EXPECT_EQ(told, piece.piece.mirrored_pair) << sketch.id;
    } else if (!own_mirror_image(piece)) {
      EXPECT_TRUE(told) << sketch.id << ' ' << count;
      (piece.piece.mirrored_pair ? pairs : mirrored) += 1;
    } else if (piece.piece.on_fold) {
      EXPECT_FALSE(told) << sketch.id;
      ++plain;
    }
  }
  EXPECT_EQ(std::tuple(mirrored, plain, pairs), std::tuple(1, 1, 1)) << "band; body; hood";
}

// Heads of a piece's grain arrow by the ends of its line: at that toward which it was drafted, and
// at the other.
TEST(PatternWords, ThePiecesOfAClothWithNapHaveOneHeadTowardTheTailAndOthersTwo) {
  DrawingChoices nap = kPlain;
  nap.one_way[static_cast<size_t>(Layer::Lining)] = true;
  int one = 0, two = 0;
  for (const double collar : {0.0, 1.0, 2.0}) {
    const Pattern p = *made_with(test::hard_dog("ordinary"),
                                 {{&kCollar, collar}, {&kOpening, 1.0}, {&kPocket, 1.0}})
                           .result;
    const PatternDrawing d = drawn(p, nap);
    for (const Told& piece : told_pieces(p, d)) {
      const auto [a, b] = grain_of(d, piece);
      const Vec tailward = piece.sketch.grain_to - piece.sketch.grain_from;
      const auto [neck_end, tail_end] =
          dot(b - a, tailward) > 0.0 ? std::pair(a, b) : std::pair(b, a);
      const auto has_head = [&](Point end) {
        const auto fills = items_of<FillItem>(d.drawing);
        return std::any_of(fills.begin(), fills.end(), [&](const FillItem& f) {
          return f.role == Role::Grain && distance(f.points.front(), end) < 1e-6;
        });
      };
      const auto& layers = piece.sketch.layers;
      const bool lined = std::any_of(layers.begin(), layers.end(),
                                     [](const SketchLayer& l) { return l.layer == Layer::Lining; });
      EXPECT_TRUE(has_head(tail_end)) << piece.sketch.id;
      EXPECT_EQ(has_head(neck_end), !lined) << piece.sketch.id;
      EXPECT_EQ(piece.says("nap"), lined) << piece.sketch.id;
      (lined ? one : two) += 1;
      // A fall lies turned down on the coat: its roll, the near ring, is its end toward the neck.
      if (piece.sketch.id.starts_with("fall")) {
        EXPECT_LT(tailward.x, 0.0);
      } else {
        EXPECT_GE(tailward.x, 0.0) << piece.sketch.id;
      }
    }
  }
  EXPECT_GT(one, 8);
  EXPECT_GT(two, 4);
}

}  // namespace
}  // namespace coatwright
