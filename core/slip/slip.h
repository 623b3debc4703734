// The slip: what a studio asks a client to measure, and the readings that come back.
//
// Both travel as a code (code.h) in the fragment of a link, which no browser sends to a server, or
// in any text. The request carries one dog's name and build and what is wanted, nothing else of the
// ticket. The answer finds its ticket by the token. What comes from outside is hostile: read_* take
// only what write_* write.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/body/reading.h"
#include "core/slip/code.h"

namespace coatwright {

// The latest of requests and answers. 2 has two measures more; what says nothing of them is still
// written as 1, which is read for ever.
inline constexpr int kSlipVersion = 2;
inline constexpr size_t kMostSlipName = 60;      // characters of a dog's or a studio's name
inline constexpr size_t kMostSlipAddress = 80;   // bytes
inline constexpr size_t kMostRequestNote = 200;  // characters
inline constexpr size_t kMostAnswerNote = 500;   // characters
inline constexpr size_t kMostSlipReading =
    36;  // bytes; a unit may be added in the ticket, which has room for 40
inline constexpr size_t kMostRequestCode = 420;  // characters: 80 of 500 are left for the address
inline constexpr size_t kMostAnswerCode = 2500;  // characters

// Made at random for each ticket; its text is eight characters of base64url.
using SlipToken = std::array<uint8_t, 6>;
[[nodiscard]] std::string token_text(const SlipToken& token);
[[nodiscard]] std::optional<SlipToken> token_from_text(std::string_view text);

// How readings come back: however the client likes, by mail, or to a telephone.
enum class SlipWay { Any, Mail, Phone };
struct SlipBack {
  SlipWay way = SlipWay::Any;
  std::string address;  // "deck@harbour.example", "+49 40 123456"; empty with Any
  bool operator==(const SlipBack&) const = default;
};
// The address as a client may write it, with the way that it tells; empty is Any. Problem:
// SlipAddressUnfit.
[[nodiscard]] Result<SlipBack> slip_back(std::string_view address);

struct SlipRequest {
  SlipToken token = {};
  std::array<bool, kMeasures> asked = {};
  Unit unit = Unit::Inch;
  Build build = Build::Ordinary;  // the bands of plausibility depend on it
  SlipBack back;
  std::string studio;
  std::string dog;
  std::string note;  // may have line breaks
  bool operator==(const SlipRequest&) const = default;
};

struct SlipAnswer {
  SlipToken token = {};
  Unit unit = Unit::Inch;                                    // of readings without one
  std::array<std::vector<std::string>, kMeasures> readings;  // as typed, in the order taken
  std::string note;                                          // may have line breaks
  [[nodiscard]] const std::vector<std::string>& of(Measure m) const {
    return readings[static_cast<size_t>(m)];
  }
  [[nodiscard]] std::vector<std::string>& of(Measure m) { return readings[static_cast<size_t>(m)]; }
  bool operator==(const SlipAnswer&) const = default;
};

// The codes. Problems: SlipNothingAsked, SlipNothingRead, SlipTextTooLong, SlipTextUnclean,
// SlipAddressUnfit, SlipTooLong, ReadingTooMany, and what reading_value finds.
[[nodiscard]] Result<std::string> write_request(const SlipRequest& request);
[[nodiscard]] Result<std::string> write_answer(const SlipAnswer& answer);

// What a code is. Problems: SlipFromFuture, SlipMalformed.
enum class SlipKind { Request, Answer, WholeTicket };
[[nodiscard]] Result<SlipKind> kind_of(const Coded& coded);

// The first code of the kind in a text, whatever else is quoted with it. Problems, if there is none:
// those of find_code, and of the first code that is there: SlipFromFuture, SlipMalformed,
// SlipIsRequest, SlipIsAnswer, SlipIsTicket.
[[nodiscard]] Result<SlipRequest> read_request(std::string_view text);
[[nodiscard]] Result<SlipAnswer> read_answer(std::string_view text);
// All different answers in a text, in its order: one at least. Problems: those of read_answer.
[[nodiscard]] Result<std::vector<SlipAnswer>> read_answers(std::string_view text);
// Whether there is one more that was cut or changed on its way, and not only a piece of those.
[[nodiscard]] bool has_torn_answer(std::string_view text);

}  // namespace coatwright
