#include "shell/words/say.h"

#include <array>
#include <cmath>
#include <cstdio>
#include <initializer_list>
#include <vector>

#include "core/base/utf8.h"
#include "core/draft/styles/style.h"

namespace coatwright {

namespace {

// What a value of a code is, so that it can be written. `Own` goes by the subject: kg for the
// weight, a plain number for a choice that is none of length, else mm.
enum class Is { Plain, Length, Own };

// What `other` of a code is: the name of a thing, a word as it was typed, or a key in a group.
enum class Other { Name, Typed, Estimate, Expected };

struct Saying {
  std::array<Is, 3> values = {Is::Plain, Is::Plain, Is::Plain};
  Other other = Other::Name;
};

Saying saying_of(Code code) {
  constexpr std::array<Is, 3> kPlain = {Is::Plain, Is::Plain, Is::Plain};
  constexpr std::array<Is, 3> kLengths = {Is::Length, Is::Length, Is::Length};
  constexpr std::array<Is, 3> kOwn = {Is::Own, Is::Own, Is::Own};
  switch (code) {
    case Code::NumberEmpty:
    case Code::NumberUnreadable:
    case Code::NumberTooLong:
    case Code::NumberUnitUnknown:
    case Code::NumberUnitMixed:
    case Code::NumberFractionZero:
    case Code::NumberFractionImproper:
    case Code::NumberPartTooLarge:
    case Code::NumberAmbiguous:
    case Code::NumberNotPositive:
    case Code::TicketChoiceUnknown:
    case Code::PaperUnknown:
    case Code::ClothUnknown:
    case Code::QuoteOutOfRange:
    case Code::SlipAddressUnfit:
      return {kPlain, Other::Typed};
    case Code::NumberOutOfRange:
    case Code::ReadingSpread:
    case Code::ReadingOutOfRange:
    case Code::LikelyCulprit:
    case Code::ChoiceOutOfRange:
    case Code::CurveTooTight:
    case Code::StraysFromRule:
      return {kOwn};
    case Code::ValueEstimated:
      return {kOwn, Other::Estimate};
    case Code::TicketFieldType:
    case Code::PackFieldType:
      return {kPlain, Other::Expected};
    case Code::BreastNotOverBack:
    case Code::DropPastMidline:
    case Code::NecklineTooShort:
    case Code::NecklineTooLong:
    case Code::FrontDepthLimited:
    case Code::FrontMeetsForeleg:
    case Code::BandLimited:
    case Code::BandNoRoom:
    case Code::BandTooShort:
    case Code::AllowanceTooWide:
    case Code::Advice:
    case Code::PromiseMissed:
    case Code::PromiseOfChoiceMissed:
    case Code::PaperTooSmall:
    case Code::ClothTooNarrow:
    case Code::ClothLengthOutOfRange:
    case Code::LayPieceTooWide:
    case Code::LayPieceTooWideAsItLies:
    case Code::SheetChoiceOutOfRange:
      return {kLengths};
    case Code::LayTooManyPieces:
    case Code::LayHandTooMany:
    case Code::LayHandOverlaps:
    case Code::LayHandOutside:
    case Code::LayHandAgainstNap:
    case Code::LayHandOffStripes:
    case Code::LayPieceOffStripes:
    case Code::ReadingMissing:
    case Code::ReadingTooMany:
    case Code::ReadingCarried:
    case Code::RatioLow:
    case Code::RatioHigh:
    case Code::RatioImpossible:
    case Code::GirthForWeight:
    case Code::GrowingDog:
    case Code::BirthAfterMeasuring:
    case Code::OutlineCrosses:
    case Code::CannotDraft:
    case Code::SheetsTooMany:
    case Code::TicketTooLarge:
    case Code::TicketNotJson:
    case Code::TicketNotTicket:
    case Code::TicketFromFuture:
    case Code::TicketFieldUnknown:
    case Code::TicketFieldMissing:
    case Code::TicketFieldTwice:
    case Code::TicketTextTooLong:
    case Code::TicketTextUnclean:
    case Code::TicketTooDeep:
    case Code::RackTooLarge:
    case Code::RackTooMany:
    case Code::RackNotRack:
    case Code::RackFromFuture:
    case Code::PackFileTooLarge:
    case Code::PackNotJson:
    case Code::PackFieldMissing:
    case Code::PackNumberOutOfRange:
    case Code::PackListTooLong:
    case Code::PackIdTwice:
    case Code::PackNothing:
    case Code::PackTooMuch:
    case Code::PackOutlineUnsound:
    case Code::PackPieceTooLarge:
    case Code::PackPieceTooWide:
    case Code::PackPieceOffLattice:
    case Code::PackFixedMisplaced:
    case Code::ClothNumberOutOfRange:
    case Code::ClothPieceMissing:
    case Code::ShelfNameMissing:
    case Code::ShelfFull:
    case Code::SlipTooLarge:
    case Code::SlipNotFound:
    case Code::SlipCut:
    case Code::SlipDamaged:
    case Code::SlipMalformed:
    case Code::SlipFromFuture:
    case Code::SlipIsRequest:
    case Code::SlipIsAnswer:
    case Code::SlipIsTicket:
    case Code::SlipNothingAsked:
    case Code::SlipNothingRead:
    case Code::SlipTextTooLong:
    case Code::SlipTextUnclean:
    case Code::SlipTooLong:
    case Code::SlipOtherTicket:
      return {};
  }
  return {};
}

// At most two decimals, none where they are zero.
std::string plain_number(double v) {
  if (!std::isfinite(v) || std::abs(v) > 1e15) return "–";
  char text[40];
  std::snprintf(text, sizeof text, "%.2f", v);
  std::string out = text;
  while (out.ends_with('0')) out.pop_back();
  if (out.ends_with('.')) out.pop_back();
  return out == "-0" ? "0" : out;
}

bool is_plain_choice(std::string_view subject) {
  const ChoiceInfo* choice = choice_by_id(subject);
  return choice != nullptr && (choice->named() || choice->amount == Amount::Share);
}

std::string value_text(Is is, double v, std::string_view subject, const LengthStyle& style) {
  if (is == Is::Plain || (is == Is::Own && is_plain_choice(subject))) return plain_number(v);
  if (is == Is::Own && subject == info(Measure::Weight).id) return format_weight(v, style.unit);
  return format_length(Length::mm(v), style);
}

bool is_lower(char c) { return c >= 'a' && c <= 'z'; }
bool is_upper(char c) { return c >= 'A' && c <= 'Z'; }

// A name within a sentence: "Neck girth" is "neck girth", but "F2" stays.
std::string within(std::string name) {
  if (name.size() > 1 && is_upper(name[0]) && is_lower(name[1])) {
    name[0] = static_cast<char>(name[0] - 'A' + 'a');
  }
  return name;
}

std::string other_text(const Problem& problem, Other other, const Words& words) {
  switch (other) {
    case Other::Typed:
      return problem.other;
    case Other::Estimate:
      return words("estimate." + problem.other);
    case Other::Expected:
      return words("expected." + problem.other);
    case Other::Name:
      return problem.other.empty() ? "" : name_of(problem.other, words);
  }
  return problem.other;
}

// An option's advice has its own sentence.
// A code about the weight may have a sentence of its own: a height is no part of a weight.
std::string key_of(const Problem& problem, const Words& words) {
  if (problem.code == Code::Advice && words.has("advice." + problem.other)) {
    return "advice." + problem.other;
  }
  const std::string key = code_name(problem.code);
  const std::string_view weight = info(Measure::Weight).id;
  const bool about_weight = problem.subject == weight || problem.other == weight;
  return about_weight && words.has(key + ".weight") ? key + ".weight" : key;
}

}  // namespace

std::string name_of(std::string_view id, const Words& words) {
  if (id.empty()) return words("subject.ticket");
  for (const char* group :
       {"measure.", "choice.", "edge.", "piece.", "invariant.", "cloth.", "subject.", ""}) {
    const std::string key = group + std::string(id);
    if (words.has(key)) return words(key);
  }
  return "“" + std::string(id) + "”";
}

std::string say(const Problem& problem, const Words& words, const LengthStyle& style) {
  const Saying saying = saying_of(problem.code);
  const std::string subject = name_of(problem.subject, words);
  const std::string other = other_text(problem, saying.other, words);
  const auto value = [&](size_t i) {
    return value_text(saying.values[i], problem.values[i], problem.subject, style);
  };
  return fill(words(key_of(problem, words)),
              {{"0", value(0)},
               {"1", value(1)},
               {"2", value(2)},
               {"Subject", subject},
               {"subject", within(subject)},
               {"Other", other},
               {"other", saying.other == Other::Typed ? other : within(other)}});
}

std::string say(const TraceStep& step, const Words& words, const LengthStyle& style) {
  const auto length = [&](double mm) { return format_length(Length::mm(mm), style); };
  const std::vector<std::string> names = {"0", "1", "2", "3", "4", "5", "6", "7"};
  std::vector<Filling> fillings = {{"u", length(step.at.x)}, {"v", length(step.at.y)}};
  for (size_t i = 0; i < step.numbers.size() && i < names.size(); ++i) {
    fillings.push_back({names[i], length(step.numbers[i])});
  }
  return fill(words("trace." + step.rule), fillings);
}

}  // namespace coatwright
