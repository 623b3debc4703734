#include "shell/make/board.h"

#include <algorithm>

#include "core/make/course.h"
#include "shell/kit/board.h"
#include "shell/kit/board_words.h"
#include "shell/kit/pointers.h"

namespace coatwright::studio {
namespace {

const Operation* touched_step(const Frame& f) {
  for (const Operation& step : f.derived.work.operations) {
    if (step.id == f.view.make.step) return &step;
  }
  return nullptr;
}

// Where a piece is drawn: by itself, or a layer with its outside.
const PlacedPiece* place_of(const Derived& derived, const std::string& piece) {
  const auto& all = derived.drawing.placed;
  const auto named = [&](std::string_view id) {
    return std::find_if(all.begin(), all.end(), [&](const PlacedPiece& p) { return p.id == id; });
  };
  auto found = named(piece);
  if (found == all.end()) found = named(outside_of(derived.pattern->draft, piece));
  return found == all.end() ? nullptr : &*found;
}

// Broad lines: they are told from the others by their width as well as by their colour.
void light_up(Frame& f, const BoardMap& map, const Operation& step) {
  for (const CutPiece& piece : f.derived.pattern->cut.pieces) {
    const PlacedPiece* place = place_of(f.derived, piece.piece.id);
    if (place == nullptr) continue;
    const auto on_page = [&](const Polyline& line) {
      Line out;
      for (const Point p : line) out.push_back(map.page(p + place->shift));
      return out;
    };
    const Colour light = faded(f.colours.tape, 0.85F);
    if (names(step.pieces, piece.piece.id)) {
      f.paint.polyline(map.page(place->cut), light, 9.0F, true);
    }
    for (const CutEdge& edge : piece.edges) {
      if (names(step.edges, edge.id) || names(step.open, edge.id))
        f.paint.polyline(on_page(edge.net), light, 11.0F);
    }
    for (const Mark& mark : piece.piece.marks) {
      if (names(step.marks, mark.label) || names(step.open, mark.label)) {
        f.paint.polyline(on_page(mark.line), light, 7.0F, mark.closed);
      }
    }
  }
}

// The step after the present one, round and round, that is about the edge.
void choose_step_about(Frame& f, const std::string& edge) {
  const Operations& steps = f.derived.work.operations;
  const auto now = std::find_if(steps.begin(), steps.end(),
                                [&](const Operation& s) { return s.id == f.view.make.step; });
  const size_t from = now == steps.end() ? 0 : static_cast<size_t>(now - steps.begin()) + 1;
  for (size_t i = 0; i < steps.size(); ++i) {
    const Operation& step = steps[(from + i) % steps.size()];
    if (!names(step.edges, edge)) continue;
    f.view.make = {.begun = true, .stage = step.stage, .step = step.id};
    f.view.reveal = step.id;
    return;
  }
  f.view.make.step.clear();
}

}  // namespace

void make_board(Frame& f, const Box& box) {
  const bool ready = f.derived.pattern.has_value();
  const Rect drawn = ready ? f.derived.drawing.drawing.bounds : Rect{0.0, 0.0, 500.0, 400.0};
  const BoardMap map = board(f, box, drawn, f.words("ui.board-make"), false);
  if (ready) {
    f.paint.push_clip(box);
    const float strength = f.derived.stale ? 0.3F : 1.0F;
    draw_washes(f, map, f.derived.washes, strength);
    const Operation* step = f.derived.stale ? nullptr : touched_step(f);
    if (step != nullptr) light_up(f, map, *step);
    draw_items(f, map, f.derived.drawing.drawing, strength);
    tell_pieces(f, map, f.derived.drawing);
    const Gesture* tap = f.ui.find(Gesture::Kind::Tap, kBoardId);
    if (tap != nullptr && !f.derived.stale) {
      choose_step_about(f, line_at(map, f.derived.drawing.drawing, tap->at));
    }
    f.paint.pop_clip();
  }
  if (!refusal_note(f, box) && !notice(f, box)) guidance(f, box);
}

}  // namespace coatwright::studio
