#include "core/make/trial.h"

#include <algorithm>

#include "core/draft/seams.h"
#include "core/make/plan.h"
#include "core/pattern/trial_pattern.h"

namespace coatwright {
namespace {

// Of the coat's own operation, what of it is done in the trial coat.
Operation in_cheap_cloth(const Draft& draft, const Operation& o) {
  Operation out = o;
  out.how.clear();
  out.needs.clear();
  out.open.clear();
  out.together = false;
  std::erase_if(out.through, [&](const std::string& id) {
    const Piece* p = find_piece(draft, id);
    return !in_trial(*p);
  });
  return out;
}

}  // namespace

Operations trial_of(const Draft& draft) {
  Operations out;
  Operation cut{Deed::Cut, Stage::Prepare, "trial-cut", ids_of(draft, in_trial)};
  cut.how = {{"trial-cut"}};
  out.push_back(std::move(cut));
  const auto add = [&](const Operation& o, Deed deed, const char* sentence) {
    out.push_back(in_cheap_cloth(draft, o));
    out.back().deed = deed;
    out.back().stage = Stage::Prepare;
    out.back().how = {{sentence}};
  };
  for (const Operation& o : draft.operations) {
    if (o.deed == Deed::Dart) add(o, Deed::Dart, "trial-darts");
    if (o.id == "sew-spine") add(o, Deed::Join, "trial-spine");
    if (o.id == "sew-panel") {
      add(o, Deed::Join, "trial-panel");
      if (names(o.edges, "body.side")) out.back().how.push_back({"trial-sides"});
    }
    if (o.id == "sew-sides") add(o, Deed::Join, "trial-sides");
    if (o.id == "make-hood") {
      add(o, Deed::Join, "trial-hood");
      out.back().edges = {"hood.crown"};
    }
    if (o.id == "make-turned-collar") {
      add(o, Deed::Join, "trial-fall");
      out.back().edges = {"collar.top", "fall.roll"};
    }
    if (names(o.edges, "body.neckline") && (o.deed == Deed::Baste || o.deed == Deed::Join)) {
      const bool hood = find_piece(draft, "hood") != nullptr;
      add(o, Deed::Join, hood ? "trial-hood-on" : "trial-collar");
    }
    if (o.id == "sew-band") add(o, Deed::Attach, "trial-band");
    if (o.id == "sew-strap") add(o, Deed::Attach, "trial-strap");
    if (o.id == "sew-extension-right" || o.id == "sew-extension-left") {
      add(o, Deed::Attach, "trial-extension");
    }
  }
  // Nothing but its own needs decides the order; a seam that the coat leaves open is sewn here too.
  out = ordered(draft, std::move(out));
  Operation on_dog{Deed::Try, Stage::Prepare, "trial-try"};
  on_dog.how = {{"trial-try"}};
  out.push_back(std::move(on_dog));
  return out;
}

}  // namespace coatwright
