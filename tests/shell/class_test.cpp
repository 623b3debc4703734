// What goes out for several: jobs of coats, a class's packet, lays and quotes, and sizes.
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <map>
#include <set>

#include "core/draft/styles/style.h"
#include "core/draw/signs.h"
#include "core/draw/svg.h"
#include "core/ticket/pattern_of.h"
#include "core/units/unbroken.h"
#include "shell/pages/class_page.h"
#include "shell/pages/fit_page.h"
#include "shell/pages/measuring_page.h"
#include "shell/pages/press.h"
#include "shell/pages/recipe_page.h"
#include "shell/words/fonts.h"
#include "shell/words/words_table.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

const Words& words() { return word_table(); }
const PictureFonts kFonts{font_regular(), font_semibold(), font_symbols()};

Ticket of_style(const std::string& dog, const char* style) {
  Ticket ticket = named(dog);
  ticket.style = style;
  return ticket;
}
MadeCoat made(const Ticket& ticket, const std::string& key = "") {
  const Result<Tape> tape = tape_of(ticket);
  return {key, ticket, *tape, *pattern_of(ticket, *tape).result};
}
std::vector<MadeCoat> made(const std::vector<Ticket>& tickets) {
  std::vector<MadeCoat> out;
  for (const Ticket& one : tickets) out.push_back(made(one, "coat" + std::to_string(out.size())));
  return out;
}

std::string texts_of(const Document& document) {
  std::string out;
  for (const DocumentPart& part : document.parts()) {
    for (const std::string& text : part.texts) out += text + "\n";
  }
  return out;
}
std::string texts_of(const Chapter& chapter) {
  std::string out;
  for (const PdfPage& page : chapter.pages) {
    for (const DrawItem& item : page.drawing.items) {
      if (const auto* text = std::get_if<TextItem>(&item)) out += text->text + "\n";
    }
  }
  return out;
}
bool holds(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

// ---- orders -----------------------------------------------------------------------------------------

FormOrder an_order() {
  return {Form::QuotePdf,
          {.day = "2026-11-24",
           .roll_mm = 610.0,
           .kerf_mm = 0.25,
           .printer = {.across = 0.98, .along = 1.01},
           .studio = "Slipway & Sons",
           .quoted = "coat1",
           .left_out = {{"Gale, Wrap coat", "It is gone."}},
           .by_hand = {"shell-laminated", "lining"}},
          {{"", write_ticket(a_ticket())}, {"coat1", write_ticket(named("Gale"))}}};
}

TEST(FormOrder, ComesBackAsItWasWrittenAndTornItIsNone) {
  const FormOrder order = an_order();
  const std::string text = write_form_order(order);
  EXPECT_EQ(read_form_order(text), order);
  // Wherever its first record or a ticket's head is torn off.
  const size_t first = text.find('\x1E');
  for (size_t length = 0; length <= first; ++length) {
    EXPECT_FALSE(read_form_order(text.substr(0, length))) << length;
  }
  for (const char* wrong : {"coats", "", "quote.pdf"}) {
    std::string torn = text;
    torn.replace(torn.find("\x1E"
                           "coat\x1F") +
                     1,
                 4, wrong);
    EXPECT_FALSE(read_form_order(torn)) << wrong;
  }
}

TEST(FormOrder, IsBoundedInItsCoatsItsTextsAndItsNumbers) {
  FormOrder order = an_order();
  order.coats.assign(kMostFormCoats, order.coats.front());
  EXPECT_TRUE(read_form_order(write_form_order(order)));
  order.coats.push_back(order.coats.front());
  EXPECT_FALSE(read_form_order(write_form_order(order)));
  order = an_order();
  order.coats.clear();
  EXPECT_FALSE(read_form_order(write_form_order(order)));
  order = an_order();
  order.coats.front().ticket.assign(kMostTicketBytes + 1, ' ');
  EXPECT_FALSE(read_form_order(write_form_order(order)));
  order = an_order();
  std::string text = write_form_order(order);
  text.replace(text.find(" 0.25 "), 6, " 4e22 ");
  EXPECT_FALSE(read_form_order(text));
  order.choices.printer.along = 1.06;
  EXPECT_FALSE(read_form_order(write_form_order(order)));
  order = an_order();
  order.choices.left_out.assign(kMostCoats + 1, {"a", "b"});
  EXPECT_FALSE(read_form_order(write_form_order(order)));
  order = an_order();
  order.choices.studio = std::string(2000, 'x') + "\x1E";
  const auto read = read_form_order(write_form_order(order));
  ASSERT_TRUE(read);
  EXPECT_EQ(read->choices.studio, std::string(300, 'x'));
}

TEST(Press, RefusesSeveralCoatsForAFormOfOneAndNamesTheCoatThatCannotBeMade) {
  FormOrder order{Form::PatternDxf,
                  {.day = ""},
                  {{"", write_ticket(a_ticket())}, {"b", write_ticket(named("Gale"))}}};
  const auto why = [&] { return press(write_form_order(order), kFonts, words()).refused; };
  EXPECT_EQ(why(), words()("form-of-one-coat"));
  order.form = Form::SheetsPdf;
  EXPECT_EQ(why(), "");
  Ticket unread = named("Gale");
  unread.of(Measure::Chest).clear();
  order.coats.back().ticket = write_ticket(unread);
  EXPECT_EQ(why().substr(0, 5), "Gale,");
  order.coats.back().ticket = "{";
  EXPECT_EQ(why().substr(0, 2), "b:");
}

// ---- jobs and packets -------------------------------------------------------------------------------

TEST(Job, OfSeveralCoatsIsTheSheetsOfEachWithItsOwnCoverOneBehindTheOther) {
  const std::vector<Ticket> dogs = {a_ticket(), of_style("Gale", "strap"),
                                    of_style("Tern", "underpanel")};
  const FormChoices choices{.day = "2026-11-24"};
  const std::vector<MadeCoat> all = made(dogs);
  const FormSource together{all, choices, kFonts, words()};
  size_t pages = 0;
  Chapters chapters;
  for (const MadeCoat& coat : all) {
    const Result<SheetPlan> plan = sheets_of(coat, together);
    ASSERT_TRUE(plan);
    const Chapter chapter = sheets_chapter(coat, *plan, together);
    const auto alone =
        draw_sheets(*plan, {title_of(laid_coats({coat}), words()), choices.day}, words());
    ASSERT_EQ(chapter.pages.size(), alone.size());
    EXPECT_TRUE(holds(texts_of(chapter), coat.ticket.dog));
    EXPECT_TRUE(holds(texts_of({"", {chapter.pages.front()}}), words()("cover.how")));
    pages += alone.size();
  }
  const Result<FormFile> job = make_form(Form::SheetsPdf, together);
  ASSERT_TRUE(job);
  const std::string& pdf = job->bytes;
  size_t found = 0;
  for (size_t at = pdf.find("/Type /Page\n"); at != std::string::npos;
       at = pdf.find("/Type /Page\n", at + 1)) {
    ++found;
  }
  EXPECT_EQ(found, pages);
}

TEST(Handout, HasNoDogsNameAndNoLengthOfItButTheAllowances) {
  Ticket ticket = of_style("Quillfeather", "wrap");
  ticket.name = "Secret commission";
  ticket.notes = "rings twice";
  const std::vector<MadeCoat> coats = {made(ticket)};
  const FormChoices choices{.day = "2026-11-24", .studio = "Slipway"};
  const Chapters chapters = handout(coats, {coats, choices, kFonts, words()});
  ASSERT_EQ(chapters.size(), 4U);
  for (const Chapter& chapter : chapters) {
    const std::string text = texts_of(chapter);
    EXPECT_GT(text.size(), 400U) << chapter.title;
    for (const char* secret : {"Quillfeather", "Secret commission", "rings twice"}) {
      EXPECT_FALSE(holds(text + chapter.title, secret)) << chapter.title;
    }
  }
  EXPECT_TRUE(holds(texts_of(chapters.front()), "Slipway"));

  // Line for line the recipe, with lines to write on for its lengths.
  const Document filled = recipe_sheet(ticket, coats.front().pattern, words(), "");
  const Document blank = blank_recipe(ticket, coats.front().pattern, words(), "");
  std::vector<std::string> full, open;
  for (const DocumentPart& part : filled.parts()) full.push_back(part.texts.front());
  for (const DocumentPart& part : blank.parts()) open.push_back(part.texts.front());
  std::erase(open, words()("recipe.blank"));
  ASSERT_EQ(full.size(), open.size());
  const auto lengths = [](const std::string& text) {
    int n = 0;
    for (size_t at = text.find(" in"); at != std::string::npos; at = text.find(" in", at + 1)) {
      // Behind a figure, or a fraction's sign.
      const auto before = static_cast<unsigned char>(at > 0 ? text[at - 1] : 'a');
      n += std::isdigit(before) != 0 || before >= 0x80;
    }
    return n;
  };
  int lines = 0, allowances = 0;
  for (size_t i = 0; i < full.size(); ++i) {
    int blanks = 0;
    for (size_t at = open[i].find("______"); at != std::string::npos;
         at = open[i].find("______", at + 1)) {
      ++blanks;
    }
    const bool added = full[i].starts_with("Add ") || full[i].starts_with("Cut the webbing");
    if (added) {
      EXPECT_EQ(full[i], open[i]);
      ++allowances;
    } else {
      EXPECT_EQ(blanks, lengths(full[i])) << full[i] << "\n" << open[i];
    }
    lines += blanks;
  }
  EXPECT_GT(lines, 40);
  EXPECT_GT(allowances, 0);
}

TEST(Handout, InSizesHasARecipeOfEachWithItsLengthsAndATableOfThem) {
  std::vector<Ticket> tickets = {a_ticket()};
  for (const auto& [name, factor] : {std::pair{"S", "50 cm"}, {"M", "62 cm"}}) {
    Ticket size = a_ticket();
    size.dog = name;
    size.of(Measure::Chest) = {factor};
    tickets.push_back(size);
  }
  const std::vector<MadeCoat> coats = made(tickets);
  const FormChoices choices{.day = ""};
  const Chapters chapters = handout(coats, {coats, choices, kFonts, words()});
  ASSERT_EQ(chapters.size(), 5U);
  for (size_t i = 1; i <= 2; ++i) {
    const std::string recipe = texts_of(chapters[i + 1]);
    EXPECT_FALSE(holds(recipe, "______"));
    EXPECT_TRUE(holds(chapters[i + 1].title, tickets[i].dog + ","));
  }
  EXPECT_NE(texts_of(chapters[2]), texts_of(chapters[3]));
  const std::string front = texts_of(chapters.front());
  EXPECT_TRUE(holds(front, words()("handout.recipe-sizes")));
  EXPECT_TRUE(holds(front, "\nS\n") && holds(front, "\nM\n"));
  EXPECT_TRUE(holds(front, "(")) << "something of it is estimated";
  EXPECT_TRUE(holds(front, words()("sizes.brackets"))) << "and what stands in brackets is told";
  EXPECT_FALSE(holds(front, tickets.front().dog));
}

TEST(Handout, KeepsTheNameOfAPieceWithItsPictureAndCautionsBeforeWhatIsDoneOnTheDog) {
  using Kind = DocumentPart::Kind;
  for (const StyleInfo* style : styles()) {
    const Ticket ticket = of_style("Tern", style->id);
    const std::vector<MadeCoat> coats = made(std::vector<Ticket>{ticket});
    int pictures = 0;
    for (const bool blank : {false, true}) {
      const Document page =
          (blank ? blank_recipe : recipe_sheet)(ticket, coats.front().pattern, words(), "");
      const auto& parts = page.parts();
      for (size_t i = 0; i < parts.size(); ++i) {
        if (parts[i].kind != Kind::Drawing) continue;
        ++pictures;
        size_t head = i;
        while (parts[head].kind != Kind::Heading) --head;
        EXPECT_NE(parts[head].block, 0) << parts[head].texts.front();
        for (size_t k = head; k <= i; ++k) EXPECT_EQ(parts[k].block, parts[head].block);
        EXPECT_NE(parts[i + 1].block, parts[head].block) << "its steps may go on";
      }
    }
    EXPECT_GE(pictures, 4) << style->id;
    bool told = false;
    const Document sheet = measuring_sheet(ticket, words(), "");
    for (const DocumentPart& part : sheet.parts()) {
      const bool asked = part.kind == Kind::Item;
      EXPECT_TRUE(told || !asked) << part.texts.front();
      told = told || (!part.texts.empty() && part.texts.front() == words()("measuring.care"));
    }
    EXPECT_TRUE(told);
  }
}

TEST(ClassPacket, HasAHandoutOfEachStyleOnceAndTheSheetsOfEveryCoat) {
  const std::vector<MadeCoat> coats =
      made({of_style("Bosun", "wrap"), of_style("Gale", "strap"), of_style("Tern", "wrap")});
  const FormChoices choices{.day = "2026-11-24"};
  const FormSource source{coats, choices, kFonts, words()};
  const Result<Chapters> packet = class_packet(source);
  ASSERT_TRUE(packet);
  std::map<std::string, int> titles;
  for (const Chapter& chapter : *packet) ++titles[chapter.title];
  EXPECT_EQ(titles[handout_title(coats[0].ticket, words())], 1);
  EXPECT_EQ(titles[handout_title(coats[1].ticket, words())], 1);
  int of_dogs = 0;
  for (const Chapter& chapter : *packet) of_dogs += chapter.sheets;
  EXPECT_EQ(of_dogs, 3);
  EXPECT_EQ(packet->size(), 2U * 4U + 3U);
  EXPECT_TRUE(make_form(Form::ClassPdf, source));
}

// ---- the measuring sheet ----------------------------------------------------------------------------

TEST(MeasuringSheet, NumbersEveryMeasureOfTheStyleInItsRowsAndOnThePictureOfADog) {
  int sheets = 0;
  for (const StyleInfo* style : styles()) {
    for (const Build build : {Build::Ordinary, Build::Broad, Build::Deep, Build::LongLow}) {
      Ticket ticket = of_style("Quillfeather", style->id);
      ticket.build = build;
      const Document page = measuring_sheet(ticket, words(), "");
      EXPECT_FALSE(holds(texts_of(page), "Quillfeather"));
      const std::vector<Measure> wanted = measures_of(*style, ticket.choices);
      std::set<std::string> rows;
      std::multiset<std::string> on_dog;
      for (const DocumentPart& part : page.parts()) {
        if (part.list == ListKind::Numbered) {
          const std::string& text = part.texts.front();
          rows.insert(std::to_string(part.number) + " " + text.substr(0, text.find("  __")));
          EXPECT_TRUE(holds(text, "__________  __________ "));
        }
        std::vector<Point> rings;
        for (const DrawItem& item : part.drawing.items) {
          const auto* text = std::get_if<TextItem>(&item);
          if (text == nullptr) continue;
          on_dog.insert(text->text);
          for (const Point p : rings) EXPECT_GT(distance(p, text->at), 2.0 * kRing) << style->id;
          rings.push_back(text->at);
        }
      }
      ASSERT_EQ(rows.size(), wanted.size());
      for (size_t i = 0; i < wanted.size(); ++i) {
        const std::string number = std::to_string(i + 1);
        const MeasureInfo& m = info(wanted[i]);
        const std::string name = number + " " + words()(std::string("measure.") + m.id);
        EXPECT_EQ(rows.count(m.need == Need::Required ? name + " *" : name), 1U) << name;
        EXPECT_EQ(on_dog.count(number), m.is_weight ? 0U : 1U) << number;
      }
      ++sheets;
    }
  }
  EXPECT_EQ(sheets, 12);
}

TEST(MeasuringSheet, IsThereBeforeTheDogIsMeasured) {
  Ticket unmeasured = named("Gale");
  unmeasured.readings = {};
  Driver d(unmeasured);
  d.click("station.print");
  d.click("print.tab.4");
  EXPECT_FALSE(d.see("save.handout").enabled);
  EXPECT_EQ(made_by(d, "save.measuring").type, "application/pdf");
  EXPECT_TRUE(holds(made_by(d, "print.measuring").page.body, words()("measuring.how")));
}

TEST(FitCard, ShowsItsPictureOnThePagesOfAPdfToo) {
  const std::vector<MadeCoat> coats = {made(a_ticket())};
  const FormChoices choices{.day = ""};
  const FormSource source{coats, choices, kFonts, words()};
  const Chapter card =
      document_chapter(coats.front().ticket,
                       fit_card(coats.front().ticket, coats.front().pattern, words(), ""), source);
  ASSERT_EQ(card.pages.size(), 1U);
  int white = 0, lines = 0;
  for (const DrawItem& item : card.pages.front().drawing.items) {
    if (const auto* fill = std::get_if<FillItem>(&item)) white += fill->role == Role::Blank;
    if (const auto* line = std::get_if<StrokeItem>(&item)) lines += line->points.size() > 30;
  }
  EXPECT_GT(white, 5);
  EXPECT_GT(lines, 5);
}

// ---- lays, lists and quotes --------------------------------------------------------------------------

TEST(Lay, GoesOutAsPdfAndHtmlFromThePlacesThatTheStudioHandsOver) {
  Driver d(a_ticket());
  d.click("station.lay");
  d.settle(4000);
  const FormFile html = made_by(d, "print.lay");
  EXPECT_TRUE(holds(html.page.body, words()("shop.title")));
  const FormFile pdf = made_by(d, "save.lay");
  EXPECT_EQ(pdf.type, "application/pdf");
  d.click("lay.tab.2");
  const FormFile list = made_by(d, "save.list");
  EXPECT_LT(list.bytes.size(), pdf.bytes.size());
  // What is shown is what is printed: each row of the list on the sheet's page.
  int rows = 0;
  for (const Control& c : d.app.ui().controls()) {
    if (!c.id.starts_with("shop.")) continue;
    std::string ware = c.name.substr(0, c.name.find(": "));
    std::string escaped;
    append_escaped(escaped, unbroken(ware));
    EXPECT_TRUE(holds(html.page.body, escaped)) << ware;
    ++rows;
  }
  EXPECT_GT(rows, 2);
}

TEST(Lay, ThatIsMissingOrAQuoteThatIsOpenIsSaidInASentence) {
  FormOrder order{Form::LayPdf, {}, {{"", write_ticket(a_ticket())}}};
  EXPECT_TRUE(holds(press(write_form_order(order), kFonts, words()).refused, "no lay"));
  Driver d(a_ticket());
  d.click("station.lay");
  d.settle(4000);
  d.click("save.lay");
  const Effects effects = d.app.take_effects();
  ASSERT_FALSE(effects.empty());
  order.coats = read_form_order(std::get<PressForm>(effects.back()).order)->coats;
  EXPECT_EQ(press(write_form_order(order), kFonts, words()).refused, "");
  order.form = Form::QuotePdf;
  EXPECT_EQ(press(write_form_order(order), kFonts, words()).refused, words()("form-quote-open"));
}

// ---- the station's part ------------------------------------------------------------------------------

std::string id_of_card(const Driver& d, const std::string& dog) {
  for (const Card& card : d.app.rack().cards()) {
    if (card.ticket.dog == dog) return card.id;
  }
  ADD_FAILURE() << "no card of " << dog;
  return {};
}

// The coats of the order that a key gives.
std::vector<Ticket> ordered(Driver& d, const std::string& key, Form form) {
  (void)d.app.take_effects();
  d.click(key);
  const Effects effects = d.app.take_effects();
  const auto* press = effects.empty() ? nullptr : std::get_if<PressForm>(&effects.back());
  if (press == nullptr) {
    ADD_FAILURE() << key << " orders nothing";
    return {};
  }
  const auto order = read_form_order(press->order);
  EXPECT_EQ(order->form, form) << key;
  std::vector<Ticket> out;
  for (const CoatText& coat : order->coats) out.push_back(*read_ticket(coat.ticket));
  EXPECT_EQ(coatwright::press(press->order, kFonts, words()).refused, "") << key;
  d.app.pressed(PressEnd::Made, "");
  d.settle();
  return out;
}
std::vector<std::string> dogs_of(const std::vector<Ticket>& tickets) {
  std::vector<std::string> out;
  for (const Ticket& one : tickets) out.push_back(one.dog);
  return out;
}
using Dogs = std::vector<std::string>;

// Tern's ticket at the part for several, with Bosun's and Gale's on the rack.
struct ThreeDogs {
  Driver d{a_ticket()};
  ThreeDogs() {
    d.app.open_file(write_ticket(named("Gale")));
    d.app.open_file(write_ticket(named("Tern")));
    d.settle();
    d.click("station.print");
    d.click("print.tab.4");
  }
};

TEST(ForSeveral, TheJobIsTheOpenTicketAndThoseThatAreTicked) {
  ThreeDogs three;
  Driver& d = three.d;
  EXPECT_EQ(dogs_of(ordered(d, "save.class", Form::ClassPdf)), Dogs{"Tern"});
  d.click("job." + id_of_card(d, "Gale"));
  EXPECT_TRUE(d.see("job." + id_of_card(d, "Gale")).chosen);
  EXPECT_EQ(dogs_of(ordered(d, "save.class", Form::ClassPdf)), (Dogs{"Tern", "Gale"}));
  d.click("job." + id_of_card(d, "Bosun"));
  d.click("job." + id_of_card(d, "Gale"));
  EXPECT_EQ(dogs_of(ordered(d, "save.job-sheets", Form::SheetsPdf)), (Dogs{"Tern", "Bosun"}));
  EXPECT_EQ(dogs_of(ordered(d, "save.job-make", Form::MakePdf)), (Dogs{"Tern", "Bosun"}));
  // A handout and a measuring sheet are of the style alone, and so are their files' names.
  EXPECT_EQ(dogs_of(ordered(d, "save.handout", Form::HandoutPdf)), Dogs{"Tern"});
  d.click("save.measuring");
  const Effects effects = d.app.take_effects();
  EXPECT_EQ(std::get<PressForm>(effects.at(0)).file, "coat-measuring.pdf");
}

TEST(ForSeveral, AFullJobSaysSoAndTakesNoMore) {
  Driver d(a_ticket());
  std::vector<std::string> dogs;
  for (size_t i = 0; i <= kMostFormCoats; ++i) {
    dogs.push_back("Gull " + std::to_string(i));
    d.app.open_file(write_ticket(named(dogs.back())));
    d.settle();
  }
  d.click("station.print");
  d.click("print.tab.4");
  EXPECT_TRUE(holds(d.see("job.own").name, "0 of at most 23"));
  // Each is looked up by its name: one that is ticked and no longer shown counts as well.
  const auto tick = [&](const std::string& dog) {
    d.enter("job.search", dog);
    d.click("job." + id_of_card(d, dog));
    d.settle();
  };
  for (size_t i = 0; i + 1 < kMostFormCoats; ++i) tick(dogs[i]);
  EXPECT_TRUE(holds(d.see("job.own").name, "23 of at most 23"));
  tick(dogs[kMostFormCoats - 1]);
  EXPECT_FALSE(d.see("job." + id_of_card(d, dogs[kMostFormCoats - 1])).chosen);
  EXPECT_EQ(dogs_of(ordered(d, "save.job-make", Form::MakePdf)).size(), kMostFormCoats);
  tick(dogs[0]);
  EXPECT_TRUE(holds(d.see("job.own").name, "22 of at most 23"));
}

TEST(ForSeveral, SizesAreTypedSeenInEachOtherChosenSavedAndHungOnTheRack) {
  ThreeDogs three;
  Driver& d = three.d;
  EXPECT_FALSE(d.sees("save.sizes"));
  d.enter("sizes.typed.0", "S = 50 cm; M = 60 cm; XL = 75 cm");
  EXPECT_TRUE(holds(d.see("board.words").name, "XL"));
  EXPECT_EQ(dogs_of(ordered(d, "save.sizes", Form::SizesPdf)), (Dogs{"Tern", "S", "M", "XL"}));
  d.click("size.M");
  EXPECT_FALSE(d.see("size.M").chosen);
  const Result<RackNotes> kept = read_rack_notes(write_rack_notes(d.app.rack().notes()));
  EXPECT_EQ(kept->sizes.typed[0], "S = 50 cm; M = 60 cm; XL = 75 cm") << "for the next visit";
  EXPECT_EQ(kept->sizes.left, std::vector<std::string>{"M"});
  EXPECT_EQ(dogs_of(ordered(d, "save.size-sheets", Form::SheetsPdf)), (Dogs{"S", "XL"}));
  EXPECT_EQ(dogs_of(ordered(d, "save.nest", Form::NestPdf)), (Dogs{"Tern", "S", "XL"}));
  EXPECT_EQ(dogs_of(ordered(d, "save.size-handout", Form::HandoutPdf)), (Dogs{"Tern", "S", "XL"}));
  const size_t before = d.app.rack().cards().size();
  d.click("sizes.hang");
  EXPECT_EQ(d.app.rack().cards().size(), before + 2);
  d.click("sizes.hang");
  EXPECT_EQ(d.app.rack().cards().size(), before + 2) << "they hang already";
  EXPECT_EQ(d.app.ticket().dog, "Tern") << "what was open stays open";
  const Card* hung = d.app.rack().card(id_of_card(d, "XL"));
  ASSERT_NE(hung, nullptr);
  EXPECT_EQ(hung->changed, kNow);
  EXPECT_EQ(hung->ticket.of(Measure::Chest), std::vector<std::string>{"75 cm"});
  // One that cannot be drafted is told in its place, and the others stay.
  d.enter("sizes.typed.0", "S = 50 cm; XXS = 9 cm");
  EXPECT_TRUE(holds(d.see("size.refused.XXS").name, "Size XXS cannot be drafted."));
  EXPECT_EQ(dogs_of(ordered(d, "save.size-sheets", Form::SheetsPdf)), Dogs{"S"});
  d.enter("sizes.typed.0", "S = 50 cm; S = 60 cm");
  EXPECT_TRUE(holds(d.see("sizes.problem").name, "named \u201CS\u201D"));
  EXPECT_FALSE(d.sees("save.sizes"));
}

TEST(ForSeveral, ATableOfOnesOwnIsTakenInOneLineAndWeightsGoByTheGirthLaw) {
  ThreeDogs three;
  Driver& d = three.d;
  d.click("sizes.by.2");
  d.enter("sizes.typed.2",
          "Size\tBack length\tNeck girth\tChest girth\tSide drop\tBreast length | "
          "A\t12 in\t9\t14 1/2\t5\t14 | B\t16\t12\t20\t7\t19");
  const std::vector<Ticket> sizes = ordered(d, "save.size-sheets", Form::SheetsPdf);
  ASSERT_EQ(dogs_of(sizes), (Dogs{"A", "B"}));
  EXPECT_EQ(sizes[1].of(Measure::Neck), std::vector<std::string>{"12 in"});
  d.click("sizes.by.1");
  EXPECT_FALSE(d.sees("save.sizes"));
  d.enter("sizes.typed.1", "8 kg; 20 kg");
  EXPECT_EQ(dogs_of(ordered(d, "save.size-sheets", Form::SheetsPdf)), (Dogs{"8 kg", "20 kg"}));
}

}  // namespace
}  // namespace coatwright::studio
