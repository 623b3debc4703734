#include "shell/draft/board.h"

#include <algorithm>
#include <cmath>

#include "core/draft/options/front.h"
#include "shell/kit/board.h"
#include "shell/kit/board_words.h"
#include "shell/kit/choice_control.h"
#include "shell/kit/handles.h"
#include "shell/kit/pointers.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"
#include "shell/words/say.h"
#include "shell/words/step_words.h"

namespace coatwright::studio {
namespace {

const PlacedPiece* placed_piece(const Derived& derived, std::string_view id) {
  const auto& placed = derived.drawing.placed;
  const auto found =
      std::find_if(placed.begin(), placed.end(), [&](const PlacedPiece& p) { return p.id == id; });
  return found == placed.end() ? nullptr : &*found;
}

Line on_page(const BoardMap& map, const PlacedPiece& piece, const Polyline& own) {
  Line line;
  for (const Point p : own) line.push_back(map.page(p + piece.shift));
  return line;
}

void draw_trail(Frame& f, const BoardMap& map, const Trail& trail) {
  const double age = f.now_ms - trail.changed_ms;
  if (age > kGhostMs) return;
  f.again = true;
  const float ghost = static_cast<float>(std::clamp(2.0 - 2.0 * age / kGhostMs, 0.0, 1.0));
  const float dash[] = {3.0F, 4.0F};
  for (const PieceLine& line : trail.left) {
    const PlacedPiece* piece = placed_piece(f.derived, line.piece);
    if (piece == nullptr) continue;
    f.paint.dashes(on_page(map, *piece, line.points), dash, faded(f.colours.soft, 0.75F * ghost),
                   1.5F, true);
  }
  if (age > kGlowMs) return;
  const float glow = static_cast<float>(1.0 - age / kGlowMs);
  for (const PieceLine& line : trail.moved) {
    const PlacedPiece* piece = placed_piece(f.derived, line.piece);
    if (piece == nullptr) continue;
    f.paint.polyline(on_page(map, *piece, line.points), faded(f.colours.tape, 0.75F * glow), 9.0F);
  }
}

void draw_touched(Frame& f, const BoardMap& map) {
  if (f.view.touched.empty()) return;
  for (const DrawItem& item : f.derived.drawing.drawing.items) {
    const auto* stroke = std::get_if<StrokeItem>(&item);
    if (stroke == nullptr || stroke->id != f.view.touched) continue;
    f.paint.polyline(map.page(stroke->points), faded(f.colours.tape, 0.8F), 8.0F);
  }
}

void draw_pattern_on(Frame& f, const BoardMap& map, const Trail& trail) {
  const float strength = f.derived.stale ? 0.3F : 1.0F;
  draw_washes(f, map, f.derived.washes, strength);
  draw_trail(f, map, trail);
  draw_touched(f, map);
  draw_items(f, map, f.derived.drawing.drawing, strength);
}

// The names of the dog's own lines, where the board has room for them.
void name_body_map(Frame& f, const BoardMap& map) {
  const PlacedPiece* body = placed_piece(f.derived, "body");
  if (body == nullptr || f.layout.narrow || map.scale() < 0.6) return;
  const BodyMap& lines = f.derived.pattern->draft.map;
  const auto name = [&](const char* key, Point at, float dx, float dy, Align align) {
    const Spot spot = map.page(at + body->shift);
    f.paint.text({spot.x + dx, spot.y + dy}, f.words(key), kBody, f.colours.chalk_text, align);
  };
  const ForelegZone& zone = lines.foreleg;
  const double top = zone.centre.y - zone.radius;
  name("ui.map-foreleg", {zone.centre.x, 0.5 * (top + zone.bottom)}, 0.0F, 0.0F, Align::Middle);
  const Point low = lines.girth_point();
  name("ui.map-girth-line", low, -8.0F, -10.0F, Align::End);
  const double u = 0.5 * (lines.last_rib_u + lines.loin_u);
  name("ui.map-midline", {u, lines.half_girth(u)}, 6.0F, 20.0F, Align::Start);
  std::string names;
  for (const char* key : {"ui.map-foreleg", "ui.map-girth-line", "ui.map-midline"}) {
    names += (names.empty() ? "" : ", ") + f.words(key);
  }
  words_at(f, "piece.map", map.box(), f.words("ui.map-lines", {names}));
}

constexpr float kBesideLine = 22.0F;  // px, where a line's length is written

// The edges as controls for the keyboard and the mirror; fingers and the mouse touch the lines
// themselves.
void edge_controls(Frame& f, const BoardMap& map, const PlacedPiece& placed) {
  for (const CutPiece& piece : f.derived.pattern->cut.pieces) {
    if (piece.piece.id != placed.id) continue;
    for (const CutEdge& edge : piece.edges) {
      const std::string id = "line." + edge.id;
      if (edge.id.empty() || f.ui.control(id) != nullptr) continue;
      Polyline line = edge.net;
      for (Point& p : line) p = p + placed.shift;
      f.ui.add({.id = id,
                .role = ControlRole::Toggle,
                .name = name_of(edge.id, f.words),
                .value = f.length(edge.length_mm),
                .box = box_on_page(map, bounds(line)).inset(-kBesideLine, -kBesideLine),
                .group = f.words("ui.lines", {f.words("piece." + placed.id)}),
                .chosen = f.view.touched == edge.id,
                .through = true,
                .in_set = true});
      if (f.ui.acted(id)) f.view.touched = f.view.touched == edge.id ? "" : edge.id;
    }
  }
}

// The names of pieces that are too small to hold them, below the piece or above it.
void name_small_pieces(Frame& f, const BoardMap& map) {
  if (f.layout.narrow) return;
  const auto& placed = f.derived.drawing.placed;
  for (const PlacedPiece& piece : placed) {
    const std::string name = f.words("piece." + piece.id);
    const bool named =
        std::any_of(f.derived.drawing.drawing.items.begin(), f.derived.drawing.drawing.items.end(),
                    [&](const DrawItem& item) {
                      const auto* text = std::get_if<TextItem>(&item);
                      return text != nullptr && text->role == Role::Name && text->text == name &&
                             painted_size(map, *text) > 0.0F;
                    });
    if (named) continue;
    const Box box = box_on_page(map, piece.bounds);
    const float width = text_width(name, kBody), x = box.centre().x - 0.5F * width;
    for (const float y : {box.bottom() + 5.0F, box.y - 25.0F}) {
      const Box words{x, y, width, 20.0F};
      const bool taken = std::any_of(placed.begin(), placed.end(), [&](const PlacedPiece& other) {
        return intersected(box_on_page(map, other.bounds), words).w > 0.0F &&
               intersected(box_on_page(map, other.bounds), words).h > 0.0F;
      });
      if (taken) continue;
      f.paint.text(words.centre(), name, kBody, f.colours.ink, Align::Middle);
      break;
    }
  }
}

void draw_handle(Frame& f, Spot at, bool held) {
  f.paint.disc(at, held ? 15.0F : 12.5F, f.colours.ink);
  f.paint.disc(at, held ? 12.5F : 10.5F, f.colours.knob);
  f.paint.disc(at, 4.0F, f.view.evening ? f.colours.table : f.colours.ink);
}

// Takes hold of a handle, moves it, lets it go.
void answer_handle(Frame& f, const BoardMap& map, const HandleInfo& handle, Point at, Vec shift) {
  const std::string id = handle_id(handle);
  const Gesture* drag = f.ui.find(Gesture::Kind::Drag, id);
  if (drag == nullptr) return;
  auto& grip = f.view.grip;
  if (!grip || grip->handle != id) {
    const Spot off = map.page(at) - drag->from;
    grip = Grip{id, off, drag->at};
  }
  grip->finger = drag->at;
  const Point target = map.drawing(drag->at + grip->offset) - shift;
  if (const auto range = choice_range(f, *handle.choice)) {
    const double now = std::clamp(chosen_value(f, *handle.choice), range->lowest, range->highest);
    const PointAt point_at = point_of(handle, style_of(f.ticket), *f.derived.body, f.ticket.choices,
                                      f.derived.alterations);
    set_choice(f, *handle.choice, value_toward(*range, now, at - shift, point_at, target));
  }
  if (drag->phase == Phase::End || drag->phase == Phase::Cancel) grip.reset();
}

// Handles nearer to each other than a fingertip would be taken for one another: the later one waits
// until the board is zoomed in.
constexpr float kHandlesApart = 30.0F;

void draw_handles(Frame& f, const BoardMap& map) {
  std::vector<Spot> drawn;
  for (const HandleInfo& handle : handles_of(style_of(f.ticket))) {
    const PlacedPiece* piece = placed_piece(f.derived, handle.piece);
    const auto place = handle.place(f.derived.pattern->draft);
    if (piece == nullptr || !place) continue;
    const Point at = *place + piece->shift;
    const Spot spot = map.page(at);
    const bool held = f.ui.pressed == handle_id(handle);
    const bool crowded = std::any_of(drawn.begin(), drawn.end(), [&](Spot other) {
      return std::hypot(other.x - spot.x, other.y - spot.y) < kHandlesApart;
    });
    if (crowded && !held) continue;
    drawn.push_back(spot);
    draw_handle(f, spot, held);
    add_choice_slider(f, handle_id(handle), *handle.choice, around(spot, kTarget), Travel::Free);
    answer_handle(f, map, handle, at, piece->shift);
  }
}

// What the finger hides, twice as large, in the corner of the board that is farther away, and the
// choice's value.
void magnifier(Frame& f, const BoardMap& map, const Trail& trail) {
  if (!f.view.grip) return;
  const Grip& grip = *f.view.grip;
  const auto handles = handles_of(style_of(f.ticket));
  const auto handle = std::find_if(handles.begin(), handles.end(), [&](const HandleInfo& h) {
    return grip.handle == handle_id(h);
  });
  if (handle == handles.end()) return;
  const ChoiceInfo& choice = *handle->choice;
  const Box board = map.box();
  const float size = std::min({190.0F, 0.42F * board.w, 0.5F * board.h});
  const bool left = grip.finger.x > board.centre().x;
  const Box lens{left ? board.x + 12.0F : board.right() - size - 12.0F, board.y + 12.0F, size,
                 size};
  if (f.view.finger) {
    f.paint.fill(lens, f.colours.card, 16.0F);
    f.paint.push_clip(lens.inset(2.0F, 2.0F));
    BoardView close;
    close.scale = 2.0 * map.scale();
    close.centre = map.drawing(grip.finger + grip.offset);
    const BoardMap lens_map(lens, close);
    draw_pattern_on(f, lens_map, trail);
    draw_handle(f, lens.centre(), true);
    f.paint.pop_clip();
    f.paint.outline(lens, f.colours.ink, 3.0F, 16.0F);
  }
  const std::string words = f.words(std::string("choice.") + choice.id) + "  " +
                            choice_words(f, choice, chosen_value(f, choice));
  const float width = text_width(words, kStrong) + 28.0F;
  const float y = f.view.finger ? lens.bottom() + 8.0F : lens.y;
  const Box tag{left ? lens.x : lens.right() - width, y, width, 36.0F};
  f.paint.fill(tag, f.colours.solid, 18.0F);
  f.paint.text(tag.centre(), words, kStrong, f.colours.solid_text, Align::Middle);
}

BoardNote touched_note(const Frame& f) {
  const std::string& id = f.view.touched;
  BoardNote note{.id = "note.line", .title = name_of(id, f.words)};
  if (id == kFormerOutline) note.text = f.words("ui.former-legend");
  for (const CutPiece& piece : f.derived.pattern->cut.pieces) {
    for (const CutEdge& edge : piece.edges) {
      if (edge.id != id || !note.text.empty()) continue;
      note.title += "  " + f.length(edge.length_mm);
      if (edge.allowance_mm > 0.0)
        note.text = f.words("ui.allowance", {f.length(edge.allowance_mm)});
    }
  }
  for (const TraceStep& step : f.derived.pattern->draft.trace) {
    if (step.edge != id) continue;
    note.text = say(step, f.words, f.lengths()) + (note.text.empty() ? "" : " ") + note.text;
  }
  return note;
}

// What the front is drafted from that was not asked for when the ticket was made; empty: measured.
std::string to_be_measured(const Frame& f) {
  std::vector<std::string> names;
  for (const Measure m : {Measure::Throat, Measure::GirthPlace}) {
    if (f.derived.pattern->body.of(m).estimated()) names.push_back(name_of(info(m).id, f.words));
  }
  if (names.empty()) return {};
  return f.words(names.size() == 1 ? "ui.former-measure" : "ui.former-measures", names);
}

// Why the draft is another one than the ticket was made for, and what to do about it.
std::string redrafted_words(const Frame& f) {
  std::string out = sentence_of(f, {.code = Code::DraftedAnew});
  const bool depth = f.ticket.choices.of(kFrontDepth).has_value();
  for (const std::string& more : {to_be_measured(f), depth ? f.words("ui.former-depth") : "",
                                  to_cut_again(f.ticket, *f.derived.pattern, f.words)}) {
    if (!more.empty()) out += " " + more;
  }
  return out;
}

// Of a ticket whose maker knows a draft by a former rule: what changed, with the old outlines to be
// seen, until the maker is done with it. False: there is nothing to tell.
bool former_note(Frame& f, const Box& box) {
  if (!is_drafted_anew(f.ticket) || !f.derived.pattern || f.derived.stale) return false;
  if (f.layout.narrow && keeping_note_stands(f)) return false;
  const bool can_show = !f.derived.former.empty(), shown = can_show && f.view.former;
  BoardNote note{.id = "note.former", .closes_as = f.words("ui.former-known")};
  if (shown) {
    note.text = f.words("ui.former-legend");
    note.brief = f.words("ui.former-legend-brief");
    note.line = coatwright::Role::Former;
  } else {
    if (!f.layout.narrow) note.title = f.words("ui.redrafted");
    note.text = redrafted_words(f);
    note.brief = f.words(f.ticket.cut.empty() ? "ui.former-brief" : "ui.former-brief-cut");
  }
  if (can_show) {
    note.action = f.words(shown ? "ui.former-hide" : "ui.former-show");
    note.action_brief = f.words(shown ? "ui.former-hide-brief" : "ui.former-show-brief");
  }
  const bool closed = board_note(f, box, note);
  if (f.ui.acted("note.former.action")) {
    f.view.former = !f.view.former;
    f.again = true;
  }
  if (closed) {
    f.view.former = false;
    f.commands.push_back(KnowDraft{});
  }
  return true;
}

void notes(Frame& f, const Box& box) {
  const bool refused = refusal_note(f, box);
  const bool noticed = notice(f, box);
  if (refused || noticed) return;
  if (!f.view.touched.empty() && f.derived.pattern) {
    if (board_note(f, box, touched_note(f))) f.view.touched.clear();
  } else if (!former_note(f, box)) {
    guidance(f, box);
  }
}

}  // namespace

void draft_board(Frame& f, const Box& box, const Trail& trail) {
  const bool held = f.view.grip.has_value() || !f.ui.pressed.empty();
  const Rect drawn =
      f.derived.pattern ? f.derived.drawing.drawing.bounds : Rect{0.0, 0.0, 500.0, 400.0};
  const bool former = f.view.former && !f.derived.former.empty();
  const std::string name = f.words(former ? "ui.board-draft-former" : "ui.board-draft");
  const BoardMap map = board(f, box, drawn, name, held);
  if (f.derived.pattern) {
    f.paint.push_clip(box);
    f.ui.begin_clip(box);
    draw_pattern_on(f, map, trail);
    name_body_map(f, map);
    name_small_pieces(f, map);
    tell_pieces(f, map, f.derived.drawing, false);
    for (const PlacedPiece& piece : f.derived.drawing.placed) edge_controls(f, map, piece);
    if (!f.derived.stale) draw_handles(f, map);
    if (const Gesture* tap = f.ui.find(Gesture::Kind::Tap, kBoardId)) {
      f.view.touched = line_at(map, f.derived.drawing.drawing, tap->at);
    }
    magnifier(f, map, trail);
    f.ui.end_clip();
    f.paint.pop_clip();
  }
  notes(f, box);
}

}  // namespace coatwright::studio
