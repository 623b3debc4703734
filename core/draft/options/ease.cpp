#include "core/draft/options/ease.h"

namespace coatwright {

// The chest grows by 4-7 % of depth and width with each quiet breath ahead of the elbows, and by up
// to 19 % behind them at the extreme (Hassan et al. 2019, Anat. Sci. Int. 94:280-284); reading that
// as ease is our own inference.
const ChoiceInfo kChestEase = {.id = "chest-ease", .range = [](const Body& b) {
                                 return part_of(b.mm(Measure::Chest), 0.02, 0.05, 0.12);
                               }};

const ChoiceInfo kNeckEase = {.id = "neck-ease", .range = [](const Body& b) {
                                return part_of(b.mm(Measure::Neck), 0.0, 0.03, 0.12);
                              }};

const ChoiceInfo kBreastEase = {.id = "breast-ease", .range = [](const Body& b) {
                                  return part_of(b.mm(Measure::Breast), 0.0, 0.03, 0.06);
                                }};

namespace {
const ChoiceInfo* const kChoices[] = {&kChestEase, &kNeckEase, &kBreastEase};
}
const OptionInfo kEase = {.id = "ease", .choices = kChoices};

}  // namespace coatwright
