// The Print station: the forms that the press makes, and a printer that is proven true.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <utility>

#include "core/draft/options/layers.h"
#include "core/rack/backup.h"
#include "core/rack/rack.h"
#include "shell/desk/outputs.h"
#include "shell/desk/start.h"
#include "shell/pages/table_page.h"
#include "shell/words/studio_words.h"
#include "shell/words/words_table.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

TEST(PrintStation, EveryFormThatTheStudioOffersIsMadeByThePress) {
  Ticket ticket = a_ticket();
  ticket.dog = "K\u00E4pt\u2019n";
  Driver d(ticket);
  d.app.stands_at({"https://harbour.example/", true, true, true});
  d.click("station.print");
  struct Key {
    int tab;
    const char *id, *name, *holds;
  };
  const Key keys[] = {
      {0, "save.sheets-pdf", "-sheets.pdf", "%PDF-1.7"},
      {0, "share.sheets-pdf", "-sheets.pdf", "%PDF-1.7"},
      {2, "save.roll-pdf", "-roll.pdf", "%PDF-1.7"},
      {2, "share.roll-pdf", "-roll.pdf", "%PDF-1.7"},
      {2, "save.cutting", "-cutting.svg", "data-kerf-mm=\"0\""},
      {2, "save.dxf", "-pattern.dxf", "Style Name:Kapt'n"},
      {2, "save.sheets", "-sheets.svg", "<svg"},
      {2, "save.pattern", "-pattern.svg", "<svg"},
      {3, "print.make", "-make.html", "<!DOCTYPE html>"},
      {3, "print.recipe", "-recipe.html", "<!DOCTYPE html>"},
      {3, "save.make-pdf", "-make.pdf", "%PDF-1.7"},
      {3, "save.recipe-pdf", "-recipe.pdf", "%PDF-1.7"},
      {3, "save.picture", "-pattern.png", "PNG"},
      {3, "save.readings", "-readings.csv", "coat,measure,"},
      {3, "save.pieces", "-pieces.csv", "coat,piece,"},
  };
  for (const Key& key : keys) {
    d.click("print.tab." + std::to_string(key.tab));
    d.click(key.id);
    const Effects effects = d.app.take_effects();
    ASSERT_EQ(effects.size(), 1U) << key.id;
    const auto& form = std::get<PressForm>(effects[0]);
    EXPECT_EQ(form.file, std::string("k\u00E4pt-n") + key.name);
    const std::string_view id = key.id;
    EXPECT_EQ(form.use, id.starts_with("share.")   ? FormUse::Share
                        : id.starts_with("print.") ? FormUse::Print
                                                   : FormUse::Save)
        << id;
    EXPECT_NE(pressed(form).bytes.find(key.holds), std::string::npos) << key.id;
    // One at a time: what is being made is told, and can be stopped.
    EXPECT_FALSE(d.see(key.id).enabled);
    EXPECT_EQ(d.see("pressing").name, "Making " + form.file + "\u2026");
    d.app.pressed(PressEnd::Made, "");
    d.settle();
    EXPECT_TRUE(d.see(key.id).enabled);
    EXPECT_FALSE(d.sees("pressing"));
  }
}

TEST(PrintStation, WhatThePressSaysAndWhyThereIsNoFileIsToldAndPrintStaysUsable) {
  Ticket ticket = a_ticket();
  ticket.dog = "K\u00E4pt\u2019n";
  Driver d(ticket);
  d.click("station.print");
  d.click("print.tab.2");
  const FormFile dxf = made_by(d, "save.dxf");
  ASSERT_EQ(dxf.told.size(), 1U);
  EXPECT_NE(dxf.told[0].find("Kapt'n"), std::string::npos);
  EXPECT_EQ(d.see("notice").name, dxf.told[0]);
  d.click("save.dxf");
  d.click("press.stop");
  const Effects effects = d.app.take_effects();
  ASSERT_EQ(effects.size(), 2U);
  EXPECT_TRUE(std::holds_alternative<StopPress>(effects[1]));
  EXPECT_TRUE(d.see("save.dxf").enabled);
  for (const auto& [end, said] : {std::pair{PressEnd::Missing, "could not be loaded"},
                                  {PressEnd::Broken, "could not be made"},
                                  {PressEnd::Waits, "once more"}}) {
    d.click("save.dxf");
    d.app.pressed(end, "");
    d.settle();
    EXPECT_NE(d.see("notice").name.find(said), std::string::npos);
    EXPECT_TRUE(d.see("save.dxf").enabled);
  }
  d.click("print.tab.0");
  EXPECT_TRUE(d.see("print").enabled);
}

TEST(PrintStation, TheTableIsLitWithTheLayThatTheStudioHasFound) {
  Driver d(a_ticket());
  d.app.stands_at({"https://harbour.example/", true, true, true});
  d.click("station.print");
  d.click("print.tab.1");
  d.settle(4000);
  ASSERT_TRUE(d.see("cloth.light").enabled);
  d.click("cloth.light");
  const Effects effects = d.app.take_effects();
  ASSERT_EQ(effects.size(), 1U);
  const std::string& order = std::get<LightTable>(effects[0]).order;
  const auto read = read_table_order(order);
  ASSERT_TRUE(read);
  EXPECT_EQ(read->id, d.app.rack().open_id());
  const Result<Ticket> handed = read_ticket(read->ticket);
  ASSERT_TRUE(handed);
  EXPECT_EQ(handed->readings, a_ticket().readings);
  EXPECT_FALSE(handed->hand_lays.empty());
  const auto opened = open_table(order, word_table());
  ASSERT_TRUE(std::holds_alternative<TableShow>(opened)) << std::get<std::string>(opened);
  EXPECT_EQ(std::get<TableShow>(opened).cloths.size(), handed->hand_lays.size() + 1);
}

// The ticket's coat on its cloths.
LayDesk laid(const Ticket& ticket) {
  Pipeline pipeline(studio_words());
  Rack rack(an_outside(), ticket);
  rack.hang({});
  LayDesk desk(studio_words());
  desk.update(ticket, pipeline.update(ticket, {}), rack);
  for (int i = 0; i < 400; ++i) desk.work(1.0, [ms = 0.0]() mutable { return ms++; });
  return desk;
}

// The cut line of a piece on the table.
const Polyline& outline_of(const TablePiece& piece) { return piece.lines.front().points; }

TEST(PrintStation, OutlinesOnTheTableLieAsInTheStudiosLayThoughTheyWentThroughAText) {
  Ticket ticket = a_ticket();
  ticket.choices.set(kLining, 1.0);
  const LayDesk desk = laid(ticket);
  size_t pieces = 0, jobs = 0;
  const auto opened = open_table(light_table("here", ticket, desk).order, word_table());
  ASSERT_TRUE(std::holds_alternative<TableShow>(opened));
  for (const LayJob& job : desk.jobs()) {
    const TableLay& lay = std::get<TableShow>(opened).cloths[jobs++].lay;
    for (const LaidPiece& laid : job.laid.lay.pieces) {
      double nearest = 1e9;
      for (const TablePiece& piece : lay.pieces) {
        if (piece.id != laid.id || outline_of(piece).size() != laid.outline.size()) continue;
        double worst = 0.0;
        for (size_t i = 0; i < laid.outline.size(); ++i) {
          worst = std::max(worst, distance(laid.outline[i], outline_of(piece)[i]));
        }
        nearest = std::min(nearest, worst);
      }
      EXPECT_LT(nearest, 0.01) << laid.id;
      ++pieces;
    }
  }
  EXPECT_GT(pieces, 3U);
  EXPECT_GT(jobs, 1U);
}

TEST(TablePage, OrdersAreReadBackAndWhatIsNoneIsRefused) {
  const TableOrder order{
      "abcdefgh", write_ticket(a_ticket()), {{"other123", write_ticket(named("Gale"))}}};
  const std::string text = write_table_order(order);
  EXPECT_EQ(read_table_order(text), order);
  for (const std::string& wrong : {std::string(), std::string("coatwright-table 2\x1E"),
                                   text.substr(1), std::string("coatwright-table 1\x1E"),
                                   text + text, text + text.substr(19) + text.substr(19)}) {
    EXPECT_FALSE(read_table_order(wrong)) << wrong.substr(0, 30);
  }
  const auto sentence_of = [](const std::string& wrong) {
    const auto opened = open_table(wrong, word_table());
    return std::holds_alternative<std::string>(opened) ? std::get<std::string>(opened) : "";
  };
  EXPECT_FALSE(sentence_of("").empty());
  EXPECT_FALSE(sentence_of(write_table_order({"a", "{}", {}})).empty());
  EXPECT_FALSE(
      sentence_of(write_table_order({"a", write_ticket(a_ticket()), {{"b", "torn"}}})).empty());
  for (size_t cut = 0; cut < text.size(); cut += 97)
    (void)open_table(text.substr(0, cut), word_table());
}

TEST(TablePage, ALayThatDidNotComeAlongIsNamedAndThePiecesAreShownAllTheSame) {
  const auto opened =
      open_table(write_table_order({"", write_ticket(a_ticket()), {}}), word_table());
  const TableShow& show = std::get<TableShow>(opened);
  ASSERT_GT(show.cloths.size(), 1U);
  for (const TableShow::Cloth& cloth : show.cloths) {
    const bool pieces = &cloth == &show.cloths.back();
    EXPECT_EQ(cloth.laid, pieces);
    EXPECT_EQ(cloth.lay.pieces.empty(), !pieces);
  }
}

TEST(TablePage, AnswersOnlyQuestionsThatHoldTogether) {
  const auto opened = open_table(light_table("", a_ticket(), laid(a_ticket())).order, word_table());
  const TableShow& show = std::get<TableShow>(opened);
  const auto ask = [&](std::string question) {
    for (char& c : question) c = c == '|' ? '\x1F' : c;
    return table_answer(show, question, word_table());
  };
  const std::string set_up = "420 297 300 200 1500 180 1620 930 260 960 1 0 1 ",
                    picture = "1920 1080 2 ";
  EXPECT_TRUE(ask("grid|" + set_up + picture + "50|").starts_with("ok"));
  EXPECT_TRUE(ask("check|" + set_up + picture + "250|").starts_with("ok"));
  EXPECT_TRUE(ask("lay|" + set_up + picture + "0 -1 0 0 0 0|").starts_with("ok"));
  EXPECT_TRUE(ask("lay|" + set_up + picture + "0 1 1 3 -50.5 20|").starts_with("ok"));
  EXPECT_TRUE(ask("side|" + set_up + "50|").starts_with("ok"));
  EXPECT_TRUE(ask("read|250 1 0 1 250 250 353.553|").starts_with("true"));
  EXPECT_TRUE(ask("read|250 1 0 1 255 250 353.553|").starts_with("off"));
  EXPECT_TRUE(ask("read|250 1 0 1 355 250 353.553|").starts_with("too-far-off"));
  EXPECT_TRUE(ask("length|in|16 1/2|")
                  .starts_with("ok\x1F"
                               "419.1"));
  EXPECT_TRUE(ask("length|cm|42|")
                  .starts_with("ok\x1F"
                               "420"));
  EXPECT_TRUE(ask("length|cm|a span|").starts_with("wrong"));
  EXPECT_EQ(ask("grid|420 297 300 200 1500 180 500 400 260 960 1 0 1 " + picture + "50|"),
            "fault\x1Fpins-not-convex\x1F\x1E");
  for (const char* nonsense :
       {"", "|", "grid", "grid|", "dance|1 2 3|", "read|0 1 0 1 250 250 353|", "read|1 2|"}) {
    EXPECT_EQ(ask(nonsense), "") << nonsense;
  }
  for (const char* last : {"0", "nan", "inf", "50 7", "-3", "x"}) {
    EXPECT_EQ(ask("grid|" + set_up + picture + last + "|"), "") << last;
  }
  for (const char* last : {"99 0 0 0 0 0", "0 0 0 0 0", "0 0 0 0 0 nan"}) {
    EXPECT_EQ(ask("lay|" + set_up + picture + last + "|"), "") << last;
  }
  // A number that no step, picture or lay has is bounded, not trusted.
  EXPECT_FALSE(ask("lay|" + set_up + "1e300 -1e300 1e300 0 1e300 1 -1e300 1e300 1e300|").empty());
}

TEST(PrintStation, WhereABrowserChangesWhatItPrintsThePdfComesFirstWithAReason) {
  Driver d(a_ticket());
  d.click("station.print");
  EXPECT_LT(d.see("print").box.y, d.see("save.sheets-pdf").box.y);
  d.app.stands_at({"https://harbour.example/", false, false, false});
  d.settle();
  EXPECT_LT(d.see("save.sheets-pdf").box.y, d.see("print").box.y);
  EXPECT_NE(d.see("print.hint").name.find("choose Letter, no margins and 100"), std::string::npos)
      << d.see("print.hint").name;
}

TEST(PrintStation, WhereNoPageCanBeOpenedItSaysWhyTheTableCannotBeLit) {
  Driver d(a_ticket());
  d.app.stands_at({});
  d.click("station.print");
  d.click("print.tab.1");
  d.settle(2000);
  EXPECT_FALSE(d.see("cloth.light").enabled);
  EXPECT_NE(d.see("cloth.hint").name.find("needs a browser"), std::string::npos)
      << d.see("cloth.hint").name;
}

TEST(PrintStation, ThePageIsAsWideAsTheRollThatWasTyped) {
  Driver d(a_ticket());
  d.click("station.print");
  d.click("print.tab.2");
  d.enter("print.roll", "24 in");
  const std::string narrow = made_by(d, "save.roll-pdf").bytes;
  EXPECT_NE(narrow.find("1728"), std::string::npos) << "points";
  for (const char* wrong : {"three feet", "2 in", "9000 cm"}) {
    d.enter("print.roll", wrong);
    d.settle();
    EXPECT_TRUE(d.sees("roll.problem")) << wrong;
    EXPECT_EQ(made_by(d, "save.roll-pdf").bytes, narrow);
  }
}

TEST(PrintStation, ASheetThatIsTouchedIsPrintedAlone) {
  Driver d(a_ticket());
  d.click("station.print");
  EXPECT_FALSE(d.sees("print.one"));
  d.act("sheet.1");
  d.click("print.one");
  const Effects effects = d.app.take_effects();
  ASSERT_EQ(effects.size(), 1U);
  const std::string& body = std::get<PrintSheets>(effects[0]).document.body;
  EXPECT_EQ(body.find("<section>"), body.rfind("<section>"));
  const Sheet& sheet = d.app.derived().plan->sheets[1];
  EXPECT_NE(body.find(">" + sheet_label(sheet.row, sheet.column) + "<"), std::string::npos);
}

// The share of a page's width and height that its drawing fills.
std::pair<double, double> stretch_of(const Effect& effect) {
  const std::string& body = std::get<PrintSheets>(effect).document.body;
  double width = 0.0, height = 0.0, x = 0.0, y = 0.0, w = 0.0, h = 0.0;
  const size_t at = body.find("<svg");
  const int read = std::sscanf(body.c_str() + at,
                               "<svg width=\"%lfmm\" height=\"%lfmm\" viewBox=\"%lf %lf %lf %lf\"",
                               &width, &height, &x, &y, &w, &h);
  EXPECT_EQ(read, 6);
  return {width / w, height / h};
}

TEST(PrintStation, APrinterIsMeasuredCorrectedCheckedAgainAndKept) {
  Driver d(a_ticket());
  d.click("station.print");
  d.enter("printer.new", "Wheelhouse");
  d.settle();
  EXPECT_EQ(d.app.rack().printer().name, "Wheelhouse");
  EXPECT_NE(d.see("printer.how").name.find("lay a ruler"), std::string::npos);
  d.click("print.check");
  const Effects check = d.app.take_effects();
  ASSERT_EQ(check.size(), 1U);
  const std::string& body = std::get<PrintSheets>(check[0]).document.body;
  EXPECT_EQ(body.find("<section>"), body.rfind("<section>")) << "one sheet";
  EXPECT_EQ(stretch_of(check[0]), std::pair(1.0, 1.0));

  d.enter("check.across", "96");
  EXPECT_EQ(d.app.rack().printer().across, 1.0) << "not before both are known";
  d.enter("check.along", "9.7 cm");
  EXPECT_NEAR(d.app.rack().printer().across, 0.96, 1e-12);
  EXPECT_NEAR(d.app.rack().printer().along, 0.97, 1e-12);
  EXPECT_NE(d.see("printer.how").name.find("96 % of a length along the short side"),
            std::string::npos);
  EXPECT_NE(d.see("printer.how").name.find("measure it again"), std::string::npos);

  // Print and PDF alike.
  d.click("print");
  const bool lies = d.app.derived().plan->landscape;
  const auto [x, y] = stretch_of(d.app.take_effects().at(0));
  EXPECT_NEAR(lies ? y : x, 1.0 / 0.96, 1e-3);
  EXPECT_NEAR(lies ? x : y, 1.0 / 0.97, 1e-3);
  d.click("save.sheets-pdf");
  const Effects order = d.app.take_effects();
  const auto read = read_form_order(std::get<PressForm>(order.at(0)).order);
  ASSERT_TRUE(read);
  EXPECT_NEAR(read->choices.printer.across, 0.96, 1e-6);
  EXPECT_NEAR(read->choices.printer.along, 0.97, 1e-6);
  d.app.pressed(PressEnd::Made, "");
  d.settle();

  d.enter("check.across", "100");
  d.enter("check.along", "99.8 mm");
  EXPECT_TRUE(d.app.rack().printer().proven);
  EXPECT_EQ(d.see("printer.Wheelhouse").value, "true");

  // It is kept with the rack, and goes with its backups.
  const RackNotes& notes = d.app.rack().notes();
  EXPECT_EQ(*read_rack_notes(write_rack_notes(notes)), notes);
  const Backup backup = *read_backup(write_backup({}, kNow, {.printers = notes.printers}).at(0));
  EXPECT_EQ(backup.printers, notes.printers);

  d.click("printer.");
  EXPECT_EQ(d.app.rack().printer(), Printer{});
  d.click("printer.Wheelhouse");
  d.click("printer.forget");
  EXPECT_TRUE(d.app.rack().notes().printers.empty());
  EXPECT_EQ(d.app.rack().printer(), Printer{});
}

TEST(PrintStation, WhatNoPrinterDoesByItselfIsRefusedWithASentence) {
  Driver d(a_ticket());
  d.click("station.print");
  d.enter("printer.new", "Deck");
  for (const char* wrong : {"94", "106", "9.6"}) {
    d.enter("check.across", wrong);
    d.enter("check.along", "100");
    d.settle();
    EXPECT_NE(d.see("check.problem").name.find("no printer\u2019s own error"), std::string::npos)
        << wrong;
    EXPECT_EQ(d.app.rack().printer(), Printer{.name = "Deck"}) << wrong;
  }
  for (const char* wrong : {"none", "0"}) {
    d.enter("check.across", wrong);
    d.enter("check.along", "100");
    d.settle();
    EXPECT_TRUE(d.sees("check.problem")) << wrong;
    EXPECT_EQ(d.app.rack().printer(), Printer{.name = "Deck"}) << wrong;
  }
  d.enter("check.across", "99");
  d.settle();
  EXPECT_FALSE(d.sees("check.problem"));
  EXPECT_NEAR(d.app.rack().printer().across, 0.99, 1e-12);
}

TEST(PrintStation, PrintersOfABackupComeBackAndReplaceNone) {
  const Printers mine = {{.name = "Deck", .across = 0.98, .along = 0.99, .proven = true}};
  const Printers theirs = {{.name = "Deck"}, {.name = "Hold", .across = 1.01}};
  const Printers both = put_back(mine, theirs);
  ASSERT_EQ(both.size(), 2U);
  EXPECT_EQ(both[0], mine[0]);
  EXPECT_EQ(both[1], theirs[1]);
  const std::string file = write_backup({}, kNow, {.printers = theirs}).at(0);
  Driver d(a_ticket());
  d.app.open_file(file);
  d.settle(2000);
  EXPECT_EQ(d.app.rack().notes().printers, theirs);
  EXPECT_EQ(d.app.rack().printer(), Printer{}) << "which one is printed on stays with the rack";
}

}  // namespace
}  // namespace coatwright::studio
