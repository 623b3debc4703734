#include "core/sizes/size_run.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/base/folding.h"
#include "core/base/utf8.h"
#include "core/body/estimates.h"
#include "core/body/reading.h"

namespace coatwright {
namespace {

// What keeps a run from being one, whoever asked for it.
std::optional<Problem> fault_of(const std::vector<DogSize>& sizes) {
  if (sizes.empty()) return Problem{Code::SizesMissing};
  if (sizes.size() > kMostSizes) {
    return Problem{Code::SizesTooMany,
                   {},
                   {static_cast<double>(sizes.size()), static_cast<double>(kMostSizes)}};
  }
  std::set<std::string> names;
  for (const DogSize& size : sizes) {
    if (!names.insert(folded(size.name)).second) return Problem{Code::SizeTwice, {}, {}, size.name};
  }
  return std::nullopt;
}

std::string name_from(std::string_view text) { return cleaned(trimmed(text), kMostSizeCharacters); }

// A reading as a tape or a scale shows it.
std::string as_measured(double value, bool is_weight, Unit unit) {
  if (is_weight) return format_weight(value, unit);
  return format_length(Length::mm(value), {.unit = unit, .pretty = false});
}

// The list's items, none of them blank.
std::vector<std::string_view> items_of(std::string_view list) {
  std::vector<std::string_view> out;
  while (!list.empty()) {
    const size_t end = std::min(list.find_first_of(";\n"), list.size());
    if (const auto item = trimmed(list.substr(0, end)); !item.empty()) out.push_back(item);
    list.remove_prefix(std::min(end + 1, list.size()));
  }
  return out;
}

}  // namespace

Result<std::vector<DogSize>> sizes_of_shape(const Ticket& ticket, SizeBy by,
                                            std::string_view list) {
  if (list.size() > kMostSizeText) return Problem{Code::SizesTooLong};
  const Result<Tape> tape = tape_of(ticket);
  if (!tape) return tape.problem();
  if (tape->of(Measure::Chest).empty()) {
    return Problem{Code::ReadingMissing, info(Measure::Chest).id};
  }
  const double chest = value_of(tape->of(Measure::Chest)).value;
  const std::vector<double>& weighed = tape->of(Measure::Weight);
  const double weight = weighed.empty() ? weight_for_chest(chest) : value_of(weighed).value;
  const Measure measure = by == SizeBy::Chest ? Measure::Chest : Measure::Weight;
  std::vector<DogSize> out;
  for (const std::string_view item : items_of(list)) {
    const size_t equals = item.find('=');
    const std::string_view typed =
        trimmed(equals == std::string_view::npos ? item : item.substr(equals + 1));
    const Result<Reading> reading = read_reading(typed, measure, ticket.unit);
    if (!reading) {
      return Problem{Code::SizeUnreadable,
                     info(measure).id,
                     {static_cast<double>(out.size() + 1)},
                     std::string(typed)};
    }
    DogSize size{name_from(item.substr(0, std::min(equals, item.size())))};
    const double by_length =
        by == SizeBy::Chest ? reading->value / chest : std::cbrt(reading->value / weight);
    for (const MeasureInfo& m : measure_table()) {
      const auto& readings = tape->of(m.measure);
      if (readings.empty()) continue;
      const double power = m.is_weight ? 3.0 : 1.0;
      size.readings[static_cast<size_t>(m.measure)] = as_measured(
          value_of(readings).value * std::pow(by_length, power), m.is_weight, ticket.unit);
    }
    size.readings[static_cast<size_t>(measure)] = reading->text;  // as it was asked for
    out.push_back(std::move(size));
  }
  if (auto fault = fault_of(out)) return *fault;
  return out;
}

namespace {

// A field of one line has no other end of a line than a bar.
constexpr std::string_view kEndsOfLine = "\n|";

// The table's lines as cells, after RFC 4180 but for what separates them.
std::vector<std::vector<std::string>> cells_of(std::string_view table) {
  constexpr std::string_view kMark = "\xEF\xBB\xBF";
  if (table.starts_with(kMark)) table.remove_prefix(kMark.size());
  const std::string_view header = table.substr(0, table.find_first_of(kEndsOfLine));
  const char between = header.find('\t') != std::string_view::npos  ? '\t'
                       : header.find(';') != std::string_view::npos ? ';'
                                                                    : ',';
  std::vector<std::vector<std::string>> rows(1);
  std::string cell;
  bool quoted = false;
  const auto end_cell = [&] {
    rows.back().emplace_back(trimmed(cell));
    cell.clear();
  };
  const auto end_row = [&] {
    end_cell();
    const bool blank = std::all_of(rows.back().begin(), rows.back().end(),
                                   [](const std::string& c) { return c.empty(); });
    if (blank) rows.back().clear();
    if (!blank) rows.emplace_back();
  };
  for (size_t i = 0; i < table.size(); ++i) {
    const char c = table[i];
    if (quoted) {
      if (c == '"' && i + 1 < table.size() && table[i + 1] == '"') {
        cell += table[++i];
      } else if (c == '"') {
        quoted = false;
      } else {
        cell += c;
      }
    } else if (c == '"' && trimmed(cell).empty()) {
      quoted = true;
    } else if (c == between) {
      end_cell();
    } else if (kEndsOfLine.find(c) != std::string_view::npos) {
      end_row();
    } else {
      cell += c;
    }
  }
  end_row();
  rows.pop_back();
  return rows;
}

std::optional<Measure> measure_named(std::string_view text, const Words& words) {
  const std::string wanted = folded(text);
  for (const MeasureInfo& m : measure_table()) {
    const std::string key = std::string("measure.") + m.id;
    if (wanted == m.id || wanted == folded(words(key)) || wanted == folded(words(key + ".short"))) {
      return m.measure;
    }
  }
  return std::nullopt;
}

}  // namespace

Result<std::vector<DogSize>> sizes_of_table(std::string_view table, Unit unit, const Words& words) {
  if (table.size() > kMostSizeText) return Problem{Code::SizesTooLong};
  const auto rows = cells_of(table);
  if (rows.empty()) return Problem{Code::SizesMissing};
  std::vector<std::optional<Measure>> columns;
  std::optional<size_t> names;
  for (const std::string& title : rows.front()) {
    columns.push_back(measure_named(title, words));
    const size_t column = columns.size() - 1;
    if (columns.back()) {
      if (std::count(columns.begin(), columns.end(), columns.back()) > 1) {
        return Problem{Code::SizeColumnTwice, info(*columns.back()).id};
      }
    } else if (names) {
      return Problem{Code::SizeColumnUnknown, {}, {}, cleaned(title, kMostReadingCharacters)};
    } else {
      names = column;
    }
  }
  for (const MeasureInfo& m : measure_table()) {
    if (m.need == Need::Required &&
        std::find(columns.begin(), columns.end(), m.measure) == columns.end()) {
      return Problem{Code::SizeColumnMissing, m.id};
    }
  }
  std::vector<DogSize> out;
  for (size_t row = 1; row < rows.size(); ++row) {
    DogSize size;
    const auto& cells = rows[row];
    for (size_t c = 0; c < columns.size(); ++c) {
      const std::string& cell = c < cells.size() ? cells[c] : std::string();
      if (!columns[c]) size.name = name_from(cell);
      if (!columns[c] || cell.empty()) continue;
      const Result<Reading> reading = read_reading(cell, *columns[c], unit);
      if (!reading) {
        return Problem{Code::SizeUnreadable,
                       info(*columns[c]).id,
                       {static_cast<double>(row)},
                       cleaned(cell, kMostReadingCharacters)};
      }
      size.readings[static_cast<size_t>(*columns[c])] = reading->text;
    }
    if (size.name.empty()) size.name = std::to_string(row);
    out.push_back(std::move(size));
  }
  if (auto fault = fault_of(out)) return *fault;
  return out;
}

Ticket ticket_of(const Ticket& ticket, const DogSize& size) {
  Ticket out = to_measure_again(ticket);
  out.carried = {};
  out.hand_lays.clear();
  out.dog = size.name;
  out.birth = std::nullopt;
  out.measured = std::nullopt;
  out.notes.clear();
  for (size_t m = 0; m < size.readings.size(); ++m) {
    out.readings[m].clear();
    if (!size.readings[m].empty()) out.readings[m].push_back(size.readings[m]);
  }
  return out;
}

}  // namespace coatwright
