// What the tool advises can be done: whoever follows a finding gets a coat.
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "core/draft/options/front.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/loops.h"
#include "core/draft/options/reflective.h"
#include "core/draft/options/sewing.h"
#include "core/draft/options/shaping.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

// One thing to change, as a sentence of assets/words.txt names it.
struct Change {
  enum To { Lowest, Highest, Value0, Value1, LessByValue0, Option } to;
  const char* choice;
  const char* option = "";
};
// Each inner list is one way to follow the advice; what must be changed together stands together.
const std::map<std::string, std::vector<std::vector<Change>>> kWays = {
    {"fall-over-stand", {{{Change::Lowest, "collar-height"}}}},
    {"shoulder-dart-no-room", {{{Change::Lowest, "shoulder-dart"}}}},
    // Given to none of 4,500 dogs with every choice at an end of its range: it stands in reserve.
    {"dart-shorter", {}},
    {"hem-dart-no-room",
     {{{Change::Lowest, "hem-dart"}},
      {{Change::Lowest, "band-width"}},
      {{Change::Lowest, "strap-width"}},
      {{Change::Lowest, "tail-fullness"}}}},
    {"spine-closes", {{{Change::Option, "shaping", "darts"}}}},
    {"spine-straight", {{{Change::Lowest, "band-width"}}, {{Change::Option, "shaping", "darts"}}}},
    {"shoulders-ask-for-dart",
     {{{Change::Option, "shaping", "darts"}, {Change::Value0, "shoulder-dart"}}}},
    {"tuck-asks-for-dart", {{{Change::Option, "shaping", "darts"}, {Change::Value0, "hem-dart"}}}},
    {"tuck-asks-for-shape",
     {{{Change::Option, "shaping", "darts"}, {Change::Value0, "hem-dart"}},
      {{Change::Option, "shaping", "spine"}, {Change::Value1, "spine-hollow"}}}},
    {"collar-under-hood",
     {{{Change::Option, "collar", "none"}}, {{Change::Option, "hood", "none"}}}},
    {"opening-off-neckline", {}},
    {"opening-ahead-of-band", {{{Change::Option, "band-closing", "side"}}}},
    {"opening-in-seam", {{{Change::Option, "opening-line", "across"}}}},
    {"tape-at-opening", {}},
    {"tape-no-room",
     {{{Change::Option, "band-shape", "plain"}},
      {{Change::Highest, "band-width"}},
      {{Change::Highest, "strap-width"}},
      {{Change::Lowest, "reflective-width"}}}},
    {"tape-no-room-on-panel",
     {{{Change::Lowest, "reflective-width"}}, {{Change::Option, "reflective", "none"}}}},
    {"tape-narrower",
     {{{Change::Highest, "band-width"}},
      {{Change::Highest, "strap-width"}},
      {{Change::Option, "band-shape", "plain"}}}},
    {"loin-tape-no-room",
     {{{Change::Lowest, "reflective-width"}},
      {{Change::Lowest, "band-width"}},
      {{Change::Lowest, "tail-fullness"}},
      {{Change::Option, "reflective", "ring"}}}},
    {"loops-no-room", {{{Change::Lowest, "loop-width"}}, {{Change::Highest, "hem-depth"}}}},
    {"loop-place-limited", {}},
    {"pocket-smaller", {}},
    {"pocket-no-room",
     {{{Change::Lowest, "pocket-place"}},
      {{Change::Highest, "pocket-place"}},
      {{Change::Option, "reflective", "none"}},
      {{Change::Option, "shaping", "none"}}}},
    {"front-deeper", {{{Change::Lowest, "overlap"}}, {{Change::Highest, "front-depth"}}}},
    {"front-at-centre",
     {{{Change::Lowest, "overlap"}}, {{Change::Option, "front-closing", "centre"}}}},
    {"reach-limited", {}},
    {"tape-trimmed", {}},
    {"tape-too-wide", {}},
    {"width-not-sold", {}},
    {"insulation-open", {{{Change::Option, "lining", "whole"}}}},
    {"ease-taken", {{{Change::Highest, "chest-ease"}}}},
    {"bind-too-tight", {{{Change::Lowest, "binding-width"}}}},
    {"favour-limited", {}},
    {"idle-when-bound", {{{Change::Option, "finish", "turned"}}}},
    {"idle-when-unlined", {{{Change::Option, "lining", "whole"}}}},
    {"idle-when-sides-open", {}},
    {"gap-shorter", {}},
    {"strap-small-dogs", {{{Change::Highest, "strap-width"}}}},
    {"leg-ease-raised", {}},
    {"breast-ease-raised", {}},
    {"throat-lower", {{{Change::Option, "collar", "stand"}}}},
    {"taken-once", {}},
    {"panel-pulls-neckline", {}},
    {"hem-raised", {{{Change::Lowest, "hem-depth"}}}},
    {"hem-hangs", {{{Change::LessByValue0, "hem-depth"}}, {{Change::Highest, "hem-rise"}}}},
};

bool has_choice(const StyleInfo& style, const ChoiceInfo* choice) {
  const auto& all = choices_of(style);
  return std::find(all.begin(), all.end(), choice) != all.end();
}

// The choices with one way followed; nothing if the style has none of what it names.
std::optional<Choices> followed(Choices choices, const std::vector<Change>& way,
                                const StyleInfo& style, const Finding& f, const Body& body) {
  for (const Change& change : way) {
    const ChoiceInfo* choice = choice_by_id(change.choice);
    EXPECT_NE(choice, nullptr) << change.choice;
    if (choice == nullptr || !has_choice(style, choice)) return std::nullopt;
    if (change.to == Change::Option) {
      const auto option =
          std::find_if(choice->options.begin(), choice->options.end(),
                       [&](const char* o) { return change.option == std::string(o); });
      EXPECT_NE(option, choice->options.end()) << change.option;
      choices.set(*choice, static_cast<double>(option - choice->options.begin()));
      continue;
    }
    if (choice->named()) {  // widths as sold, behind the one that is fitted
      choices.set(*choice, change.to == Change::Lowest
                               ? 1.0
                               : static_cast<double>(choice->options.size() - 1));
      continue;
    }
    const ChoiceRange range = range_of(*choice, body);
    choices.set(*choice, [&] {
      switch (change.to) {
        case Change::Lowest:
          return range.lowest;
        case Change::Highest:
          return range.highest;
        case Change::Value0:
          return f.what.values[0];
        case Change::Value1:
          return f.what.values[1];
        default:
          break;
      }
      const double now = choices.of(*choice).value_or(range.sized);
      return std::max(range.lowest, now - f.what.values[0]);
    }());
  }
  return choices;
}

// What was advised on the way, and how often it was followed.
struct Record {
  std::set<std::string> met;
  int coats = 0, ways = 0;

  void follow_all(const Tape& tape, const Choices& choices, const StyleInfo& style) {
    const auto made = make_pattern(assess(tape), choices, style);
    if (!made.result.ok()) return;
    bool advised = false;
    for (const Finding& f : made.findings) {
      if (f.what.code != Code::Advice) continue;
      advised = true;
      const auto entry = kWays.find(f.what.other);
      ASSERT_NE(entry, kWays.end()) << f.what.other << " stands in no table of ways";
      for (const std::vector<Change>& way : entry->second) {
        const auto changed = followed(choices, way, style, f, made.result->body);
        if (!changed) continue;
        const auto then = make_pattern(assess(tape), *changed, style);
        EXPECT_TRUE(then.result.ok())
            << style.id << ' ' << f.what.other << ": " << way.front().choice << ": "
            << test::told(then.result.problem()) << "\n  " << test::told(style, choices) << "\n  "
            << test::told(style, *changed);
        met.insert(f.what.other);
        ++ways;
      }
    }
    coats += advised;
  }
};

TEST(Advice, LeadsToACoatWhoeverFollowsIt) {
  test::Dice dice(2026);
  const std::vector<Tape> dogs = test::population(300, 31);
  Record record;
  size_t next = 0;
  for (const StyleInfo* style : styles()) {
    for (int round = 0; round < (test::kAllAsked ? 3 : 1); ++round) {
      for (Choices choices : test::all_combinations(*style)) {
        const Tape& tape = dogs[next++ % dogs.size()];
        const auto plain = make_pattern(assess(tape), {}, *style);
        ASSERT_TRUE(plain.result.ok());
        // In every second round numbers near an end of their ranges, as a finger drags them.
        for (const ChoiceInfo* c : choices_of(*style)) {
          if (c->named() || round == 0 || !dice.chance(0.25)) continue;
          const ChoiceRange r = range_of(*c, plain.result->body);
          choices.set(*c, dice.chance(0.5) ? r.lowest : r.highest);
        }
        record.follow_all(tape, choices, *style);
      }
    }
  }
  // Wide loops on the high hem of a dog that is long and low beyond any of these.
  const Tape low = test::five(478, 254, 423, 107, 550);
  for (const StyleInfo* style : styles()) {
    const auto plain = make_pattern(assess(low), {}, *style);
    ASSERT_TRUE(plain.result.ok());
    Choices choices;
    choices.set(kLegLoops, 1.0);
    choices.set(kLoopWidth, range_of(kLoopWidth, plain.result->body).highest);
    choices.set(kHemDepth, range_of(kHemDepth, plain.result->body).lowest);
    record.follow_all(low, choices, *style);
  }
  // The widest dart, where a panel with a wide upper edge has large leg openings below.
  for (const size_t dog : {size_t{35}, size_t{102}}) {
    const auto plain = make_pattern(assess(dogs[dog]), {}, kUnderpanelCoat);
    ASSERT_TRUE(plain.result.ok());
    Choices choices;
    choices.set(kShaping, 1.0);
    for (const char* widest : {"shoulder-dart", "leg-ease", "panel-top", "neck-ease"}) {
      const ChoiceInfo& choice = *choice_by_id(widest);
      choices.set(choice, range_of(choice, plain.result->body).highest);
    }
    choices.set(kNeckFullness, 0.0);
    record.follow_all(dogs[dog], choices, kUnderpanelCoat);
  }
  // A ring of tape on a panel that ends just behind the forelegs.
  Tape short_panel = test::five(340, 310, 470, 178, 410);
  short_panel.of(Measure::Underline) = {0.41 * 410};
  Choices ring;
  ring.set(kReflective, 1.0);
  record.follow_all(short_panel, ring, kUnderpanelCoat);
  // A neck that is carried upright.
  Tape upright = test::hard_dog("ordinary");
  upright.of(Measure::Throat) = {230.0};
  record.follow_all(upright, {}, kWrapCoat);
  record.follow_all(upright, {}, kStrapCoat);
  if (!test::kAllAsked) return;
  EXPECT_GT(record.coats, 500);
  EXPECT_GT(record.ways, 1400);
  for (const auto& [advice, ways] : kWays) {
    EXPECT_TRUE(ways.empty() || record.met.contains(advice)) << advice << " is never given here";
  }
}

}  // namespace
}  // namespace coatwright
