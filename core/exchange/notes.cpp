#include "core/exchange/notes.h"

#include <cmath>

namespace coatwright {
namespace {

void append_fixed(std::string& out, long long steps, int decimals) {
  if (steps < 0) out += '-';
  std::string digits = std::to_string(std::llabs(steps));
  const auto least = static_cast<size_t>(decimals) + 1;
  if (digits.size() < least) digits.insert(0, least - digits.size(), '0');
  digits.insert(digits.size() - static_cast<size_t>(decimals), ".");
  out += digits;
}

}  // namespace

bool is_exchange_day(std::string_view day) {
  constexpr std::string_view kForm = "0000-00-00";
  if (day.size() != kForm.size()) return false;
  for (size_t i = 0; i < day.size(); ++i) {
    const bool is_figure = day[i] >= '0' && day[i] <= '9';
    if (kForm[i] == '-' ? day[i] != '-' : !is_figure) return false;
  }
  return true;
}

long long exchange_steps(double mm, Unit unit) {
  return std::llround(unit == Unit::Inch ? mm / 25.4 * 10000.0 : mm * 100.0);
}

void append_steps(std::string& out, long long steps, Unit unit) {
  append_fixed(out, steps, unit == Unit::Inch ? 4 : 2);
}

std::string exchange_length(double mm, Unit unit) {
  std::string out;
  append_steps(out, exchange_steps(mm, unit), unit);
  return out;
}

std::string two_decimals(double value) {
  std::string out;
  append_fixed(out, std::llround(value * 100.0), 2);
  return out;
}

}  // namespace coatwright
