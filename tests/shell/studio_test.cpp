// The studio as its maker uses it: by the names of its controls.
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <set>

#include "core/draft/options/collar.h"
#include "core/draft/options/hood.h"
#include "core/draft/options/opening.h"
#include "core/draft/options/pocket.h"
#include "core/draw/text.h"
#include "shell/kit/board.h"
#include "shell/kit/choice_control.h"
#include "shell/words/studio_words.h"
#include "shell/words/words_table.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/choices.h"
#include "tests/shell/driver.h"
#include "tests/support/place.h"

namespace coatwright::studio {
namespace {

double chosen(const Driver& d, const ChoiceInfo& c) {
  return d.app.derived().pattern->draft.chosen.of(c);
}

TEST(Studio, AReadingTakenOnTheKeypadMovesTheDraft) {
  Driver d(a_ticket());
  const double before = d.app.derived().body->mm(Measure::Drop);
  d.click("measure.drop");
  for (const char* key : {"key.1", "key.1", "key.1/2"}) d.click(key);
  EXPECT_EQ(d.see("entry").value, "11 1/2");
  d.click("keep");
  EXPECT_EQ(d.app.ticket().of(Measure::Drop).back(), "11 1/2 in");
  EXPECT_EQ(d.see("entry").value, "");
  EXPECT_GT(d.app.derived().body->mm(Measure::Drop), before + 5.0);
}

TEST(Studio, AReadingTypedOnAKeyboardIsTakenWithEnter) {
  Driver d(a_ticket());
  d.click("measure.neck");
  d.type("16 3/4");
  d.press("Enter");
  EXPECT_EQ(d.app.ticket().of(Measure::Neck).back(), "16 3/4 in");
}

TEST(Studio, WhatCannotBeReadStaysVisibleWithItsProblem) {
  Driver d(a_ticket());
  const Ticket before = d.app.ticket();
  d.click("measure.neck");
  d.type("16 o");
  d.press("Enter");
  EXPECT_EQ(d.app.ticket(), before);
  EXPECT_EQ(d.see("entry").value, "16 o");
  EXPECT_FALSE(d.see("entry").note.empty());
  d.click("measure.list");  // leaving would lose it: the panel stays
  EXPECT_EQ(d.see("entry").value, "16 o");
}

TEST(Studio, EscapeTellsOnceWhyAnEntryIsNotTakenAndThenLeavesItBehind) {
  Driver d(a_ticket());
  const Ticket before = d.app.ticket();
  d.click("measure.neck");
  d.type("16 o");
  d.press("Escape");
  EXPECT_EQ(d.see("entry").value, "16 o");
  EXPECT_FALSE(d.see("entry").note.empty());
  d.press("Escape");
  EXPECT_FALSE(d.app.view().measure);
  EXPECT_EQ(d.app.ticket(), before);
  // What was mended meanwhile is a reading again.
  d.click("measure.neck");
  EXPECT_EQ(d.see("entry").value, "");
  d.type("16 o");
  d.press("Enter");
  d.press("Backspace");
  d.press("Escape");
  EXPECT_FALSE(d.app.view().measure);
  EXPECT_EQ(d.app.ticket().of(Measure::Neck).back(), "16 in");
}

// Points of the dog on the Measure board, to tell one dog from another.
std::vector<Point> outline_of(const Driver& d) {
  std::vector<Point> points;
  for (const DogShape& shape : d.app.derived().dog) {
    points.insert(points.end(), shape.outline.begin(), shape.outline.end());
  }
  return points;
}

TEST(Studio, ATicketWithoutABodyShowsAnOrdinaryDogAndNeverThatOfAnotherTicket) {
  Ticket half = named("Half");
  half.of(Measure::Chest).clear();
  const std::vector<Point> ordinary = outline_of(Driver(half));
  EXPECT_FALSE(ordinary.empty()) << "opened again, its board shows where the tapes run";
  Rack rack(an_outside(), Ticket{});
  rack.hang({});
  rack.add(half);
  rack.add(named("Whole"));
  Driver d(std::move(rack));
  const std::vector<Point> whole = outline_of(d);
  EXPECT_NE(whole, ordinary);
  d.click("ticket");
  d.click("Open Half, Ferry deck coat");
  EXPECT_EQ(outline_of(d), ordinary);
  EXPECT_FALSE(d.app.derived().pattern) << "nor the other's pattern";
  EXPECT_TRUE(d.sees("tape.chest"));
  d.click("measure.chest");
  d.type("27");
  d.press("Enter");
  ASSERT_TRUE(d.app.derived().body);
  const std::vector<Point> own = outline_of(d);
  EXPECT_NE(own, ordinary);
  d.press("z", true);
  EXPECT_EQ(outline_of(d), own) << "its own stays while it is measured";
  d.click("ticket");
  d.click("Open Whole, Ferry deck coat");
  EXPECT_EQ(outline_of(d), whole);
}

TEST(Studio, TheExampleSaysThatItIsOneAndLeadsToATicketOfOnesOwn) {
  Driver d(a_ticket());
  EXPECT_NE(d.see("note.guide").name.find("Bosun is an example"), std::string::npos);
  d.click("note.guide.action");
  EXPECT_EQ(d.app.rack().cards().size(), 2U);
  EXPECT_TRUE(d.app.ticket().dog.empty());
  EXPECT_EQ(d.see("note.guide").name.find("example"), std::string::npos);
  d.click("ticket.rack");
  EXPECT_TRUE(d.app.view().rack);
  d.act("ticket");
  d.enter("dog", "Second");
  d.click("ticket.new");
  EXPECT_EQ(d.app.rack().cards().size(), 3U);
}

TEST(Studio, PaperOfOnesOwnSizeIsTypedAndWhatNoPaperCanBeIsSaid) {
  Driver d(a_ticket());
  d.act("station.print");
  EXPECT_FALSE(d.sees("paper.width"));
  d.act("paper.own");
  EXPECT_EQ(d.app.ticket().print.paper, "914.4x1219.2mm");
  EXPECT_TRUE(d.see("paper.own").chosen);
  d.enter("paper.width", "24 in");
  EXPECT_EQ(d.app.ticket().print.paper, "609.6x1219.2mm");
  EXPECT_TRUE(d.app.derived().plan);
  d.enter("paper.length", "2 in");
  EXPECT_EQ(d.app.ticket().print.paper, "609.6x1219.2mm");
  EXPECT_TRUE(d.sees("paper.problem"));
  d.enter("paper.length", "150 cm");
  EXPECT_EQ(d.app.ticket().print.paper, "609.6x1500mm");
  EXPECT_FALSE(d.sees("paper.problem"));
  d.act("paper.a4");
  EXPECT_FALSE(d.sees("paper.width"));
}

TEST(Studio, WhatWasToldGoesWhenTheStationChanges) {
  Driver d(a_ticket());
  d.app.tell("Something was told.");
  d.settle();
  d.act("station.measure");
  EXPECT_TRUE(d.sees("notice")) << "one stays here";
  d.act("station.draft");
  EXPECT_FALSE(d.sees("notice"));
}

TEST(Studio, ACopyHasANameOfItsOwnAndItsReadingsMayStillBeTheSame) {
  Driver d(a_ticket());
  const auto copy = [&] {
    d.act("ticket");
    d.act("card." + d.app.rack().open_id() + ".copy");
    return d.app.ticket().name;
  };
  EXPECT_EQ(copy(), "Ferry deck coat 2");
  EXPECT_EQ(copy(), "Ferry deck coat 3");
  d.act("measure.back");
  const auto readings = d.app.ticket().of(Measure::Back);
  EXPECT_TRUE(d.app.ticket().carried[static_cast<size_t>(Measure::Back)]);
  d.click("still-same");
  EXPECT_FALSE(d.app.ticket().carried[static_cast<size_t>(Measure::Back)]);
  EXPECT_EQ(d.app.ticket().of(Measure::Back), readings);
  EXPECT_EQ(d.app.ticket().measured, (BirthMonth{2026, 11}));
  EXPECT_FALSE(d.sees("still-same"));
  EXPECT_TRUE(d.app.ticket().carried[static_cast<size_t>(Measure::Neck)]);
  d.press("z", true);
  EXPECT_TRUE(d.app.ticket().carried[static_cast<size_t>(Measure::Back)]);
}

TEST(Studio, TheKeyBelowTheKeypadKeepsWhatWasTypedAndThenLeadsOn) {
  Ticket ticket = named("Fresh");
  for (auto& readings : ticket.readings) readings.clear();
  Driver d(ticket);
  d.act("measure.back");
  EXPECT_EQ(d.see("keep").name, "Next: Neck girth");
  d.type("22");
  EXPECT_EQ(d.see("keep").name, "Keep");
  d.click("keep");
  EXPECT_EQ(d.app.view().measure, Measure::Back) << "there may be a second reading";
  EXPECT_EQ(d.app.ticket().of(Measure::Back).size(), 1U);
  d.click("keep");
  EXPECT_EQ(d.app.view().measure, Measure::Neck);
  d.click("pad.unit");
  EXPECT_EQ(d.app.ticket().unit, Unit::Centimetre);
}

TEST(Studio, GoingToTheNextMeasureKeepsWhatWasTyped) {
  Driver d(a_ticket());
  d.click("measure.neck");
  d.type("17");
  d.click("Next measure");
  EXPECT_EQ(d.app.ticket().of(Measure::Neck).back(), "17 in");
  EXPECT_EQ(d.see("entry").name, "Chest girth");
}

// The list, the keys from one measure to the next and the board show the same measures in one
// order, whatever style and options ask for.
TEST(Studio, TheMeasuresOfEveryStyleAreWalkedThroughForwardsAndBackAsTheyAreListed) {
  int by_style = 0;
  for (const StyleInfo* style : styles()) {
    for (const bool hood : {false, true}) {
      Ticket ticket = a_ticket();
      ticket.style = style->id;
      if (hood) ticket.choices.set(kCollar, 0.0), ticket.choices.set(kHood, 1.0);
      Driver d(ticket);
      std::vector<std::string> listed;
      for (const Control& c : d.app.ui().controls()) {
        const bool is_row = c.id.starts_with("measure.") && c.id != "measure.list";
        if (is_row) listed.push_back(c.id);
      }
      ASSERT_GE(listed.size(), 8U);
      by_style += static_cast<int>(listed.size()) - 8;
      for (const std::string& id : listed) {
        const auto m = measure_by_id(id.substr(8));
        const auto& tapes = d.app.derived().tapes;
        const bool drawn = std::any_of(tapes.begin(), tapes.end(),
                                       [&](const DogTape& t) { return t.measure == m; });
        EXPECT_EQ(d.sees("tape." + id.substr(8)), drawn) << style->id << " " << id;
      }
      d.act(listed.front());
      for (size_t i = 0; i + 1 < listed.size(); ++i) {
        EXPECT_EQ(d.app.view().measure, measure_by_id(listed[i].substr(8))) << style->id;
        d.act("ui.measure-after");
      }
      EXPECT_EQ(d.app.view().measure, measure_by_id(listed.back().substr(8))) << style->id;
      EXPECT_FALSE(d.see("ui.measure-after").enabled);
      for (size_t i = listed.size(); i-- > 1;) {
        EXPECT_EQ(d.app.view().measure, measure_by_id(listed[i].substr(8))) << style->id;
        d.act("ui.measure-before");
      }
      EXPECT_EQ(d.app.view().measure, measure_by_id(listed.front().substr(8))) << style->id;
      EXPECT_FALSE(d.see("ui.measure-before").enabled);
    }
  }
  EXPECT_GE(by_style, 5);
}

// Neck, throat and breast lie close together, and so do the girth place and the back.
TEST(Studio, EveryListedTapeHasItsWordsOnTheBoardAndNoneCoverOthers) {
  int labels = 0;
  for (const char* dog : {"bosun", "bollard", "capstan", "hawser", "pennant", "purser"}) {
    std::ifstream file(assets_folder() + "/tickets/" + dog + ".json");
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    for (const StyleInfo* style : styles()) {
      Ticket ticket = *read_ticket(text);
      ticket.style = style->id;
      Driver d(ticket);
      std::vector<const Control*> seen;
      for (const Control& c : d.app.ui().controls()) {
        if (c.id.starts_with("tape.")) seen.push_back(&c);
      }
      for (const Measure m : measures_of(*style, ticket.choices)) {
        if (m == Measure::Weight) continue;
        EXPECT_TRUE(d.sees(std::string("tape.") + info(m).id)) << dog << style->id << info(m).id;
      }
      for (size_t i = 0; i < seen.size(); ++i) {
        for (size_t j = i + 1; j < seen.size(); ++j) {
          const Box both =
              intersected(seen[i]->box.inset(3.0F, 3.0F), seen[j]->box.inset(3.0F, 3.0F));
          EXPECT_FALSE(both.w > 2.0F && both.h > 2.0F)
              << dog << ": " << seen[i]->id << " " << seen[j]->id;
        }
      }
      labels += static_cast<int>(seen.size());
    }
  }
  EXPECT_GE(labels, 6 * 3 * 9);
}

TEST(Studio, AnUprightTabletsWordsLieOnNoEndOfAnotherTape) {
  int ends = 0;
  for (const char* dog : {"bosun", "bollard", "capstan", "hawser", "pennant", "purser"}) {
    std::ifstream file(assets_folder() + "/tickets/" + dog + ".json");
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    Driver d(*read_ticket(text), 820.0F, 1180.0F);
    const BoardMap map(d.app.layout().board, d.app.view().boards[0]);
    for (const DogTape& tape : d.app.derived().tapes) {
      if (!d.sees(std::string("tape.") + info(tape.measure).id)) continue;
      for (const Control& c : d.app.ui().controls()) {
        if (!c.id.starts_with("tape.") || c.id.ends_with(info(tape.measure).id)) continue;
        for (const Point end : {tape.line.front(), tape.line.back()}) {
          EXPECT_FALSE(c.box.inset(3.0F, 3.0F).contains(map.page(end)))
              << dog << ": " << c.id << " on " << info(tape.measure).id;
          ++ends;
        }
      }
    }
  }
  EXPECT_GT(ends, 6 * 8 * 8);
}

// What a coat was drafted with is not told of one that cannot be.
TEST(Studio, OfReadingsThatAreRefusedNoChosenNumbersStand) {
  Pipeline pipeline(studio_words());
  Ticket ticket = a_ticket();
  EXPECT_TRUE(pipeline.update(ticket, {}).chosen);
  ticket.of(Measure::Neck) = {"34 in"};
  const Derived& derived = pipeline.update(ticket, {});
  ASSERT_FALSE(derived.body) << "no dog is so";
  EXPECT_FALSE(derived.chosen);
}

TEST(Studio, AReadingCanBeTakenOutAndUndoBringsItBack) {
  Driver d(a_ticket());
  d.click("measure.chest");
  d.click("reading.1");
  EXPECT_EQ(d.app.ticket().of(Measure::Chest).size(), 2U);
  d.click("undo");
  EXPECT_EQ(d.app.ticket().of(Measure::Chest).size(), 3U);
  d.click("redo");
  EXPECT_EQ(d.app.ticket().of(Measure::Chest).size(), 2U);
  d.press("z", true);
  EXPECT_EQ(d.app.ticket(), a_ticket());
}

TEST(Studio, ATapeLineOnTheDogIsTouchedToTakeItsMeasure) {
  Driver d(a_ticket());
  d.click("tape.chest");
  EXPECT_EQ(d.see("entry").name, "Chest girth");
}

TEST(Studio, AWrongReadingIsNamedBesideItsNumber) {
  Driver d(a_ticket());
  d.click("measure.chest");
  d.enter("entry", "72");
  d.click("keep");
  for (int i = 0; i < 3; ++i) d.click("reading.0");
  EXPECT_TRUE(d.sees("sentence.0"));
  EXPECT_NE(d.see("sentence.0").name.find("hest"), std::string::npos);
  EXPECT_NE(d.see("status").name, "All needed measures taken");
}

TEST(Studio, WithoutANeededReadingThereIsNoDraftAndASentenceSaysWhich) {
  Driver d(a_ticket());
  d.click("measure.drop");
  d.click("reading.0");
  EXPECT_TRUE(d.app.ticket().of(Measure::Drop).empty());
  EXPECT_EQ(d.see("status").name, "4 of 5 needed taken");
  d.click("station.draft");
  EXPECT_NE(d.see("refusal").name.find("ide drop"), std::string::npos);
  EXPECT_FALSE(d.sees("handle.hem-depth"));
}

TEST(Studio, DraggingAHandleRedraftsAndIsOneStepOfUndo) {
  Driver d(a_ticket());
  d.click("station.draft");
  const double before = chosen(d, kFrontDepth);
  const int drafts = d.app.derived().redrafts;
  d.drag("handle.front-depth", 12.0F, 12.0F);
  EXPECT_NE(chosen(d, kFrontDepth), before);
  EXPECT_GT(d.app.derived().redrafts, drafts + 2);
  EXPECT_EQ(d.app.history().entries().size(), 2U);
  d.click("undo");
  EXPECT_EQ(chosen(d, kFrontDepth), before);
}

TEST(Studio, EveryHandleFollowsTheFinger) {
  int moved = 0;
  for (const char* id :
       {"handle.neck-fullness", "handle.overlap", "handle.front-depth", "handle.hem-depth",
        "handle.band-place", "handle.band-width", "handle.band-overlap"}) {
    for (const Spot by : coatwright::test::asked_of<Spot>(
             {{14.0F, 0.0F}, {-14.0F, 0.0F}, {0.0F, 14.0F}, {0.0F, -14.0F}})) {
      Driver d(a_ticket());
      d.click("station.draft");
      const Spot before = d.see(id).box.centre();
      d.drag_begin(id, by.x, by.y);
      const Spot now = d.see(id).box.centre();
      // Whatever path the handle keeps to, it never runs away from the finger.
      const Spot step = now - before;
      const float along = step.x * by.x + step.y * by.y;
      EXPECT_GE(along, -3.0F * 14.0F) << id;
      EXPECT_LE(std::hypot(step.x, step.y), 3.0F * 14.0F) << id;
      if (along > 0.5F * 14.0F * 14.0F) ++moved;
      d.drag_end();
    }
  }
  EXPECT_GE(moved, coatwright::test::asked(10));
}

// The drawing leaves room for names of that width.
TEST(Studio, NoPiecesNameIsWiderOnTheBoardThanItsDrawingThinks) {
  const Driver d(a_ticket());
  int seen = 0;
  for (const std::string& key : word_table().keys()) {
    if (!key.starts_with("piece.")) continue;
    const std::string name = word_table()(key);
    EXPECT_LE(text_width(name, {Face::Semibold, 16.0F}),
              kNameWidth * coatwright::text_width(name, 16.0, true))
        << name;
    ++seen;
  }
  EXPECT_GT(seen, 20);
}

TEST(Studio, OnAPhoneEveryMeasuresNameIsWholeOverItsKeypad) {
  Driver d(a_ticket(), 390.0F, 844.0F);
  d.click("measure.neck");
  const float room = d.see("measure.title").box.w - 12.0F;
  for (const MeasureInfo& m : measure_table()) {
    const std::string name = word_table()(std::string("measure.") + m.id);
    EXPECT_LE(text_width(name, kStrong), room) << name;
  }
}

// On a phone one thing has room above the keypad: where the tape runs, until a reading is there or
// something is wrong.
TEST(Studio, OnAPhoneWhereTheTapeRunsIsToldBeforeTheFirstReading) {
  Ticket ticket = a_ticket();
  ticket.of(Measure::Throat).clear();
  Driver d(ticket, 390.0F, 844.0F);
  d.click("measure.throat");
  ASSERT_TRUE(d.sees("sentence.0"));
  const float top = d.see("measure.title").box.bottom();
  EXPECT_GT(d.see("sentence.0").box.y, top + 40.0F) << "a note, not a fault";
  EXPECT_LT(top + 70.0F, d.see("entry").box.y) << "the words between them";
  d.enter("entry", "3 0/0\n");
  EXPECT_LT(d.see("sentence.0").box.y, top + 20.0F) << "what is wrong comes first";
  EXPECT_GT(d.see("sentence.0").clip.h, 60.0F) << "and is in sight";
}

// Handles nearer to each other than a fingertip wait until the board is zoomed in; on a tablet none
// has to.
TEST(Studio, EveryHandleHasRoomOnATabletsBoard) {
  for (const StyleInfo* style : styles()) {
    for (const bool much : {false, true}) {
      Ticket ticket = a_ticket();
      ticket.style = style->id;
      if (much) {
        ticket.choices.set(kCollar, 1.0);
        ticket.choices.set(kOpening, 1.0);
        ticket.choices.set(kPocket, 2.0);
      }
      Driver d(ticket);
      d.click("station.draft");
      for (const HandleInfo& handle : handles_of(*style)) {
        if (!handle.place(d.app.derived().pattern->draft)) continue;
        const std::string id = std::string("handle.") + handle.choice->id;
        EXPECT_TRUE(d.sees(id)) << style->id << (much ? ", much chosen: " : ": ") << id;
      }
    }
  }
}

TEST(Studio, ASliderMovesByFingerByKeyboardAndThroughTheMirror) {
  Driver d(a_ticket());
  d.click("station.draft");
  const double before = chosen(d, kChestEase);
  d.drag("choice.chest-ease", 60.0F, 0.0F);
  const double dragged = chosen(d, kChestEase);
  EXPECT_GT(dragged, before + 2.0);
  d.app.focus("choice.chest-ease", true);
  d.press("ArrowLeft");
  d.press("ArrowLeft");
  EXPECT_NEAR(chosen(d, kChestEase), dragged - 2.0 * 25.4 / 16.0, 0.9);
  EXPECT_EQ(d.app.history().entries().size(), 3U);  // the run of arrow keys is one step
  d.enter("choice.chest-ease", "50.8");
  EXPECT_NEAR(chosen(d, kChestEase), 50.8, 1e-9);
  d.click("reset.chest-ease");
  EXPECT_EQ(chosen(d, kChestEase), before);
  EXPECT_FALSE(d.app.ticket().choices.of(kChestEase).has_value());
}

TEST(Studio, ASliderShowsTheTicketsOwnValueWhileNothingCanBeDrafted) {
  Driver d(a_ticket());
  d.click("station.draft");
  Ticket other = a_ticket();
  other.of(Measure::Breast) = {"44 in"};  // with this neck: no neckline turns so far
  other.choices.set(kHemDepth, 12.7);
  d.app.open_file(write_ticket(other));
  d.settle();
  ASSERT_TRUE(d.app.derived().refusal);
  ASSERT_FALSE(d.app.derived().pattern) << "the one there was is of another ticket";
  EXPECT_EQ(d.see("choice.hem-depth").value, "½ in");
}

TEST(Studio, ChoicesThatContradictEachOtherSaySoBelowThem) {
  Ticket ticket = a_ticket();
  ticket.choices.set(kCollar, kTurnedCollar);
  ticket.choices.set(kHood, 1.0);
  Driver d(ticket);
  d.click("station.draft");
  d.settle();
  EXPECT_TRUE(d.sees("problem.collar.0"));
}

TEST(Studio, TheHemLineIsChosenByItsPicture) {
  Driver d(a_ticket());
  d.click("station.draft");
  d.click("choice.hem-line.2");
  EXPECT_EQ(d.app.ticket().choices.of(kHemLine), 2.0);
  EXPECT_TRUE(d.see("choice.hem-line.2").chosen);
}

// Between two frames of a slow page a thumb meets several keys.
TEST(Studio, PressesOfOneFrameAreAnsweredInTheirOrderAndEachOfThem) {
  Driver d(a_ticket());
  d.click("measure.chest");
  for (const char* key : {"key.2", "key.1", "key.1"}) d.app.act(key);
  d.settle();
  EXPECT_EQ(d.see("entry").value, "211");
  d.act("key.back");
  d.act("key.back");
  d.act("key.back");
  const Ticket before = d.app.ticket();
  d.click("station.draft");
  d.enter("choice.chest-ease", "50.8");
  d.enter("choice.neck-ease", "20");
  d.app.act("undo");
  d.app.act("undo");
  d.settle();
  EXPECT_EQ(d.app.ticket(), before) << "two steps back";
}

TEST(Studio, WhatWasTypedIsThereBeforeAPressLeadsAwayFromIt) {
  Driver d(a_ticket());
  d.click("measure.neck");
  const size_t before = d.app.ticket().of(Measure::Neck).size();
  d.app.enter("entry", "16 5/8");
  d.app.act("ui.measure-after");
  d.settle();
  ASSERT_EQ(d.app.ticket().of(Measure::Neck).size(), before + 1);
  EXPECT_EQ(d.app.ticket().of(Measure::Neck).back(), "16 5/8 in");
  EXPECT_EQ(d.see("entry").name, "Chest girth");
  EXPECT_EQ(d.see("entry").value, "");
  d.app.enter("entry", "27");
  d.app.act("station.draft");
  d.app.act("station.measure");
  d.settle();
  EXPECT_EQ(d.see("entry").value, "27");
  for (const char* key : {"Backspace", "8"}) d.app.key({key, false, false});
  d.app.act("station.draft");
  d.app.act("station.measure");
  d.settle();
  EXPECT_EQ(d.see("entry").value, "28");
}

// A slow page still shows the measure before when the next one's figures are typed.
TEST(Studio, WhatIsTypedOntoAFieldThatIsNotYetShownAnewGoesToTheNewOne) {
  Driver d(a_ticket());
  d.click("measure.neck");
  d.app.enter("entry", "1", "");
  d.app.enter("entry", "16", "1");
  d.app.act("ui.measure-after");
  d.app.enter("entry", "162", "16");
  d.app.enter("entry", "1627", "162");
  d.settle();
  EXPECT_EQ(d.app.ticket().of(Measure::Neck).back(), "16 in");
  EXPECT_EQ(d.see("entry").name, "Chest girth");
  EXPECT_EQ(d.see("entry").value, "27");
  d.app.act("ui.measure-after");
  d.app.enter("entry", "2", "27");  // the last figure of what was there is taken back
  d.settle();
  EXPECT_EQ(d.see("entry").value, "") << "it was kept as the chest's";
}

TEST(Studio, FiguresBehindEnterBeginTheNextReading) {
  Driver d(a_ticket());
  d.click("measure.neck");
  for (const char* key : {"1", "6", "Enter", "1", "7"}) d.app.key({key, false, false});
  d.settle();
  EXPECT_EQ(d.app.ticket().of(Measure::Neck).back(), "16 in");
  EXPECT_EQ(d.see("entry").value, "17");
  d.app.enter("entry", "17\n", "17");
  d.app.enter("entry", "171", "17");
  d.settle();
  EXPECT_EQ(d.app.ticket().of(Measure::Neck).back(), "17 in");
  EXPECT_EQ(d.see("entry").value, "1");
}

TEST(Studio, EachPressOfAnArrowKeyMovesASliderByAStep) {
  Driver d(a_ticket());
  d.click("station.draft");
  const auto value = [&] { return d.see("choice.chest-ease").now; };
  d.app.focus(d.see("choice.chest-ease").id, true);
  d.settle();
  const double before = value(), step = d.see("choice.chest-ease").step;
  for (int i = 0; i < 3; ++i) d.app.key({"ArrowRight", false, false});
  d.settle();
  EXPECT_NEAR(value(), before + 3.0 * step, 0.26 * step);
}

TEST(Studio, AnExtraIsFoldedToALineThatTellsWhatIsChosen) {
  Ticket ticket = a_ticket();
  ticket.choices.set(kCollar, 3.0);
  Driver d(ticket);
  d.click("station.draft");
  EXPECT_EQ(d.see("fold.collar").value, "snood");
  EXPECT_EQ(d.see("fold.hood").value, "none");
  EXPECT_FALSE(d.sees("choice.collar.1"));
  d.click("fold.collar");
  EXPECT_TRUE(d.see("fold.collar").chosen);
  d.click("choice.collar.1");
  EXPECT_EQ(d.see("fold.collar").value, "stand");
  EXPECT_FALSE(d.sees("choice.hood.1")) << "the others stay folded";
  d.click("fold.collar");
  EXPECT_FALSE(d.sees("choice.collar.1"));
  EXPECT_EQ(d.app.ticket().choices.of(kCollar), 1.0) << "folding changes nothing";
}

TEST(Studio, WhatIsToldOfAnExtraIsNeverFoldedAway) {
  Ticket ticket = a_ticket();
  ticket.choices.set(kCollar, kTurnedCollar);
  ticket.choices.set(kHood, 1.0);
  Driver d(ticket);
  d.click("station.draft");
  ASSERT_TRUE(d.sees("problem.collar.0"));
  EXPECT_TRUE(d.sees("choice.collar.1"));
  EXPECT_FALSE(d.see("fold.collar").enabled);
}

TEST(Studio, ATouchedLineTellsItsNameAndItsRule) {
  Driver d(a_ticket());
  d.click("station.draft");
  const Spot handle = d.see("handle.neck-fullness").box.centre();
  d.tap_at({handle.x + 28.0F, handle.y - 34.0F});
  ASSERT_TRUE(d.sees("note.line"));
  EXPECT_EQ(d.see("note.line").name.find("Neckline"), 0U);
  EXPECT_NE(d.see("note.line").name.find("half of neck girth"), std::string::npos);
}

TEST(Studio, TwoFingersZoomTheBoardAndFitBringsItBack) {
  Driver d(a_ticket());
  d.click("station.draft");
  const double before = d.app.view().boards[1].scale;
  d.pinch({300, 620}, {340, 620}, {200, 620}, {440, 620});
  EXPECT_GT(d.app.view().boards[1].scale, 3.0 * before);
  EXPECT_EQ(d.app.ticket(), a_ticket());
  d.click("fit");
  EXPECT_NEAR(d.app.view().boards[1].scale, before, 0.02 * before);
}

TEST(Studio, PaperIsChosenAndTheSheetsAreCounted) {
  Driver d(a_ticket());
  d.click("station.print");
  const size_t letter = d.app.derived().plan->sheets.size();
  d.click("paper.a0");
  EXPECT_EQ(d.app.derived().plan->sheets.size(), 1U);
  EXPECT_GT(letter, 4U);
  EXPECT_EQ(d.see("sheet-count").name, "One sheet holds the whole pattern.");
}

TEST(Studio, PrintAndFilesComeOutAsEffects) {
  Driver d(a_ticket());
  d.click("station.print");
  d.click("print");
  d.click("open.ticket");
  d.click("print.tab.3");
  d.click("save.ticket");
  const Effects effects = d.app.take_effects();
  ASSERT_EQ(effects.size(), 3U);
  EXPECT_NE(std::get<PrintSheets>(effects[0]).document.rules.find("@page"), std::string::npos);
  EXPECT_TRUE(std::holds_alternative<AskForFile>(effects[1]));
  const auto ticket = read_ticket(std::get<SaveFile>(effects[2]).bytes);
  ASSERT_TRUE(ticket);
  EXPECT_EQ(*ticket, a_ticket());
}

TEST(Studio, ABrokenFileIsRefusedWithASentenceAndNothingChanges) {
  Driver d(a_ticket());
  d.app.open_file("{\"coatwright\": 1, \"dog\"");
  d.settle();
  EXPECT_EQ(d.app.ticket(), a_ticket());
  EXPECT_NE(d.see("notice").name.find("damaged"), std::string::npos);
  Ticket other = a_ticket();
  other.dog = "Hawser";
  d.app.open_file(write_ticket(other));
  d.settle();
  EXPECT_EQ(d.app.ticket(), other);
  EXPECT_EQ(d.app.rack().cards().size(), 2U) << "the ticket before still hangs on the rack";
  EXPECT_FALSE(d.see("undo").enabled);
}

TEST(Studio, AFileThatCannotBeDraftedSaysWhyBesideTheNoticeThatItIsOpen) {
  Driver d(a_ticket());
  Ticket other = a_ticket();
  other.of(Measure::Drop) = {"22 in"};
  d.app.open_file(write_ticket(other));
  d.settle();
  EXPECT_NE(d.see("note.refusal").name.find("would pass the middle"), std::string::npos);
  const Box refusal = d.see("note.refusal").box, notice = d.see("notice").box;
  EXPECT_LE(notice.bottom(), refusal.y) << "one above the other";
  d.click("station.draft");
  EXPECT_NE(d.see("note.refusal").name.find("would pass the middle"), std::string::npos);
}

TEST(Studio, ATelephonesBoardShowsWhatHappenedFirstAndThenWhyThereIsNoDraft) {
  Ticket wrong = a_ticket();
  wrong.of(Measure::Drop) = {"22 in"};
  Driver d(a_ticket(), 390.0F, 844.0F);
  d.app.open_file(write_ticket(wrong));
  d.settle();
  EXPECT_TRUE(d.sees("notice"));
  EXPECT_FALSE(d.sees("note.refusal")) << "both would leave no room for the dog";
  d.click("notice.close");
  EXPECT_NE(d.see("note.refusal").name.find("would pass the middle"), std::string::npos);
}

TEST(Studio, NothingOfTheTicketBeforeCanBePrintedForOneThatCannotBeDrafted) {
  Driver d(a_ticket());
  d.click("station.print");
  ASSERT_TRUE(d.app.derived().plan);
  Ticket other = a_ticket();
  other.of(Measure::Drop) = {"22 in"};
  d.app.open_file(write_ticket(other));
  d.settle();
  EXPECT_FALSE(d.app.derived().plan);
  int seen = 0;
  for (int tab = 0; tab < 4; ++tab) {
    d.click("print.tab." + std::to_string(tab));
    for (const Control& c : std::vector<Control>(d.app.ui().controls())) {
      if (c.id != "cloth.light" && (!c.id.starts_with("save.") || c.id == "save.ticket")) continue;
      EXPECT_FALSE(c.enabled) << c.id;
      ++seen;
    }
  }
  EXPECT_EQ(seen, 12);
  d.click("print.tab.0");
  EXPECT_FALSE(d.see("print").enabled);
  d.app.open_file(write_ticket(a_ticket()));  // hangs on the rack already
  d.settle();
  EXPECT_EQ(d.app.rack().cards().size(), 2U);
  EXPECT_TRUE(d.app.derived().plan);
}

TEST(Studio, NoValueOfTheTicketBeforeStandsInOneThatCannotBeRead) {
  Driver d(a_ticket());
  d.settle();
  ASSERT_FALSE(d.see("measure.back").value.empty());
  Ticket other = a_ticket();
  other.birth = BirthMonth{2030, 5};
  other.measured = BirthMonth{2026, 4};
  d.app.open_file(write_ticket(other));
  d.settle();
  EXPECT_EQ(d.see("measure.back").value, "add");
  EXPECT_FALSE(d.app.derived().body);
  EXPECT_FALSE(d.see("note.refusal").name.empty());
}

TEST(Studio, AValueIsTheMiddleReadingAlsoBeforeEveryMeasureIsTaken) {
  Ticket few = a_ticket();
  few.of(Measure::Neck).clear();
  few.of(Measure::Chest) = {"27 in", "28 in", "26 1/2 in"};
  Driver d(few);
  d.settle();
  ASSERT_FALSE(d.app.derived().body);
  EXPECT_EQ(d.see("measure.chest").value.substr(0, 2), "27");
  d.click("measure.chest");
  d.settle();
  EXPECT_NE(d.see("sentence.0").name.find("readings of chest girth lie"), std::string::npos);
}

TEST(Studio, ADogThatWasRenamedHasItsNewNameOnTheSheets) {
  Driver d(a_ticket());
  d.click("station.print");
  d.click("station.measure");
  d.click("dog");
  d.type("n");
  d.press("Enter");
  ASSERT_EQ(d.app.ticket().dog, "Bosunn");
  d.click("station.print");
  d.click("print.tab.2");
  EXPECT_NE(made_by(d, "save.sheets").bytes.find(">Bosunn<"), std::string::npos);
}

TEST(Studio, AMeasureToCheckSaysSoUnderItsRowAndBesideItsNumber) {
  Ticket loose = a_ticket();
  loose.of(Measure::Neck) = {"22 in"};
  Driver d(loose);
  d.settle();
  const Control& row = d.see("measure.neck");
  const Control& sentence = d.see("row.neck");
  EXPECT_TRUE(sentence.name.starts_with("Neck girth is the likeliest mistake: it reads 22 in"));
  EXPECT_GE(sentence.box.y, row.box.bottom());
  EXPECT_LT(sentence.box.y, row.box.bottom() + 12.0F);
  EXPECT_FALSE(d.sees("row.back"));
  const std::string told = sentence.name;
  d.click("measure.neck");
  d.settle();
  EXPECT_EQ(d.see("sentence.0").name, told);
}

// Of two readings that look exchanged both rows say so, in the same words, and nothing else does.
TEST(Studio, ExchangedReadingsAreToldAtBothRowsAndLeadToTheFirst) {
  Ticket exchanged = a_ticket();
  std::swap(exchanged.of(Measure::Neck), exchanged.of(Measure::Chest));
  Driver d(exchanged);
  d.settle();
  const std::string told = d.see("row.neck").name;
  EXPECT_NE(told.find("and chest girth ("), std::string::npos) << told;
  EXPECT_NE(told.find("look exchanged"), std::string::npos) << told;
  EXPECT_EQ(d.see("row.chest").name, told);
  for (const char* other : {"row.back", "row.drop", "row.breast", "row.loin", "row.weight"}) {
    EXPECT_FALSE(d.sees(other)) << other;
  }
  d.click("station.draft");
  EXPECT_EQ(d.see("refusal").name, told);
  d.click("refusal.go");
  EXPECT_EQ(d.app.view().station, Station::Measure);
}

// All lengths typed under the wrong unit: the unit is told at every station, and no single reading is
// called the mistake.
TEST(Studio, ATicketWhoseLengthsAreInTheOtherUnitIsToldSo) {
  Ticket wrong = a_ticket();
  for (const MeasureInfo& m : measure_table()) {
    if (m.is_weight) continue;
    for (std::string& typed : wrong.of(m.measure)) {
      typed = reading_with_unit(typed.substr(0, typed.find(" in")), m.measure, Unit::Centimetre);
    }
  }
  Driver d(wrong);
  d.settle();
  const std::string told = d.see("row.chest").name;
  EXPECT_TRUE(told.starts_with("As centimetres these lengths fit no such dog, as inches they do"));
  EXPECT_FALSE(d.sees("row.weight"));
  for (const char* station : {"draft", "fit", "lay", "print", "make"}) {
    d.click(std::string("station.") + station);
    EXPECT_EQ(d.see("refusal").name, told) << station;
  }
}

TEST(Studio, NamesAreTypedInTheirFields) {
  Driver d(a_ticket());
  d.click("dog");
  for (int i = 0; i < 5; ++i) d.press("Backspace");
  d.type("Old Salt");
  EXPECT_EQ(d.app.ticket().dog, "Old Salt");
}

TEST(Studio, TheUnitIsSwitchedAndEveryValueWithIt) {
  Driver d(a_ticket());
  EXPECT_EQ(d.see("measure.breast").value.substr(0, 5), "27 in");
  d.click("unit");
  EXPECT_EQ(d.see("measure.breast").value.substr(0, 7), "68.6 cm");
  EXPECT_EQ(d.app.ticket().of(Measure::Breast).front(), "27 in");
}

TEST(Studio, EveryControlIsReachedWithTheTabKeyAndWithArrowsInsideASet) {
  Driver d(a_ticket());
  for (const char* station : {"station.measure", "station.draft", "station.print"}) {
    d.click(station);
    d.app.focus("", false);
    std::vector<std::string> reached;
    do {
      d.press("Tab");
      ASSERT_TRUE(reached.empty() || d.app.ui().focus != reached.back()) << reached.back();
      reached.push_back(d.app.ui().focus);
      const Control c = d.see(d.app.ui().focus);
      EXPECT_GT(c.clip.h, 0.0F) << c.id << " has the focus but is out of sight";
      // Options are chosen by the arrows that go round them, so they are only counted here.
      if (!c.in_set || c.role == ControlRole::Option || c.role == ControlRole::Tab) continue;
      for (d.press("ArrowRight"); d.app.ui().focus != c.id; d.press("ArrowRight")) {
        reached.push_back(d.app.ui().focus);
        ASSERT_LT(reached.size(), 300U);
      }
    } while (d.app.ui().focus != "ticket" || reached.size() == 1);
    size_t wanted = 0;
    std::set<std::string> sets;
    for (const Control& c : d.app.ui().controls()) {
      if (!c.enabled || c.silent || !c.tab || only_shows(c)) continue;
      ++wanted;
      const bool chosen_by_arrows = c.role == ControlRole::Option || c.role == ControlRole::Tab;
      const bool met = std::find(reached.begin(), reached.end(), c.id) != reached.end();
      if (met && chosen_by_arrows) sets.insert(std::string(c.part) + c.group);
      EXPECT_TRUE(met || chosen_by_arrows) << c.id;
    }
    for (const Control& c : d.app.ui().controls()) {
      if (c.role == ControlRole::Option) {
        EXPECT_TRUE(sets.contains(std::string(c.part) + c.group))
            << c.id << " stands in a set that Tab does not come to";
      }
    }
    EXPECT_GT(wanted, 15U);
  }
}

TEST(Studio, NothingIsDrawnWhenNothingChanges) {
  Driver d(a_ticket());
  for (const char* station : {"station.measure", "station.draft", "station.print"}) {
    d.click(station);
    d.now_ms += 5000.0;
    d.settle();
    EXPECT_EQ(d.settle(), 0);
    d.app.pointer({Contact::Move, 1, false, {200.0F, 200.0F}, d.now_ms});
    EXPECT_EQ(d.settle(), 0) << "a mouse that only passes by";
  }
}

TEST(Studio, EveryDemoDogIsOpenedMeasuredDraftedAndPlanned) {
  int opened = 0;
  for (const auto& entry : std::filesystem::directory_iterator(assets_folder() + "/tickets")) {
    std::ifstream file(entry.path());
    Driver d(a_ticket());
    d.app.open_file(std::string(std::istreambuf_iterator<char>(file), {}));
    d.settle();
    const std::string name = entry.path().filename();
    EXPECT_TRUE(d.sees("tape.chest")) << name;
    d.click("station.draft");
    ASSERT_TRUE(d.app.derived().pattern.has_value()) << name;
    EXPECT_FALSE(d.app.derived().refusal.has_value()) << name;
    EXPECT_TRUE(d.sees("handle.neck-fullness")) << name;
    d.click("station.print");
    EXPECT_GT(d.app.derived().plan->sheets.size(), 0U) << name;
    ++opened;
  }
  EXPECT_GE(opened, 5);
}

}  // namespace
}  // namespace coatwright::studio
