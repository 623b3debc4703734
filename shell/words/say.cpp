#include "shell/words/say.h"

#include <array>
#include <cmath>
#include <cstdio>
#include <initializer_list>
#include <optional>
#include <vector>

#include "core/base/utf8.h"
#include "core/draft/styles/style.h"

namespace coatwright {

namespace {

// What a value of a code is, so that it can be written. `Own` goes by the subject: kg for the
// weight, a plain number for a choice that is none of length, else mm; `Expected` likewise, but as
// a tape shows what is not read from it; `Others` goes by the other thing. Inches and Centimetres are
// lengths in that unit, whichever is shown elsewhere.
enum class Is { Plain, Length, Own, Expected, Others, Inches, Centimetres };

// What `other` of a code is: the name of a thing, a word as it was typed, or a key in a group.
enum class Other { Name, Typed, Estimate, Expected };

// What the first value is held against: the sentence must not say "10.2 cm instead of 10.2 cm".
enum class Against { Nothing, Second, Range };

struct Saying {
  std::array<Is, 4> values = {Is::Plain, Is::Plain, Is::Plain, Is::Plain};
  Other other = Other::Name;
  Against against = Against::Nothing;
};

Saying saying_of(Code code) {
  constexpr std::array<Is, 4> kPlain = {Is::Plain, Is::Plain, Is::Plain, Is::Plain};
  constexpr std::array<Is, 4> kLengths = {Is::Length, Is::Length, Is::Length, Is::Length};
  constexpr std::array<Is, 4> kOwn = {Is::Own, Is::Own, Is::Own, Is::Own};
  constexpr std::array<Is, 4> kReading = {Is::Own, Is::Expected, Is::Expected, Is::Others};
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
    case Code::SizeTwice:
    case Code::SizeUnreadable:
    case Code::SizeColumnUnknown:
    case Code::TicketChoiceUnknown:
    case Code::PaperUnknown:
    case Code::ClothUnknown:
    case Code::SlipAddressUnfit:
      return {kPlain, Other::Typed};
    case Code::QuoteOutOfRange:
      return {kPlain, Other::Typed, Against::Range};
    case Code::NumberOutOfRange:
    case Code::ChoiceOutOfRange:
      return {kOwn, Other::Name, Against::Range};
    case Code::ReadingOutOfRange:
    case Code::RatioLow:
    case Code::RatioHigh:
    case Code::RatioTooLow:
    case Code::RatioTooHigh:
      return {kReading, Other::Name, Against::Range};
    case Code::ReadingSpread:
    case Code::CurveTooTight:
    case Code::StraysFromRule:
      return {kOwn, Other::Name, Against::Second};
    case Code::LikelyCulprit:
      return {kReading, Other::Name, Against::Second};
    case Code::NotesMeanReading:
      return {{Is::Own, Is::Own, Is::Plain}, Other::Name, Against::Second};
    case Code::ReadingsSwapped:
      return {kOwn, Other::Name, Against::Second};
    case Code::LengthsInInches:
      return {{Is::Centimetres, Is::Inches}};
    case Code::LengthsInCentimetres:
      return {{Is::Inches, Is::Centimetres}};
    case Code::ValueEstimated:
      return {{Is::Expected}, Other::Estimate};
    case Code::TicketFieldType:
    case Code::PackFieldType:
      return {kPlain, Other::Expected};
    case Code::BreastNotOverBack:
    case Code::DropPastMidline:
    case Code::BreastTooLong:
    case Code::BreastUnusual:
    case Code::FrontDepthLimited:
    case Code::FrontMeetsForeleg:
    case Code::BandLimited:
    case Code::AllowanceLimited:
    case Code::BandNoRoom:
    case Code::Advice:
    case Code::PromiseMissed:
    case Code::PromiseOfChoiceMissed:
    case Code::AlterationLimited:
    case Code::LayPieceTooWide:
    case Code::RollTooNarrow:
    case Code::RollTooLong:
      return {kLengths, Other::Name, Against::Second};
    case Code::ClothLengthOutOfRange:
    case Code::SheetChoiceOutOfRange:
      return {kLengths, Other::Name, Against::Range};
    case Code::BandTooShort:
    case Code::AllowanceTooWide:
    case Code::PaperTooSmall:
    case Code::ClothTooNarrow:
    case Code::LayPieceTooWideAsItLies:
      return {kLengths};
    case Code::ClothNumberOutOfRange:
    case Code::PackNumberOutOfRange:
      return {kPlain, Other::Name, Against::Range};
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
    case Code::GrowingDog:
    case Code::BirthAfterMeasuring:
    case Code::OutlineCrosses:
    case Code::CannotDraft:
    case Code::DraftedAnew:
    case Code::NotesConflict:
    case Code::AlterationRetired:
    case Code::AlterationIdle:
    case Code::NotesGrown:
    case Code::FittingFull:
    case Code::PhotographLate:
    case Code::PinWithoutNote:
    case Code::SheetsTooMany:
    case Code::PrinterTooFarOff:
    case Code::PrinterNameMissing:
    case Code::PrintersFull:
    case Code::TicketTooLarge:
    case Code::TicketNotJson:
    case Code::TicketNotTicket:
    case Code::TicketFromFuture:
    case Code::FormOfOneCoat:
    case Code::FormLayMissing:
    case Code::FormQuoteOpen:
    case Code::SizesMissing:
    case Code::SizesTooMany:
    case Code::SizesTooLong:
    case Code::SizeColumnMissing:
    case Code::SizeColumnTwice:
    case Code::TicketFieldUnknown:
    case Code::TicketFieldMissing:
    case Code::TicketFieldTwice:
    case Code::TicketTextTooLong:
    case Code::TicketTextUnclean:
    case Code::TicketTooDeep:
    case Code::RackTooLarge:
    case Code::RackNotRack:
    case Code::RackFromFuture:
    case Code::PackFileTooLarge:
    case Code::PackNotJson:
    case Code::PackFieldMissing:
    case Code::PackListTooLong:
    case Code::PackIdTwice:
    case Code::PackNothing:
    case Code::PackTooMuch:
    case Code::PackOutlineUnsound:
    case Code::PackPieceTooLarge:
    case Code::PackPieceTooWide:
    case Code::PackPieceOffLattice:
    case Code::PackFixedMisplaced:
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

// A value of a problem as text. One that is there but too small for the style to show is not
// called nothing.
std::string value_text(Is is, double v, const Problem& problem, const Words& words,
                       LengthStyle style) {
  if (is == Is::Plain) return plain_number(v);
  if (is == Is::Inches) style.unit = Unit::Inch;
  if (is == Is::Centimetres) style.unit = Unit::Centimetre;
  const std::string& owner = is == Is::Others ? problem.other : problem.subject;
  const bool about = is == Is::Expected;
  const bool by_owner = is == Is::Own || is == Is::Others || about;
  if (by_owner && owner == info(Measure::Weight).id) {
    return about ? format_weight_about(v, style.unit) : format_weight(v, style.unit);
  }
  if (is == Is::Own && is_plain_choice(owner)) return plain_number(v);
  const Length length = Length::mm(v), step = Length::mm(smallest_step(style));
  const std::string text = about ? format_about(length, style) : format_length(length, style);
  const bool hidden = v != 0.0 && text == format_length(Length::mm(0.0), style);
  return hidden ? words("number.less-than", {format_length(step, style)}) : text;
}

// Twice as fine, as far as a rule can be read; nothing beyond.
std::optional<LengthStyle> finer(LengthStyle style) {
  const bool inches = style.unit == Unit::Inch;
  if (inches ? style.steps_per_inch > 16 : style.decimals_cm > 1) return std::nullopt;
  if (inches) style.steps_per_inch *= 2;
  if (!inches) ++style.decimals_cm;
  return style;
}

// The values as text. Where the first one looks like one that it is held against, but is not, all of
// them are written finer; where no rule tells the two apart, it is just over or just under that.
std::array<std::string, 4> value_texts(const Problem& problem, const Saying& saying,
                                       const Words& words, const LengthStyle& style) {
  std::array<std::string, 4> texts;
  for (size_t i = 0; i < texts.size(); ++i) {
    texts[i] = value_text(saying.values[i], problem.values[i], problem, words, style);
  }
  const auto looks_like = [&](size_t i) {
    return problem.values[0] != problem.values[i] && texts[0] == texts[i];
  };
  for (size_t i = 1; i <= static_cast<size_t>(saying.against); ++i) {
    if (!looks_like(i)) continue;
    if (const auto next = finer(style)) return value_texts(problem, saying, words, *next);
    const bool over = problem.values[0] > problem.values[i];
    texts[0] = words(over ? "number.just-over" : "number.just-under", {texts[0]});
    break;
  }
  return texts;
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

// An option's advice has its own sentence. A reading beside a weight may have one too: a weight is
// no tape's, and what goes with it is no part of it.
std::string key_of(const Problem& problem, const Words& words) {
  if (problem.code == Code::Advice && words.has("advice." + problem.other)) {
    return "advice." + problem.other;
  }
  const std::string key = code_name(problem.code);
  const std::string_view weight = info(Measure::Weight).id;
  if (problem.subject == weight && words.has(key + ".weight")) return key + ".weight";
  if (problem.other == weight && words.has(key + ".by-weight")) return key + ".by-weight";
  return key;
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
  const auto [first, low, high, beside] = value_texts(problem, saying, words, style);
  return fill(words(key_of(problem, words)),
              {{"0", first},
               {"1", low},
               {"2", high},
               {"3", beside},
               {"range", low == high ? low : words("number.range", {low, high})},
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
