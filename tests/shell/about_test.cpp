// What Coatwright says of itself: reached from the rack, whole in the mirror, and left again.
#include <gtest/gtest.h>

#include <algorithm>
#include <variant>

#include "core/base/version.h"
#include "core/sheet/page_blocks.h"
#include "shell/words/studio_words.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

void at_about(Driver& d) {
  d.act("ticket");
  d.settle();
  d.act("rack.about");
  d.settle();
}

bool says(const Driver& d, const std::string& words) {
  return std::any_of(d.app.ui().controls().begin(), d.app.ui().controls().end(),
                     [&](const Control& c) { return c.name == words; });
}

TEST(About, SaysTheVersionWhatItIsWhatItIsNotAndTheCautions) {
  Driver d(a_ticket());
  at_about(d);
  EXPECT_NE(d.see("about.version").name.find(version()), std::string::npos);
  for (const char* key : {"ui.about-what", "ui.about-here", "ui.about-not"}) {
    EXPECT_TRUE(says(d, studio_words()(key))) << key;
  }
  for (const char* key : kCautions) EXPECT_TRUE(says(d, studio_words()(key))) << key;
}

TEST(About, NamesEveryPartThatShips) {
  Driver d(a_ticket());
  at_about(d);
  int parts = 0;
  for (const std::string& key : studio_words().keys()) {
    if (!key.starts_with("ui.part.")) continue;
    ++parts;
    EXPECT_TRUE(says(d, studio_words()(key))) << key;
  }
  EXPECT_GE(parts, 12);
}

TEST(About, OpensTheNoticesOfItsSiteAndSaysWhereTheyLieWithoutOne) {
  Driver d(a_ticket());
  at_about(d);
  EXPECT_FALSE(d.sees("about.notices"));
  EXPECT_TRUE(d.sees("about.notices-there"));
  d.app.stands_at({"https://studio.example/", false});
  d.settle();
  d.click("about.notices");
  d.settle();
  const Effects effects = d.app.take_effects();
  ASSERT_EQ(effects.size(), 1u);
  EXPECT_EQ(std::get<OpenPage>(effects[0]).file, "notices.txt");
}

TEST(About, IsLeftByItsButtonAndByEscapeToTheRack) {
  Driver d(a_ticket());
  at_about(d);
  EXPECT_FALSE(d.sees("rack.title"));
  d.press("Escape");
  d.settle();
  EXPECT_FALSE(d.sees("about.title"));
  EXPECT_TRUE(d.sees("rack.title"));
  d.act("rack.about");
  d.settle();
  d.act("about.close");
  d.settle();
  EXPECT_TRUE(d.sees("rack.title"));
  // The rack that is opened anew shows itself.
  d.act("rack.about");
  d.settle();
  d.act("station.draft");
  d.settle();
  d.act("ticket");
  d.settle();
  EXPECT_TRUE(d.sees("rack.title"));
}

}  // namespace
}  // namespace coatwright::studio
