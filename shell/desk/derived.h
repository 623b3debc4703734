// Everything that follows from the ticket, recomputed from the first stage whose input changed.
// Equality is exact, so there are no dirty flags.
#pragma once

#include <optional>
#include <vector>

#include "core/body/assess.h"
#include "core/body/side_view.h"
#include "core/draft/styles/former_outline.h"
#include "core/fit/places.h"
#include "core/make/plan.h"
#include "core/pattern/pattern.h"
#include "core/sheet/print.h"
#include "core/ticket/ticket.h"
#include "shell/desk/comparison.h"
#include "shell/desk/fit_look.h"
#include "shell/words/ticket_words.h"

namespace coatwright::studio {

// A polygon to be filled, and the triangles that fill it.
struct Wash {
  Role role;
  Polyline points;
  std::vector<int> corners;
  int tint = 0;  // as in FillItem
};

// The dog's side view, flattened for the board. Millimetres, y down.
struct DogShape {
  SidePart part;
  bool closed;
  Polyline outline;
  std::vector<int> corners;
};
struct DogTape {
  Measure measure;
  Polyline line;
  Point label_at;
  Vec label_toward;
};

// Two patterns of the coat, the later one drawn and the earlier one's outlines over it.
struct Comparison {
  std::optional<Problem> refusal;  // of the later one, which is not drawn then
  Findings findings;
  std::vector<Alteration> altered;  // on the later one
  PatternDrawing drawing;
  std::vector<Wash> washes;
  std::vector<PieceLine> before;
  std::vector<EdgeChange> changes;
};

struct Derived {
  Tape tape;
  std::optional<Problem> refusal;  // why there is no body or no pattern
  // Of the body and the draft, in their order; then of the estimates that the coat leans on too
  // much; while something is dragged, of those that it leant on before.
  Findings findings;
  std::vector<Measure> estimated;  // of the measures that the coat asks for
  std::optional<Body> body;
  // The ticket's choices for this body, also where nothing is drafted.
  std::optional<Chosen> chosen;
  Alterations alterations;    // what its fittings come to
  std::vector<DogShape> dog;  // of the ticket's newest body there was; before: an ordinary one
  std::vector<DogTape> tapes;
  Rect dog_bounds{-300.0, -600.0, 700.0, 0.0};
  std::optional<Pattern> pattern;     // the newest that could be drafted
  bool stale = false;                 // the pattern is older than the ticket, because of `refusal`
  PatternDrawing drawing;             // of the pattern, as the board shows it
  std::vector<Wash> washes;           // its filled parts
  std::vector<FormerOutline> former;  // of the pattern, if its ticket is of a former drafting rule
  std::array<Point, kFitPlaces> fit_places = {};  // on the dog, while there is a body
  std::optional<Comparison> comparison;           // while one is wanted
  Plan work;                                      // of sewing the pattern
  std::string unsound;  // what is told of it where no coat can be sewn by it
  std::optional<Problem> print_refusal;
  std::optional<SheetPlan> plan;
  std::vector<Wash> plan_washes;
  int redrafts = 0;  // how often a pattern was made, for tests and benchmarks
};

// How wide pieces' names are on the board, of what core's text_width() says, which knows no typeface.
inline constexpr double kNameWidth = 0.8;

// What of it is looked at.
struct Wanted {
  bool plan = false;  // sheets are planned only while they are looked at or made
  bool weighs =
      true;  // estimates are weighed and the sewing planned: not while something is dragged
  double text_mm = 3.2;  // smallest text on the board's drawing, so that it can be read there
  double name_mm = 0.0;  // so large are pieces' names wanted there
  bool former = false;   // the outlines by a former rule, of a ticket that was drafted by it
  std::optional<FitStates> compare = {};  // whose patterns are held against each other
  Printer printer = {};                   // that sheets are planned for
};

class Pipeline {
 public:
  explicit Pipeline(const Words& words) : words_(words) {}
  const Derived& update(const Ticket& ticket, const Wanted& wanted);
  [[nodiscard]] const Derived& now() const { return now_; }
  // Another ticket comes: nothing that was of this one is shown of it.
  void leave_ticket();

 private:
  void update_body();
  void update_dog(const Body& body);
  void update_pattern(const Ticket& ticket);
  void tell(Findings told);
  void weigh_estimates(const Ticket& ticket);
  void refuse(const Problem& why);
  void update_drawing(const Ticket& ticket);
  void update_plan(const Ticket& ticket, const Printer& printer);
  void update_comparison(const Ticket& ticket, const std::optional<FitStates>& states);
  void update_work(const Ticket& ticket);

  const Words& words_;
  Derived now_;
  struct Inputs {
    std::optional<Tape> tape;
    std::optional<Choices> choices;
    std::string style;
    std::vector<Fitting> fittings;
    std::optional<Unit> unit;
    std::optional<PrintChoices> print;
    Printer printer;
    DrawingChoices on_paper;
    std::array<bool, kLayerCount> one_way = {};
    double text_mm = 0.0, name_mm = 0.0;
    bool anew = false, former = false;  // as is_drafted_anew() and Wanted have them
  } last_;
  std::optional<Ticket> read_;  // the ticket that the tape was read from
  std::optional<Result<Tape>> tape_;
  std::optional<Checked<Body>> assessed_;  // what it says of the dog
  Findings told_;                          // by the body and the draft
  Findings doubts_;                        // about estimates
  // The redraft that the drawing and the plan show, and whose estimates are weighed.
  int drawn_ = -1, planned_ = -1, weighed_ = -1, ordered_ = -1;
  std::optional<FitStates> compared_;  // by what the comparison was made, and at which redraft
  int compared_at_ = -1;
  std::vector<Cloth> cloths_;
};

// The pattern as it lies on the board: the body on its body map, the other pieces below the map.
[[nodiscard]] PatternDrawing board_drawing(const Pattern& pattern, const DrawingChoices& choices,
                                           const Words& words);
// Fills ready to draw, thinned to what a board can show.
[[nodiscard]] std::vector<Wash> washes_of(const Drawing& drawing);

// True only if every measured invariant of the draft is met within 0.1 mm.
[[nodiscard]] bool seams_close(const Draft& draft);

}  // namespace coatwright::studio
