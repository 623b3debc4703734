// The underpanel coat: a body in two sides that close on the back, and a panel under breast and
// belly with openings for the forelegs.
#include "core/draft/options/back_closure.h"
#include "core/draft/options/collar.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/finish.h"
#include "core/draft/options/front.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/layers.h"
#include "core/draft/options/loops.h"
#include "core/draft/options/panel.h"
#include "core/draft/options/pocket.h"
#include "core/draft/options/reflective.h"
#include "core/draft/options/sewing.h"
#include "core/draft/options/shaping.h"
#include "core/draft/styles/measured.h"
#include "core/draft/styles/style.h"
#include "core/draft/styles/underpanel_body.h"

namespace coatwright {
namespace {

constexpr Measure kNeeds[] = {Measure::ForelegGirth, Measure::ForelegSpacing};
// No hood, which would have to open on the crown, and no opening on the back, where the coat
// closes.
const OptionInfo* const kOptions[] = {
    &kEase,   &kNecklineOption, &kShapingOption,    &kCollarOption,   &kPanelOption,
    &kHem,    &kBackClosure,    &kReflectiveOption, &kLegLoopsOption, &kPocketOption,
    &kSewing, &kLayers,         &kFinishOption};

}  // namespace

const StyleInfo kUnderpanelCoat = {.id = "underpanel",
                                   .options = kOptions,
                                   .needs = kNeeds,
                                   .draft = draft_underpanel_body,
                                   .sew = sew_panel,
                                   .measure = measure_underpanel};

}  // namespace coatwright
