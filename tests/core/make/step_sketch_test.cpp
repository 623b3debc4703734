// Sketches of steps: true to the draft, legible at the size in which they are printed, and none that
// says nothing.
#include "core/make/step_sketch.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "core/draw/text.h"
#include "core/geometry/path.h"
#include "core/make/course.h"
#include "core/make/plan.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::told;

constexpr SketchRoom kRoom{.beside = 50.0, .across = 165.0};

// The sketches need names of pieces alone.
const Words& words() {
  static const Words all =
      Words::parse("make.sketch-half = {0} (half)\nmake.sketch-cut = {0} ({1} cut)\n");
  return all;
}

struct Coat {
  Pattern pattern;
  std::string told;
};
const std::vector<Coat>& coats() {
  static const std::vector<Coat> all = [] {
    std::vector<Coat> out;
    for (const StyleInfo* style : styles()) {
      for (const Choices& choices : test::pairwise(*style)) {
        auto made = make_pattern(assess(test::hard_dog("ordinary")), choices, *style);
        if (made.result) out.push_back({std::move(made.result.value()), told(*style, choices)});
      }
    }
    return out;
  }();
  return all;
}

struct Sketched {
  const Coat* coat;
  Operation step;
  StepSketch sketch;
};
// Of all steps of all of them.
const std::vector<Sketched>& sketches() {
  static const std::vector<Sketched> all = [] {
    std::vector<Sketched> out;
    for (const Coat& coat : coats()) {
      const Pattern& p = coat.pattern;
      for (const Operation& step : make_plan(p.draft).operations) {
        out.push_back({&coat, step, sketch_step(p.draft, p.cut, step, kRoom, words())});
      }
    }
    return out;
  }();
  return all;
}
template <class F>
void each_sketch(F&& f) {
  for (const Sketched& s : sketches()) f(*s.coat, s.step, s.sketch);
}

double drawn(const Drawing& drawing, Role role) {
  double sum = 0.0;
  for (const DrawItem& item : drawing.items) {
    const auto* stroke = std::get_if<StrokeItem>(&item);
    if (stroke != nullptr && stroke->role == role) sum += polyline_length(stroke->points);
  }
  return sum;
}
double all_drawn(const Drawing& drawing) {
  double sum = 0.0;
  for (const Role role : {Role::CutLine, Role::Placement, Role::SheetEdge, Role::CentreLine}) {
    sum += drawn(drawing, role);
  }
  return sum;
}

// The one piece that a step is about in the outer cloth, if it has no marks and no layer has edges of its own.
const Piece* only_piece(const Draft& draft, const Operation& step) {
  std::set<std::string> ids;
  for (const auto* list : {&step.pieces, &step.through}) {
    for (const std::string& id : *list) ids.insert(std::string(outside_of(draft, id)));
  }
  if (ids.size() != 1 || !step.marks.empty()) return nullptr;
  const Piece* piece = find_piece(draft, *ids.begin());
  for (const Piece& p : draft.pieces) {
    if (names(step.open, "mark.turning-gap")) return nullptr;
    if (outside_of(draft, p.id) == *ids.begin() && p.edges != piece->edges) return nullptr;
  }
  return piece;
}

// By another way: lengths of the draft's own curves, as parts of the whole outline.
TEST(StepSketch, HeavyAndDashedLinesAreTheirPartOfTheOutline) {
  int compared = 0, dashed = 0, in_seam = 0;
  each_sketch([&](const Coat& coat, const Operation& step, const StepSketch& sketch) {
    const Piece* const piece = only_piece(coat.pattern.draft, step);
    if (piece == nullptr || sketch.drawing.items.empty() || step.deed == Deed::Dart) return;
    double all = 0.0, heavy = 0.0, open = 0.0;
    for (const Notch& n : piece->notches) {  // a seam's own opening
      const double to = n.name == "opening-end" ? n.at_mm : n.name == "opening" ? -n.at_mm : 0.0;
      if (names(step.edges, n.edge)) heavy -= to, open += to;
    }
    in_seam += open > 0.0;
    for (const Edge& e : piece->edges) {
      const double length = arc_length(e.path, 1e-6);
      all += length;
      const bool sewn = names(step.edges, e.id), is_open = names(step.open, e.id);
      const bool stays = step.deed == Deed::MakeUp || step.deed == Deed::Enclose;
      const double part = !is_open || !stays ? 0.0 : sewn ? 1.0 / 3.0 : 1.0;
      if (sewn || is_open) heavy += (1.0 - part) * length, open += part * length;
    }
    const double whole = all_drawn(sketch.drawing);
    ASSERT_GT(whole, 0.0) << coat.told << ' ' << step.id;
    EXPECT_NEAR(drawn(sketch.drawing, Role::CutLine) / whole, heavy / all, 0.01)
        << coat.told << ' ' << step.id;
    EXPECT_NEAR(drawn(sketch.drawing, Role::Placement) / whole, open / all, 0.01)
        << coat.told << ' ' << step.id;
    ++compared;
    dashed += open > 0.0;
  });
  EXPECT_GT(compared, 100);
  EXPECT_GT(dashed, 50);
  EXPECT_GT(in_seam, 0);
}

TEST(StepSketch, TheGapIsDashedAsLongAsItsMark) {
  int gaps = 0;
  each_sketch([&](const Coat& coat, const Operation& step, const StepSketch& sketch) {
    if (step.deed != Deed::Enclose || !names(step.open, "mark.turning-gap")) return;
    double all = 0.0, gap = 0.0;
    for (const Piece& p : coat.pattern.draft.pieces) {
      if (p.id == "body") {
        for (const Edge& e : p.edges) all += arc_length(e.path, 1e-6);
      }
      for (const Mark& m : p.marks) {
        if (m.kind == MarkKind::TurningGap) gap = polyline_length(m.line);
      }
    }
    EXPECT_NEAR(drawn(sketch.drawing, Role::Placement) / all_drawn(sketch.drawing), gap / all, 0.01)
        << coat.told;
    ++gaps;
  });
  EXPECT_GT(gaps, 10);
}

TEST(StepSketch, WhateverIsSewnToEdgesOrMarksIsDrawnAndNoEmptyBoxIs) {
  std::map<Deed, int> drawn_at, left_out;
  each_sketch([&](const Coat& coat, const Operation& step, const StepSketch& sketch) {
    const bool any = !sketch.drawing.items.empty();
    ++(any ? drawn_at : left_out)[step.deed];
    const bool sews = step.deed != Deed::Turn && step.deed != Deed::Roll &&
                      step.deed != Deed::Edgestitch && step.deed != Deed::Try;
    EXPECT_EQ(any, sews && !(step.edges.empty() && step.marks.empty())) << coat.told << step.id;
    if (!any) return;
    const bool told = std::any_of(sketch.drawing.items.begin(), sketch.drawing.items.end(),
                                  [](const DrawItem& item) {
                                    const auto* stroke = std::get_if<StrokeItem>(&item);
                                    return std::holds_alternative<FillItem>(item) ||
                                           (stroke != nullptr && stroke->role == Role::CutLine);
                                  });
    EXPECT_TRUE(told) << coat.told << ' ' << step.id << ": nothing is heavy and nothing marked";
  });
  for (const Deed deed : {Deed::Dart, Deed::Join, Deed::Face, Deed::Attach, Deed::MakeUp,
                          Deed::Baste, Deed::Enclose, Deed::Close, Deed::Bind, Deed::Hem}) {
    EXPECT_GT(drawn_at[deed], 0) << static_cast<int>(deed);
  }
  EXPECT_GT(left_out[Deed::Cut], 0);
  EXPECT_GT(left_out[Deed::Try], 0);
}

TEST(StepSketch, EdgesOfOneSeamHaveOneLetterAndOthersAnother) {
  int paired = 0;
  each_sketch([&](const Coat& coat, const Operation& step, const StepSketch& sketch) {
    std::map<std::string, std::string> seam_of;
    for (const Piece& p : coat.pattern.draft.pieces) {
      for (const Edge& e : p.edges) seam_of[e.id] = e.seam.empty() ? e.id : e.seam;
    }
    for (const auto& [a, letter_a] : sketch.edges) {
      for (const auto& [b, letter_b] : sketch.edges) {
        EXPECT_EQ(letter_a == letter_b, seam_of[a] == seam_of[b])
            << coat.told << ' ' << step.id << ' ' << a << ' ' << b;
        paired += a != b && letter_a == letter_b;
      }
    }
    std::set<std::string> letters;
    for (const auto& [edge, sign] : sketch.edges) letters.insert(sign);
    EXPECT_NE(letters.size(), 1u) << "one alone tells nothing apart";
  });
  EXPECT_GT(paired, 20);
}

TEST(StepSketch, IsLegibleAndAsNarrowAsWasAsked) {
  size_t least = 100;
  each_sketch([&](const Coat& coat, const Operation& step, const StepSketch& sketch) {
    if (sketch.drawing.items.empty()) return;
    // The signs stand out beside the pieces.
    const double wide = sketch.drawing.bounds.width();
    EXPECT_TRUE(wide <= kRoom.beside + 4.0 || wide <= kRoom.across) << coat.told << step.id;
    EXPECT_LE(sketch.drawing.bounds.height(), 58.0) << coat.told << ' ' << step.id;
    std::vector<Rect> boxes;
    for (const DrawItem& item : sketch.drawing.items) {
      ASSERT_TRUE(is_finite(item)) << coat.told << ' ' << step.id;
      const auto* text = std::get_if<TextItem>(&item);
      if (text == nullptr) continue;
      EXPECT_GE(text->size_mm, 2.8);  // 8 pt
      const Rect box = inset(item_bounds(item), 0.3);
      for (const Rect& other : boxes) {
        EXPECT_FALSE(meet(box, other)) << coat.told << ' ' << step.id << ": " << text->text;
      }
      boxes.push_back(box);
    }
    least = std::min(least, boxes.size());
  });
  EXPECT_EQ(least, 1u) << "every piece has its name";
}

TEST(StepSketch, OfEverythingThatIsCutEveryOutlineIsDrawnOnceWithItsName) {
  for (const Coat& coat : coats()) {
    const Drawing all = sketch_all(coat.pattern.cut, 175.0, words());
    EXPECT_LE(all.bounds.width(), 175.5) << coat.told;
    size_t outlines = 0, named = 0;
    for (const Piece& p : coat.pattern.draft.pieces) {
      outlines += p.layer == Layer::Shell || p.layer == Layer::Webbing;
    }
    for (const DrawItem& item : all.items) named += std::holds_alternative<TextItem>(item);
    EXPECT_EQ(named, outlines) << coat.told;
  }
}

}  // namespace
}  // namespace coatwright
