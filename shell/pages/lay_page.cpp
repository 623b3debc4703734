#include "shell/pages/lay_page.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/draw/numbered_lay.h"
#include "shell/words/shopping_words.h"
#include "shell/words/ticket_words.h"

namespace coatwright {
namespace {

// What a diagram may take of a page, what it takes of that for the words round the cloth, and its
// texts; mm.
constexpr double kWide = 172.0, kHigh = 175.0, kText = 3.2;
constexpr double kBeside = 8.0 * kText, kAbove = 4.0 * kText;

// A drawing at one to a whole number, with that written under it.
template <class Draw>
void figure(Document& page, LayNotes notes, const Words& words, Draw&& draw) {
  notes.text_mm = kText;
  const Rect about = draw(notes).bounds;  // with texts that are smaller than they will be
  const double fit = std::max(about.width() / (kWide - kBeside), about.height() / (kHigh - kAbove));
  const double scale = std::max(1.0, std::ceil(fit));
  notes.text_mm = kText * scale;
  page.drawing(scaled(draw(notes), 1.0 / scale));
  page.paragraph(words("lay.scale", {std::to_string(static_cast<int>(scale))}));
}

// "Bosun, Gale".
std::string in_a_row(const std::vector<CoatName>& coats) {
  std::string out;
  for (const CoatName& coat : coats) out += (out.empty() ? "" : ", ") + coat.name;
  return out;
}

// "1 Body · 2 Pocket × 2".
std::string pieces_of(const Lay& lay, const LayNotes& notes, const Words& words) {
  std::string out;
  int number = 0;
  for (const NumberedName& one : numbered_names(lay, notes.coats, words)) {
    out += (out.empty() ? "" : " \u00B7 ") + std::to_string(++number) + " " + one.name;
    if (one.copies > 1) out += " \u00D7 " + std::to_string(one.copies);
  }
  return out;
}

}  // namespace

Document lay_sheet(const LaidCoats& coats, const std::vector<LeftOut>& left_out,
                   const std::vector<LaidCloth>& cloths, const Words& words,
                   const std::string& date, LaySheetParts parts) {
  const bool whole = parts == LaySheetParts::All;
  Document page(title_of(coats, words));
  page.heading(1, title_of(coats, words));
  page.paragraph(words(whole ? "lay.page" : "lay.list-page") +
                 (date.empty() ? "" : " \u00B7 " + date));
  const LayNotes notes{.lengths = {.unit = coats.front().ticket->unit},
                       .coats = coat_names(coats, words)};
  if (!notes.coats.empty()) page.paragraph(words("lay.coats", {in_a_row(notes.coats)}));
  if (!left_out.empty()) {
    page.heading(2, words("lay.left-out"));
    page.open_list(ListKind::Plain);
    for (const LeftOut& one : left_out) {
      page.item(words("lay.left-out-coat", {one.coat, one.why}));
    }
  }
  page.heading(2, words("shop.title"));
  page.open_table();
  for (const ShoppingRow& row : shopping_rows(coats, cloths, words)) {
    page.row({row.ware, row.amount, row.note});
  }
  if (!whole) return page;
  for (const LaidCloth& cloth : cloths) {
    const Lay& lay = cloth.lay;
    if (cloth.lamination) {
      page.open_block();
      page.heading(2, words("lay.fuse-title"));
      page.paragraph(how_to_fuse(lay, notes.lengths, words));
      figure(page, notes, words,
             [&](const LayNotes& n) { return draw_lamination(lay, *cloth.lamination, n, words); });
      page.close_block();
    }
    page.open_block();
    page.heading(2, lay_title(lay, words));
    for (const std::string& how : how_to_lay(lay, notes.lengths, words)) page.paragraph(how);
    figure(page, notes, words,
           [&](const LayNotes& n) { return draw_numbered_lay(lay, cloth.left_over, n, words); });
    page.paragraph(words("lay.pieces", {pieces_of(lay, notes, words)}));
    page.close_block();
  }
  return page;
}

}  // namespace coatwright
