// A text document to print: headings, paragraphs, lists and drawings. All text is escaped.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/draw/html.h"

namespace coatwright {

enum class ListKind { Numbered, Plain, Boxes };  // boxes to tick with a pencil

class Document {
 public:
  explicit Document(std::string_view title);
  void heading(int level, std::string_view text);  // 1..3
  void paragraph(std::string_view text);
  void open_list(ListKind kind);
  void item(std::string_view text, bool ticked = false);  // of boxes: its box is ticked
  void close_list();
  // Cells of a table from its left; the second is written large.
  void open_table();
  void open_even_table();  // of columns that weigh the same
  void row(const std::vector<std::string>& cells);
  void close_table();
  void drawing(std::string_view svg);  // as it is
  // What stays on one page.
  void open_block();
  void close_block();
  [[nodiscard]] HtmlDocument close() &&;

 private:
  void tagged(std::string_view tag, std::string_view text);
  HtmlDocument document_;
  bool numbered_ = false;
};

}  // namespace coatwright
