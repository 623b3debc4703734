#include "core/draft/options/neck_sewing.h"

#include "core/draft/binding.h"
#include "core/draft/neck_seam.h"
#include "core/draft/options/finish.h"

namespace coatwright {

void buy_neck_binding(Draft& d) {
  if (turns(d.chosen)) return;
  const double cut = binding_cut_width(kDoubleFold, kNeckBinding, 0.0);
  // Folded under at both ends.
  d.notions.push_back({NotionKind::Binding, "edge.body.neckline", 1,
                       2.0 * half_neckline(d) + 2.0 * cut, cut, kBindNeckline});
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
  bind.how = {{kBindNeckline, {kTrimOuter, kNeckBinding}}};
  bind.rows = 2;
  out.push_back(std::move(bind));
}

}  // namespace coatwright
