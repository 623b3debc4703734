// Drives the studio by the names of its controls, without a screen: what a maker's finger, keyboard
// or screen reader would do, one frame after the other.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "shell/app/app.h"
#include "shell/pages/press.h"

namespace coatwright::studio {

class Driver {
 public:
  explicit Driver(Ticket ticket, float width = 1180.0F, float height = 820.0F);
  explicit Driver(const History& history, float width = 1180.0F, float height = 820.0F);
  explicit Driver(Rack rack, float width = 1180.0F, float height = 820.0F);
  ~Driver();
  Driver(const Driver&) = delete;
  Driver& operator=(const Driver&) = delete;

  // Frames until the studio asks for no more, at most `most`; returns how many were drawn.
  int settle(int most = 200);
  void redraw() { frame(); }  // as things stand
  void resize(float width, float height);

  // The control with this name or id (a whole id, or
  // a whole name); fails the test if there is none.
  [[nodiscard]] const Control& see(std::string_view name) const;
  [[nodiscard]] bool sees(std::string_view name) const;

  void click(std::string_view name);  // a mouse click in its middle, scrolled into sight first
  void tap_at(Spot at);
  void drag(std::string_view name, float dx, float dy, bool finger = true);  // down, steps, up
  void drag_begin(std::string_view name, float dx, float dy, bool finger = true);  // left pressed
  void drag_end();
  void pinch(Spot a0, Spot b0, Spot a1, Spot b1);
  void type(std::string_view keys);  // one key a character
  void press(std::string_view key, bool control = false, bool shift = false);
  void enter(std::string_view name, std::string_view text);  // through the mirror
  void act(std::string_view name);                           // through the mirror

  App app;
  double now_ms = 1000.0;

 private:
  void frame();
  void send(Contact contact, int pointer, bool finger, Spot at);
  Spot held_at_;
  bool held_finger_ = false;
};

// What the press makes of an order that a key has given; the test fails if it refuses.
[[nodiscard]] FormFile pressed(const PressForm& form);
// Presses a key that orders a form from the press, and makes it.
[[nodiscard]] FormFile made_by(Driver& driver, std::string_view key);

// A clock that stands at the Driver's date, and ids in their order: "test0000", ...
inline constexpr UnixMs kNow = 1795521600000;  // 24 November 2026, 12:00 UTC
[[nodiscard]] Outside an_outside();

// A history of the demo ticket.
[[nodiscard]] Ticket a_ticket();
// The demo ticket of another dog.
[[nodiscard]] Ticket named(const std::string& dog);

}  // namespace coatwright::studio
