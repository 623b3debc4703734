// Nothing that is printed is dropped: every piece, step and notion is counted on each of the documents.
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <map>
#include <set>

#include "core/draw/letters.h"
#include "core/draw/numbered_lay.h"
#include "core/draw/pattern_drawing.h"
#include "core/draw/svg.h"
#include "core/draw/text.h"
#include "core/make/quote.h"
#include "core/make/recipe.h"
#include "core/units/unbroken.h"
#include "shell/pages/lay_page.h"
#include "shell/pages/make_page.h"
#include "shell/pages/paged.h"
#include "shell/pages/quote_page.h"
#include "shell/pages/recipe_page.h"
#include "shell/words/fonts.h"
#include "shell/words/shopping_words.h"
#include "shell/words/step_words.h"
#include "shell/words/words_table.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

const Words& words() {
  static const Words all = Words::parse(words_text());
  return all;
}

// As it stands on a page, whose numbers no line breaks.
std::string escaped(std::string_view text) {
  std::string out;
  append_escaped(out, unbroken(text));
  return out;
}

int count(const std::string& text, const std::string& part) {
  int n = 0;
  for (size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}
bool has(const std::string& text, std::string_view part) {
  return text.find(escaped(part)) != std::string::npos;
}

struct Coat {
  Ticket ticket;
  Pattern pattern;
};
// A coat of each style with each pair of options: whatever a page may have to hold.
std::vector<Coat> coats() {
  std::vector<Coat> out;
  for (const StyleInfo* style : styles()) {
    for (const Choices& choices : test::pairwise(*style)) {
      const auto made = make_pattern(assess(test::hard_dog("ordinary")), choices, *style);
      if (!made.result.ok()) continue;
      Ticket ticket;
      ticket.dog = "Cleat";
      ticket.style = style->id;
      ticket.choices = choices;
      out.push_back({ticket, *made.result});
    }
  }
  return out;
}

TEST(Paper, MakeSheetHasEveryPieceWithItsLayersEveryStepAndAtAStepEveryNotion) {
  int pieces = 0, notions = 0;
  for (const Coat& coat : coats()) {
    const Draft& d = coat.pattern.draft;
    const std::string page = html_of(make_sheet(coat.ticket, coat.pattern, words(), "")).body;
    size_t layers = 0;
    for (const PieceSketch& piece : sketch_pieces(coat.pattern.cut, false, true)) {
      layers += piece.layers.size();
      EXPECT_TRUE(has(page, words()("piece." + piece.id) + ": ")) << piece.id;
      for (const std::string& cut : cut_counts(piece, words())) EXPECT_TRUE(has(page, cut)) << cut;
    }
    EXPECT_EQ(layers, d.pieces.size());
    pieces += static_cast<int>(layers);
    std::map<std::string, int> lines;
    for (const Notion& n : d.notions) {
      const ShoppingRow row = notion_row(n, coat.ticket.unit, words());
      ++lines[escaped(words()("make.notion", {row.ware, row.amount}))];
      EXPECT_TRUE(std::any_of(d.operations.begin(), d.operations.end(), [&](const Operation& o) {
        return o.id == n.step;
      })) << n.step;
      ++notions;
    }
    for (const auto& [line, times] : lines) EXPECT_GE(count(page, line), times) << line;
    const LengthStyle lengths{.unit = coat.ticket.unit};
    for (const Operation& step : plan_of(coat.ticket, d).operations) {
      const std::string text =
          words()("step." + step.id + ".name") + ". " + how_of(step, lengths, words());
      EXPECT_TRUE(has(page, text)) << step.id;
      EXPECT_TRUE(has(page, words()("make.why", {why_of(step, words())}))) << step.id;
    }
  }
  EXPECT_GT(pieces, 500);
  EXPECT_GT(notions, 200);
}

// Two of each style: those that have most notions.
std::vector<Coat> richest() {
  std::vector<Coat> all = coats();
  std::stable_sort(all.begin(), all.end(), [](const Coat& a, const Coat& b) {
    return a.pattern.draft.notions.size() > b.pattern.draft.notions.size();
  });
  std::vector<Coat> out;
  for (const StyleInfo* style : styles()) {
    int of_style = 0;
    for (Coat& coat : all) {
      if (coat.ticket.style == style->id && of_style++ < 2) out.push_back(coat);
    }
  }
  return out;
}

TEST(Paper, ASketchStandsOnThePageOfItsStepAndNoWordRunsIntoIt) {
  constexpr double kMargin = 15.0;
  const PictureFonts fonts{font_regular(), font_semibold(), font_symbols()};
  const TextRuler ruler(fonts);
  const PageSize size;
  int sketches = 0, beside = 0;
  for (const Coat& coat : richest()) {
    const Document sheet = make_sheet(coat.ticket, coat.pattern, words(), "");
    for (const DocumentPart& part : sheet.parts()) {
      sketches += part.kind == DocumentPart::Kind::Item && !part.drawing.items.empty();
    }
    for (const Drawing& page : pages_of(sheet, size, fonts, words())) {
      Polyline drawn;
      for (const DrawItem& item : page.items) {
        const auto* stroke = std::get_if<StrokeItem>(&item);
        if (stroke == nullptr || stroke->role == Role::Grain) continue;  // but the boxes to tick
        for (const Point p : stroke->points) {
          drawn.push_back(p);
          EXPECT_LE(p.x, size.width - kMargin + 0.5);
          EXPECT_LE(p.y, size.height - kMargin);
        }
      }
      for (const DrawItem& item : page.items) {
        const auto* text = std::get_if<TextItem>(&item);
        if (text == nullptr || text->anchor != 0.0) continue;
        const double wide = ruler.width(text->text, text->size_mm, is_bold(text->role));
        const Rect box{text->at.x, text->at.y - 0.7 * text->size_mm, text->at.x + wide,
                       text->at.y + 0.2 * text->size_mm};
        beside += wide > 90.0 && wide < 125.0;
        for (const Point p : drawn) EXPECT_FALSE(holds(box, p)) << text->text;
      }
    }
  }
  EXPECT_GT(sketches, 40);
  EXPECT_GT(beside, 100);
}

TEST(Paper, WhatStandsBelowAnItemIsEscapedAndAWideDrawingComesLast) {
  Document page("x");
  page.open_list(ListKind::Boxes);
  page.item("first");
  page.line("<b> & \"");
  Drawing wide;
  wide.items.emplace_back(StrokeItem{Role::CutLine, {{0.0, 0.0}, {80.0, 5.0}}});
  set_bounds(wide);
  page.beside(std::move(wide));
  const std::string html = html_of(page).body;
  EXPECT_NE(html.find("first<small>&lt;b&gt; &amp; &quot;</small><figure class=\"wide\"><svg"),
            std::string::npos)
      << html;
}

// What of a recipe is one piece's.
std::string section(const std::string& page, const std::string& title) {
  const std::string head = "<h2>" + escaped(title) + "</h2>";
  const size_t from = page.find(head);
  if (from == std::string::npos) return {};
  return page.substr(from, page.find("<h2>", from + head.size()) - from);
}

TEST(Paper, RecipeHasEveryEdgeNotchAndMarkOfEveryPieceAndWhatIsCutOfIt) {
  int notches = 0, marks = 0, of_layers = 0;
  for (const Coat& coat : coats()) {
    const std::string page = html_of(recipe_sheet(coat.ticket, coat.pattern, words(), "")).body;
    const auto sketches = sketch_pieces(coat.pattern.cut, false, true);
    for (const Piece& piece : coat.pattern.draft.pieces) {
      const auto first =
          std::find_if(coat.pattern.draft.pieces.begin(), coat.pattern.draft.pieces.end(),
                       [&](const Piece& p) { return p.edges == piece.edges; });
      const std::string own = section(page, words()("piece." + first->id));
      ASSERT_FALSE(own.empty()) << piece.id;
      for (const Edge& e : piece.edges) EXPECT_TRUE(has(own, words()("edge." + e.id))) << e.id;
      std::map<std::string, int> named;
      for (const Notch& n : piece.notches) ++named[escaped(words()("notch." + n.name))];
      for (const auto& [name, times] : named) EXPECT_GE(count(own, name), times) << name;
      for (const Mark& m : piece.marks) EXPECT_TRUE(has(own, words()(m.label))) << m.label;
      notches += static_cast<int>(piece.notches.size());
      marks += static_cast<int>(piece.marks.size());
      of_layers += first->id != piece.id;
    }
    // Hems of an unlined coat are wider than its seams, and bound edges have no allowance.
    LengthStyle fine{.unit = coat.ticket.unit};
    fine.steps_per_inch = 16;
    for (const CutPiece& piece : coat.pattern.cut.pieces) {
      if (piece.piece.layer != Layer::Shell) continue;
      const std::string own = section(page, words()("piece." + piece.piece.id));
      const size_t item = own.find("<li>Add ");
      ASSERT_NE(item, std::string::npos) << piece.piece.id;
      const std::string added = own.substr(item, own.find("</li>", item) - item);
      for (const CutEdge& e : piece.edges) {
        const std::string wide = escaped(format_length(Length::mm(e.allowance_mm), fine));
        const bool everywhere = has(added, "Add " + wide + " outside every line");
        const bool none = e.allowance_mm <= 0.0;
        if (&e == &piece.edges[0] && piece.piece.on_fold) continue;
        EXPECT_TRUE(everywhere || has(added, words()("edge." + e.id))) << e.id << added;
        EXPECT_TRUE(everywhere || has(added, none ? "nothing at " : wide + " at ")) << added;
      }
    }
    for (const PieceSketch& piece : sketches) {
      const std::string own = section(page, words()("piece." + piece.id));
      for (const std::string& cut : cut_counts(piece, words())) EXPECT_TRUE(has(own, cut)) << cut;
    }
  }
  EXPECT_GT(notches, 1000);
  EXPECT_GT(marks, 1000);
  EXPECT_GT(of_layers, 100);
}

// The coats of a style that have most notions, laid at once and badly.
std::vector<LaidCloth> laid(const Coat& coat) {
  std::vector<LaidCloth> out;
  for (const LayOrder& order : lay_orders(coat.pattern.cut)) {
    auto search = LaySearch::begin(order, usual_cloth(order.use), 1);
    if (search.ok()) out.push_back({.lay = search->best()});
  }
  return out;
}

// The texts of a page's drawings, a drawing each, every text between bars.
std::vector<std::string> texts_of_drawings(const std::string& page) {
  std::vector<std::string> out;
  for (size_t at = page.find("<svg"); at != std::string::npos; at = page.find("<svg", at + 1)) {
    const std::string svg = page.substr(at, page.find("</svg>", at) - at);
    std::string& texts = out.emplace_back("|");
    for (size_t t = svg.find("<text"); t != std::string::npos; t = svg.find("<text", t + 1)) {
      const size_t from = svg.find('>', t) + 1;
      texts += svg.substr(from, svg.find("</text>", from) - from) + "|";
    }
  }
  return out;
}

TEST(Paper, LayPageHasEveryCopyOfEveryPieceOnItsClothAndEveryNotionOnTheList) {
  int copies = 0, numbers = 0, places = 0;
  for (const Coat& coat : richest()) {
    const LaidCoats coats = {{"", &coat.ticket, &coat.pattern.draft}};
    const std::vector<LaidCloth> cloths = laid(coat);
    const std::string page = html_of(lay_sheet(coats, {}, cloths, words(), "")).body;
    const std::vector<std::string> drawings = texts_of_drawings(page);
    ASSERT_EQ(drawings.size(), cloths.size());
    int cut = 0, on_cloth = 0;
    for (const Piece& p : coat.pattern.draft.pieces) cut += p.layer == Layer::Webbing ? 0 : p.cut;
    cut += coat.pattern.cut.binding ? 1 : 0;  // the block of bias strips
    for (size_t i = 0; i < cloths.size(); ++i) {
      const Lay& lay = cloths[i].lay;
      EXPECT_TRUE(has(page, lay_title(lay, words())));
      std::string in_one_line = drawings[i];  // a name may stand in several
      std::replace(in_one_line.begin(), in_one_line.end(), '|', ' ');
      int number = 0;
      std::map<std::string, int> as_often;
      for (const LaidPiece& piece : lay.pieces) ++as_often[laid_name(piece, {}, words())];
      for (const NumberedName& one : numbered_names(lay, {}, words())) {
        const std::string told = std::to_string(++number) + " " + one.name;
        EXPECT_TRUE(has(page, one.copies > 1 ? told + " × " + std::to_string(one.copies) : told));
        const int numbered = count(drawings[i], "|" + std::to_string(number) + "|");
        EXPECT_GE(numbered + count(in_one_line, " " + escaped(one.name) + " "), one.copies)
            << one.name;
        EXPECT_EQ(one.copies, as_often[one.name]);
        on_cloth += one.copies;
        numbers += numbered;
      }
    }
    EXPECT_EQ(on_cloth, cut);
    copies += cut;
    for (const Notion& n : coat.pattern.draft.notions) {
      const ShoppingLine alone{.kind = n.kind, .width_mm = n.width_mm, .from_cloth = n.from_cloth};
      EXPECT_TRUE(has(page, notion_title(alone, coat.ticket.unit, words())));
      // The first of them begins large.
      const std::string closes = "shop.at." + n.place;
      const std::string place = words()(words().has(closes) ? closes : n.place);
      EXPECT_TRUE(has(page, place.substr(1))) << n.place;
      ++places;
    }
  }
  EXPECT_GT(copies, 60);
  EXPECT_GT(numbers, 5) << "small pieces are met";
  EXPECT_GT(places, 30);
}

// Of two widths of one ware a maker in a shop must know which is for what.
TEST(Paper, EveryNotionOnTheListSaysWhatItIsForAndNoneIsThereTwice) {
  int rows = 0;
  for (const Coat& coat : coats()) {
    const LaidCoats coats = {{"", &coat.ticket, &coat.pattern.draft}};
    std::set<std::string> wares;
    for (const ShoppingRow& row : shopping_rows(coats, {}, words())) {
      EXPECT_TRUE(wares.insert(row.ware).second) << row.ware;
      EXPECT_FALSE(row.note.empty()) << row.ware;
      EXPECT_FALSE(std::islower(static_cast<unsigned char>(row.note[0]))) << row.note;
      std::string kind = row.ware.substr(0, row.ware.find(','));
      std::string places = row.note.substr(0, row.note.find('.'));
      for (std::string* text : {&kind, &places}) {
        for (char& c : *text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
      }
      EXPECT_EQ(places.find(kind), std::string::npos) << row.ware << " is for " << row.note;
      const bool counted_on = row.ware.find(" wide") != std::string::npos;
      EXPECT_TRUE(!counted_on || !row.note.starts_with("The coat needs")) << row.ware;
      rows += counted_on;
    }
  }
  EXPECT_GT(rows, 100);
}

TEST(Paper, ANotionWithoutAWidthIsNamedWithoutOne) {
  const auto has_number = [](double width_mm) {
    const ShoppingLine line{.kind = NotionKind::Buckle, .width_mm = width_mm, .count = 2};
    return notion_title(line, Unit::Centimetre, words()).find_first_of("0123456789") !=
           std::string::npos;
  };
  EXPECT_FALSE(has_number(0.0));
  EXPECT_TRUE(has_number(20.0));
}

TEST(Paper, QuoteHasEveryClothEveryWidthOfEveryNotionAndTheThread) {
  size_t lines = 0;
  for (const Coat& coat : richest()) {
    const std::vector<LaidCloth> cloths = laid(coat);
    const Quote quote = quote_of(coat.pattern.draft, cloths, coat.ticket.unit, coat.ticket.quote);
    const std::string page = html_of(quote_sheet(coat.ticket, quote, "Slipway", words(), "")).body;
    EXPECT_EQ(static_cast<size_t>(count(page, "<li>")), quote.lines.size());
    lines += quote.lines.size();
    for (const LaidCloth& cloth : cloths)
      EXPECT_TRUE(has(page, cloth_title(cloth.lay.cloth, words())));
    for (const Notion& n : coat.pattern.draft.notions) {
      const ShoppingLine alone{.kind = n.kind, .width_mm = n.width_mm, .from_cloth = n.from_cloth};
      EXPECT_EQ(has(page, notion_title(alone, coat.ticket.unit, words())), !n.from_cloth)
          << "strips of the coat's own cloth are paid for with it";
    }
  }
  EXPECT_GT(lines, 30U);
}

}  // namespace
}  // namespace coatwright
