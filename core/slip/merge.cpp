#include "core/slip/merge.h"

#include <algorithm>
#include <cmath>

#include "core/base/utf8.h"
#include "core/body/assess.h"
#include "core/body/plausibility.h"
#include "core/draft/styles/style.h"
#include "core/slip/other_unit.h"

namespace coatwright {

namespace {

size_t index(Measure m) { return static_cast<size_t>(m); }

// The median of readings as typed.
std::optional<double> value_in(const std::vector<std::string>& typed, Measure measure, Unit unit) {
  std::vector<double> values;
  for (const std::string& text : typed) {
    const Result<double> value = reading_value(text, measure, unit);
    if (!value) return std::nullopt;
    values.push_back(*value);
  }
  if (values.empty()) return std::nullopt;
  return value_of(values).value;
}

bool apart(double a, double b, const MeasureInfo& measure) {
  return std::abs(a - b) > allowed_spread(measure, std::max(a, b));
}

std::vector<std::string> taken(const std::vector<std::string>& before,
                               const std::vector<std::string>& sent, Take take) {
  if (take == Take::Leave || sent.empty()) return before;
  if (take == Take::Replace) return sent;
  std::vector<std::string> both = before;
  both.insert(both.end(), sent.begin(), sent.end());
  return both;
}

std::vector<std::string> sent_readings(const SlipAnswer& answer, const MeasureInfo& measure) {
  std::vector<std::string> out;
  for (const std::string& typed : answer.of(measure.measure)) {
    // The ticket may read a bare number in another unit than the client did.
    out.push_back(reading_with_unit(typed, measure.measure, answer.unit));
  }
  return out;
}

}  // namespace

SlipRequest request_for(const Ticket& ticket, const std::array<bool, kMeasures>& asked,
                        const SlipToken& token) {
  return {.token = token,
          .asked = asked,
          .unit = ticket.unit,
          .build = ticket.build,
          .back = {},
          .studio = {},
          .dog = ticket.dog,
          .note = {}};
}

std::array<bool, kMeasures> measures_to_ask(const Ticket& ticket) {
  std::array<bool, kMeasures> all = {};
  std::array<bool, kMeasures> missing = {};
  for (const Measure m : measures_of(style_of(ticket), ticket.choices)) {
    all[index(m)] = true;
    missing[index(m)] = ticket.of(m).empty() || ticket.carried[index(m)];
  }
  const bool any = std::find(missing.begin(), missing.end(), true) != missing.end();
  return any ? missing : all;
}

SlipComparison compare(const Ticket& ticket, const SlipAnswer& answer) {
  SlipComparison comparison;
  Ticket replaced = ticket;
  for (const MeasureInfo& measure : measure_table()) {
    const Measure m = measure.measure;
    if (answer.of(m).empty()) continue;
    SlipRow row{.measure = m,
                .before = ticket.of(m),
                .sent = sent_readings(answer, measure),
                .before_value = value_in(ticket.of(m), m, ticket.unit),
                .sent_value = value_in(answer.of(m), m, answer.unit)};
    if (row.before_value && row.sent_value) {
      row.difference = *row.sent_value - *row.before_value;
      row.differs = apart(*row.sent_value, *row.before_value, measure);
    }
    replaced.of(m) = row.sent;
    comparison.rows.push_back(std::move(row));
  }
  const Result<Tape> beside = tape_of(ticket);
  if (beside) comparison.meant = in_other_unit(answer, *beside);
  const Result<Tape> tape = tape_of(replaced);
  if (!tape) {
    comparison.findings.push_back({Level::Refused, tape.problem()});
    return comparison;
  }
  const Checked<Body> body = assess(*tape);
  for (const Finding& finding : body.findings) {
    if (finding.level != Level::Note) comparison.findings.push_back(finding);
  }
  if (!body.result && body.result.problem().code != Code::ReadingMissing) {
    comparison.findings.push_back({Level::Refused, body.result.problem()});
  }
  return comparison;
}

SlipTakes suggested_takes(const Ticket& ticket, const SlipComparison& comparison) {
  SlipTakes takes;
  const bool unit_doubtful =
      comparison.meant ||
      std::any_of(comparison.findings.begin(), comparison.findings.end(),
                  [](const Finding& finding) { return is_of_unit(finding.what); });
  if (unit_doubtful) return takes;
  for (const SlipRow& row : comparison.rows) {
    const bool odd = std::any_of(
        comparison.findings.begin(), comparison.findings.end(),
        [&](const Finding& finding) { return is_about(finding.what, info(row.measure).id); });
    const bool fresh = !row.before.empty() && !ticket.carried[index(row.measure)];
    if (!odd && !(fresh && row.differs)) takes.measures[index(row.measure)] = Take::Replace;
  }
  return takes;
}

Result<Ticket> accepted(const Ticket& ticket, const SlipAnswer& answer, const SlipTakes& takes) {
  Ticket out = ticket;
  for (const MeasureInfo& measure : measure_table()) {
    const Measure m = measure.measure;
    const std::vector<std::string> sent = sent_readings(answer, measure);
    const Take take = takes.measures[index(m)];
    // Readings of an earlier coat are never joined by fresh ones.
    const bool fresh = take != Take::Leave && !sent.empty() && ticket.carried[index(m)];
    std::vector<std::string> readings = taken(ticket.of(m), sent, fresh ? Take::Replace : take);
    if (fresh) out.carried[index(m)] = false;
    if (readings.size() > static_cast<size_t>(kMostReadings)) {
      return Problem{
          .code = Code::ReadingTooMany,
          .subject = measure.id,
          .values = {static_cast<double>(readings.size()), static_cast<double>(kMostReadings)}};
    }
    out.of(m) = std::move(readings);
  }
  if (takes.note && !answer.note.empty()) {
    out.notes += (out.notes.empty() ? "" : "\n") + answer.note;
    const size_t characters = count_characters(out.notes);
    if (characters > kMostNotesCharacters) {
      return Problem{
          .code = Code::SlipTextTooLong,
          .subject = "slip-note",
          .values = {static_cast<double>(characters), static_cast<double>(kMostNotesCharacters)}};
    }
  }
  return out;
}

}  // namespace coatwright
