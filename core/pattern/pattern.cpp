#include "core/pattern/pattern.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/draft/options/sewing.h"

namespace coatwright {
namespace {

// An estimate that nothing is drafted from is not worth telling.
bool is_idle_estimate(const Finding& f, const std::vector<Measure>& needs) {
  if (f.what.code != Code::ValueEstimated) return false;
  const auto measure = measure_by_id(f.what.subject);
  return measure && info(*measure).need == Need::ByStyle &&
         std::find(needs.begin(), needs.end(), *measure) == needs.end();
}

// The findings are those of the notes and the draft alone.
Checked<Pattern> drafted_and_cut(const StyleInfo& style, const Fitted& to) {
  auto draft = draft_fitted(style, to);
  if (!draft.result) return {draft.result.problem(), std::move(draft.findings)};
  auto cut = cut_pieces(*draft.result);
  if (!cut) return {cut.problem(), std::move(draft.findings)};
  return {Pattern{to.body, to.choices, to.done, std::move(draft.result.value()),
                  std::move(cut.value())},
          std::move(draft.findings)};
}

// With the widest seam allowance, in steps of half a millimetre, that goes round every piece, where
// the one that is wished does not; refused as before if none does.
Checked<Pattern> with_narrower_allowance(const StyleInfo& style, Fitted to,
                                         Checked<Pattern> refused) {
  constexpr double kStep = 0.5;  // mm
  const Problem why = refused.result.problem();
  const double lowest = range_of(kSeamAllowance, to.body).lowest, wished = why.values[0];
  const auto allowance = [&](int steps) { return lowest + kStep * steps; };
  const auto cut_with = [&](int steps) {
    to.choices.set(kSeamAllowance, allowance(steps));
    return drafted_and_cut(style, to);
  };
  int good = 0, bad = static_cast<int>(std::ceil((wished - lowest) / kStep));
  Checked<Pattern> best = cut_with(good);
  if (!best.result) return refused;
  while (bad - good > 1) {
    const int middle = (good + bad) / 2;
    auto made = cut_with(middle);
    (made.result ? good : bad) = middle;
    if (made.result) best = std::move(made);
  }
  best.findings.push_back(
      {Level::Check,
       {Code::AllowanceLimited, kSeamAllowance.id, {wished, allowance(good)}, why.subject}});
  return best;
}

}  // namespace

Checked<Pattern> make_pattern(const Checked<Body>& body, const Choices& choices,
                              const StyleInfo& style, const Alterations& alterations) {
  if (!body.result) return {body.result.problem(), body.findings};
  const Fitted to = fitted(*body.result, choices, style, alterations);
  auto made = drafted_and_cut(style, to);
  if (!made.result && made.result.problem().code == Code::AllowanceTooWide) {
    made = with_narrower_allowance(style, to, std::move(made));
  }
  Findings findings = body.findings;
  const std::vector<Measure> needs = needs_of(style, to.choices);
  std::erase_if(findings, [&](const Finding& f) { return is_idle_estimate(f, needs); });
  findings.insert(findings.end(), made.findings.begin(), made.findings.end());
  return {std::move(made.result), std::move(findings)};
}

}  // namespace coatwright
