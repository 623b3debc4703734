// What a studio asks and what a client answers, there and back.
#include "core/slip/slip.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "core/base/utf8.h"
#include "core/draft/styles/style.h"
#include "core/slip/code.h"
#include "core/slip/ticket_code.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::Dice;

// ---- random slips ----

std::string random_text(Dice& dice, int most, bool lines) {
  static const std::vector<char32_t> kCharacters = {U'a', U'Z',    U'0',  U' ', U'"', U'<', U'>',
                                                    U'&', U'é',    U'ß',  U'½', U'’', U'Ж', U'犬',
                                                    U'ñ', 0x1F415, 0x301, U'{', U'%', U'#'};
  std::string text;
  for (int left = dice.below(most + 1); left > 0; --left) {
    append_utf8(
        text,
        lines && dice.below(9) == 0
            ? U'\n'
            : kCharacters[static_cast<size_t>(dice.below(static_cast<int>(kCharacters.size())))]);
  }
  return text;
}

SlipToken random_token(Dice& dice) {
  SlipToken token;
  for (uint8_t& b : token) b = static_cast<uint8_t>(dice.below(256));
  return token;
}

SlipRequest random_request(Dice& dice) {
  SlipRequest r;
  r.token = random_token(dice);
  for (bool& asked : r.asked) asked = dice.chance(0.4);
  r.asked[static_cast<size_t>(dice.below(kMeasures))] = true;
  r.unit = dice.chance(0.5) ? Unit::Inch : Unit::Centimetre;
  r.build = static_cast<Build>(dice.below(4));
  const char* kAddresses[] = {"", "deck@harbour.example", "+49 40 123456", "a.b+c_d-e@x.y.z"};
  r.back = *slip_back(kAddresses[dice.below(4)]);
  r.studio = random_text(dice, 25, false);
  r.dog = random_text(dice, 15, false);
  r.note = random_text(dice, 30, true);
  return r;
}

std::string random_reading(Dice& dice, bool weight) {
  const char* kLengths[] = {"27 1/2", "27½ in",    "27 ⅜",      "52,5 cm",   "52.5",     "525 mm",
                            "1' 8\"", "16 3/4 in", "1 ft 8 in", "20.375 in", "  33 cm ", "7⅓ in"};
  const char* kWeights[] = {"45 lb", "19.5", "19,5 kg", "43 lb 8 oz", "900 g"};
  return weight ? kWeights[dice.below(5)] : kLengths[dice.below(12)];
}

SlipAnswer random_answer(Dice& dice, double share, int most) {
  SlipAnswer a;
  a.token = random_token(dice);
  a.unit = dice.chance(0.5) ? Unit::Inch : Unit::Centimetre;
  for (const MeasureInfo& measure : measure_table()) {
    if (!dice.chance(share)) continue;
    for (int n = 1 + dice.below(most); n > 0; --n) {
      a.of(measure.measure).push_back(random_reading(dice, measure.is_weight));
    }
  }
  if (a.of(Measure::Neck).empty()) a.of(Measure::Neck).push_back("16 3/4 in");
  a.note = random_text(dice, 60, true);
  return a;
}

SlipRequest plain_request() {
  SlipRequest r;
  r.token = {1, 2, 3, 4, 5, 6};
  for (const Measure m : {Measure::Back, Measure::Neck, Measure::Chest, Measure::Drop,
                          Measure::Breast, Measure::Loin, Measure::Underline, Measure::Weight}) {
    r.asked[static_cast<size_t>(m)] = true;
  }
  r.back = {SlipWay::Mail, "deck@harbour.example"};
  r.studio = "The Sail Loft";
  r.dog = "Bosun";
  r.note = "He pulls left when a gull lands, so please take each one twice.";
  return r;
}

Code problem_of(const Result<SlipRequest>& r) {
  EXPECT_FALSE(r.ok());
  return r.ok() ? Code::CannotDraft : r.problem().code;
}

// ---- there and back ----

TEST(Slip, ARequestComesBackAsItWas) {
  Dice dice(20261);
  int in_cm = 0;
  for (int i = 0; i < 3000; ++i) {
    const SlipRequest wanted = random_request(dice);
    const Result<std::string> code = write_request(wanted);
    ASSERT_TRUE(code.ok()) << i << " " << code_name(code.problem().code);
    const Result<SlipRequest> back = read_request(*code);
    ASSERT_TRUE(back.ok()) << i << " " << code_name(back.problem().code);
    EXPECT_EQ(*back, wanted);
    in_cm += wanted.unit == Unit::Centimetre;
  }
  EXPECT_GT(in_cm, 1000);
}

TEST(Slip, AnAnswerComesBackAsItWasTyped) {
  Dice dice(20262);
  size_t longest = 0;
  for (int i = 0; i < 3000; ++i) {
    const SlipAnswer wanted = random_answer(dice, 0.5, 5);
    const Result<std::string> code = write_answer(wanted);
    ASSERT_TRUE(code.ok()) << i << " " << code_name(code.problem().code);
    longest = std::max(longest, code->size());
    const Result<SlipAnswer> back = read_answer("Here they are: " + *code + ".");
    ASSERT_TRUE(back.ok()) << i << " " << code_name(back.problem().code);
    EXPECT_EQ(*back, wanted);
  }
  EXPECT_GT(longest, 400u);
}

TEST(Slip, ALinkWithANameAndANoteTakesAtMost500Bytes) {
  const std::string page = "https://coats.harbour-sail-loft.example/studio/slip.html#";
  const Result<std::string> request = write_request(plain_request());
  ASSERT_TRUE(request.ok());
  EXPECT_LT((page + *request).size(), 300u);

  // Every measure, twice each.
  SlipAnswer answer;
  for (const MeasureInfo& measure : measure_table()) {
    answer.of(measure.measure) = {measure.is_weight ? "45.5 lb" : "26 3/8 in",
                                  measure.is_weight ? "45 lb" : "26½ in"};
  }
  answer.note = "He moved at the chest. Sheath 4 cm behind the last rib; thin hair on the belly.";
  const Result<std::string> sent = write_answer(answer);
  ASSERT_TRUE(sent.ok());
  EXPECT_LE((page + *sent).size(), 500u);
}

TEST(Slip, NothingThatCanBeMeasuredIsTooLongToSend) {
  SlipAnswer answer;
  for (const MeasureInfo& measure : measure_table()) {
    answer.of(measure.measure).assign(5, measure.is_weight ? "43 lb 8 oz" : "1 ft 8 13/16 in");
  }
  for (size_t i = 0; i < kMostAnswerNote; ++i) answer.note += "é";
  const Result<std::string> code = write_answer(answer);
  ASSERT_TRUE(code.ok());
  EXPECT_TRUE(read_answer(*code).ok());
}

TEST(Slip, TheLongestReadingThatMayBeTypedComesBack) {
  SlipAnswer answer;
  const std::string longest = std::string(kMostSlipReading - 5, '0') + "66 cm";
  answer.of(Measure::Chest) = {longest};
  const Result<std::string> code = write_answer(answer);
  ASSERT_TRUE(code.ok());
  const Result<SlipAnswer> read = read_answer(*code);
  ASSERT_TRUE(read.ok());
  EXPECT_EQ(read->of(Measure::Chest), std::vector<std::string>{longest});
  answer.of(Measure::Chest) = {"0" + longest};
  EXPECT_EQ(write_answer(answer).problem().code, Code::NumberTooLong);
}

// The bytes of version 1, held for ever: links that are on their way must be read by later builds.
TEST(Slip, TheCodesOfVersionOneStay) {
  const std::string kAnswer = "cwSLgQAiAQIDBAUGAAIiobLgD1fV4B9xIMXgP9EV4K4A_wVNw7xkZXoKlkkz";
  const std::string kRequest =
      "cwSLAQByAQIDBAUGAP8AFGRlY2tAaGFyYm91ci5leGFtcGxlDVRoZSBTYWlsIExvZnQFQm9zdW4_SGUg"
      "cHVsbHMgbGVmdCB3aGVuIGEgZ3VsbCBsYW5kcywgc28gcGxlYXNlIHRha2UgZWFjaCBvbmUgdHdpY2Uu80b_GQz";
  SlipAnswer answer;
  answer.token = {1, 2, 3, 4, 5, 6};
  answer.of(Measure::Back) = {"22 1/2 in", "57,5 cm"};
  answer.of(Measure::Weight) = {"20.5 kg"};
  answer.of(Measure::HeadGirth) = {"15⅞ in"};
  answer.note = "Müde";
  const Result<std::string> code = write_answer(answer);
  ASSERT_TRUE(code.ok());
  EXPECT_EQ(*code, kAnswer);
  EXPECT_EQ(*read_answer(kAnswer), answer);
  const Result<std::string> request = write_request(plain_request());
  ASSERT_TRUE(request.ok());
  EXPECT_EQ(*request, kRequest);
}

// A version 1 reader, a page that a browser has kept or a studio that was not loaded again, has the
// first fourteen measures.
TEST(Slip, TheCodesOfVersionTwoStay) {
  const std::string kAnswer =
      "cwSLggAwAQIDBAUGAAIiobLgD1fV4B9xIMXgP9EV4K4A_gIqe44A99XgH-EW4F_wBU3DvGRlGdSFgQz";
  const std::string kRequest =
      "cwSLAgByAQIDBAUGwP8AFGRlY2tAaGFyYm91ci5leGFtcGxlDVRoZSBTYWlsIExvZnQFQm9zdW4_SGUg"
      "cHVsbHMgbGVmdCB3aGVuIGEgZ3VsbCBsYW5kcywgc28gcGxlYXNlIHRha2UgZWFjaCBvbmUgdHdpY2UuBHSrnwz";
  SlipAnswer answer;
  answer.token = {1, 2, 3, 4, 5, 6};
  answer.of(Measure::Back) = {"22 1/2 in", "57,5 cm"};
  answer.of(Measure::Throat) = {"2 7/8 in", "7,5 cm"};
  answer.of(Measure::GirthPlace) = {"6¼"};
  answer.of(Measure::Weight) = {"20.5 kg"};
  answer.of(Measure::HeadGirth) = {"15⅞ in"};
  answer.note = "Müde";
  const Result<std::string> code = write_answer(answer);
  ASSERT_TRUE(code.ok());
  EXPECT_EQ(*code, kAnswer);
  EXPECT_EQ(*read_answer(kAnswer), answer);
  SlipRequest request = plain_request();
  request.asked[static_cast<size_t>(Measure::Throat)] = true;
  request.asked[static_cast<size_t>(Measure::GirthPlace)] = true;
  const Result<std::string> asks = write_request(request);
  ASSERT_TRUE(asks.ok());
  EXPECT_EQ(*asks, kRequest);
  EXPECT_EQ(*read_request(kRequest), request);
}

// Whoever has version 1 still reads all that it can say, and is told of the rest that it is newer.
TEST(Slip, ACodeHasTheFirstVersionThatCanSayIt) {
  const auto later = [](Measure m) { return m == Measure::Throat || m == Measure::GirthPlace; };
  Dice dice(20265);
  int seen[2] = {0, 0};
  for (int i = 0; i < 600; ++i) {
    const SlipRequest request = random_request(dice);
    const SlipAnswer answer = random_answer(dice, 0.15, 2);
    bool asked = false, taken = false;
    for (const MeasureInfo& m : measure_table()) {
      if (!later(m.measure)) continue;
      asked = asked || request.asked[static_cast<size_t>(m.measure)];
      taken = taken || !answer.of(m.measure).empty();
    }
    EXPECT_EQ(find_code(*write_request(request))->head, asked ? 2 : 1);
    EXPECT_EQ(find_code(*write_answer(answer))->head, taken ? 0x82 : 0x81);
    ++seen[asked ? 1 : 0], ++seen[taken ? 1 : 0];
  }
  EXPECT_GT(seen[0], 200);
  EXPECT_GT(seen[1], 200);
}

// There is one code for each slip: what another version would say shorter or could not say.
TEST(Slip, TheSameBodyInTheOtherVersionIsNotRead) {
  SlipAnswer plain, later;
  plain.of(Measure::Neck) = later.of(Measure::Neck) = {"16 in"};
  later.of(Measure::Throat) = {"3 in"};
  SlipRequest asks = plain_request();
  Coded request = *find_code(*write_request(asks));
  request.head = 2;
  EXPECT_EQ(problem_of(read_request(to_code(request))), Code::SlipMalformed);
  asks.asked[static_cast<size_t>(Measure::GirthPlace)] = true;
  request = *find_code(*write_request(asks));
  request.head = 1;
  EXPECT_EQ(problem_of(read_request(to_code(request))), Code::SlipMalformed);
  for (const auto& [answer, head] : {std::pair{plain, 0x82}, {later, 0x81}}) {
    Coded coded = *find_code(*write_answer(answer));
    ASSERT_TRUE(read_answer(to_code(coded)).ok());
    coded.head = static_cast<uint8_t>(head);
    EXPECT_EQ(read_answer(to_code(coded)).problem().code, Code::SlipMalformed) << head;
  }
}

TEST(Slip, ATokenIsEightCharacters) {
  const SlipToken token = {0, 255, 17, 3, 200, 9};
  EXPECT_EQ(token_text(token).size(), 8u);
  EXPECT_EQ(token_from_text(token_text(token)), token);
  for (const char* text : {"", "AAAAAAA", "AAAAAAAAA", "AAAA AAA", "AAAAAAA=", "AAAAAAAAAA"}) {
    EXPECT_FALSE(token_from_text(text)) << text;
  }
}

// ---- damage ----

TEST(Slip, EverySingleDamageOfALinkIsRefusedNeverMisread) {
  Dice dice(20263);
  size_t looked_at = 0;
  for (int i = 0; i < 12; ++i) {
    const SlipAnswer wanted = random_answer(dice, 0.3, 2);
    const std::string code = *write_answer(wanted);
    for (size_t at = 0; at < code.size(); ++at) {
      std::vector<std::string> damages = {code.substr(0, at) + code.substr(at + 1)};
      for (const char c : std::string("AQgw059-_zcwSL")) {
        std::string changed = code;
        changed[at] = c;
        damages.push_back(changed);
        damages.push_back(code.substr(0, at) + c + code.substr(at));
      }
      for (const std::string& text : damages) {
        const Result<SlipAnswer> read = read_answer(text);
        if (read) {
          EXPECT_EQ(*read, wanted) << text;
        }
        ++looked_at;
      }
    }
  }
  EXPECT_GT(looked_at, 20000u);
}

TEST(Slip, EachDamageHasItsOwnProblem) {
  const std::string request = *write_request(plain_request());
  SlipAnswer a;
  a.of(Measure::Neck) = {"16 in"};
  const std::string answer = *write_answer(a);
  EXPECT_EQ(problem_of(read_request("")), Code::SlipNotFound);
  EXPECT_EQ(problem_of(read_request(request.substr(0, 60))), Code::SlipCut);
  std::string changed = request;
  changed[30] = changed[30] == 'x' ? 'y' : 'x';
  EXPECT_EQ(problem_of(read_request(changed)), Code::SlipDamaged);
  EXPECT_EQ(problem_of(read_request(answer)), Code::SlipIsAnswer);
  EXPECT_EQ(read_answer(request).problem().code, Code::SlipIsRequest);
  EXPECT_EQ(problem_of(read_request(std::string(70000, 'a'))), Code::SlipTooLarge);
  EXPECT_EQ(problem_of(read_request(to_code({1, {1, 2, 3}}))), Code::SlipMalformed);
  EXPECT_EQ(problem_of(read_request(to_code({0, {1, 2, 3}}))), Code::SlipMalformed);
}

TEST(Slip, ALaterVersionIsToldFromADamagedOne) {
  Coded later = *find_code(*write_request(plain_request()));
  later.head = kSlipVersion + 1;
  later.body.push_back(77);
  const Result<SlipRequest> read = read_request(to_code(later));
  ASSERT_FALSE(read.ok());
  EXPECT_EQ(read.problem().code, Code::SlipFromFuture);
  EXPECT_EQ(read.problem().values[0], kSlipVersion + 1.0);
  later.head |= 0x80;
  EXPECT_EQ(read_answer(to_code(later)).problem().code, Code::SlipFromFuture);
}

// Well framed, but not what we write: bytes behind the end, bits that stand for nothing, readings
// that are no numbers, texts that cannot be shown.
TEST(Slip, WhatWeWouldNotWriteIsNotRead) {
  const Coded request = *find_code(*write_request(plain_request()));
  SlipAnswer a;
  a.of(Measure::Neck) = {"16 in"};
  a.of(Measure::Chest) = {"26"};
  const Coded answer = *find_code(*write_answer(a));
  size_t refused = 0, read_back = 0;
  const auto look = [&](const Coded& coded) {
    const std::string code = to_code(coded);
    const Result<SlipRequest> r = read_request(code);
    const Result<SlipAnswer> s = read_answer(code);
    if (r) {
      EXPECT_EQ(*write_request(*r), code);
    }
    if (s) {
      EXPECT_EQ(*write_answer(*s), code);
    }
    (r.ok() || s.ok() ? read_back : refused) += 1;
  };
  for (const Coded& coded : {request, answer}) {
    for (size_t at = 0; at < coded.body.size(); ++at) {
      for (int value = 0; value < 256; ++value) {
        Coded changed = coded;
        changed.body[at] = static_cast<uint8_t>(value);
        look(changed);
      }
      Coded shorter = coded;
      shorter.body.resize(at);
      look(shorter);
      EXPECT_FALSE(read_answer(to_code(shorter)).ok());
    }
    Coded longer = coded;
    longer.body.push_back(0);
    look(longer);
    EXPECT_FALSE(read_request(to_code(longer)).ok());
  }
  EXPECT_GT(refused, 5000u);
  EXPECT_GT(read_back, 500u);
}

// ---- what may be written ----

TEST(Slip, ARequestThatCannotBeSentSaysWhy) {
  const auto fault = [](auto change) {
    SlipRequest r = plain_request();
    change(r);
    const Result<std::string> code = write_request(r);
    EXPECT_FALSE(code.ok());
    return code.ok() ? Problem{} : code.problem();
  };
  EXPECT_EQ(fault([](SlipRequest& r) { r.asked = {}; }).code, Code::SlipNothingAsked);
  EXPECT_EQ(fault([](SlipRequest& r) { r.dog = std::string(61, 'x'); }).subject, "slip-dog");
  EXPECT_EQ(fault([](SlipRequest& r) { r.studio = "a\nb"; }).code, Code::SlipTextUnclean);
  EXPECT_EQ(fault([](SlipRequest& r) { r.studio = "\u202Ex"; }).subject, "slip-studio");
  EXPECT_EQ(fault([](SlipRequest& r) { r.note = std::string(201, 'x'); }).code,
            Code::SlipTextTooLong);
  EXPECT_EQ(fault([](SlipRequest& r) { r.back.way = SlipWay::Phone; }).code,
            Code::SlipAddressUnfit);
  const Problem too_long = fault([](SlipRequest& r) {
    r.note.clear();
    for (int i = 0; i < 200; ++i) r.note += "犬";
  });
  EXPECT_EQ(too_long.code, Code::SlipTooLong);
  EXPECT_GT(too_long.values[0], too_long.values[1]);
}

TEST(Slip, AnAnswerThatCannotBeSentSaysWhy) {
  SlipAnswer a;
  EXPECT_EQ(write_answer(a).problem().code, Code::SlipNothingRead);
  a.of(Measure::Neck) = {"16 9/8"};
  EXPECT_EQ(write_answer(a).problem().code, Code::NumberFractionImproper);
  EXPECT_EQ(write_answer(a).problem().subject, "neck");
  a.of(Measure::Neck) = std::vector<std::string>(6, "16 in");
  EXPECT_EQ(write_answer(a).problem().code, Code::ReadingTooMany);
  a.of(Measure::Neck) = {std::string(37, '1')};
  EXPECT_EQ(write_answer(a).problem().code, Code::NumberTooLong);
  a.of(Measure::Neck) = {"16 in"};
  a.note = std::string(501, 'n');
  EXPECT_EQ(write_answer(a).problem().code, Code::SlipTextTooLong);
  a.note = "a\tb";
  EXPECT_EQ(write_answer(a).problem().code, Code::SlipTextUnclean);
}

TEST(Slip, AReadingGetsAUnitOnlyIfItHasNone) {
  const auto with = [](const char* typed, Measure m, Unit u) {
    return reading_with_unit(typed, m, u);
  };
  EXPECT_EQ(with("27 ½", Measure::Neck, Unit::Inch), "27 ½ in");
  EXPECT_EQ(with("52,5", Measure::Neck, Unit::Centimetre), "52,5 cm");
  EXPECT_EQ(with("52,5 cm", Measure::Neck, Unit::Inch), "52,5 cm");
  EXPECT_EQ(with("1' 8", Measure::Back, Unit::Centimetre), "1' 8");
  EXPECT_EQ(with("45", Measure::Weight, Unit::Inch), "45 lb");
  EXPECT_EQ(with("19.5", Measure::Weight, Unit::Centimetre), "19.5 kg");
  EXPECT_EQ(with("43 lb 8", Measure::Weight, Unit::Centimetre), "43 lb 8");
  EXPECT_EQ(with("27 9/8", Measure::Neck, Unit::Inch), "27 9/8");
  // In inches it would be longer than any length that is read.
  EXPECT_EQ(with("4063,5", Measure::Neck, Unit::Centimetre), "4063,5 cm");
}

TEST(Slip, AnAddressTellsItsWay) {
  const auto way = [](std::string_view a) {
    const Result<SlipBack> back = slip_back(a);
    EXPECT_TRUE(back.ok()) << a;
    return back.ok() ? back->way : SlipWay::Any;
  };
  EXPECT_EQ(way(""), SlipWay::Any);
  EXPECT_EQ(way("deck@harbour.example"), SlipWay::Mail);
  EXPECT_EQ(way("a+b_c-d.e@sail-loft.example"), SlipWay::Mail);
  EXPECT_EQ(way("+49 40 123456"), SlipWay::Phone);
  EXPECT_EQ(way("(040) 123-456"), SlipWay::Phone);
  EXPECT_EQ(way("+123456789012345"), SlipWay::Phone) << "the longest of ITU-T E.164";
  for (const char* address : {"@",
                              "a@",
                              "@b.example",
                              "a@b",
                              "a@b..c",
                              "a@b.c.",
                              "a@b.c?cc=x@y.z",
                              "a@b.c&body=x",
                              "a@b.c,d@e.f",
                              "a b@c.d",
                              "a@b@c.d",
                              "javascript:x",
                              "12",
                              "1234567890123456",
                              "+49;x=1",
                              "1234?body=x",
                              "++4940123",
                              "Deck <a@b.c>",
                              "a@b.c\n",
                              "%61@b.c",
                              "é@b.c"}) {
    EXPECT_FALSE(slip_back(address).ok()) << address;
  }
  EXPECT_FALSE(slip_back(std::string(80, 'a') + "@b.c").ok());
}

// ---- whole tickets ----

Ticket whole_ticket() {
  Ticket t;
  t.dog = "Bosun <script>";
  t.name = "Ferry deck coat";
  t.of(Measure::Chest) = {"26 3/8 in", "67 cm"};
  t.choices.set(*choice_by_id("hem-depth"), 12.5);
  t.carried[static_cast<size_t>(Measure::Chest)] = true;
  t.notes = "Rides the ferry.\nScar on the left.";
  return t;
}

TEST(TicketCode, AWholeTicketComesBackAsItWas) {
  const Ticket t = whole_ticket();
  const std::string code = *write_ticket_code(t);
  EXPECT_LE(code.size(), kMostTicketCode);
  EXPECT_EQ(*kind_of(*find_code("look: https://harbour.example/#" + code + ".")),
            SlipKind::WholeTicket);
  const auto back = read_ticket_code("https://harbour.example/#" + code);
  ASSERT_TRUE(back.ok());
  EXPECT_EQ(*back, t);
}

TEST(TicketCode, ATicketThatDoesNotFitIsRefused) {
  Ticket t = whole_ticket();
  t.notes = std::string(kMostNotesCharacters, 'n');
  EXPECT_EQ(write_ticket_code(t).problem().code, Code::SlipTooLong);
}

TEST(TicketCode, OnlyWhatWouldBeWrittenIsRead) {
  const auto problem = [](std::string_view json) {
    return read_ticket_code(to_code({0x41, Bytes(json.begin(), json.end())})).problem().code;
  };
  EXPECT_EQ(problem("{}"), Code::TicketNotTicket);
  EXPECT_EQ(problem(write_ticket(whole_ticket())), Code::SlipMalformed) << "with line breaks";
  EXPECT_EQ(problem("[1"), Code::TicketNotJson);
}

TEST(TicketCode, EachKindIsToldFromTheOthers) {
  const std::string ticket = *write_ticket_code(whole_ticket());
  EXPECT_EQ(read_answer(ticket).problem().code, Code::SlipIsTicket);
  EXPECT_EQ(read_request(ticket).problem().code, Code::SlipIsTicket);
  EXPECT_EQ(kind_of({0xC1, {}}).problem().code, Code::SlipMalformed);
  EXPECT_EQ(kind_of({0x42, {}}).problem().code, Code::SlipFromFuture);
  EXPECT_EQ(read_answers("good morning").problem().code, Code::SlipNotFound);
}

}  // namespace
}  // namespace coatwright
