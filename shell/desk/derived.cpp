#include "shell/desk/derived.h"

#include <algorithm>
#include <limits>

#include "core/draft/styles/doubt.h"
#include "core/draw/sketch.h"
#include "core/fit/photograph.h"
#include "core/geometry/polygon.h"
#include "shell/words/step_words.h"

namespace coatwright::studio {
namespace {

constexpr double kSeamTolerance = 0.1;  // mm, of every invariant
constexpr double kDogTolerance = 0.3;   // of the side view's curves
// A board at its largest zoom shows less than this; outlines come in at kOutlineTolerance.
constexpr double kBoardTolerance = 0.05;
// Rows of pieces are up to this many times as wide as the body, for a board of this shape.
constexpr double kWidestRow = 2.05;
constexpr double kBoardAspect = 1.2;

}  // namespace

namespace {

// With fewer points, as far as a board can show: finding room for the labels takes its time from
// the number of points, and a drag draws anew at every frame.
PieceSketch for_the_board(PieceSketch sketch) {
  const auto thin = [](Polyline& line) { line = thinned(line, kBoardTolerance); };
  thin(sketch.net);
  thin(sketch.cut);
  for (CutEdge& edge : sketch.edges) thin(edge.net);
  for (Mark& mark : sketch.marks) thin(mark.line);
  return sketch;
}

// Rows of the width that shows the pieces largest on a board, the body where its map is.
coatwright::Layout rows_for_a_board(const std::vector<PieceSketch>& sketches,
                                    const std::vector<Under>& under) {
  double body = 0.0;
  for (const PieceSketch& s : sketches) {
    if (s.id == kBodyPiece) body = bounds(s.cut).width();
  }
  coatwright::Layout best;
  double smallest = std::numeric_limits<double>::infinity();
  for (double wide = 1.0; wide < kWidestRow; wide += 0.1) {
    coatwright::Layout rows = in_rows(sketches, under, wide * body);
    Rect all = bounds(placed(sketches.front().cut, rows.places.front()));
    for (size_t i = 1; i < sketches.size(); ++i) {
      all = united(all, bounds(placed(sketches[i].cut, rows.places[i])));
    }
    const double size = std::max(all.width(), kBoardAspect * all.height());
    if (size >= smallest) continue;
    smallest = size;
    best = std::move(rows);
  }
  Vec origin{};
  for (size_t i = 0; i < sketches.size(); ++i) {
    if (sketches[i].id == kBodyPiece) origin = best.places[i].shift;
  }
  for (Placement& place : best.places) place.shift = place.shift - origin;
  return best;
}

}  // namespace

PatternDrawing board_drawing(const Pattern& pattern, const DrawingChoices& choices,
                             const Words& words) {
  auto sketches = sketch_pieces(pattern.cut, choices.opened, choices.merge_layers);
  for (PieceSketch& sketch : sketches) sketch = for_the_board(std::move(sketch));
  const BodyMap& map = pattern.draft.map;
  return draw_placed(sketches, rows_for_a_board(sketches, lines_under(sketches, map, choices)), map,
                     choices, words);
}

std::vector<Wash> washes_of(const Drawing& drawing) {
  std::vector<Wash> washes;
  for (const DrawItem& item : drawing.items) {
    if (const auto* fill = std::get_if<FillItem>(&item)) {
      Wash wash{fill->role, thinned(fill->points, kBoardTolerance), {}, fill->tint};
      wash.corners = triangulate(wash.points);
      washes.push_back(std::move(wash));
    }
  }
  return washes;
}

const Derived& Pipeline::update(const Ticket& ticket, const Wanted& wanted) {
  if (!read_ || !reads_alike(*read_, ticket)) {
    read_ = ticket;
    tape_ = tape_of(ticket);
  }
  if (now_.dog.empty()) {
    if (const auto ordinary = assess(ordinary_tape(ticket.build)); ordinary.result) {
      update_dog(*ordinary.result);
    }
  }
  const Result<Tape>& tape = *tape_;
  if (!tape) {
    last_.tape.reset();
    now_.tape = {};  // nothing of the ticket before stands beside this one's name
    now_.body.reset();
    now_.chosen.reset();
    now_.alterations = {};
    now_.estimated.clear();
    doubts_.clear();
    tell({});
    refuse(tape.problem());
    return now_;
  }
  const bool new_tape = last_.tape != *tape;
  if (new_tape) {
    last_.tape = now_.tape = *tape;
    update_body();
  }
  auto fittings = without_photographs(ticket.fittings);  // a pin that is dragged drafts nothing
  if (new_tape || last_.choices != ticket.choices || last_.style != ticket.style ||
      last_.fittings != fittings) {
    last_.choices = ticket.choices;
    last_.fittings = std::move(fittings);
    last_.style = ticket.style;
    update_pattern(ticket);
  }
  const bool new_unit = last_.unit != ticket.unit;
  last_.unit = ticket.unit;
  const bool new_text = last_.text_mm != wanted.text_mm || last_.name_mm != wanted.name_mm;
  last_.text_mm = wanted.text_mm;
  last_.name_mm = wanted.name_mm;
  const bool anew = is_drafted_anew(ticket), former = anew && wanted.former;
  const bool other_former = last_.anew != anew || last_.former != former;
  last_.anew = anew;
  last_.former = former;
  const auto one_way = one_way_layers(ticket);
  const bool new_nap = last_.one_way != one_way;
  last_.one_way = one_way;
  if (new_unit || new_text || new_nap || other_former || drawn_ != now_.redrafts)
    update_drawing(ticket);
  if (wanted.plan) update_plan(ticket, wanted.printer);
  update_comparison(ticket, wanted.compare);
  if (wanted.weighs) update_work(ticket);
  if (wanted.weighs) weigh_estimates(ticket);
  return now_;
}

void Pipeline::update_body() {
  assessed_ = assess(now_.tape);
  now_.body.reset();
  if (assessed_->result) now_.body = *assessed_->result;
  if (now_.body) update_dog(*now_.body);
}

void Pipeline::leave_ticket() {
  const int redrafts = now_.redrafts;
  now_ = {};
  now_.redrafts = redrafts;  // each pattern that was ever made has its own number
  last_ = {};
  read_.reset();
  doubts_.clear();
  drawn_ = planned_ = weighed_ = compared_at_ = -1;
  compared_.reset();
}

void Pipeline::update_dog(const Body& body) {
  const SideView view = draw_side_view(body);
  now_.dog.clear();
  for (const SideShape& shape : view.shapes) {
    Polyline outline = thinned(flatten(shape.path, kDogTolerance), kDogTolerance);
    if (shape.closed && outline.size() > 1 &&
        distance(outline.front(), outline.back()) < kDogTolerance) {
      outline.pop_back();
    }
    std::vector<int> corners = shape.closed ? triangulate(outline) : std::vector<int>{};
    now_.dog.push_back({shape.part, shape.closed, std::move(outline), std::move(corners)});
  }
  now_.tapes.clear();
  for (const SideTape& tape : view.tapes) {
    now_.tapes.push_back(
        {tape.measure, flatten(tape.line, kDogTolerance), tape.label_at, tape.label_toward});
  }
  now_.dog_bounds = view.bounds;
}

void Pipeline::update_pattern(const Ticket& ticket) {
  const StyleInfo& style = style_of(ticket);
  now_.chosen.reset();
  if (now_.body) {
    Findings told_by_the_draft;
    now_.chosen = resolve(choices_of(style), ticket.choices, *now_.body, told_by_the_draft);
  }
  if (now_.body) now_.fit_places = fit_places(*now_.body, style);
  now_.alterations = alterations_of(ticket, now_.tape);
  auto made = make_pattern(*assessed_, ticket.choices, style, now_.alterations);
  now_.estimated.clear();
  if (now_.body) now_.estimated = estimated_for(style, ticket.choices, *now_.body);
  // What was found of an estimate stands until it is weighed again.
  std::erase_if(doubts_, [&](const Finding& doubt) {
    return std::none_of(now_.estimated.begin(), now_.estimated.end(),
                        [&](Measure m) { return doubt.what.subject == info(m).id; });
  });
  tell(std::move(made.findings));
  if (!made.result) {
    refuse(made.result.problem());
    return;
  }
  now_.refusal.reset();
  now_.stale = false;
  now_.pattern = std::move(made.result.value());
  ++now_.redrafts;
}

void Pipeline::update_work(const Ticket& ticket) {
  std::vector<Cloth> cloths = cloths_of(ticket);
  if (!now_.pattern || (ordered_ == now_.redrafts && cloths_ == cloths)) return;
  ordered_ = now_.redrafts;
  cloths_ = std::move(cloths);
  now_.work = make_plan(now_.pattern->draft, cloths_);
  now_.unsound = told_unsound(now_.pattern->draft, now_.work, words_);
}

void Pipeline::tell(Findings told) {
  told_ = std::move(told);
  now_.findings = told_;
  now_.findings.insert(now_.findings.end(), doubts_.begin(), doubts_.end());
}

// Drafts the coat twice for each estimate: about a tenth of what a redraft with its drawing costs.
void Pipeline::weigh_estimates(const Ticket& ticket) {
  if (!now_.pattern || now_.stale || weighed_ == now_.redrafts) return;
  weighed_ = now_.redrafts;
  doubts_ =
      doubts_of(style_of(ticket), now_.pattern->body, now_.pattern->choices, now_.pattern->draft);
  tell(std::move(told_));
}

// The pattern there was stays to be looked at, but no sheet of it may be printed for this ticket.
void Pipeline::refuse(const Problem& why) {
  now_.refusal = why;
  now_.stale = now_.pattern.has_value();
  now_.plan.reset();
  now_.print_refusal.reset();
  now_.plan_washes.clear();
  planned_ = -1;
}

void Pipeline::update_comparison(const Ticket& ticket, const std::optional<FitStates>& states) {
  if (compared_ == states && compared_at_ == now_.redrafts) return;
  compared_ = states;
  compared_at_ = now_.redrafts;
  now_.comparison.reset();
  if (!states || !now_.body) return;
  const StyleInfo& style = style_of(ticket);
  const auto made_with = [&](const std::vector<Fitting>& fittings) {
    return make_pattern(*assessed_, ticket.choices, style,
                        alterations_of(fittings, style, now_.tape));
  };
  const auto before = made_with(states->before);
  auto after = made_with(states->after);
  Comparison& c = now_.comparison.emplace();
  c.findings = std::move(after.findings);
  if (!after.result) {
    c.refusal = after.result.problem();
    return;
  }
  const Pattern& pattern = *after.result;
  c.altered = pattern.altered;
  DrawingChoices choices = drawing_choices(ticket);
  choices.body_lines = true;
  choices.text_mm = last_.text_mm;
  choices.name_mm = last_.name_mm;
  choices.name_width = kNameWidth;
  choices.ticket_name.clear();
  c.drawing = board_drawing(pattern, choices, words_);
  c.washes = washes_of(c.drawing.drawing);
  if (!before.result) return;
  c.before = outlines_of(*before.result);
  c.changes = edge_changes(*before.result, pattern);
}

void Pipeline::update_drawing(const Ticket& ticket) {
  drawn_ = now_.redrafts;
  if (!now_.pattern) return;
  DrawingChoices choices = drawing_choices(ticket);
  choices.body_lines = true;
  choices.text_mm = last_.text_mm;
  choices.name_mm = last_.name_mm;
  choices.name_width = kNameWidth;
  choices.ticket_name.clear();  // it stands on the tape's metal end
  now_.former.clear();
  if (last_.anew) {
    now_.former = former_outlines(style_of(ticket), now_.pattern->body, now_.pattern->choices);
  }
  if (last_.former) choices.former = now_.former;
  for (const HandleInfo& handle : handles_of(style_of(ticket))) {
    const auto place = handle.place(now_.pattern->draft);
    if (place) choices.occupied.push_back({handle.piece, *place});
  }
  now_.drawing = board_drawing(*now_.pattern, choices, words_);
  now_.washes = washes_of(now_.drawing.drawing);
}

void Pipeline::update_plan(const Ticket& ticket, const Printer& printer) {
  if (!now_.pattern || now_.stale) return;
  const DrawingChoices drawing = drawing_choices(ticket);
  if (planned_ == now_.redrafts && last_.print == ticket.print && last_.on_paper == drawing &&
      last_.printer == printer) {
    return;
  }
  last_.printer = printer;
  planned_ = now_.redrafts;
  last_.print = ticket.print;
  last_.on_paper = drawing;
  now_.plan.reset();
  now_.print_refusal.reset();
  auto plan = plan_sheets(*now_.pattern, ticket.print, drawing, words_, printer);
  if (!plan) {
    now_.print_refusal = plan.problem();
    return;
  }
  now_.plan = std::move(plan.value());
  now_.plan_washes = washes_of(now_.plan->layout.drawing);
}

bool seams_close(const Draft& draft) {
  return !draft.invariants.empty() &&
         std::all_of(draft.invariants.begin(), draft.invariants.end(),
                     [](const Invariant& i) { return i.holds(kSeamTolerance); });
}

}  // namespace coatwright::studio
