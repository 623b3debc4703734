#include "shell/lay_board.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"
#include "shell/board.h"
#include "shell/lay_panel.h"
#include "shell/pointers.h"
#include "shell/status.h"

namespace coatwright::studio {
namespace {

Box on_page(const BoardMap& map, const Rect& r) {
  const Spot a = map.page(Point{r.x0, r.y0}), b = map.page(Point{r.x1, r.y1});
  return {a.x, a.y, b.x - a.x, b.y - a.y};
}

// Sixteen CSS pixels, in steps of a tenth, so that zooming does not draw anew at every frame.
double text_mm(const Frame& f) {
  const double scale = f.view.board().scale;
  if (scale <= 0.0) return 25.0;
  return std::pow(1.1, std::ceil(std::log(14.5 / scale) / std::log(1.1)));
}

void draw_ground(Frame& f, const BoardMap& map, const Lay& lay) {
  const Rect ground = cloth_ground(lay);
  f.paint.fill(on_page(map, ground), f.colours.paper, 2.0F);
  const double selvage = lay.cloth.selvage_mm;
  for (const double y : {0.0, ground.y1 - selvage}) {
    f.paint.fill(on_page(map, {0.0, y, ground.x1, y + selvage}), faded(f.colours.card_edge, 0.55F));
  }
}

void outline_touched(Frame& f, const BoardMap& map, const LaidPiece& piece) {
  f.paint.polyline(map.page(piece.outline), faded(f.colours.tape, 0.85F), 7.0F, true);
}

// A piece for the keyboard, the mirror and the finger; dragging the board on it moves the board.
void piece_control(Frame& f, const BoardMap& map, const LaidPiece& piece, int number) {
  const std::string id = "laid." + std::to_string(number);
  const std::string name = f.words("piece." + piece.id);
  const Rect box = bounds(piece.outline);
  f.ui.add({.id = id,
            .role = ControlRole::Button,
            .name = piece.face_down ? f.words("lay.face-down", {name}) : name,
            .value = f.words("ui.lay-at", {f.length(std::max(0.0, box.x0)), f.length(box.y0)}),
            .box = on_page(map, box),
            .group = {},
            .chosen = f.view.lay.touched == number,
            .travel = Travel::Pan});
  if (f.ui.acted(id)) f.view.lay.touched = f.view.lay.touched == number ? -1 : number;
}

int piece_at(const BoardMap& map, const Lay& lay, Spot spot) {
  const Point p = map.drawing(spot);
  for (size_t i = 0; i < lay.pieces.size(); ++i) {
    if (contains(lay.pieces[i].outline, p)) return static_cast<int>(i);
  }
  return -1;
}

void touched_note(Frame& f, const Box& box, const LaidPiece& piece) {
  const Rect size = bounds(piece.outline);
  const std::string name = f.words("piece." + piece.id);
  const BoardNote note{
      .id = "note.piece",
      .title = piece.face_down ? f.words("lay.face-down", {name}) : name,
      .text = f.words("ui.lay-piece", {f.length(size.width()), f.length(size.height())})};
  if (board_note(f, box, note)) f.view.lay.touched = -1;
}

}  // namespace

void lay_board(Frame& f, const Box& box) {
  const std::optional<LayView> view = looked_at(f);
  const LayJob* job = view ? &f.lay.jobs()[view->job] : nullptr;
  const bool drawn = job != nullptr && job->search;
  const LayDesk::Picture* picture =
      drawn ? &f.lay.picture(*view, text_mm(f), f.ticket.unit) : nullptr;
  const Rect seen = drawn ? picture->drawing.bounds : Rect{0.0, 0.0, 1200.0, 900.0};
  const BoardMap map = board(f, box, seen, f.words("ui.board-lay"), false);
  auto& touched = f.view.lay.touched;
  if (drawn) {
    const Lay& lay = job->laid.lay;
    if (view->lamination || touched >= static_cast<int>(lay.pieces.size())) touched = -1;
    f.paint.push_clip(box);
    f.ui.begin_clip(box);
    draw_ground(f, map, lay);
    draw_washes(f, map, picture->washes, 1.0F);
    if (touched >= 0) outline_touched(f, map, lay.pieces[static_cast<size_t>(touched)]);
    draw_items(f, map, picture->drawing, 1.0F);
    for (size_t i = 0; i < lay.pieces.size() && !view->lamination; ++i) {
      piece_control(f, map, lay.pieces[i], static_cast<int>(i));
    }
    if (const Gesture* tap = f.ui.find(Gesture::Kind::Tap, kBoardId)) {
      touched = piece_at(map, lay, tap->at);
    }
    f.ui.end_clip();
    f.paint.pop_clip();
  }
  if (refusal_note(f, box) || notice(f, box)) return;
  if (job != nullptr && job->refusal) {
    board_note(
        f, box,
        {.id = "note.lay", .text = sentence_of(f, *job->refusal), .wrong = true, .closes = false});
  } else if (drawn && touched >= 0) {
    touched_note(f, box, job->laid.lay.pieces[static_cast<size_t>(touched)]);
  } else {
    guidance(f, box);
  }
}

}  // namespace coatwright::studio
