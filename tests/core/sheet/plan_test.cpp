// True-scale sheets: nothing is lost, neighbours agree,
// the scale check is exact, few sheets are used.
#include <gtest/gtest.h>

#include <map>
#include <set>

#include "core/draw/pen.h"
#include "core/draw/svg.h"
#include "core/draw/text.h"
#include "core/sheet/arrange.h"
#include "core/sheet/page_blocks.h"
#include "core/sheet/print.h"
#include "core/sheet/scale_check.h"
#include "core/sheet/tiles.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/sheet_fixture.h"

namespace coatwright {
namespace {

using test::items_of;
using test::pattern_of;
using test::texts_of;

const SheetNotes kNotes = {"Bosun, winter coat", "4 February 2026"};

SheetPlan planned(const Pattern& pattern, const PrintChoices& print) {
  const Result<SheetPlan> plan = plan_sheets(pattern, print, {}, test::words());
  EXPECT_TRUE(plan.ok()) << code_name(plan.ok() ? Code{} : plan.problem().code);
  return plan.ok() ? plan.value() : SheetPlan{};
}

// From the layout to sheet i's own coordinates.
Vec to_sheet(const SheetPlan& plan, size_t i) {
  const Rect& w = plan.sheets[i].window;
  return {plan.margin - w.x0, plan.margin - w.y0};
}

bool is_pattern(Role role) {
  return role == Role::CutLine || role == Role::SewnLine || role == Role::FoldLine ||
         role == Role::Grain || role == Role::NotchLine || role == Role::Placement ||
         role == Role::CentreLine || role == Role::BodyLine;
}

struct Case {
  std::string name;
  Pattern pattern;
  PrintChoices print;
};
std::vector<Case> cases() {
  std::vector<Case> all;
  for (const char* dog : {"toy", "ordinary", "long-low", "giant"}) {
    for (const char* paper : {"a4", "letter", "a3", "a0", "150x200mm"}) {
      for (const bool opened : {false, true}) {
        all.push_back({std::string(dog) + " " + paper + (opened ? " opened" : ""),
                       pattern_of(dog),
                       {.paper = paper, .opened = opened}});
      }
    }
  }
  all.push_back({"thin margins",
                 pattern_of("ordinary"),
                 {.margin = kSmallestMargin, .overlap = kSmallestOverlap}});
  all.push_back({"wide margins",
                 pattern_of("ordinary"),
                 {.margin = kLargestMargin, .overlap = kLargestOverlap}});
  all.push_back({"on its side", pattern_of("ordinary"), {.turn = Turn::Landscape}});
  all.push_back({"body lines", pattern_of("bulldog"), {.body_lines = true}});
  all.push_back(
      {"L and rectangle",
       test::pattern_with(
           {test::polygon_piece(
                "body", {{0, 0}, {500, 0}, {500, 120}, {150, 120}, {150, 480}, {0, 480}}, true),
            test::rectangle_piece("band", 400, 90)},
           10.0),
       {}});
  return all;
}

class SheetCases : public testing::Test {
 protected:
  static const std::vector<std::pair<Case, SheetPlan>>& plans() {
    static const auto made = [] {
      std::vector<std::pair<Case, SheetPlan>> all;
      for (Case& c : cases()) {
        SheetPlan plan = planned(c.pattern, c.print);
        all.emplace_back(std::move(c), std::move(plan));
      }
      return all;
    }();
    return made;
  }
};

TEST_F(SheetCases, WindowsArePaperLessMarginsAndOverlapAsAsked) {
  for (const auto& [c, plan] : plans()) {
    for (const Sheet& s : plan.sheets) {
      EXPECT_NEAR(s.window.width(), plan.sheet_width - 2.0 * c.print.margin, 1e-9) << c.name;
      EXPECT_NEAR(s.window.height(), plan.sheet_height - 2.0 * c.print.margin, 1e-9) << c.name;
    }
    for (const Join& j : plan.joins) {
      const Rect a = plan.sheets[j.first].window, b = plan.sheets[j.second].window;
      EXPECT_NEAR(j.upright ? a.x1 - b.x0 : a.y1 - b.y0, c.print.overlap, 1e-9) << c.name;
      EXPECT_NEAR(j.line, j.upright ? 0.5 * (a.x1 + b.x0) : 0.5 * (a.y1 + b.y0), 1e-9);
    }
  }
}

TEST_F(SheetCases, EveryPointOfEveryLineIsDrawnOnASheet) {
  size_t seen = 0;
  for (const auto& [c, plan] : plans()) {
    std::vector<std::vector<StrokeItem>> drawn;
    for (size_t i = 0; i < plan.sheets.size(); ++i) {
      drawn.push_back(items_of<StrokeItem>(draw_sheet(plan, i, kNotes, test::words())));
    }
    for (const StrokeItem& line : items_of<StrokeItem>(plan.layout.drawing)) {
      for (const Point p : test::samples(line.points, line.closed, 5.0)) {
        bool found = false;
        for (size_t i = 0; i < drawn.size() && !found; ++i) {
          const Vec move = to_sheet(plan, i);
          // The stroke's whole width, inside the window.
          const double half = 0.5 * pen(line.role, Ink::Paper).width;
          if (!holds(inset(plan.sheets[i].window, half), p)) continue;
          for (const StrokeItem& part : drawn[i]) {
            if (part.role != line.role || part.id != line.id) continue;
            if (test::distance_to(part.points, part.closed, p + move) < 1e-6) {
              found = true;
              break;
            }
          }
        }
        ++seen;
        ASSERT_TRUE(found) << c.name << " " << line.id << " at " << p.x << ", " << p.y;
      }
    }
  }
  EXPECT_GT(seen, 20000u);
}

TEST_F(SheetCases, EveryTextIsWholeOnASheetOrInPartsThatOverlap) {
  int whole = 0, parts = 0;
  for (const auto& [c, plan] : plans()) {
    for (const TextItem& t : items_of<TextItem>(plan.layout.drawing)) {
      const Polyline box = text_box(t);
      // A grid of points of its box: each must show on a sheet that has the text.
      for (int i = 0; i <= 12; ++i) {
        for (int j = 0; j <= 4; ++j) {
          const Point p =
              lerp(lerp(box[0], box[1], i / 12.0), lerp(box[3], box[2], i / 12.0), j / 4.0);
          bool shown = false;
          for (const Sheet& s : plan.sheets) shown |= holds(inset(s.window, 0.5), p);
          ASSERT_TRUE(shown) << c.name << ": " << t.text;
        }
      }
      bool is_whole = false;
      for (const Sheet& s : plan.sheets) is_whole |= holds(inset(s.window, 0.5), bounds(box));
      (is_whole ? whole : parts)++;
    }
  }
  EXPECT_GT(whole, 500);
  // Keeping texts off the joins works: few are split.
  EXPECT_LT(parts, whole / 20);
}

TEST_F(SheetCases, NothingIsPrintedInTheMargins) {
  size_t seen = 0;
  for (const auto& [c, plan] : plans()) {
    const Rect printable = inset({0, 0, plan.sheet_width, plan.sheet_height}, plan.margin - 1e-9);
    std::vector<Drawing> pages = draw_sheets(plan, kNotes, test::words());
    for (Drawing& page : draw_cover(plan, kNotes, test::words())) pages.push_back(std::move(page));
    for (const Drawing& page : pages) {
      for (const DrawItem& item : page.items) {
        Rect box = item_bounds(item);
        if (const auto* line = std::get_if<StrokeItem>(&item)) {
          box = inset(box, -0.5 * pen(line->role, Ink::Paper).width);
        }
        const auto* text = std::get_if<TextItem>(&item);
        if (text && text->clip) box = *text->clip;
        EXPECT_TRUE(holds(printable, box))
            << c.name << ": " << (text ? text->text : "a line") << " " << box.x0 << " " << box.y0
            << " " << box.x1 << " " << box.y1;
        ++seen;
      }
    }
  }
  EXPECT_GT(seen, 20000u);
}

TEST_F(SheetCases, NeighboursShowTheSameEdgeAtTheSamePlace) {
  size_t seen = 0;
  for (const auto& [c, plan] : plans()) {
    for (const Join& join : plan.joins) {
      const auto first = items_of<StrokeItem>(draw_sheet(plan, join.first, kNotes, test::words()));
      const auto second =
          items_of<StrokeItem>(draw_sheet(plan, join.second, kNotes, test::words()));
      const Rect a = plan.sheets[join.first].window, b = plan.sheets[join.second].window;
      // Shifting the second sheet by the distance of the windows lays it on the first.
      const Vec shift = Point{b.x0, b.y0} - Point{a.x0, a.y0};
      const Rect strip = inset(Rect{std::max(a.x0, b.x0), std::max(a.y0, b.y0),
                                    std::min(a.x1, b.x1), std::min(a.y1, b.y1)},
                               1.0);
      for (const StrokeItem& line : second) {
        if (!is_pattern(line.role)) continue;
        for (const Point p : test::samples(line.points, line.closed, 2.0)) {
          const Point in_layout = p - to_sheet(plan, join.second);
          if (!holds(strip, in_layout)) continue;
          double least = 1e300;
          for (const StrokeItem& other : first) {
            if (other.role != line.role || other.id != line.id) continue;
            least = std::min(least, test::distance_to(other.points, other.closed, p + shift));
          }
          EXPECT_LT(least, 1e-6) << c.name << " " << line.id;
          ++seen;
        }
      }
    }
  }
  EXPECT_GT(seen, 2000u);
}

TEST_F(SheetCases, DashesGoOnAcrossAJoin) {
  // A clipped line's dashes begin as far into the pattern as the part that was cut off is long.
  int seen = 0;
  for (const auto& [c, plan] : plans()) {
    for (size_t i = 0; i < plan.sheets.size(); ++i) {
      for (const StrokeItem& part :
           items_of<StrokeItem>(draw_sheet(plan, i, kNotes, test::words()))) {
        if (part.role != Role::SewnLine || part.dash_from == 0.0) continue;
        const Point start = part.points.front() - to_sheet(plan, i);
        for (const StrokeItem& line : items_of<StrokeItem>(plan.layout.drawing)) {
          if (line.role != part.role || line.id != part.id) continue;
          double along = 0.0;
          bool found = false;
          for (size_t k = 1; k < line.points.size() && !found; ++k) {
            const Polyline segment = {line.points[k - 1], line.points[k]};
            found = test::distance_to(segment, false, start) < 1e-6;
            along += found ? distance(segment[0], start) : distance(segment[0], segment[1]);
          }
          if (!found) continue;
          EXPECT_NEAR(part.dash_from, along, 1e-5) << c.name;
          ++seen;
        }
      }
    }
  }
  EXPECT_GT(seen, 100);
}

TEST_F(SheetCases, RegistrationMarksPrintOnBothNeighboursAtOnePlaceWithOneNumber) {
  size_t seen = 0;
  for (const auto& [c, plan] : plans()) {
    std::set<int> numbers;
    for (const Join& join : plan.joins) {
      ASSERT_FALSE(join.marks.empty()) << c.name;
      for (size_t k = 0; k < join.marks.size(); ++k) {
        const int number = join.first_number + static_cast<int>(k);
        EXPECT_TRUE(numbers.insert(number).second) << c.name << ": number twice";
        for (const size_t sheet : {join.first, join.second}) {
          const Drawing page = draw_sheet(plan, sheet, kNotes, test::words());
          const Point at = join.marks[k] + to_sheet(plan, sheet);
          int circles = 0, texts = 0;
          for (const StrokeItem& line : items_of<StrokeItem>(page)) {
            if (line.role != Role::Register || !line.closed) continue;
            const Rect box = bounds(line.points);
            circles +=
                std::hypot(0.5 * (box.x0 + box.x1) - at.x, 0.5 * (box.y0 + box.y1) - at.y) < 1e-6;
          }
          for (const TextItem& t : items_of<TextItem>(page)) {
            texts += t.text == std::to_string(number) && distance(t.at, at) < 12.0;
          }
          EXPECT_EQ(circles, 1) << c.name;
          EXPECT_EQ(texts, 1) << c.name << " number " << number;
          ++seen;
        }
      }
    }
  }
  EXPECT_GT(seen, 1000u);
}

TEST_F(SheetCases, EveryPageHasLinesOfExactly100MillimetresAnd4InchesInBothAxes) {
  size_t pages_seen = 0;
  for (const auto& [c, plan] : plans()) {
    std::vector<Drawing> pages = draw_sheets(plan, kNotes, test::words());
    for (Drawing& page : draw_cover(plan, kNotes, test::words())) pages.push_back(std::move(page));
    for (const Drawing& page : pages) {
      std::map<std::string, Vec> found;
      for (const StrokeItem& line : items_of<StrokeItem>(page)) {
        if (!line.id.starts_with("check-")) continue;
        ASSERT_EQ(line.points.size(), 2u);
        EXPECT_TRUE(found.emplace(line.id, line.points[1] - line.points[0]).second);
      }
      ASSERT_EQ(found.size(), 4u) << c.name;
      EXPECT_NEAR(std::abs(found["check-100mm-x"].x), 100.0, 1e-9);
      EXPECT_EQ(found["check-100mm-x"].y, 0.0);
      EXPECT_NEAR(std::abs(found["check-100mm-y"].y), 100.0, 1e-9);
      EXPECT_EQ(found["check-100mm-y"].x, 0.0);
      EXPECT_NEAR(std::abs(found["check-4in-x"].x), 101.6, 1e-9);
      EXPECT_EQ(found["check-4in-x"].y, 0.0);
      EXPECT_NEAR(std::abs(found["check-4in-y"].y), 101.6, 1e-9);
      EXPECT_EQ(found["check-4in-y"].x, 0.0);
      ++pages_seen;
    }
  }
  EXPECT_GT(pages_seen, 300u);
}

TEST_F(SheetCases, TheChecksTicksStandEveryFiveMillimetresAndEveryQuarterInch) {
  DrawItems items;
  draw_check({{50.0, 150.0}, false, true}, items);
  std::map<std::string, StrokeItem> rulers;
  for (const DrawItem& item : items) {
    if (const auto* line = std::get_if<StrokeItem>(&item)) {
      if (!line->id.empty()) rulers[line->id] = *line;
    }
  }
  ASSERT_EQ(rulers.size(), 4u);
  for (const auto& [id, ruler] : rulers) {
    const Point from = ruler.points[0];
    const Vec along = unit(ruler.points[1] - from);
    const double step = id.starts_with("check-4in") ? 6.35 : 5.0;
    std::set<int> found;
    for (const DrawItem& item : items) {
      const auto* tick = std::get_if<StrokeItem>(&item);
      if (tick == nullptr || !tick->id.empty()) continue;
      const Vec there = tick->points[0] - from;
      if (std::abs(cross(along, there)) > 1e-9) continue;  // it stands on another ruler
      const double steps = dot(along, there) / step;
      if (steps < -1e-9) continue;
      EXPECT_NEAR(steps, std::round(steps), 1e-9) << id;
      found.insert(static_cast<int>(std::round(steps)));
    }
    EXPECT_EQ(*found.rbegin(), id.starts_with("check-4in") ? 16 : 20) << id;
    EXPECT_GE(found.size(), 17u) << id;
  }
}

TEST_F(SheetCases, AJoinNamesTheSheetThatIsLaidThere) {
  int seen = 0;
  for (const auto& [c, plan] : plans()) {
    for (const Join& join : plan.joins) {
      const Sheet &first = plan.sheets[join.first], &second = plan.sheets[join.second];
      const std::string lay =
          test::words()("sheet.lay-here", {sheet_label(second.row, second.column)});
      EXPECT_EQ(join.upright ? second.column - first.column : second.row - first.row, 1);
      const Drawing drawing = draw_sheet(plan, join.first, kNotes, test::words());
      const Vec shift = to_sheet(plan, join.first);
      bool beside = false;
      for (const TextItem& t : items_of<TextItem>(drawing)) {
        if (t.text != lay) continue;
        const double off =
            join.upright ? t.at.x - shift.x - join.line : t.at.y - shift.y - join.line;
        beside = beside || (off > 0.0 && off < plan.overlap);
      }
      EXPECT_TRUE(beside) << c.name << ' ' << lay;
      ++seen;
    }
  }
  EXPECT_GT(seen, 100);
}

TEST_F(SheetCases, TheScaleCheckStandsOnNothingWhereThereIsRoom) {
  int clear = 0, all = 0;
  for (const auto& [c, plan] : plans()) {
    if (plan.paper.width < 200.0) continue;
    for (const Sheet& s : plan.sheets) {
      bool free = true;
      for (const Rect& box : check_boxes({s.check_at, s.check_left, s.check_up})) {
        for (const StrokeItem& line : items_of<StrokeItem>(plan.layout.drawing)) {
          free = free && clipped(line, box).empty();
        }
      }
      clear += free;
      ++all;
    }
  }
  // An A4 sheet in the middle of a piece always has room; one along a curve may not.
  EXPECT_GT(clear, 0.7 * all) << clear << " of " << all;
}

TEST_F(SheetCases, EachSheetSaysTicketPiecesPlaceScaleAndDateOnce) {
  for (const auto& [c, plan] : plans()) {
    for (size_t i = 0; i < plan.sheets.size(); ++i) {
      const Sheet& s = plan.sheets[i];
      const Drawing page = draw_sheet(plan, i, kNotes, test::words());
      const std::vector<std::string> texts = texts_of(page);
      const auto count = [&](const std::string& text) {
        return std::count(texts.begin(), texts.end(), text);
      };
      EXPECT_EQ(count(kNotes.ticket), 1) << c.name;
      EXPECT_EQ(count(kNotes.date), 1) << c.name;
      EXPECT_EQ(count(sheet_label(s.row, s.column)), 1) << c.name;
      EXPECT_EQ(count("100 mm"), 2) << c.name;  // one along each arm
      EXPECT_EQ(count("4 in"), 2) << c.name;
      EXPECT_EQ(count(test::words()("sheet.at-scale")), 1) << c.name;
      EXPECT_EQ(count(test::words()("sheet.place",
                                    {row_label(s.row), std::to_string(s.column + 1),
                                     std::to_string(i + 1), std::to_string(plan.sheets.size())})),
                1)
          << c.name;
      for (const size_t piece : s.pieces) {
        const std::string name = test::words()("piece." + plan.layout.placed[piece].id);
        EXPECT_TRUE(std::any_of(texts.begin(), texts.end(), [&](const std::string& t) {
          return t.find(name) != std::string::npos;
        })) << c.name;
      }
      // No text twice at one place.
      const auto items = items_of<TextItem>(page);
      for (size_t k = 0; k < items.size(); ++k) {
        for (size_t m = k + 1; m < items.size(); ++m) {
          EXPECT_FALSE(items[k].text == items[m].text && distance(items[k].at, items[m].at) < 1.0);
        }
      }
    }
  }
}

TEST_F(SheetCases, NoSheetCanBeLeftOut) {
  // Each sheet shows some line or part of a piece that no other shows, or joins two that touch only
  // at a corner.
  int joining = 0;
  for (const auto& made : plans()) {
    const SheetPlan& plan = made.second;
    for (size_t i = 0; i < plan.sheets.size(); ++i) {
      const auto elsewhere = [&](Point p) {
        for (size_t k = 0; k < plan.sheets.size(); ++k) {
          if (k != i && holds(inset(plan.sheets[k].window, 1.0), p)) return true;
        }
        return false;
      };
      bool needed = false;
      const auto look = [&](Point p) {
        needed = needed || (holds(plan.sheets[i].window, p) && !elsewhere(p));
      };
      for (const StrokeItem& line : items_of<StrokeItem>(plan.layout.drawing)) {
        for (const Point p : test::samples(line.points, line.closed, 0.5)) look(p);
      }
      for (const TextItem& t : items_of<TextItem>(plan.layout.drawing)) {
        for (const Point p : test::samples(text_box(t), true, 0.5)) look(p);
      }
      const Rect w = plan.sheets[i].window;
      for (const PlacedPiece& piece : plan.layout.placed) {
        for (double x = w.x0; x <= w.x1 && !needed; x += 4.0) {
          for (double y = w.y0; y <= w.y1 && !needed; y += 4.0) {
            if (test::is_inside(piece.cut, {x, y})) look({x, y});
          }
        }
      }
      if (!needed) ++joining;
    }
  }
  EXPECT_LE(joining, 2);
}

TEST_F(SheetCases, TheSheetsOfAPieceAreJoinedSideBySide) {
  for (const auto& [c, plan] : plans()) {
    for (size_t piece = 0; piece < plan.layout.placed.size(); ++piece) {
      std::set<size_t> on, reached;
      for (size_t i = 0; i < plan.sheets.size(); ++i) {
        const auto& pieces = plan.sheets[i].pieces;
        if (std::find(pieces.begin(), pieces.end(), piece) != pieces.end()) on.insert(i);
      }
      ASSERT_FALSE(on.empty()) << c.name;
      reached.insert(*on.begin());
      for (size_t round = 0; round < plan.joins.size(); ++round) {
        for (const Join& j : plan.joins) {
          if (!on.contains(j.first) || !on.contains(j.second)) continue;
          if (reached.contains(j.first)) reached.insert(j.second);
          if (reached.contains(j.second)) reached.insert(j.first);
        }
      }
      EXPECT_EQ(reached, on) << c.name;
    }
  }
}

TEST_F(SheetCases, PiecesDoNotOverlapInTheLayout) {
  for (const auto& [c, plan] : plans()) {
    const auto& placed = plan.layout.placed;
    for (size_t i = 0; i < placed.size(); ++i) {
      for (size_t j = 0; j < placed.size(); ++j) {
        if (i == j) continue;
        for (const Point p : test::samples(placed[i].cut, true, 2.0)) {
          ASSERT_FALSE(test::is_inside(placed[j].cut, p)) << c.name;
          ASSERT_GT(test::distance_to(placed[j].cut, true, p), 4.0) << c.name;
        }
      }
    }
  }
}

TEST_F(SheetCases, PiecesKeepTheirSizeAndShape) {
  for (const auto& [c, plan] : plans()) {
    for (const PlacedPiece& placed : plan.layout.placed) {
      const CutPiece* cut = c.pattern.cut.find(placed.id);
      ASSERT_NE(cut, nullptr);
      const Polyline& outline = c.print.opened ? opened(*cut).cut : cut->cut;
      ASSERT_EQ(outline.size(), placed.cut.size());
      for (size_t i = 1; i < outline.size(); ++i) {
        ASSERT_NEAR(distance(outline[0], outline[i]), distance(placed.cut[0], placed.cut[i]), 1e-9);
      }
      // Turned, not mirrored.
      EXPECT_NEAR(signed_area(outline), signed_area(placed.cut), 1e-6);
    }
  }
}

TEST_F(SheetCases, RowsAndColumnsCountFromTheFirstSheet) {
  for (const auto& [c, plan] : plans()) {
    int rows = 0, columns = 0, least_row = 99, least_column = 99;
    for (size_t i = 0; i < plan.sheets.size(); ++i) {
      const Sheet& s = plan.sheets[i];
      rows = std::max(rows, s.row + 1);
      columns = std::max(columns, s.column + 1);
      least_row = std::min(least_row, s.row);
      least_column = std::min(least_column, s.column);
      if (i > 0) {
        const Sheet& before = plan.sheets[i - 1];
        EXPECT_TRUE(before.row < s.row || (before.row == s.row && before.column < s.column));
      }
    }
    EXPECT_EQ(least_row, 0) << c.name;
    EXPECT_EQ(least_column, 0) << c.name;
    EXPECT_EQ(plan.rows, rows) << c.name;
    EXPECT_EQ(plan.columns, columns) << c.name;
  }
}

TEST(Sheets, BlankOnesAreSkipped) {
  int skipped = 0;
  for (const char* dog : {"ordinary", "giant"}) {
    const SheetPlan plan = planned(pattern_of(dog), {});
    skipped += plan.rows * plan.columns - static_cast<int>(plan.sheets.size());
  }
  EXPECT_GT(skipped, 0);
}

TEST(Sheets, TheTurnChosenNeedsNoMoreSheetsThanEither) {
  int seen = 0;
  for (const test::NamedDog& dog : test::sheet_dogs()) {
    const Pattern pattern = make_pattern(assess(dog.tape), {}).result.value();
    for (const char* paper : {"a4", "letter", "a3"}) {
      const size_t fewest = planned(pattern, {.paper = paper}).sheets.size();
      const size_t upright =
          planned(pattern, {.paper = paper, .turn = Turn::Portrait}).sheets.size();
      const size_t side = planned(pattern, {.paper = paper, .turn = Turn::Landscape}).sheets.size();
      EXPECT_LE(fewest, std::min(upright, side)) << dog.name << " " << paper;
      ++seen;
    }
  }
  EXPECT_GT(seen, 50);
}

TEST(Sheets, AForcedTurnIsKept) {
  const Pattern pattern = pattern_of("ordinary");
  const SheetPlan upright = planned(pattern, {.turn = Turn::Portrait});
  EXPECT_FALSE(upright.landscape);
  EXPECT_EQ(upright.sheet_width, 210.0);
  const SheetPlan side = planned(pattern, {.turn = Turn::Landscape});
  EXPECT_TRUE(side.landscape);
  EXPECT_EQ(side.sheet_width, 297.0);
  EXPECT_EQ(side.sheet_height, 210.0);
}

// (x, y) goes to (height - y, x): pieces, turned and shifted, stay to each other as they were.
TEST(Sheets, AQuarterTurnTurnsEveryPieceTogether) {
  const TileGrid grid{190, 277, 10};
  const Arrangement before{.places = {{0, {12.0, -7.0}}, {1, {150.0, 40.0}}, {3, {-20.0, 300.0}}}};
  const Arrangement after = quarter_turned(before, grid);
  ASSERT_EQ(after.places.size(), before.places.size());
  for (size_t i = 0; i < before.places.size(); ++i) {
    for (const Point p : {Point{0, 0}, Point{35, 0}, Point{11, 64}}) {
      const Point was = placed(p, before.places[i]), is = placed(p, after.places[i]);
      EXPECT_NEAR(is.x, grid.height - was.y, 1e-9);
      EXPECT_NEAR(is.y, was.x, 1e-9);
    }
  }
}

TEST(Sheets, PiecesThatFitOnOneSheetGoOnOne) {
  for (const bool turned : {false, true}) {
    const double w = turned ? 250.0 : 150.0, h = turned ? 150.0 : 250.0;
    const SheetPlan plan =
        planned(test::pattern_with({test::rectangle_piece("band", w - 20.0, h - 20.0)}, 10.0), {});
    EXPECT_EQ(plan.sheets.size(), 1u);
    EXPECT_EQ(plan.landscape, turned);
  }
  EXPECT_EQ(planned(pattern_of("giant"), {.paper = "a0"}).sheets.size(), 1u);
}

TEST(Sheets, ASheetThatHoldsAllAndTheCautionsNeedsNoCover) {
  for (const char* dog : {"toy", "ordinary"}) {
    const SheetPlan one =
        planned(pattern_of(dog), {.paper = dog == std::string("toy") ? "420x594mm" : "a0"});
    ASSERT_EQ(one.sheets.size(), 1u);
    EXPECT_EQ(draw_sheets(one, kNotes, test::words()).size(), 1u) << dog;
  }
  const SheetPlan many = planned(pattern_of("giant"), {});
  EXPECT_EQ(draw_sheets(many, kNotes, test::words()).size(), many.sheets.size() + 1);
}

// How often a text of the drawing begins a caution.
int cautions_on(const Drawing& page) {
  const std::string head = test::words()("cover.cautions");
  const auto texts = items_of<TextItem>(page);
  return static_cast<int>(
      std::count_if(texts.begin(), texts.end(), [&](const TextItem& t) { return t.text == head; }));
}

TEST(Sheets, TheCautionsAreOnEveryPrintOnceAndClearOfThePieces) {
  int beside = 0, covers = 0;
  for (const char* paper : {"a4", "a3", "420x594mm", "594x841mm", "a0"}) {
    for (const auto& dog : test::hard_dogs()) {
      const auto made = make_pattern(assess(dog.tape), {});
      if (!made.result.ok()) continue;
      const SheetPlan plan = planned(*made.result, {.paper = paper});
      const auto pages = draw_sheets(plan, kNotes, test::words());
      int told = 0;
      for (const Drawing& page : pages) told += cautions_on(page);
      EXPECT_EQ(told, 1) << dog.name << ' ' << paper;
      if (pages.size() > 1) {
        ++covers;
        continue;
      }
      ++beside;
      for (const PlacedBlock& block : blocks_beside_pieces(plan, test::words())) {
        DrawItems items;
        Column column(block.area, items);
        block.block(column, plan, test::words());
        for (const DrawItem& item : items) {
          const Rect box = item_bounds(item);
          EXPECT_TRUE(holds(plan.sheets[0].window, box));
          for (const PlacedPiece& piece : plan.layout.placed) {
            for (const Point corner : {Point{box.x0, box.y0}, Point{box.x1, box.y0},
                                       Point{box.x1, box.y1}, Point{box.x0, box.y1}}) {
              EXPECT_FALSE(contains(piece.cut, corner)) << dog.name << ' ' << paper;
            }
            for (const Point p : piece.cut) EXPECT_FALSE(holds(box, p)) << dog.name << ' ' << paper;
          }
        }
      }
    }
  }
  EXPECT_GT(beside, 5);
  EXPECT_GT(covers, 5);
}

TEST(Sheets, ABlockBesideThePiecesTakesTheAreaThatWasFoundForIt) {
  int blocks = 0;
  for (const char* dog : {"toy", "ordinary", "long-low", "giant"}) {
    const SheetPlan plan = planned(pattern_of(dog), {.paper = "a0"});
    if (plan.sheets.size() != 1) continue;
    for (const PlacedBlock& beside : blocks_beside_pieces(plan, test::words())) {
      DrawItems items;
      Column column(beside.area, items);
      beside.block(column, plan, test::words());
      double lowest = beside.area.y0;
      for (const DrawItem& item : items) {
        EXPECT_TRUE(holds(inset(beside.area, -1.0), item_bounds(item)));
        lowest = std::max(lowest, item_bounds(item).y1);
      }
      EXPECT_GT(lowest, beside.area.y1 - 6.0) << "nor does it take more";
      ++blocks;
    }
  }
  EXPECT_GE(blocks, 6);
}

TEST(Sheets, TheCautionsAreOnThePrintOfEveryCoatOnEverySmallPaper) {
  int seen = 0;
  for (const StyleInfo* style : styles()) {
    for (const Choices& choices : test::asked_of(test::pairwise(*style))) {
      const auto made =
          make_pattern(assess(test::hard_dog(seen % 2 == 0 ? "toy" : "ordinary")), choices, *style);
      if (!made.result.ok()) continue;
      for (const Turn turn : {Turn::Portrait, Turn::Landscape}) {
        const char* paper = seen % 3 == 0 ? "letter" : "a4";
        const SheetPlan plan = planned(*made.result, {.paper = paper, .turn = turn});
        int told = 0;
        for (const Drawing& page : draw_sheets(plan, kNotes, test::words())) {
          told += cautions_on(page);
        }
        EXPECT_EQ(told, 1) << style->id << ' ' << seen << ' ' << paper;
        ++seen;
      }
    }
  }
  EXPECT_GT(seen, test::asked(60));
}

// The texts of pages, spaces left out: a line may break between any two words.
std::string all_texts(const std::vector<Drawing>& pages) {
  std::string out;
  for (const Drawing& page : pages) {
    for (const TextItem& t : items_of<TextItem>(page)) out += t.text;
  }
  std::erase(out, ' ');
  return out;
}
bool has(const std::string& all, std::string part) {
  std::erase(part, ' ');
  return all.find(part) != std::string::npos;
}

// The longest cut list of each style, on the smallest paper that there is, on narrow sheets and on
// ordinary ones, with the longest names.
TEST(Sheets, TheCoverDropsNothingAndOnlyAddsPagesWhereOneIsTooSmall) {
  // As many of the widest letters as a dog's and a coat's name may have, in words that a line holds.
  std::string names;
  for (int word = 0; word < 12; ++word) names += "WMWMWMWMW ";
  names.replace(59, 1, ", ").pop_back();
  const SheetNotes longest{names, "24 November 2026"};
  int more = 0, one = 0;
  size_t most_pages = 0;
  for (const StyleInfo* style : styles()) {
    Choices most;
    size_t pieces = 0;
    for (const Choices& choices : test::pairwise(*style)) {
      const auto made = make_pattern(assess(test::hard_dog("ordinary")), choices, *style);
      if (!made.result.ok() || made.result->cut.pieces.size() <= pieces) continue;
      pieces = made.result->cut.pieces.size();
      most = choices;
    }
    EXPECT_GT(pieces, 8U) << style->id;
    const Pattern pattern = *make_pattern(assess(test::hard_dog("ordinary")), most, *style).result;
    for (const char* paper :
         {"140x140mm", "140x400mm", "148x210mm", "a4", "letter", "legal", "a3", "tabloid"}) {
      ASSERT_TRUE(paper_by_id(paper).ok()) << paper;
      for (const Turn turn : {Turn::Portrait, Turn::Landscape}) {
        const SheetPlan plan = planned(pattern, {.paper = paper, .turn = turn});
        const std::vector<Drawing> cover = draw_cover(plan, longest, test::words());
        (cover.size() > 1 ? more : one)++;
        most_pages = std::max(most_pages, cover.size());
        const std::string texts = all_texts(cover);
        EXPECT_TRUE(has(texts, longest.ticket)) << paper;
        for (const PlacedPiece& piece : plan.layout.placed) {
          EXPECT_TRUE(has(texts, test::words()("piece." + piece.id))) << paper << ' ' << piece.id;
          for (const std::string& count : piece.cut_counts) EXPECT_TRUE(has(texts, count)) << paper;
        }
        for (const Sheet& sheet : plan.sheets) {
          EXPECT_TRUE(has(texts, sheet_label(sheet.row, sheet.column)));
        }
        for (const char* key : kCautions)
          EXPECT_TRUE(has(texts, test::words()(key))) << paper << ' ' << key;
        for (const char* key : {"cover.step.1", "cover.step.2", "cover.step.3", "cover.step.4",
                                "cover.key.cut", "cover.key.join"}) {
          EXPECT_TRUE(has(texts, test::words()(key))) << paper << ' ' << key;
        }
        const Rect printable = inset({0, 0, plan.sheet_width, plan.sheet_height}, plan.margin);
        for (const Drawing& page : cover) {
          std::vector<Rect> boxes;
          for (const TextItem& t : items_of<TextItem>(page)) {
            const Rect box = bounds(text_box(t));
            EXPECT_TRUE(holds(printable, box)) << paper << ' ' << t.text;
            for (const Rect& other : boxes) {
              EXPECT_FALSE(meet(inset(box, 0.3), inset(other, 0.3))) << paper << ' ' << t.text;
            }
            boxes.push_back(box);
          }
        }
      }
    }
  }
  EXPECT_LE(most_pages, 8U) << "on squares of 140 mm";
  EXPECT_GT(more, 8);
  EXPECT_GT(one, 5);
}

TEST(Sheets, ABandGoesIntoTheRoomTheBodyLeaves) {
  // 300 x 380 mm on sheets of 184.6 x 271.6 mm with 15 mm shared needs 2 x 2; a band of 100 x 60 mm
  // fits beside it on the same four.
  const Pattern alone = test::pattern_with({test::rectangle_piece("body", 280.0, 360.0)}, 10.0);
  const Pattern both = test::pattern_with(
      {test::rectangle_piece("body", 280.0, 360.0), test::rectangle_piece("band", 100.0, 30.0)},
      10.0);
  EXPECT_EQ(planned(alone, {}).sheets.size(), 4u);
  EXPECT_EQ(planned(both, {}).sheets.size(), 4u);
}

TEST(Sheets, ARectangleTakesAsManySheetsAsItsSidesAreLong) {
  // n windows of 184.6 x 271.6 mm in a row, 15 mm shared, show n * 169.6 + 13 by n * 256.6 + 13 mm,
  // 1 mm at each edge left for the line's own width. Either side may lie along the page.
  struct Row {
    double width, height;
    size_t sheets;
  };
  for (const Row& r : {Row{180, 267, 1}, Row{185, 267, 2}, Row{349, 267, 2}, Row{356, 267, 3},
                       Row{349, 522, 4}, Row{349, 530, 6}}) {
    const Pattern pattern =
        test::pattern_with({test::rectangle_piece("body", r.width - 20, r.height - 20)}, 10.0);
    EXPECT_EQ(planned(pattern, {}).sheets.size(), r.sheets) << r.width << " x " << r.height;
  }
}

TEST(Sheets, ChoicesThatCannotBePrintedAreRefusedByName) {
  const Pattern pattern = pattern_of("toy");
  const auto problem = [&](const PrintChoices& print) {
    const auto plan = plan_sheets(pattern, print, {}, test::words());
    EXPECT_FALSE(plan.ok());
    return plan.ok() ? Problem{} : plan.problem();
  };
  EXPECT_EQ(problem({.paper = "papyrus"}).code, Code::PaperUnknown);
  EXPECT_EQ(problem({.paper = "100x100mm"}).code, Code::PaperTooSmall);
  EXPECT_EQ(problem({.paper = "100x100mm"}).values[2], kSmallestWindow + 2 * 12.7);
  const double nan = std::nan("");
  for (const double margin : {-1.0, 2.9, 40.1, 1e300, nan}) {
    EXPECT_EQ(problem({.margin = margin}).code, Code::SheetChoiceOutOfRange) << margin;
    EXPECT_EQ(problem({.margin = margin}).subject, "sheet-margin");
  }
  for (const double overlap : {-1.0, 0.0, 9.9, 40.1, nan}) {
    EXPECT_EQ(problem({.overlap = overlap}).code, Code::SheetChoiceOutOfRange) << overlap;
    EXPECT_EQ(problem({.overlap = overlap}).subject, "sheet-overlap");
  }
}

TEST(Sheets, TheSmallestPaperHasRoomForEverythingAndTooManySheetsAreRefused) {
  const SheetPlan plan = planned(pattern_of("toy"), {.paper = "120x120mm", .margin = 3.0});
  for (const Drawing& page : draw_sheets(plan, kNotes, test::words())) {
    EXPECT_FALSE(page.items.empty());
  }
  const Pattern huge = test::pattern_with({test::rectangle_piece("body", 3000.0, 3000.0)}, 10.0);
  const auto refused = plan_sheets(huge, {.paper = "120x120mm", .margin = 3.0}, {}, test::words());
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.problem().code, Code::SheetsTooMany);
  EXPECT_GT(refused.problem().values[0], refused.problem().values[1]);
}

TEST(Sheets, TheSameChoicesGiveTheSameSheets) {
  for (const char* dog : {"toy", "giant"}) {
    const auto made = [&] {
      const SheetPlan plan = planned(pattern_of(dog), {});
      return sheets_svg(draw_sheets(plan, kNotes, test::words()), plan.sheet_width,
                        plan.sheet_height, "Bosun");
    };
    EXPECT_EQ(made(), made()) << dog;
  }
}

TEST(Sheets, LabelsGoOnBehindZ) {
  EXPECT_EQ(sheet_label(0, 0), "A1");
  EXPECT_EQ(sheet_label(1, 2), "B3");
  EXPECT_EQ(sheet_label(25, 9), "Z10");
  EXPECT_EQ(sheet_label(26, 0), "AA1");
  EXPECT_EQ(sheet_label(51, 0), "AZ1");
  EXPECT_EQ(sheet_label(52, 0), "BA1");
}

TEST(Tiles, ZonesOfOneWindowNeedThatWindow) {
  const TileGrid grid{100, 100, 20};
  ZoneMap zones(grid, {30, 30, 60, 60});
  zones.mark_rect({30, 30, 60, 60}, 1);
  EXPECT_EQ(zones.cover({}), (std::vector<Tile>{{0, 0}}));
  EXPECT_TRUE(zones.cover({{0, 0}}).empty());
}

TEST(Tiles, AStripIsShownByEitherNeighbour) {
  const TileGrid grid{100, 100, 20};
  // x 85..95 is in the strip that windows 0 and 1 share.
  ZoneMap zones(grid, {85, 30, 95, 60});
  zones.mark_rect({85, 30, 95, 60}, 1);
  EXPECT_EQ(zones.cover({}).size(), 1u);
  EXPECT_TRUE(zones.cover({{0, 1}}).empty());
  EXPECT_TRUE(zones.cover({{0, 0}}).empty());
  EXPECT_EQ(zones.cover({{3, 3}}).size(), 1u);
}

TEST(Tiles, NegativeCoordinatesAreCountedLikeOthers) {
  const TileGrid grid{100, 100, 20};
  for (int k = -3; k <= 3; ++k) {
    const Rect middle = inset(grid.window(k, k), 30.0);
    ZoneMap zones(grid, middle);
    zones.mark_rect(middle, 1);
    EXPECT_EQ(zones.cover({}), (std::vector<Tile>{{k, k}})) << k;
  }
}

TEST(Tiles, TheInsideOfAnAreaCountsAndTheOutsideDoesNot) {
  const TileGrid grid{100, 100, 20};
  // An L over windows of a 4 x 4 grid: the inner corner stays free.
  const Polyline l = {{10, 10}, {330, 10}, {330, 90}, {90, 90}, {90, 330}, {10, 330}};
  ZoneMap zones(grid, bounds(l));
  zones.mark_area(l, 1);
  for (const Tile& t : zones.cover({})) EXPECT_TRUE(t.row == 0 || t.column == 0);
  ZoneMap frame(grid, {0, 0, 340, 340});
  frame.mark_area({{5, 5}, {335, 5}, {335, 335}, {5, 335}}, 1);
  EXPECT_EQ(frame.cover({}).size(), 16u);
  ZoneMap line(grid, {0, 0, 340, 340});
  line.mark_line({{5, 5}, {335, 5}, {335, 335}, {5, 335}}, true, kInkBit);
  EXPECT_EQ(line.cover({}).size(), 12u);
}

// Whichever way it bends: of a piece over three windows of a square the fourth stays out.
TEST(Tiles, SheetsJoinedSideBySideNeedNoOther) {
  const TileGrid grid{100, 100, 20};
  const Point upper_left{50, 50}, upper_right{130, 50}, lower_left{50, 130}, lower_right{130, 130};
  const std::vector<Polyline> bends = {{lower_left, upper_left, upper_right},
                                       {upper_left, upper_right, lower_right},
                                       {upper_right, lower_right, lower_left},
                                       {lower_right, lower_left, upper_left}};
  for (const Polyline& line : bends) {
    ZoneMap piece(grid, bounds(line));
    piece.mark_line(line, false, 1);
    EXPECT_EQ(piece.cover({}).size(), 3u);
  }
}

// Where the bend ends it touches another window at a corner: that is seen whichever way the bend went.
TEST(Tiles, ACornerBehindABendIsJoinedToo) {
  const TileGrid grid{100, 100, 20};
  for (const double right : {1.0, -1.0}) {
    for (const double down : {1.0, -1.0}) {
      // About the middle of a window; 80 is a step.
      Polyline line = {{80, -80}, {80, 0}, {0, 0}, {-40, 40}, {-80, 80}};
      for (Point& p : line) p = {50.0 + right * p.x, 50.0 + down * p.y};
      ZoneMap piece(grid, bounds(line));
      piece.mark_line(line, false, 1);
      EXPECT_EQ(piece.cover({}).size(), 5u) << right << ' ' << down;
    }
  }
}

TEST(Tiles, SheetsThatTouchAtACornerAreJoinedByAThird) {
  const TileGrid grid{100, 100, 20};
  // From the middle of (0,0) to the middle of (1,1), through the corner that four windows share.
  const Polyline line = {{50, 50}, {90, 90}, {130, 130}};
  ZoneMap piece(grid, bounds(line));
  piece.mark_line(line, false, 1);
  EXPECT_EQ(piece.cover({}).size(), 3u);
  ZoneMap ink(grid, bounds(line));
  ink.mark_line(line, false, kInkBit);
  EXPECT_EQ(ink.cover({}).size(), 2u);
}

}  // namespace
}  // namespace coatwright
