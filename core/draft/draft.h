// A draft: net pieces with their seams, marks and trace, as every style makes them.
//
// Net pieces are closed runs of edges, counter-clockwise; a seam pairs edges by its id. Every named
// point keeps the rule and the numbers it came from (the trace). Millimetres.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/body/map.h"
#include "core/draft/choice.h"
#include "core/draft/notion.h"
#include "core/draft/operation.h"
#include "core/geometry/path.h"

namespace coatwright {

// From the outside in.
enum class Layer {
  Shell,
  Insulation,
  Lining,
  Webbing,  // not cloth: a strip of webbing as wide as the piece
};
inline constexpr int kLayerCount = 4;
[[nodiscard]] const char* layer_id(Layer l);  // "shell", "insulation", "lining", "webbing"

// How an edge is finished; decides its allowance (core/cut).
// Bound: the raw edge lies in a binding, so nothing is added.
enum class Finish { Fold, Turned, Seam, Bound };

struct Edge {
  std::string id;    // "body.neckline": unique in the draft but for the layers of one piece
  std::string seam;  // edges with the same seam id are sewn together; empty: none
  Finish finish = Finish::Turned;
  Path path;
  double ease_mm = 0.0;  // how much longer than its partner it is, for ease or darts to take in
  std::optional<double> allowance_mm = {};  // its own; none: what its finish gives
  bool operator==(const Edge&) const = default;
};

// A notch on an edge, `at_mm` along it; edges of one seam carry notches of the same name.
struct Notch {
  std::string edge;
  std::string name;
  double at_mm = 0.0;
};

// Which way rain runs over a piece on the standing dog: off its middle line, which is v = 0, as from
// the spine; toward it, as on what hangs below; or along it, to neither side.
enum class Runoff { FromMiddle, ToMiddle, Along };

enum class MarkKind {
  CentreFront,  // where two closing edges lie on each other
  HookLoop,     // placement of hook-and-loop, closed outline
  BandPlace,    // where the band is sewn on
  TurningGap,   // stretch of edge left open
  GirthLine,
  Placement,  // where another piece or a tape is sewn on
  Opening,    // a slit to be cut
  Dart,       // closed outline whose two long sides are sewn together
};
struct Mark {
  MarkKind kind;
  std::string label;  // word key
  Polyline line;
  bool closed = false;
};

struct Piece {
  std::string id;  // "body", "band", "body.lining"
  Layer layer = Layer::Shell;
  int cut = 1;           // how many to cut
  bool on_fold = false;  // the first edge is the fold; the piece is a half
  bool mirrored_pair = false;
  bool single = false;  // of the outer cloth alone, whatever layers the coat has: a facing
  // Lined and turned by itself before it is joined to the coat, whatever the coat's own layers and
  // finish: a collar, a pocket.
  bool made_up = false;
  bool laminated = false;  // its cloth is laminated before it is cut
  Runoff runoff = Runoff::FromMiddle;
  std::vector<Edge> edges;
  std::vector<Notch> notches;
  Point grain_from, grain_to;
  std::vector<Mark> marks;
  Point label_at;  // where the piece's name may stand
};

// One named point or curve and where it came from. Words under "trace.<rule>".
struct TraceStep {
  std::string name;             // "F", "neckline"
  std::string rule;             // id of the rule
  Point at;                     // the point, or a curve's middle
  std::vector<double> numbers;  // mm, in the order that the rule's words use
  std::string edge;             // the edge it shapes, if any
};

// How closely a draft must keep its invariants, mm.
inline constexpr double kInvariantTolerance = 0.1;

// A promise about the coat, and what the finished geometry measures.
struct Invariant {
  std::string id;  // "neckline-closed", ...
  double wanted_mm = 0.0;
  double got_mm = 0.0;
  bool at_least = false;  // got may be more than wanted
  // The reading that it is made of, to be taken again when it does not hold; none: it is made of
  // choices.
  std::optional<Measure> reading = {};
  [[nodiscard]] bool holds(double tolerance_mm) const {
    return got_mm >= wanted_mm - tolerance_mm && (at_least || got_mm <= wanted_mm + tolerance_mm);
  }
};

// Hook-and-loop as large as its mark, a closed outline of four corners: the first and the third
// side are as long as the tape, the others as wide. Used at `step`.
[[nodiscard]] Notion hook_and_loop(const Mark& mark, const char* step);
inline constexpr const char* kSewTape = "sew-hook-and-loop";  // of the coat and its parts

struct Draft {
  Chosen chosen;
  BodyMap map;
  Point centre_front;  // F
  Point breastbone;    // P
  Point front_end;     // F2
  // Where a belly band or a girth strap is sewn on: u of its stretch of the hem, and how far it
  // laps on the body.
  struct BandPlace {
    double from = 0.0, to = 0.0, attach = 0.0;
    bool over_back = false;  // it closes on the back, so that it lies over the spine
    double waist = 0.0;      // width under the belly of a shaped one; 0: the same all along
    [[nodiscard]] double middle() const { return 0.5 * (from + to); }
  };
  std::optional<BandPlace> band;
  // The neckline as a seam, from its middle that is in one piece to where the coat closes.
  struct NeckSeam {
    std::vector<const char*> edges;  // each with its own id as its seam
    const char* closes = "";         // the notch at its end, and under "mark." its line
    double reach = 0.0;              // past that line, half of what laps there
  };
  NeckSeam neckline;
  std::vector<Piece> pieces;
  std::vector<TraceStep> trace;
  std::vector<Invariant> invariants;  // measured on the geometry, not copied from the inputs
  std::vector<Notion> notions;
  Operations operations;  // in the order in which they were given
};

// A turned edge with a smaller radius than this cannot be sewn and turned neatly; a CurveTooTight
// finding says so. Common practice, no source. mm.
inline constexpr double kTightestTurn = 3.0;

[[nodiscard]] const Piece* find_piece(const Draft& draft, std::string_view id);
[[nodiscard]] Piece* find_piece(Draft& draft, std::string_view id);
[[nodiscard]] const Edge* find_edge(const Piece& piece, std::string_view id);
// The net outline, closed, within `tolerance_mm` of the edges.
[[nodiscard]] Polyline outline_of(const Piece& piece, double tolerance_mm);
// Names for a step: the pieces that `is` is true of; the piece's edges of a finish; the labels of
// marks of a kind, each once.
[[nodiscard]] std::vector<std::string> ids_of(const Draft& draft, bool (*is)(const Piece&));
[[nodiscard]] std::vector<std::string> edges_with(const Piece& piece, Finish finish);
[[nodiscard]] std::vector<std::string> labels_of(const Draft& draft, MarkKind kind);
// How many of its copies are cut turned over: half of a mirrored pair; of a lining that is not its
// own mirror image all, since it is sewn to the shell right sides together.
[[nodiscard]] int turned_over(const Piece& piece);
[[nodiscard]] bool names(const std::vector<std::string>& list, std::string_view id);
// How often an edge of the piece as drafted is there on the coat: twice for a half on the fold.
[[nodiscard]] double sides(const Piece& piece);

}  // namespace coatwright
