#include "shell/lay_page.h"

#include <algorithm>
#include <cmath>

#include "core/sheet/lay_drawing.h"
#include "core/sheet/svg.h"
#include "shell/shopping_words.h"
#include "shell/ticket_words.h"

namespace coatwright {
namespace {

// What a diagram may take of a page, and its texts there; mm.
constexpr double kWide = 172.0, kHigh = 190.0, kText = 3.2;

constexpr const char* kStyle =
    "@page{size:auto;margin:15mm}\n"
    "html,body{margin:0}\n"
    ".lay{font:11pt/1.45 Cabin,'DejaVu Sans',sans-serif;color:#000;background:#fff}\n"
    ".lay h1{font-size:17pt;margin:0 0 1mm}\n"
    ".lay h2{font-size:13pt;margin:7mm 0 1mm;break-after:avoid}\n"
    ".lay p{margin:1mm 0}\n"
    ".lay table{border-collapse:collapse;width:100%;margin:2mm 0}\n"
    ".lay th,.lay td{text-align:left;vertical-align:top;padding:1.2mm 3mm 1.2mm 0;"
    "border-bottom:.2mm solid #000}\n"
    ".lay td:nth-child(2){white-space:nowrap;font-weight:600}\n"
    ".lay tr,.lay figure{break-inside:avoid}\n"
    ".lay figure{margin:2mm 0 4mm}\n"
    ".lay svg{display:block}\n"
    "@media screen{body{background:#2F3A4C;padding:8mm 0}"
    ".lay{max-width:180mm;margin:0 auto;padding:15mm}}\n";

class Page {
 public:
  Page(const Ticket& ticket, const Words& words) : ticket_(ticket), words_(words) {
    notes_.lengths.unit = ticket.unit;
  }

  std::string write(const Draft& draft, const std::vector<LaidCloth>& cloths,
                    const std::string& date) {
    const std::string title = title_of(ticket_, words_);
    append_document_head(out_, title, kStyle);
    out_ += "<main class=\"lay\">\n";
    tagged("h1", title);
    tagged("p", words_("lay.page") + (date.empty() ? "" : " \u00B7 " + date));
    tagged("h2", words_("shop.title"));
    out_ += "<table>\n";
    for (const ShoppingRow& row : shopping_rows(ticket_, draft, cloths, words_)) {
      out_ += "<tr>";
      for (const std::string& cell : {row.ware, row.amount, row.note}) tagged("td", cell);
      out_ += "</tr>\n";
    }
    out_ += "</table>\n";
    for (const LaidCloth& cloth : cloths) {
      const Lay& lay = cloth.lay;
      if (cloth.lamination) {
        tagged("h2", words_("lay.fuse-title"));
        tagged("p", words_("lay.fuse"));
        figure(lay, [&] { return draw_lamination(lay, *cloth.lamination, notes_, words_); });
      }
      tagged("h2", lay_title(lay, words_));
      tagged("p", words_(lay.cloth.one_way ? "lay.how-one-way" : "lay.how"));
      figure(lay, [&] { return draw_lay(lay, cloth.left_over, notes_, words_); });
    }
    out_ += "</main>\n</body>\n</html>\n";
    return std::move(out_);
  }

 private:
  void tagged(const char* tag, const std::string& text) {
    out_ += std::string("<") + tag + ">";
    append_escaped(out_, text);
    out_ += std::string("</") + tag + ">\n";
  }

  // A drawing at one to a whole number, with that written under it.
  template <class Draw>
  void figure(const Lay& lay, Draw&& draw) {
    const Rect ground = cloth_ground(lay);
    const double margins = 8.0 * kText;
    const double fit =
        std::max(ground.width() / (kWide - margins), ground.height() / (kHigh - margins));
    const double scale = std::max(1.0, std::ceil(fit));
    notes_.text_mm = kText * scale;
    out_ += "<figure>\n";
    append_inline_svg(out_, scaled(draw(), 1.0 / scale));
    tagged("figcaption", words_("lay.scale", {std::to_string(static_cast<int>(scale))}));
    out_ += "</figure>\n";
  }

  const Ticket& ticket_;
  const Words& words_;
  LayNotes notes_;
  std::string out_;
};

}  // namespace

std::string lay_html(const Ticket& ticket, const Draft& draft, const std::vector<LaidCloth>& cloths,
                     const Words& words, const std::string& date) {
  return Page(ticket, words).write(draft, cloths, date);
}

}  // namespace coatwright
