// The operations of making a coat: what is done, to what, and what has to be true before. They are
// given in no order; core/make/plan.h finds one.
#pragma once

#include <string>
#include <vector>

namespace coatwright {

// Before the pieces are cut; as they are; on single layers; seams and layers; the edges, turned,
// bound or folded; what is sewn to the finished coat; on the dog.
enum class Stage { Prepare, Cut, Pieces, Join, Edges, Close, Try };
inline constexpr int kStages = 7;
[[nodiscard]] const char* stage_id(Stage stage);  // "stage.<id>" in the word table

// What is done. Where its needs leave the order free, a maker takes them as they stand here: flat
// work first, hardware before what covers it.
enum class Deed {
  Trial,       // a coat of cheap cloth, by a plan of its own
  Wash,        // cloth, before anything else
  Fuse,        // laminate to cloth that is not cut yet
  Cut,         // pieces
  Dart,        // its two legs sewn together, in each layer by itself
  Join,        // edges of one seam, right sides together
  Face,        // an opening: stitched round, cut, and turned through to the inside
  Attach,      // parts, tapes or ends, on their marks
  MakeUp,      // a part by itself: with its lining sewn right sides together and turned
  Baste,       // layers laid on each other; with `edges`, only there
  Enclose,     // outer and inner layers right sides together and sewn, but for what is `open`
  Turn,        // right side out, through what was left open
  Roll,        // a lining that is to show, to the outside
  Close,       // what was left open: folded in
  Fell,        // allowances of seams that no lining covers; a layer that is folded in and sewn down
  Edgestitch,  // beside the finished edge
  Bind,        // raw edges into a binding
  Hem,         // raw edges folded to the inside and stitched down
  Slit,        // stitched round, cut and bound, through all layers that are there
  Try,         // on the dog
};

// What can be true of a piece, of an edge of a piece, or of a mark on it.
enum class State {
  Uncut,     // its cloth is whole; until it is cut
  Cut,       //
  Single,    // a layer by itself, both faces in reach; until another is laid or sewn to it
  Raw,       // the edge is raw and lies flat; until it is sewn or finished
  Darted,    // the darts in the edge are sewn
  Joined,    // the edge, with its partner in its own layer
  Felled,    // the allowances of the piece's seams are finished
  MadeUp,    // the part is finished but for the edge that is sewn on
  Laid,      // the layer lies where it stays
  Held,      // a part is basted to the edge
  Enclosed,  // sewn round, not turned yet
  Turned,    // right side out
  Rolled,    //
  Closed,    // what was left open to turn
  Finished,  // the edge
  Faced,     // the opening
};
struct Fact {
  State state;
  std::string of;  // a piece, or an edge: then of every piece that has it
};

// A sentence of how it is done: "how.<id>" in the word table, with lengths in mm and behind them
// other numbers, whole ones.
struct Sentence {
  std::string id;
  std::vector<double> mm = {};
  std::vector<int> plain = {};
};

struct Operation {
  Deed deed;
  Stage stage;
  std::string id;  // "step.<id>.name"; once in a draft; what is ticked off is kept under it
  // What it is about, by the names that stand in the draft: whole pieces, single edges, marks.
  std::vector<std::string> pieces = {}, edges = {}, marks = {};
  // The pieces whose cloth needle, blade or iron goes through: each by itself, or `together` as they
  // lie on each other.
  std::vector<std::string> through = {};
  bool together = false;
  std::vector<std::string> open = {};  // edges and marks that are left open, turned through, closed
  std::vector<Fact> needs = {};        // beside what its deed needs by itself (core/make/facts.h)
  std::vector<Sentence> how = {};
  int rows = 1;  // of stitching along each line
};
using Operations = std::vector<Operation>;

// The operation that cuts the pieces out.
inline constexpr const char* kCutStep = "cut-pieces";
// The operation that tries the coat on the dog.
inline constexpr const char* kTryStep = "try-coat";

// Figures that a maker looks for, mm. Common practice, no source.
inline constexpr double kEdgestitch = 2.0;  // from the finished edge
inline constexpr double kFelled = 10.0;     // the least allowance of a seam that is felled
inline constexpr double kHemWidth = 12.0;   // a folded hem, so wide that two rows hold it
inline constexpr double kTrimOuter = 5.0;   // allowances of an enclosed seam, in steps
inline constexpr double kTrimInner = 3.0;   // so that they do not lie edge on edge
inline constexpr double kClipShort = 1.5;   // clips and notches end so far from the stitching
inline constexpr double kBesideSlit = 3.0;  // the stitching round a slit, from the line that is cut

}  // namespace coatwright
