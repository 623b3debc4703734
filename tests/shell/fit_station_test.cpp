// The Fit station, driven by the names of its controls.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <iterator>

#include "core/ticket/ids.h"
#include "shell/kit/painter.h"
#include "shell/words/studio_words.h"
#include "shell/words/words_table.h"
#include "tests/shell/driver.h"
#include "tests/support/place.h"

namespace coatwright::studio {
namespace {

Driver& at_fit(Driver& d) {
  d.act("station.fit");
  d.settle();
  return d;
}

// By the controls of the side sheet; the number by the keypad.
void note(Driver& d, const char* place, const char* kind, std::initializer_list<const char*> keys) {
  d.click(std::string("place.") + place);
  d.settle();
  d.click(std::string("kind.") + kind);
  d.settle();
  for (const char* key : keys) d.click(std::string("key.") + key);
  d.settle();
}

double neckline(const Derived& now) {
  for (const Invariant& i : now.pattern->draft.invariants) {
    if (i.id == "neckline-closed") return i.got_mm;
  }
  return 0.0;
}

TEST(FitStation, ANoteShowsWhatItDoesBeforeItIsKeptAndIsOneStepOfUndo) {
  Driver d(a_ticket());
  at_fit(d);
  const double before = neckline(d.app.derived());
  note(d, "neck", "loose", {"1/4"});
  EXPECT_TRUE(d.app.ticket().fittings.empty()) << "it is shown, not kept";
  ASSERT_TRUE(d.app.derived().comparison.has_value());
  EXPECT_FALSE(d.app.derived().comparison->refusal);
  EXPECT_FALSE(d.app.derived().comparison->changes.empty());
  EXPECT_NE(d.see("fit.does").name.find("taken in by ½ in"), std::string::npos)
      << d.see("fit.does").name;
  EXPECT_TRUE(d.sees("change.row.body.neckline"));
  EXPECT_NEAR(neckline(d.app.derived()), before, 1e-9);
  d.click("fit.keep");
  d.settle();
  ASSERT_EQ(d.app.ticket().fittings.size(), 1u);
  const Fitting& fitting = d.app.ticket().fittings[0];
  EXPECT_EQ(fitting.notes,
            (std::vector<FitNote>{{FitPlace::Neck, FitKind::Loose, FitBy::Pinch, 6.35}}));
  EXPECT_EQ(fitting.date, (FitDate{2026, 11, 24}));
  EXPECT_EQ(fitting.based_on, readings_of(d.app.derived().tape));
  EXPECT_NEAR(neckline(d.app.derived()), before - 12.7, 0.01);
  EXPECT_TRUE(d.see("fitting.0").chosen) << "its notes are there";
  EXPECT_FALSE(d.app.derived().comparison) << "and the dog, for the next";
  EXPECT_EQ(d.see("pin.neck").value, "1 note");
  d.click("undo");
  d.settle();
  EXPECT_TRUE(d.app.ticket().fittings.empty());
  EXPECT_NEAR(neckline(d.app.derived()), before, 1e-9);
  d.click("redo");
  d.settle();
  EXPECT_EQ(d.app.ticket().fittings.size(), 1u);
}

TEST(FitStation, APlaceIsPickedOnTheDogByFingerKeyAndMirror) {
  Driver d(a_ticket());
  at_fit(d);
  for (const FitPlace place : all_of<FitPlace>()) {
    EXPECT_TRUE(d.sees(std::string("pin.") + id_of(place))) << id_of(place);
  }
  d.tap_at(d.see("pin.tail").box.centre());
  d.settle();
  EXPECT_TRUE(d.see("pin.tail").chosen);
  EXPECT_TRUE(d.sees("kind.short"));
  EXPECT_FALSE(d.sees("kind.loose")) << "nothing is loose at the tail";
  d.press("Escape");
  d.act("fit.back");
  d.settle();
  EXPECT_TRUE(d.sees("place.neck"));
  d.act("pin.breast");
  d.settle();
  EXPECT_TRUE(d.sees("kind.rides-up"));
}

TEST(FitStation, NoPinCoversAnothersName) {
  size_t names = 0;
  for (const auto& page : {std::pair{1180.0F, 820.0F}, {820.0F, 1180.0F}}) {
    for (const char* dog : {"bosun", "bollard", "capstan", "hawser", "pennant", "purser"}) {
      std::ifstream file(assets_folder() + "/tickets/" + dog + ".json");
      const std::string text{std::istreambuf_iterator<char>(file), {}};
      Driver d(*read_ticket(text), page.first, page.second);
      at_fit(d);
      std::vector<std::pair<std::string, Box>> drawn;
      overhear([&](std::string_view words, const Box& box) { drawn.emplace_back(words, box); });
      d.redraw();
      overhear(nullptr);
      const Box board = d.app.layout().board;
      for (const auto& [words, box] : drawn) {
        if (box.x < board.x || box.right() > board.right() || box.bottom() > board.bottom())
          continue;
        for (const FitPlace place : all_of<FitPlace>()) {
          const std::string id = id_of(place);
          if (words != studio_words()("place." + id)) continue;
          ++names;
          for (const FitPlace other : all_of<FitPlace>()) {
            if (other == place) continue;
            const Box pin = around(d.see(std::string("pin.") + id_of(other)).box.centre(), 14.0F);
            // The line of the words is told, which has no height.
            const Box both = intersected({box.x, box.y - 8.0F, box.w, 16.0F}, pin);
            EXPECT_FALSE(both.w > 0.0F && both.h > 0.0F)
                << dog << ": " << words << " under " << id_of(other);
          }
        }
      }
    }
  }
  EXPECT_GT(names, 100U) << "of 132";
}

TEST(FitStation, AnAmountThatIsNoneIsToldAndNotKept) {
  Driver d(a_ticket());
  at_fit(d);
  note(d, "tail", "short", {});
  d.click("fit.keep");
  d.settle();
  EXPECT_TRUE(d.sees("fit.wrong"));
  for (const char* key : {"9", "0"}) d.click(std::string("key.") + key);
  d.click("fit.keep");
  d.settle();
  ASSERT_TRUE(d.sees("fit.wrong"));
  EXPECT_NE(d.see("fit.wrong").name.find("90 in"), std::string::npos) << d.see("fit.wrong").name;
  EXPECT_TRUE(d.app.ticket().fittings.empty());
}

TEST(FitStation, NotesThatContradictOneAnotherAreNamedBeforeTheSecondIsKept) {
  Driver d(a_ticket());
  at_fit(d);
  note(d, "tail", "short", {"1/2"});
  d.click("fit.keep");
  d.settle();
  note(d, "tail", "long", {"1/4"});
  EXPECT_TRUE(d.sees("fit.told.0"));
  d.click("fit.keep");
  d.settle();
  EXPECT_EQ(d.app.ticket().fittings[0].notes.size(), 2u);
  EXPECT_TRUE(d.app.derived().alterations.list.empty());
  EXPECT_TRUE(d.sees("fit.told.0"));
  d.act("station.print");
  d.settle();
  d.act("status.go");
  d.settle();
  EXPECT_TRUE(d.sees("fit.told.0")) << "the standing leads to where it can be mended";
  d.click("note.0.1.remove");
  d.settle();
  EXPECT_EQ(d.app.derived().alterations.list.size(), 1u);
}

TEST(FitStation, FittingsAreNumberedDatedOpenedAndCompared) {
  Driver d(a_ticket());
  at_fit(d);
  note(d, "tail", "short", {"1/2"});
  d.click("fit.keep");
  d.settle();
  d.click("fitting.next");
  d.settle();
  ASSERT_EQ(d.app.ticket().fittings.size(), 2u);
  note(d, "side", "low", {"3/8"});
  d.click("fit.keep");
  d.settle();
  ASSERT_EQ(d.app.ticket().fittings.size(), 2u);
  EXPECT_EQ(d.app.ticket().fittings[1].notes.size(), 1u);
  const auto changed = [&] {
    std::vector<std::string> out;
    for (const EdgeChange& c : d.app.derived().comparison->changes) out.push_back(c.edge);
    return out;
  };
  const auto has = [](const std::vector<std::string>& list, const char* id) {
    return std::find(list.begin(), list.end(), id) != list.end();
  };
  d.click("compare.1");
  d.settle();
  EXPECT_TRUE(has(changed(), "body.hem"));
  EXPECT_FALSE(has(changed(), "body.fold"));
  d.click("fitting.0");
  d.settle();
  d.click("compare.0");
  d.settle();
  EXPECT_TRUE(has(changed(), "body.fold"));
  EXPECT_NE(d.see("fitting.0").value.find("2026-11-24"), std::string::npos);
  d.click("compare.2");
  d.settle();
  EXPECT_TRUE(has(changed(), "body.fold"));
  EXPECT_TRUE(has(changed(), "body.hem"));
  d.enter("fitting.words.0", "Stood still <b>");
  d.settle();
  EXPECT_EQ(d.app.ticket().fittings[0].words, "Stood still <b>");
}

TEST(FitStation, OnEveryPageAThumbReachesEveryKeyOfANote) {
  for (const auto& [w, h] : {std::pair(390.0F, 844.0F), std::pair(320.0F, 640.0F),
                             std::pair(844.0F, 390.0F), std::pair(1366.0F, 768.0F)}) {
    Driver d(a_ticket(), w, h);
    at_fit(d);
    d.click("place.breast");
    d.settle();
    d.click("kind.tight");
    d.settle();
    const Box page = d.app.layout().page;
    for (const char* id : {"key.7", "key.0", "key.1/2", "entry", "fit.keep"}) {
      const Box box = d.see(id).box;
      EXPECT_GE(box.x, 0.0F) << id << w;
      EXPECT_LE(box.right(), page.right() + 0.5F) << id << w;
      EXPECT_LE(box.bottom(), page.bottom() + 0.5F) << id << w << 'x' << h;
      EXPECT_GE(box.h, 43.0F) << id << w << 'x' << h;
    }
  }
}

TEST(FitStation, WhatNotesSayOfAReadingBecomesTheDogsOwnForEveryStyle) {
  Driver d(a_ticket());
  at_fit(d);
  const double loose = neckline(d.app.derived());
  EXPECT_FALSE(d.sees("fit.read-as.neck"));
  note(d, "neck", "loose", {"1"});
  d.click("fit.keep");
  d.settle();
  const double fits = neckline(d.app.derived());
  ASSERT_LT(fits, loose - 40.0);
  d.act("fit.read-as.neck");
  EXPECT_EQ(d.app.ticket().of(Measure::Neck).size(), 1u);
  EXPECT_NEAR(neckline(d.app.derived()), fits, 1.03 * 25.4 / 16.0) << "to the eighth of a tape";
  EXPECT_TRUE(d.app.derived().pattern->altered.empty()) << "the note is done with";
  EXPECT_EQ(d.app.ticket().fittings.size(), 1u) << "and stays on record";
  EXPECT_FALSE(d.sees("fit.read-as.neck"));
  d.press("z", true);
  EXPECT_NEAR(neckline(d.app.derived()), fits, 1e-9);
  EXPECT_EQ(d.app.ticket().of(Measure::Neck), a_ticket().of(Measure::Neck)) << "one step of undo";
}

TEST(FitStation, PrintsTheTrialPatternAndTheCardThatGoToTheDog) {
  Driver d(a_ticket());
  at_fit(d);
  const std::string card = made_by(d, "print.card").bytes;
  EXPECT_NE(card.find("Never pin on the dog"), std::string::npos);
  for (const FitPlace place : all_of<FitPlace>()) {
    EXPECT_NE(card.find(word_table()(std::string("look.") + id_of(place))), std::string::npos);
  }
  const std::string trial = made_by(d, "print.trial").bytes;
  EXPECT_NE(trial.find("<svg"), std::string::npos);
  EXPECT_EQ(trial.find("lining"), std::string::npos) << "one layer";
  for (const char* key : {"save.trial-pdf", "save.card-pdf"}) {
    EXPECT_TRUE(made_by(d, key).bytes.starts_with("%PDF-1.7")) << key;
  }
}

// The next coat of a dog keeps what was noted, and says on which readings it was based before they are
// taken again, and what became of each note after.
TEST(FitStation, OfACopiedTicketSaysOnWhichReadingsItsNotesRestAndWhatNewOnesDidToThem) {
  Ticket tried = a_ticket();
  tried.fittings = {{.notes = {{FitPlace::Neck, FitKind::Loose, FitBy::Gap, 12.7},
                               {FitPlace::Closure, FitKind::Long, FitBy::Gap, 12.7}},
                     .based_on = readings_of(*tape_of(tried))}};
  {
    Driver d(to_measure_again(tried));
    at_fit(d);
    d.click("fitting.0");
    d.settle();
    const std::string based = d.see("fitting.based").name;
    EXPECT_NE(based.find("Back "), std::string::npos) << based;
    EXPECT_NE(based.find("Neck "), std::string::npos) << based;
    EXPECT_EQ(based.find("now"), std::string::npos) << based;
    EXPECT_EQ(d.app.derived().alterations.list.size(), 2u) << "they count";
  }
  {
    Ticket unread = to_measure_again(tried);
    unread.readings = {};
    unread.carried = {};
    Driver d(unread);
    at_fit(d);
    EXPECT_TRUE(d.sees("refusal"));
    d.click("fitting.0");
    d.settle();
    EXPECT_NE(d.see("fitting.based").name.find("Neck "), std::string::npos);
    EXPECT_TRUE(d.sees("note.0.0"));
    EXPECT_FALSE(d.sees("compare.0")) << "there is no pattern yet";
    EXPECT_FALSE(d.sees("fitting.next"));
  }
  Ticket grown = tried;
  const Tape tape = *tape_of(tried);
  for (const MeasureInfo& m : measure_table()) {
    auto& readings = grown.of(m.measure);
    if (m.is_weight || readings.empty()) continue;
    char text[20];
    std::snprintf(text, sizeof text, "%.1f mm", 1.25 * tape.of(m.measure).front());
    readings = {text};
  }
  Driver d(grown);
  at_fit(d);
  d.click("fitting.0");
  d.settle();
  EXPECT_NE(d.see("fitting.based").name.find("(now "), std::string::npos);
  EXPECT_NE(d.see("note.0.0").name.find("No longer counts: Neck"), std::string::npos)
      << d.see("note.0.0").name;
  EXPECT_NE(d.see("note.0.1").name.find("\u215D in"), std::string::npos)
      << "half an inch of a dog a quarter larger: " << d.see("note.0.1").name;
  ASSERT_TRUE(d.app.derived().pattern);
  ASSERT_EQ(d.app.derived().pattern->altered.size(), 1u);
  EXPECT_NEAR(d.app.derived().pattern->altered[0].mm, -1.25 * 12.7, 0.05);
}

TEST(FitStation, OfATicketWithoutReadingsSaysWhatToMeasure) {
  Driver d(Ticket{});
  at_fit(d);
  EXPECT_TRUE(d.sees("refusal"));
  EXPECT_FALSE(d.sees("place.neck"));
}

}  // namespace
}  // namespace coatwright::studio
