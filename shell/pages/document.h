// A text document: headings, paragraphs, lists, tables and drawings, in their order. It is written as
// HTML, which a browser breaks into pages (html_of), or set on pages of its own (paged.h).
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/draw/drawing.h"
#include "core/draw/html.h"

namespace coatwright {

enum class ListKind { Numbered, Plain, Boxes };  // boxes to tick with a pencil

struct DocumentPart {
  enum class Kind { Heading, Paragraph, Item, Row, Drawing } kind = Kind::Paragraph;
  std::vector<std::string> texts =
      {};                           // one; of a row its cells, of an item its small lines behind
  int level = 0;                    // of a heading, 1..3
  ListKind list = ListKind::Plain;  // of an item
  int number = 0;                   // of an item or row: from 1 in its list or table
  bool ticked = false;              // of an item of boxes
  bool even = false;                // of a row: its cells weigh the same; else the second most
  Drawing drawing = {};             // true to its size, in mm; of an item: beside its text
  int block = 0;                    // parts of one block stay on one page; 0: in none
};

class Document {
 public:
  explicit Document(std::string_view title) : title_(title) {}
  void heading(int level, std::string_view text);
  void paragraph(std::string_view text);
  void open_list(ListKind kind);
  void item(std::string_view text, bool ticked = false);
  // Of the last item: a small line below it, and a drawing, which stands beside it if it is narrow.
  void line(std::string_view text);
  void beside(Drawing drawing);
  void open_table(bool even = false);
  void row(std::vector<std::string> cells);
  void drawing(Drawing drawing);
  void open_block();
  void close_block() { block_ = 0; }

  [[nodiscard]] const std::string& title() const { return title_; }
  [[nodiscard]] const std::vector<DocumentPart>& parts() const { return parts_; }

 private:
  DocumentPart& add(DocumentPart::Kind kind, std::string_view text);
  std::string title_;
  std::vector<DocumentPart> parts_;
  ListKind list_ = ListKind::Plain;
  bool even_ = false;
  int number_ = 0, blocks_ = 0, block_ = 0;
};

// What is wider stands below an item's text, not beside it. mm.
inline constexpr double kWidestBeside = 60.0;

// All text is escaped.
[[nodiscard]] HtmlDocument html_of(const Document& document);

}  // namespace coatwright
