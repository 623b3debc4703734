// Slips in the studio: what goes out, and what becomes of what comes back.
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>

#include "core/slip/code.h"
#include "core/slip/ticket_code.h"
#include "shell/desk/slip_answer.h"
#include "shell/desk/slip_letter.h"
#include "shell/desk/start.h"
#include "shell/kit/qr.h"
#include "shell/words/studio_words.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

constexpr char kSite[] = "https://harbour.example/";

size_t index(Measure m) { return static_cast<size_t>(m); }

// The studio on its page.
struct Studio : Driver {
  explicit Studio(const Ticket& ticket = demo_ticket()) : Driver(ticket) { stand(); }
  explicit Studio(Rack rack) : Driver(std::move(rack)) { stand(); }
  void stand() {
    app.stands_at({.address = kSite, .shares = true});
    settle();
  }
  void read(const std::string& text) {
    app.take_text(text);
    settle();
  }
  void open_link(const std::string& fragment) {
    app.take_link(fragment);
    settle();
  }
  // The slip that is on the board.
  SlipRequest on_board() {
    const Control& qr = see("slip.qr");
    EXPECT_TRUE(qr.value.starts_with(std::string(kSite) + "slip.html#cwSL")) << qr.value;
    const auto request = read_request(qr.value);
    EXPECT_TRUE(request.ok());
    return request ? *request : SlipRequest{};
  }
  SlipRequest ask() {
    click("ask-client");
    return on_board();
  }
  bool says(std::string_view words) {
    return std::any_of(
        app.ui().controls().begin(), app.ui().controls().end(),
        [&](const Control& c) { return only_shows(c) && c.name.find(words) != std::string::npos; });
  }
};

SlipAnswer answer_to(const SlipToken& token) {
  SlipAnswer answer;
  answer.token = token;
  answer.of(Measure::Neck) = {"16 3/4", "16 7/8"};
  answer.of(Measure::Underline) = {"17 1/2"};
  answer.note = "He has a scar.";
  return answer;
}
std::string code_of(const SlipAnswer& answer) { return *write_answer(answer); }

// The demo dog with its neck still to be measured.
Ticket without_neck() {
  Ticket ticket = demo_ticket();
  ticket.of(Measure::Neck).clear();
  ticket.of(Measure::Underline).clear();
  return ticket;
}

// ---- what goes out -----------------------------------------------------------------------------

TEST(Slip, TheLinkAsksExactlyForWhatTheTicketWantsAndHoldsNothingElseOfIt) {
  Ticket ticket = without_neck();
  ticket.notes = "private notes";
  Studio studio(ticket);
  const SlipRequest request = studio.ask();
  EXPECT_EQ(request.asked, measures_to_ask(ticket));
  EXPECT_TRUE(request.asked[index(Measure::Neck)]);
  EXPECT_FALSE(request.asked[index(Measure::Chest)]);
  EXPECT_EQ(request.dog, ticket.dog);
  const std::string link = studio.see("slip.qr").value;
  EXPECT_LE(link.size(), kMostSlipLink);
  EXPECT_EQ(link.find('?'), std::string::npos) << "nothing of it is sent to a server";
  Ticket other = ticket;
  other.notes = "other notes";
  other.name = "another coat";
  other.of(Measure::Back) = {"11 in"};
  SlipView view{.token = request.token, .asked = request.asked};
  EXPECT_EQ(slip_letter(*slip_request(other, view), {.address = kSite}, studio_words())->link,
            link);
}

TEST(Slip, WhatTheMakerTicksAndTypesIsInTheLink) {
  Studio studio(without_neck());
  studio.ask();
  studio.click("ask.chest");
  studio.click("ask.neck");
  studio.enter("slip.studio", "The Sail Loft");
  studio.enter("slip.address", "deck@harbour.example");
  studio.enter("slip.note", "Twice each, please.");
  const SlipRequest request = studio.on_board();
  EXPECT_TRUE(request.asked[index(Measure::Chest)]);
  EXPECT_FALSE(request.asked[index(Measure::Neck)]);
  EXPECT_EQ(request.studio, "The Sail Loft");
  EXPECT_EQ(request.back.way, SlipWay::Mail);
  EXPECT_EQ(request.note, "Twice each, please.");
}

TEST(Slip, TheStudiosNameAndAddressAreThereForTheNextSlip) {
  Studio studio(without_neck());
  studio.ask();
  studio.enter("slip.studio", "The Sail Loft");
  studio.enter("slip.address", "+49 40 123456");
  studio.app.open_file(write_ticket(named("Hawser")));
  studio.settle();
  const SlipRequest next = studio.ask();
  EXPECT_EQ(next.dog, "Hawser");
  EXPECT_EQ(next.studio, "The Sail Loft");
  EXPECT_EQ(next.back, (SlipBack{SlipWay::Phone, "+49 40 123456"}));
  EXPECT_EQ(read_rack_notes(write_rack_notes(studio.app.rack().notes()))->studio, "The Sail Loft");
}

TEST(Slip, WhatCannotGoIntoALinkIsSaidAndNoLinkIsShown) {
  Studio studio(without_neck());
  studio.ask();
  studio.enter("slip.address", "not an address");
  EXPECT_FALSE(studio.sees("slip.qr"));
  EXPECT_TRUE(studio.says("is no address to answer to"));
  studio.enter("slip.address", "");
  EXPECT_TRUE(studio.sees("slip.qr"));
  studio.click("ask.neck");
  studio.click("ask.underline");
  for (const MeasureInfo& m : measure_table()) {
    if (studio.app.view().slip.asked[index(m.measure)]) studio.click(std::string("ask.") + m.id);
  }
  EXPECT_FALSE(studio.sees("slip.qr"));
  EXPECT_TRUE(studio.says("asks for no measure"));
}

TEST(Slip, TheLinkIsSharedCopiedAndMailed) {
  Studio studio(without_neck());
  studio.ask();
  const std::string link = studio.see("slip.qr").value;
  (void)studio.app.take_effects();
  studio.click("slip.share");
  studio.click("slip.copy");
  studio.click("slip.mail");
  const Effects effects = studio.app.take_effects();
  ASSERT_EQ(effects.size(), 3U);
  EXPECT_NE(std::get<ShareText>(effects[0]).text.find(link), std::string::npos);
  EXPECT_EQ(std::get<CopyText>(effects[1]).text, link);
  EXPECT_NE(std::get<MailText>(effects[2]).text.find(link), std::string::npos);
  EXPECT_NE(std::get<MailText>(effects[2]).subject.find(studio.app.ticket().dog),
            std::string::npos);
}

TEST(Slip, TheLinkFitsWithTheLongestNamesAndANote) {
  Ticket ticket = without_neck();
  ticket.dog = std::string(60, 'B');
  SlipView view{.asked = measures_to_ask(ticket)};
  view.studio = std::string(60, 'S');
  view.note = std::string(60, 'n');
  const auto letter = slip_letter(*slip_request(ticket, view), {.address = kSite}, studio_words());
  ASSERT_TRUE(letter.ok());
  EXPECT_LE(letter->link.size(), 500U);
  view.note = std::string(200, 'n');
  const auto longer = slip_letter(*slip_request(ticket, view), {.address = kSite}, studio_words());
  EXPECT_EQ(longer.problem().code, Code::SlipTooLong);
}

TEST(Slip, ItsQrCodeHasItsPatternsInThreeCornersAndFailsForWhatNoCameraReads) {
  const auto qr = qr_of(std::string(kSite) + "slip.html#" + std::string(420, 'x'));
  ASSERT_TRUE(qr.has_value());
  EXPECT_LE(qr->side, 97) << "version 20 or less";
  for (int i = 0; i < 7; ++i) {
    EXPECT_TRUE(qr->at(i, 0) && qr->at(qr->side - 1 - i, 0) && qr->at(0, qr->side - 1 - i));
  }
  EXPECT_FALSE(qr_of(std::string(1400, 'x')).has_value());
}

TEST(Slip, NoNoteLiesOnItsQrCode) {
  Studio studio;
  studio.app.tell("About the ticket before.");
  (void)studio.ask();
  EXPECT_FALSE(studio.sees("notice")) << "what was told before is over";
  const float whole = studio.see("slip.qr").box.h;
  studio.app.tell("Copied. Paste it into a message.");
  studio.settle();
  const Box note = studio.see("notice").box, code = studio.see("slip.qr").box;
  EXPECT_LE(code.bottom(), note.y);
  EXPECT_LT(code.h, whole);
  EXPECT_GT(code.h, 0.8F * whole);
}

TEST(Slip, TheRackShowsThatASlipIsOutUntilItIsAnswered) {
  Studio studio(without_neck());
  const SlipToken token = studio.ask().token;
  studio.press("Escape");
  const std::string id = "card." + studio.app.rack().open_id();
  studio.act("ticket");
  EXPECT_NE(studio.see(id).note.find("slip out since 24 Nov 2026"), std::string::npos)
      << studio.see(id).note;
  studio.act("ticket");
  EXPECT_EQ(studio.ask().token, token) << "it goes on until it is answered";
  studio.read(code_of(answer_to(token)));
  studio.click("answer.take");
  studio.act("ticket");
  EXPECT_EQ(studio.see(id).note.find("slip out"), std::string::npos);
  studio.act("ticket");
  EXPECT_NE(studio.ask().token, token);
}

TEST(Slip, AWindowThatFollowsMakesNoSlipAndTakesNothing) {
  Studio studio(without_neck());
  const SlipToken token = studio.ask().token;
  studio.press("Escape");
  Stored stored{.notes = {}, .cards = {write_card(studio.app.rack().cards()[0])}, .before = {}};
  studio.app.hang(stored, true);
  studio.settle();
  EXPECT_FALSE(studio.see("ask-client").enabled);
  studio.read(code_of(answer_to(token)));
  EXPECT_FALSE(studio.see("answer.take").enabled);
  EXPECT_TRUE(studio.sees("note.follows.action")) << "the way to write here";
}

// What a store holds that another window writes on.
Stored stored_of(const std::vector<Card>& cards) {
  Stored stored;
  for (const Card& card : cards) stored.cards.push_back(write_card(card));
  return stored;
}

TEST(Slip, AnAnswerStaysWhereItWasReadWhateverAnotherWindowDoesToItsTicket) {
  Studio studio(without_neck());
  const SlipToken token = studio.ask().token;
  const Stored with = stored_of(studio.app.rack().cards());
  studio.app.hang(with, true);
  studio.read(code_of(answer_to(token)));
  EXPECT_FALSE(studio.see("answer.take").enabled);
  studio.app.hang(stored_of({{.id = "other000", .ticket = demo_ticket()}}), true);
  studio.settle();
  ASSERT_TRUE(studio.app.view().slip.answer.has_value()) << "its ticket was deleted there";
  studio.app.open_file(write_ticket(named("Fender")));
  studio.app.hang(with, false);
  studio.settle();
  ASSERT_TRUE(studio.app.view().slip.answer.has_value());
  EXPECT_EQ(studio.app.ticket(), without_neck())
      << "beside its own ticket, not the one that waited";
  EXPECT_TRUE(studio.says("Opened: Fender"));
}

// ---- what comes back ---------------------------------------------------------------------------

TEST(SlipAnswer, ReadingsAreTakenOnTheirTicketInOneStep) {
  const Ticket before = without_neck();
  Studio studio(before);
  const SlipToken token = studio.ask().token;
  studio.read("Hello,\n" + std::string(kSite) + "#" + code_of(answer_to(token)) + ".");
  EXPECT_TRUE(studio.says("Readings for Bosun"));
  EXPECT_EQ(studio.app.ticket(), before) << "nothing changes before it was seen";
  EXPECT_TRUE(studio.see("take.neck.1").chosen);
  studio.click("answer.take");
  EXPECT_EQ(studio.app.ticket().of(Measure::Neck),
            (std::vector<std::string>{"16 3/4 in", "16 7/8 in"}));
  EXPECT_EQ(studio.app.ticket().of(Measure::Underline), (std::vector<std::string>{"17 1/2 in"}));
  EXPECT_NE(studio.app.ticket().notes.find("He has a scar."), std::string::npos);
  EXPECT_TRUE(studio.sees("measure.neck")) << "the measures are shown";
  studio.act("undo");
  EXPECT_EQ(studio.app.ticket(), before);
  EXPECT_FALSE(studio.app.history().can_undo());
}

TEST(SlipAnswer, OnlyWhatIsTickedIsTaken) {
  Studio studio(without_neck());
  const SlipToken token = studio.ask().token;
  studio.read(code_of(answer_to(token)));
  studio.click("take.neck.0");
  studio.click("take.note");
  studio.click("answer.take");
  EXPECT_TRUE(studio.app.ticket().of(Measure::Neck).empty());
  EXPECT_FALSE(studio.app.ticket().of(Measure::Underline).empty());
  EXPECT_EQ(studio.app.ticket().notes.find("scar"), std::string::npos);
}

TEST(SlipAnswer, WhatDiffersOrIsOddIsSaidAndNotTickedUnasked) {
  Ticket ticket = demo_ticket();
  ticket.of(Measure::Underline).clear();
  Studio studio(ticket);
  SlipAnswer answer = answer_to(studio.ask().token);
  answer.of(Measure::Neck) = {"19 in"};
  answer.of(Measure::Underline) = {"60 in"};
  studio.read(code_of(answer));
  EXPECT_TRUE(studio.says("It differs by more than two readings"));
  EXPECT_TRUE(studio.says("no dog is outside"));
  EXPECT_FALSE(studio.see("take.neck.1").chosen);
  EXPECT_FALSE(studio.see("take.underline.1").chosen);
  EXPECT_FALSE(studio.see("answer.take").enabled && !studio.app.view().slip.takes.note);
  studio.click("take.underline.1");
  const Ticket before = studio.app.ticket();
  studio.click("answer.take");
  EXPECT_EQ(studio.app.ticket(), before) << "a reading that no dog has is not taken";
  studio.click("take.underline.0");
  studio.click("take.neck.2");
  studio.click("answer.take");
  EXPECT_EQ(studio.app.ticket().of(Measure::Neck).size(), ticket.of(Measure::Neck).size() + 1)
      << "the old and the new ones";
}

TEST(SlipAnswer, WhatReadsTheSameIsToldToBeTheSame) {
  Ticket ticket = without_neck();
  ticket.of(Measure::Loin) = {"21 1/2 in"};
  ticket.of(Measure::Chest) = {"26 in"};
  Studio studio(ticket);
  SlipAnswer answer = answer_to(studio.ask().token);
  answer.of(Measure::Loin) = {"54,5 cm"};
  answer.of(Measure::Chest) = {"26 3/8"};
  studio.read(code_of(answer));
  EXPECT_TRUE(studio.says("21½ in on the ticket, 21½ in from the client, the same."));
  EXPECT_TRUE(studio.says("26 in on the ticket, 26⅜ in from the client, ⅜ in more."));
}

TEST(SlipAnswer, AnAnswerFindsItsTicketAndOpensIt) {
  Studio studio(without_neck());
  const SlipToken token = studio.ask().token;
  const std::string bosun = studio.app.rack().open_id();
  studio.app.open_file(write_ticket(named("Hawser")));
  studio.settle();
  studio.open_link("#" + code_of(answer_to(token)));
  EXPECT_EQ(studio.app.rack().open_id(), bosun);
  studio.click("answer.take");
  EXPECT_FALSE(studio.app.ticket().of(Measure::Neck).empty());
  EXPECT_EQ(studio.app.ticket().dog, "Bosun");
}

TEST(SlipAnswer, ComingTwiceItIsToldThatNothingIsLeftToTake) {
  Studio studio(without_neck());
  SlipAnswer answer = answer_to(studio.ask().token);
  studio.read(code_of(answer));
  studio.click("answer.take");
  studio.read(code_of(answer));
  EXPECT_TRUE(studio.says("there is nothing to take"));
  answer.of(Measure::Neck) = {"17"};
  studio.read(code_of(answer));
  EXPECT_TRUE(studio.says("Readings of this slip were taken on 24 Nov 2026 already"));
}

TEST(SlipAnswer, WhatWasUndoneIsNotToldToBeTaken) {
  Studio studio(without_neck());
  SlipAnswer answer = answer_to(studio.ask().token);
  studio.read(code_of(answer));
  studio.click("answer.take");
  studio.act("undo");
  studio.read(code_of(answer));
  EXPECT_FALSE(studio.sees("answer.standing")) << "it lies there as if it came for the first time";
  studio.click("answer.close");
  studio.act("redo");
  studio.read(code_of(answer));
  EXPECT_TRUE(studio.says("there is nothing to take"));
  studio.click("answer.close");
  studio.act("undo");
  studio.act("station.draft");
  studio.click("Show centimetres");
  ASSERT_FALSE(studio.app.history().can_redo());
  studio.read(code_of(answer));
  EXPECT_FALSE(studio.says("already")) << "also when it cannot be done again any more";
}

// ---- as people send them -----------------------------------------------------------------------

// As a mail program quotes it: marks before every line, and lines that are broken.
std::string quoted(const std::string& text, const std::string& mark, size_t width) {
  std::string out = mark;
  size_t column = 0;
  for (const char c : text) {
    if (c == '\n' || column == width) out += "\r\n" + mark;
    column = c == '\n' || column == width ? 0 : column + 1;
    if (c != '\n') out += c;
  }
  return out;
}

// As the slip page writes it.
std::string message_of(const SlipAnswer& answer) {
  return "Readings for Bosun\nNeck girth: 16 3/4 in; 16 7/8 in\nUnderline: 17 1/2 in\n\n"
         "Open in the studio:\n" +
         std::string(kSite) + "#" + code_of(answer);
}

TEST(SlipAnswer, TheRequestMayBeQuotedAboveOrBelowIt) {
  Studio studio(without_neck());
  const SlipRequest request = studio.ask();
  const std::string asked = "On Tuesday the studio wrote:\n" + std::string(kSite) + "slip.html#" +
                            *write_request(request);
  const std::string answered = message_of(answer_to(request.token));
  for (const std::string& text :
       {asked + "\n\n" + answered, answered + "\n\n" + asked,
        answered + "\n\n" + quoted(asked, "> ", 70), quoted(asked, "> ", 70) + "\n\n" + answered,
        quoted(answered, "> ", 60) + "\n\n" + quoted(asked, "> > ", 60),
        quoted(asked, ">>", 72) + "\n" + quoted(answered, "| ", 72),
        quoted(quoted(answered, "> ", 64), "> ", 50) + "\n" + asked}) {
    studio.read(text);
    EXPECT_TRUE(studio.sees("answer.neck")) << text;
    EXPECT_FALSE(studio.sees("answer.words.neck")) << text;
    EXPECT_FALSE(studio.sees("answer.several")) << text;
    EXPECT_TRUE(studio.see("answer.take").enabled) << text;
    studio.click("answer.close");
  }
  // The answer broke on its way: that is what is told, not that a request was quoted with it.
  studio.read(asked + "\n" + code_of(answer_to(request.token)).substr(0, 40));
  EXPECT_TRUE(studio.says("was cut on its way"));
}

TEST(SlipAnswer, OfTwoInOneTextItIsAskedWhichCounts) {
  Studio studio(without_neck());
  const SlipAnswer first = answer_to(studio.ask().token);
  SlipAnswer second = first;
  second.of(Measure::Neck) = {"17 1/4"};
  studio.read(code_of(first) + "\nSorry, once more:\n" + code_of(second));
  EXPECT_TRUE(studio.says("This message holds 2 answers"));
  EXPECT_FALSE(studio.see("answer.take").enabled) << "nobody has said which";
  studio.click("answer.which.1");
  EXPECT_FALSE(studio.says("This message holds 2 answers"));
  studio.click("answer.take");
  EXPECT_EQ(studio.app.ticket().of(Measure::Neck), (std::vector<std::string>{"17 1/4 in"}));
}

TEST(SlipAnswer, OneThatIsTornBesideAWholeOneIsToldUnlessItIsAPieceOfThat) {
  Studio studio(without_neck());
  const SlipAnswer first = answer_to(studio.ask().token);
  SlipAnswer second = first;
  second.of(Measure::Neck) = {"17 1/4"};
  std::string changed = code_of(second);
  changed[changed.size() - 6] = changed[changed.size() - 6] == 'A' ? 'B' : 'A';
  const std::string cut = code_of(second).substr(0, code_of(second).size() - 8);
  for (const std::string& torn : {changed, cut}) {
    for (const std::string& text : {code_of(first) + "\n" + torn, torn + "\n" + code_of(first)}) {
      studio.read(text);
      EXPECT_TRUE(studio.says("one more answer, which was cut or changed")) << text;
      EXPECT_TRUE(studio.see("answer.take").enabled) << "the maker has been told";
      studio.click("answer.close");
    }
  }
  const std::string request = *write_request(studio.ask());
  for (const std::string& text : {code_of(first) + "\n" + code_of(first).substr(0, 30),
                                  code_of(first) + "\n" + request.substr(0, 30)}) {
    studio.read(text);
    EXPECT_TRUE(studio.sees("answer.neck")) << text;
    EXPECT_FALSE(studio.sees("answer.torn")) << text;
    studio.click("answer.close");
  }
}

TEST(SlipAnswer, TheSameOneTwiceInOneTextIsOne) {
  Studio studio(without_neck());
  const SlipAnswer answer = answer_to(studio.ask().token);
  studio.read(code_of(answer) + "\n> " + code_of(answer));
  EXPECT_FALSE(studio.sees("answer.several"));
  EXPECT_TRUE(studio.see("answer.take").enabled);
}

TEST(SlipAnswer, AReadingThatWasMendedInTheMessagesWordsIsAskedAbout) {
  Studio studio(without_neck());
  const SlipAnswer answer = answer_to(studio.ask().token);
  std::string text = message_of(answer);
  text.replace(text.find("16 3/4 in; 16 7/8 in"), 20, "17 1/4 in");
  studio.read(text);
  EXPECT_TRUE(studio.says("the message’s words say 17 "));
  EXPECT_TRUE(studio.says(", its code says 16 "));
  EXPECT_TRUE(studio.see("take.neck.0").chosen) << "not taken unasked";
  EXPECT_TRUE(studio.see("take.underline.1").chosen);
  studio.click("answer.by-words");
  EXPECT_TRUE(studio.see("take.neck.1").chosen);
  studio.click("answer.take");
  EXPECT_EQ(studio.app.ticket().of(Measure::Neck), (std::vector<std::string>{"17 1/4 in"}));
}

TEST(SlipAnswer, WordsThatOnlyLookDifferentAreNoCorrection) {
  Studio studio(without_neck());
  const SlipAnswer answer = answer_to(studio.ask().token);
  const std::string code = "\n" + code_of(answer);
  for (const char* words :
       {"Neck girth: 16.75 in; 16 7/8 in", "> Neck girth: 16 3/4\n> in; 16 7/8 in",
        "Neck girth:16 3/4in;16 7/8in", "Neck girth: 16 3/4 in;\n16 7/8 in\nUnderline: 17.5 in",
        "Neck girth is hard to measure.", "Neck girth:"}) {
    studio.read(words + code);
    EXPECT_FALSE(studio.sees("answer.words.neck")) << words;
    studio.click("answer.close");
  }
  for (const char* words :
       {"Neck girth: 16 3/4 in", "Neck girth: 16 3/4 in; 16 7/8 in; 17 in", "Neck girth: 61 3/4 in",
        "> Neck girth: about 17", "Neck girth: 17\n> Neck girth: 16 3/4 in; 16 7/8 in"}) {
    studio.read(words + code);
    EXPECT_TRUE(studio.sees("answer.words.neck")) << words;
    studio.click("answer.close");
  }
}

TEST(SlipAnswer, AWholeAnswerInTheWrongUnitIsAskedAboutAndReadOtherwise) {
  Ticket ticket = demo_ticket();
  ticket.readings = {};
  ticket.of(Measure::Weight) = {"45 lb"};
  Studio studio(ticket);
  SlipAnswer answer;
  answer.token = studio.ask().token;
  answer.unit = Unit::Centimetre;
  answer.of(Measure::Back) = {"22 1/2"};
  answer.of(Measure::Neck) = {"16 3/4"};
  answer.of(Measure::Chest) = {"26 3/8"};
  answer.of(Measure::Breast) = {"27"};
  studio.read(code_of(answer));
  EXPECT_TRUE(studio.says("As centimetres these readings fit no such dog, as inches they do."));
  EXPECT_FALSE(studio.says("likeliest mistake"));
  EXPECT_FALSE(studio.see("answer.take").enabled) << "nothing is ticked unasked";
  studio.click("answer.reread");
  EXPECT_FALSE(studio.sees("answer.unit"));
  studio.click("answer.take");
  EXPECT_EQ(studio.app.ticket().of(Measure::Chest), (std::vector<std::string>{"26 3/8 in"}));
}

// Twenty messages that are not what was hoped for, and what is true of each.
TEST(SlipAnswer, TwentyBadMessagesAreEachAnsweredByATrueSentence) {
  Studio studio(without_neck());
  const SlipRequest request = studio.ask();
  const std::string asked = *write_request(request);
  const SlipAnswer answer = answer_to(request.token);
  const std::string code = code_of(answer), link = std::string(kSite) + "#" + code;
  const auto with = [](std::string text, size_t at, const std::string& instead) {
    return text.replace(at, instead.size(), instead);
  };
  std::string lower = code;
  std::transform(lower.begin(), lower.end(), lower.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  Coded later = *find_code(code), both = later, longer = later;
  later.head = 0x83;
  both.head = 0xC1;
  longer.body.push_back(0);
  SlipAnswer mended = answer;
  mended.of(Measure::Neck) = {"18"};
  SlipAnswer odd = answer;
  odd.of(Measure::Neck) = {"160"};
  const std::pair<std::string, std::string> bad[] = {
      // nothing of ours
      {"Thanks! We are on the quay at nine.", "There is no slip in this text"},
      {"Neck girth: 16 3/4 in; 16 7/8 in", "There is no slip in this text"},
      {"https://harbour.example/", "There is no slip in this text"},
      {"{\"form\": \"coatwright\"}", "There is no slip in this text"},
      {"cwSL", "was cut on its way: 4 of its"},
      // the wrong one of ours
      {std::string(kSite) + "slip.html#" + asked, "This is the link that asks for readings"},
      {quoted("You asked:\n" + asked, "> ", 40), "This is the link that asks for readings"},
      // harmed on its way
      {link.substr(0, link.size() - 20), "was cut on its way"},
      {code.substr(0, 24) + "... (message clipped)", "was cut on its way"},
      {with(code, 20, code[20] == 'A' ? "B" : "A"), "was changed on its way"},
      {lower, "was changed on its way"},
      {code.substr(0, 30) + code.substr(31) + "A", "was changed on its way"},
      {asked + " " + with(code, 22, code[22] == 'Q' ? "R" : "Q"), "was changed on its way"},
      // whole, and not ours to read
      {to_code(later), "has version 3"},
      {to_code(both), "says nothing that Coatwright writes"},
      {to_code(longer), "says nothing that Coatwright writes"},
      {std::string(kMostMessageBytes, ' ') + code,
       "The text is longer than the " + std::to_string(kMostMessageBytes) + " bytes"},
      // readable, and to be looked at
      {code_of(answer_to({1, 1, 1, 1, 1, 1})), "No ticket here asked for these readings"},
      {code_of(answer) + code_of(mended), "This message holds 2 answers"},
      {code_of(odd), "Neck girth reads 160 in, and no dog is outside"},
  };
  EXPECT_EQ(std::size(bad), 20U);
  for (const auto& [text, sentence] : bad) {
    studio.open_link(text);
    EXPECT_TRUE(studio.says(sentence)) << sentence << "\nfor: " << text.substr(0, 200);
    EXPECT_EQ(studio.app.ticket(), without_neck()) << "nothing is taken";
  }
}

// ---- which slip --------------------------------------------------------------------------------

TEST(SlipAnswer, OneToAnOlderSlipIsToldFromTheNewest) {
  Studio studio(without_neck());
  const SlipAnswer first = answer_to(studio.ask().token);
  studio.read(code_of(first));
  studio.click("answer.take");
  EXPECT_NE(studio.ask().token, first.token);
  SlipAnswer late = first;
  late.of(Measure::Neck) = {"17"};
  studio.read(code_of(late));
  EXPECT_TRUE(studio.says("a newer slip was made on 24 Nov 2026"));
}

TEST(SlipAnswer, OfADeletedTicketItIsToldAndCanBeHadAllTheSame) {
  Studio studio(without_neck());
  const SlipAnswer answer = answer_to(studio.ask().token);
  const std::string id = studio.app.rack().open_id();
  studio.press("Escape");
  studio.act("ticket");
  studio.click("card." + id + ".delete");
  studio.read(code_of(answer));
  EXPECT_TRUE(studio.says("was deleted: put it back to take them"));
  studio.click("answer.return");
  EXPECT_EQ(studio.app.rack().open_id(), id);
  EXPECT_EQ(studio.app.rack().card(id)->place, Place::Rack);
  EXPECT_TRUE(studio.sees("answer.take"));
}

TEST(SlipAnswer, OfATicketDeletedForGoodItCanBeHungOnANewOne) {
  Studio studio(without_neck());
  const SlipAnswer answer = answer_to(studio.ask().token);
  const std::string id = studio.app.rack().open_id();
  studio.press("Escape");
  studio.act("ticket");
  studio.click("card." + id + ".delete");
  studio.click("rack.place.2");
  studio.click("card." + id + ".erase");
  studio.click("card." + id + ".erase");
  ASSERT_EQ(studio.app.rack().card(id), nullptr);
  studio.read(code_of(answer));
  EXPECT_TRUE(studio.says("was deleted for good"));
  studio.click("answer.hang");
  studio.click("answer.take");
  EXPECT_FALSE(studio.app.ticket().of(Measure::Neck).empty());
  studio.read(code_of(answer));
  EXPECT_TRUE(studio.says("there is nothing to take")) << "the new ticket is known by the slip";
}

TEST(SlipAnswer, FromAnotherBrowserItIsTold) {
  Studio studio;
  studio.read(code_of(answer_to({9, 9, 9, 9, 9, 9})));
  EXPECT_TRUE(studio.says("No ticket here asked for these readings"));
  EXPECT_TRUE(studio.see("answer.hang").enabled);
  EXPECT_FALSE(studio.sees("answer.take"));
}

TEST(SlipAnswer, WhatAMessengerDoesToItIsUndoneOrSaid) {
  Studio studio(without_neck());
  const SlipToken token = studio.ask().token;
  const std::string code = code_of(answer_to(token));
  const std::string link = std::string(kSite) + "#" + code;
  std::string wrapped = link;
  wrapped.insert(40, "\n> ");
  std::string encoded;
  for (const char c : link) encoded += c == '#' ? "%23" : std::string(1, c);
  for (const std::string& whole : {link + ").", wrapped, encoded, "\"" + code + "\"!"}) {
    studio.read(whole);
    EXPECT_TRUE(studio.sees("answer.neck")) << whole;
    studio.click("answer.close");
  }
  std::string damaged = code;
  damaged[20] = damaged[20] == 'A' ? 'B' : 'A';
  Coded future = *find_code(code);
  future.head = 0x83;
  const std::pair<std::string, std::string> refused[] = {
      {code.substr(0, 30), "was cut on its way"},
      {damaged, "was changed on its way"},
      {to_code(future), "has version 3"},
      {"Good morning, see you at the quay.", "no slip in this text"},
      {to_code({0x81, {1, 2, 3}}), "says nothing that Coatwright writes"},
      {*write_request(request_for(demo_ticket(), measures_to_ask(demo_ticket()), token)),
       "This is the link that asks for readings"},
  };
  for (const auto& [text, sentence] : refused) {
    studio.open_link(text);
    EXPECT_TRUE(studio.says(sentence)) << sentence;
    EXPECT_TRUE(studio.sees("answer.text")) << "another can be put in";
  }
}

TEST(SlipAnswer, ItCanBePastedIntoItsField) {
  Studio studio(without_neck());
  const std::string code = code_of(answer_to(studio.ask().token));
  studio.press("Escape");
  studio.click("client-answer");
  studio.enter("answer.text", "Hi");
  EXPECT_FALSE(studio.sees("answer.problem")) << "somebody is still typing";
  studio.enter("answer.text", "Good morning");
  EXPECT_TRUE(studio.sees("answer.problem"));
  studio.enter("answer.text", "From the client: " + code);
  EXPECT_TRUE(studio.sees("answer.neck"));
}

TEST(SlipAnswer, NamesAndNotesWithMarkupAreText) {
  Ticket ticket = without_neck();
  ticket.dog = "<img src=x onerror=alert(1)>";
  Studio studio(ticket);
  SlipAnswer answer = answer_to(studio.ask().token);
  answer.note = "<script>alert(1)</script>";
  studio.read(code_of(answer));
  EXPECT_TRUE(studio.says(answer.note));
  EXPECT_TRUE(studio.says("Readings for " + ticket.dog));
}

// ---- a whole ticket ----------------------------------------------------------------------------

TEST(TicketLink, AWholeTicketIsHungByItsLink) {
  std::string text;
  {
    Studio studio;
    studio.act("station.print");
    (void)studio.app.take_effects();
    studio.click("print.tab.3");
    studio.click("ticket.link");
    const Effects effects = studio.app.take_effects();
    ASSERT_EQ(effects.size(), 1U);
    text = std::get<ShareText>(effects[0]).text;
  }
  Studio other(named("Hawser"));
  other.read(text);
  EXPECT_EQ(other.app.ticket(), demo_ticket());
  EXPECT_EQ(other.app.rack().cards().size(), 2U);
  EXPECT_TRUE(other.says("Opened: Bosun"));
}

TEST(TicketLink, ATicketThatComesWhileAnotherWindowWritesIsHungOnceThisOneMay) {
  Studio studio(named("Hawser"));
  const Stored stored = stored_of(studio.app.rack().cards());
  studio.app.hang(stored, true);
  studio.settle();
  studio.open_link(*write_ticket_code(demo_ticket()));
  studio.app.open_file(write_ticket(named("Fender")));
  studio.app.open_file(write_ticket(named("Fender")));
  studio.settle();
  EXPECT_EQ(studio.app.rack().cards().size(), 1U);
  EXPECT_TRUE(studio.says("waits here"));
  studio.app.hang(stored, true);
  studio.settle();
  EXPECT_EQ(studio.app.rack().cards().size(), 1U) << "the other window writes still";
  studio.app.hang(stored, false);
  studio.settle();
  ASSERT_EQ(studio.app.rack().cards().size(), 3U);
  EXPECT_EQ(studio.app.ticket(), named("Fender"));
  studio.app.hang(stored_of(studio.app.rack().cards()), false);
  studio.settle();
  EXPECT_EQ(studio.app.rack().cards().size(), 3U) << "once is enough";
}

TEST(TicketLink, ATicketThatDoesNotFitIsAFile) {
  Ticket ticket = demo_ticket();
  ticket.notes = std::string(2000, 'n');
  Studio studio(ticket);
  studio.act("station.print");
  (void)studio.app.take_effects();
  studio.click("print.tab.3");
  studio.click("ticket.link");
  const Effects effects = studio.app.take_effects();
  ASSERT_EQ(effects.size(), 1U);
  EXPECT_EQ(*read_ticket(std::get<SaveFile>(effects[0]).bytes), ticket);
  EXPECT_TRUE(studio.says("too long for a link"));
}

}  // namespace
}  // namespace coatwright::studio
