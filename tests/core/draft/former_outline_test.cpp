// What the outlines of older tickets are shown to have been, against what was drafted then.
#include "core/draft/styles/former_outline.h"

#include <gtest/gtest.h>

#include <map>
#include <sstream>

#include "core/body/assess.h"
#include "core/draft/options/front.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/shaping.h"
#include "core/geometry/polygon.h"
#include "tests/core/support/population.h"
#include "tests/core/support/sheet_fixture.h"
#include "tests/support/place.h"

namespace coatwright {
namespace {

constexpr double kMoved = 0.25;  // mm; the pictures of that time have their lines to 0.1

struct Then {
  std::string style, dog, piece;
  Polyline line;
};

// tests/golden/former_front.txt: taken once from the pictures that stood here while coats were
// drafted by rule 1.
std::vector<Then> drafted_then() {
  std::vector<Then> out;
  std::istringstream file(test::file_text(tests_folder() + "/golden/former_front.txt"));
  for (std::string row; std::getline(file, row);) {
    if (row.empty() || row.front() == '#') continue;
    std::istringstream words(row);
    Then one;
    words >> one.style >> one.dog >> one.piece;
    for (Point p; words >> p.x >> p.y;) one.line.push_back(p);
    std::replace(one.dog.begin(), one.dog.end(), '-', ' ');
    out.push_back(std::move(one));
  }
  return out;
}

Body body_of(const Tape& tape) { return *assess(tape).result; }

Tape tape_of_dog(std::string dog) {
  for (const test::NamedDog& one : test::ten_dogs()) {
    std::string name = one.name;
    std::replace(name.begin(), name.end(), '-', ' ');
    if (name == dog) return one.tape;
  }
  ADD_FAILURE() << dog;
  return {};
}

double farthest(const Polyline& from, const Polyline& to) {
  double most = 0.0;
  for (const Point p : from) most = std::max(most, distance_to_polyline(to, p));
  return most;
}

const FormerOutline* of_piece(const std::vector<FormerOutline>& all, std::string_view piece) {
  for (const FormerOutline& one : all) {
    if (one.piece == piece) return &one;
  }
  return nullptr;
}

TEST(FormerOutline, IsThatOfThePicturesWhichTenDogsHadInEveryStyle) {
  const std::vector<Then> all = drafted_then();
  ASSERT_EQ(all.size(), 4 * test::ten_dogs().size());  // the underpanel coat has two pieces
  for (const Then& then : all) {
    const StyleInfo& style = *style_by_id(then.style);
    const auto now = former_outlines(style, body_of(tape_of_dog(then.dog)), {});
    const FormerOutline* outline = of_piece(now, then.piece);
    ASSERT_NE(outline, nullptr) << then.style << ' ' << then.dog;
    EXPECT_LT(std::max(farthest(outline->line, then.line), farthest(then.line, outline->line)),
              kMoved)
        << then.style << ' ' << then.dog << ' ' << then.piece;
    EXPECT_LT(distance(outline->line.front(), then.line.front()), kMoved);
    EXPECT_LT(distance(outline->line.back(), then.line.back()), kMoved);
  }
}

TEST(FormerOutline, TurnsOnNeitherOfTheMeasuresThatThereWereNotYet) {
  Tape tape = tape_of_dog("ordinary");
  const auto before = former_outlines(kWrapCoat, body_of(tape), {});
  tape.of(Measure::Throat) = {60.0};
  tape.of(Measure::GirthPlace) = {150.0};
  const auto after = former_outlines(kWrapCoat, body_of(tape), {});
  ASSERT_EQ(before.size(), 1u);
  ASSERT_EQ(after.size(), 1u);
  EXPECT_LT(farthest(before[0].line, after[0].line), 1e-6);
}

TEST(FormerOutline, FollowsWhatWasChosenThenAndNotTheHemThatThereWasNotYet) {
  const Body body = body_of(tape_of_dog("ordinary"));
  const auto usual = former_outlines(kWrapCoat, body, {});
  Choices deeper;
  deeper.set(kFrontDepth, 130.0);
  EXPECT_GT(farthest(former_outlines(kWrapCoat, body, deeper)[0].line, usual[0].line), 5.0);
  Choices wave;
  wave.set(kHemLine, static_cast<double>(HemLine::Wave));
  EXPECT_GT(farthest(former_outlines(kWrapCoat, body, wave)[0].line, usual[0].line), 5.0);
  EXPECT_LT(farthest(former_outlines(kStrapCoat, body, wave)[0].line, usual[0].line), 0.1);
  Choices belly;
  belly.set(kHemLine, static_cast<double>(HemLine::Belly));
  EXPECT_LT(farthest(former_outlines(kWrapCoat, body, belly)[0].line, usual[0].line), 1e-6);
}

TEST(FormerOutline, IsFoundForNearlyEveryDogAndIsNeverOutOfNumbers) {
  test::Dice dice(2611);
  int found = 0, asked = 0;
  for (int i = 0; i < 600; ++i) {
    const auto body = assess(test::random_dog(dice));
    if (!body.result) continue;
    for (const StyleInfo* style : styles()) {
      ++asked;
      const auto outlines = former_outlines(*style, *body.result, {});
      found += !outlines.empty();
      for (const FormerOutline& outline : outlines) {
        for (const Point p : outline.line) {
          ASSERT_TRUE(std::isfinite(p.x) && std::isfinite(p.y)) << style->id << ' ' << i;
        }
      }
    }
  }
  EXPECT_GT(found, 0.9 * asked) << found << " of " << asked;
}

}  // namespace
}  // namespace coatwright
