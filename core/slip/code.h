// A few bytes as a short text that survives a messenger: the frame round every slip.
//
//   cwSL base64url( head length body check ) z
//
//   cwSL    where the code begins in a longer text
//   head    kind and version; 1 byte
//   length  of the body; 2 bytes, most significant first
//   check   CRC-32 of marker, head, length and body; 4 bytes
//   z       stands for nothing: the last letter is what gets lost
//
// base64url is that of RFC 4648 section 5 without padding; all characters are unreserved in RFC
// 3986, so that the code stands in a fragment as it is. This frame is the same in every version:
// only the body may change, so that a later version is told from a damaged one.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace coatwright {

using Bytes = std::vector<uint8_t>;

inline constexpr size_t kMostCodeBody = 2048;
inline constexpr size_t kMostMessageBytes = 64 * 1024;

struct Coded {
  uint8_t head = 0;
  Bytes body;
  bool operator==(const Coded&) const = default;
};

// `body` has at most kMostCodeBody bytes.
[[nodiscard]] std::string to_code(const Coded& coded);
// How many characters to_code makes of a body of `bytes` bytes.
[[nodiscard]] size_t code_size(size_t bytes);

// What is found in a text: the whole codes in their order, each of them once, what is wrong with the
// first that is not whole, and those that are not as far as they came, but for pieces of whole ones.
struct Codes {
  std::vector<Coded> whole;
  std::optional<Problem> broken;
  std::vector<std::string> torn;
};

// The whole codes in a text: a link, a message with words round it, or the code alone. What
// messengers do to a long line is undone if the check holds afterwards: percent-encoding (up to
// three times over), line breaks with or without quotation marks, spaces and invisible characters
// within, hyphens made into dashes, anything behind the end. `broken` is SlipCut or SlipDamaged. Problems:
// SlipTooLarge; SlipNotFound if there is no code, whole or not.
[[nodiscard]] Result<Codes> find_codes(std::string_view text);
// The first of them. Problems: also SlipCut, SlipDamaged.
[[nodiscard]] Result<Coded> find_code(std::string_view text);

// base64url without padding; reading refuses other characters, a length that no bytes make, and
// bits that stand for nothing.
[[nodiscard]] std::string to_base64url(const Bytes& bytes);
[[nodiscard]] bool from_base64url(std::string_view text, Bytes& bytes);

// CRC-32 of ISO/IEC 3309 and ITU-T V.42, as in gzip (RFC 1952): finds every changed stretch of up
// to 32 bits.
[[nodiscard]] uint32_t crc32(std::string_view marker, const Bytes& bytes);

}  // namespace coatwright
