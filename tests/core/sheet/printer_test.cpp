#include "core/sheet/printer.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "core/draw/svg.h"
#include "core/sheet/print.h"
#include "core/sheet/scale_check.h"
#include "core/ticket/ticket.h"

namespace coatwright {
namespace {

// What a printer makes of a length that was stretched for it.
double printed(const Printer& true_error, const Printer& known, double mm) {
  return mm * true_error.across * stretch_for(known, false).x;
}

TEST(Printer, AMeasuredErrorIsTakenOutOfTheNextPrint) {
  const Printer bad{.name = "Deck", .across = 0.96, .along = 0.97};
  const Result<Printer> known = measured({.name = "Deck"}, 96.0, 97.0);
  ASSERT_TRUE(known);
  EXPECT_FALSE(known->proven) << "not before it was checked again";
  EXPECT_NEAR(printed(bad, *known, 100.0), 100.0, 1e-9);
  EXPECT_NEAR(100.0 * bad.along * stretch_for(*known, false).y, 100.0, 1e-9);
  // On a sheet on its side the paper's short side runs down the page.
  EXPECT_NEAR(100.0 * bad.along * stretch_for(*known, true).x, 100.0, 1e-9);
  EXPECT_NEAR(100.0 * bad.across * stretch_for(*known, true).y, 100.0, 1e-9);
}

TEST(Printer, TheSecondCheckProvesItOrCorrectsItFurther) {
  Printer printer = *measured({}, 96.0, 97.0);
  printer = *measured(printer, 99.6, 100.4);
  EXPECT_TRUE(printer.proven);
  EXPECT_NEAR(printer.across, 0.96 * 0.996, 1e-12);
  // Read badly at first: the next check finds what was left.
  printer = *measured({}, 97.0, 100.0);
  printer = *measured(printer, 0.96 / 0.97 * 100.0, 100.0);
  EXPECT_FALSE(printer.proven);
  EXPECT_NEAR(printer.across, 0.96, 1e-12);
  printer = *measured(printer, 100.0, 100.0);
  EXPECT_TRUE(printer.proven);
}

TEST(Printer, MoreThanFivePerCentIsRefusedHoweverItComesAbout) {
  EXPECT_TRUE(measured({}, 95.0, 105.0));
  for (const auto& [across, along, subject] :
       {std::tuple{94.9, 100.0, "across"},
        {100.0, 105.1, "along"},
        {0.0, 100.0, "across"},
        {std::numeric_limits<double>::quiet_NaN(), 100.0, "across"},
        {100.0, std::numeric_limits<double>::infinity(), "along"},
        {-100.0, 100.0, "across"}}) {
    const Result<Printer> refused = measured({}, across, along);
    ASSERT_FALSE(refused) << across << " x " << along;
    EXPECT_EQ(refused.problem().code, Code::PrinterTooFarOff);
    EXPECT_EQ(refused.problem().subject, subject);
  }
  // Two small steps do not add up to a large one.
  const Printer once = *measured({}, 96.0, 96.0);
  EXPECT_FALSE(measured(once, 98.0, 98.0));
}

TEST(Printer, WhatIsStretchedKeepsClearOfThePapersEdge) {
  for (const Paper& paper : papers()) {
    if (paper.id == "a0") continue;  // no such printer is 5 % off; its margin would be 33 mm
    for (const double ratio : {0.95, 0.97, 1.0, 1.05}) {
      const Printer printer{.across = ratio, .along = ratio};
      const PrintChoices print = with_room_for({}, printer, paper);
      EXPECT_GE(print.margin, PrintChoices{}.margin);
      EXPECT_LE(print.margin, kLargestMargin);
      for (const double side : {paper.width, paper.height}) {
        const double edge = 0.5 * side - (0.5 * side - print.margin) / ratio;
        EXPECT_GE(edge, kSmallestMargin - 1e-9) << paper.id << " " << ratio;
      }
      if (ratio >= 1.0) {
        EXPECT_EQ(print, PrintChoices{});
      }
    }
  }
}

TEST(Printer, APageForTheBrowserShowsThePartOfTheDrawingThatFillsIt) {
  const HtmlDocument page = sheets_html({Drawing{}}, 200.0, 300.0, "", {1.0 / 0.96, 1.0 / 0.97});
  // 200 mm of paper show 192 mm of the drawing, 300 mm show 291.
  EXPECT_NE(page.body.find("viewBox=\"4 4.5 192 291\""), std::string::npos) << page.body;
  EXPECT_NE(page.body.find("preserveAspectRatio=\"none\""), std::string::npos);
  EXPECT_EQ(sheets_html({Drawing{}}, 200.0, 300.0, "").body.find("preserve"), std::string::npos);
}

}  // namespace
}  // namespace coatwright
