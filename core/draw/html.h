// A document to print, in its parts: a page that already stands takes in rules and markup by
// themselves; a file is the whole of them.
#pragma once

#include <string>

namespace coatwright {

struct HtmlDocument {
  std::string title;  // as it is, not yet escaped
  std::string rules;  // CSS
  std::string body;   // markup, its text escaped
};

// Self-contained; its policy allows nothing but its own rules.
[[nodiscard]] std::string to_html(const HtmlDocument& document);

}  // namespace coatwright
