// A checker of sewing plans: goes through the work as hands would, layer by layer and edge by edge,
// and tells what cannot be done or what is left undone. It knows the draft's pieces and what each deed
// does to them, and nothing of the facts by which the plan was ordered (core/make/facts.h).
#pragma once

#include <string>
#include <vector>

#include "core/make/plan.h"

namespace coatwright {

enum class Rule {
  Known,          // only what this coat has is named, each operation once
  CutFirst,       // every piece is cut, once, before anything is done with it
  ClothFirst,     // cloth is washed, then fused, then cut
  InReach,        // no needle in a layer that is closed in, sewn up or finished
  NothingBelow,   // nothing is stitched to one layer while another lies under it
  LayersThere,    // what goes through layers together finds them lying on each other
  SeamOnce,       // every seam is joined once, all its edges together
  EdgeOnce,       // no edge is finished twice
  EdgeFinished,   // no raw edge is left: enclosed, bound, faced or hemmed
  AllowanceKept,  // nor a seam's allowance that nothing covers or fells
  PartMade,       // a part is finished before it is sewn on
  TapeApart,      // each half of a hook-and-loop is sewn to one layer, where a lining is
  TapeBare,       // and no layer or hem comes to lie over it
  SlitAll,        // an opening is cut through every layer that has it, once
  Turnable,       // what is sewn up to be turned can be turned
  GapGentle,      // the gap lies on a straight or gently bowed edge
  GapClosed,      // and is closed before the edge is stitched
  ElasticIn,      // elastic goes into its casing while an end is open
  RolledFirst,    // a lining that shows is rolled before the edgestitch
  MarkOnce,       // every mark is used once
  NotionOnce,     // every notion is used at an operation that is about its place
};
inline constexpr int kRules = 21;
[[nodiscard]] const char* rule_id(Rule rule);

struct Breach {
  Rule rule;
  std::string operation;  // at which it shows; empty: at the end
  std::string subject;    // a piece, edge, mark or notion's place
};
[[nodiscard]] std::vector<Breach> check_plan(const Draft& draft, const Plan& plan);

}  // namespace coatwright
