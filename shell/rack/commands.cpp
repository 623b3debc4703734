#include "shell/rack/commands.h"

#include <algorithm>
#include <cmath>

#include "core/body/assess.h"
#include "core/body/reading.h"
#include "core/ticket/ids.h"

namespace coatwright::studio {
namespace {

template <class... F>
struct Overloaded : F... {
  using F::operator()...;
};
template <class... F>
Overloaded(F...) -> Overloaded<F...>;

std::string trimmed(const std::string& text) {
  const size_t first = text.find_first_not_of(' ');
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

std::optional<Problem> out_of_range(const MeasureInfo& measure, double number) {
  if (number >= measure.lowest && number <= measure.highest) return std::nullopt;
  return Problem{Code::ReadingOutOfRange, measure.id, {number, measure.lowest, measure.highest}};
}

Result<Ticket> done(Ticket ticket, const AddReading& c) {
  const MeasureInfo& measure = info(c.measure);
  auto& readings = ticket.of(c.measure);
  const Result<Reading> reading = read_reading(trimmed(c.text), c.measure, ticket.unit);
  if (!reading) return reading.problem();
  if (const auto fault = out_of_range(measure, reading->value)) return *fault;
  bool& carried = ticket.carried[static_cast<size_t>(c.measure)];
  if (carried) readings.clear();
  carried = false;
  if (readings.size() >= kMostReadings) return Problem{Code::ReadingTooMany, measure.id};
  readings.push_back(reading->text);
  if (!ticket.measured) ticket.measured = c.today;
  return ticket;
}

Result<Ticket> done(Ticket ticket, const RemoveReading& c) {
  auto& readings = ticket.of(c.measure);
  if (c.index >= 0 && static_cast<size_t>(c.index) < readings.size()) {
    readings.erase(readings.begin() + c.index);
  }
  if (readings.empty()) ticket.carried[static_cast<size_t>(c.measure)] = false;
  return ticket;
}

// Readings that no ticket may have are refused, whoever sends them.
Result<Ticket> done(const Ticket& ticket, const TakeAnswer& c) {
  for (const MeasureInfo& measure : measure_table()) {
    if (c.takes.measures[static_cast<size_t>(measure.measure)] == Take::Leave) continue;
    for (const std::string& typed : c.answer.of(measure.measure)) {
      const auto number = reading_value(typed, measure.measure, c.answer.unit);
      if (!number) return number.problem();
      if (const auto fault = out_of_range(measure, *number)) return *fault;
    }
  }
  Result<Ticket> taken = accepted(ticket, c.answer, c.takes);
  if (taken && !taken->measured && taken->readings != ticket.readings) {
    taken.value().measured = c.today;
  }
  return taken;
}

// A name as it may be kept: not too long, no control characters.
std::optional<Problem> fault_of(const std::string& name, const char* field) {
  size_t characters = 0;
  for (const char c : name) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x20 || byte == 0x7F) return Problem{Code::TicketTextUnclean, field};
    if ((byte & 0xC0) != 0x80) ++characters;
  }
  if (characters <= kMostNameCharacters) return std::nullopt;
  return Problem{Code::TicketTextTooLong,
                 field,
                 {static_cast<double>(characters), static_cast<double>(kMostNameCharacters)}};
}

Result<Ticket> done(Ticket ticket, const SetChoice& c) {
  ticket.choices.set(*c.choice, c.value);
  if (!c.value) return ticket;
  const char* id = c.choice->id;
  if (!std::isfinite(*c.value)) return Problem{Code::ChoiceOutOfRange, id, {*c.value}};
  const auto tape = tape_of(ticket);
  if (!tape) return ticket;  // the range is checked when there is a body to size it
  const auto body = assess(*tape);
  if (!body.result) return ticket;
  const ChoiceRange range = range_of(*c.choice, *body.result);
  if (*c.value < range.lowest || *c.value > range.highest) {
    return Problem{Code::ChoiceOutOfRange, id, {*c.value, range.lowest, range.highest}};
  }
  return ticket;
}

}  // namespace

Result<Ticket> apply(const Ticket& ticket, const Command& command) {
  Ticket next = ticket;
  return std::visit(
      Overloaded{
          [&](const AddReading& c) { return done(next, c); },
          [&](const RemoveReading& c) { return done(next, c); },
          [&](const TakeAnswer& c) { return done(next, c); },
          [&](const SetChoice& c) { return done(next, c); },
          [&](const MeasureAgain&) -> Result<Ticket> { return to_measure_again(next); },
          [&](const SetSex& c) -> Result<Ticket> { return next.sex = c.sex, next; },
          [&](const SetBuild& c) -> Result<Ticket> { return next.build = c.build, next; },
          [&](const SetCoat& c) -> Result<Ticket> { return next.coat = c.coat, next; },
          [&](const SetBirth& c) -> Result<Ticket> {
            next.birth = c.month;
            if (c.month && !next.measured) next.measured = c.today;
            return next;
          },
          [&](const SetDog& c) -> Result<Ticket> {
            if (const auto fault = fault_of(c.name, "dog")) return *fault;
            return next.dog = trimmed(c.name), next;
          },
          [&](const SetName& c) -> Result<Ticket> {
            if (const auto fault = fault_of(c.name, "name")) return *fault;
            return next.name = trimmed(c.name), next;
          },
          [&](const SetUnit& c) -> Result<Ticket> { return next.unit = c.unit, next; },
          [&](const SetStyle& c) -> Result<Ticket> { return next.style = c.style->id, next; },
          [&](const SetCloth& c) -> Result<Ticket> {
            if (c.cloth) {
              if (const auto fault = fault_of(*c.cloth)) return *fault;
              if (const auto fault = fault_of(c.cloth->name, "cloth-name")) return *fault;
            }
            return next.of(c.use) = c.cloth, next;
          },
          [&](const SetHandLay& c) -> Result<Ticket> {
            const size_t left = places_left(next.hand_lays, c.lay.use, c.lay.laminated);
            if (c.lay.places.size() > left) {
              const size_t wanted = kMostHandPlaces - left + c.lay.places.size();
              return Problem{.code = Code::LayHandTooMany,
                             .subject = {},
                             .values = {static_cast<double>(wanted), kMostHandPlaces}};
            }
            next.hand_lays = with_hand_lay(std::move(next.hand_lays), c.lay);
            return next;
          },
          [&](const SetLaidWith& c) -> Result<Ticket> {
            next.laid_with.clear();
            for (const std::string& id : c.ids) {
              const auto& with = next.laid_with;
              const bool twice = std::find(with.begin(), with.end(), id) != with.end();
              if (!is_ticket_id(id) || twice || with.size() == kMostLaidWith) continue;
              next.laid_with.push_back(id);
            }
            return next;
          },
          [&](const SetQuote& c) -> Result<Ticket> {
            if (const auto fault = fault_of(c.quote.currency, "currency")) {
              return *fault;
            }
            return next.quote = c.quote, next;
          },
          [&](const SetPrint& c) -> Result<Ticket> { return next.print = c.print, next; },
          [&](const TickStep& c) -> Result<Ticket> {
            if (c.done) next.done.insert(c.step);
            if (!c.done) next.done.erase(c.step);
            if (c.step == kCutStep) next.cut = c.done ? c.cut : CutRecord{};
            return next;
          },
      },
      command);
}

std::string label_of(const Command& command) {
  return std::visit(
      Overloaded{
          [](const AddReading& c) { return std::string("measure.") + info(c.measure).id; },
          [](const RemoveReading& c) { return std::string("measure.") + info(c.measure).id; },
          [](const TakeAnswer&) { return std::string("ui.client-answer"); },
          [](const SetChoice& c) { return std::string("choice.") + c.choice->id; },
          [](const MeasureAgain&) { return std::string("ui.measure-again"); },
          [](const SetSex&) { return std::string("ui.sex"); },
          [](const SetBuild&) { return std::string("ui.build"); },
          [](const SetCoat&) { return std::string("ui.coat"); },
          [](const SetBirth&) { return std::string("ui.birth"); },
          [](const SetDog&) { return std::string("ui.dog"); },
          [](const SetName&) { return std::string("ui.ticket-name"); },
          [](const SetUnit&) { return std::string("ui.unit"); },
          [](const SetStyle&) { return std::string("style"); },
          [](const SetCloth& c) { return std::string("cloth.") + cloth_use_id(c.use); },
          [](const SetHandLay&) { return std::string("ui.lay-hand"); },
          [](const SetLaidWith&) { return std::string("ui.lay-together"); },
          [](const SetQuote&) { return std::string("ui.lay-tab-quote"); },
          [](const SetPrint&) { return std::string("ui.paper-choice"); },
          [](const TickStep& c) { return "step." + c.step + ".name"; },
      },
      command);
}

}  // namespace coatwright::studio
