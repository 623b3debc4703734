#include "shell/lay/by_hand.h"

#include <algorithm>
#include <cmath>

#include "core/draw/lay_drawing.h"
#include "core/geometry/polygon.h"
#include "shell/kit/pointers.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"

namespace coatwright::studio {
namespace {

// How near a piece must come to be drawn to another: a finger is less sure than a mouse. On a board
// that shows a whole cloth this is a lot of it, so it is bounded in millimetres too.
constexpr double kReachMouse = 10.0, kReachFinger = 16.0, kMostReach = 25.0;
constexpr float kHatch = 9.0F;  // CSS pixels between its lines

const LayJob& job_of(const Frame& f, const LayView& view) { return f.lay.jobs()[view.job]; }

HandLay places_of(const Frame& f, const LayJob& job) {
  return hand_lay_of(job.laid.lay, job.hand ? &*job.hand : nullptr,
                     places_left(f.ticket.hand_lays, job.order.use, job.order.laminated));
}

void put_piece(Frame& f, const LayView& view, size_t piece, Point wanted, double reach_mm) {
  const LayJob& job = job_of(f, view);
  const Point to = f.lay.snapped(view.job, piece, wanted, reach_mm);
  HandLay hand = places_of(f, job);
  const Point before = hand.places[piece].at;
  if (distance(before, to) < 0.02) return;
  hand.places[piece].at = to;
  f.commands.push_back(SetHandLay{std::move(hand)});
}

double key_step(const Frame& f, bool far) {
  if (f.ticket.unit == Unit::Inch) return Length::inches(far ? 1.0 : 1.0 / 16.0).mm();
  return far ? 10.0 : 1.0;
}

// A length that is typed into a field, or why it cannot be.
std::optional<double> typed_length(Frame& f, Columns& flow, const std::string& id, const char* key,
                                   double now) {
  LengthStyle style = f.lengths();
  style.steps_per_inch = 32;
  style.decimals_cm = 2;
  const std::string shown = format_length(Length::mm(std::max(0.0, now)), style);
  const auto entered = text_field(f, id, flow.across(kTarget), f.words(key), shown);
  auto& faults = f.view.lay.faults;
  std::optional<double> out;
  if (entered) {
    const Result<Length> length = parse_length(*entered, f.ticket.unit);
    faults.erase(id);
    if (length) {
      out = length->mm();
    } else if (*entered == "0") {
      out = 0.0;
    } else {
      faults[id] = length.problem();
      faults[id].subject = "cloth-piece-place";
    }
  }
  if (const auto fault = faults.find(id); fault != faults.end()) {
    const std::string words = sentence_of(f, fault->second);
    sentence(f, flow, id + ".fault", words, true);
  }
  return out;
}

}  // namespace

std::string laid_name(const Frame& f, const LaidPiece& piece) {
  return laid_name(piece, f.lay.names(), f.words);
}

int piece_at(const Frame& f, const BoardMap& map, const Lay& lay, Spot spot) {
  const Point p = map.drawing(spot);
  const int touched = f.view.lay.touched;
  if (touched >= 0 && static_cast<size_t>(touched) < lay.pieces.size() &&
      contains(lay.pieces[static_cast<size_t>(touched)].outline, p)) {
    return touched;
  }
  for (size_t i = lay.pieces.size(); i-- > 0;) {
    if (contains(lay.pieces[i].outline, p)) return static_cast<int>(i);
  }
  return -1;
}

bool answer_piece_drag(Frame& f, const BoardMap& map, const LayView& view) {
  auto& grip = f.view.lay.grip;
  const Lay& lay = job_of(f, view).laid.lay;
  if (view.lamination || !job_of(f, view).table || (grip && grip->piece >= lay.pieces.size())) {
    grip.reset();
    return false;
  }
  const Gesture* last = nullptr;
  bool ends = false;
  for (const Gesture& g : f.ui.gestures()) {
    if (g.kind != Gesture::Kind::Drag || g.id != kBoardId) continue;
    if (g.phase == Phase::Begin) {
      const int hit = piece_at(f, map, lay, g.from);
      if (hit < 0) continue;
      const auto piece = static_cast<size_t>(hit);
      grip = PieceGrip{piece, corner_of(lay.pieces[piece]) - map.drawing(g.from)};
      f.view.lay.touched = hit;
    }
    last = &g;
    ends = g.phase == Phase::End || g.phase == Phase::Cancel;
  }
  if (!grip) return false;
  if (last != nullptr && last->phase != Phase::Begin) {
    const double reach = (f.view.finger ? kReachFinger : kReachMouse) / map.scale();
    put_piece(f, view, grip->piece, map.drawing(last->at) + grip->offset,
              std::min(reach, kMostReach));
  }
  if (ends) grip.reset();
  return true;
}

void answer_piece_keys(Frame& f, const LayView& view, size_t piece, const std::string& control) {
  if (f.ui.focus != control || !job_of(f, view).table) return;
  Vec by;
  std::erase_if(f.ui.keys(), [&](const Key& key) {
    const Vec step = job_of(f, view).table->step_of(piece, key_step(f, key.shift));
    if (key.name == "ArrowRight") {
      by = by + Vec{step.x, 0.0};
    } else if (key.name == "ArrowLeft") {
      by = by + Vec{-step.x, 0.0};
    } else if (key.name == "ArrowDown") {
      by = by + Vec{0.0, step.y};
    } else if (key.name == "ArrowUp") {
      by = by + Vec{0.0, -step.y};
    } else {
      return false;
    }
    return true;
  });
  if (by == Vec{}) return;
  // Within half a step it is drawn to what it would touch, so that it can be moved to there exactly
  // and away again.
  put_piece(f, view, piece, corner_of(job_of(f, view).laid.lay.pieces[piece]) + by,
            0.5 * key_step(f, false));
}

void draw_lay_faults(Frame& f, const BoardMap& map, const LayJob& job) {
  const Lay& lay = job.laid.lay;
  const auto outline = [&](size_t i) {
    f.paint.polyline(map.page(lay.pieces[i].outline), f.colours.brick, 4.0F, true);
  };
  const double apart = static_cast<double>(kHatch) / map.scale();
  for (const auto& [i, k] : job.faults.overlaps) {
    outline(i);
    outline(k);
    for (const Polyline& line : hatching(lay.pieces[i].outline, lay.pieces[k].outline, apart)) {
      f.paint.line(map.page(line[0]), map.page(line[1]), f.colours.brick, 2.0F);
    }
  }
  for (const size_t i : job.faults.outside) outline(i);
  for (const size_t i : job.faults.against_nap) outline(i);
  for (const size_t i : job.faults.off_stripes) outline(i);
}

// A piece that lies against the nap can be turned back.
bool may_turn(const LayJob& job, size_t piece) {
  return job.table && (!job.cloth.one_way || job.laid.lay.pieces[piece].turned);
}

void turn_piece(Frame& f, const LayJob& job, size_t piece) {
  HandLay hand = places_of(f, job);
  HandPlace& place = hand.places[piece];
  place.turned = !place.turned;
  place.at = job.table->on_stripes(piece, place.turned, place.at);
  f.commands.push_back(SetHandLay{std::move(hand)});
}

void piece_controls(Frame& f, Columns& flow, const LayView& view) {
  const LayJob& job = job_of(f, view);
  const int touched = f.view.lay.touched;
  if (view.lamination || touched < 0 || !job.table ||
      static_cast<size_t>(touched) >= job.laid.lay.pieces.size()) {
    return;
  }
  const auto piece = static_cast<size_t>(touched);
  const LaidPiece& laid = job.laid.lay.pieces[piece];
  const Box title = flow.across(30.0F);
  heading(f, "piece.title", {title.x, title.centre().y}, laid_name(f, laid), kLarge);
  const Point at = corner_of(laid);
  const auto x = typed_length(f, flow, "piece.along", "ui.lay-hand-along", at.x);
  const auto y = typed_length(f, flow, "piece.across", "ui.lay-hand-across", at.y);
  if (x || y) put_piece(f, view, piece, {x.value_or(at.x), y.value_or(at.y)}, 0.0);
  const Box row = flow.across(kTarget);
  const bool turns = may_turn(job, piece);
  if (button(f, "piece.turn", row.column(0, 2, 8.0F), f.words("ui.lay-hand-turn"),
             {.enabled = turns})) {
    turn_piece(f, job, piece);
  }
  if (button(f, "piece.back", row.column(1, 2, 8.0F), f.words("ui.lay-hand-back"),
             {.enabled = job.by_hand() && piece < job.found.pieces.size()})) {
    HandLay hand = places_of(f, job);
    hand.places[piece] = hand_lay_of(job.found).places[piece];
    f.commands.push_back(SetHandLay{std::move(hand)});
  }
  if (!turns) {
    aside(f, flow, "piece.nap", f.words("ui.lay-hand-nap"));
  }
}

void hand_lay_controls(Frame& f, Columns& flow, const LayJob& job) {
  if (!job.by_hand()) return;
  // What is wrong with it the board says.
  if (!job.hand_refusal) sentence(f, flow, "hand.own", f.words("ui.lay-hand-own"), false);
  if (job.added > 0) {
    sentence(f, flow, "hand.added", f.words("ui.lay-hand-added", {std::to_string(job.added)}),
             true);
  }
  if (job.offer) {
    const std::string length = f.length(job.offer->length_mm);
    const double shorter =
        std::max(job.laid.lay.length_mm - job.offer->length_mm, smallest_step(f.lengths()));
    sentence(f, flow, "hand.offer",
             job.hand_refusal ? f.words("ui.lay-hand-mended", {length})
                              : f.words("ui.lay-hand-offer", {length, f.length(shorter)}),
             false);
    if (button(f, "hand.take", flow.across(kTarget), f.words("ui.lay-hand-take"))) {
      f.commands.push_back(SetHandLay{
          hand_lay_of(*job.offer, &*job.hand,
                      places_left(f.ticket.hand_lays, job.order.use, job.order.laminated))});
    }
  } else if (job.onward && job.onward_done() >= job.onward_wanted) {
    sentence(f, flow, "hand.none", f.words("ui.lay-hand-none"), false);
  }
  if (button(f, "hand.drop", flow.across(kTarget), f.words("ui.lay-hand-drop"))) {
    f.view.lay.touched = -1;
    f.commands.push_back(SetHandLay{{.use = job.order.use, .laminated = job.order.laminated}});
  }
}

}  // namespace coatwright::studio
