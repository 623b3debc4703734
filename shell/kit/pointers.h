// From fingers, pen and mouse to gestures: taps, drags, scrolling, pinching. One stream of pointer
// events comes in, whatever the device; positions in CSS pixels, time in milliseconds.
#pragma once

#include <vector>

#include "shell/kit/ui.h"

namespace coatwright::studio {

enum class Contact { Down, Move, Up, Cancel };

struct PointerEvent {
  Contact contact = Contact::Move;
  int pointer = 0;      // tells fingers apart
  bool finger = false;  // a finger hides what it touches
  Spot at;
  double time_ms = 0.0;
};

class Pointers {
 public:
  // `ui`: the controls as last drawn. Appends what the event amounts to.
  void handle(const PointerEvent& event, Ui& ui, std::vector<Gesture>& out);
  void wheel(Spot at, float dx, float dy, bool zoom, const Ui& ui, std::vector<Gesture>& out) const;

  [[nodiscard]] bool dragging() const { return dragging_; }
  [[nodiscard]] bool finger() const { return finger_; }
  [[nodiscard]] Spot at() const { return held_.empty() ? Spot{} : held_.front().at; }

 private:
  struct Held {
    int pointer;
    Spot at;
  };
  void down(const PointerEvent& event, Ui& ui, std::vector<Gesture>& out);
  void move(const PointerEvent& event, Ui& ui, std::vector<Gesture>& out);
  void up(const PointerEvent& event, Ui& ui, std::vector<Gesture>& out);
  void begin_travel(Spot at, Ui& ui, std::vector<Gesture>& out);
  void pinch(const PointerEvent& event, std::vector<Gesture>& out);
  void let_go(Ui& ui, Phase phase, std::vector<Gesture>& out);

  std::vector<Held> held_;
  std::string id_;    // the control that the first pointer went down on
  std::string area_;  // the area it scrolls
  Travel travel_ = Travel::None;
  Spot from_;
  Spot last_;
  bool dragging_ = false;
  bool scrolling_ = false;
  bool pinching_ = false;
  bool finger_ = false;
  std::string tapped_;  // the last tap, for a double tap
  Spot tapped_at_;
  double tapped_ms_ = -1e9;
};

inline constexpr char kBoardId[] = "board";

}  // namespace coatwright::studio
