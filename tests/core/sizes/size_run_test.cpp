#include "core/sizes/size_run.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "core/body/estimates.h"
#include "core/body/reading.h"
#include "core/pattern/pattern.h"
#include "core/sizes/nest.h"
#include "tests/core/support/population.h"
#include "tests/core/support/sheet_fixture.h"

namespace coatwright {
namespace {

// A dog of the ferry's purser, in centimetres.
Ticket a_ticket() {
  Ticket t;
  t.name = "Gangway coat";
  t.dog = "Purser";
  t.unit = Unit::Centimetre;
  t.of(Measure::Back) = {"50 cm"};
  t.of(Measure::Neck) = {"38 cm"};
  t.of(Measure::Chest) = {"60 cm"};
  t.of(Measure::Drop) = {"22 cm"};
  t.of(Measure::Breast) = {"60 cm"};
  t.of(Measure::Weight) = {"16 kg"};
  t.notes = "Calm on the stairs";
  t.birth = BirthMonth{2020, 5};
  return t;
}

Pattern pattern_of(const Ticket& t) {
  auto made = make_pattern(assess(*tape_of(t)), t.choices, style_of(t));
  EXPECT_TRUE(made.result.ok());
  return std::move(made.result.value());
}

double mm(const DogSize& size, Measure m) {
  return *reading_value(size.readings[static_cast<size_t>(m)], m, Unit::Centimetre);
}

Problem refused(const Result<std::vector<DogSize>>& run) {
  EXPECT_FALSE(run.ok());
  return run.ok() ? Problem{} : run.problem();
}

TEST(SizeRun, AtEqualReadingsASizeIsTheSingleDraft) {
  const Ticket ticket = a_ticket();
  for (const char* style : {"wrap", "strap", "underpanel"}) {
    Ticket own = ticket;
    own.style = style;
    const auto run = sizes_of_shape(own, SizeBy::Chest, "S = 45 cm; M = 60 cm");
    ASSERT_TRUE(run.ok());
    const Pattern alone = pattern_of(own), size = pattern_of(ticket_of(own, (*run)[1]));
    ASSERT_EQ(size.cut.pieces.size(), alone.cut.pieces.size());
    for (size_t i = 0; i < size.cut.pieces.size(); ++i) {
      EXPECT_EQ(size.cut.pieces[i].piece.id, alone.cut.pieces[i].piece.id) << style;
      EXPECT_EQ(size.cut.pieces[i].piece.edges, alone.cut.pieces[i].piece.edges) << style;
      EXPECT_EQ(size.cut.pieces[i].cut, alone.cut.pieces[i].cut) << style;
    }
  }
}

TEST(SizeRun, LengthsGoWithTheChestAndWeightWithItsThirdPower) {
  const auto run = sizes_of_shape(a_ticket(), SizeBy::Chest, "30 cm;L=90 cm");
  ASSERT_TRUE(run.ok());
  ASSERT_EQ(run->size(), 2u);
  EXPECT_EQ((*run)[0].name, "30 cm");
  EXPECT_EQ((*run)[1].name, "L");
  EXPECT_NEAR(mm((*run)[0], Measure::Back), 250.0, 0.51);
  EXPECT_NEAR(mm((*run)[1], Measure::Neck), 570.0, 0.51);
  EXPECT_NEAR(mm((*run)[0], Measure::Weight), 2.0, 0.01);
  EXPECT_NEAR(mm((*run)[1], Measure::Weight), 54.0, 0.05);
  EXPECT_EQ((*run)[1].readings[static_cast<size_t>(Measure::Loin)], "") << "nobody took it";
}

TEST(SizeRun, AWeightGivesTheChestThatTheGirthLawSays) {
  const auto run = sizes_of_shape(a_ticket(), SizeBy::Weight, "2 kg\n54 kg\n");
  ASSERT_TRUE(run.ok());
  EXPECT_NEAR(mm((*run)[0], Measure::Chest), 300.0, 0.51);
  EXPECT_NEAR(mm((*run)[1], Measure::Chest), 900.0, 0.51);
  // Of a dog that was not weighed its weight is taken to be the law's.
  Ticket unweighed = a_ticket();
  unweighed.of(Measure::Weight).clear();
  const auto by_law = sizes_of_shape(unweighed, SizeBy::Weight, "8 kg");
  ASSERT_TRUE(by_law.ok());
  EXPECT_NEAR(weight_for_chest(mm((*by_law)[0], Measure::Chest)), 8.0, 0.05);
}

TEST(SizeRun, ATablesCellsMayStandBetweenTabsSemicolonsOrCommas) {
  const std::vector<std::string> tables = {
      "Size\tBack length\tneck\tCHEST GIRTH\tSide drop\tBreast length\n"
      "S\t40\t30,5\t50\t18\t48\nM\t50\t38\t60\t22\t60\n",
      "back;neck;chest;drop;breast;name\r\n40;30,5;50;18;48;S\r\n50;38;60;22;60;M\r\n\r\n",
      "\xEF\xBB\xBFname,back,neck,chest,drop,breast\n"
      "S,40 cm,\"30,5\",500 mm,18,48\n\n\"M\",50,38,60,22,60",
  };
  for (const std::string& table : tables) {
    const auto run = sizes_of_table(table, Unit::Centimetre, test::words());
    ASSERT_TRUE(run.ok()) << code_name(run.problem().code) << ' ' << table;
    ASSERT_EQ(run->size(), 2u) << table;
    EXPECT_EQ((*run)[0].name, "S");
    EXPECT_EQ((*run)[1].name, "M");
    EXPECT_NEAR(mm((*run)[0], Measure::Neck), 305.0, 1e-9) << table;
    EXPECT_NEAR(mm((*run)[0], Measure::Chest), 500.0, 1e-9) << table;
    EXPECT_NEAR(mm((*run)[1], Measure::Breast), 600.0, 1e-9) << table;
  }
  const auto inches =
      sizes_of_table("back;neck;chest;drop;breast\n16;12;20 3/8;7;19", Unit::Inch, test::words());
  ASSERT_TRUE(inches.ok());
  EXPECT_EQ((*inches)[0].name, "1") << "a size without a name is called by its number";
  EXPECT_NEAR(mm((*inches)[0], Measure::Chest), 20.375 * 25.4, 1e-9);
}

TEST(SizeRun, WhatIsNoRunIsRefusedByName) {
  const Ticket t = a_ticket();
  const Words& words = test::words();
  const auto of_table = [&](const char* text) {
    return refused(sizes_of_table(text, Unit::Centimetre, words));
  };
  EXPECT_EQ(refused(sizes_of_shape(t, SizeBy::Chest, " ;; \n")).code, Code::SizesMissing);
  EXPECT_EQ(refused(sizes_of_shape(t, SizeBy::Chest, "M=50 cm;m=60 cm")).code, Code::SizeTwice);
  std::string many;
  for (int i = 0; i < 13; ++i) many += std::to_string(40 + i) + " cm;";
  const Problem too_many = refused(sizes_of_shape(t, SizeBy::Chest, many));
  EXPECT_EQ(too_many.code, Code::SizesTooMany);
  EXPECT_EQ(too_many.values[0], 13.0);
  const Problem unread = refused(sizes_of_shape(t, SizeBy::Weight, "5 kg; heavy"));
  EXPECT_EQ(unread.code, Code::SizeUnreadable);
  EXPECT_EQ(unread.subject, "weight");
  EXPECT_EQ(unread.values[0], 2.0);
  EXPECT_EQ(unread.other, "heavy");
  Ticket bare = t;
  bare.of(Measure::Chest).clear();
  EXPECT_EQ(refused(sizes_of_shape(bare, SizeBy::Chest, "50 cm")).code, Code::ReadingMissing);
  EXPECT_EQ(refused(sizes_of_shape(t, SizeBy::Chest, std::string(kMostSizeText + 1, ' '))).code,
            Code::SizesTooLong);
  EXPECT_EQ(of_table("").code, Code::SizesMissing);
  EXPECT_EQ(of_table("back;neck;chest;drop;breast\n").code, Code::SizesMissing);
  EXPECT_EQ(of_table("back;neck;chest;drop\n1;2;3;4").code, Code::SizeColumnMissing);
  EXPECT_EQ(of_table("back;neck;chest;drop;breast;Neck\n1;2;3;4;5;6").code, Code::SizeColumnTwice);
  EXPECT_EQ(of_table("size;colour;back;neck;chest;drop;breast\n").other, "colour");
  const Problem cell = of_table("back;neck;chest;drop;breast\n50;38;60;22;60\n40;x;50;18;48");
  EXPECT_EQ(cell.code, Code::SizeUnreadable);
  EXPECT_EQ(cell.subject, "neck");
  EXPECT_EQ(cell.values[0], 2.0);
}

// Whatever a clipboard holds: a run of which every reading can be read, or a refusal.
TEST(SizeRun, NoTextBreaksIt) {
  test::Dice dice(12);
  const std::string sound = "name\tback\tneck\tchest\tdrop\tbreast\nS\t40\t30\t50\t18\t48\n";
  const std::string signs = "\t;,\"\n\r =0123456789.cmin\x80\xFF\xEF\xBB\xBF";
  int read = 0;
  for (int i = 0; i < 3000; ++i) {
    std::string text = sound;
    const int changes = 1 + dice.below(6);
    for (int c = 0; c < changes; ++c) {
      const char sign = signs[static_cast<size_t>(dice.below(static_cast<int>(signs.size())))];
      const auto at = static_cast<size_t>(dice.below(static_cast<int>(text.size())));
      if (dice.chance(0.5)) {
        text[at] = sign;
      } else {
        text.insert(at, 1, sign);
      }
    }
    const auto run = sizes_of_table(text, Unit::Centimetre, test::words());
    if (!run.ok()) continue;
    ++read;
    for (const DogSize& size : *run) {
      const Ticket t = ticket_of(a_ticket(), size);
      EXPECT_TRUE(tape_of(t).ok());
      EXPECT_EQ(read_ticket(write_ticket(t)).value(), t);
    }
    const auto shape = sizes_of_shape(a_ticket(), SizeBy::Chest, text);
    EXPECT_TRUE(!shape.ok() || shape->size() <= kMostSizes);
  }
  EXPECT_GT(read, 150);
}

TEST(SizeRun, ASizesTicketKeepsTheCoatAndNothingOfTheDog) {
  Ticket ticket = a_ticket();
  ticket.done = {"cut-shell"};
  ticket.carried.fill(true);
  ticket.hand_lays.resize(1);
  const auto run = sizes_of_shape(ticket, SizeBy::Chest, "M=55 cm");
  ASSERT_TRUE(run.ok());
  const Ticket size = ticket_of(ticket, run->front());
  EXPECT_EQ(size.dog, "M");
  EXPECT_EQ(size.name, ticket.name);
  EXPECT_EQ(size.style, ticket.style);
  EXPECT_EQ(size.choices, ticket.choices);
  EXPECT_EQ(size.notes, "");
  EXPECT_EQ(size.birth, std::nullopt);
  EXPECT_TRUE(size.done.empty() && size.hand_lays.empty());
  for (const bool carried : size.carried) EXPECT_FALSE(carried);
}

TEST(Nest, HoldsTheCutLineOfEverySizeAsItIsCutAndTheNamesOfAll) {
  std::vector<SizedPattern> sizes;
  const auto run = sizes_of_shape(a_ticket(), SizeBy::Chest, "S=45 cm;M=60 cm;L=80 cm");
  ASSERT_TRUE(run.ok());
  for (const DogSize& size : *run) {
    sizes.push_back({size.name, pattern_of(ticket_of(a_ticket(), size))});
  }
  const Drawing nest = draw_nest(sizes, test::words());
  const auto texts = test::items_of<TextItem>(nest);
  std::map<std::string, Vec> moved;  // of each piece: all its sizes alike
  size_t lines = 0;
  for (const SizedPattern& size : sizes) {
    const size_t number = static_cast<size_t>(&size - sizes.data());
    for (const CutPiece& piece : size.pattern.cut.pieces) {
      for (const StrokeItem& line : test::items_of<StrokeItem>(nest)) {
        if (line.id != piece.piece.id + ' ' + size.name) continue;
        ++lines;
        EXPECT_EQ(line.role, static_cast<Role>(static_cast<size_t>(Role::Nest1) + number));
        ASSERT_EQ(line.points.size(), piece.cut.size());
        const Vec shift = line.points.front() - piece.cut.front();
        const auto known = moved.emplace(piece.piece.id, shift);
        EXPECT_NEAR(length(known.first->second - shift), 0.0, 1e-9) << line.id;
        for (size_t i = 0; i < line.points.size(); ++i) {
          EXPECT_NEAR(distance(piece.cut[i] + shift, line.points[i]), 0.0, 1e-9);
        }
      }
    }
    const auto named = [&](const TextItem& t) { return t.text == size.name; };
    EXPECT_GE(std::count_if(texts.begin(), texts.end(), named), 2) << "body and band";
  }
  EXPECT_EQ(lines, 3 * moved.size());
  EXPECT_GE(moved.size(), 2u);
}

TEST(Nest, OfMoreSizesThanDashesHasNoTwoNeighboursAlike) {
  const auto run =
      sizes_of_shape(a_ticket(), SizeBy::Chest, "40cm;45cm;50cm;55cm;60cm;65cm;70cm;75cm");
  ASSERT_TRUE(run.ok());
  std::vector<SizedPattern> sizes;
  for (const DogSize& size : *run) {
    sizes.push_back({size.name, pattern_of(ticket_of(a_ticket(), size))});
  }
  std::vector<Role> roles;
  for (const StrokeItem& line : test::items_of<StrokeItem>(draw_nest(sizes, test::words()))) {
    if (line.id.starts_with("body ")) roles.push_back(line.role);
  }
  ASSERT_EQ(roles.size(), 8u);
  for (size_t i = 1; i < roles.size(); ++i) EXPECT_NE(roles[i], roles[i - 1]);
}

}  // namespace
}  // namespace coatwright
