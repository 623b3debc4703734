// Photographs of fittings: taken, looked at, pinned, undone, saved and put back.
#include "core/fit/photograph.h"

#include <gtest/gtest.h>

#include <set>

#include "core/rack/backup.h"
#include "core/slip/ticket_code.h"
#include "core/ticket/ids.h"
#include "shell/desk/letters.h"
#include "shell/desk/outputs.h"
#include "shell/kit/painter.h"
#include "shell/pages/forms.h"
#include "shell/words/studio_words.h"
#include "tests/shell/driver.h"
#include "tests/shell/memory_store.h"

namespace coatwright::studio {
namespace {

// A page's textures, counted.
class FakeScreen : public Letters {
 public:
  FakeScreen() { use_letters(this); }
  ~FakeScreen() override {
    forget_script_lines();
    use_letters(nullptr);
  }
  float width(const std::string&, bool, float size) override { return size; }
  size_t fitting(const std::string&, bool, float, float) override { return 1; }
  TextPicture draw(const std::string&, bool, float, const std::string&) override {
    return {1, 1, 0, 0, {0, 0, 0, 0}};
  }
  void* upload(const TextPicture&) override {
    held.insert(++last);
    return reinterpret_cast<void*>(static_cast<std::uintptr_t>(last));
  }
  void drop(void* texture) override {
    EXPECT_EQ(held.erase(static_cast<long>(reinterpret_cast<std::uintptr_t>(texture))), 1U);
  }
  std::set<long> held;
  long last = 0;
};

constexpr int kWide = 1280, kHigh = 960;
const TextPicture kPixels{2, 1, 0, 0, {1, 2, 3, 255, 4, 5, 6, 255}};

Fitting a_fitting() {
  return {.notes = {{FitPlace::Neck, FitKind::Loose, FitBy::Gap, 7.0},
                    {FitPlace::Girth, FitKind::Tight, FitBy::Gap, 9.0}}};
}
Ticket fitted(std::vector<Photograph> photographs = {}) {
  Ticket ticket = a_ticket();
  ticket.fittings = {a_fitting()};
  ticket.fittings[0].photographs = std::move(photographs);
  return ticket;
}
Photograph photo(const std::string& id) { return {id, kWide, kHigh}; }

Site a_page() {
  return {.address = "https://harbour.example/", .photographs = true, .camera = true};
}

void at_fitting(Driver& d) {
  d.app.stands_at(a_page());
  d.act("station.fit");
  d.settle();
  d.click("fitting.0");
  d.settle();
  (void)d.app.take_effects();
}

template <class T>
std::vector<T> effects_of(Driver& d) {
  std::vector<T> out;
  for (const Effect& effect : d.app.take_effects()) {
    if (const auto* one = std::get_if<T>(&effect)) out.push_back(*one);
  }
  return out;
}

// Chosen, made small and kept by the page.
std::string taken(Driver& d) {
  d.click("photo.choose");
  d.settle();
  const auto asked = effects_of<AskForPhoto>(d);
  EXPECT_EQ(asked.size(), 1U);
  if (asked.empty()) return {};
  EXPECT_EQ(asked[0].key.ticket, d.app.rack().open_id());
  d.app.photo_taken(asked[0].key.id, kWide, kHigh);
  d.settle();
  return asked[0].key.id;
}

const Photograph& first(Driver& d) { return d.app.ticket().fittings.at(0).photographs.at(0); }

TEST(Photographs, OneIsChosenOrTakenAndIsAStepOfUndo) {
  Driver d(fitted());
  at_fitting(d);
  EXPECT_NE(d.see("photo.stays").name.find("place and time"), std::string::npos);
  d.click("photo.take");
  d.settle();
  const auto camera = effects_of<AskForPhoto>(d);
  ASSERT_EQ(camera.size(), 1U);
  EXPECT_TRUE(camera[0].camera);
  EXPECT_TRUE(is_ticket_id(camera[0].key.id));
  const std::string id = taken(d);
  EXPECT_NE(id, camera[0].key.id) << "that one never came";
  EXPECT_EQ(d.app.ticket().fittings[0].photographs, std::vector<Photograph>{photo(id)});
  EXPECT_TRUE(d.sees("photo.1"));
  (void)taken(d);
  EXPECT_EQ(d.app.ticket().fittings[0].photographs.size(), kMostPhotographs);
  EXPECT_FALSE(d.sees("photo.choose")) << "there are no more than two";
  d.click("undo");
  d.settle();
  EXPECT_EQ(d.app.ticket().fittings[0].photographs, std::vector<Photograph>{photo(id)});
  d.click("photo.1.remove");
  d.settle();
  EXPECT_TRUE(d.app.ticket().fittings[0].photographs.empty());
  d.click("undo");
  d.settle();
  EXPECT_EQ(d.app.ticket().fittings[0].photographs, std::vector<Photograph>{photo(id)});
}

TEST(Photographs, OneThatComesToAnotherTicketOrUnaskedIsToldAndNotTaken) {
  Driver d(fitted());
  at_fitting(d);
  d.click("photo.choose");
  d.settle();
  const auto asked = effects_of<AskForPhoto>(d);
  ASSERT_EQ(asked.size(), 1U);
  d.app.photo_taken("Ph0t-_0z", kWide, kHigh);
  d.settle();
  EXPECT_NE(d.app.view().notice.find("choose it again"), std::string::npos);
  EXPECT_TRUE(d.app.ticket().fittings[0].photographs.empty());
  d.app.photo_taken(asked[0].key.id, kWide, kHigh);
  EXPECT_TRUE(d.app.ticket().fittings[0].photographs.empty()) << "nothing is asked for any more";
}

TEST(Photographs, ItsPixelsAreAskedForOnceWhenItIsLookedAtAndOneTextureIsHeld) {
  FakeScreen screen;
  {
    Driver d(fitted({photo("Ph0t-_0a"), photo("Ph0t-_0b")}));
    at_fitting(d);
    EXPECT_TRUE(effects_of<ShowPhoto>(d).empty()) << "not before that";
    d.click("photo.1");
    d.settle();
    const auto shown = effects_of<ShowPhoto>(d);
    ASSERT_EQ(shown.size(), 1U);
    EXPECT_EQ(shown[0].key, (PhotoKey{d.app.rack().open_id(), "Ph0t-_0a"}));
    EXPECT_TRUE(d.sees("photo.state"));
    d.app.photo_shown("Ph0t-_0b", kPixels);
    EXPECT_TRUE(screen.held.empty()) << "another one";
    d.app.photo_shown("Ph0t-_0a", kPixels);
    d.settle();
    EXPECT_EQ(screen.held.size(), 1U);
    EXPECT_FALSE(d.sees("photo.state"));
    EXPECT_EQ(d.see("board").name, "Photograph 1");
    d.click("photo.2");
    d.settle();
    EXPECT_TRUE(screen.held.empty());
    d.app.photo_shown("Ph0t-_0b", {});
    d.settle();
    EXPECT_NE(d.see("photo.state").name.find("not in this rack"), std::string::npos);
    d.click("photo.2");
    d.settle();
    EXPECT_TRUE(d.sees("pin.neck")) << "the dog again";
    d.click("photo.1");
    d.settle();
    EXPECT_EQ(effects_of<ShowPhoto>(d).size(), 2U) << "the second, and now the first anew";
    d.app.photo_shown("Ph0t-_0a", kPixels);
    d.app.forget_photo();  // the graphics are gone
    d.settle();
    EXPECT_TRUE(screen.held.empty());
    EXPECT_EQ(effects_of<ShowPhoto>(d).size(), 1U);
    d.app.photo_shown("Ph0t-_0a", kPixels);
  }
  EXPECT_TRUE(screen.held.empty()) << "none is left behind";
}

TEST(Photographs, ANoteIsPinnedByFingerMouseAndKeysAndToldToTheMirror) {
  Driver d(fitted({photo("Ph0t-_0a")}));
  at_fitting(d);
  d.click("photo.1");
  d.settle();
  EXPECT_FALSE(d.sees("photo.pin.2"));
  d.click("pinned.2");
  d.settle();
  EXPECT_EQ(first(d).pins, (std::vector<PhotoPin>{{1, 0.5, 0.5}})) << "in the middle at first";
  // A touch of the picture.
  const Spot middle = d.see("photo.pin.2").box.centre() - Spot{0.0F, 38.0F};
  const Box board = d.app.layout().board;
  const float quarter = 0.25F * 2.0F * (board.centre().x - board.x) * 0.5F;
  d.tap_at(middle - Spot{quarter, 0.0F});
  d.settle();
  ASSERT_EQ(first(d).pins.size(), 1U);
  EXPECT_LT(first(d).pins[0].x, 0.4);
  EXPECT_NEAR(first(d).pins[0].y, 0.5, 0.01);
  // A drag of its head, by what the picture measures on the board.
  const PhotoPin before = first(d).pins[0];
  const int redrafts = d.app.derived().redrafts;
  d.drag("photo.pin.2", 60.0F, -30.0F);
  d.settle();
  const PhotoPin after = first(d).pins[0];
  EXPECT_GT(after.x, before.x + 0.03);
  EXPECT_NEAR((after.x - before.x) * kWide / 60.0, (before.y - after.y) * kHigh / 30.0, 0.1)
      << "the picture is not stretched";
  EXPECT_EQ(d.app.derived().redrafts, redrafts) << "a pin drafts nothing";
  d.press("z", true);
  d.settle();
  EXPECT_EQ(first(d).pins[0], before) << "one step of undo";
  // Keys.
  d.app.focus("photo.pin.2", true);
  d.press("ArrowRight");
  d.press("ArrowDown", false, true);
  d.settle();
  EXPECT_NEAR(first(d).pins[0].x, before.x + 0.01, 1e-3);
  EXPECT_NEAR(first(d).pins[0].y, before.y + 0.1, 1e-3);
  EXPECT_EQ(d.see("board").name, "Photograph 1. Pins: 2 Chest: tight, ⅜ in");
  EXPECT_EQ(d.see("photo.pin.2").name, "Pin 2, Chest: tight, ⅜ in");
  EXPECT_NE(d.see("photo.pin.2").value.find("% across"), std::string::npos);
  d.press("Delete");
  d.settle();
  EXPECT_TRUE(first(d).pins.empty());
  d.press("z", true);
  d.settle();
  EXPECT_EQ(first(d).pins.size(), 1U) << "taking it off is a step of its own";
}

TEST(Photographs, APinOutsideStaysOnThePictureAndATouchBesideItPinsNothing) {
  Driver d(fitted({photo("Ph0t-_0a")}));
  at_fitting(d);
  d.click("photo.1");
  d.settle();
  d.click("pinned.1");
  d.settle();
  d.drag("photo.pin.1", -2000.0F, -2000.0F);
  d.settle();
  EXPECT_EQ(first(d).pins, (std::vector<PhotoPin>{{0, 0.0, 0.0}}));
  const Box board = d.app.layout().board;
  d.tap_at({board.x + 6.0F, board.bottom() - 30.0F});
  d.settle();
  EXPECT_EQ(first(d).pins, (std::vector<PhotoPin>{{0, 0.0, 0.0}}));
}

TEST(Photographs, ANoteThatIsMadeWhileOneIsLookedAtIsPinnedThereWithTheNextTouch) {
  Ticket ticket = fitted({photo("Ph0t-_0a")});
  ticket.fittings[0].based_on = readings_of(*tape_of(ticket));
  Driver d(ticket);
  at_fitting(d);
  d.click("photo.1");
  d.settle();
  for (const char* id : {"place.tail", "kind.short", "key.1/2", "fit.keep"}) {
    d.click(id);
    d.settle();
  }
  ASSERT_EQ(d.app.ticket().fittings.size(), 1U);
  ASSERT_EQ(d.app.ticket().fittings[0].notes.size(), 3U);
  EXPECT_TRUE(d.see("photo.1").chosen) << "the photograph is there again";
  EXPECT_TRUE(d.see("pinned.3").chosen);
  d.tap_at(d.app.layout().board.centre());
  d.settle();
  ASSERT_EQ(first(d).pins.size(), 1U);
  EXPECT_EQ(first(d).pins[0].note, 2U);
}

TEST(Photographs, AWindowThatFollowsAsksForNoneAndSaysWhy) {
  Driver d(fitted());
  at_fitting(d);
  d.app.follow();
  d.settle();
  d.click("photo.choose");
  d.settle();
  EXPECT_TRUE(effects_of<AskForPhoto>(d).empty());
  EXPECT_EQ(d.app.view().notice, studio_words()("ui.follows-refused"));
}

TEST(Photographs, TheNativeWindowSaysWhereTheyAreShownAndKeepsWhatStandsOnThem) {
  Driver d(fitted({{"Ph0t-_0a", kWide, kHigh, {{0, 0.5, 0.25}}}}));
  d.act("station.fit");
  d.settle();
  d.click("fitting.0");
  d.settle();
  EXPECT_TRUE(d.sees("photo.stays"));
  EXPECT_FALSE(d.sees("photo.choose"));
  d.click("photo.1");
  d.settle();
  EXPECT_NE(d.see("photo.state").name.find("in a browser"), std::string::npos);
  EXPECT_TRUE(d.sees("photo.pin.1"));
  EXPECT_TRUE(effects_of<ShowPhoto>(d).empty());
}

TEST(Photographs, NothingThatLeavesTheRackHasOne) {
  const Ticket ticket = fitted({{"Ph0t-_0a", kWide, kHigh, {{0, 0.5, 0.25}}}});
  const auto code = write_ticket_code(ticket);
  ASSERT_TRUE(code.ok());
  EXPECT_EQ(read_ticket_code(*code).value(), without_photographs(ticket));
  Driver d(ticket);
  d.app.stands_at(a_page());
  d.act("station.print");
  d.settle();
  d.act("print.tab.3");
  d.settle();
  EXPECT_NE(d.see("ticket.photographs").name.find("stay in this rack"), std::string::npos);
  d.click("save.pieces");
  const Effects effects = d.app.take_effects();
  for (const std::string& text :
       {ticket_file(ticket).bytes, std::get<PressForm>(effects.at(0)).order}) {
    EXPECT_EQ(text.find("Ph0t-_0a"), std::string::npos);
    EXPECT_NE(text.find("girth"), std::string::npos) << "the notes are there";
  }
}

TEST(Photographs, AFileOfATicketOpensTheOneThatHangsHereWithThem) {
  MemoryStore store;
  Rack rack = store.start();
  const Ticket ticket = fitted({photo("Ph0t-_0a")});
  rack.add(ticket);
  const std::string id = rack.open_id();
  rack.add(named("Hawser"));
  const auto file = read_ticket(ticket_file(ticket).bytes);
  ASSERT_TRUE(file.ok());
  rack.add(*file);
  EXPECT_EQ(rack.open_id(), id);
  EXPECT_EQ(rack.history().now(), ticket);
}

TEST(Photographs, OneThatNoStepHasAnyMoreIsLetGoWithTheChangeThatTookItsPlace) {
  MemoryStore store;
  Rack rack = store.start();
  rack.add(fitted());
  (void)rack.take_keeps();
  rack.push(fitted({photo("Ph0t-_0a")}), "ui.photograph", 1);
  rack.push(fitted({photo("Ph0t-_0a"), photo("Ph0t-_0b")}), "ui.photograph", 2);
  rack.push(fitted({photo("Ph0t-_0b")}), "ui.photograph", 3);
  const auto gone = [&] {
    std::vector<std::string> out;
    for (const Keep& keep : rack.take_keeps()) {
      out.insert(out.end(), keep.gone.begin(), keep.gone.end());
      EXPECT_EQ(keep_json(keep).find("\"gone\":[]") == std::string::npos, !keep.gone.empty());
    }
    return out;
  };
  EXPECT_TRUE(gone().empty()) << "undo brings the first one back";
  rack.undo();
  rack.undo();
  EXPECT_TRUE(gone().empty()) << "redo brings the second one back";
  Ticket other = fitted({photo("Ph0t-_0a")});
  other.dog = "Hawser";
  rack.push(other, "ui.dog", 4);
  EXPECT_EQ(gone(), std::vector<std::string>{"Ph0t-_0b"}) << "the first one stands on the ticket";
  rack.undo();
  rack.undo();
  EXPECT_TRUE(gone().empty());
  rack.push(fitted({photo("Ph0t-_0a")}), "ui.open-ticket", 5);
  EXPECT_TRUE(gone().empty()) << "what takes their place has it";
}

// What the page's store would answer.
std::vector<std::string> saved(Rack& rack, bool with, const std::string& lacks, int* missing) {
  Saving saving(rack, with);
  while (saving.write_on(rack)) {
    const auto wanted = saving.take_wanted();
    EXPECT_EQ(saving.waits(), wanted.has_value());
    if (!wanted) continue;
    saving.photo_read("Ph0t-_0z", "AAAA");  // another one's answer
    EXPECT_TRUE(saving.waits());
    saving.photo_read(wanted->id, wanted->id == lacks ? "" : "/9j/2Q==");
  }
  *missing = saving.photos_missing();
  return std::move(saving).finish(rack);
}

TEST(Photographs, ABackupHasThemIfItIsWantedAndTellsHowManyAreNotThere) {
  MemoryStore store;
  Rack rack = store.start();
  rack.add(fitted({photo("Ph0t-_0a"), photo("Ph0t-_0b")}));
  int missing = 0;
  const auto bare = saved(rack, false, "", &missing);
  EXPECT_TRUE(read_backup(bare[0])->photos.empty());
  EXPECT_EQ(missing, 0);
  const auto whole = saved(rack, true, "Ph0t-_0b", &missing);
  EXPECT_EQ(missing, 1);
  const std::string id = rack.open_id();
  EXPECT_EQ(read_backup(whole[0])->photos, (std::vector<KeptPhoto>{{id, "Ph0t-_0a", "/9j/2Q=="}}));
  EXPECT_EQ(read_backup(whole[0])->unreadable, 0);
}

TEST(Photographs, ABackupBringsThemUnderTheIdThatTheirTicketHasHere) {
  MemoryStore here;
  Rack rack = here.start();
  rack.add(fitted({photo("Ph0t-_0a")}));
  const std::string id = rack.open_id();
  int missing = 0;
  const std::string file = saved(rack, true, "", &missing)[0];
  const auto photos_of = [](Rack& r, const std::string& text, TakeBack answer) {
    Restore restore(text);
    while (restore.work_on(r)) {
    }
    if (restore.stage() == Restore::Stage::Asking) {
      restore.choose({answer});
      while (restore.work_on(r)) {
      }
    }
    return restore.take_photos();
  };
  const auto one = [](const std::string& ticket) {
    return std::vector<KeptPhoto>{{ticket, "Ph0t-_0a", "/9j/2Q=="}};
  };
  MemoryStore there;
  Rack other = there.start();
  EXPECT_EQ(photos_of(other, file, TakeBack::Mine), one(id)) << "new there";
  EXPECT_EQ(photos_of(other, file, TakeBack::Mine), one(id)) << "there already, perhaps without it";
  // The same ticket under another id.
  Rack twin = there.start();
  twin.add(fitted({photo("Ph0t-_0a")}));
  const std::string own = twin.open_id();
  std::string renamed = file;
  for (size_t at = renamed.find(id); at != std::string::npos; at = renamed.find(id)) {
    renamed.replace(at, id.size(), "ZZZZZZZZ");
  }
  EXPECT_EQ(photos_of(twin, renamed, TakeBack::Mine), one(own));
  // One that hangs here otherwise.
  const std::string there_id = "ZZZZZZZZ";
  for (const TakeBack answer : {TakeBack::Mine, TakeBack::Theirs, TakeBack::Both}) {
    MemoryStore store;
    Rack differs = store.start();
    (void)photos_of(differs, renamed, TakeBack::Mine);
    differs.open(there_id);
    (void)differs.take_wanted();
    (void)differs.history_read(there_id, "");
    Ticket changed = differs.history().now();
    changed.dog = "Hawser";
    differs.push(changed, "ui.dog", 9);
    const auto got = photos_of(differs, renamed, answer);
    const bool theirs = answer == TakeBack::Theirs;
    EXPECT_EQ(got.size(), answer == TakeBack::Mine ? 0U : 1U);
    EXPECT_EQ(got == one(there_id), theirs);
    if (answer == TakeBack::Both) {
      ASSERT_EQ(got.size(), 1U);
      EXPECT_NE(got[0].ticket, there_id);
      ASSERT_NE(differs.card(got[0].ticket), nullptr);
      EXPECT_EQ(differs.card(got[0].ticket)->ticket.dog, "Bosun");
    }
  }
}

TEST(Photographs, TheRackOffersABackupWithThemWhereThereAreAny) {
  Driver d(fitted({photo("Ph0t-_0a")}));
  d.app.stands_at(a_page());
  d.click("ticket");
  d.settle();
  EXPECT_EQ(d.see("rack.photographs").name, "With its photographs (1)");
  EXPECT_FALSE(d.see("rack.photographs").chosen) << "without, unless it is wanted";
  d.click("rack.backup");
  d.settle();
  ASSERT_EQ(effects_of<SaveFile>(d).size(), 1U);
  d.click("rack.photographs");
  d.settle();
  d.click("rack.backup");
  d.settle();
  auto effects = d.app.take_effects();
  const auto* wanted = effects.empty() ? nullptr : std::get_if<ReadPhoto>(&effects[0]);
  ASSERT_NE(wanted, nullptr);
  EXPECT_EQ(wanted->key, (PhotoKey{d.app.rack().open_id(), "Ph0t-_0a"}));
  EXPECT_FALSE(d.app.wants_frame()) << "it waits, and draws nothing meanwhile";
  d.app.photo_read("Ph0t-_0a", "/9j/2Q==");
  d.settle();
  const auto files = effects_of<SaveFile>(d);
  ASSERT_EQ(files.size(), 1U);
  EXPECT_EQ(read_backup(files[0].bytes)->photos.size(), 1U);

  // Put back: the page is to keep them.
  d.app.open_file(files[0].bytes);
  d.settle();
  const auto kept = effects_of<KeepPhoto>(d);
  ASSERT_EQ(kept.size(), 1U);
  EXPECT_EQ(kept[0].jpeg, "/9j/2Q==");
  d.app.stands_at({});  // a window that has no place for them
  d.app.open_file(files[0].bytes);
  d.settle();
  EXPECT_TRUE(effects_of<KeepPhoto>(d).empty());
  EXPECT_NE(d.app.view().notice.find("in a browser"), std::string::npos) << d.app.view().notice;
}

}  // namespace
}  // namespace coatwright::studio
