#include "shell/rack/history.h"

#include <gtest/gtest.h>

#include <random>

#include "shell/desk/start.h"
#include "shell/words/studio_words.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

// What a store would hold after all lines so far.
std::string stored(History& history, std::string& journal) {
  for (const std::string& line : history.unsaved()) journal += line + "\n";
  return journal;
}

TEST(History, UndoAndRedoGoBackAndForth) {
  History history(named("Bosun"));
  EXPECT_FALSE(history.can_undo());
  history.push(named("Hawser"), "ui.dog", 1);
  history.push(named("Fender"), "ui.dog", 2);
  history.undo();
  EXPECT_EQ(history.now().dog, "Hawser");
  history.undo();
  EXPECT_EQ(history.now().dog, "Bosun");
  EXPECT_FALSE(history.can_undo());
  history.redo();
  history.redo();
  EXPECT_EQ(history.now().dog, "Fender");
  EXPECT_FALSE(history.can_redo());
}

TEST(History, OneStrokeIsOneStep) {
  History history(named("Bosun"));
  for (const char* dog : {"H", "Ha", "Haw"}) history.push(named(dog), "ui.dog", 7);
  EXPECT_EQ(history.entries().size(), 2U);
  history.push(named("Hawser"), "ui.dog", 8);
  EXPECT_EQ(history.entries().size(), 3U);
  history.push(named("Hawser"), "ui.dog", 9);  // nothing changed
  EXPECT_EQ(history.entries().size(), 3U);
}

TEST(History, AStrokeAfterUndoDoesNotRewriteWhatWasUndone) {
  History history(named("Bosun"));
  history.push(named("Hawser"), "ui.dog", 1);
  history.undo();
  history.push(named("Fender"), "ui.dog", 1);
  EXPECT_EQ(history.entries().size(), 2U);
  history.undo();
  EXPECT_EQ(history.now().dog, "Bosun");
}

TEST(History, ComesBackFromItsJournalAfterARandomWalk) {
  std::mt19937 random(20261124);
  History history(named("Bosun"));
  std::string journal;
  int undone = 0;
  for (int i = 0; i < 400; ++i) {
    switch (random() % 4) {
      case 0:
        history.undo(), ++undone;
        break;
      case 1:
        history.redo();
        break;
      default:
        history.push(named("Dog " + std::to_string(random() % 50)), "ui.dog",
                     static_cast<int>(random() % 5));
    }
    if (random() % 3 == 0) (void)stored(history, journal);
  }
  (void)stored(history, journal);
  const Replayed back = replay(journal);
  ASSERT_FALSE(back.problem.has_value());
  EXPECT_EQ(back.entries, history.entries());
  EXPECT_EQ(back.cursor, history.cursor());
  EXPECT_GT(undone, 50);
  const Replayed anew = replay(history.journal());
  EXPECT_EQ(anew.entries, history.entries());
  EXPECT_EQ(anew.cursor, history.cursor());
}

TEST(History, SavingCostsOneLineAStep) {
  History history(named("Bosun"));
  EXPECT_EQ(history.unsaved().size(), 1U);
  history.push(named("Hawser"), "ui.dog", 1);
  EXPECT_EQ(history.unsaved().size(), 1U);
  history.undo();
  EXPECT_EQ(history.unsaved(), std::vector<std::string>{"at\t0"});
  EXPECT_TRUE(history.unsaved().empty());
}

TEST(History, ABrokenLineKeepsWhatStandsBeforeIt) {
  History history(named("Bosun"));
  history.push(named("Hawser"), "ui.dog", 1);
  std::string journal;
  (void)stored(history, journal);
  for (const char* broken :
       {"put\t9\tui.dog\t{}", "at\t77", "put\t1\tui.dog\t{\"dog\":", "nonsense", "put\t\t\t"}) {
    const Replayed back = replay(journal + broken + "\nat\t0\n");
    ASSERT_TRUE(back.problem.has_value()) << broken;
    EXPECT_EQ(back.entries.size(), 2U);
    EXPECT_EQ(back.cursor, 1U);
  }
}

}  // namespace
}  // namespace coatwright::studio
