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

}  // namespace

Document::Document(std::string_view title) : document_{std::string(title), kRules, "<main>\n"} {}

void Document::tagged(std::string_view tag, std::string_view text) {
  document_.body.append("<").append(tag).append(">");
  append_escaped(document_.body, unbroken(text));
  document_.body.append("</").append(tag).append(">\n");
}

void Document::heading(int level, std::string_view text) {
  tagged("h" + std::to_string(level), text);
}
void Document::paragraph(std::string_view text) { tagged("p", text); }

void Document::open_list(ListKind kind) {
  numbered_ = kind == ListKind::Numbered;
  document_.body += numbered_                 ? "<ol>\n"
                    : kind == ListKind::Boxes ? "<ul class=\"boxes\">\n"
                                              : "<ul>\n";
}
void Document::item(std::string_view text, bool ticked) {
  if (!ticked) return tagged("li", text);
  document_.body += "<li class=\"done\">";
  append_escaped(document_.body, unbroken(text));
  document_.body += "</li>\n";
}
void Document::close_list() { document_.body += numbered_ ? "</ol>\n" : "</ul>\n"; }

void Document::open_table() { document_.body += "<table>\n"; }
void Document::open_even_table() { document_.body += "<table class=\"even\">\n"; }
void Document::row(const std::vector<std::string>& cells) {
  document_.body += "<tr>";
  for (const std::string& cell : cells) tagged("td", cell);
  document_.body += "</tr>\n";
}
void Document::close_table() { document_.body += "</table>\n"; }

void Document::drawing(std::string_view svg) { document_.body += svg; }
void Document::open_block() { document_.body += "<section>\n"; }
void Document::close_block() { document_.body += "</section>\n"; }

HtmlDocument Document::close() && {
  document_.body += "</main>\n";
  return std::move(document_);
}

}  // namespace coatwright
