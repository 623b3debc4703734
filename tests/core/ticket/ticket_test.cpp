// Tickets: what is written reads back, and what is hostile is refused with its place.
#include "core/ticket/ticket.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <limits>
#include <string>
#include <vector>

#include "core/base/utf8.h"
#include "core/pattern/pattern.h"
#include "core/ticket/ids.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/choices.h"
#include "tests/core/support/population.h"
#include "tests/support/place.h"

namespace coatwright {
namespace {

using test::Dice;

// ---- random tickets ----

bool coin(Dice& dice) { return dice.chance(0.5); }

template <class T>
T one_of(Dice& dice, const std::vector<T>& list) {
  return list[static_cast<size_t>(dice.below(static_cast<int>(list.size())))];
}

std::string random_text(Dice& dice, int most, bool lines) {
  static const std::vector<char32_t> kCharacters = {U'a', U'Z', U'0',  U' ',    U'"',     U'\\',
                                                    U'/', U'<', U'é',  U'½',    U'’',     U'犬',
                                                    U'{', U'}', U'\'', 0x1F415, 0x10FFFD, U'~'};
  std::string text;
  for (int left = dice.below(most + 1); left > 0; --left) {
    append_utf8(text, lines && dice.below(9) == 0 ? U'\n' : one_of(dice, kCharacters));
  }
  return text;
}

BirthMonth random_month(Dice& dice) { return {1900 + dice.below(300), 1 + dice.below(12)}; }

Cloth random_cloth(Dice& dice, ClothUse use) {
  Cloth cloth{.name = random_text(dice, 60, false),
              .use = use,
              .one_way = coin(dice),
              .stretch = one_of(dice, all_of<Stretch>()),
              .keeps_holes = coin(dice),
              .priced_by = one_of(dice, all_of<PricedBy>())};
  for (const ClothNumber& n : cloth_numbers()) cloth.*n.number = dice.uniform(n.lowest, n.highest);
  return cloth;
}

Fitting random_fitting(Dice& dice) {
  Fitting out;
  if (coin(dice))
    out.date = FitDate{1900 + dice.below(300), 1 + dice.below(12), 1 + dice.below(28)};
  if (coin(dice)) out.words = random_text(dice, 300, false);
  for (const MeasureInfo& m : measure_table()) {
    if (m.is_weight || coin(dice)) continue;
    out.based_on[static_cast<size_t>(m.measure)] = dice.uniform(m.lowest, m.highest);
  }
  for (int n = dice.below(static_cast<int>(kMostFitNotes) + 1); n > 0; --n) {
    out.notes.push_back({one_of(dice, all_of<FitPlace>()), one_of(dice, all_of<FitKind>()),
                         one_of(dice, all_of<FitBy>()), dice.uniform(kLeastFit, kMostFit)});
  }
  for (int n = dice.below(static_cast<int>(kMostPhotographs) + 1); n > 0; --n) {
    Photograph photo{"ph0t_-Z" + std::to_string(n), 1 + dice.below(kMostPhotoSide),
                     1 + dice.below(kMostPhotoSide)};
    for (size_t note = 0; note < out.notes.size(); ++note) {
      if (coin(dice)) photo.pins.push_back({note, dice.uniform(0.0, 1.0), dice.uniform(0.0, 1.0)});
    }
    out.photographs.push_back(std::move(photo));
  }
  return out;
}

Ticket random_ticket(Dice& dice) {
  Ticket t;
  t.name = random_text(dice, 60, false);
  t.dog = random_text(dice, 60, false);
  t.unit = one_of(dice, all_of<Unit>());
  t.sex = one_of(dice, all_of<Sex>());
  t.build = one_of(dice, all_of<Build>());
  t.coat = one_of(dice, all_of<Coat>());
  if (coin(dice)) t.birth = random_month(dice);
  if (coin(dice)) t.measured = random_month(dice);
  for (auto& readings : t.readings) {
    for (int n = dice.below(kMostReadings + 1); n > 0; --n) {
      readings.push_back(random_text(dice, 40, false));
    }
  }
  for (bool& carried : t.carried) carried = coin(dice);
  for (const ChoiceInfo* choice : choice_table()) {
    if (coin(dice)) continue;
    t.choices.set(*choice, choice->named() ? dice.below(static_cast<int>(choice->options.size()))
                                           : dice.uniform(-kMostChoice, kMostChoice));
  }
  t.style = styles()[static_cast<size_t>(dice.below(static_cast<int>(styles().size())))]->id;
  t.drafted_by = coin(dice) ? kFirstRule : kDraftingRule;
  for (int n = dice.below(4); n > 0; --n) t.fittings.push_back(random_fitting(dice));
  t.print = {.paper = random_text(dice, 24, false),
             .turn = one_of(dice, all_of<Turn>()),
             .margin = dice.uniform(0.0, kMostMargin),
             .overlap = dice.uniform(0.0, kMostMargin),
             .opened = coin(dice),
             .body_lines = coin(dice)};
  for (int use = 0; use < kClothUses; ++use) {
    const Cloth cloth = random_cloth(dice, static_cast<ClothUse>(use));
    if (coin(dice) && !fault_of(cloth)) t.of(cloth.use) = cloth;
  }
  for (const bool laminated : {false, true}) {
    for (const ClothUse use : {ClothUse::Shell, ClothUse::Insulation, ClothUse::Lining}) {
      if (coin(dice)) continue;
      HandLay lay{.use = use, .laminated = laminated};
      for (int n = dice.below(12); n > 0; --n) {
        lay.places.push_back(
            {.piece = "piece." + std::to_string(dice.below(1000)),
             .copy = n,
             .turned = coin(dice),
             .at = {dice.uniform(-kFarthestPlace, kFarthestPlace), dice.uniform(-50.0, 5000.0)},
             .coat = coin(dice) ? "" : "-oat_" + std::to_string(100 + dice.below(900))});
      }
      t.hand_lays.push_back(lay);
    }
  }
  for (size_t n = kMostLaidWith; n > 0; --n) {
    if (coin(dice)) t.laid_with.push_back("Ticket-" + std::to_string(n));
  }
  t.quote = {.currency = random_text(dice, 4, false),
             .rate = dice.uniform(0.0, kMostMoney),
             .margin = dice.uniform(0.0, kMostMargin100),
             .thread = dice.uniform(0.0, kMostMoney),
             .by_yard = coin(dice)};
  for (double& price : t.quote.notions) price = coin(dice) ? dice.uniform(0.0, kMostMoney) : 0.0;
  for (int k = dice.below(kNotionKinds); k > 0; --k) {
    t.quote.wares.push_back({static_cast<NotionKind>(k), dice.uniform(0.0, kMostWareWidth),
                             dice.uniform(0.0, kMostMoney),
                             coin(dice) ? dice.uniform(kLeastWarePiece, kMostWarePiece) : 0.0});
  }
  for (double& minutes : t.quote.minutes) minutes = dice.uniform(0.0, kMostMinutes);
  static const std::vector<std::string> kSteps = {"cut-pieces", "sew-band", "of-no-coat-2", "a"};
  for (const std::string& step : kSteps) {
    if (coin(dice)) t.done.insert(step);
  }
  t.notes = random_text(dice, 2000, true);
  return t;
}

// Tickets of before seam tape had a price of its own: nothing of them reads otherwise, and nothing is
// taken for its price.
TEST(Ticket, AQuoteWithoutAPriceOfSeamTapeHasNone) {
  const char* const old =
      R"({"coatwright":1,"unit":"cm","readings":{},"style":"wrap","choices":{"laminate":"shell"},)"
      R"("quote":{"currency":"€","thread":8.5,"by-yard":false,"notions":{"hook-and-loop":6}}})";
  const Result<Ticket> ticket = read_ticket(old);
  ASSERT_TRUE(ticket.ok());
  EXPECT_DOUBLE_EQ(ticket->quote.thread, 8.5);
  EXPECT_EQ(ticket->quote.notions[static_cast<size_t>(NotionKind::SeamTape)], 0.0);
  EXPECT_EQ(write_ticket(*ticket).find("seam-tape"), std::string::npos);
}

TEST(Ticket, WhatIsWrittenReadsBackTheSame) {
  Dice dice(20210401);
  size_t largest = 0;
  for (int i = 0; i < test::asked(2000); ++i) {
    const Ticket wanted = random_ticket(dice);
    const std::string file = write_ticket(wanted);
    const Result<Ticket> got = read_ticket(file);
    ASSERT_TRUE(got.ok()) << code_name(got.problem().code) << " " << got.problem().subject << "\n"
                          << file;
    ASSERT_TRUE(*got == wanted) << file;
    ASSERT_EQ(write_ticket(*got), file);
    largest = std::max(largest, file.size());
  }
  EXPECT_GT(largest, 6000u);
}

TEST(Ticket, AClothThatCannotBeLaidOrStandsTwiceIsRefusedWithItsPlace) {
  const auto problem = [](const std::string& cloths) {
    std::string file = write_ticket({});
    file.insert(file.rfind('}'), ", \"cloths\": " + cloths);
    const Result<Ticket> got = read_ticket(file);
    return got.ok() ? Problem{} : got.problem();
  };
  EXPECT_EQ(problem(R"([{"use": "shell", "width": 0}])").subject, "/cloths/0/width");
  EXPECT_EQ(problem(R"([{"use": "shell", "price": -1}])").code, Code::NumberOutOfRange);
  EXPECT_EQ(problem(R"([{"use": "shell"}, {"use": "shell"}])").subject, "/cloths/1");
  EXPECT_EQ(problem(R"([{"use": "sail"}])").code, Code::TicketChoiceUnknown);
  EXPECT_EQ(problem(R"([{"width": 1000}])").subject, "/cloths/0/use");
  EXPECT_EQ(problem(R"([{"use": "shell", "width": 60, "selvage": 30}])").code,
            Code::ClothTooNarrow);
  EXPECT_EQ(problem(R"([{"use": "shell", "priced-by": "piece"}])").code, Code::ClothPieceMissing);
  Ticket narrow;
  narrow.of(ClothUse::Shell) = usual_cloth(ClothUse::Shell);
  narrow.of(ClothUse::Shell)->width_mm = 0.0;
  const Result<Ticket> got = read_ticket(write_ticket(narrow));
  ASSERT_TRUE(got.ok()) << "what cannot be read is not written";
  EXPECT_FALSE(got->of(ClothUse::Shell));
}

TEST(Ticket, ALayByHandThatCannotBeReadIsRefusedWithItsPlace) {
  const auto problem = [](const std::string& lays) {
    std::string file = write_ticket({});
    file.insert(file.rfind('}'), ", \"lays\": " + lays);
    const Result<Ticket> got = read_ticket(file);
    return got.ok() ? Problem{} : got.problem();
  };
  const std::string place = R"({"piece": "body", "x": 1, "y": 2})";
  const auto lay = [](const std::string& places) {
    return R"([{"cloth": "shell", "places": [)" + places + "]}]";
  };
  EXPECT_EQ(problem(lay(place)).subject, Problem{}.subject) << "that one can be read";
  EXPECT_EQ(problem(lay(place + "," + place)).subject, "/lays/0/places/1");
  EXPECT_EQ(problem(lay(R"({"piece": "body", "x": 1})")).code, Code::TicketFieldMissing);
  EXPECT_EQ(problem(lay(R"({"piece": "body", "x": 1e9, "y": 0})")).code, Code::NumberOutOfRange);
  EXPECT_EQ(problem(lay(R"({"piece": "body", "copy": 0.5, "x": 1, "y": 0})")).subject,
            "/lays/0/places/0/copy");
  EXPECT_EQ(problem(R"([{"cloth": "laminate", "places": []}])").code, Code::TicketChoiceUnknown);
  const std::string other = R"({"piece": "body", "coat": "AbC-_012", "x": 1, "y": 2})";
  EXPECT_EQ(problem(lay(place + "," + other)).subject, Problem{}.subject)
      << "another coat has a piece of that name too";
  EXPECT_EQ(problem(lay(R"({"piece": "body", "coat": "<b>", "x": 1, "y": 2})")).subject,
            "/lays/0/places/0/coat");
  EXPECT_EQ(problem(R"([{"cloth": "shell", "places": []}, {"cloth": "shell", "places": []}])").code,
            Code::TicketFieldTwice);
  std::string many;
  for (size_t n = 0; n <= kMostHandPlaces; ++n) {
    many += (n == 0 ? "" : ",") + std::string(R"({"piece": "p", "copy": )") + std::to_string(n) +
            R"(, "x": 0, "y": 0})";
  }
  EXPECT_EQ(problem(lay(many)).code, Code::NumberOutOfRange);
}

TEST(Ticket, AFittingThatCannotBeReadIsRefusedWithItsPlace) {
  const auto problem = [](const std::string& fittings) {
    std::string file = write_ticket({});
    file.insert(file.rfind('}'), ", \"fittings\": " + fittings);
    const Result<Ticket> got = read_ticket(file);
    return got.ok() ? Problem{} : got.problem();
  };
  const std::string note = R"({"place": "neck", "kind": "loose", "by": "pinch", "found": 6.35})";
  const auto fitting = [](const std::string& more) { return R"([{"notes": [)" + more + "}]"; };
  EXPECT_EQ(problem(fitting(note + "]")), Problem{}) << "that one can be read";
  EXPECT_EQ(problem(R"([{}])").subject, "/fittings/0/notes");
  EXPECT_EQ(problem(R"({})").code, Code::TicketFieldType);
  EXPECT_EQ(problem(fitting(R"({"place": "neck", "kind": "loose", "by": "pinch"}])")).subject,
            "/fittings/0/notes/0/found");
  for (const char* found : {"0", "-4", "150.1", "1e300", "\"6\"", "null"}) {
    EXPECT_EQ(problem(fitting(R"({"place": "neck", "kind": "loose", "by": "gap", "found": )" +
                              std::string(found) + "}]"))
                  .subject,
              "/fittings/0/notes/0/found")
        << found;
  }
  EXPECT_EQ(problem(fitting(R"({"place": "<b>", "kind": "loose", "by": "gap", "found": 6}])")).code,
            Code::TicketChoiceUnknown);
  EXPECT_EQ(problem(fitting(note + R"(], "words": "a\tb")")).subject, "/fittings/0/words");
  EXPECT_EQ(problem(fitting(note + R"(], "words": ")" + std::string(301, 'w') + "\"")).code,
            Code::TicketTextTooLong);
  EXPECT_EQ(problem(fitting(note + R"(], "based-on": {"neck": 1e9})")).subject,
            "/fittings/0/based-on/neck");
  EXPECT_EQ(problem(fitting(note + R"(], "based-on": {"weight": 20})")).code,
            Code::TicketFieldUnknown);
  EXPECT_EQ(problem(fitting(note + R"(], "date": "2024-02-29")")), Problem{});
  for (const char* date : {"2023-02-29", "2026-13-01", "2026-11-31", "2026-11-3", "26-11-30",
                           "2026/11/30", "2026-11-00", "+026-11-30", "1899-12-31"}) {
    EXPECT_EQ(problem(fitting(note + R"(], "date": ")" + date + "\"")).subject, "/fittings/0/date")
        << date;
  }
  std::string many, fittings;
  for (size_t n = 0; n <= kMostFitNotes; ++n) many += (n ? "," : "") + note;
  EXPECT_EQ(problem(fitting(many + "]")).subject,
            "/fittings/0/notes/" + std::to_string(kMostFitNotes));
  for (size_t n = 0; n <= kMostFittings; ++n)
    fittings += (n ? "," : "") + std::string(R"({"notes": []})");
  EXPECT_EQ(problem("[" + fittings + "]").subject, "/fittings/" + std::to_string(kMostFittings));
  // What may not stand in a file is not written.
  Ticket odd;
  odd.fittings.assign(20, {.date = FitDate{2023, 2, 29}, .words = "a\x01" + std::string(400, 'w')});
  odd.fittings[0].notes.assign(30, {FitPlace::Tail, FitKind::Short, FitBy::Gap, 7.0});
  odd.fittings[0].notes[1].found_mm = std::numeric_limits<double>::quiet_NaN();
  odd.fittings[0].based_on.fill(-1.0);
  const auto written = read_ticket(write_ticket(odd));
  ASSERT_TRUE(written.ok()) << written.problem().subject;
  EXPECT_EQ(written->fittings.size(), kMostFittings);
  EXPECT_EQ(written->fittings[0].notes.size(), kMostFitNotes);
  EXPECT_FALSE(written->fittings[0].date);
  EXPECT_EQ(count_characters(written->fittings[0].words), kMostFittingCharacters);
}

TEST(Ticket, APhotographThatCannotBeReadIsRefusedWithItsPlace) {
  const auto problem = [](const std::string& photographs) {
    std::string file = write_ticket({});
    file.insert(
        file.rfind('}'),
        R"(, "fittings": [{"photographs": )" + photographs +
            R"(, "notes": [{"place": "neck", "kind": "loose", "by": "gap", "found": 7}]}])");
    const Result<Ticket> got = read_ticket(file);
    return got.ok() ? Problem{} : got.problem();
  };
  const auto photo = [](const std::string& more) {
    return R"([{"id": "Ph0t-_0a", "width": 1280, "height": 960)" + more + "}]";
  };
  const auto pins = [&](const std::string& more) { return photo(R"(, "pins": [)" + more + "]"); };
  const std::string pin = R"({"note": 0, "x": 0.5, "y": 1})";
  const std::string at = "/fittings/0/photographs";
  EXPECT_EQ(problem(pins(pin)), Problem{}) << "that one can be read";
  EXPECT_EQ(problem("{}").subject, at);
  EXPECT_EQ(problem(R"([{"width": 3, "height": 4}])").subject, at + "/0/id");
  for (const char* id : {"short", "../../etc", "Ph0t-_0a0", "Ph0t <0a"}) {
    const Problem p = problem(R"([{"width": 3, "height": 4, "id": ")" + std::string(id) + "\"}]");
    EXPECT_EQ(p.subject, at + "/0/id") << id;
  }
  for (const char* side : {"0", "-3", "1281", "10.5", "\"9\"", "1e300"}) {
    EXPECT_EQ(
        problem(R"([{"id": "Ph0t-_0a", "height": 4, "width": )" + std::string(side) + "}]").subject,
        at + "/0/width")
        << side;
  }
  EXPECT_EQ(problem(photo(R"(, "jpeg": "/9j/")")).code, Code::TicketFieldUnknown)
      << "the picture is no part of it";
  for (const char* part : {"-0.01", "1.01", "null"}) {
    EXPECT_EQ(problem(pins(R"({"note": 0, "y": 0, "x": )" + std::string(part) + "}")).subject,
              at + "/0/pins/0/x")
        << part;
  }
  EXPECT_EQ(problem(pins(R"({"note": 0.5, "x": 0, "y": 0})")).subject, at + "/0/pins/0/note");
  EXPECT_EQ(problem(pins(pin + R"(, {"note": 1, "x": 0, "y": 0})")),
            (Problem{.code = Code::PinWithoutNote, .subject = at + "/0/pins/1"}));
  EXPECT_EQ(problem(pins(pin + "," + pin)),
            (Problem{.code = Code::TicketFieldTwice, .subject = at + "/0/pins/1"}));
  const std::string one = R"({"id": "Ph0t-_0a", "width": 1, "height": 1})";
  EXPECT_EQ(problem("[" + one + "," + one + "," + one + "]").subject, at + "/2");
  // What may not stand in a file is not written, and no pin comes to another note by that.
  Ticket odd;
  const auto note = [](double mm) {
    return FitNote{FitPlace::Tail, FitKind::Short, FitBy::Gap, mm};
  };
  odd.fittings.push_back(
      {.notes = {note(-1.0), note(7.0)},
       .photographs = {
           {"no id", 10, 10},
           {"Ph0t-_0a", 5000, 10},
           {"Ph0t-_0b", 20, 10, {{0, 0.5, 0.5}, {1, 0.25, 0.75}, {1, 0.1, 0.1}, {7, 0, 0}}},
           {"Ph0t-_0c", 20, 10, {{1, -3.0, 0.5}}},
           {"Ph0t-_0d", 20, 10}}});
  const auto written = read_ticket(write_ticket(odd));
  ASSERT_TRUE(written.ok()) << written.problem().subject;
  EXPECT_EQ(
      written->fittings[0].photographs,
      (std::vector<Photograph>{{"Ph0t-_0b", 20, 10, {{0, 0.25, 0.75}}}, {"Ph0t-_0c", 20, 10}}));
}

TEST(Ticket, TheNextCoatOfADogKeepsWhatFittingsAlteredUntilItsReadingIsTakenAnew) {
  Ticket t;
  t.of(Measure::Neck) = {"16 in"};
  t.of(Measure::Back) = {"20 in"};
  t.fittings = {{.notes = {{FitPlace::Neck, FitKind::Loose, FitBy::Gap, 12.7},
                           {FitPlace::Tail, FitKind::Short, FitBy::Gap, 10.0}},
                 .photographs = {{"Ph0t-_0a", 20, 10}},
                 .based_on = readings_of(*tape_of(t))}};
  Ticket next = to_measure_again(t);
  EXPECT_TRUE(next.fittings[0].photographs.empty()) << "they show the coat that was tried";
  EXPECT_EQ(alterations_of(next, *tape_of(next)).list.size(), 2u);
  next.of(Measure::Neck) = {"15 1/2 in"};
  EXPECT_EQ(alterations_of(next, *tape_of(next)).list.size(), 1u);
}

TEST(Ticket, CoatsThatAreLaidWithItAreFewAndEachOneOnce) {
  const auto read = [](const std::string& ids) {
    std::string file = write_ticket({});
    file.insert(file.rfind('}'), ", \"laid-with\": " + ids);
    return read_ticket(file);
  };
  const auto kept = read(R"(["AbC-_012", "00000000"])");
  ASSERT_TRUE(kept.ok());
  EXPECT_EQ(kept->laid_with, (std::vector<std::string>{"AbC-_012", "00000000"}));
  const auto problem = [&](const std::string& ids) {
    const auto got = read(ids);
    return got.ok() ? Problem{} : got.problem();
  };
  EXPECT_EQ(problem(R"("AbC-_012")").code, Code::TicketFieldType);
  EXPECT_EQ(problem(R"([7])").subject, "/laid-with/0");
  EXPECT_EQ(problem(R"(["AbC-_012", "AbC-_012"])").subject, "/laid-with/1");
  for (const char* id : {"AbC-_01", "AbC-_0123", "AbC-_01+", "../../ab", "AbC-_01\\u0000"}) {
    EXPECT_EQ(problem("[\"" + std::string(id) + "\"]").code, Code::TicketChoiceUnknown) << id;
  }
  EXPECT_EQ(problem(R"(["a0000000", "b0000000", "c0000000", "d0000000"])").subject, "/laid-with/3");
  Ticket t;
  t.laid_with = {"no id", "AbC-_012", "AbC-_012"};
  for (int n = 10; n < 30; ++n) t.laid_with.push_back("ticket" + std::to_string(n));
  const auto written = read_ticket(write_ticket(t));
  ASSERT_TRUE(written.ok());
  EXPECT_EQ(written->laid_with.size(), kMostLaidWith);
  EXPECT_EQ(written->laid_with.front(), "AbC-_012");
}

TEST(Ticket, TheNextCoatOfADogIsLaidByItself) {
  Ticket t;
  t.laid_with = {"AbC-_012"};
  t.hand_lays = {{.places = {{.piece = "body"}, {.piece = "body", .coat = "AbC-_012"}}}};
  const Ticket next = to_measure_again(t);
  EXPECT_TRUE(next.laid_with.empty());
  ASSERT_EQ(next.hand_lays[0].places.size(), 1u);
  EXPECT_TRUE(next.hand_lays[0].places[0].coat.empty());
}

// Its age is counted from the month of the first fresh reading, not from that of the last coat.
TEST(Ticket, TheNextCoatOfADogForgetsTheMonthThatTheLastWasMeasuredIn) {
  Ticket t;
  t.of(Measure::Chest) = {"27 in"};
  t.birth = BirthMonth{2024, 3};
  t.measured = BirthMonth{2024, 11};
  ASSERT_EQ(tape_of(t)->age_months, 8);
  const Ticket next = to_measure_again(t);
  EXPECT_FALSE(next.measured);
  EXPECT_EQ(next.birth, t.birth);
  EXPECT_FALSE(tape_of(next)->age_months);
}

TEST(Ticket, AStepThatNoCoatHasStaysAndWhatIsNoStepIsRefusedWithItsPlace) {
  const auto read = [](const std::string& done) {
    std::string file = write_ticket({});
    file.insert(file.rfind('}'), ", \"done\": " + done);
    return read_ticket(file);
  };
  const auto kept = read(R"(["sew-sail", "cut-pieces"])");
  ASSERT_TRUE(kept.ok());
  EXPECT_EQ(kept->done, (std::set<std::string>{"cut-pieces", "sew-sail"}));
  EXPECT_EQ(read_ticket(write_ticket(*kept))->done, kept->done);
  EXPECT_EQ(read(R"(["a", "a"])").problem().subject, "/done/1");
  EXPECT_EQ(read(R"(["a", "a"])").problem().code, Code::TicketFieldTwice);
  for (const char* const bad : {R"([""])", R"(["A"])", R"(["a b"])", R"(["<b>"])", R"([1])",
                                R"([[]])", R"(["aaaaaaaaaabbbbbbbbbbccccccccccddddddddddx"])"}) {
    ASSERT_FALSE(read(bad).ok()) << bad;
    EXPECT_EQ(read(bad).problem().subject, "/done/0") << bad;
  }
  EXPECT_EQ(read(R"({"a": true})").problem().subject, "/done");
  std::string many = "[";
  for (size_t i = 0; i <= kMostDone; ++i) many += (i ? ",\"s" : "\"s") + std::to_string(i) + "\"";
  EXPECT_EQ(read(many + "]").problem().subject, "/done/" + std::to_string(kMostDone));
  // What may not stand in a file is not written.
  Ticket odd;
  odd.done = {"sew-band", "Sew band", ""};
  EXPECT_EQ(read_ticket(write_ticket(odd))->done, (std::set<std::string>{"sew-band"}));
}

TEST(Ticket, WhatWasCutComesBackAndIsCheckedPieceByPiece) {
  const auto read = [](const std::string& list) {
    return read_ticket(
        R"({"coatwright": 1, "unit": "cm", "style": "wrap", "readings": {}, "cut": )" + list + "}");
  };
  const std::string body =
      R"({"piece": "body.lining", "width": 620.1, "height": 410.2, "area": 180000.5})";
  const Result<Ticket> kept = read("[" + body + "]");
  ASSERT_TRUE(kept.ok());
  EXPECT_EQ(kept->cut, (CutRecord{{"body.lining", {620.1, 410.2, 180000.5}}}));
  EXPECT_EQ(read_ticket(write_ticket(*kept))->cut, kept->cut);
  EXPECT_EQ(read("[" + body + "," + body + "]").problem().subject, "/cut/1");
  EXPECT_EQ(read("[" + body + "," + body + "]").problem().code, Code::TicketFieldTwice);
  EXPECT_EQ(read(R"([{"piece": "<b>", "width": 1, "height": 1, "area": 1}])").problem().subject,
            "/cut/0/piece");
  EXPECT_EQ(read(R"([{"piece": "body", "width": -1, "height": 1, "area": 1}])").problem().subject,
            "/cut/0/width");
  EXPECT_EQ(read(R"([{"piece": "body", "width": 1, "height": 1}])").problem().subject,
            "/cut/0/area");
  EXPECT_EQ(read("{}").problem().subject, "/cut");
  std::string many = "[";
  for (size_t i = 0; i <= kMostCutRecord; ++i) {
    many += (i ? "," : "") + (R"({"piece": "p)" + std::to_string(i)) +
            R"(", "width": 1, "height": 1, "area": 1})";
  }
  EXPECT_EQ(read(many + "]").problem().subject, "/cut/" + std::to_string(kMostCutRecord));
  // What may not stand in a file is not written.
  Ticket odd;
  odd.cut = {{"Body", {1.0, 1.0, 1.0}}, {"band", {-1.0, 1.0, 1.0}}, {"hood", {1.0, 2.0, 3.0}}};
  EXPECT_EQ(read_ticket(write_ticket(odd))->cut, (CutRecord{{"hood", {1.0, 2.0, 3.0}}}));
}

TEST(Ticket, TheNextCoatOfADogHasNothingMadeYet) {
  Ticket t;
  t.done = {"cut-pieces"};
  t.cut = {{"body", {620.1, 410.2, 180000.5}}};
  EXPECT_TRUE(to_measure_again(t).done.empty());
  EXPECT_TRUE(to_measure_again(t).cut.empty());
}

TEST(Ticket, AMeasureToTakeAgainThatIsNoneOrStandsTwiceIsRefused) {
  Ticket t;
  t.of(Measure::Chest) = {"27 in"};
  t.of(Measure::Neck) = {"16 in"};
  const Ticket again = to_measure_again(t);
  EXPECT_TRUE(again.carried[static_cast<size_t>(Measure::Chest)]);
  EXPECT_FALSE(again.carried[static_cast<size_t>(Measure::Back)]) << "it has no reading";
  EXPECT_EQ(again.readings, t.readings);
  const std::string file = write_ticket(again);
  const auto spoilt = [&](const std::string& list) {
    std::string text = file;
    const size_t from = text.find("\"carried\": [") + 12, to = text.find(']', from);
    text.replace(from, to - from, list);
    const Result<Ticket> got = read_ticket(text);
    return got.ok() ? Problem{} : got.problem();
  };
  EXPECT_EQ(spoilt("\"chest\", \"tail\"").code, Code::TicketChoiceUnknown);
  EXPECT_EQ(spoilt("\"chest\", \"chest\"").subject, "/carried/1");
  EXPECT_EQ(spoilt("\"chest\", 4").code, Code::TicketFieldType);
  EXPECT_EQ(spoilt("\"chest\"").code, Problem{}.code) << "that one can be read";
}

TEST(Ticket, TheLargestTicketFitsItsBound) {
  Ticket t;
  const auto repeated = [](size_t n) {
    std::string text;
    for (size_t i = 0; i < n; ++i) append_utf8(text, 0x1F415);
    return text;
  };
  t.name = t.dog = repeated(kMostNameCharacters);
  for (auto& readings : t.readings) {
    readings.assign(static_cast<size_t>(kMostReadings), std::string(kMostReadingCharacters, '"'));
  }
  t.notes = repeated(kMostNotesCharacters);
  t.print.paper = repeated(kMostPaperCharacters);
  t.hand_lays = {{.use = ClothUse::Lining, .laminated = true}};
  for (size_t n = 0; n < kMostHandPlaces; ++n) {
    t.hand_lays[0].places.push_back({.piece = std::string(32, 'p'),
                                     .copy = static_cast<int>(n),
                                     .turned = true,
                                     .at = {-12345.678, -12345.678},
                                     .coat = "AbC-_012"});
  }
  for (size_t n = 0; n < kMostLaidWith; ++n) t.laid_with.push_back("ticket0" + std::to_string(n));
  for (size_t i = 0; i < kMostDone; ++i) {
    std::string id = std::to_string(1000 + i);
    t.done.insert(id.append(kMostStepCharacters - id.size(), 'a'));
  }
  for (size_t i = 0; i < kMostCutRecord; ++i) {
    std::string id = std::to_string(1000 + i);
    t.cut[id.append(32 - id.size(), 'p')] = {1234.5, 1234.5, 12345678.9};
  }
  Fitting fitting{.date = FitDate{2026, 11, 30}, .words = repeated(kMostFittingCharacters)};
  for (const MeasureInfo& m : measure_table()) {
    if (!m.is_weight) fitting.based_on[static_cast<size_t>(m.measure)] = m.highest - 0.1234567;
  }
  fitting.notes.assign(kMostFitNotes,
                       {FitPlace::Shoulder, FitKind::Forward, FitBy::Pinch, 12.3456789});
  Photograph photo{"Ph0t-_0a", kMostPhotoSide, kMostPhotoSide};
  for (size_t n = 0; n < kMostFitNotes; ++n) photo.pins.push_back({n, 1.0 / 3.0, 2e-7 / 3.0});
  fitting.photographs.assign(kMostPhotographs, photo);
  t.fittings.assign(kMostFittings, fitting);
  const Result<Ticket> got = read_ticket(write_ticket(t));
  ASSERT_TRUE(got.ok()) << code_name(got.problem().code);
  EXPECT_TRUE(*got == t);
}

TEST(Ticket, WhateverTheShellHoldsIsWrittenSoThatItReadsBack) {
  Ticket t;
  t.name = std::string(500, 'n');
  t.dog = "Bo\x01sun\xFF\u202E\t";
  t.of(Measure::Neck) = std::vector<std::string>(9, std::string(100, '9'));
  t.style = "something else";
  t.birth = BirthMonth{3000, 13};
  t.choices.set(kOverlap, std::numeric_limits<double>::quiet_NaN());
  t.choices.set(kBandWidth, std::numeric_limits<double>::infinity());
  t.choices.set(kHemLine, 7.0);
  t.print.margin = -3.0;
  t.print.overlap = std::numeric_limits<double>::quiet_NaN();
  t.print.paper = std::string(90, 'p');
  t.notes = "first\r\nsecond\n" + std::string(5000, '\n');
  const Result<Ticket> got = read_ticket(write_ticket(t));
  ASSERT_TRUE(got.ok()) << code_name(got.problem().code) << got.problem().subject;
  EXPECT_EQ(got->name, std::string(60, 'n'));
  EXPECT_EQ(got->dog, "Bo\uFFFDsun\uFFFD\uFFFD\uFFFD");
  EXPECT_EQ(got->of(Measure::Neck), std::vector<std::string>(5, std::string(40, '9')));
  EXPECT_FALSE(got->birth);
  EXPECT_FALSE(got->choices.of(kOverlap));
  EXPECT_FALSE(got->choices.of(kHemLine));
  EXPECT_EQ(got->print.margin, PrintChoices{}.margin);
  EXPECT_EQ(got->print.overlap, PrintChoices{}.overlap);
  EXPECT_EQ(got->notes.substr(0, 15), "first\uFFFD\nsecond");
  EXPECT_EQ(count_characters(got->notes), kMostNotesCharacters);
}

// ---- reading ----

constexpr const char* kSmall =
    R"({"coatwright": 1, "unit": "cm", "style": "wrap", "readings": {}})";

// kSmall with one field more, or with one of its fields otherwise.
std::string with(const std::string& field) {
  return R"({"coatwright": 1, "unit": "cm", "style": "wrap", "readings": {}, )" + field + "}";
}
std::string with_readings(const std::string& readings) {
  return R"({"coatwright": 1, "unit": "cm", "style": "wrap", "readings": )" + readings + "}";
}

TEST(Ticket, APieceThatWasLaidFartherThanAnyClothReachesIsNotKept) {
  Ticket t;
  const double far = 1.01 * kFarthestPlace;
  t.hand_lays = {{.places = {{.piece = "body", .at = {kFarthestPlace, -kFarthestPlace}},
                             {.piece = "a", .at = {far, 0.0}},
                             {.piece = "b", .at = {-far, 0.0}},
                             {.piece = "c", .at = {0.0, far}},
                             {.piece = "d", .at = {0.0, -far}}}}};
  const auto read = read_ticket(write_ticket(t));
  ASSERT_TRUE(read.ok());
  ASSERT_EQ(read->hand_lays.front().places.size(), 1u);
  EXPECT_EQ(read->hand_lays.front().places.front(), t.hand_lays.front().places.front());
}

TEST(Ticket, WhatIsLeftOutIsAtItsDefault) {
  const Result<Ticket> got = read_ticket(kSmall);
  ASSERT_TRUE(got.ok());
  Ticket wanted;
  wanted.unit = Unit::Centimetre;
  wanted.drafted_by = kFirstRule;
  EXPECT_TRUE(*got == wanted);
}

TEST(Ticket, AFileWithoutTheNumberOfItsDraftingRuleIsOfTheFirstAndStaysSoWhenItIsWritten) {
  const Result<Ticket> read = read_ticket(kSmall);
  ASSERT_TRUE(read.ok());
  EXPECT_EQ(read->drafted_by, kFirstRule);
  EXPECT_TRUE(is_drafted_anew(*read));
  EXPECT_EQ(write_ticket(*read).find("drafted-by"), std::string::npos);
  EXPECT_EQ(read_ticket(write_ticket(*read)).value(), *read);
}

TEST(Ticket, ANewTicketIsOfTheRuleOfNowAndSaysSoInItsFile) {
  EXPECT_FALSE(is_drafted_anew(Ticket{}));
  EXPECT_NE(write_ticket(Ticket{}).find("\"drafted-by\": 2"), std::string::npos);
  EXPECT_FALSE(is_drafted_anew(read_ticket(write_ticket(Ticket{})).value()));
}

// Its coat is another one than hangs on the dog, whichever was measured first.
TEST(Ticket, TheNextCoatOfADogIsToldOfTheRuleOfTheLast) {
  Ticket t;
  t.drafted_by = kFirstRule;
  EXPECT_TRUE(is_drafted_anew(to_measure_again(t)));
}

TEST(Ticket, AByteOrderMarkIsLetPass) {
  EXPECT_TRUE(read_ticket(std::string("\xEF\xBB\xBF") + kSmall).ok());
}

struct Refused {
  std::string file;
  Code code;
  std::string subject;
  std::string other;
};

TEST(Ticket, WhatIsHostileIsRefusedWithItsPlace) {
  const std::string deep = std::string(3000, '[') + std::string(3000, ']');
  const std::vector<Refused> rows = {
      {"", Code::TicketNotJson, "", ""},
      {"{", Code::TicketNotJson, "", ""},
      {"nonsense", Code::TicketNotJson, "", ""},
      {std::string(kSmall) + "x", Code::TicketNotJson, "", ""},
      {std::string(kSmall) + kSmall, Code::TicketNotJson, "", ""},
      {std::string("{\"a\": \0}", 8), Code::TicketNotJson, "", ""},
      {"// a comment\n" + std::string(kSmall), Code::TicketNotJson, "", ""},
      {with("\"name\": NaN"), Code::TicketNotJson, "", ""},
      {with("\"name\": \"a\nb\""), Code::TicketNotJson, "", ""},
      {with("\"name\": \"\\ud800\""), Code::TicketNotJson, "", ""},
      {with("\"name\": \"\xC3\""), Code::TicketTextUnclean, "", ""},
      {"[]", Code::TicketNotTicket, "", ""},
      {"null", Code::TicketNotTicket, "", ""},
      {"{}", Code::TicketNotTicket, "", ""},
      {R"({"name": "Winter coat"})", Code::TicketNotTicket, "", ""},
      {R"({"coatwright": 2})", Code::TicketFromFuture, "/coatwright", ""},
      {R"({"coatwright": 18446744073709551615, "x": 1})", Code::TicketFromFuture, "/coatwright",
       ""},
      {R"({"coatwright": 0})", Code::TicketFieldType, "/coatwright", "version"},
      {R"({"coatwright": -1})", Code::TicketFieldType, "/coatwright", "version"},
      {R"({"coatwright": 1.25})", Code::TicketFieldType, "/coatwright", "version"},
      {R"({"coatwright": "1"})", Code::TicketFieldType, "/coatwright", "version"},
      {R"({"coatwright": 1, "style": "wrap", "readings": {}})", Code::TicketFieldMissing, "/unit",
       ""},
      {R"({"coatwright": 1, "unit": "in", "readings": {}})", Code::TicketFieldMissing, "/style",
       ""},
      {R"({"coatwright": 1, "unit": "in", "style": "wrap"})", Code::TicketFieldMissing, "/readings",
       ""},
      {with(R"("tail": 3)"), Code::TicketFieldUnknown, "/tail", ""},
      {with(R"("a/b~c": 3)"), Code::TicketFieldUnknown, "/a~1b~0c", ""},
      {with("\"a\\u0001b\": 3"), Code::TicketFieldUnknown, "/a\uFFFDb", ""},
      {with("\"" + std::string(300, 'k') + "\": 3"), Code::TicketFieldUnknown,
       "/" + std::string(40, 'k'), ""},
      {with(R"("unit": "in")"), Code::TicketFieldTwice, "/unit", ""},
      {with_readings(R"({"neck": [], "neck": []})"), Code::TicketFieldTwice, "/readings/neck", ""},
      {with_readings(R"({"tail": ["3 in"]})"), Code::TicketFieldUnknown, "/readings/tail", ""},
      {with_readings("[]"), Code::TicketFieldType, "/readings", "object"},
      {with_readings(R"({"neck": "40 cm"})"), Code::TicketFieldType, "/readings/neck", "list"},
      {with_readings(R"({"neck": ["40 cm", 40]})"), Code::TicketFieldType, "/readings/neck/1",
       "text"},
      {with_readings(R"({"neck": ["40 cm", null]})"), Code::TicketFieldType, "/readings/neck/1",
       "text"},
      {with_readings(R"({"neck": ["1","2","3","4","5","6"]})"), Code::ReadingTooMany, "neck", ""},
      {with_readings("{\"neck\": [\"" + std::string(41, '1') + "\"]}"), Code::TicketTextTooLong,
       "/readings/neck/0", ""},
      {with(R"("drafted-by": 3)"), Code::TicketFromFuture, "/drafted-by", ""},
      {with(R"("drafted-by": 1e300)"), Code::TicketFromFuture, "/drafted-by", ""},
      {with(R"("drafted-by": 0)"), Code::TicketFieldType, "/drafted-by", "version"},
      {with(R"("drafted-by": 1.5)"), Code::TicketFieldType, "/drafted-by", "version"},
      {with(R"("drafted-by": "2")"), Code::TicketFieldType, "/drafted-by", "version"},
      {with(R"("unit": 3)").replace(18, 13, ""), Code::TicketFieldType, "/unit", "text"},
      {with(R"("sex": "hound")"), Code::TicketChoiceUnknown, "/sex", "hound"},
      {with(R"("sex": true)"), Code::TicketFieldType, "/sex", "text"},
      {with(R"("build": "Ordinary")"), Code::TicketChoiceUnknown, "/build", "Ordinary"},
      {with(R"("coat": "")"), Code::TicketChoiceUnknown, "/coat", ""},
      {with(R"("birth": "2021-13")"), Code::TicketFieldType, "/birth", "month"},
      {with(R"("birth": "2021-4")"), Code::TicketFieldType, "/birth", "month"},
      {with(R"("birth": "2021-04-01")"), Code::TicketFieldType, "/birth", "month"},
      {with(R"("birth": "1899-04")"), Code::TicketFieldType, "/birth", "month"},
      {with(R"("birth": "-021-04")"), Code::TicketFieldType, "/birth", "month"},
      {with(R"("birth": 2021)"), Code::TicketFieldType, "/birth", "month"},
      {with(R"("choices": {"overlap": "40"})"), Code::TicketFieldType, "/choices/overlap",
       "number"},
      {with(R"("choices": {"overlap": 1e999})"), Code::TicketFieldType, "/choices/overlap",
       "number"},
      {with(R"("choices": {"overlap": 10001})"), Code::NumberOutOfRange, "/choices/overlap", ""},
      {with(R"("choices": {"hem-line": 1})"), Code::TicketFieldType, "/choices/hem-line", "text"},
      {with(R"("choices": {"hem-line": "steep"})"), Code::TicketChoiceUnknown, "/choices/hem-line",
       "steep"},
      {with(R"("choices": {"frill": 1})"), Code::TicketFieldUnknown, "/choices/frill", ""},
      {with(R"("print": {"margin": -1})"), Code::NumberOutOfRange, "/print/margin", ""},
      {with(R"("print": {"overlap": 100.5})"), Code::NumberOutOfRange, "/print/overlap", ""},
      {with(R"("print": {"turn": "sideways"})"), Code::TicketChoiceUnknown, "/print/turn",
       "sideways"},
      {with(R"("print": {"opened": 1})"), Code::TicketFieldType, "/print/opened", "flag"},
      {with(R"("print": {"paper": "a123456789012345678901234"})"), Code::TicketTextTooLong,
       "/print/paper", ""},
      {with("\"notes\": \"" + std::string(2001, 'n') + "\""), Code::TicketTextTooLong, "/notes",
       ""},
      {with("\"notes\": \"a\\u0000b\""), Code::TicketTextUnclean, "/notes", ""},
      {with("\"name\": \"a\\nb\""), Code::TicketTextUnclean, "/name", ""},
      {with("\"name\": \"\\u202E\""), Code::TicketTextUnclean, "/name", ""},
      {with("\"name\": \"" + std::string(61, 'n') + "\""), Code::TicketTextTooLong, "/name", ""},
      {deep, Code::TicketTooDeep, "", ""},
      {with("\"name\": " + deep), Code::TicketTooDeep, "/name", ""},
      {std::string(kMostTicketBytes + 1, ' '), Code::TicketTooLarge, "", ""},
  };
  for (const Refused& row : rows) {
    const std::string shown = row.file.substr(0, 120);
    const Result<Ticket> got = read_ticket(row.file);
    ASSERT_FALSE(got.ok()) << shown;
    EXPECT_STREQ(code_name(got.problem().code), code_name(row.code)) << shown;
    EXPECT_EQ(got.problem().subject, row.subject) << shown;
    EXPECT_EQ(got.problem().other, row.other) << shown;
  }
}

TEST(Ticket, ARefusalTellsItsNumbers) {
  EXPECT_EQ(read_ticket(R"({"coatwright": 7})").problem().values[0], 7.0);
  EXPECT_EQ(read_ticket(std::string(150000, ' ')).problem().values[0], 150000.0);
  EXPECT_EQ(read_ticket("{\"coatwright\": 1, oops}").problem().values[0], 19.0);
}

// Every prefix of a file, and every file with one byte changed, is refused or read, and what is
// read can be written and read again.
TEST(Ticket, NoCutOrDamagedFileIsReadAsSomethingElse) {
  Dice dice(7);
  Ticket t = random_ticket(dice);
  t.notes = "short";
  const std::string file = write_ticket(t);
  for (size_t n = 0; n + 1 < file.size(); ++n) {
    if (file.compare(n, std::string::npos, "\n") == 0) continue;
    EXPECT_FALSE(read_ticket(std::string_view(file).substr(0, n)).ok()) << n;
  }
  int read = 0;
  int refused = 0;
  for (int i = 0; i < test::asked(20000); ++i) {
    std::string damaged = file;
    damaged[static_cast<size_t>(dice.below(static_cast<int>(file.size())))] =
        static_cast<char>(dice.below(256));
    const Result<Ticket> got = read_ticket(damaged);
    if (got) {
      ++read;
      ASSERT_TRUE(read_ticket(write_ticket(*got)).value() == *got);
    } else {
      ++refused;
    }
  }
  EXPECT_GT(read, test::asked(500));
  EXPECT_GT(refused, test::asked(1000));
}

std::string read_asset(const std::string& name) {
  std::ifstream file(assets_folder() + "/" + name, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

TEST(Ticket, EveryDemoTicketIsWrittenAsItStandsAndDraftsWithNothingToCheck) {
  for (const char* dog : {"bosun", "purser", "hawser", "pennant", "capstan", "bollard"}) {
    const std::string file = read_asset("tickets/" + std::string(dog) + ".json");
    const Result<Ticket> ticket = read_ticket(file);
    ASSERT_TRUE(ticket.ok()) << dog;
    EXPECT_EQ(write_ticket(*ticket), file);
    const Checked<Pattern> made = make_pattern(assess(tape_of(*ticket).value()), ticket->choices);
    ASSERT_TRUE(made.result.ok()) << dog << code_name(made.result.problem().code);
    for (const Finding& f : made.findings) {
      EXPECT_EQ(f.level, Level::Note) << dog << " " << code_name(f.what.code);
    }
  }
}

// ---- the tape ----

TEST(Ticket, ReadingsBecomeTheTape) {
  Ticket t;
  t.of(Measure::Back) = {"20 3/8 in", "51,5 cm"};
  t.of(Measure::Weight) = {"43 lb"};
  t.of(Measure::Neck) = {"16"};
  t.sex = Sex::Male;
  t.build = Build::Deep;
  t.coat = Coat::Thick;
  t.birth = BirthMonth{2020, 11};
  t.measured = BirthMonth{2022, 1};
  const Result<Tape> tape = tape_of(t);
  ASSERT_TRUE(tape.ok());
  EXPECT_EQ(tape->of(Measure::Back), (std::vector<double>{517.525, 515.0}));
  EXPECT_EQ(tape->of(Measure::Weight), (std::vector<double>{19.50447191}));
  EXPECT_EQ(tape->of(Measure::Neck), (std::vector<double>{406.4}));
  EXPECT_TRUE(tape->of(Measure::Chest).empty());
  EXPECT_EQ(tape->sex, Sex::Male);
  EXPECT_EQ(tape->build, Build::Deep);
  EXPECT_EQ(tape->coat, Coat::Thick);
  EXPECT_EQ(tape->age_months, 14);
}

// A tape is read anew only where tickets do not read alike (shell/desk/derived.cpp).
TEST(Ticket, ThoseThatReadAlikeGiveTheSameTapeAndOthersMayNot) {
  Ticket t;
  t.of(Measure::Back) = {"52"};
  t.birth = BirthMonth{2020, 11};
  t.measured = BirthMonth{2022, 1};
  Ticket other = t;
  other.name = "Winter coat";
  other.carried.fill(true);
  other.choices.set(kOverlap, 50.0);
  other.style = "strap";
  other.notes = "likes rain";
  EXPECT_TRUE(reads_alike(t, other));
  EXPECT_EQ(*tape_of(t), *tape_of(other));
  for (const auto& changed : std::vector<void (*)(Ticket&)>{
           [](Ticket& c) { c.of(Measure::Back).push_back("53"); },
           [](Ticket& c) { c.unit = Unit::Centimetre; },
           [](Ticket& c) { c.sex = Sex::Male; },
           [](Ticket& c) { c.build = Build::Deep; },
           [](Ticket& c) { c.coat = Coat::Thick; },
           [](Ticket& c) {
             c.birth = BirthMonth{2020, 12};
           },
           [](Ticket& c) {
             c.measured = BirthMonth{2022, 2};
           },
       }) {
    Ticket next = t;
    changed(next);
    EXPECT_FALSE(reads_alike(t, next));
    EXPECT_FALSE(*tape_of(t) == *tape_of(next));
  }
}

TEST(Ticket, AReadingThatCannotBeReadIsNamed) {
  Ticket t;
  t.of(Measure::Chest) = {"27 in", "27 9/8"};
  const Result<Tape> tape = tape_of(t);
  ASSERT_FALSE(tape.ok());
  EXPECT_EQ(tape.problem().code, Code::NumberFractionImproper);
  EXPECT_EQ(tape.problem().subject, "chest");
  t.of(Measure::Chest).clear();
  t.of(Measure::Weight) = {"27 in"};
  EXPECT_EQ(tape_of(t).problem().subject, "weight");
}

TEST(Ticket, NoDogIsMeasuredBeforeItIsBorn) {
  Ticket t;
  t.birth = BirthMonth{2022, 2};
  t.measured = BirthMonth{2022, 1};
  ASSERT_FALSE(tape_of(t).ok());
  EXPECT_EQ(tape_of(t).problem().code, Code::BirthAfterMeasuring);
  t.measured = BirthMonth{2022, 2};
  EXPECT_EQ(tape_of(t)->age_months, 0);
  t.birth.reset();
  EXPECT_FALSE(tape_of(t)->age_months);
}

template <class T>
void expect_ids_both_ways() {
  ASSERT_GT(all_of<T>().size(), 1u);
  for (const T value : all_of<T>()) {
    EXPECT_STRNE(id_of(value), "");
    EXPECT_EQ(from_id<T>(id_of(value)), value);
  }
  EXPECT_FALSE(from_id<T>("none of them"));
}

TEST(Ticket, EveryEnumeratorHasAnId) {
  expect_ids_both_ways<Unit>();
  expect_ids_both_ways<Sex>();
  expect_ids_both_ways<Build>();
  expect_ids_both_ways<Coat>();
  expect_ids_both_ways<Turn>();
  expect_ids_both_ways<Level>();
  expect_ids_both_ways<Need>();
}

}  // namespace
}  // namespace coatwright
