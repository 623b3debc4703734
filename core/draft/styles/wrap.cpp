// The wrap coat: a body on the fold whose front tabs close on the breast, and a belly band.
#include "core/draft/belly.h"
#include "core/draft/options/band.h"
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
#include "core/draft/seams.h"
#include "core/draft/styles/belly_band.h"
#include "core/draft/styles/measured.h"
#include "core/draft/styles/style.h"
#include "core/draft/styles/tabbed_body.h"

namespace coatwright {
namespace {

// Where the band closes: above the hem of the other side, or over the spine.
Mark band_loop(const Band& band, const Rear& rear, const Chosen& c) {
  const double overlap = c.of(kBandOverlap);
  if (!closes_on_back(c)) return place_on_hem(rear, band.from, band.to, overlap, "mark.band-loop");
  return place_over_back(band.from, band.to, overlap, "mark.band-loop");
}

void add_band(Draft& d, const Band& band, const Rear& rear) {
  const Chosen& c = d.chosen;
  Piece& body = *find_piece(d, "body");
  body.notches.push_back(notch_on_hem(rear, band.to, "band-rear"));
  body.notches.push_back(notch_on_hem(rear, band.from, "band-front"));
  body.marks.push_back(place_on_hem(rear, band.from, band.to, band.attach, "mark.band-attach"));
  body.marks.push_back(band_loop(band, rear, c));
  d.band = {band.from, band.to, band.attach, closes_on_back(c), band.waist};
  d.pieces.push_back(band.piece);
  d.notions.push_back(hook_and_loop(band.piece.marks.back(), kSewTape));
  d.trace.push_back({"band",
                     closes_on_back(c) ? "band-over-back" : "band-length",
                     {band.middle(), rear.height(band.middle())},
                     {2.0 * d.map.half_girth(band.middle()), c.of(kChestEase),
                      rear.height(band.middle()), c.of(kBandOverlap), band.attach, band.length},
                     "band.close"});
  if (is_shaped(c)) {
    const double middle = 0.5 * (band.attach + band.length - band.over);
    d.trace.push_back({"band waist",
                       "band-waist",
                       {middle, band.waist},
                       {band.waist, band.to - band.from, middle},
                       "band.rear"});
  }
  d.trace.push_back({"band-place",
                     "band-place",
                     {band.from, rear.height(band.from)},
                     {band.from, band.to, c.of(kForelegClearance)},
                     "body.hem"});
}

// A band is finished by itself, and its sewn end lies on the inside of the finished coat, where
// water that runs down the coat does not come between the two.
void sew_band(const Draft& d, Operations& out) {
  const std::vector<std::string> layers = layers_of(d, "band");
  Operation finish{Deed::Hem, Stage::Edges, "finish-band", {"band"}};
  for (const Edge& e : find_piece(d, "band")->edges) finish.edges.push_back(e.id);
  finish.through = layers;
  finish.together = true;
  if (turns(d.chosen)) {
    finish.deed = Deed::MakeUp;
    finish.id = "turn-band";
    finish.together = false;
    finish.open = {"band.attach"};
    finish.edges.pop_back();
    finish.how = {{"turn-band"}};
    add_trim_and_turn(d, finish);
  } else if (is_bound(d.chosen)) {
    finish.deed = Deed::Bind;
    finish.needs = {{State::Finished, "body.hem"}};  // bound as the coat was
    finish.how = {{"bind-band", {d.chosen.of(kBindingWidth)}}};
  } else {
    finish.how = {{"fold-band", {kHemWidth}}};
    finish.rows = 2;
  }
  out.push_back(std::move(finish));
  Operation sew{Deed::Attach, Stage::Close,    "sew-band",
                {"band"},     {"band.attach"}, {"mark.band-attach", "mark.band-lap"}};
  sew.through = coat_layers(d);
  sew.through.insert(sew.through.end(), layers.begin(), layers.end());
  sew.together = true;
  sew.needs = {{State::Finished, "body.hem"}, {State::Finished, "band.close"}};
  if (turns(d.chosen)) {
    sew.open = {"band.attach"};
    sew.how = {{"fold-open-end"}};
  }
  sew.how.push_back({"sew-band", {d.band->attach, kEdgestitch}});
  out.push_back(std::move(sew));
}

std::optional<Problem> draft_wrap(Draft& d, const Body& body, Findings& findings) {
  const auto coat = draft_tabbed_body(d, body, findings);
  if (!coat) return coat.problem();
  const auto band = draft_band(body, d.chosen, d.map, coat->rear, findings);
  if (!band) return band.problem();
  add_band(d, *band, coat->rear);
  return std::nullopt;
}

std::vector<Invariant> measure_wrap(const Draft& draft, const Body& body) {
  std::vector<Invariant> out = measure_tabbed(draft, body);
  const std::vector<Invariant> band = measure_band(draft, body);
  out.insert(out.end(), band.begin(), band.end());
  return out;
}

constexpr Measure kNeeds[] = {Measure::ForelegGirth, Measure::ForelegSpacing};  // the foreleg zone
const OptionInfo* const kOptions[] = {
    &kEase,      &kFront,   &kShapingOption, &kCollarOption,     &kHoodOption,     &kHem,
    &kBellyBand, &kClosure, &kOpeningOption, &kReflectiveOption, &kLegLoopsOption, &kPocketOption,
    &kSewing,    &kLayers,  &kFinishOption,
};

}  // namespace

const StyleInfo kWrapCoat = {.id = "wrap",
                             .options = kOptions,
                             .needs = kNeeds,
                             .draft = draft_wrap,
                             .sew = sew_band,
                             .measure = measure_wrap};

}  // namespace coatwright
