// Every code, id and rule has words, and every sentence comes out whole.
#include "shell/words/say.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <fstream>
#include <iterator>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/body/estimates.h"
#include "core/draft/binding.h"
#include "core/make/care.h"
#include "core/make/plan.h"
#include "core/make/standing.h"
#include "core/make/thread.h"
#include "core/pattern/pattern.h"
#include "core/ticket/ids.h"
#include "shell/words/laid_coats.h"
#include "shell/words/step_words.h"
#include "shell/words/ticket_words.h"
#include "shell/words/words_table.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/population.h"
#include "tests/support/place.h"

namespace coatwright {
namespace {

const LengthStyle kInches{.unit = Unit::Inch};

// Cloths that shrink, whose needle holes stay, and of which the heat is known or not.
const Cloth kCloths[] = {
    {.use = ClothUse::Shell, .shrinkage = 0.03, .iron_c = 200.0, .keeps_holes = true},
    {.use = ClothUse::Insulation, .shrinkage = 0.03},
    {.use = ClothUse::Lining, .shrinkage = 0.03, .iron_c = 110.0},
    {.use = ClothUse::Laminate, .iron_c = 120.0, .fuse_s = 15.0}};

std::vector<Draft> made_drafts() {
  std::vector<Draft> out;
  for (const StyleInfo* style : styles()) {
    for (const test::NamedDog& dog : test::asked_of(test::hard_dogs())) {
      for (const Choices& choices : test::all_combinations(*style)) {
        auto made = make_pattern(assess(dog.tape), choices, *style);
        if (made.result) out.push_back(std::move(made.result->draft));
      }
    }
  }
  // A neck that is carried high has a rule of its own.
  Tape high = test::hard_dog("ordinary");
  high.of(Measure::Throat) = {130.0};
  out.push_back(make_pattern(assess(high), {}).result->draft);
  return out;
}
const std::vector<Draft>& drafts() {
  static const std::vector<Draft> all = made_drafts();
  return all;
}

// Keys of the groups that core's tables and drafts decide: none may be missing, none left over.
std::set<std::string> wanted_keys() {
  std::set<std::string> keys;
  for (const Code code : all_codes()) keys.insert(code_name(code));
  for (const MeasureInfo& m : measure_table()) {
    for (const char* part : {"", ".short", ".tape"}) {
      keys.insert("measure." + std::string(m.id) + part);
    }
  }
  for (const ChoiceInfo* c : choice_table()) {
    keys.insert("choice." + std::string(c->id));
    keys.insert("choice." + std::string(c->id) + ".hint");
    for (const char* option : c->options) keys.insert(std::string(c->id) + "." + option);
  }
  for (const StyleInfo* style : styles()) {
    keys.insert("style." + std::string(style->id));
    keys.insert("style." + std::string(style->id) + ".use");
    for (const OptionInfo* option : style->options) {
      if (!option->choices.empty()) keys.insert("option." + std::string(option->id));
    }
  }
  for (const EstimateRule& rule : estimate_rules()) keys.insert("estimate." + std::string(rule.id));
  const auto insert_ids = [&](const char* group, const auto& values) {
    for (const auto value : values) keys.insert(std::string(group) + id_of(value));
  };
  insert_ids("unit.", all_of<Unit>());
  insert_ids("sex.", all_of<Sex>());
  insert_ids("build.", all_of<Build>());
  insert_ids("coat.", all_of<Coat>());
  insert_ids("level.", all_of<Level>());
  insert_ids("need.", all_of<Need>());
  insert_ids("place.", all_of<FitPlace>());
  insert_ids("seen.", all_of<FitKind>());
  insert_ids("found.", all_of<FitBy>());
  for (int i = 0; i < kAlters; ++i) {
    const std::string key = std::string("alter.") + info(static_cast<Alter>(i)).id;
    for (const std::string& word : {key, "trace." + key + ".more", "trace." + key + ".less"}) {
      keys.insert(word);
    }
  }
  for (int n = 0; n < kNotionKinds; ++n) {
    keys.insert(std::string("notion.") + notion_id(static_cast<NotionKind>(n)));
  }
  for (int s = 0; s < kStages; ++s) {
    keys.insert(std::string("stage.") + stage_id(static_cast<Stage>(s)));
  }
  for (int l = 0; l < kLayerCount; ++l)
    keys.insert(std::string("layer.") + layer_id(static_cast<Layer>(l)));
  keys.insert(std::string("piece.") + kBindingStrips);
  // Drafts of each style with each of its options name all edges, marks and rules.
  for (const Draft& draft : drafts()) {
    for (const Piece& piece : draft.pieces) {
      keys.insert("piece." + piece.id);
      for (const Edge& edge : piece.edges) {
        keys.insert("edge." + edge.id);
        if (edge.finish != Finish::Fold) keys.insert("size." + edge.id);
      }
      for (const Notch& notch : piece.notches) keys.insert("notch." + notch.name);
      for (const Mark& mark : piece.marks) keys.insert(mark.label);
    }
    for (const TraceStep& step : draft.trace) keys.insert("trace." + step.rule);
    for (const Plan& plan : {make_plan(draft, kCloths), make_plan(draft)}) {
      for (const Standing& standing : standings(draft, plan.operations)) {
        for (const Said& said : standing.before) keys.insert("before." + said.id);
        for (const Said& said : standing.after) keys.insert("after." + said.id);
      }
      for (const Operation& step : plan.operations) {
        keys.insert("step." + step.id + ".name");
        keys.insert("why." + step.id);
        for (const Sentence& s : step.how) keys.insert("how." + s.id);
        if (const char* seam = seam_of(step.deed)) keys.insert(std::string("seam.") + seam);
      }
    }
    for (const Notion& notion : draft.notions) keys.insert(notion.place);
    // "seam:body.hem" is one of many of its kind.
    for (const Invariant& invariant : draft.invariants) {
      keys.insert("invariant." + invariant.id.substr(0, invariant.id.find(':')));
    }
  }
  return keys;
}

TEST(Say, EveryCodeAndIdHasWords) {
  const std::set<std::string> wanted = wanted_keys();
  EXPECT_GT(wanted.size(), 150u);
  for (const std::string& key : wanted) {
    EXPECT_TRUE(word_table().has(key)) << key;
    EXPECT_NE(word_table()(key), "") << key;
  }
}

TEST(Say, NoWordsAreLeftOverInTheGroupsOfCore) {
  if (!test::kAllAsked) return;  // some are said of one of the dogs alone
  const std::set<std::string> wanted = wanted_keys();
  const std::set<std::string> groups = {
      "measure", "choice", "estimate", "unit",   "sex",   "build", "coat",  "level",
      "need",    "layer",  "piece",    "edge",   "notch", "mark",  "trace", "invariant",
      "style",   "option", "notion",   "step",   "how",   "why",   "seam",  "alter",
      "place",   "seen",   "found",    "before", "after"};
  int seen = 0;
  for (const std::string& key : word_table().keys()) {
    const size_t dot = key.find('.');
    if (dot == std::string::npos || !groups.contains(key.substr(0, dot))) continue;
    EXPECT_TRUE(wanted.contains(key)) << key;
    ++seen;
  }
  EXPECT_GT(seen, 100);
}

TEST(Say, TheTableThatIsBuiltInIsTheFile) {
  std::ifstream file(assets_folder() + "/words.txt", std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  EXPECT_GT(text.size(), 10000u);
  EXPECT_EQ(words_text(), text);
}

TEST(Say, NoKeyStandsTwiceInTheTable) {
  std::set<std::string> seen;
  std::string_view rest = words_text();
  size_t lines = 0;
  while (!rest.empty()) {
    const size_t end = std::min(rest.find('\n'), rest.size());
    const std::string_view line = rest.substr(0, end);
    rest.remove_prefix(std::min(end + 1, rest.size()));
    if (line.empty() || line.front() == '#') continue;
    ASSERT_NE(line.find(" = "), std::string_view::npos) << line;
    EXPECT_TRUE(seen.insert(std::string(line.substr(0, line.find(' ')))).second) << line;
    ++lines;
  }
  EXPECT_EQ(lines, word_table().keys().size());
}

// A sentence: begins with a capital or a quotation mark, ends with a full stop, nothing unfilled.
void expect_whole(const std::string& text) {
  EXPECT_EQ(text.find_first_of("{}"), std::string::npos) << text;
  EXPECT_TRUE(text.ends_with('.')) << text;
  EXPECT_EQ(text.find("  "), std::string::npos) << text;
  EXPECT_TRUE((text[0] >= 'A' && text[0] <= 'Z') || text.starts_with("“")) << text;
}

TEST(Say, EverySentenceComesOutWhole) {
  for (const Code code : all_codes()) {
    for (const char* subject : {"neck", "weight", "overlap", "hem-line", "body.hem", "body", "",
                                "/readings/neck/0", "something new"}) {
      for (const char* other :
           {"chest", "weight", "loin-from-chest", "text", "body.front", "20 9/8"}) {
        if (code == Code::ValueEstimated && std::string(other) != "loin-from-chest") continue;
        if (code == Code::TicketFieldType && std::string(other) != "text") continue;
        const Problem problem{code, subject, {123.4, 1.0, 9.25}, other};
        for (const Unit unit : {Unit::Inch, Unit::Centimetre}) {
          expect_whole(say(problem, word_table(), {.unit = unit}));
        }
      }
    }
  }
}

TEST(Say, SentencesNameTheThingInPlainWords) {
  const auto said = [](const Problem& p, Unit unit = Unit::Inch) {
    return say(p, word_table(), {.unit = unit});
  };
  EXPECT_EQ(
      said({Code::RatioHigh, "neck", {558.8, 288.0, 493.8, 685.8}, "chest"}),
      "Neck girth reads 22 in, more than expected: most dogs with 27 in of chest girth have 11⅜ in "
      "to 19½ in. Measure it again.");
  EXPECT_EQ(
      said({Code::RatioLow, "weight", {4.0823, 15.3, 37.6, 669.925}, "chest"}),
      "The scale says 9 lb, less than expected: 26⅜ in of chest girth goes with 34 lb to 83 lb. "
      "Weigh the dog again, and look whether the number is pounds or kilograms.");
  EXPECT_EQ(
      said({Code::RatioTooLow, "chest", {254.0, 431.0, 862.0, 20.0}, "weight"}, Unit::Centimetre),
      "Chest girth reads 25.4 cm, and no dog that weighs 20 kg has less than 43 cm: check "
      "both, and their units.");
  EXPECT_EQ(said({Code::GrowingDog, "chest", {11.0, 1.0}, ""}),
            "At 11 months this dog may grow for about 1 month more: measure again before you cut, "
            "and leave room.");
  EXPECT_EQ(said({Code::LikelyCulprit, "weight", {43.0, 19.504, 0.0}, ""}, Unit::Centimetre),
            "The weight is the likeliest mistake: the scale says 43 kg, and the tape would expect "
            "about 20 "
            "kg. Weigh the dog again, and look whether the number is pounds or kilograms.");
  EXPECT_EQ(said({Code::LikelyCulprit, "neck", {622.3, 412.0, 0.0}, ""}),
            "Neck girth is the likeliest mistake: it reads 24½ in, and the other readings would "
            "expect about 16¼ in. Measure it again.");
  EXPECT_EQ(
      said({Code::ReadingsSwapped, "neck", {705.0, 419.0}, "chest"}, Unit::Centimetre),
      "Neck girth (70.5 cm) and chest girth (41.9 cm) look exchanged: put each reading in the "
      "other’s place, or measure both again.");
  EXPECT_EQ(said({Code::LengthsInInches, "chest", {276.225, 701.6115}, ""}, Unit::Centimetre),
            "As centimetres these lengths fit no such dog, as inches they do: chest girth of 27⅝ "
            "in, not 27.6 cm. Check the unit of the tape first.");
  EXPECT_EQ(said({Code::LengthsInCentimetres, "chest", {1790.7, 705.0}, ""}),
            "As inches these lengths fit no such dog, as centimetres they do: chest girth of 70.5 "
            "cm, not 70½ in. Check the unit of the tape first.");
  EXPECT_EQ(said({Code::ReadingOutOfRange, "neck", {2286.0, 70.0, 1000.0}, ""}),
            "Neck girth reads 90 in, and no dog is outside 2¾ in to 39⅜ in: check the number and "
            "its unit.");
  EXPECT_EQ(
      said({Code::ReadingSpread, "loin", {30.0, 12.0, 0.0}, ""}, Unit::Centimetre),
      "The readings of loin girth lie 3 cm apart, more than 1.2 cm: take another, with the dog "
      "standing square.");
  EXPECT_EQ(
      said({Code::ValueEstimated, "loin", {560.0, 0.0, 0.0}, "loin-from-chest"}, Unit::Centimetre),
      "Loin girth is estimated at 56 cm from chest girth and build: measure it for a better fit.");
  EXPECT_EQ(
      said({Code::ChoiceOutOfRange, "neck-fullness", {1.5, 0.0, 1.0}, ""}),
      "Neckline fullness was set to 1.5; this dog’s coat can take 0 to 1, so the nearest is used.");
  EXPECT_EQ(said({Code::TicketFieldType, "/birth", {}, "month"}),
            "“/birth” in the ticket must be a month such as 2021-04: correct it or take it out.");
  EXPECT_EQ(said({Code::TicketTextUnclean, "", {}, ""}),
            "The ticket has characters that cannot be shown: type the text again.");
}

// ---- sentences at the edge of what they say ------------------------------------------------------

// Every number of a sentence with its unit: "10.2 cm", and "just over 10.2 cm" where it says so.
std::vector<std::string> quantities(const std::string& text) {
  std::vector<std::string> found;
  for (const char* unit : {" in", " cm", " kg", " lb"}) {
    for (size_t at = text.find(unit); at != std::string::npos; at = text.find(unit, at + 1)) {
      const size_t end = at + 3;
      if (end < text.size() && std::isalpha(static_cast<unsigned char>(text[end]))) continue;
      const size_t space = text.rfind(' ', at - 1);
      const size_t from = space == std::string::npos ? 0 : space + 1;
      if (text.find_first_of("0123456789", from) >= at && text.find("\xC2", from) >= at &&
          text.find("\xE2", from) >= at) {
        continue;  // "lies in", no number
      }
      std::string quantity = text.substr(from, end - from);
      for (const char* word : {"just over ", "just under ", "less than "}) {
        const size_t n = std::string(word).size();
        if (from >= n && text.compare(from - n, n, word) == 0) quantity = word + quantity;
      }
      found.push_back(quantity);
    }
  }
  return found;
}

// "1 months": a lone 1 before a word of many.
bool counts_one_as_many(const std::string& text) {
  for (size_t at = text.find("1 "); at != std::string::npos; at = text.find("1 ", at + 1)) {
    if (at > 0 && text[at - 1] != ' ' && text[at - 1] != '(') continue;
    const size_t end = text.find_first_of(" .,;:)", at + 2);
    const std::string word = text.substr(at + 2, end - at - 2);
    const bool letters =
        std::all_of(word.begin(), word.end(), [](unsigned char c) { return std::islower(c) != 0; });
    if (letters && word.size() > 3 && word.back() == 's' && word != "this") return true;
  }
  return false;
}

// Two values that differ by less than any tape shows, in each unit, with all that a code may be
// about: no sentence says "10.2 cm instead of 10.2 cm", "0 in less" or "1 months".
TEST(Say, NoSentenceComparesANumberWithItselfOrCountsOneAsMany) {
  enum class Beside { Nothing, Second, Third };  // which value the first lies beside
  struct Case {
    std::array<double, 4> values;
    Beside beside;
  };
  constexpr double kHair = 0.004;
  std::vector<Case> cases = {{{1.0, 1.0, 1.0, 1.0}, Beside::Nothing},
                             {{kHair, 0.4, 30.0, 30.0}, Beside::Nothing},
                             {{-kHair, 0.4, 30.0, 30.0}, Beside::Nothing}};
  for (const double x : {25.4, 70.0, 105.0, 254.0, 500.0}) {
    for (const double by : {kHair, -kHair}) {
      cases.push_back({{x + by, x, x + 211.0, 333.0}, Beside::Second});
      cases.push_back({{x + by, x - 15.0, x, 333.0}, Beside::Third});
    }
  }
  // The third value of these is the upper end of a range; the numbers of the others are not held
  // against each other: both sides of a sheet may be 10 cm.
  const std::set<Code> ranges = {Code::NumberOutOfRange,
                                 Code::ReadingOutOfRange,
                                 Code::ChoiceOutOfRange,
                                 Code::RatioLow,
                                 Code::RatioHigh,
                                 Code::RatioTooLow,
                                 Code::RatioTooHigh,
                                 Code::ClothLengthOutOfRange,
                                 Code::SheetChoiceOutOfRange};
  const std::set<Code> unlike = {Code::PaperTooSmall, Code::ClothTooNarrow,
                                 Code::LayPieceTooWideAsItLies};
  int compared = 0, apart = 0;
  for (const Code code : all_codes()) {
    for (const char* subject : {"neck", "weight", "overlap", "neck-fullness", "body.hem", "body"}) {
      std::vector<std::string> others = {"chest", "weight"};
      if (code == Code::Advice) {
        others.clear();
        for (const std::string& key : word_table().keys()) {
          if (key.starts_with("advice.")) others.push_back(key.substr(7));
        }
      }
      if (code == Code::ValueEstimated) others = {"loin-from-chest"};
      if (code == Code::TicketFieldType || code == Code::PackFieldType) others = {"text"};
      for (const std::string& other : others) {
        for (const Case& c : cases) {
          for (const Unit unit : {Unit::Inch, Unit::Centimetre}) {
            const std::string text =
                say({code, subject, c.values, other}, word_table(), {.unit = unit});
            EXPECT_FALSE(counts_one_as_many(text)) << text;
            const std::vector<std::string> seen = quantities(text);
            for (const std::string& q : seen) {
              EXPECT_TRUE(q != "0 in" && q != "0 cm" && !q.starts_with("−0 ")) << text;
            }
            apart += text.find("just ") != std::string::npos ? 1 : 0;
            if (c.beside == Beside::Nothing || unlike.contains(code)) continue;
            if (c.beside == Beside::Third && !ranges.contains(code)) continue;
            for (size_t i = 0; i < seen.size(); ++i) {
              for (size_t j = i + 1; j < seen.size(); ++j) {
                ++compared;
                EXPECT_NE(seen[i], seen[j]) << text;
              }
            }
          }
        }
      }
    }
  }
  EXPECT_GT(compared, 1000);
  EXPECT_GT(apart, 1000);
}

// A hair of difference is told as such; one that a rule shows is written as finely as that takes.
TEST(Say, TwoLengthsThatLookAlikeAreWrittenFinerBeforeOneIsJustOver) {
  const auto said = [](double wanted, double used, Unit unit) {
    return say({Code::FrontDepthLimited, "front-depth", {wanted, used}, ""}, word_table(),
               {.unit = unit});
  };
  const std::string tail = ", so that the front stays clear of the foreleg.";
  EXPECT_EQ(said(103.1, 102.0, Unit::Inch),
            "Front depth is kept to 4 in instead of 4\u00A01⁄16 in" + tail);
  EXPECT_EQ(said(102.44, 102.2, Unit::Centimetre),
            "Front depth is kept to 10.22 cm instead of 10.24 cm" + tail);
  EXPECT_EQ(said(102.204, 102.2, Unit::Centimetre),
            "Front depth is kept to 10.22 cm instead of just over 10.22 cm" + tail);
}

TEST(Say, WhatWasTypedIsNotTakenForAName) {
  EXPECT_EQ(say({Code::NumberUnreadable, "neck", {}, "chest"}, word_table(), kInches),
            "“chest” in neck girth is not part of a number: type it like 20 3/8 in, 20.375 in or "
            "52.5 cm.");
}

TEST(Say, EveryTraceStepSaysHowItIsFound) {
  int seen = 0;
  for (const Draft& draft : drafts()) {
    for (const TraceStep& step : draft.trace) {
      expect_whole(say(step, word_table(), kInches));
      ++seen;
    }
  }
  EXPECT_GT(seen, 40);
}

// Whatever a step uses that can hurt, it says so: in the drafts of every style with every option.
TEST(Say, EveryStepThatUsesWhatCanHurtCarriesItsCaution) {
  struct Hazard {
    const char* care;
    std::vector<const char*> used;  // words of a step that uses it
  };
  const std::vector<Hazard> hazards = {
      {"care.blade", {"cut on the solid line"}},
      {"care.iron", {"press ", "press,", "press.", "Press "}},
      {"care.fuse", {"fuse it"}},
      {"care.webbing", {"Melt ", "melt ", "Singe "}},
      {"care.elastic", {"each elastic", "Draw the elastic"}},
      {"care.hook", {"Cut the hook-and-loop"}},
      {"care.count", {"try it on the", "Put the coat on the dog", "Try the hood on"}},
      {"care.pins", {"the longest stitch"}},
  };
  std::map<std::string, std::set<std::string>> carried;
  for (const Draft& draft : drafts()) {
    for (const Operation& step : make_plan(draft, kCloths).operations) {
      const std::string text = how_of(step, kInches, word_table());
      EXPECT_FALSE(text.empty()) << step.id;
      EXPECT_EQ(text.find('{'), std::string::npos) << text;
      for (const Hazard& hazard : hazards) {
        const bool uses =
            std::any_of(hazard.used.begin(), hazard.used.end(),
                        [&](const char* words) { return text.find(words) != std::string::npos; });
        if (!uses) continue;
        EXPECT_NE(text.find(word_table()(hazard.care)), std::string::npos)
            << step.id << " lacks " << hazard.care;
        carried[hazard.care].insert(step.id);
      }
      const bool pins =
          text.find(" pin ") != std::string::npos || text.find(" pin,") != std::string::npos;
      EXPECT_TRUE(!pins || text.find("ount the pins") != std::string::npos ||
                  text.find(word_table()("care.count")) != std::string::npos)
          << step.id << " leaves its pins uncounted";
    }
    const bool tape = std::any_of(draft.notions.begin(), draft.notions.end(),
                                  [](const Notion& n) { return n.kind == NotionKind::HookLoop; });
    const bool sewn = std::any_of(
        draft.operations.begin(), draft.operations.end(),
        [](const Operation& s) { return s.id == "sew-hook-and-loop" || s.id == "sew-tape-last"; });
    EXPECT_EQ(tape, sewn) << "hook tape is sewn where its caution stands";
  }
  EXPECT_EQ(carried.size(), hazards.size()) << "each of them was met";
  EXPECT_GE(carried["care.iron"].size(), 10u);
  EXPECT_EQ(carried["care.webbing"], (std::set<std::string>{"make-strap", "sew-webbing-loops"}));
  EXPECT_EQ(carried["care.elastic"], (std::set<std::string>{"make-snood", "sew-elastic-loops"}));
}

// Where something is pressed core says how hot the iron may be: it knows those sentences by name.
TEST(Say, EverySentenceThatPressesIsKnownAsOneThatDoes) {
  int pressed = 0;
  for (const std::string& key : word_table().keys()) {
    if (!key.starts_with("how.")) continue;
    const bool iron = word_table()(key).find(word_table()("care.iron")) != std::string::npos;
    EXPECT_EQ(presses(key.substr(4)), iron) << key;
    pressed += iron;
  }
  EXPECT_GE(pressed, 10);
}

TEST(Say, NamesOfThingsComeFromTheTable) {
  EXPECT_EQ(name_of("neck", word_table()), "Neck girth");
  EXPECT_EQ(name_of("overlap", word_table()), "Front overlap");
  EXPECT_EQ(name_of("body.hem", word_table()), "Hem");
  EXPECT_EQ(name_of("body.lining", word_table()), "Body lining");
  EXPECT_EQ(name_of("", word_table()), "The ticket");
  EXPECT_EQ(name_of("/x", word_table()), "“/x”");
}

TEST(Say, ATicketIsCalledByTheDogAndTheCoat) {
  Ticket t;
  EXPECT_EQ(title_of(t, word_table()), "Wrap coat");
  t.name = "Ferry deck coat";
  EXPECT_EQ(title_of(t, word_table()), "Ferry deck coat");
  EXPECT_EQ(drawing_choices(t).ticket_name, "Ferry deck coat");
  t.dog = "Bosun";
  EXPECT_EQ(title_of(t, word_table()), "Bosun, Ferry deck coat");
  EXPECT_EQ(drawing_choices(t).ticket_name, "Bosun");
  t.name = "";
  EXPECT_EQ(title_of(t, word_table()), "Bosun, Wrap coat");
}

TEST(Say, TitlesOfCoatsThatAreLaidTogetherKeepTheirWritingDirectionToThemselves) {
  const auto titled = [](const char* dog, const char* coat) {
    Ticket t;
    t.dog = dog;
    t.name = coat;
    return t;
  };
  const Ticket one = titled("Bosun", "מעיל"), other = titled("רקס", "Coat"),
               third = titled("Gale", "Cape");
  const auto title = [](std::initializer_list<const Ticket*> tickets) {
    LaidCoats coats;
    for (const Ticket* ticket : tickets) coats.push_back({"", ticket, nullptr});
    return title_of(coats, word_table());
  };
  EXPECT_EQ(title({&one, &third, &other}),
            "\u2068Bosun, מעיל\u2069 + Gale, Cape + \u2068רקס, Coat\u2069");
  EXPECT_EQ(title({&one}), "Bosun, מעיל");
}

}  // namespace
}  // namespace coatwright
