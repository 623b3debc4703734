// Paper sizes against published ones, and what hostile sizes come to.
#include "core/sheet/paper.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace coatwright {
namespace {

struct Size {
  const char* id;
  double width, height;
};

TEST(Paper, IsoSizesAreThoseOfIso216) {
  // ISO 216 as in tables of it, A3 and A4 also in CSS Paged Media (css-page-3).
  for (const Size& s : {Size{"a4", 210, 297}, Size{"a3", 297, 420}, Size{"a0", 841, 1189}}) {
    const auto paper = paper_by_id(s.id);
    ASSERT_TRUE(paper) << s.id;
    EXPECT_EQ(paper->width, s.width) << s.id;
    EXPECT_EQ(paper->height, s.height) << s.id;
  }
}

TEST(Paper, IsoSizesHaveSidesOfOneToTheRootOfTwo) {
  // ISO 216: each size is the half of the one before and similar to it, rounded down to whole mm.
  int seen = 0;
  for (const char* id : {"a4", "a3", "a0"}) {
    const auto paper = paper_by_id(id);
    ASSERT_TRUE(paper);
    EXPECT_NEAR(paper->height / paper->width, std::sqrt(2.0), 1.5 / paper->width) << id;
    ++seen;
  }
  EXPECT_EQ(seen, 3);
}

TEST(Paper, InchSizesAreWholeNumbersOfHalfInches) {
  // css-page-3: letter 8.5 x 11 in, legal 8.5 x 14 in, ledger 11 x 17 in; 1 in = 25.4 mm.
  for (const Size& s : {Size{"letter", 8.5, 11}, Size{"legal", 8.5, 14}, Size{"tabloid", 11, 17}}) {
    const auto paper = paper_by_id(s.id);
    ASSERT_TRUE(paper) << s.id;
    EXPECT_NEAR(paper->width, 25.4 * s.width, 1e-9) << s.id;
    EXPECT_NEAR(paper->height, 25.4 * s.height, 1e-9) << s.id;
  }
}

TEST(Paper, TheTableHasTheSixPapersAndEachIsUpright) {
  EXPECT_EQ(papers().size(), 6u);
  for (const Paper& p : papers()) EXPECT_LT(p.width, p.height) << p.id;
}

TEST(Paper, OwnSizesAreReadExactlyAndStoodUpright) {
  for (const Size& s : {Size{"914x1219mm", 914, 1219}, Size{"1219x914mm", 914, 1219},
                        Size{"228.6x304.8mm", 228.6, 304.8}, Size{"80x80mm", 80, 80},
                        Size{"5000x5000mm", 5000, 5000}, Size{"80.125x99.999mm", 80.125, 99.999}}) {
    const auto paper = paper_by_id(s.id);
    ASSERT_TRUE(paper) << s.id;
    EXPECT_EQ(paper->width, s.width) << s.id;
    EXPECT_EQ(paper->height, s.height) << s.id;
    EXPECT_EQ(paper->id, s.id);
  }
}

TEST(Paper, WhatIsNoSizeIsUnknown) {
  for (const std::string id : {"",
                               "a",
                               "A4",
                               "a4 ",
                               " a4",
                               "a5",
                               "x",
                               "mm",
                               "xmm",
                               "100x",
                               "100x100",
                               "x100mm",
                               "100xmm",
                               "100x100cm",
                               "100x100mm ",
                               " 100x100mm",
                               "100 x100mm",
                               "100X100mm",
                               "+100x100mm",
                               "-100x100mm",
                               "1e3x100mm",
                               "0x10x100mm",
                               "100,5x100mm",
                               "100.x100mm",
                               ".5x100mm",
                               "100.1234x100mm",
                               "infxinfmm",
                               "nanx100mm",
                               "100x100x100mm",
                               "123456x100mm",
                               "100x5000.001mm",
                               "99999x99999mm",
                               "100x100mm\n",
                               "100\xC3\x97"
                               "100mm"}) {
    const auto paper = paper_by_id(id);
    ASSERT_FALSE(paper) << id;
    EXPECT_EQ(paper.problem().code, Code::PaperUnknown) << id;
    EXPECT_EQ(paper.problem().subject, "paper");
  }
}

TEST(Paper, WhatIsTooSmallSaysHowSmallItMayBe) {
  for (const char* id : {"79.999x300mm", "300x79mm", "0x0mm", "1x1mm"}) {
    const auto paper = paper_by_id(id);
    ASSERT_FALSE(paper) << id;
    EXPECT_EQ(paper.problem().code, Code::PaperTooSmall) << id;
    EXPECT_EQ(paper.problem().values[2], kSmallestPaper);
  }
}

TEST(Paper, AHostileNameIsRepeatedShortAndClean) {
  const std::string_view bytes("<script>\0\x1b\xFF and much more than a name of paper", 49);
  const auto paper = paper_by_id(bytes);
  ASSERT_FALSE(paper);
  EXPECT_EQ(paper.problem().other, "<script>\uFFFD\uFFFD\uFFFD and much mor");
  EXPECT_FALSE(paper_by_id(std::string(1 << 20, '9')));
}

}  // namespace
}  // namespace coatwright
