#include "shell/pages/document.h"

#include <utility>

#include "core/draw/svg.h"
#include "core/units/unbroken.h"

namespace coatwright {
namespace {

constexpr const char* kRules =
    "@page{size:auto;margin:15mm}\n"
    "html,body{margin:0}\n"
    "main{font:11pt/1.45 Cabin,'DejaVu Sans',sans-serif;color:#000;background:#fff}\n"
    "h1{font-size:17pt;margin:0 0 1mm}\n"
    "h2{font-size:13pt;margin:7mm 0 1mm;break-after:avoid}\n"
    "h3{font-size:11pt;margin:4mm 0 1mm;break-after:avoid}\n"
    "p,ol,ul{margin:1mm 0}\n"
    "h2+p,h2+p+p,h2+p+p+p{break-after:avoid}\n"
    "li{break-inside:avoid}\n"
    "ul.boxes{list-style:none;padding-left:7mm}\n"
    "ul.boxes li{margin:1.5mm 0}\n"
    "ul.boxes li::before{content:'';float:left;width:3.2mm;height:3.2mm;border:.3mm solid #000;"
    "margin:.9mm 0 0 -6mm}\n"
    "ul.boxes li.done::before{content:'\\2713';font:700 3.2mm/3.2mm 'DejaVu Sans',sans-serif;"
    "text-align:center}\n"
    "li{display:flow-root}\n"
    "li small{display:block;font-size:9pt;margin-top:.6mm}\n"
    "figure{float:right;margin:.5mm 0 .5mm 4mm}\n"
    "figure.wide{float:none;margin:1mm 0 0}\n"
    "figure svg{margin:0}\n"
    "table{border-collapse:collapse;width:100%;margin:2mm 0}\n"
    "td{vertical-align:top;padding:1.2mm 3mm 1.2mm 0;border-bottom:.2mm solid #000}\n"
    "td:first-child{width:36%}\n"
    "td:nth-child(2){white-space:nowrap;font-weight:600}\n"
    "table.even td{width:auto;font-size:9pt;white-space:nowrap;font-weight:400}\n"
    "table.even tr:first-child td,table.even td:first-child{font-weight:600}\n"
    "section{break-inside:avoid}\n"
    "tr{break-inside:avoid}\n"
    "svg{display:block;margin:2mm 0;break-inside:avoid;break-before:avoid}\n"
    "@media screen{body{background:#2F3A4C;padding:8mm 0}"
    "main{max-width:180mm;margin:0 auto;padding:15mm}}\n";

// What stands round parts that follow one another: lists, tables and blocks are opened and closed as
// their parts come and go.
struct Around {
  int block = 0;
  bool is_list = false, is_table = false;
  ListKind list = ListKind::Plain;
};

const char* opening(ListKind kind) {
  return kind == ListKind::Numbered ? "<ol>\n"
         : kind == ListKind::Boxes  ? "<ul class=\"boxes\">\n"
                                    : "<ul>\n";
}

void tagged(std::string& out, std::string_view tag, std::string_view text,
            std::string_view attributes = {}) {
  out.append("<").append(tag).append(attributes).append(">");
  append_escaped(out, unbroken(text));
  out.append("</").append(tag).append(">\n");
}

void append_figure(std::string& out, const Drawing& drawing, bool wide) {
  out += wide ? "<figure class=\"wide\">" : "<figure>";
  append_inline_svg(out, drawing);
  out += "</figure>";
}

void append_item(std::string& out, const DocumentPart& part) {
  const bool drawn = !part.drawing.items.empty();
  const bool wide = part.drawing.bounds.width() > kWidestBeside;
  out += part.ticked ? "<li class=\"done\">" : "<li>";
  if (drawn && !wide) append_figure(out, part.drawing, false);
  append_escaped(out, unbroken(part.texts.front()));
  for (size_t i = 1; i < part.texts.size(); ++i) {
    out += "<small>";
    append_escaped(out, unbroken(part.texts[i]));
    out += "</small>";
  }
  if (drawn && wide) append_figure(out, part.drawing, true);
  out += "</li>\n";
}

void leave_list_or_table(std::string& out, Around& around) {
  if (around.is_list) out += around.list == ListKind::Numbered ? "</ol>\n" : "</ul>\n";
  if (around.is_table) out += "</table>\n";
  around.is_list = around.is_table = false;
}

void append(std::string& out, const DocumentPart& part) {
  switch (part.kind) {
    case DocumentPart::Kind::Heading:
      return tagged(out, "h" + std::to_string(part.level), part.texts.front());
    case DocumentPart::Kind::Paragraph:
      return tagged(out, "p", part.texts.front());
    case DocumentPart::Kind::Item:
      return append_item(out, part);
    case DocumentPart::Kind::Row:
      out += "<tr>";
      for (const std::string& cell : part.texts) tagged(out, "td", cell);
      out += "</tr>\n";
      return;
    case DocumentPart::Kind::Drawing:
      return append_inline_svg(out, part.drawing);
  }
}

}  // namespace

DocumentPart& Document::add(DocumentPart::Kind kind, std::string_view text) {
  return parts_.emplace_back(
      DocumentPart{.kind = kind, .texts = {std::string(text)}, .block = block_});
}

void Document::heading(int level, std::string_view text) {
  add(DocumentPart::Kind::Heading, text).level = level;
}
void Document::paragraph(std::string_view text) { add(DocumentPart::Kind::Paragraph, text); }

void Document::open_list(ListKind kind) {
  list_ = kind;
  number_ = 0;
}
void Document::item(std::string_view text, bool ticked) {
  DocumentPart& part = add(DocumentPart::Kind::Item, text);
  part.list = list_;
  part.number = ++number_;
  part.ticked = ticked;
}
void Document::line(std::string_view text) { parts_.back().texts.emplace_back(text); }
void Document::beside(Drawing drawing) { parts_.back().drawing = std::move(drawing); }
void Document::open_table(bool even) {
  number_ = 0;
  even_ = even;
}
void Document::row(std::vector<std::string> cells) {
  DocumentPart& part = add(DocumentPart::Kind::Row, {});
  part.texts = std::move(cells);
  part.number = ++number_;
  part.even = even_;
}
void Document::drawing(Drawing drawing) {
  add(DocumentPart::Kind::Drawing, {}).drawing = std::move(drawing);
}
void Document::open_block() { block_ = ++blocks_; }

HtmlDocument html_of(const Document& document) {
  HtmlDocument html{document.title(), kRules, "<main>\n"};
  std::string& out = html.body;
  Around around;
  for (const DocumentPart& part : document.parts()) {
    const bool is_item = part.kind == DocumentPart::Kind::Item;
    const bool is_row = part.kind == DocumentPart::Kind::Row;
    const bool goes_on = part.number > 1 && (is_item ? around.is_list : around.is_table);
    if (!goes_on) leave_list_or_table(out, around);
    if (part.block != around.block) {
      if (around.block != 0) out += "</section>\n";
      if (part.block != 0) out += "<section>\n";
      around.block = part.block;
    }
    if (is_item && !goes_on) out += opening(part.list);
    if (is_row && !goes_on) out += part.even ? "<table class=\"even\">\n" : "<table>\n";
    around.is_list = is_item;
    around.is_table = is_row;
    around.list = part.list;
    append(out, part);
  }
  leave_list_or_table(out, around);
  if (around.block != 0) out += "</section>\n";
  out += "</main>\n";
  return html;
}

}  // namespace coatwright
