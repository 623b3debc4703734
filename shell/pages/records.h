// Texts that programs hand to one another: records that end with U+001E, of fields that end with
// U+001F. No clean text holds either.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace coatwright {

inline constexpr char kEndOfField = '\x1F';
inline constexpr char kEndOfRecord = '\x1E';

using Record = std::vector<std::string>;

inline void put(std::string& out, const Record& fields) {
  for (const std::string& field : fields) out += field + kEndOfField;
  out += kEndOfRecord;
}

// What stands before the next `end`, which is taken off the text with it.
[[nodiscard]] inline std::string_view cut_off(std::string_view& text, char end) {
  const size_t at = std::min(text.find(end), text.size());
  const std::string_view part = text.substr(0, at);
  text.remove_prefix(std::min(at + 1, text.size()));
  return part;
}

}  // namespace coatwright
