#include "shell/fit/photo_board.h"

#include <cmath>

#include "core/fit/photograph.h"
#include "shell/fit/panel.h"
#include "shell/kit/board.h"
#include "shell/kit/pointers.h"
#include "shell/kit/widgets.h"

namespace coatwright::studio {
namespace {

// A pin's head hangs below its point, so that the finger that moves it does not hide what it is put on.
constexpr float kStem = 38.0F, kHead = 15.0F;

struct Seen {
  const Fitting& fitting;
  const Photograph& photograph;
  BoardMap map;  // a pixel of the picture is a millimetre of the drawing

  [[nodiscard]] Spot point(const PhotoPin& pin) const {
    return map.page(Point{pin.x * photograph.width, pin.y * photograph.height});
  }
};

std::string name_of(const Frame& f, const Seen& seen, size_t note) {
  return f.words("ui.photo-pin",
                 {std::to_string(note + 1), note_words(f, seen.fitting.notes[note])});
}

void put(Frame& f, const Seen& seen, size_t note, Spot at) {
  const Point p = seen.map.drawing(at);
  const FitLook& look = f.view.fit;
  f.commands.push_back(
      SetPin{*look.fitting, *look.photo, note,
             PhotoPin{note, p.x / seen.photograph.width, p.y / seen.photograph.height}});
}

void answer_drag(Frame& f, const Seen& seen, const PhotoPin& pin, const std::string& id) {
  for (const Gesture& g : f.ui.gestures()) {
    if (g.kind != Gesture::Kind::Drag || g.id != id) continue;
    if (g.phase == Phase::Begin) f.view.fit.pin_offset = seen.point(pin) - g.from;
    if (g.phase != Phase::Begin) put(f, seen, pin.note, g.at + f.view.fit.pin_offset);
  }
}

// Arrows move the pin that has the focus by a hundredth of the picture, with Shift by ten; Delete takes
// it off.
void answer_keys(Frame& f, const PhotoPin& pin, const std::string& id) {
  if (f.ui.focus != id) return;
  std::erase_if(f.ui.keys(), [&](const Key& key) {
    const double by = key.shift ? 0.1 : 0.01;
    PhotoPin moved = pin;
    if (key.name == "ArrowLeft") moved.x -= by;
    if (key.name == "ArrowRight") moved.x += by;
    if (key.name == "ArrowUp") moved.y -= by;
    if (key.name == "ArrowDown") moved.y += by;
    const bool off = key.name == "Delete" || key.name == "Backspace";
    if (moved == pin && !off) return false;
    const FitLook& look = f.view.fit;
    f.commands.push_back(
        SetPin{*look.fitting, *look.photo, pin.note, off ? std::nullopt : std::optional(moved)});
    return true;
  });
}

void draw_pin(Frame& f, Spot point, size_t note, bool chosen) {
  const Spot head{point.x, point.y + kStem};
  const Colour body = chosen ? f.colours.tape : f.colours.solid;
  const Colour ink = chosen ? f.colours.tape_ink : f.colours.solid_text;
  // With a pale edge, so that it is seen on a coat of any colour.
  const Spot edge[] = {{point.x, point.y - 3.0F},
                       {head.x + 10.0F, head.y - 10.0F},
                       {head.x - 10.0F, head.y - 10.0F}};
  const Spot stem[] = {point, {head.x + 7.0F, head.y - 10.0F}, {head.x - 7.0F, head.y - 10.0F}};
  f.paint.convex(edge, f.colours.paper);
  f.paint.disc(head, kHead + 2.0F, f.colours.paper);
  f.paint.convex(stem, body);
  f.paint.disc(head, kHead, body);
  f.paint.text(head, std::to_string(note + 1), kStrong, ink, Align::Middle);
}

void pin_control(Frame& f, const Seen& seen, const PhotoPin& pin) {
  const Spot point = seen.point(pin);
  const std::string id = "photo.pin." + std::to_string(pin.note + 1);
  const bool chosen = f.view.fit.pin == pin.note;
  draw_pin(f, point, pin.note, chosen);
  const auto percent = [](double part) { return std::to_string(std::lround(100.0 * part)); };
  f.ui.add({.id = id,
            .role = ControlRole::Toggle,
            .name = name_of(f, seen, pin.note),
            .value = f.words("ui.photo-pinned", {percent(pin.x), percent(pin.y)}),
            .box = around({point.x, point.y + kStem}, kTarget),
            .group = f.words("ui.photo-pins"),
            .chosen = chosen,
            .travel = Travel::Free});
  if (f.ui.acted(id)) f.view.fit.pin = chosen ? std::nullopt : std::optional(pin.note);
  answer_drag(f, seen, pin, id);
  answer_keys(f, pin, id);
}

// Where the picture is touched, the chosen note is pinned.
void answer_touch(Frame& f, const Seen& seen) {
  const auto note = f.view.fit.pin;
  const Gesture* tap = f.ui.find(Gesture::Kind::Tap, kBoardId);
  if (!note || *note >= seen.fitting.notes.size() || tap == nullptr) return;
  const Point p = seen.map.drawing(tap->at);
  const bool on =
      p.x >= 0.0 && p.x <= seen.photograph.width && p.y >= 0.0 && p.y <= seen.photograph.height;
  if (on) put(f, seen, *note, tap->at);
}

std::string told(const Frame& f, const Fitting& fitting, const Photograph& photograph) {
  std::string pins;
  for (const PhotoPin& pin : photograph.pins) {
    pins += (pins.empty() ? "" : "; ") + std::to_string(pin.note + 1) + " " +
            note_words(f, fitting.notes[pin.note]);
  }
  const std::string name = f.words("ui.photo", {std::to_string(*f.view.fit.photo + 1)});
  return pins.empty() ? name : name + ". " + f.words("ui.photo-pins") + ": " + pins;
}

void draw_picture(Frame& f, const Seen& seen) {
  const Spot from = seen.map.page(Point{0.0, 0.0});
  const Spot to = seen.map.page(Point{1.0 * seen.photograph.width, 1.0 * seen.photograph.height});
  const Box box{from.x, from.y, to.x - from.x, to.y - from.y};
  if (f.photos.texture() != nullptr) return f.paint.picture(box, f.photos.texture());
  f.paint.fill(box, f.colours.paper);
  const std::string words = f.words(!f.site.photographs  ? "ui.photo-window"
                                    : f.photos.missing() ? "ui.photo-missing"
                                                         : "ui.photo-awaited");
  const Box inner = box.inset(16.0F, 16.0F);
  f.paint.paragraph({inner.x, inner.y}, inner.w, words, kBody, f.colours.ink);
  words_at(f, "photo.state", inner, words);
}

}  // namespace

void photo_board(Frame& f, const Box& box) {
  const FitLook& look = f.view.fit;
  const Fitting& fitting = f.ticket.fittings[*look.fitting];
  const Photograph& photograph = fitting.photographs[*look.photo];
  const PhotoKey key{f.rack.open_id(), photograph.id};
  if (f.photos.look_at(key) && f.site.photographs) f.effects.emplace_back(ShowPhoto{key});
  const Rect picture{0.0, 0.0, 1.0 * photograph.width, 1.0 * photograph.height};
  const Seen seen{fitting, photograph, board(f, box, picture, told(f, fitting, photograph), false)};
  f.paint.push_clip(box);
  f.ui.begin_clip(box);
  draw_picture(f, seen);
  for (const PhotoPin& pin : photograph.pins) pin_control(f, seen, pin);
  answer_touch(f, seen);
  f.ui.end_clip();
  f.paint.pop_clip();
}

}  // namespace coatwright::studio
