#include "core/draw/html.h"

#include "core/draw/svg.h"

namespace coatwright {

std::string to_html(const HtmlDocument& document) {
  std::string out =
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
      "style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'\">\n"
      "<meta name=\"viewport\" content=\"width=device-width\">\n";
  append_title(out, document.title);
  out += "<style>\n" + document.rules + "</style>\n</head>\n<body>\n";
  out += document.body;
  out += "</body>\n</html>\n";
  return out;
}

}  // namespace coatwright
