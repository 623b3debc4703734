// The strap coat for small dogs: a body on the fold whose front tabs close on the breast, a level
// hem, and a girth strap of webbing that closes on the back.
#include "core/draft/options/strap.h"

#include "core/draft/options/closure.h"
#include "core/draft/options/collar.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/finish.h"
#include "core/draft/options/front.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/hood.h"
#include "core/draft/options/layers.h"
#include "core/draft/options/loops.h"
#include "core/draft/options/opening.h"
#include "core/draft/options/pocket.h"
#include "core/draft/options/reflective.h"
#include "core/draft/options/sewing.h"
#include "core/draft/options/shaping.h"
#include "core/draft/styles/measured.h"
#include "core/draft/styles/style.h"
#include "core/draft/styles/tabbed_body.h"

namespace coatwright {
namespace {

std::optional<Problem> draft_strap(Draft& d, const Body& body, Findings& findings) {
  const auto coat = draft_tabbed_body(d, body, findings);
  return coat ? std::nullopt : std::optional(coat.problem());
}

std::vector<Invariant> measure_strap_coat(const Draft& draft, const Body& body) {
  std::vector<Invariant> out = measure_tabbed(draft, body);
  const std::vector<Invariant> strap = measure_strap(draft, body);
  out.insert(out.end(), strap.begin(), strap.end());
  return out;
}

constexpr Measure kNeeds[] = {Measure::ForelegGirth, Measure::ForelegSpacing};  // the foreleg zone
const OptionInfo* const kOptions[] = {
    &kEase,           &kFront,        &kGirthStrap, &kShapingOption, &kCollarOption,
    &kHoodOption,     &kPlainHem,     &kClosure,    &kOpeningOption, &kReflectiveOption,
    &kLegLoopsOption, &kPocketOption, &kSewing,     &kLayers,        &kFinishOption,
};

}  // namespace

const StyleInfo kStrapCoat = {.id = "strap",
                              .options = kOptions,
                              .needs = kNeeds,
                              .draft = draft_strap,
                              .measure = measure_strap_coat};

}  // namespace coatwright
