// The page's mirror: whole, in reading order, and with one stop of the Tab key for what belongs together.
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <deque>
#include <set>
#include <sstream>

#include "shell/kit/painter.h"
#include "shell/words/studio_words.h"
#include "tests/core/support/asked.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

struct Drawn {
  std::string words;
  Box box;
};

// Hears what is drawn while it lives.
class Ear {
 public:
  Ear() {
    overhear([this](std::string_view words, const Box& box) {
      drawn.push_back({std::string(words), box});
    });
  }
  ~Ear() { overhear(nullptr); }
  Ear(const Ear&) = delete;
  Ear& operator=(const Ear&) = delete;
  std::vector<Drawn> drawn;
};

// Words without what only sets them: kinds of spaces and of slashes, and a sign before them.
std::string plain(std::string words) {
  for (const auto& [from, to] : {std::pair{"\u2044", "/"}, {"\u00A0", " "}, {"\n", " "}}) {
    for (size_t at = 0; (at = words.find(from)) != std::string::npos;) {
      words.replace(at, std::string_view(from).size(), to);
    }
  }
  for (size_t at = 0; (at = words.find("  ")) != std::string::npos;) words.erase(at, 1);
  if (words.starts_with("✓ ")) words.erase(0, std::string_view("✓ ").size());
  return words;
}

bool has_letters(const std::string& words) {
  return std::any_of(words.begin(), words.end(),
                     [](char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; });
}

bool stands_in(const std::string& words, const Control& c) {
  const std::string all = plain(c.name + "\n" + c.value + "\n" + c.note + "\n" + c.group);
  return all.find(words) != std::string::npos;
}

// A label may stand a line above its control.
bool is_at(const Box& text, const Control& c) {
  const Box reach{c.box.x - 8.0F, c.box.y - 42.0F, c.box.w + 16.0F, c.box.h + 50.0F};
  const float w = std::max(1.0F, text.w), h = std::max(1.0F, text.h);
  return intersected(reach, {text.x, text.y - 0.5F, w, h}).w > 0.0F &&
         intersected(reach, {text.x, text.y - 0.5F, w, h}).h > 0.0F;
}

// Short forms that are painted where a telephone has no room for the words, which the mirror has.
bool is_short_form(const std::string& words) {
  static const std::set<std::string> forms = [] {
    std::set<std::string> out;
    for (const std::string& key : studio_words().keys()) {
      if (key.ends_with("-brief") || key.ends_with("-short") || key.ends_with(".short") ||
          key.find("-brief-") != std::string::npos) {
        out.insert(plain(studio_words()(key)));
      }
    }
    return out;
  }();
  // What is filled in may be anything.
  return std::any_of(forms.begin(), forms.end(), [&](const std::string& form) {
    const size_t from = form.find('{'), to = form.rfind('}');
    if (from == std::string::npos) return form == words;
    return words.starts_with(form.substr(0, from)) && words.ends_with(form.substr(to + 1));
  });
}

// Where it stands, with its words; empty: it does. A sign or a figure on a control has its name.
std::string stray(const Drawn& drawn, const std::vector<Control>& controls) {
  const std::string words = plain(drawn.words);
  if (words.find_first_not_of(' ') == std::string::npos) return {};
  bool on_control = false;
  for (const Control& c : controls) {
    if (c.silent || !is_at(drawn.box, c)) continue;
    if (stands_in(words, c)) return {};
    on_control = on_control || (!only_shows(c) && !c.name.empty());
  }
  if (on_control && (!has_letters(words) || is_short_form(words))) return {};
  return words;
}

// A photograph of the fitting that is unfolded, where the page takes any.
template <class Look>
void photograph(Driver& d, const Look& look) {
  if (!d.sees("photo.choose")) return;
  d.act("photo.choose");
  d.settle();
  for (const Effect& effect : d.app.take_effects()) {
    if (const auto* ask = std::get_if<AskForPhoto>(&effect)) d.app.photo_taken(ask->key.id, 4, 3);
  }
  d.settle();
  d.act("photo.1");
  d.settle();
  look("fit, a photograph on its way");
  d.app.photo_shown(d.app.ticket().fittings.back().photographs.back().id, {});
  d.act("pinned.1");
  d.settle();
  look("fit, a photograph that is not there, and a pin");
  d.act("photo.1");
  d.settle();
}

// What is seen of the studio: every station, panel, list and note that has words of its own.
template <class Look>
void visit(Driver& d, const Look& look) {
  const auto at = [&](const std::string& station, const std::string& scene) {
    d.act("station." + station);
    d.settle(4000);
    look(station + ", " + scene);
  };
  at("measure", "the list");
  for (const char* m : {"measure.chest", "measure.neck", "measure.weight"}) {
    d.act(m);
    look(m);
    d.enter("entry", "sixteen\n");
    look(std::string(m) + ", with an entry that is refused");
    d.enter("entry", "");
    d.act("measure.list");
  }
  d.act("station.draft");
  d.settle();
  for (const Control& c : std::vector<Control>(d.app.ui().controls())) {
    if (c.role == ControlRole::Fold && c.enabled && !c.chosen) d.act(c.id);
  }
  at("draft", "all options unfolded");
  for (const Control& c : std::vector<Control>(d.app.ui().controls())) {
    if (c.id.starts_with("line.")) {
      d.act(c.id);
      look("draft, " + c.id);
      break;
    }
  }
  at("fit", "the dog");
  if (d.sees("pin.tail")) {
    d.act("pin.tail");
    look("fit, a place");
    d.act("kind.short");
    look("fit, an amount");
    d.enter("entry", "1/2");
    d.settle();
    look("fit, what a note would do");
    d.enter("entry", "90\n");
    look("fit, an amount that is refused");
    d.enter("entry", "1/2\n");
    d.settle();
    look("fit, a fitting");
    photograph(d, look);
    d.act("pin.tail");
    d.act("kind.long");
    d.enter("entry", "3/8\n");
    d.settle();
    d.act("fitting.next");
    d.settle();
    d.act("compare.2");
    d.settle();
    look("fit, notes that contradict one another, and what all fittings changed");
  }
  for (int tab = 0; tab < 4; ++tab) {
    d.act("station.lay");
    d.settle(4000);
    if (d.sees("lay.tab.0")) d.act("lay.tab." + std::to_string(tab));
    d.settle(4000);
    look("lay, tab " + std::to_string(tab));
  }
  if (d.sees("lay.tab.0")) d.act("lay.tab.0");
  for (const char* id : {"lay.view.1", "lay.view.2", "laid.0", "company.adding"}) {
    if (d.sees(id)) d.act(id);
    d.settle(400);
    look(std::string("lay, ") + id);
  }
  at("print", "the plan");
  if (d.sees("sheet.0")) d.act("sheet.0");
  look("print, one sheet");
  for (int tab = 4; tab >= 0; --tab) {
    d.act("print.tab." + std::to_string(tab));
    look("print, tab " + std::to_string(tab));
  }
  at("make", "the course");
  for (const Control& c : std::vector<Control>(d.app.ui().controls())) {
    if (c.role != ControlRole::Fold) continue;
    if (!d.see(c.id).chosen) d.act(c.id);
    d.settle();
    look("make, " + c.id);
    for (const Control& step : std::vector<Control>(d.app.ui().controls())) {
      if (!step.id.starts_with("step.")) continue;
      d.act(step.id);
      look("make, " + step.id);
      break;
    }
  }
  d.act("ticket");
  d.settle(400);
  look("the rack");
  d.act("rack.about");
  look("about");
  d.act("about.close");
  d.act("rack.answer");
  d.settle();
  look("an answer to come");
  d.act("answer.close");
  d.act("station.measure");
  d.act("ask-client");
  d.settle();
  look("a slip");
  d.act("slip.close");
}

// A ticket with a finding, one with nothing, and one of a former rule.
std::vector<Ticket> tickets() {
  Ticket loose = a_ticket();
  loose.of(Measure::Neck) = {"22 in"};
  Ticket former = a_ticket();
  former.drafted_by = kFirstRule;
  former.of(Measure::Throat).clear();
  Ticket repeated = a_ticket();
  repeated.of(Measure::Chest) = {"27 in", "28 in", "26 1/2 in"};
  repeated.birth = BirthMonth{2024, 5};
  return {a_ticket(), loose, former, repeated, Ticket{}};
}

void expect_order(const std::string& scene, const std::vector<Control>& controls) {
  const Control* before = nullptr;
  for (const Control& c : controls) {
    if (c.silent || c.area.empty()) continue;
    // Never back up to something in the same column.
    if (before != nullptr && before->area == c.area && before->item == c.item) {
      const bool above = c.box.bottom() < before->box.y + 1.0F;
      const bool same_column = c.box.x < before->box.right() && before->box.x < c.box.right();
      EXPECT_FALSE(above && same_column) << scene << ": " << c.id << " behind " << before->id;
    }
    before = &c;
  }
}

TEST(Mirror, EveryWordThatIsDrawnStandsInItWhereItIsDrawnAndInReadingOrder) {
  std::set<std::string> told;
  size_t checked = 0, scenes = 0;
  for (const auto& page : {std::pair{1180.0F, 820.0F}, {390.0F, 844.0F}}) {
    const float width = page.first;
    for (const Ticket& ticket : coatwright::test::asked_of(tickets())) {
      Driver d(ticket, width, page.second);
      d.app.stands_at({.address = "https://harbour.example/",
                       .shares = true,
                       .photographs = true,
                       .camera = true});
      visit(d, [&](const std::string& scene) {
        ++scenes;
        Ear ear;
        d.redraw();
        for (const Drawn& drawn : ear.drawn) {
          ++checked;
          const std::string words = stray(drawn, d.app.ui().controls());
          if (!words.empty() && told.insert(words).second) {
            ADD_FAILURE() << scene << " at " << width << ": “" << words << "” is drawn only";
          }
        }
        expect_order(scene, d.app.ui().controls());
      });
    }
  }
  EXPECT_GT(checked, coatwright::test::kAllAsked ? 10000U : 1000U);
  EXPECT_GT(scenes, coatwright::test::kAllAsked ? 200U : 50U);
}

// What is drawn as chosen says so to who does not see it.
TEST(Mirror, WhatIsChosenHasARoleThatSaysSo) {
  Driver d(a_ticket());
  size_t chosen = 0;
  visit(d, [&](const std::string& scene) {
    for (const Control& c : d.app.ui().controls()) {
      if (!c.chosen || c.silent) continue;
      ++chosen;
      EXPECT_NE(c.role, ControlRole::Button) << scene << ": " << c.id;
    }
  });
  EXPECT_GT(chosen, 100U);
}

TEST(Mirror, EveryPartAndEveryExplanationThatIsNamedIsThere) {
  Driver d(a_ticket());
  size_t explained = 0;
  visit(d, [&](const std::string& scene) {
    for (const Part& part : d.app.ui().parts()) {
      EXPECT_TRUE(!part.name.empty() || d.sees(part.named_by)) << scene << ": " << part.id;
    }
    for (const Control& c : d.app.ui().controls()) {
      std::istringstream ids{std::string(c.about)};
      for (std::string id; ids >> id; ++explained) EXPECT_TRUE(d.sees(id)) << scene << ": " << id;
    }
  });
  EXPECT_GT(explained, 4U);
}

Control option(const std::string& id, bool chosen = false) {
  return {.id = id, .role = ControlRole::Option, .group = "g", .chosen = chosen, .in_set = true};
}

// By the ARIA Authoring Practices: the Tab key comes to the chosen one of a radio group, or to the first
// if none is; arrows go round.
TEST(Mirror, AGroupIsOneStopOfTheTabKeyAndArrowsGoRoundInIt) {
  const std::vector<Control> controls = {
      {.id = "before"}, option("a"), option("b", true), option("c"), {.id = "behind"}};
  EXPECT_EQ(next_stop(controls, "before", 1), "b");
  EXPECT_EQ(next_stop(controls, "b", 1), "behind");
  EXPECT_EQ(next_stop(controls, "a", 1), "behind") << "the focus was moved within";
  EXPECT_EQ(next_stop(controls, "behind", -1), "b");
  EXPECT_EQ(beside(controls, "b", "ArrowRight"), "c");
  EXPECT_EQ(beside(controls, "c", "ArrowDown"), "a");
  EXPECT_EQ(beside(controls, "a", "ArrowLeft"), "c");
  EXPECT_EQ(beside(controls, "b", "Home"), "a");
  EXPECT_EQ(beside(controls, "b", "End"), "c");
  EXPECT_EQ(beside(controls, "before", "ArrowRight"), "");
  std::vector<Control> none = controls;
  none[2].chosen = false;
  EXPECT_EQ(next_stop(none, "before", 1), "a");
}

TEST(Mirror, ArrowsGoUpAndDownInTheRowsOfAKeypad) {
  std::vector<Control> keys;
  for (int i = 0; i < 9; ++i) {
    const auto x = static_cast<float>(i % 3), y = static_cast<float>(i / 3);
    keys.push_back(
        {.id = std::to_string(i), .box = {60.0F * x, 60.0F * y, 50.0F, 50.0F}, .in_set = true});
  }
  EXPECT_EQ(beside(keys, "1", "ArrowDown"), "4");
  EXPECT_EQ(beside(keys, "4", "ArrowDown"), "7");
  EXPECT_EQ(beside(keys, "8", "ArrowUp"), "5");
  EXPECT_EQ(beside(keys, "2", "ArrowRight"), "3");
}

// What is gone hands the focus on: within its part to what stood before it; in a list to the item
// beside, and never to what deletes that.
TEST(Mirror, TheFocusOfWhatIsGoneGoesToWhatStandsBesideIt) {
  const auto in = [](Control c, std::string_view part) {
    c.part = part;
    return c;
  };
  const auto card = [&](const char* id, const char* item) {
    Control c = in({.id = id}, kBoardPart);
    static std::deque<ListItem> items;
    c.item = &items.emplace_back(ListItem{.list = "cards", .id = item});
    return c;
  };
  const std::vector<Control> before = {
      card("one", "1"),           card("one.delete", "1"),     card("two", "2"),
      card("two.delete", "2"),    in({.id = "x"}, kSheetPart), in({.id = "y"}, kSheetPart),
      in({.id = "z"}, kSheetPart)};
  const auto without = [&](std::initializer_list<const char*> gone) {
    std::vector<Control> out;
    for (const Control& c : before) {
      if (std::find(gone.begin(), gone.end(), c.id) == gone.end()) out.push_back(c);
    }
    return out;
  };
  EXPECT_EQ(successor(before, without({"y"}), "y"), "x");
  EXPECT_EQ(successor(before, without({"x"}), "x"), "y");
  EXPECT_EQ(successor(before, without({"one", "one.delete"}), "one.delete"), "two");
  EXPECT_EQ(successor(before, without({"two", "two.delete"}), "two.delete"), "one");
  EXPECT_EQ(successor(before, without({"one", "two", "one.delete", "two.delete"}), "one"), "x");
  EXPECT_EQ(successor(before, {}, "x"), "");
}

}  // namespace
}  // namespace coatwright::studio
