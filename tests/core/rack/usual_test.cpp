// The studio's usual: what of one dog's coat the next one begins with.
#include "core/rack/usual.h"

#include <gtest/gtest.h>

#include "core/body/assess.h"
#include "core/draft/options/closure.h"
#include "core/draft/options/collar.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/sewing.h"
#include "core/rack/backup.h"
#include "core/rack/rack.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

Body body_of(const Tape& tape) { return *assess(tape).result; }

Ticket chosen() {
  Ticket ticket;
  ticket.dog = "Windlass";
  ticket.name = "Spring coat";
  ticket.notes = "chews buttons";
  ticket.of(Measure::Chest) = {"27 in"};
  ticket.unit = Unit::Centimetre;
  ticket.style = "strap";
  ticket.print.paper = "letter";
  ticket.quote.rate = 24.0;
  ticket.done = {"cut-pieces"};
  ticket.fittings.push_back({});
  ticket.choices.set(kCollar, 1.0);
  ticket.choices.set(kSeamAllowance, 11.0);
  ticket.choices.set(kHemDepth, 30.0);
  return ticket;
}

TEST(Usual, HasTheHandOfTheStudioAndNothingOfTheDog) {
  const Body body = body_of(test::ten_dogs().front().tape);
  const Ticket start = usual_of(chosen(), body).start;
  Ticket wanted;
  wanted.unit = Unit::Centimetre;
  wanted.style = "strap";
  wanted.print.paper = "letter";
  wanted.quote.rate = 24.0;
  wanted.choices.set(kCollar, 1.0);
  wanted.choices.set(kSeamAllowance, 11.0);
  EXPECT_EQ(start, wanted);
}

TEST(Usual, AnEaseIsTheSamePartOfAnotherDog) {
  for (const auto& one : test::ten_dogs()) {
    for (const auto& other : test::ten_dogs()) {
      const Body from = body_of(one.tape), to = body_of(other.tape);
      Ticket ticket = chosen();
      ticket.choices.set(kChestEase, 1.5 * range_of(kChestEase, from).sized);
      const Choices eased = with_usual_eases({}, usual_of(ticket, from), kWrapCoat, to);
      EXPECT_NEAR(*eased.of(kChestEase), 1.5 * range_of(kChestEase, to).sized, 1e-9);
      EXPECT_FALSE(eased.of(kNeckEase)) << "nothing was said of it";
    }
  }
}

TEST(Usual, AnEaseThatNoCoatTakesEndsWhereTheCoatDoes) {
  const Body body = body_of(test::ten_dogs().front().tape);
  Usual usual;
  usual.eases.set(kChestEase, 50.0);
  const Choices eased = with_usual_eases({}, usual, kWrapCoat, body);
  EXPECT_EQ(*eased.of(kChestEase), range_of(kChestEase, body).highest);
}

TEST(Usual, ComesBackFromTheNotesAndFromABackup) {
  const Body body = body_of(test::ten_dogs().front().tape);
  Ticket ticket = chosen();
  ticket.choices.set(kChestEase, range_of(kChestEase, body).highest);
  RackNotes notes;
  notes.usual = usual_of(ticket, body);
  const auto again = read_rack_notes(write_rack_notes(notes));
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(*again, notes);
  const auto backup = read_backup(write_backup({}, 7, notes).front());
  ASSERT_TRUE(backup.ok());
  EXPECT_EQ(backup->usual, notes.usual);
}

TEST(Usual, OfAFileIsCheckedLikeATicket) {
  const auto read = [](const std::string& usual) {
    return read_rack_notes(R"({"coatwright-notes": 2, "usual": )" + usual + "}");
  };
  RackNotes plain;
  plain.usual.emplace();
  std::string sound = write_rack_notes(plain);
  ASSERT_TRUE(read_rack_notes(sound).ok());
  EXPECT_EQ(read("{}").problem().code, Code::TicketFieldMissing);
  EXPECT_EQ(read(R"({"start": 7})").problem().subject, "/usual/start");
  for (const char* eases : {R"({"chest-ease": -1})", R"({"chest-ease": 1e9})",
                            R"({"hem-depth": 1})", R"({"chest-ease": "wide"})", "7"}) {
    std::string text = sound;
    text.insert(text.rfind("}}"), std::string(R"(, "eases": )") + eases);
    const auto notes = read_rack_notes(text);
    ASSERT_FALSE(notes.ok()) << eases;
    EXPECT_EQ(notes.problem().subject.find("/usual/eases"), 0U) << notes.problem().subject;
  }
}

}  // namespace
}  // namespace coatwright
