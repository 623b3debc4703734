#include "core/sheet/paper.h"

#include <algorithm>
#include <optional>

#include "core/base/utf8.h"

namespace coatwright {
namespace {

constexpr size_t kMostIdBytes = 24;

// Digits with at most one point and three decimals, from the front of `text`, which it shortens.
std::optional<double> take_number(std::string_view& text) {
  constexpr size_t kMostWhole = 5, kMostDecimals = 3;
  const auto digits = [&](size_t most) {
    size_t n = 0;
    while (n < text.size() && text[n] >= '0' && text[n] <= '9') ++n;
    const std::string_view found = text.substr(0, n);
    text.remove_prefix(n);
    return n >= 1 && n <= most ? std::optional(found) : std::nullopt;
  };
  const auto value = [](std::string_view ds) {
    double v = 0.0;
    for (const char c : ds) v = 10.0 * v + (c - '0');
    return v;
  };
  const auto whole = digits(kMostWhole);
  if (!whole) return std::nullopt;
  if (text.empty() || text[0] != '.') return value(*whole);
  text.remove_prefix(1);
  const auto decimals = digits(kMostDecimals);
  if (!decimals) return std::nullopt;
  constexpr double kScale[] = {1.0, 10.0, 100.0, 1000.0};
  // One division, so that "279.4" is the double nearest to 279.4.
  const double scale = kScale[decimals->size()];
  return (value(*whole) * scale + value(*decimals)) / scale;
}

bool take(std::string_view& text, std::string_view expected) {
  if (!text.starts_with(expected)) return false;
  text.remove_prefix(expected.size());
  return true;
}

}  // namespace

const std::vector<Paper>& papers() {
  // ISO 216 and ANSI/ASME Y14.1 sizes as in css-page-3 (A3, A4, letter, legal, ledger) and tables
  // of ISO 216 (A0).
  static const std::vector<Paper> table = {
      {"a4", 210.0, 297.0},      {"letter", 215.9, 279.4}, {"legal", 215.9, 355.6},
      {"tabloid", 279.4, 431.8}, {"a3", 297.0, 420.0},     {"a0", 841.0, 1189.0},
  };
  return table;
}

Result<Paper> paper_by_id(std::string_view id) {
  const auto known =
      std::find_if(papers().begin(), papers().end(), [id](const Paper& p) { return p.id == id; });
  if (known != papers().end()) return *known;

  const Problem unknown{Code::PaperUnknown, "paper", {}, cleaned(id, kMostIdBytes)};
  if (id.size() > kMostIdBytes) return unknown;
  std::string_view rest = id;
  const auto first = take_number(rest);
  if (!first || !take(rest, "x")) return unknown;
  const auto second = take_number(rest);
  if (!second || rest != "mm") return unknown;
  const auto [shorter, longer] = std::minmax(*first, *second);
  if (shorter < kSmallestPaper) {
    return Problem{Code::PaperTooSmall, "paper", {*first, *second, kSmallestPaper}};
  }
  if (longer > kLargestPaper) return unknown;
  return Paper{std::string(id), shorter, longer};
}

}  // namespace coatwright
