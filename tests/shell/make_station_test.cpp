// The Make station, driven by the names of its controls.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "core/draw/svg.h"
#include "core/make/course.h"
#include "core/units/unbroken.h"
#include "shell/pages/make_page.h"
#include "shell/words/say.h"
#include "shell/words/step_words.h"
#include "shell/words/studio_words.h"
#include "shell/words/words_table.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

Driver& at_make(Driver& d) {
  d.click("Make");
  d.settle();
  return d;
}

const Operations& steps_of(const Driver& d) { return d.app.derived().work.operations; }

StageCourse stage_of(const Driver& d, Stage stage) {
  for (const StageCourse& s : course_of(d.app.derived().work, d.app.ticket().done)) {
    if (s.stage == stage) return s;
  }
  return {};
}

bool is_status(const Driver& d, const std::string& words) {
  const auto& all = d.app.ui().controls();
  return std::any_of(all.begin(), all.end(),
                     [&](const Control& c) { return only_shows(c) && c.name == words; });
}

TEST(MakeStation, OpensAtTheFirstStageThatIsNotDone) {
  {
    Driver d(a_ticket());
    at_make(d);
    EXPECT_TRUE(d.see("stage.prepare").chosen);
    EXPECT_TRUE(d.sees("tick.trial-coat"));
    EXPECT_FALSE(d.sees("tick.cut-pieces"));
  }
  Ticket ticket = a_ticket();
  ticket.done = {"trial-coat"};
  Driver d(ticket);
  at_make(d);
  EXPECT_TRUE(d.see("stage.cut").chosen);
  EXPECT_FALSE(d.sees("tick.trial-coat"));
}

// The draft gives no such plan; it is planted.
TEST(MakeStation, SaysOfStepsThatDoNotHoldTogetherWhatThePaperSays) {
  Driver d(a_ticket());
  at_make(d);
  EXPECT_FALSE(d.sees("make.unsound"));
  const Derived& now = d.app.derived();
  Plan plan = now.work;
  std::erase_if(plan.operations, [](const Operation& o) { return o.id == "close-gap"; });
  const std::string told = told_unsound(now.pattern->draft, plan, word_table());
  EXPECT_EQ(told, word_table()("make.unsound"));
  EXPECT_EQ(told_unsound(now.pattern->draft, now.work, word_table()), "");
  const_cast<Derived&>(now).unsound = told;
  d.click("stage.edges");
  d.settle();
  ASSERT_TRUE(d.sees("make.unsound"));
  EXPECT_EQ(d.see("make.unsound").name, told);
}

TEST(MakeStation, ATickIsKeptInTheTicketCountsAndIsOneStepOfUndo) {
  Driver d(a_ticket());
  at_make(d);
  EXPECT_EQ(d.see("stage.prepare").value, "0 of 1");
  EXPECT_FALSE(d.see("tick.trial-coat").chosen);
  EXPECT_EQ(d.see("tick.trial-coat").role, ControlRole::Tick);
  d.click("tick.trial-coat");
  d.settle();
  EXPECT_EQ(d.app.ticket().done, (std::set<std::string>{"trial-coat"}));
  EXPECT_TRUE(d.see("tick.trial-coat").chosen);
  EXPECT_EQ(d.see("stage.prepare").value, "1 of 1");
  d.click("make.next");
  d.settle();
  d.click("tick.cut-pieces");
  d.settle();
  const size_t all = steps_of(d).size();
  EXPECT_EQ(d.see("make.progress").name, "2 of " + std::to_string(all) + " steps done");
  d.click("undo");
  d.settle();
  EXPECT_EQ(d.app.ticket().done, (std::set<std::string>{"trial-coat"}));
  d.click("undo");
  d.settle();
  EXPECT_TRUE(d.app.ticket().done.empty());
  d.click("redo");
  d.settle();
  EXPECT_EQ(d.app.ticket().done.size(), 1u);
  d.click("stage.prepare");
  d.settle();
  d.click("tick.trial-coat");
  d.settle();
  EXPECT_TRUE(d.app.ticket().done.empty()) << "a second touch takes the tick back";
}

TEST(MakeStation, EveryStepOfEveryStageIsReachedAndTicked) {
  for (const StyleInfo* style : styles()) {
    Ticket ticket = a_ticket();
    ticket.style = style->id;
    Driver d(ticket, 390.0F, 844.0F);
    at_make(d);
    const Operations steps = steps_of(d);
    for (const Operation& step : steps) {
      const std::string stage = std::string("stage.") + stage_id(step.stage);
      if (!d.see(stage).chosen) d.click(stage);
      d.settle();
      d.click("tick." + step.id);
      d.settle();
      ASSERT_TRUE(d.app.ticket().done.contains(step.id)) << style->id << ' ' << step.id;
    }
    EXPECT_EQ(d.app.ticket().done.size(), steps.size());
    const auto again = read_ticket(write_ticket(d.app.ticket()));
    ASSERT_TRUE(again.ok());
    EXPECT_EQ(again->done, d.app.ticket().done);
  }
}

TEST(MakeStation, TicksOutlastAChangeOfAnOptionAndComeBackWithIt) {
  Ticket ticket = a_ticket();
  const ChoiceInfo* pocket = choice_by_id("pocket");
  ticket.choices.set(*pocket, 1.0);
  ticket.done = {"trial-coat", "make-pocket", "of-no-coat"};
  Driver d(ticket);
  at_make(d);
  const auto pieces = [&] { return stage_of(d, Stage::Pieces).done; };
  EXPECT_EQ(pieces(), 1);
  d.click("Draft");
  d.settle();
  d.click("fold.pocket");
  d.settle();
  d.click("choice.pocket.0");
  d.settle();
  at_make(d);
  EXPECT_EQ(pieces(), 0);
  EXPECT_EQ(d.app.ticket().done.size(), 3u) << "nothing is forgotten";
  d.click("undo");
  d.settle();
  EXPECT_EQ(pieces(), 1);
}

TEST(MakeStation, ATouchedStepTellsItsEdgesWithLengthAndAllowance) {
  Driver d(a_ticket());
  at_make(d);
  d.click("stage.edges");
  d.settle();
  EXPECT_EQ(d.see("step.sew-round").value, "");
  d.click("step.sew-round");
  d.settle();
  EXPECT_EQ(d.app.view().make.step, "sew-round");
  const std::string told = d.see("step.sew-round").value;
  const CutPiece* body = d.app.derived().pattern->cut.find("body");
  for (const CutEdge& e : body->edges) {
    if (e.id != "body.hem") continue;
    LengthStyle style{.unit = d.app.ticket().unit};
    style.steps_per_inch = 16;
    EXPECT_NE(told.find(format_length(Length::mm(e.length_mm), style)), std::string::npos) << told;
    EXPECT_NE(told.find(format_length(Length::mm(e.allowance_mm), style)), std::string::npos)
        << told;
  }
  EXPECT_EQ(told.find('{'), std::string::npos) << told;
  d.click("step.sew-round");
  d.settle();
  EXPECT_TRUE(d.app.view().make.step.empty());
}

TEST(MakeStation, ATouchedLineOpensAStepThatIsAboutIt) {
  Driver d(a_ticket());
  at_make(d);
  const PatternDrawing& drawing = d.app.derived().drawing;
  const BoardView view = d.app.view().boards[static_cast<size_t>(Station::Make)];
  for (const DrawItem& item : drawing.drawing.items) {
    const auto* line = std::get_if<StrokeItem>(&item);
    if (line == nullptr || line->id != "band.attach") continue;
    const Point at = lerp(line->points.front(), line->points.back(), 0.5);
    const Spot c = view.box.centre();
    d.tap_at({c.x + static_cast<float>((at.x - view.centre.x) * view.scale),
              c.y + static_cast<float>((at.y - view.centre.y) * view.scale)});
  }
  d.settle();
  const std::string step = d.app.view().make.step;
  ASSERT_FALSE(step.empty());
  for (const Operation& s : steps_of(d)) {
    if (s.id != step) continue;
    EXPECT_NE(std::find(s.edges.begin(), s.edges.end(), "band.attach"), s.edges.end()) << step;
  }
  EXPECT_TRUE(d.see("step." + step).chosen);
}

TEST(MakeStation, CautionsStandWhereACoatIsTriedOnAndNotionsWhereTheyAreUsed) {
  Driver d(a_ticket());
  at_make(d);
  for (const char* stage : {"stage.prepare", "stage.try"}) {
    if (!d.see(stage).chosen) d.click(stage);
    d.settle();
    for (const char* key : {"caution.fingers", "caution.alone", "caution.vet", "caution.heat",
                            "caution.skin", "caution.leash"}) {
      EXPECT_TRUE(is_status(d, studio_words()(key))) << stage << ' ' << key;
    }
  }
  d.click("stage.pieces");
  d.settle();
  EXPECT_FALSE(d.sees("caution.fingers"));
  const auto used = std::count_if(d.app.ui().controls().begin(), d.app.ui().controls().end(),
                                  [](const Control& c) { return c.id.starts_with("need.pieces"); });
  EXPECT_EQ(used, 4) << "thread and needle, hook-and-loop of the front and of the band";
}

TEST(MakeStation, WithoutADraftItSaysWhatIsMissing) {
  Ticket ticket = a_ticket();
  ticket.of(Measure::Chest).clear();
  ticket.done = {"trial-coat"};
  Driver d(ticket);
  at_make(d);
  EXPECT_NE(d.see("refusal").name.find("hest"), std::string::npos) << d.see("refusal").name;
  EXPECT_FALSE(d.sees("tick.trial-coat"));
  EXPECT_FALSE(d.sees("print.make"));
  EXPECT_EQ(d.app.ticket().done.size(), 1u);
  d.click("refusal.go");
  d.settle();
  EXPECT_EQ(d.app.view().station, Station::Measure);
}

TEST(MakeStation, PrintsTheMakeSheetWithWhatIsDone) {
  Ticket ticket = a_ticket();
  ticket.done = {"cut-pieces"};
  Driver d(ticket);
  at_make(d);
  const std::string html = made_by(d, "print.make").bytes;
  const size_t ticked = html.find("<li class=\"done\">");
  ASSERT_NE(ticked, std::string::npos);
  EXPECT_EQ(html.find("<li class=\"done\">", ticked + 1), std::string::npos);
  const size_t cut = html.find("Cut the pieces. ");
  EXPECT_GT(cut, ticked);
  EXPECT_LT(cut, html.find("</li>", ticked));
}

TEST(MakeStation, EveryStepStandsOnThePrintedSheetToItsLastWord) {
  size_t longest = 0;
  for (const StyleInfo* style : styles()) {
    Ticket ticket = a_ticket();
    ticket.style = style->id;
    Driver d(ticket);
    at_make(d);
    const Pattern& pattern = *d.app.derived().pattern;
    const LengthStyle lengths{.unit = ticket.unit};
    const std::string html = html_of(make_sheet(ticket, pattern, word_table(), "2026-01-01")).body;
    for (const Operation& step : plan_of(ticket, pattern.draft).operations) {
      const std::string how = how_of(step, lengths, word_table());
      std::string words = word_table()("step." + step.id + ".name") + ". " + how, escaped;
      append_escaped(escaped, unbroken(words));
      EXPECT_NE(html.find(escaped + "<small>"), std::string::npos) << style->id << ' ' << step.id;
      std::vector<std::string> lines = needs_of(pattern.draft, step, ticket.unit, word_table());
      lines.push_back(word_table()("make.why", {why_of(step, word_table())}));
      for (const std::string& line : lines) {
        escaped.clear();
        append_escaped(escaped, unbroken(line));
        EXPECT_NE(html.find(escaped), std::string::npos) << style->id << ' ' << line;
      }
      longest = std::max(longest, words.size());
    }
  }
  EXPECT_GT(longest, 400u) << "none was long enough to show anything";
}

}  // namespace
}  // namespace coatwright::studio
