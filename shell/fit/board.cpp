#include "shell/fit/board.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "core/ticket/ids.h"
#include "shell/fit/panel.h"
#include "shell/fit/photo_board.h"
#include "shell/kit/board.h"
#include "shell/kit/board_words.h"
#include "shell/kit/dog.h"
#include "shell/kit/pointers.h"
#include "shell/kit/widgets.h"
#include "shell/words/say.h"

namespace coatwright::studio {
namespace {

// Of the last fitting, whose coat the dog wears.
int notes_at(const Frame& f, FitPlace place) {
  if (f.ticket.fittings.empty()) return 0;
  const auto& notes = f.ticket.fittings.back().notes;
  return static_cast<int>(std::count_if(notes.begin(), notes.end(),
                                        [&](const FitNote& n) { return n.place == place; }));
}

std::string name_at(const Frame& f, FitPlace place) {
  return f.words(std::string("place.") + id_of(place));
}
Spot spot_of(const Frame& f, const BoardMap& map, FitPlace place) {
  return map.page(f.derived.fit_places[static_cast<size_t>(place)]);
}

// No larger than the dog has room for; a finger has the whole box.
float pin_size(const Frame& f, const BoardMap& map) {
  const auto dog = static_cast<float>(map.scale() * f.derived.dog_bounds.width());
  return std::clamp(0.03F * dog, 3.5F, 13.0F);
}

bool overlap(const Box& a, const Box& b) {
  const Box both = intersected(a, b);
  return both.w > 0.0F && both.h > 0.0F;
}

// Where a pin's name stands: beside it, or under or over it, on no other pin and no other name. Nothing
// where there is no such place: it stands on the sheet, too.
std::optional<Box> name_place(const Frame& f, const BoardMap& map, FitPlace place,
                              const std::vector<Box>& taken) {
  constexpr float kHigh = 24.0F;
  const Spot at = spot_of(f, map, place);
  const float width = text_width(name_at(f, place), kBody) + 12.0F, size = pin_size(f, map);
  const float beside = size + 5.0F, over = size + 3.0F + kHigh;
  for (const Box& plate : {Box{at.x + beside, at.y - 0.5F * kHigh, width, kHigh},
                           Box{at.x - beside - width, at.y - 0.5F * kHigh, width, kHigh},
                           Box{at.x - 0.5F * width, at.y + over - kHigh, width, kHigh},
                           Box{at.x - size, at.y + over - kHigh, width, kHigh},
                           Box{at.x - 0.5F * width, at.y - over, width, kHigh}}) {
    const bool on_board = plate.x >= map.box().x && plate.right() <= map.box().right();
    const auto covers = [&](const Box& other) { return overlap(plate, other); };
    const auto covers_pin = [&](FitPlace other) {
      return other != place && overlap(plate, around(spot_of(f, map, other), 2.0F * size));
    };
    const auto& all = all_of<FitPlace>();
    if (on_board && std::none_of(taken.begin(), taken.end(), covers) &&
        std::none_of(all.begin(), all.end(), covers_pin)) {
      return plate;
    }
  }
  return std::nullopt;
}

// The names, where the board has room for them; the chosen one's first.
void write_names(Frame& f, const BoardMap& map) {
  std::vector<FitPlace> places;
  for (const FitPlace place : all_of<FitPlace>()) {
    const bool lit = f.view.fit.place == place;
    if (!f.layout.narrow || (lit && !f.view.fit.kind)) {
      places.insert(lit ? places.begin() : places.end(), place);
    }
  }
  std::vector<Box> taken;
  for (const FitPlace place : places) {
    const auto plate = name_place(f, map, place, taken);
    if (!plate) continue;
    taken.push_back(*plate);
    const bool lit = f.view.fit.place == place;
    f.paint.fill(*plate, lit ? f.colours.tape : faded(f.colours.card, 0.85F), 8.0F);
    f.paint.text(plate->centre(), name_at(f, place), kBody,
                 lit ? f.colours.tape_ink : f.colours.ink, Align::Middle);
  }
}

void place_pin(Frame& f, const BoardMap& map, FitPlace place) {
  const Spot at = spot_of(f, map, place);
  const std::string id = std::string("pin.") + id_of(place);
  const int notes = notes_at(f, place);
  const bool lit = f.view.fit.place == place, noted = notes > 0;
  const float size = pin_size(f, map);
  const bool small = size < 10.0F;
  if (lit) f.paint.disc(at, size + 5.0F, f.colours.tape);
  f.paint.disc(at, size, noted ? f.colours.solid : f.colours.knob);
  f.paint.ring(at, size, f.colours.ink, small ? 1.5F : 2.0F);
  if (noted && !small) {
    f.paint.text(at, std::to_string(notes), kStrong, f.colours.solid_text, Align::Middle);
  } else if (!noted && !small) {
    f.paint.disc(at, 3.5F, f.colours.ink);
  }
  f.ui.add({.id = id,
            .role = ControlRole::Toggle,
            .name = f.words("ui.fit-pin", {name_at(f, place)}),
            .value = noted ? f.words("ui.fit-notes", {std::to_string(notes)}) : "",
            .box = around(at, kTarget),
            .group = f.words("ui.fit-places"),
            .chosen = lit,
            .travel = Travel::Pan,
            .in_set = true});
  if (f.ui.acted(id)) go_to_place(f, lit ? std::nullopt : std::optional(place));
}

void dog_board(Frame& f, const Box& box) {
  const BoardMap map = board(f, box, f.derived.dog_bounds, f.words("ui.board-fit"), false);
  f.paint.push_clip(box);
  f.ui.begin_clip(box);
  draw_dog(f, map);
  if (f.derived.body) {
    write_names(f, map);
    for (const FitPlace place : all_of<FitPlace>()) place_pin(f, map, place);
  }
  f.ui.end_clip();
  f.paint.pop_clip();
}

// What was: dashed, so that it is told from the lines of now by more than its colour.
void draw_before(Frame& f, const BoardMap& map, const Comparison& c) {
  const float dash[] = {9.0F, 6.0F};
  for (const PieceLine& line : c.before) {
    for (const PlacedPiece& piece : c.drawing.placed) {
      if (piece.id != line.piece) continue;
      Line out;
      for (const Point p : line.points) out.push_back(map.page(p + piece.shift));
      f.paint.dashes(out, dash, f.colours.chalk_text, 2.6F, true);
    }
  }
}

// By how much an edge has become longer or shorter, on the edge.
void write_changes(Frame& f, const BoardMap& map, const Comparison& c) {
  std::vector<Box> taken;
  for (const EdgeChange& change : c.changes) {
    const std::string by = difference_words(f, change.after_mm - change.before_mm);
    if (by.empty()) continue;
    for (const PlacedPiece& piece : c.drawing.placed) {
      if (piece.id != change.piece) continue;
      const Spot at = map.page(change.at + piece.shift);
      const float width = text_width(by, kStrong) + 16.0F;
      const Box plate{at.x - 0.5F * width, at.y - 13.0F, width, 26.0F};
      const bool crowded = std::any_of(taken.begin(), taken.end(),
                                       [&](const Box& other) { return overlap(plate, other); });
      if (crowded) continue;  // it stands on the side sheet
      taken.push_back(plate);
      f.paint.fill(plate, f.colours.solid, 13.0F);
      f.paint.text(plate.centre(), by, kStrong, f.colours.solid_text, Align::Middle);
      words_at(f, "change." + change.edge, plate, name_of(change.edge, f.words) + ": " + by);
    }
  }
}

void comparison_board(Frame& f, const Box& box, const Comparison& c) {
  const BoardMap map =
      board(f, box, c.drawing.drawing.bounds, f.words("ui.board-fit-pattern"), false);
  f.paint.push_clip(box);
  draw_washes(f, map, c.washes, 1.0F);
  draw_items(f, map, c.drawing.drawing, 1.0F);
  draw_before(f, map, c);
  tell_pieces(f, map, c.drawing);
  write_changes(f, map, c);
  f.paint.pop_clip();
}

}  // namespace

void fit_board(Frame& f, const Box& box) {
  const auto& c = f.derived.comparison;
  const bool pattern = c && !c->refusal;
  const bool photo = !pattern && photograph_seen(f) != nullptr;
  const size_t shown = pattern ? 1 : photo ? 2 + *f.view.fit.photo : 0;
  // The dog, the pattern and a photograph are of different sizes: each is looked at whole when it comes.
  if (std::exchange(f.view.fit.on_board, shown) != shown) f.view.board().fitted = true;
  if (photo) {
    photo_board(f, box);
  } else {
    pattern ? comparison_board(f, box, *c) : dog_board(f, box);
  }
  if (!refusal_note(f, box) && !notice(f, box) && !f.view.fit.kind) guidance(f, box);
}

}  // namespace coatwright::studio
