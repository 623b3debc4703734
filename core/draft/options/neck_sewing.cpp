#include "core/draft/options/neck_sewing.h"

#include <algorithm>

#include "core/draft/binding.h"
#include "core/draft/neck_seam.h"
#include "core/draft/options/finish.h"
#include "core/draft/options/sewing.h"

namespace coatwright {
namespace {

constexpr double kClothTurn = 1.0;  // mm, that an allowance takes of the binding folded round it

// The raw edges of the neckline's seam, trimmed so far that the binding covers them. A wide one has
// all of the allowance to lie on; what is cut for it is cut down, so that it does not stand out.
void tell_how_to_bind(const Draft& d, Operation& bind) {
  const double allowance = d.chosen.of(kSeamAllowance), width = narrow_binding_width(d.chosen);
  const bool french = binds_french(d.chosen);
  const bool cut = narrow_binding(d.chosen, "", 1, 0.0, kBindNeckline).from_cloth;
  const double shown =
      cut && !french ? std::min(width, std::max(kNarrowBinding, allowance + kClothTurn)) : width;
  const double trimmed = std::min(allowance, french ? shown : shown - kClothTurn);
  if (trimmed < allowance) bind.how.push_back({"trim-neckline", {trimmed}});
  if (french) {
    bind.how.push_back({"bind-neckline-french"});
    return;
  }
  if (shown < width) {
    const double stack = is_bound(d.chosen) ? d.chosen.of(kLayersThickness) : 0.0;
    bind.how.push_back({"trim-strip", {binding_cut_width(kDoubleFold, shown, stack)}});
  }
  if (cut) bind.how.push_back({"fold-strip"});
  bind.how.push_back({kBindNeckline, {shown}});
}

}  // namespace

void buy_neck_binding(Draft& d) {
  if (turns(d.chosen)) return;
  d.notions.push_back(
      narrow_binding(d.chosen, "edge.body.neckline", 1, 2.0 * half_neckline(d), kBindNeckline));
}

void sew_to_coat(const Draft& d, const char* partner, const char* id, const char* joined,
                 Operations& out) {
  const std::vector<std::string> edges = sewn_neckline(d, partner);
  const std::vector<std::string> part = layers_of(d, partner);
  if (turns(d.chosen)) {
    Operation baste{Deed::Baste, Stage::Join, id, {}, edges};
    baste.pieces = part;
    baste.through = coat_layers(d, Layers::Outside);
    baste.through.insert(baste.through.end(), part.begin(), part.end());
    baste.how = {{id}, {"caught-at-neckline"}};
    out.push_back(std::move(baste));
    return;
  }
  const std::vector<std::string> coat = coat_layers(d);
  Operation join{Deed::Join, Stage::Join, joined, part, edges};
  join.through = coat;
  join.through.insert(join.through.end(), part.begin(), part.end());
  join.together = true;
  join.how = {{id}, {"join-neckline"}};
  for (const std::string& seam : own_seams(d)) join.needs.push_back({State::Felled, seam});
  out.push_back(std::move(join));
  Operation bind{Deed::Fell, Stage::Join, kBindNeckline, {}, edges};
  bind.through = coat;
  bind.together = true;
  tell_how_to_bind(d, bind);
  bind.rows = 2;
  out.push_back(std::move(bind));
}

}  // namespace coatwright
