// What a finger can touch and an eye can read, at every station and panel, on every size of screen
// that the studio is made for.
#include <gtest/gtest.h>

#include <functional>
#include <map>
#include <set>

#include "core/draft/options/hood.h"
#include "core/draft/styles/style.h"
#include "shell/kit/board.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

struct Size {
  const char* name;
  float width, height;
};
// A small phone, a phone both ways, a laptop zoomed to 200 %, a tablet both ways, a laptop.
constexpr Size kSizes[] = {{"small phone", 320, 640},     {"phone", 390, 844},
                           {"phone lying", 844, 390},     {"laptop at 200 %", 640, 400},
                           {"tablet upright", 820, 1180}, {"tablet", 1180, 820},
                           {"laptop", 1366, 768}};

bool is_target(const Control& c) { return !c.silent && !c.through && !only_shows(c); }

// Each style with extras, so that every control of them is there; the sixth of a walk's tickets has
// estimates, readings of an earlier coat, a client's unit and a name of its own.
Ticket full_ticket(const StyleInfo& style) {
  Ticket ticket = a_ticket();
  ticket.style = style.id;
  for (const ChoiceInfo* c : choices_of(style)) {
    if (c->named() && std::string_view(c->options.front()) == "none" && c != &kHood) {
      ticket.choices.set(*c, 1.0);
    }
  }
  ticket.carried[static_cast<size_t>(Measure::Neck)] = true;
  ticket.fittings = {{.notes = {{FitPlace::Neck, FitKind::Loose, FitBy::Gap, 7.0},
                                {FitPlace::Girth, FitKind::Tight, FitBy::Gap, 9.0}},
                      .photographs = {{"Ph0t-_0a", 960, 1280, {{0, 0.5, 0.4}}}}}};
  return ticket;
}

// Every panel there is, one after the other, each looked at.
void walk(Driver& d, const std::function<void(const std::string& where)>& look) {
  const auto here = [&](const std::string& where) {
    d.settle();
    look(where);
  };
  here("Measure");
  d.act("measure.chest");
  here("keypad");
  d.type("26 o");
  d.press("Enter");
  here("keypad, refused");
  d.press("Backspace");
  d.press("Backspace");
  d.press("Backspace");
  d.press("Backspace");
  d.act("measure.list");
  d.act("measure.neck");
  here("keypad, from an earlier coat");
  d.act("measure.list");
  d.act("measure.weight");
  here("weight");
  d.act("measure.list");
  d.act("ask-client");
  here("slip");
  d.act("station.measure");
  d.act("client-answer");
  here("answer wanted");
  for (const char* station : {"station.draft", "station.lay", "station.print", "station.make"}) {
    d.act(station);
    here(station);
  }
  d.app.stands_at({.address = {}, .photographs = true, .camera = true});
  d.act("station.fit");
  here("station.fit");
  if (d.sees("fitting.0")) {
    d.act("fitting.0");
    here("fitting");
    d.act("photo.1");
    here("photograph");
    d.act("pinned.2");
    here("pinned");
    d.act("photo.1");
  }
  d.act("station.draft");
  std::vector<std::string> folds;
  for (const Control& c : d.app.ui().controls()) {
    if (c.role == ControlRole::Fold && !c.chosen) folds.push_back(c.id);
  }
  for (const std::string& fold : folds) d.act(fold);
  here("Draft, unfolded");
  d.act("station.lay");
  for (int tab = 0; tab < 4; ++tab) {
    d.act("lay.tab." + std::to_string(tab));
    here("Lay, tab " + std::to_string(tab));
  }
  d.act("lay.tab.0");
  for (const Control& c : std::vector<Control>(d.app.ui().controls())) {
    if (c.id.starts_with("piece.0")) d.act(c.id);
  }
  here("Lay, a piece");
  d.act("station.print");
  d.act("paper.own");
  here("Print, own size");
  for (int tab = 1; tab < 5; ++tab) {
    d.act("print.tab." + std::to_string(tab));
    here("Print, tab " + std::to_string(tab));
  }
  d.act("station.make");
  std::vector<std::string> stages;
  for (const Control& c : d.app.ui().controls()) {
    if (c.role == ControlRole::Fold) stages.push_back(c.id);
  }
  for (const std::string& stage : stages) {
    if (!d.see(stage).chosen) d.act(stage);
    here("Make, " + stage);
  }
  d.act("ticket");
  here("rack");
  d.act("rack.about");
  here("about");
}

// The names that makers give may be of any length: they stand whole in their fields.
TEST(Reach, EveryTargetIsAsLargeAsAFingertipAndNoWordsAreCutShortAtAnyStationOnAnyScreen) {
  std::set<std::string> seen;
  size_t k = 0;  // sizes and styles are met in turn
  for (const Size& size : kSizes) {
    Driver d(full_ticket(*styles()[k++ % 3]), size.width, size.height);
    walk(d, [&](const std::string& where) {
      for (const std::string& words : d.app.cut_short()) {
        if (words == d.app.ticket().dog || words == d.app.ticket().name) continue;
        ADD_FAILURE() << size.name << ", " << where << ": " << words;
      }
      for (const Control& c : d.app.ui().controls()) {
        if (!is_target(c) || c.id.starts_with("sheet.")) continue;
        seen.insert(c.id);
        if (c.box.w >= kTarget - 0.5F && c.box.h >= kTarget - 0.5F) continue;
        ADD_FAILURE() << size.name << ", " << where << ": " << c.id << " " << c.box.w << "x"
                      << c.box.h;
      }
    });
  }
  EXPECT_GT(seen.size(), 150U);
}

// The whole of a control is on the page and nothing hides it.
bool is_whole(const Driver& d, const Size& size, const std::string& id) {
  const Control& c = d.see(id);
  return c.clip.h > c.box.h - 0.5F && c.clip.w > c.box.w - 0.5F && c.box.x >= 0.0F &&
         c.box.right() <= size.width + 0.5F && c.box.y >= 0.0F &&
         c.box.bottom() <= size.height + 0.5F;
}

TEST(Reach, TheKeypadWithItsKeepStandsWholeAndStillWhateverIsSaidOfTheReading) {
  const char* keys[] = {"key.7", "key.0", "key.1/8", "key.+1/16", "keep", "entry", "pad.unit"};
  for (const Size& size : kSizes) {
    Driver d(a_ticket(), size.width, size.height);
    d.act("measure.chest");
    std::map<std::string, Box> before;
    for (const char* key : keys) {
      EXPECT_TRUE(is_whole(d, size, key)) << size.name << " " << key;
      before[key] = d.see(key).box;
    }
    d.type("90");
    d.press("Enter");
    ASSERT_TRUE(d.app.view().entry_problem || !d.app.derived().findings.empty());
    d.type("x");
    d.press("Enter");
    for (const char* key : keys) EXPECT_EQ(d.see(key).box, before[key]) << size.name << " " << key;
    // Where the tape runs, or what is wrong, can be read beside the keys.
    EXPECT_GT(d.app.layout().board.h, 90.0F) << size.name;
  }
}

TEST(Reach, WordsThatStandAboveTheirTapeDoNotLieOnIt) {
  int looked_at = 0;
  for (const Size& size : kSizes) {
    if (std::min(size.width, size.height) < 560.0F) continue;
    Driver d(a_ticket(), size.width, size.height);
    const BoardMap map(d.app.layout().board, d.app.view().boards[0]);
    for (const DogTape& tape : d.app.derived().tapes) {
      const std::string id = std::string("tape.") + info(tape.measure).id;
      if (tape.label_toward.y > -0.5 || !d.sees(id)) continue;
      ++looked_at;
      const Box words = d.see(id).box.inset(6.0F, 8.0F);
      for (const Point p : tape.line) {
        EXPECT_FALSE(words.contains(map.page(p))) << size.name << " " << id;
      }
    }
  }
  EXPECT_GT(looked_at, 5);
}

TEST(Reach, OnAPhoneTheSheetBeginsWhereTheNotesOnItEnd) {
  int seen = 0;
  for (const Size& size : {kSizes[0], kSizes[1]}) {
    for (const char* station : {"station.draft", "station.lay", "station.print", "station.make"}) {
      Driver d(a_ticket(), size.width, size.height);
      d.click(station);
      d.settle();
      const float foot = d.see("note.guide.ground").box.bottom();
      for (const Area& area : d.app.ui().areas()) {
        if (!area.id.starts_with("sheet")) continue;
        EXPECT_GE(area.box.y, foot - 0.01F) << size.name << ' ' << station;
        ++seen;
      }
    }
  }
  EXPECT_EQ(seen, 8);
}

TEST(Reach, OnAPhoneNotesLeaveTheBoardToTheDog) {
  for (const Size& size : kSizes) {
    Driver d(a_ticket(), size.width, size.height);
    const BoardView alone = d.app.view().boards[0];
    d.app.tell("A ticket was opened, and something was said about it at some length.");
    d.settle();
    const bool phone = std::min(size.width, size.height) < 560.0F;
    if (!phone) continue;
    EXPECT_EQ(d.app.view().boards[0].scale, alone.scale) << size.name << ": the dog is as large";
    const Box note = d.see("notice").box, board = d.app.layout().board;
    EXPECT_EQ(intersected(note, board).w * intersected(note, board).h, 0.0F) << size.name;
    EXPECT_TRUE(is_whole(d, size, "notice.close")) << size.name;
  }
}

}  // namespace
}  // namespace coatwright::studio
