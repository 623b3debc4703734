// UTF-8 text from outside, one character at a time, and whether it is fit to keep.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace coatwright {

// A character and the bytes it takes. Bytes that make no character (broken, overlong, surrogate,
// past U+10FFFF) come out one at a time as kNoCharacter.
inline constexpr char32_t kNoCharacter = 0xFFFFFFFF;
struct Character {
  char32_t point = kNoCharacter;
  size_t bytes = 1;
};
// The character at byte `at` < text.size().
[[nodiscard]] Character character_at(std::string_view text, size_t at);

[[nodiscard]] size_t count_characters(std::string_view text);

void append_utf8(std::string& out, char32_t point);

// Without the spaces, tabs and ends of lines at its ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

// True for text that can be shown and stored as it is: whole characters, no control characters, no
// marks that turn the writing direction. A line break is fit only where `lines` says so.
[[nodiscard]] bool is_clean(std::string_view text, bool lines);

// `text` with everything that is_clean() refuses replaced by U+FFFD, cut after `most` characters.
[[nodiscard]] std::string cleaned(std::string_view text, size_t most);

}  // namespace coatwright
