#include "core/draw/text.h"

#include <algorithm>
#include <array>

#include "core/base/utf8.h"
#include "core/units/length.h"

namespace coatwright {
namespace {

constexpr std::string_view kEllipsis = "\u2026";

// Advance widths of U+0020..U+007E in 1/1000 of the size: the widest of DejaVu Sans 2.37,
// Liberation Sans 2.1 and Cabin 1.5, measured. Bold ones are at most kBoldWider times as wide.
constexpr std::array<int, 95> kWidths = {
    318,  401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361, 318, 532,  //
    714,  636, 636, 636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 556,  //
    1015, 684, 686, 722, 770, 667, 611, 778, 752, 301, 501, 667, 577, 863, 748, 787,  //
    667,  787, 722, 667, 611, 732, 684, 989, 685, 667, 685, 390, 525, 390, 838, 556,  //
    500,  613, 635, 555, 635, 615, 352, 635, 634, 278, 278, 579, 278, 974, 634, 612,  //
    635,  635, 411, 521, 392, 634, 592, 818, 592, 592, 525, 636, 337, 636, 838};
constexpr double kBoldWider = 1.24;

// What is in no table counts as wide.
double em_width(char32_t c) {
  if (c >= 0x20 && c <= 0x7E) return kWidths[c - 0x20] / 1000.0;
  if (c >= 0x0300 && c <= 0x036F) return 0.0;  // combining marks
  if (c == 0x00A0) return 0.318;               // a space that does not break
  if (c == 0x00B7) return 0.318;               // middle dot
  if (c == 0x2044) return 0.4;                 // fraction slash
  if (c >= 0x00C0 && c <= 0x02FF) return 0.9;  // letters with marks
  return 1.05;
}

}  // namespace

double text_width(std::string_view utf8, double size_mm, bool bold) {
  double ems = 0.0;
  for (size_t at = 0; at < utf8.size();) {
    const Character c = character_at(utf8, at);
    ems += em_width(c.point);
    at += c.bytes;
  }
  return ems * size_mm * (bold ? kBoldWider : 1.0);
}

std::string shortened(std::string_view utf8, double width_mm, double size_mm, bool bold) {
  if (text_width(utf8, size_mm, bold) <= width_mm) return std::string(utf8);
  const double room = width_mm - text_width(kEllipsis, size_mm, bold);
  double used = 0.0;
  size_t end = 0;
  while (end < utf8.size()) {
    const size_t bytes = character_at(utf8, end).bytes;
    used += text_width(utf8.substr(end, bytes), size_mm, bold);
    if (used > room) break;
    end += bytes;
  }
  while (end > 0 && utf8[end - 1] == ' ') --end;
  if (end == 0) return {};
  return std::string(utf8.substr(0, end)).append(kEllipsis);
}

namespace {

// The next space from `from` on at which a line may break, or the end.
size_t next_break(std::string_view utf8, size_t from) {
  size_t at = utf8.find(' ', from);
  while (at != std::string_view::npos && binds(utf8, at)) at = utf8.find(' ', at + 1);
  return std::min(at, utf8.size());
}

}  // namespace

std::vector<std::string> wrapped(std::string_view utf8, double width_mm, double size_mm,
                                 bool bold) {
  std::vector<std::string> lines;
  std::string line;
  for (size_t from = 0; from < utf8.size();) {
    const size_t to = next_break(utf8, from);
    const std::string_view word = utf8.substr(from, to - from);
    from = to + 1;
    if (word.empty()) continue;
    std::string longer = line.empty() ? std::string(word) : line + " " + std::string(word);
    if (line.empty() || text_width(longer, size_mm, bold) <= width_mm) {
      line = std::move(longer);
    } else {
      lines.push_back(std::move(line));
      line = word;
    }
  }
  if (!line.empty()) lines.push_back(std::move(line));
  for (std::string& l : lines) l = shortened(l, width_mm, size_mm, bold);
  return lines;
}

std::vector<std::string> balanced(std::string_view utf8, int count, bool bold) {
  double width = text_width(utf8, 1.0, bold) / count;
  for (size_t from = 0; from < utf8.size();) {
    const size_t to = next_break(utf8, from);
    width = std::max(width, text_width(utf8.substr(from, to - from), 1.0, bold));
    from = to + 1;
  }
  std::vector<std::string> lines = wrapped(utf8, width, 1.0, bold);
  while (lines.size() > static_cast<size_t>(count)) {
    width *= 1.05;
    lines = wrapped(utf8, width, 1.0, bold);
  }
  return lines;
}

}  // namespace coatwright
