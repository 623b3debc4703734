// Every code, id and rule has words, and every sentence comes out whole.
#include "shell/words/say.h"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <set>
#include <string>
#include <vector>

#include "core/body/estimates.h"
#include "core/pattern/pattern.h"
#include "core/ticket/ids.h"
#include "shell/words/ticket_words.h"
#include "shell/words/words_table.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/population.h"
#include "tests/support/place.h"

namespace coatwright {
namespace {

const LengthStyle kInches{.unit = Unit::Inch};

std::vector<Draft> drafts() {
  std::vector<Draft> out;
  for (const StyleInfo* style : styles()) {
    for (const test::NamedDog& dog : test::hard_dogs()) {
      for (const Choices& choices : test::all_combinations(*style)) {
        auto made = make_pattern(assess(dog.tape), choices, *style);
        if (made.result) out.push_back(std::move(made.result->draft));
      }
    }
  }
  return out;
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
  for (int n = 0; n < kNotionKinds; ++n) {
    keys.insert(std::string("notion.") + notion_id(static_cast<NotionKind>(n)));
  }
  for (int s = 0; s < kStages; ++s) {
    keys.insert(std::string("stage.") + stage_id(static_cast<Stage>(s)));
  }
  for (int l = 0; l < kLayerCount; ++l)
    keys.insert(std::string("layer.") + layer_id(static_cast<Layer>(l)));
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
    for (const Step& step : draft.steps) {
      keys.insert("step." + step.id);
      keys.insert("step." + step.id + ".name");
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
  const std::set<std::string> wanted = wanted_keys();
  const std::set<std::string> groups = {"measure",   "choice", "estimate", "unit",   "sex",
                                        "build",     "coat",   "level",    "need",   "layer",
                                        "piece",     "edge",   "notch",    "mark",   "trace",
                                        "invariant", "style",  "option",   "notion", "step"};
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
  EXPECT_EQ(said({Code::RatioHigh, "neck", {0.8148, 0.42, 0.72}, "chest"}),
            "Neck girth is 0.81 of chest girth; most dogs have 0.42 to 0.72. Measure it again.");
  EXPECT_EQ(
      said({Code::LikelyCulprit, "weight", {43.0, 19.504, 0.0}, ""}, Unit::Centimetre),
      "Weight is the likeliest mistake: it reads 43 kg, and the other readings would expect about "
      "19.5 kg.");
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

}  // namespace
}  // namespace coatwright
