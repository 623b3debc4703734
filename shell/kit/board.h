// The board: a sheet of pattern card that a drawing lies on, and how it is looked at.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

// From the drawing's millimetres to the page and back.
class BoardMap {
 public:
  BoardMap(const Box& box, const BoardView& view)
      : box_(box), centre_(view.centre), scale_(view.scale) {}
  [[nodiscard]] Spot page(Point p) const {
    const Spot c = box_.centre();
    return {c.x + static_cast<float>((p.x - centre_.x) * scale_),
            c.y + static_cast<float>((p.y - centre_.y) * scale_)};
  }
  [[nodiscard]] Point drawing(Spot s) const {
    const Spot c = box_.centre();
    return {centre_.x + static_cast<double>(s.x - c.x) / scale_,
            centre_.y + static_cast<double>(s.y - c.y) / scale_};
  }
  [[nodiscard]] Line page(const Polyline& line) const;
  [[nodiscard]] double scale() const { return scale_; }  // CSS pixels a mm
  [[nodiscard]] const Box& box() const { return box_; }

 private:
  Box box_;
  Point centre_;
  double scale_;
};

// Draws the card, answers panning, zooming and fitting, and gives the map. `name`: what lies on it,
// for screen readers. While `hold` is set a fitted view stays where it is; without `pans` a finger
// moves something else than the board.
BoardMap board(Frame& f, const Box& box, const Rect& drawing, const std::string& name, bool hold,
               bool pans = true);

// A view that shows the whole drawing in the box, above a strip of height `below`.
[[nodiscard]] BoardView fitted_view(const Box& box, const Rect& drawing, float below);

// Draws lines, fills and texts of a drawing list, each role with its pen.
void draw_washes(Frame& f, const BoardMap& map, const std::vector<Wash>& washes, float strength);
// How large a text of the drawing is painted, CSS px; 0: too small to be read, it waits for a closer
// look.
[[nodiscard]] float painted_size(const BoardMap& map, const TextItem& text);
void draw_items(Frame& f, const BoardMap& map, const Drawing& drawing, float strength);
// One line in its role's pen.
void draw_stroke(Frame& f, const BoardMap& map, const StrokeItem& stroke, float strength);

// The line with an id nearest to a spot, within a fingertip; empty if there is none.
[[nodiscard]] std::string line_at(const BoardMap& map, const Drawing& drawing, Spot spot);

// A note laid over the board's lower edge: a title, a text and a key that puts it away; returns
// true when that was pressed. Returns its top edge through `top`.
struct BoardNote {
  std::string id = {};
  std::string title = {};
  std::string text = {};
  std::string brief = {};  // painted instead on a telephone, where there is little room
  bool wrong = false;
  bool closes = true;
  bool told = true;               // of itself, as it comes; else it stands there to be read
  std::string action = {};        // words of a key beside the text, "ID.action"; empty: none
  std::string action_brief = {};  // painted instead on a telephone
  std::string closes_as = {};     // what putting it away is called; empty: just that
  std::optional<coatwright::Role> line = {};  // a line that the text is about, drawn ahead of it
};
bool board_note(Frame& f, const Box& board, const BoardNote& note);

// A notice about files and storage, if there is one. Returns whether it stands there.
bool notice(Frame& f, const Box& board);
// Why there is no draft, if there is none.
bool refusal_note(Frame& f, const Box& board);

// Something is to be told of how things are kept, which leaves no room for guidance on a telephone.
[[nodiscard]] bool keeping_note_stands(const Frame& f);

// The line of guidance of the present station, until it is put away.
// On a phone notes stand on top of the side sheet, which begins below them, and leave the board to
// what it shows; while the keypad fills the sheet they stand over the board. How much of the board's
// lower edge they take, and of the sheet's upper one.
[[nodiscard]] bool notes_on_sheet(const Frame& f);
[[nodiscard]] float noted_board(const Frame& f);
[[nodiscard]] float noted_sheet(const Frame& f);
// The part of the side sheet that lies on the page and below its notes.
[[nodiscard]] Box sheet_in_sight(const Frame& f);
void guidance(Frame& f, const Box& board);

}  // namespace coatwright::studio
