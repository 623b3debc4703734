#include "core/ticket/ticket.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <functional>

#include "core/base/utf8.h"
#include "core/body/reading.h"
#include "core/draft/styles/style.h"
#include "core/fit/photograph.h"
#include "core/ticket/cloth_fields.h"
#include "core/ticket/cut_fields.h"
#include "core/ticket/fields.h"
#include "core/ticket/fit_fields.h"
#include "core/ticket/hand_fields.h"
#include "core/ticket/ids.h"
#include "core/ticket/quote_fields.h"

namespace coatwright {

namespace {

constexpr size_t kMostDepth = 8;
constexpr std::string_view kVersionKey = "coatwright";

bool is_month(const BirthMonth& m) {
  return m.year >= 1900 && m.year <= 2199 && m.month >= 1 && m.month <= 12;
}

// "2021-04": the year and month of ISO 8601.
Wrong read_month(const Json& json, const std::string& path, std::optional<BirthMonth>& out) {
  if (!json.is_string()) return at(path, Code::TicketFieldType, "month");
  const std::string& text = json.get_ref<const std::string&>();
  const Problem no_month = at(path, Code::TicketFieldType, "month");
  if (text.size() != 7 || text[4] != '-') return no_month;
  const auto digits = [&](size_t from, size_t count) {
    int n = 0;
    for (size_t i = from; i < from + count; ++i) {
      if (text[i] < '0' || text[i] > '9') return -1;
      n = n * 10 + (text[i] - '0');
    }
    return n;
  };
  const BirthMonth month{digits(0, 4), digits(5, 2)};
  if (!is_month(month)) return no_month;
  out = month;
  return std::nullopt;
}

Wrong read_version(const Json& json, const std::string& path) {
  if (!json.is_number()) return at(path, Code::TicketFieldType, "version");
  const double version = json.get<double>();
  if (version == kTicketVersion) return std::nullopt;
  if (version < kTicketVersion || version != std::floor(version)) {
    return at(path, Code::TicketFieldType, "version");
  }
  return Problem{.code = Code::TicketFromFuture,
                 .subject = path,
                 .values = {version, static_cast<double>(kTicketVersion)}};
}

// A later rule has made another coat of these readings than can be drafted here.
Wrong read_rule(const Json& json, const std::string& path, int& rule) {
  if (!json.is_number()) return at(path, Code::TicketFieldType, "version");
  const double number = json.get<double>();
  if (!(number >= kFirstRule) || number != std::floor(number)) {
    return at(path, Code::TicketFieldType, "version");
  }
  if (number > kDraftingRule) {
    return Problem{.code = Code::TicketFromFuture,
                   .subject = path,
                   .values = {number, static_cast<double>(kDraftingRule)}};
  }
  rule = static_cast<int>(number);
  return std::nullopt;
}

Wrong read_taken(const Json& json, const std::string& path, const MeasureInfo& measure,
                 std::vector<std::string>& out) {
  if (!json.is_array()) return at(path, Code::TicketFieldType, "list");
  if (json.size() > static_cast<size_t>(kMostReadings)) {
    return Problem{
        .code = Code::ReadingTooMany,
        .subject = measure.id,
        .values = {static_cast<double>(json.size()), static_cast<double>(kMostReadings)}};
  }
  out.resize(json.size());
  for (size_t i = 0; i < json.size(); ++i) {
    const std::string place = step(path, i);
    if (Wrong wrong = read_text(json[i], place, kMostReadingCharacters, false, out[i]))
      return wrong;
  }
  return std::nullopt;
}

Wrong read_readings(const Json& json, const std::string& path, Ticket& ticket) {
  std::vector<Field> fields;
  for (const MeasureInfo& measure : measure_table()) {
    fields.push_back({measure.id, [&](const Json& list, const std::string& place) {
                        return read_taken(list, place, measure, ticket.of(measure.measure));
                      }});
  }
  return read_fields(json, path, fields);
}

// A named option stands as its id, a number as mm or a plain number.
Wrong read_choice(const Json& json, const std::string& path, const ChoiceInfo& choice,
                  Choices& choices) {
  double value = 0.0;
  if (!choice.named()) {
    if (Wrong wrong = read_number(json, path, -kMostChoice, kMostChoice, value)) return wrong;
    choices.set(choice, value);
    return std::nullopt;
  }
  if (!json.is_string()) return at(path, Code::TicketFieldType, "text");
  const std::string& id = json.get_ref<const std::string&>();
  for (size_t n = 0; n < choice.options.size(); ++n) {
    if (id == choice.options[n]) {
      choices.set(choice, static_cast<double>(n));
      return std::nullopt;
    }
  }
  return at(path, Code::TicketChoiceUnknown, id);
}

Wrong read_choices(const Json& json, const std::string& path, Choices& choices) {
  std::vector<Field> fields;
  for (const ChoiceInfo* choice : choice_table()) {
    fields.push_back({choice->id, [choice, &choices](const Json& value, const std::string& place) {
                        return read_choice(value, place, *choice, choices);
                      }});
  }
  return read_fields(json, path, fields);
}

Wrong read_print(const Json& json, const std::string& path, PrintChoices& print) {
  using P = const std::string&;
  return read_fields(
      json, path,
      {
          {"paper", [&](const Json& v,
                        P p) { return read_text(v, p, kMostPaperCharacters, false, print.paper); }},
          {"turn", [&](const Json& v, P p) { return read_id(v, p, print.turn); }},
          {"margin",
           [&](const Json& v, P p) { return read_number(v, p, 0.0, kMostMargin, print.margin); }},
          {"overlap",
           [&](const Json& v, P p) { return read_number(v, p, 0.0, kMostMargin, print.overlap); }},
          {"opened", [&](const Json& v, P p) { return read_flag(v, p, print.opened); }},
          {"body-lines", [&](const Json& v, P p) { return read_flag(v, p, print.body_lines); }},
      });
}

Wrong read_style(const Json& json, const std::string& path, std::string& style) {
  if (!json.is_string()) return at(path, Code::TicketFieldType, "text");
  const std::string& id = json.get_ref<const std::string&>();
  if (style_by_id(id) == nullptr) return at(path, Code::TicketChoiceUnknown, id);
  style = id;
  return std::nullopt;
}

Wrong read_carried(const Json& json, const std::string& path, Ticket& ticket) {
  if (!json.is_array()) return at(path, Code::TicketFieldType, "list");
  if (json.size() > static_cast<size_t>(kMeasures)) {
    return at(step(path, static_cast<size_t>(kMeasures)), Code::TicketFieldTwice);
  }
  for (size_t i = 0; i < json.size(); ++i) {
    const std::string place = step(path, i);
    if (!json[i].is_string()) return at(place, Code::TicketFieldType, "text");
    const std::string& id = json[i].get_ref<const std::string&>();
    const auto& table = measure_table();
    const auto measure =
        std::find_if(table.begin(), table.end(), [&](const MeasureInfo& m) { return id == m.id; });
    if (measure == table.end()) return at(place, Code::TicketChoiceUnknown, id);
    bool& carried = ticket.carried[static_cast<size_t>(measure->measure)];
    if (carried) return at(place, Code::TicketFieldTwice);
    carried = true;
  }
  return std::nullopt;
}

// Lower-case letters, digits and hyphens: a step that no coat has (any more) is kept all the same.
bool is_step_id(std::string_view id) {
  return !id.empty() && id.size() <= kMostStepCharacters &&
         std::all_of(id.begin(), id.end(), [](char c) {
           return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
         });
}

// A list of at most so many ids, each once.
Wrong read_ids(const Json& json, const std::string& path, size_t most,
               bool (*is_id)(std::string_view), std::vector<std::string>& out) {
  if (!json.is_array()) return at(path, Code::TicketFieldType, "list");
  if (json.size() > most) return at(step(path, most), Code::TicketFieldUnknown);
  for (size_t i = 0; i < json.size(); ++i) {
    const std::string place = step(path, i);
    if (!json[i].is_string()) return at(place, Code::TicketFieldType, "text");
    const std::string& id = json[i].get_ref<const std::string&>();
    if (!is_id(id)) return at(place, Code::TicketChoiceUnknown, id);
    if (std::find(out.begin(), out.end(), id) != out.end()) {
      return at(place, Code::TicketFieldTwice);
    }
    out.push_back(id);
  }
  return std::nullopt;
}

Wrong read_done(const Json& json, const std::string& path, std::set<std::string>& done) {
  std::vector<std::string> ids;
  if (Wrong wrong = read_ids(json, path, kMostDone, is_step_id, ids)) return wrong;
  done.insert(ids.begin(), ids.end());
  return std::nullopt;
}

Wrong read_cloths(const Json& json, const std::string& path, Ticket& ticket) {
  if (!json.is_array()) return at(path, Code::TicketFieldType, "list");
  for (size_t i = 0; i < json.size(); ++i) {
    const std::string place = step(path, i);
    Cloth cloth;
    if (Wrong wrong = read_cloth(json[i], place, cloth)) return wrong;
    std::optional<Cloth>& kept = ticket.of(cloth.use);
    if (kept) return at(place, Code::TicketFieldTwice);
    kept = std::move(cloth);
  }
  return std::nullopt;
}

Wrong read_root(const Json& json, const std::string& path, Ticket& t) {
  if (!json.is_object() || !json.contains(kVersionKey)) return at(path, Code::TicketNotTicket);
  // First the version: a later one may have fields that this one lacks.
  if (Wrong wrong = read_version(json[std::string(kVersionKey)], step(path, kVersionKey))) {
    return wrong;
  }
  t.drafted_by = kFirstRule;
  using P = const std::string&;
  return read_fields(
      json, path,
      {
          {kVersionKey, [](const Json&, P) -> Wrong { return std::nullopt; }, true},
          {"name",
           [&](const Json& v, P p) { return read_text(v, p, kMostNameCharacters, false, t.name); }},
          {"dog",
           [&](const Json& v, P p) { return read_text(v, p, kMostNameCharacters, false, t.dog); }},
          {"unit", [&](const Json& v, P p) { return read_id(v, p, t.unit); }, true},
          {"sex", [&](const Json& v, P p) { return read_id(v, p, t.sex); }},
          {"build", [&](const Json& v, P p) { return read_id(v, p, t.build); }},
          {"coat", [&](const Json& v, P p) { return read_id(v, p, t.coat); }},
          {"birth", [&](const Json& v, P p) { return read_month(v, p, t.birth); }},
          {"measured", [&](const Json& v, P p) { return read_month(v, p, t.measured); }},
          {"readings", [&](const Json& v, P p) { return read_readings(v, p, t); }, true},
          {"carried", [&](const Json& v, P p) { return read_carried(v, p, t); }},
          {"style", [&](const Json& v, P p) { return read_style(v, p, t.style); }, true},
          {"drafted-by", [&](const Json& v, P p) { return read_rule(v, p, t.drafted_by); }},
          {"choices", [&](const Json& v, P p) { return read_choices(v, p, t.choices); }},
          {"fittings", [&](const Json& v, P p) { return read_fittings(v, p, t.fittings); }},
          {"print", [&](const Json& v, P p) { return read_print(v, p, t.print); }},
          {"quote", [&](const Json& v, P p) { return read_quote(v, p, t.quote); }},
          {"cloths", [&](const Json& v, P p) { return read_cloths(v, p, t); }},
          {"lays", [&](const Json& v, P p) { return read_hand_lays(v, p, t.hand_lays); }},
          {"laid-with",
           [&](const Json& v, P p) {
             return read_ids(v, p, kMostLaidWith, is_ticket_id, t.laid_with);
           }},
          {"done", [&](const Json& v, P p) { return read_done(v, p, t.done); }},
          {"cut", [&](const Json& v, P p) { return read_cut(v, p, t.cut); }},
          {"notes", [&](const Json& v,
                        P p) { return read_text(v, p, kMostNotesCharacters, true, t.notes); }},
      });
}

// ---- writing -----------------------------------------------------------------------------------

std::string kept(std::string_view text, size_t most) { return cleaned(text, most); }

// Line by line, so that line breaks stay.
std::string kept_lines(std::string_view text, size_t most) {
  std::string out;
  size_t left = most;
  while (left > 0 && !text.empty()) {
    const size_t end = std::min(text.find('\n'), text.size());
    const std::string line = cleaned(text.substr(0, end), left);
    out += line;
    left -= count_characters(line);
    if (end == text.size()) break;
    text.remove_prefix(end + 1);
    if (left > 0) out += '\n', --left;
  }
  return out;
}

double kept(double number, double lowest, double highest, double otherwise) {
  return number >= lowest && number <= highest ? number : otherwise;
}

std::string month_text(const BirthMonth& m) {
  char text[16];
  std::snprintf(text, sizeof text, "%04d-%02d", m.year, m.month);
  return text;
}

OrderedJson readings_json(const Ticket& t) {
  OrderedJson out = OrderedJson::object();
  for (const MeasureInfo& measure : measure_table()) {
    const std::vector<std::string>& readings = t.of(measure.measure);
    if (readings.empty()) continue;
    OrderedJson list = OrderedJson::array();
    for (size_t i = 0; i < readings.size() && i < static_cast<size_t>(kMostReadings); ++i) {
      list.push_back(kept(readings[i], kMostReadingCharacters));
    }
    out[measure.id] = list;
  }
  return out;
}

OrderedJson carried_json(const Ticket& t) {
  OrderedJson out = OrderedJson::array();
  for (const MeasureInfo& measure : measure_table()) {
    if (t.carried[static_cast<size_t>(measure.measure)]) out.push_back(measure.id);
  }
  return out;
}

OrderedJson choices_json(const Choices& choices) {
  OrderedJson out = OrderedJson::object();
  for (const ChoiceInfo* choice : choice_table()) {
    const std::optional<double> value = choices.of(*choice);
    if (!value || !(std::abs(*value) <= kMostChoice)) continue;
    if (!choice->named()) {
      out[choice->id] = *value;
    } else if (*value >= 0.0 && *value < static_cast<double>(choice->options.size())) {
      out[choice->id] = choice->options[static_cast<size_t>(*value)];
    }
  }
  return out;
}

OrderedJson cloths_json(const Ticket& t) {
  OrderedJson out = OrderedJson::array();
  for (const std::optional<Cloth>& cloth : t.cloths) {
    if (cloth && may_be_kept(*cloth)) out.push_back(cloth_json(*cloth));
  }
  return out;
}

OrderedJson done_json(const Ticket& t) {
  OrderedJson out = OrderedJson::array();
  for (const std::string& id : t.done) {
    if (is_step_id(id) && out.size() < kMostDone) out.push_back(id);
  }
  return out;
}

}  // namespace

Result<Ticket> read_ticket(std::string_view json) {
  if (json.size() > kMostTicketBytes) {
    return Problem{
        .code = Code::TicketTooLarge,
        .values = {static_cast<double>(json.size()), static_cast<double>(kMostTicketBytes)}};
  }
  const Result<Json> tree = parse_json(json, kMostDepth);
  if (!tree) return tree.problem();
  return read_ticket(*tree, "");
}

Result<Ticket> read_ticket(const Json& json, const std::string& path) {
  Ticket ticket;
  if (Wrong wrong = read_root(json, path, ticket)) return *wrong;
  return ticket;
}

OrderedJson laid_with_json(const Ticket& t) {
  OrderedJson out = OrderedJson::array();
  for (const std::string& id : t.laid_with) {
    const bool twice = std::find(out.begin(), out.end(), id) != out.end();
    if (is_ticket_id(id) && !twice && out.size() < kMostLaidWith) out.push_back(id);
  }
  return out;
}

OrderedJson ticket_json(const Ticket& t) {
  const PrintChoices usual;
  OrderedJson out;
  out[std::string(kVersionKey)] = kTicketVersion;
  out["name"] = kept(t.name, kMostNameCharacters);
  out["dog"] = kept(t.dog, kMostNameCharacters);
  out["unit"] = id_of(t.unit);
  out["sex"] = id_of(t.sex);
  out["build"] = id_of(t.build);
  out["coat"] = id_of(t.coat);
  if (t.birth && is_month(*t.birth)) out["birth"] = month_text(*t.birth);
  if (t.measured && is_month(*t.measured)) out["measured"] = month_text(*t.measured);
  out["readings"] = readings_json(t);
  if (t.carried != decltype(t.carried){}) out["carried"] = carried_json(t);
  out["style"] = style_of(t).id;
  if (t.drafted_by > kFirstRule && t.drafted_by <= kDraftingRule) out["drafted-by"] = t.drafted_by;
  out["choices"] = choices_json(t.choices);
  if (!t.fittings.empty()) out["fittings"] = fittings_json(t.fittings);
  out["print"] = {{"paper", kept(t.print.paper, kMostPaperCharacters)},
                  {"turn", id_of(t.print.turn)},
                  {"margin", kept(t.print.margin, 0.0, kMostMargin, usual.margin)},
                  {"overlap", kept(t.print.overlap, 0.0, kMostMargin, usual.overlap)},
                  {"opened", t.print.opened},
                  {"body-lines", t.print.body_lines}};
  if (t.cloths != decltype(t.cloths){}) out["cloths"] = cloths_json(t);
  if (!t.hand_lays.empty()) out["lays"] = hand_lays_json(t.hand_lays);
  if (!t.laid_with.empty()) out["laid-with"] = laid_with_json(t);
  if (t.quote != QuoteChoices{}) out["quote"] = quote_json(t.quote);
  if (!t.done.empty()) out["done"] = done_json(t);
  if (!t.cut.empty()) out["cut"] = cut_json(t.cut);
  out["notes"] = kept_lines(t.notes, kMostNotesCharacters);
  return out;
}

std::string write_ticket(const Ticket& t) {
  return ticket_json(t).dump(2, ' ', false, OrderedJson::error_handler_t::replace) + "\n";
}

Ticket to_measure_again(Ticket ticket) {
  for (const MeasureInfo& measure : measure_table()) {
    ticket.carried[static_cast<size_t>(measure.measure)] = !ticket.of(measure.measure).empty();
  }
  ticket.measured.reset();
  ticket.done.clear();
  ticket.laid_with.clear();
  for (HandLay& lay : ticket.hand_lays) {
    std::erase_if(lay.places, [](const HandPlace& place) { return !place.coat.empty(); });
  }
  ticket.cut.clear();
  return without_photographs(std::move(ticket));
}

Ticket without_photographs(Ticket ticket) {
  ticket.fittings = without_photographs(std::move(ticket.fittings));
  return ticket;
}

Cloth cloth_of(const Ticket& ticket, ClothUse use) {
  return ticket.of(use).value_or(usual_cloth(use, ticket.unit));
}

const StyleInfo& style_of(const Ticket& ticket) {
  const StyleInfo* style = style_by_id(ticket.style);
  return style == nullptr ? kWrapCoat : *style;
}

Alterations alterations_of(const Ticket& ticket, const Tape& tape) {
  return alterations_of(ticket.fittings, style_of(ticket), tape);
}

bool is_drafted_anew(const Ticket& ticket) { return ticket.drafted_by < kDraftingRule; }

bool reads_alike(const Ticket& a, const Ticket& b) {
  return a.readings == b.readings && a.unit == b.unit && a.sex == b.sex && a.build == b.build &&
         a.coat == b.coat && a.birth == b.birth && a.measured == b.measured;
}

Result<Tape> tape_of(const Ticket& ticket) {
  Tape tape;
  tape.sex = ticket.sex;
  tape.build = ticket.build;
  tape.coat = ticket.coat;
  for (const MeasureInfo& measure : measure_table()) {
    for (const std::string& text : ticket.of(measure.measure)) {
      const Result<double> value = reading_value(text, measure.measure, ticket.unit);
      if (!value) return value.problem();
      tape.of(measure.measure).push_back(*value);
    }
  }
  if (ticket.birth && ticket.measured) {
    const int months = (ticket.measured->year - ticket.birth->year) * 12 + ticket.measured->month -
                       ticket.birth->month;
    if (months < 0) return Problem{.code = Code::BirthAfterMeasuring, .subject = "birth"};
    tape.age_months = months;
  }
  return tape;
}

}  // namespace coatwright
