#include "core/slip/code.h"

#include <algorithm>
#include <array>
#include <optional>

#include "core/base/utf8.h"

namespace coatwright {

namespace {

constexpr std::string_view kMarker = "cwSL";
constexpr char kEnd = 'z';
constexpr size_t kMostCode = 2 * kMostCodeBody;  // characters
constexpr size_t kHeadBytes = 3;       // head and length: four characters, readable on their own
constexpr size_t kHeadCharacters = 4;  // of base64url
constexpr size_t kCheckBytes = 4;
constexpr size_t kMostTries = 64;

constexpr std::string_view kAlphabet =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

constexpr uint8_t kNoSextet = 64;
constexpr std::array<uint8_t, 256> kSextets = [] {
  std::array<uint8_t, 256> table = {};
  table.fill(kNoSextet);
  for (size_t i = 0; i < kAlphabet.size(); ++i) {
    table[static_cast<unsigned char>(kAlphabet[i])] = static_cast<uint8_t>(i);
  }
  return table;
}();

std::optional<uint32_t> sextet(char c) {
  const uint8_t six = kSextets[static_cast<unsigned char>(c)];
  if (six == kNoSextet) return std::nullopt;
  return six;
}

size_t characters_of(size_t bytes) { return (bytes * 4 + 2) / 3; }

// ---- what a messenger does ---------------------------------------------------------------------

int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

std::string percent_decoded(std::string_view text) {
  std::string out;
  for (size_t i = 0; i < text.size(); ++i) {
    const bool coded = text[i] == '%' && i + 2 < text.size() && hex_digit(text[i + 1]) >= 0 &&
                       hex_digit(text[i + 2]) >= 0;
    if (coded) {
      out.push_back(static_cast<char>(hex_digit(text[i + 1]) * 16 + hex_digit(text[i + 2])));
      i += 2;
    } else {
      out.push_back(text[i]);
    }
  }
  return out;
}

// What may stand within a code without belonging to it: breaks and quotation marks (> and |) of
// wrapped lines ("=" ends one in quoted-printable, RFC 2045), spaces and invisible characters.
bool is_slipped_in(char32_t c) {
  return c == U' ' || c == U'\t' || c == U'\r' || c == U'\n' || c == U'>' || c == U'|' ||
         c == U'=' || c == 0xA0 || c == 0xAD || (c >= 0x2000 && c <= 0x200D) || c == 0x2028 ||
         c == 0x202F || c == 0x2060 || c == 0x3000 || c == 0xFEFF;
}

constexpr char kStop = '\0';  // stands for everything that ends a code

// The text with nothing left that only wraps it; `dash` is what a dash (U+2013) was made of.
std::string unwrapped(std::string_view text, std::string_view dash) {
  std::string out;
  for (size_t at = 0; at < text.size();) {
    const Character c = character_at(text, at);
    at += c.bytes;
    if (c.point < 0x80 && sextet(static_cast<char>(c.point))) {
      out.push_back(static_cast<char>(c.point));
    } else if (c.point == 0x2013) {
      out += dash;
    } else if (c.point == 0x2014) {
      out += "--";
    } else if (c.point == 0x2010 || c.point == 0x2011 || c.point == 0x2212) {
      out += '-';
    } else if (!is_slipped_in(c.point)) {
      out += kStop;
    }
  }
  return out;
}

// ---- one place ---------------------------------------------------------------------------------

Problem damaged() { return {.code = Code::SlipDamaged}; }
Problem cut(size_t there, size_t wanted) {
  return {.code = Code::SlipCut,
          .values = {static_cast<double>(there), static_cast<double>(wanted)}};
}

// The code that begins right behind a marker.
Result<Coded> code_at(std::string_view text) {
  text = text.substr(0, text.find(kStop));
  const size_t least = kMarker.size() + kHeadCharacters + characters_of(kCheckBytes);
  if (text.size() < kHeadCharacters) return cut(kMarker.size() + text.size(), least);
  Bytes head;
  if (!from_base64url(text.substr(0, kHeadCharacters), head)) return damaged();
  const size_t length = static_cast<size_t>(head[1]) << 8 | head[2];
  if (length > kMostCodeBody) return damaged();
  const size_t whole = characters_of(kHeadBytes + length + kCheckBytes);
  if (text.size() < whole) return cut(kMarker.size() + text.size(), kMarker.size() + whole);

  Bytes bytes;
  if (!from_base64url(text.substr(0, whole), bytes)) return damaged();
  uint32_t check = 0;
  for (size_t i = bytes.size() - kCheckBytes; i < bytes.size(); ++i) check = check << 8 | bytes[i];
  bytes.resize(bytes.size() - kCheckBytes);
  if (check != crc32(kMarker, bytes)) return damaged();
  return Coded{bytes[0], Bytes(bytes.begin() + kHeadBytes, bytes.end())};
}

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

// The marker, also with its capitals lost: the code is damaged then, and says so.
bool is_marker(std::string_view text, size_t at) {
  if (text.size() - at < kMarker.size()) return false;
  for (size_t i = 0; i < kMarker.size(); ++i) {
    if (lower(text[at + i]) != lower(kMarker[i])) return false;
  }
  return true;
}

// The codes in an unwrapped text.
Codes codes_in(std::string_view text) {
  Codes codes;
  size_t tries = 0;
  for (size_t at = 0; at < text.size() && tries < kMostTries; ++at) {
    if (!is_marker(text, at)) continue;
    ++tries;
    const Result<Coded> found = code_at(text.substr(at + kMarker.size()));
    if (found) {
      codes.whole.push_back(*found);
      at += code_size(found->body.size()) - 2;  // the end may have got lost
    } else {
      if (!codes.broken) codes.broken = found.problem();
      const std::string_view rest = text.substr(at + kMarker.size());
      codes.torn.emplace_back(rest.substr(0, std::min(rest.find(kStop), kMostCode)));
    }
  }
  return codes;
}

// Adds what another way of reading the same text has found. Of codes that are not whole the way
// that finds most whole ones knows best, and of two the later, which is decoded further.
void add_codes(Codes& codes, size_t& most, const Codes& more) {
  if (more.whole.size() >= most && (more.broken || more.whole.size() > most)) {
    codes.broken = more.broken;
    codes.torn = more.torn;
  }
  most = std::max(most, more.whole.size());
  for (const Coded& coded : more.whole) {
    if (std::find(codes.whole.begin(), codes.whole.end(), coded) == codes.whole.end()) {
      codes.whole.push_back(coded);
    }
  }
}

}  // namespace

std::string to_base64url(const Bytes& bytes) {
  std::string out;
  uint32_t bits = 0;
  int held = 0;
  for (const uint8_t byte : bytes) {
    bits = bits << 8 | byte;
    held += 8;
    for (; held >= 6; held -= 6) out.push_back(kAlphabet[bits >> (held - 6) & 63]);
  }
  if (held > 0) out.push_back(kAlphabet[bits << (6 - held) & 63]);
  return out;
}

bool from_base64url(std::string_view text, Bytes& bytes) {
  bytes.clear();
  if (text.size() % 4 == 1) return false;
  uint32_t bits = 0;
  int held = 0;
  for (const char c : text) {
    const auto six = sextet(c);
    if (!six) return false;
    bits = bits << 6 | *six;
    held += 6;
    if (held >= 8) {
      held -= 8;
      bytes.push_back(static_cast<uint8_t>(bits >> held & 255));
    }
  }
  return (bits & ((1u << held) - 1)) == 0;
}

uint32_t crc32(std::string_view marker, const Bytes& bytes) {
  uint32_t rest = 0xFFFFFFFF;
  const auto take = [&](uint8_t byte) {
    rest ^= byte;
    for (int bit = 0; bit < 8; ++bit) rest = rest >> 1 ^ (rest & 1 ? 0xEDB88320 : 0);
  };
  for (const char c : marker) take(static_cast<uint8_t>(c));
  for (const uint8_t byte : bytes) take(byte);
  return ~rest;
}

size_t code_size(size_t bytes) {
  return kMarker.size() + characters_of(kHeadBytes + bytes + kCheckBytes) + 1;
}

std::string to_code(const Coded& coded) {
  Bytes bytes = {coded.head, static_cast<uint8_t>(coded.body.size() >> 8 & 255),
                 static_cast<uint8_t>(coded.body.size() & 255)};
  bytes.insert(bytes.end(), coded.body.begin(), coded.body.end());
  const uint32_t check = crc32(kMarker, bytes);
  for (int shift = 24; shift >= 0; shift -= 8) {
    bytes.push_back(static_cast<uint8_t>(check >> shift & 255));
  }
  return std::string(kMarker) + to_base64url(bytes) + kEnd;
}

Result<Codes> find_codes(std::string_view text) {
  if (text.size() > kMostMessageBytes) {
    return Problem{
        .code = Code::SlipTooLarge,
        .values = {static_cast<double>(text.size()), static_cast<double>(kMostMessageBytes)}};
  }
  Codes codes;
  size_t most = 0;
  std::string decoded(text);
  for (int times = 0; times <= 3; ++times) {
    const bool dashed = decoded.find("\u2013") != std::string::npos;
    for (const std::string_view dash : {"-", "--"}) {
      if (dash == "--" && !dashed) break;
      add_codes(codes, most, codes_in(unwrapped(decoded, dash)));
    }
    const std::string next = percent_decoded(decoded);
    if (next == decoded) break;
    decoded = next;
  }
  if (codes.whole.empty() && !codes.broken) return Problem{.code = Code::SlipNotFound};
  std::erase_if(codes.torn, [&](const std::string& piece) {
    return std::any_of(codes.whole.begin(), codes.whole.end(), [&](const Coded& coded) {
      return std::string_view(to_code(coded)).substr(kMarker.size()).starts_with(piece);
    });
  });
  return codes;
}

Result<Coded> find_code(std::string_view text) {
  Result<Codes> codes = find_codes(text);
  if (!codes) return codes.problem();
  if (codes->whole.empty()) return *codes->broken;
  return codes->whole.front();
}

}  // namespace coatwright
