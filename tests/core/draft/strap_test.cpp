// The girth strap of webbing: its length, its turned ends, its place, its width.
#include "core/draft/options/strap.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/draft/options/opening.h"
#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/choices.h"
#include "tests/core/support/option_checks.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

Pattern pattern_of(const char* dog, const Choices& choices = {}) {
  auto made = make_pattern(assess(test::hard_dog(dog)), choices, kStrapCoat);
  EXPECT_TRUE(made.result.ok());
  return *made.result;
}

const Notion* webbing(const Draft& d) {
  const auto found = std::find_if(d.notions.begin(), d.notions.end(),
                                  [](const Notion& n) { return n.kind == NotionKind::Webbing; });
  return found == d.notions.end() ? nullptr : &*found;
}

Choices with(const ChoiceInfo& choice, double value) {
  Choices c;
  c.set(choice, value);
  return c;
}

// A dog that is as thick everywhere from the girth line to the last rib, so that the sum is plain.
TEST(Strap, ItsLengthIsTheGirthLessOneSideWithEaseLapAndHalfTheOverlap) {
  Tape barrel = test::five(300, 230, 400, 150, 360);
  barrel.of(Measure::Loin) = {400};
  Choices c;
  c.set(kChestEase, 20.0);
  c.set(kStrapOverlap, 50.0);
  const auto made = make_pattern(assess(barrel), c, kStrapCoat);
  ASSERT_TRUE(made.result.ok());
  const Draft& d = made.result->draft;
  const Rect strap = bounds(made.result->cut.find("strap")->net);
  // 400 + 20 round; the body covers 150 on each side, the strap all but the side it is sewn to.
  EXPECT_NEAR(strap.width() - d.band->attach, 400.0 + 20.0 - 150.0 + 25.0, 0.01);
}

TEST(Strap, WebbingIsCutLongerByBothTurnedEndsAndNoWiderThanItIsSold) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const Pattern p = pattern_of(dog.name.c_str());
    const CutPiece& strap = *p.cut.find("strap");
    const Rect net = bounds(strap.net), cut = bounds(strap.cut);
    EXPECT_NEAR(cut.width() - net.width(), 30.0, 1e-6) << dog.name;
    EXPECT_NEAR(cut.height(), net.height(), 1e-9) << dog.name;
    const Notion* notion = webbing(p.draft);
    ASSERT_NE(notion, nullptr);
    EXPECT_NEAR(notion->length_mm, cut.width(), 1e-6) << dog.name;
    EXPECT_NEAR(notion->width_mm, cut.height(), 1e-9) << dog.name;
    EXPECT_EQ(find_piece(p.draft, "strap.lining"), nullptr);
  }
}

TEST(Strap, ItsPlaceOnTheBodyIsAsWideAsTheStrapOnBothSides) {
  const Pattern p = pattern_of("toy");
  int seen = 0;
  for (const Mark& m : find_piece(p.draft, "body")->marks) {
    if (m.label != "mark.strap-attach" && m.label != "mark.strap-loop") continue;
    EXPECT_NEAR(bounds(m.line).width(), webbing(p.draft)->width_mm, 1e-9) << m.label;
    ++seen;
  }
  EXPECT_EQ(seen, 2);
}

TEST(Strap, AWidthThatDoesNotFitIsMadeTheWidestThatDoesAndSaysSo) {
  const Tape tiny = test::scaled(test::hard_dog("toy"), 0.7);
  const auto made = make_pattern(assess(tiny), with(kStrapWidth, 7), kStrapCoat);
  ASSERT_TRUE(made.result.ok());
  EXPECT_LT(webbing(made.result->draft)->width_mm, 50.0);
  EXPECT_TRUE(std::any_of(made.findings.begin(), made.findings.end(), [](const Finding& f) {
    return f.what.code == Code::BandLimited && f.what.subject == kStrapWidth.id;
  }));
}

TEST(Strap, ALargeDogIsToldOfTheBandAndASmallOneIsNot) {
  const auto large = make_pattern(assess(test::hard_dog("giant")), {}, kStrapCoat);
  const auto small = make_pattern(assess(test::hard_dog("toy")), {}, kStrapCoat);
  EXPECT_TRUE(test::advised(large.findings, "strap-small-dogs"));
  EXPECT_FALSE(test::advised(small.findings, "strap-small-dogs"));
}

TEST(Strap, AnOpeningOnTheBackLiesAheadOfIt) {
  Choices c = with(kOpening, 2);
  c.set(kHarnessPlace, 0.3 * 549.0);
  const Pattern p = pattern_of("ordinary", c);
  double opening_end = 0.0;
  for (const Mark& m : find_piece(p.draft, "body")->marks) {
    if (m.kind == MarkKind::Opening) opening_end = bounds(m.line).x1;
  }
  EXPECT_GT(opening_end, 0.0);
  EXPECT_LT(opening_end, p.draft.band->from);
}

TEST(Strap, EveryPromiseHoldsOnTwoThousandDogs) {
  test::check_population(kStrapWidth, {&kStrapPlace, &kStrapOverlap}, 2000);
}

TEST(Strap, GrowsWithTheDogAndMovesLittleWithAReading) {
  test::check_scale(kStrapWidth, 60);
  test::check_continuity(kStrapWidth, {Measure::Back, Measure::Chest, Measure::Drop, Measure::Loin},
                         400);
}

}  // namespace
}  // namespace coatwright
