#include "shell/desk/standing.h"

#include <algorithm>

#include "core/body/assess.h"
#include "core/draft/styles/style.h"
#include "core/rack/rack.h"

namespace coatwright::studio {

Tone Concern::tone() const { return what < What::Missing ? Tone::Wrong : Tone::Open; }

Goal goal_of(const std::string& subject) {
  const bool measured = measure_by_id(subject).has_value() || subject == "birth";
  const bool fitted = subject.starts_with("alter.") || subject.starts_with("style.");
  return {.station = measured ? Station::Measure
                     : fitted ? Station::Fit
                              : Station::Draft,
          .subject = subject};
}

int to_take_again(const Ticket& ticket) {
  return static_cast<int>(std::count(ticket.carried.begin(), ticket.carried.end(), true));
}

namespace {

using What = Concern::What;

Goal goal_of(Measure m) { return studio::goal_of(info(m).id); }

// That a value is estimated is told of the measures that the coat asks for, not of every value; and
// that a measure was taken once beside its readings alone.
void add_findings(std::vector<Concern>& out, What what, const Findings& findings, Level level) {
  const auto is = [&](const Finding& f) {
    return f.level == level && f.what.code != Code::ValueEstimated && f.what.other != kTakenOnce;
  };
  const auto first = std::find_if(findings.begin(), findings.end(), is);
  if (first == findings.end()) return;
  const auto count = std::count_if(first, findings.end(), is);
  out.push_back({what, studio::goal_of(first->what.subject), static_cast<int>(count)});
}

void add_readings(std::vector<Concern>& out, const Ticket& ticket, BirthMonth today) {
  if (const int again = to_take_again(ticket); again > 0) {
    const auto first = std::find(ticket.carried.begin(), ticket.carried.end(), true);
    out.push_back(
        {What::Again,
         goal_of(measure_table()[static_cast<size_t>(first - ticket.carried.begin())].measure),
         again});
  }
  const Due due = readings_due(ticket, today);
  if (due == Due::Growing) out.push_back({What::Growing, {Station::Measure, {}}});
  if (due == Due::Season) out.push_back({What::Season, {Station::Measure, {}}});
}

void add_missing(std::vector<Concern>& out, const Ticket& ticket) {
  std::vector<Measure> missing;
  for (const MeasureInfo& m : measure_table()) {
    if (m.need == Need::Required && ticket.of(m.measure).empty()) missing.push_back(m.measure);
  }
  if (missing.empty()) return;
  out.push_back({What::Missing, goal_of(missing.front()), static_cast<int>(missing.size())});
}

}  // namespace

std::vector<Concern> concerns_of(const Ticket& ticket, const PatternFacts& facts, BirthMonth today,
                                 Kept kept) {
  std::vector<Concern> out;
  const bool waits = facts.refusal && facts.refusal->code == Code::ReadingMissing;
  if (facts.refusal && !waits) {
    out.push_back({What::Refused, studio::goal_of(facts.refusal->subject)});
  }
  add_readings(out, ticket, today);
  add_findings(out, What::Check, facts.findings, Level::Check);
  if (!facts.refusal && !facts.closes) out.push_back({What::SeamOpen, {Station::Draft, {}}});
  if (kept == Kept::Nowhere) out.push_back({What::Nowhere, {.rack = true}});
  add_missing(out, ticket);
  if (is_drafted_anew(ticket) && !facts.refusal) {
    out.push_back({What::Redrafted, {Station::Draft, {}}});
  }
  if (!facts.estimated.empty()) {
    out.push_back({What::Estimated, goal_of(facts.estimated.front()),
                   static_cast<int>(facts.estimated.size())});
  }
  add_findings(out, What::Note, facts.findings, Level::Note);
  return out;
}

}  // namespace coatwright::studio
