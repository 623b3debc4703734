#include "core/slip/slip.h"

#include <algorithm>
#include <cstddef>

#include "core/base/utf8.h"
#include "core/slip/body.h"
#include "core/slip/ticket_code.h"

namespace coatwright {

namespace {

// The head of a code: its version, and one of the two uppermost bits if it is no request.
constexpr uint8_t kAnswerBit = 0x80;
constexpr uint8_t kTicketBit = 0x40;

// The measures as they are numbered in a code, for ever: a new one is added behind, with the version
// that brings it.
constexpr std::array<Measure, kMeasures> kWire = {
    Measure::Back,           Measure::Neck,         Measure::Chest,       Measure::Drop,
    Measure::Breast,         Measure::Loin,         Measure::Underline,   Measure::Weight,
    Measure::ForelegSpacing, Measure::ForelegGirth, Measure::ElbowHeight, Measure::WithersHeight,
    Measure::NeckLength,     Measure::HeadGirth,    Measure::Throat,      Measure::GirthPlace};
// How many of them a version has: number 15 ends the list of an answer of version 1, so that 15 is
// no number and 14 was none.
constexpr size_t kWireOfOne = 14;
static_assert(kMeasures <= 16, "a request has 16 bits for what it asks");
constexpr std::array<Build, 4> kBuilds = {Build::Ordinary, Build::Broad, Build::Deep,
                                          Build::LongLow};

size_t index(Measure m) { return static_cast<size_t>(m); }

// ---- texts -------------------------------------------------------------------------------------

std::optional<Problem> unfit(const char* subject, std::string_view text, size_t most, bool lines) {
  const size_t characters = count_characters(text);
  if (characters > most) {
    return Problem{.code = Code::SlipTextTooLong,
                   .subject = subject,
                   .values = {static_cast<double>(characters), static_cast<double>(most)}};
  }
  if (!is_clean(text, lines)) return Problem{.code = Code::SlipTextUnclean, .subject = subject};
  return std::nullopt;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter_or_digit(char c) {
  return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

// name@place.example: no quoted names, no address literals (RFC 5321 has both), nothing that a
// mailto: link would take for its own (RFC 6068).
bool is_mail(std::string_view a) {
  const size_t at = a.find('@');
  if (at == std::string_view::npos || at == 0 || a.find('@', at + 1) != std::string_view::npos) {
    return false;
  }
  const std::string_view place = a.substr(at + 1);
  const bool dotted = place.find('.') != std::string_view::npos &&
                      place.find("..") == std::string_view::npos && place.front() != '.' &&
                      place.back() != '.';
  const auto fits = [](char c) {
    return is_letter_or_digit(c) || c == '.' || c == '-' || c == '_' || c == '+' || c == '@';
  };
  return dotted && std::all_of(a.begin(), a.end(), fits);
}

bool is_phone(std::string_view a) {
  const auto digits = std::count_if(a.begin(), a.end(), is_digit);
  const auto fits = [](char c) {
    return is_digit(c) || c == ' ' || c == '-' || c == '(' || c == ')' || c == '/' || c == '.';
  };
  const std::string_view rest = a.starts_with('+') ? a.substr(1) : a;
  return digits >= 4 && digits <= 15 && std::all_of(rest.begin(), rest.end(), fits);  // ITU-T E.164
}

// ---- bytes -------------------------------------------------------------------------------------

class Writer {
 public:
  Bytes bytes;

  void byte(size_t value) { bytes.push_back(static_cast<uint8_t>(value & 255)); }
  void token(const SlipToken& token) { bytes.insert(bytes.end(), token.begin(), token.end()); }
  // The length in two bytes when it needs them; a note has up to 2000.
  void text(std::string_view text) {
    byte(std::min<size_t>(text.size(), 255));
    if (text.size() >= 255) {
      byte(text.size() >> 8);
      byte(text.size());
    }
    bytes.insert(bytes.end(), text.begin(), text.end());
  }
};

// Past the end everything is nothing and `ok` is false.
class Reader {
 public:
  explicit Reader(const Bytes& bytes) : bytes_(bytes) {}
  bool ok = true;

  size_t byte() {
    if (at_ < bytes_.size()) return bytes_[at_++];
    ok = false;
    return 0;
  }
  SlipToken token() {
    SlipToken token = {};
    const std::string bytes = some(token.size());
    std::copy(bytes.begin(), bytes.end(), token.begin());
    return token;
  }
  std::string text() {
    size_t size = byte();
    if (size == 255) {
      size = byte() << 8;
      size += byte();
    }
    return some(size);
  }

 private:
  std::string some(size_t count) {
    if (bytes_.size() - at_ < count) {
      ok = false;
      return {};
    }
    const auto from = bytes_.begin() + static_cast<std::ptrdiff_t>(at_);
    at_ += count;
    return {from, from + static_cast<std::ptrdiff_t>(count)};
  }
  const Bytes& bytes_;
  size_t at_ = 0;
};

// ---- readings as typed, in half bytes ----------------------------------------------------------

// A measure's number is one half byte up to 13; from 14 on, since version 2, it is 14 and what is
// left of it. 15 ends the list.
//
// Of a reading half bytes 0 to 13 are these characters; 14 begins a shorthand or another byte, 15
// ends it.
constexpr std::string_view kCommon = "0123456789 /.,";
constexpr unsigned kOther = 14;
constexpr unsigned kEnd = 15;
// Behind kOther the number of one of these, or the byte itself: control characters are in no
// reading, so that their numbers are free. For ever in this order.
constexpr std::array<std::string_view, 14> kShorthands = {
    " in", " cm", " lb", " kg", "½", "¼", "¾", "⅛", "⅜", "⅝", "⅞", " mm", "\"", "⅓"};

class HalfWriter {
 public:
  explicit HalfWriter(Writer& out) : out_(out) {}
  void half(unsigned value) {
    if (odd_) {
      out_.bytes.back() = static_cast<uint8_t>(out_.bytes.back() | value);
    } else {
      out_.byte(value << 4);
    }
    odd_ = !odd_;
  }
  // Of a measure.
  void number(unsigned value) {
    if (value >= kOther) half(kOther);
    half(value < kOther ? value : value - kOther);
  }
  void end() { half(kEnd); }
  void reading(std::string_view text) {
    while (!text.empty()) {
      const size_t common = kCommon.find(text.front());
      const auto shorthand = std::find_if(kShorthands.begin(), kShorthands.end(),
                                          [&](std::string_view s) { return text.starts_with(s); });
      if (shorthand != kShorthands.end()) {
        other(static_cast<unsigned>(shorthand - kShorthands.begin()));
        text.remove_prefix(shorthand->size());
        continue;
      }
      if (common != std::string_view::npos) {
        half(static_cast<unsigned>(common));
      } else {
        other(static_cast<unsigned char>(text.front()));
      }
      text.remove_prefix(1);
    }
    half(kEnd);
  }

 private:
  void other(unsigned value) {
    half(kOther);
    half(value >> 4);
    half(value & 15);
  }
  Writer& out_;
  bool odd_ = false;
};

class HalfReader {
 public:
  explicit HalfReader(Reader& in) : in_(in) {}
  unsigned half() {
    odd_ = !odd_;
    if (!odd_) return held_ & 15;
    held_ = static_cast<unsigned>(in_.byte());
    return held_ >> 4;
  }
  // Of a measure; nothing at the end of the list.
  std::optional<unsigned> number() {
    const unsigned h = half();
    if (h == kEnd) return std::nullopt;
    return h < kOther ? h : kOther + half();
  }
  std::string reading() {
    std::string text;
    while (in_.ok && text.size() <= kMostSlipReading) {
      const unsigned h = half();
      if (h == kEnd) return text;
      if (h != kOther) {
        text.push_back(kCommon[h]);
        continue;
      }
      const unsigned high = half();
      const unsigned value = high << 4 | half();
      if (value < kShorthands.size()) {
        text += kShorthands[value];
      } else {
        text.push_back(static_cast<char>(value));
      }
    }
    in_.ok = false;
    return text;
  }

 private:
  Reader& in_;
  bool odd_ = false;
  unsigned held_ = 0;
};

// ---- bodies ------------------------------------------------------------------------------------

constexpr size_t kUnitBit = 1;

Bytes body_of(const SlipRequest& r) {
  Writer out;
  out.token(r.token);
  size_t asked = 0;
  for (size_t i = 0; i < kWire.size(); ++i) {
    if (r.asked[index(kWire[i])]) asked |= size_t{1} << i;
  }
  out.byte(asked >> 8);
  out.byte(asked);
  const auto build = std::find(kBuilds.begin(), kBuilds.end(), r.build) - kBuilds.begin();
  out.byte((r.unit == Unit::Centimetre ? kUnitBit : 0) | static_cast<size_t>(build) << 1);
  out.text(r.back.address);
  out.text(r.studio);
  out.text(r.dog);
  out.text(r.note);
  return out.bytes;
}

SlipRequest request_of(const Bytes& body, bool& ok) {
  Reader in(body);
  SlipRequest r;
  r.token = in.token();
  const size_t high = in.byte();
  const size_t asked = high << 8 | in.byte();
  for (size_t i = 0; i < kWire.size(); ++i) r.asked[index(kWire[i])] = (asked >> i & 1) != 0;
  const size_t flags = in.byte();
  r.unit = (flags & kUnitBit) != 0 ? Unit::Centimetre : Unit::Inch;
  r.build = kBuilds[flags >> 1 & 3];
  const Result<SlipBack> back = slip_back(in.text());
  if (back) r.back = *back;
  r.studio = in.text();
  r.dog = in.text();
  r.note = in.text();
  ok = in.ok;
  return r;
}

Bytes body_of(const SlipAnswer& a) {
  Writer out;
  out.token(a.token);
  out.byte(a.unit == Unit::Centimetre ? kUnitBit : 0);
  HalfWriter halves(out);
  for (size_t i = 0; i < kWire.size(); ++i) {
    const std::vector<std::string>& readings = a.of(kWire[i]);
    if (readings.empty()) continue;
    halves.number(static_cast<unsigned>(i));
    halves.half(static_cast<unsigned>(readings.size()));
    for (const std::string& text : readings) halves.reading(text);
  }
  halves.end();
  out.text(a.note);
  return out.bytes;
}

SlipAnswer answer_of(const Bytes& body, bool& ok) {
  Reader in(body);
  SlipAnswer a;
  a.token = in.token();
  a.unit = (in.byte() & kUnitBit) != 0 ? Unit::Centimetre : Unit::Inch;
  HalfReader halves(in);
  for (auto i = halves.number(); i && in.ok; i = halves.number()) {
    unsigned count = halves.half();
    if (*i >= kWire.size() || count > static_cast<unsigned>(kMostReadings)) in.ok = false;
    for (; in.ok && count > 0; --count) a.of(kWire[*i]).push_back(halves.reading());
  }
  a.note = in.text();
  ok = in.ok;
  return a;
}

// ---- versions ----------------------------------------------------------------------------------

// Each slip goes as the first version that can say it, so that a studio or a page of that version
// reads it.
int version_for(bool later_measures) { return later_measures ? kSlipVersion : 1; }

int version_of(const SlipRequest& r) {
  return version_for(std::any_of(kWire.begin() + kWireOfOne, kWire.end(),
                                 [&](Measure m) { return r.asked[index(m)]; }));
}

int version_of(const SlipAnswer& a) {
  return version_for(std::any_of(kWire.begin() + kWireOfOne, kWire.end(),
                                 [&](Measure m) { return !a.of(m).empty(); }));
}

Coded coded_of(const SlipRequest& r) {
  return {slip_head(SlipKind::Request, version_of(r)), body_of(r)};
}

Coded coded_of(const SlipAnswer& a) {
  return {slip_head(SlipKind::Answer, version_of(a)), body_of(a)};
}

// ---- what may be written -----------------------------------------------------------------------

std::optional<Problem> fault_of(const SlipRequest& r) {
  if (std::find(r.asked.begin(), r.asked.end(), true) == r.asked.end()) {
    return Problem{.code = Code::SlipNothingAsked};
  }
  if (auto p = unfit("slip-studio", r.studio, kMostSlipName, false)) return p;
  if (auto p = unfit("slip-dog", r.dog, kMostSlipName, false)) return p;
  if (auto p = unfit("slip-note", r.note, kMostRequestNote, true)) return p;
  const Result<SlipBack> back = slip_back(r.back.address);
  if (!back) return back.problem();
  if (back->way != r.back.way) {
    return Problem{.code = Code::SlipAddressUnfit,
                   .subject = "slip-back",
                   .other = cleaned(r.back.address, kMostSlipAddress)};
  }
  return std::nullopt;
}

std::optional<Problem> fault_of(const SlipAnswer& a) {
  size_t readings = 0;
  for (const MeasureInfo& measure : measure_table()) {
    const std::vector<std::string>& typed = a.of(measure.measure);
    readings += typed.size();
    if (typed.size() > static_cast<size_t>(kMostReadings)) {
      return Problem{
          .code = Code::ReadingTooMany,
          .subject = measure.id,
          .values = {static_cast<double>(typed.size()), static_cast<double>(kMostReadings)}};
    }
    for (const std::string& text : typed) {
      if (text.size() > kMostSlipReading) {
        return Problem{.code = Code::NumberTooLong,
                       .subject = measure.id,
                       .values = {static_cast<double>(kMostSlipReading), 6.0}};
      }
      const Result<double> value = reading_value(text, measure.measure, a.unit);
      if (!value) return value.problem();
    }
  }
  if (readings == 0) return Problem{.code = Code::SlipNothingRead};
  return unfit("slip-note", a.note, kMostAnswerNote, true);
}

// What a head says. A later version may have kinds that this one does not know.
Result<SlipKind> kind_in(uint8_t head) {
  const int version = head & ~(kAnswerBit | kTicketBit);
  const bool answer = (head & kAnswerBit) != 0, ticket = (head & kTicketBit) != 0;
  const int latest = ticket && !answer ? kTicketCodeVersion : kSlipVersion;
  if (version > latest) {
    return Problem{.code = Code::SlipFromFuture,
                   .values = {static_cast<double>(version), static_cast<double>(latest)}};
  }
  if (version < 1 || (answer && ticket)) return Problem{.code = Code::SlipMalformed};
  return answer ? SlipKind::Answer : ticket ? SlipKind::WholeTicket : SlipKind::Request;
}

Problem of_other_kind(SlipKind kind) {
  constexpr Code kCodes[] = {Code::SlipIsRequest, Code::SlipIsAnswer, Code::SlipIsTicket};
  return {.code = kCodes[static_cast<size_t>(kind)]};
}

}  // namespace

std::string token_text(const SlipToken& token) {
  return to_base64url(Bytes(token.begin(), token.end()));
}

std::optional<SlipToken> token_from_text(std::string_view text) {
  Bytes bytes;
  SlipToken token;
  if (!from_base64url(text, bytes) || bytes.size() != token.size()) return std::nullopt;
  std::copy(bytes.begin(), bytes.end(), token.begin());
  return token;
}

Result<SlipKind> kind_of(const Coded& coded) { return kind_in(coded.head); }

uint8_t slip_head(SlipKind kind, int version) {
  const auto head = static_cast<uint8_t>(version);
  switch (kind) {
    case SlipKind::Answer:
      return head | kAnswerBit;
    case SlipKind::WholeTicket:
      return head | kTicketBit;
    case SlipKind::Request:
      break;
  }
  return head;
}

Result<std::string> slip_code(const Coded& coded, size_t most) {
  const size_t characters = code_size(coded.body.size());
  if (characters > most) {
    return Problem{.code = Code::SlipTooLong,
                   .values = {static_cast<double>(characters), static_cast<double>(most)}};
  }
  return to_code(coded);
}

Result<std::vector<Coded>> coded_slips(std::string_view text, SlipKind kind) {
  Result<Codes> codes = find_codes(text);
  if (!codes) return codes.problem();
  std::vector<Coded> found;
  std::optional<Problem> other;
  for (Coded& coded : codes.value().whole) {
    const Result<SlipKind> is = kind_of(coded);
    if (is && *is == kind) {
      found.push_back(std::move(coded));
    } else if (!other) {
      other = is ? of_other_kind(*is) : is.problem();
    }
  }
  if (!found.empty()) return found;
  // What is not whole is what was looked for, rather than what is quoted with it.
  return codes->broken ? *codes->broken : *other;
}

Result<Coded> coded_slip(std::string_view text, SlipKind kind) {
  Result<std::vector<Coded>> found = coded_slips(text, kind);
  if (!found) return found.problem();
  return std::move(found.value().front());
}

Result<SlipBack> slip_back(std::string_view address) {
  if (address.empty()) return SlipBack{};
  if (address.size() <= kMostSlipAddress) {
    if (is_mail(address)) return SlipBack{SlipWay::Mail, std::string(address)};
    if (is_phone(address)) return SlipBack{SlipWay::Phone, std::string(address)};
  }
  return Problem{.code = Code::SlipAddressUnfit,
                 .subject = "slip-back",
                 .other = cleaned(address, kMostSlipAddress)};
}

Result<std::string> write_request(const SlipRequest& request) {
  if (auto fault = fault_of(request)) return *fault;
  return slip_code(coded_of(request), kMostRequestCode);
}

Result<std::string> write_answer(const SlipAnswer& answer) {
  if (auto fault = fault_of(answer)) return *fault;
  return slip_code(coded_of(answer), kMostAnswerCode);
}

Result<SlipRequest> request_in(const Coded& coded) {
  bool ok = false;
  const SlipRequest request = request_of(coded.body, ok);
  if (!ok || fault_of(request) || coded_of(request) != coded ||
      code_size(coded.body.size()) > kMostRequestCode) {
    return Problem{.code = Code::SlipMalformed};
  }
  return request;
}

Result<SlipAnswer> answer_in(const Coded& coded) {
  bool ok = false;
  const SlipAnswer answer = answer_of(coded.body, ok);
  if (!ok || fault_of(answer) || coded_of(answer) != coded ||
      code_size(coded.body.size()) > kMostAnswerCode) {
    return Problem{.code = Code::SlipMalformed};
  }
  return answer;
}

Result<SlipRequest> read_request(std::string_view text) {
  const Result<Coded> coded = coded_slip(text, SlipKind::Request);
  if (!coded) return coded.problem();
  return request_in(*coded);
}

Result<SlipAnswer> read_answer(std::string_view text) {
  Result<std::vector<SlipAnswer>> answers = read_answers(text);
  if (!answers) return answers.problem();
  return std::move(answers.value().front());
}

Result<std::vector<SlipAnswer>> read_answers(std::string_view text) {
  const Result<std::vector<Coded>> found = coded_slips(text, SlipKind::Answer);
  if (!found) return found.problem();
  std::vector<SlipAnswer> answers;
  std::optional<Problem> problem;
  for (const Coded& coded : *found) {
    Result<SlipAnswer> answer = answer_in(coded);
    if (answer) {
      answers.push_back(std::move(answer.value()));
    } else if (!problem) {
      problem = answer.problem();
    }
  }
  if (answers.empty()) return *problem;
  return answers;
}

bool has_torn_answer(std::string_view text) {
  const Result<Codes> codes = find_codes(text);
  if (!codes) return false;
  return std::any_of(codes->torn.begin(), codes->torn.end(), [](const std::string& piece) {
    Bytes head;
    if (!from_base64url(std::string_view(piece).substr(0, 4), head) || head.empty()) return false;
    const Result<SlipKind> kind = kind_in(head.front());
    return kind && *kind == SlipKind::Answer;
  });
}

}  // namespace coatwright
