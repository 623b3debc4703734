#include "core/pattern/pattern.h"

#include <algorithm>
#include <utility>

namespace coatwright {
namespace {

// An estimate that nothing is drafted from is not worth telling.
bool is_idle_estimate(const Finding& f, const std::vector<Measure>& needs) {
  if (f.what.code != Code::ValueEstimated) return false;
  const auto measure = measure_by_id(f.what.subject);
  return measure && info(*measure).need == Need::ByStyle &&
         std::find(needs.begin(), needs.end(), *measure) == needs.end();
}

}  // namespace

Checked<Pattern> make_pattern(const Checked<Body>& body, const Choices& choices,
                              const StyleInfo& style) {
  if (!body.result) return {body.result.problem(), body.findings};
  auto draft = draft_coat(style, *body.result, choices);
  Findings findings = body.findings;
  const std::vector<Measure> needs = needs_of(style, choices);
  std::erase_if(findings, [&](const Finding& f) { return is_idle_estimate(f, needs); });
  findings.insert(findings.end(), draft.findings.begin(), draft.findings.end());
  if (!draft.result) return {draft.result.problem(), findings};
  auto cut = cut_pieces(*draft.result);
  if (!cut) return {cut.problem(), findings};
  return {Pattern{*body.result, std::move(draft.result.value()), std::move(cut.value())},
          std::move(findings)};
}

}  // namespace coatwright
