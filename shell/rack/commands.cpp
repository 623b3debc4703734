#include "shell/rack/commands.h"

#include <algorithm>
#include <cmath>

#include "core/body/reading.h"
#include "core/fit/photograph.h"
#include "core/ticket/ids.h"

namespace coatwright::studio {

Command::Command(const Command&) = default;
Command::Command(Command&&) noexcept = default;
Command& Command::operator=(const Command&) = default;
Command& Command::operator=(Command&&) noexcept = default;
Command::~Command() = default;

namespace {

std::string trimmed(const std::string& text) {
  const size_t first = text.find_first_not_of(' ');
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

// A name as it may be kept: not too long, no control characters.
std::optional<Problem> fault_of(const std::string& name, const char* field,
                                size_t most = kMostNameCharacters) {
  size_t characters = 0;
  for (const char c : name) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x20 || byte == 0x7F) return Problem{Code::TicketTextUnclean, field};
    if ((byte & 0xC0) != 0x80) ++characters;
  }
  if (characters <= most) return std::nullopt;
  return Problem{
      Code::TicketTextTooLong, field, {static_cast<double>(characters), static_cast<double>(most)}};
}

std::optional<Problem> out_of_range(const MeasureInfo& measure, double number) {
  if (number >= measure.lowest && number <= measure.highest) return std::nullopt;
  return Problem{Code::ReadingOutOfRange, measure.id, {number, measure.lowest, measure.highest}};
}

// Each command: what it is called, and what it does to a ticket.

std::string label(const AddReading& c) { return std::string("measure.") + info(c.measure).id; }
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

std::string label(const ReadAs& c) { return std::string("measure.") + info(c.measure).id; }
Result<Ticket> done(Ticket ticket, const ReadAs& c) {
  ticket.of(c.measure).clear();
  return done(std::move(ticket), AddReading{c.measure, c.text, c.today});
}

std::string label(const RemoveReading& c) { return std::string("measure.") + info(c.measure).id; }
Result<Ticket> done(Ticket ticket, const RemoveReading& c) {
  auto& readings = ticket.of(c.measure);
  if (c.index >= 0 && static_cast<size_t>(c.index) < readings.size()) {
    readings.erase(readings.begin() + c.index);
  }
  if (readings.empty()) ticket.carried[static_cast<size_t>(c.measure)] = false;
  return ticket;
}

std::string label(const TakeAnswer&) { return "ui.client-answer"; }
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

std::string label(const StillSame& c) { return std::string("measure.") + info(c.measure).id; }
Result<Ticket> done(Ticket ticket, const StillSame& c) {
  ticket.carried[static_cast<size_t>(c.measure)] = false;
  if (!ticket.measured) ticket.measured = c.today;
  return ticket;
}

std::string label(const MeasureAgain&) { return "ui.measure-again"; }
Result<Ticket> done(const Ticket& ticket, const MeasureAgain&) { return to_measure_again(ticket); }

std::string label(const SetSex&) { return "ui.sex"; }
Result<Ticket> done(Ticket ticket, const SetSex& c) { return ticket.sex = c.sex, ticket; }

std::string label(const SetBuild&) { return "ui.build"; }
Result<Ticket> done(Ticket ticket, const SetBuild& c) { return ticket.build = c.build, ticket; }

std::string label(const SetCoat&) { return "ui.coat"; }
Result<Ticket> done(Ticket ticket, const SetCoat& c) { return ticket.coat = c.coat, ticket; }

std::string label(const SetBirth&) { return "ui.birth"; }
Result<Ticket> done(Ticket ticket, const SetBirth& c) {
  ticket.birth = c.month;
  if (c.month && !ticket.measured) ticket.measured = c.today;
  return ticket;
}

std::string label(const SetDog&) { return "ui.dog"; }
Result<Ticket> done(Ticket ticket, const SetDog& c) {
  if (const auto fault = fault_of(c.name, "dog")) return *fault;
  return ticket.dog = trimmed(c.name), ticket;
}

std::string label(const SetName&) { return "ui.ticket-name"; }
Result<Ticket> done(Ticket ticket, const SetName& c) {
  if (const auto fault = fault_of(c.name, "name")) return *fault;
  return ticket.name = trimmed(c.name), ticket;
}

std::string label(const SetUnit&) { return "ui.unit"; }
Result<Ticket> done(Ticket ticket, const SetUnit& c) { return ticket.unit = c.unit, ticket; }

std::string label(const SetStyle&) { return "style"; }
Result<Ticket> done(Ticket ticket, const SetStyle& c) { return ticket.style = c.style->id, ticket; }

std::string label(const SetChoice& c) { return std::string("choice.") + c.choice->id; }
Result<Ticket> done(Ticket ticket, const SetChoice& c) {
  ticket.choices.set(*c.choice, c.value);
  if (!c.value) return ticket;
  const ChoiceRange range = c.choice->named() ? range_of(*c.choice, {}) : c.within;
  if (!(*c.value >= range.lowest && *c.value <= range.highest)) {
    return Problem{Code::ChoiceOutOfRange, c.choice->id, {*c.value, range.lowest, range.highest}};
  }
  return ticket;
}

std::string label(const SetCloth& c) { return std::string("cloth.") + cloth_use_id(c.use); }
Result<Ticket> done(Ticket ticket, const SetCloth& c) {
  if (c.cloth) {
    if (const auto fault = fault_of(*c.cloth)) return *fault;
    if (const auto fault = fault_of(c.cloth->name, "cloth-name")) return *fault;
  }
  return ticket.of(c.use) = c.cloth, ticket;
}

std::string label(const SetHandLay&) { return "ui.lay-hand"; }
Result<Ticket> done(Ticket ticket, const SetHandLay& c) {
  const size_t left = places_left(ticket.hand_lays, c.lay.use, c.lay.laminated);
  if (c.lay.places.size() > left) {
    const size_t wanted = kMostHandPlaces - left + c.lay.places.size();
    return Problem{.code = Code::LayHandTooMany,
                   .subject = {},
                   .values = {static_cast<double>(wanted), kMostHandPlaces}};
  }
  ticket.hand_lays = with_hand_lay(std::move(ticket.hand_lays), c.lay);
  return ticket;
}

std::string label(const SetLaidWith&) { return "ui.lay-together"; }
Result<Ticket> done(Ticket ticket, const SetLaidWith& c) {
  auto& with = ticket.laid_with;
  with.clear();
  for (const std::string& id : c.ids) {
    const bool twice = std::find(with.begin(), with.end(), id) != with.end();
    if (!is_ticket_id(id) || twice || with.size() == kMostLaidWith) continue;
    with.push_back(id);
  }
  return ticket;
}

std::string label(const SetQuote&) { return "ui.lay-tab-quote"; }
Result<Ticket> done(Ticket ticket, const SetQuote& c) {
  if (const auto fault = fault_of(c.quote.currency, "currency")) return *fault;
  return ticket.quote = c.quote, ticket;
}

Result<Ticket> with(Ticket ticket, Result<std::vector<Fitting>> fittings) {
  if (!fittings) return fittings.problem();
  ticket.fittings = std::move(fittings.value());
  return ticket;
}

std::string label(const AddFitNote&) { return "ui.fit-note"; }
Result<Ticket> done(const Ticket& ticket, const AddFitNote& c) {
  if (!(c.note.found_mm >= kLeastFit && c.note.found_mm <= kMostFit)) {
    return Problem{Code::NumberOutOfRange, "fit-amount", {c.note.found_mm, kLeastFit, kMostFit}};
  }
  return with(ticket, with_note(ticket.fittings, c.note, c.readings, c.today));
}

std::string label(const RemoveFitNote&) { return "ui.fit-note"; }
Result<Ticket> done(Ticket ticket, const RemoveFitNote& c) {
  if (c.fitting >= ticket.fittings.size()) return ticket;
  Fitting& fitting = ticket.fittings[c.fitting];
  fitting = without_note(std::move(fitting), c.note);
  return ticket;
}

std::string label(const BeginFitting&) { return "ui.fitting"; }
Result<Ticket> done(const Ticket& ticket, const BeginFitting& c) {
  return with(ticket, with_fitting(ticket.fittings, c.readings, c.today));
}

std::string label(const SetFittingWords&) { return "ui.fitting-words"; }
Result<Ticket> done(Ticket ticket, const SetFittingWords& c) {
  if (const auto fault = fault_of(c.words, "fitting-words", kMostFittingCharacters)) return *fault;
  if (c.fitting < ticket.fittings.size()) ticket.fittings[c.fitting].words = trimmed(c.words);
  return ticket;
}

std::string label(const AddPhotograph&) { return "ui.photograph"; }
Result<Ticket> done(Ticket ticket, const AddPhotograph& c) {
  if (c.fitting >= ticket.fittings.size() ||
      ticket.fittings[c.fitting].photographs.size() >= kMostPhotographs) {
    return Problem{Code::PhotographLate};
  }
  ticket.fittings[c.fitting].photographs.push_back(c.photograph);
  return ticket;
}

// Of what is there; the rest of a command has no place.
std::vector<Photograph>* photographs_in(Ticket& ticket, size_t fitting, size_t photograph) {
  if (fitting >= ticket.fittings.size()) return nullptr;
  auto& all = ticket.fittings[fitting].photographs;
  return photograph < all.size() ? &all : nullptr;
}

std::string label(const RemovePhotograph&) { return "ui.photograph"; }
Result<Ticket> done(Ticket ticket, const RemovePhotograph& c) {
  if (auto* all = photographs_in(ticket, c.fitting, c.photograph)) {
    all->erase(all->begin() + static_cast<std::ptrdiff_t>(c.photograph));
  }
  return ticket;
}

std::string label(const SetPin& c) { return c.pin ? "ui.photo-pins" : "ui.photo-pin-off"; }
Result<Ticket> done(Ticket ticket, const SetPin& c) {
  auto* all = photographs_in(ticket, c.fitting, c.photograph);
  if (all == nullptr || c.note >= ticket.fittings[c.fitting].notes.size()) return ticket;
  Photograph& photograph = (*all)[c.photograph];
  photograph = c.pin ? with_pin(std::move(photograph), {c.note, c.pin->x, c.pin->y})
                     : without_pin(std::move(photograph), c.note);
  return ticket;
}

std::string label(const TakeUsualEases&) { return "ui.usual-eases"; }
Result<Ticket> done(Ticket ticket, const TakeUsualEases& c) {
  return ticket.choices = c.choices, ticket;
}
std::string label(const SetPrint&) { return "ui.paper-choice"; }
Result<Ticket> done(Ticket ticket, const SetPrint& c) { return ticket.print = c.print, ticket; }

std::string label(const KnowDraft&) { return "ui.new-draft"; }
Result<Ticket> done(Ticket ticket, const KnowDraft&) {
  return ticket.drafted_by = kDraftingRule, ticket;
}

std::string label(const TickStep& c) { return "step." + c.step + ".name"; }
Result<Ticket> done(Ticket ticket, const TickStep& c) {
  if (c.done) ticket.done.insert(c.step);
  if (!c.done) ticket.done.erase(c.step);
  if (c.step == kCutStep) ticket.cut = c.done ? c.cut : CutRecord{};
  return ticket;
}

}  // namespace

Result<Ticket> apply(const Ticket& ticket, const Command& command) {
  return std::visit([&](const auto& c) { return done(ticket, c); }, command);
}

std::string label_of(const Command& command) {
  return std::visit([](const auto& c) { return label(c); }, command);
}

}  // namespace coatwright::studio
