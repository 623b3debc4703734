#include "shell/measure/board.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <span>

#include "shell/kit/board.h"
#include "shell/kit/dog.h"
#include "shell/kit/pointers.h"
#include "shell/kit/status.h"
#include "shell/measure/list.h"
#include "shell/measure/panel.h"

namespace coatwright::studio {
namespace {

bool is_shown(const Frame& f, Measure m) {
  const std::vector<Measure> listed = measures_of(style_of(f.ticket), f.ticket.choices);
  return std::find(listed.begin(), listed.end(), m) != listed.end() || f.view.measure == m;
}

bool is_wrong(const Frame& f, Measure m) { return !sentences_about(f, info(m).id).empty(); }

Colour tape_colour(const Frame& f, Measure m) {
  if (is_wrong(f, m)) return f.colours.brick;
  return f.view.measure == m ? f.colours.ink : f.colours.chalk;
}

void draw_tape(Frame& f, const BoardMap& map, const DogTape& tape) {
  const bool lit = f.view.measure == tape.measure;
  const Colour colour = tape_colour(f, tape.measure);
  const Line line = map.page(tape.line);
  // What is chosen lies on a strip of the tape's yellow.
  if (lit) f.paint.polyline(line, faded(f.colours.tape, 0.9F), 12.0F);
  if (f.derived.body && f.derived.body->of(tape.measure).estimated()) {
    const float dash[] = {7.0F, 5.0F};
    f.paint.dashes(line, dash, colour, lit ? 4.0F : 2.4F);
  } else {
    f.paint.polyline(line, colour, lit ? 5.0F : 2.8F);
  }
  f.paint.disc(line.front(), lit ? 5.0F : 3.5F, colour);
  f.paint.disc(line.back(), lit ? 5.0F : 3.5F, colour);
}

struct Label {
  const DogTape* tape;
  std::string name, value;
  Box box;
  float wanted_y = 0.0F;  // of its box, before others pushed it
};

// Where labels may stand: on the board, above its note.
Box label_room(const Frame& f, const BoardMap& map) {
  const Box board = map.box();
  return board.top(board.h - noted_board(f)).inset(6.0F, 6.0F);
}

// Where the words of a tape stand: beside its label place, on the side that the drawing says.
Label label_of(const Frame& f, const BoardMap& map, const DogTape& tape) {
  Label label{&tape,
              f.words(std::string("measure.") + info(tape.measure).id),
              value_words(f, tape.measure),
              {}};
  if (f.layout.narrow)
    label.name = f.words(std::string("measure.") + info(tape.measure).id + ".short");
  const float width =
      std::max(text_width(label.name, kBody),
               text_width(label.value, kStrong) + (is_wrong(f, tape.measure) ? 22.0F : 0.0F)) +
      8.0F;
  const float height = 42.0F;
  const Spot at = map.page(tape.label_at);
  const auto tx = static_cast<float>(tape.label_toward.x),
             ty = static_cast<float>(tape.label_toward.y);
  const Spot centre{at.x + tx * (0.5F * width + 10.0F), at.y + ty * (0.5F * height + 8.0F)};
  label.box = {centre.x - 0.5F * width, centre.y - 0.5F * height, width, height};
  const Box room = label_room(f, map);
  label.box.x = std::clamp(label.box.x, room.x, std::max(room.x, room.right() - width));
  label.box.y = std::clamp(label.box.y, room.y, std::max(room.y, room.bottom() - height));
  label.wanted_y = label.box.y;
  return label;
}

bool overlap(const Box& a, const Box& b) {
  const Box both = intersected(a, b);
  return both.w > 2.0F && both.h > 2.0F;
}

// How far a label may be moved up or down before it would be read as another tape's.
float farthest(const Frame& f) { return f.layout.narrow ? 14.0F : 46.0F; }

// Words that stand above their tape are not pushed down onto it, nor those below it up.
constexpr float kNudge = 2.0F;
float room_above(const Frame& f, const Label& label) {
  return label.tape->label_toward.y > 0.5 ? kNudge : farthest(f);
}
float room_below(const Frame& f, const Label& label) {
  return label.tape->label_toward.y < -0.5 ? kNudge : farthest(f);
}

// Labels that cover one another are pushed apart, up and down, by half of what they share; the chosen
// one stays.
void spread(const Frame& f, const Box& room, std::span<Label> labels) {
  constexpr int kRounds = 40;
  constexpr float kApart = 3.0F;
  const auto push = [&](Label& label, float dy) {
    if (f.view.measure == label.tape->measure) return;
    const float y = std::clamp(label.box.y + dy, label.wanted_y - room_above(f, label),
                               label.wanted_y + room_below(f, label));
    label.box.y = std::clamp(y, room.y, std::max(room.y, room.bottom() - label.box.h));
  };
  for (int round = 0; round < kRounds; ++round) {
    for (size_t i = 0; i < labels.size(); ++i) {
      for (size_t j = i + 1; j < labels.size(); ++j) {
        Label &a = labels[i], &b = labels[j];
        const Box both = intersected(a.box.inset(-kApart, -kApart), b.box.inset(-kApart, -kApart));
        if (both.w <= 0.0F || both.h <= 0.0F) continue;
        const float half = (a.wanted_y <= b.wanted_y ? 0.5F : -0.5F) * both.h;
        push(a, -half);
        push(b, half);
      }
    }
  }
}

// Whether it would lie over an end of another tape.
bool covers_end(const Frame& f, const BoardMap& map, const Label& label, const Box& box) {
  return std::any_of(f.derived.tapes.begin(), f.derived.tapes.end(), [&](const DogTape& tape) {
    if (tape.measure == label.tape->measure || !is_shown(f, tape.measure)) return false;
    return box.contains(map.page(tape.line.front())) || box.contains(map.page(tape.line.back()));
  });
}

// Where a label covers no other label, and if there is such a place no tape's end either: where it
// is, a little up or down, and words above or below their tape a little to its side.
std::optional<Box> free_place(const Frame& f, const BoardMap& map, const Label& label,
                              const std::vector<Label>& placed) {
  const Box room = label_room(f, map);
  const bool sideways = !f.layout.narrow && std::abs(label.tape->label_toward.y) > 0.5;
  const float side = sideways ? 0.5F * label.box.w : 0.0F;
  std::optional<Box> second;
  for (const float dx : {0.0F, side, -side}) {
    for (const float dy : {0.0F, 12.0F, -12.0F, 24.0F, -24.0F, 40.0F}) {
      if (f.layout.narrow && std::abs(dy) > 12.0F) break;
      const float off = label.box.y + dy - label.wanted_y;
      if (dy != 0.0F && (off > room_below(f, label) || -off > room_above(f, label))) continue;
      const Box moved = label.box.moved(dx, dy);
      const bool outside = moved.x < room.x || moved.right() > room.right() || moved.y < room.y ||
                           moved.bottom() > room.bottom();
      const bool taken =
          outside || std::any_of(placed.begin(), placed.end(),
                                 [&](const Label& other) { return overlap(other.box, moved); });
      if (taken) continue;
      if (!covers_end(f, map, label, moved)) return moved;
      if (!second) second = moved;
    }
  }
  return second;
}

// The labels that have room: the chosen measure's first, then in the order of the list; one that
// would cover another is moved a little, and at last left out.
std::vector<Label> placed_labels(const Frame& f, const BoardMap& map) {
  std::vector<Label> wanted, placed;
  for (const DogTape& tape : f.derived.tapes) {
    // A phone's board has room for the chosen one's words only.
    const bool alone = f.layout.narrow && f.view.measure && f.view.measure != tape.measure;
    if (is_shown(f, tape.measure) && !alone) wanted.push_back(label_of(f, map, tape));
  }
  std::stable_partition(wanted.begin(), wanted.end(),
                        [&](const Label& l) { return f.view.measure == l.tape->measure; });
  // Where there is little room the needed measures come first, and the others take what is left.
  auto end = wanted.end();
  if (f.layout.narrow) {
    end = std::stable_partition(wanted.begin(), wanted.end(), [](const Label& l) {
      return info(l.tape->measure).need == Need::Required;
    });
  }
  spread(f, label_room(f, map), {wanted.data(), static_cast<size_t>(end - wanted.begin())});
  for (const Label& label : wanted) {
    if (const auto box = free_place(f, map, label, placed)) {
      placed.push_back(label);
      placed.back().box = *box;
    }
  }
  return placed;
}

// From a label that was pushed away to its place.
void draw_leader(Frame& f, const BoardMap& map, const Label& label, Colour colour) {
  if (std::abs(label.box.y - label.wanted_y) < 10.0F) return;
  const Spot at = map.page(label.tape->label_at);
  const Box& box = label.box;
  f.paint.line({std::clamp(at.x, box.x, box.right()), std::clamp(at.y, box.y, box.bottom())}, at,
               faded(colour, 0.6F), 1.4F);
}

void draw_label(Frame& f, const BoardMap& map, const Label& label) {
  const Measure m = label.tape->measure;
  const std::string id = std::string("tape.") + info(m).id;
  const bool lit = f.view.measure == m, wrong = is_wrong(f, m);
  draw_leader(f, map, label, tape_colour(f, m));
  const float x = label.box.x + 4.0F, mid = label.box.centre().y;
  // A name alone covers no more of the dog than it must; a finger has the whole box.
  const bool alone = label.value.empty();
  const Box plate =
      alone ? Box{label.box.x, mid - 11.0F, label.box.w, 22.0F} : label.box.inset(0.0F, -1.0F);
  f.paint.fill(plate.inset(-3.0F, 0.0F), lit ? f.colours.tape : faded(f.colours.card, 0.82F), 8.0F);
  const Colour name = lit ? f.colours.tape_ink : wrong ? f.colours.brick : f.colours.chalk_text;
  f.paint.text({x, alone ? mid : mid - 10.5F}, label.name, kBody, name);
  const bool estimated = f.derived.body && f.derived.body->of(m).estimated();
  f.paint.text({x, mid + 10.5F}, label.value, kStrong,
               lit         ? f.colours.tape_ink
               : estimated ? f.colours.chalk_text
                           : f.colours.ink);
  if (wrong) standing_mark(f, {label.box.right() - 8.0F, mid + 11.5F}, Tone::Wrong);
  f.ui.add({.id = id,
            .role = ControlRole::Toggle,
            .name = f.words("ui.tape", {label.name}),
            .value = label.value + (wrong ? ", " + f.words("level.check") : ""),
            .box = label.box.inset(-3.0F, -3.0F),
            .group = f.words("ui.tapes"),
            .chosen = f.view.measure == m,
            .travel = Travel::Pan,
            .in_set = true});
  if (f.ui.acted(id)) go_to_measure(f, m);
}

// A tap on the board takes the tape under the finger.
void answer_tap(Frame& f, const BoardMap& map) {
  const Gesture* tap = f.ui.find(Gesture::Kind::Tap, kBoardId);
  if (tap == nullptr) return;
  const Point p = map.drawing(tap->at);
  double nearest = 24.0 / map.scale();
  std::optional<Measure> measure;
  for (const DogTape& tape : f.derived.tapes) {
    const double d = distance_to_polyline(tape.line, p);
    if (!is_shown(f, tape.measure) || d >= nearest) continue;
    nearest = d;
    measure = tape.measure;
  }
  if (measure) go_to_measure(f, *measure);
}

// The second thing to be said of the chosen measure; the first stands beside its number. In the
// list each measure's sentence stands under its row.
bool check_note(Frame& f, const Box& box) {
  if (!f.view.measure || f.layout.narrow) return false;
  const auto all = sentences_about(f, info(*f.view.measure).id);
  if (all.size() < 2) return false;
  board_note(f, box, {.id = "note.check", .text = all[1], .wrong = true, .closes = false});
  return true;
}

// Where the sheet has room for the keypad alone: what is said of the measure, or where its tape runs.
bool taking_note(Frame& f, const Box& box) {
  if (!f.layout.bare || f.layout.portrait || !f.view.measure) return false;
  const auto told = sentences_about(f, info(*f.view.measure).id);
  const bool wrong = f.view.entry_problem || !told.empty();
  const std::string words =
      f.view.entry_problem ? sentence_of(f, *f.view.entry_problem)
      : wrong              ? told[0]
                           : f.words(std::string("measure.") + info(*f.view.measure).id + ".tape");
  board_note(f, box, {.id = "note.taking", .text = words, .wrong = wrong, .closes = false});
  return true;
}

// What is wrong, over the board's lower edge, and above it what happened last.
void notes(Frame& f, const Box& box) {
  const bool wrong = taking_note(f, box) || refusal_note(f, box) || check_note(f, box);
  const bool noticed = notice(f, box);
  // On a telephone the dog needs the room while a tape line is taken.
  const bool taking = f.layout.narrow && f.view.measure.has_value();
  if (!wrong && !noticed && !taking) guidance(f, box);
}

}  // namespace

void measure_board(Frame& f, const Box& box) {
  const BoardMap map = board(f, box, f.derived.dog_bounds, f.words("ui.board-measure"), false);
  f.paint.push_clip(box);
  f.ui.begin_clip(box);
  draw_dog(f, map);
  for (const DogTape& tape : f.derived.tapes) {
    if (is_shown(f, tape.measure) && f.view.measure != tape.measure) draw_tape(f, map, tape);
  }
  for (const DogTape& tape : f.derived.tapes) {
    if (f.view.measure == tape.measure) draw_tape(f, map, tape);
  }
  for (const Label& label : placed_labels(f, map)) draw_label(f, map, label);
  answer_tap(f, map);
  f.ui.end_clip();
  f.paint.pop_clip();
  notes(f, box);
}

}  // namespace coatwright::studio
