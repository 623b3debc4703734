#include "shell/lay/board.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"
#include "shell/kit/board.h"
#include "shell/kit/board_words.h"
#include "shell/kit/pointers.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"
#include "shell/lay/by_hand.h"
#include "shell/lay/panel.h"

namespace coatwright::studio {
namespace {

constexpr double kText = 14.5;  // CSS pixels, at least

// In steps of a tenth, so that zooming does not draw anew at every frame.
double text_mm(const Frame& f) {
  const double scale = f.view.board().scale;
  if (scale <= 0.0) return 25.0;
  return std::pow(1.1, std::ceil(std::log(kText / scale) / std::log(1.1)));
}

// What a fitted board shows. The words round the cloth have room in the board's margin; they are
// not part of it, since they grow as the board shrinks. Those between a blank and its roll are,
// once: as large as they would be without them.
Rect to_fit(const Frame& f, const Box& box, const LayView& view) {
  const LaidCloth& laid = f.lay.jobs()[view.job].laid;
  if (!view.lamination) {
    Rect seen = cloth_ground(laid.lay);
    for (const LaidPiece& piece : laid.lay.pieces) seen = united(seen, bounds(piece.outline));
    return seen;
  }
  const auto both = [&](double text) {
    const LaminationGround ground = lamination_ground(laid.lay, *laid.lamination, text);
    return united(ground.cloth, ground.roll);
  };
  return both(kText / fitted_view(box, both(0.0), noted_board(f)).scale);
}

void draw_ground(Frame& f, const BoardMap& map, const LaidCloth& laid, bool lamination,
                 double text) {
  const Lay& lay = laid.lay;
  Rect ground = cloth_ground(lay);
  if (lamination) {
    const LaminationGround both = lamination_ground(lay, *laid.lamination, text);
    ground = both.cloth;
    f.paint.fill(box_on_page(map, both.roll), f.colours.paper, 2.0F);
  }
  f.paint.fill(box_on_page(map, ground), f.colours.paper, 2.0F);
  const double selvage = lay.cloth.selvage_mm;
  for (const double y : {0.0, ground.y1 - selvage}) {
    f.paint.fill(box_on_page(map, {ground.x0, y, ground.x1, y + selvage}),
                 faded(f.colours.card_edge, 0.55F));
  }
}

void outline_touched(Frame& f, const BoardMap& map, const LaidPiece& piece) {
  f.paint.polyline(map.page(piece.outline), faded(f.colours.tape, 0.85F), 7.0F, true);
}

// A piece for the keyboard and the mirror; fingers and the mouse reach it on the board itself, by
// its outline.
void piece_control(Frame& f, const BoardMap& map, const LayView& view, size_t number) {
  const LaidPiece& piece = f.lay.jobs()[view.job].laid.lay.pieces[number];
  const std::string id = "laid." + std::to_string(number);
  const Rect box = bounds(piece.outline);
  auto& touched = f.view.lay.touched;
  f.ui.add({.id = id,
            .role = ControlRole::Toggle,
            .name = laid_name(f, piece),
            .value = f.words("ui.lay-at",
                             {f.length(std::max(0.0, box.x0)), f.length(std::max(0.0, box.y0))}),
            .box = box_on_page(map, box),
            .group = {},
            .chosen = touched == static_cast<int>(number),
            .through = true});
  answer_piece_keys(f, view, number, id);
  if (f.ui.acted(id)) touched = touched == static_cast<int>(number) ? -1 : static_cast<int>(number);
}

void touched_note(Frame& f, const Box& box, const LayJob& job, size_t number) {
  const LaidPiece& piece = job.laid.lay.pieces[number];
  const Rect size = bounds(piece.outline);
  const BoardNote note{
      .id = "note.piece",
      .title = laid_name(f, piece),
      .text = f.words("ui.lay-piece", {f.length(size.width()), f.length(size.height())}),
      .action = may_turn(job, number) ? f.words("ui.lay-hand-turn") : ""};
  if (board_note(f, box, note)) f.view.lay.touched = -1;
  if (f.ui.acted("note.piece.action")) turn_piece(f, job, number);
}

}  // namespace

void lay_board(Frame& f, const Box& box) {
  const std::optional<LayView> view = looked_at(f);
  const LayJob* job = view ? &f.lay.jobs()[view->job] : nullptr;
  const bool drawn = job != nullptr && job->search;
  const double text = text_mm(f);
  const LayDesk::Picture* picture = drawn ? &f.lay.picture(*view, text, f.ticket.unit) : nullptr;
  const Rect seen = drawn ? to_fit(f, box, *view) : Rect{0.0, 0.0, 1200.0, 900.0};
  auto& touched = f.view.lay.touched;
  const bool held = drawn && answer_piece_drag(f, BoardMap(box, f.view.board()), *view);
  const BoardMap map = board(f, box, seen, f.words("ui.board-lay"), held, !held);
  if (drawn) {
    const Lay& lay = job->laid.lay;
    if (view->lamination || touched >= static_cast<int>(lay.pieces.size())) touched = -1;
    f.paint.push_clip(box);
    f.ui.begin_clip(box);
    draw_ground(f, map, job->laid, view->lamination, text);
    draw_washes(f, map, picture->washes, 1.0F);
    if (touched >= 0) outline_touched(f, map, lay.pieces[static_cast<size_t>(touched)]);
    draw_items(f, map, picture->drawing, 1.0F);
    tell_drawing(f, map, picture->drawing, view->lamination);
    for (size_t i = 0; i < job->laid.left_over.size() && !view->lamination; ++i) {
      const Rect& rest = job->laid.left_over[i];
      words_at(f, "rest." + std::to_string(i), box_on_page(map, rest),
               f.words("ui.lay-left") + ": " + rest_words(f, rest));
    }
    for (size_t i = 0; i < lay.pieces.size() && !view->lamination; ++i) {
      piece_control(f, map, *view, i);
    }
    if (job->by_hand() && !view->lamination) draw_lay_faults(f, map, *job);
    if (const Gesture* tap = f.ui.find(Gesture::Kind::Tap, kBoardId)) {
      const int hit = piece_at(f, map, lay, tap->at);
      touched = hit == touched ? -1 : hit;
    }
    f.ui.end_clip();
    f.paint.pop_clip();
  }
  if (refusal_note(f, box)) return;
  // Here and nowhere else, so always.
  const auto wrong = [&](const char* id, const Problem& problem) {
    board_note(f, box, {.id = id, .text = sentence_of(f, problem), .wrong = true, .closes = false});
  };
  if (job != nullptr && job->refusal) wrong("note.lay", *job->refusal);
  if (drawn && job->hand_refusal) wrong("note.hand", *job->hand_refusal);
  if (notice(f, box) || (job != nullptr && job->refusal)) return;
  // While a piece is held nothing lies over the board that need not.
  if (held) return;
  // A phone's board has no room for two notes; the sheet below it tells of the piece too.
  if (f.layout.narrow && drawn && job->hand_refusal) return;
  if (drawn && touched >= 0) {
    touched_note(f, box, *job, static_cast<size_t>(touched));
  } else {
    guidance(f, box);
  }
}

}  // namespace coatwright::studio
