// The controls of a frame, and what was done to them.
//
// Panels draw a control and add it here under an id, with its role, name, value and place. This one
// list is what pointers are tested against, what the keyboard steps through, what the page mirrors
// for screen readers, and what tests drive. Input is collected between frames and answered while
// the panels run, so a document never changes in mid-frame.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "shell/desk/box.h"

namespace coatwright::studio {

enum class ControlRole {
  Button,
  Toggle,
  Fold,  // shows and hides what stands below it
  Tab,
  Option,
  Slider,
  Text,
  Number,
  Status,
  Heading,
  Picture
};
[[nodiscard]] const char* role_name(ControlRole role);  // as the mirror gets it: "button", ...

// What a pointer that moves on a control does.
enum class Travel {
  None,    // nothing; if the control lies in a scrolled area, the area is moved
  Across,  // a slider: left and right are the control's, up and down the area's
  Free,    // a handle, the board
  Pan,     // something that lies on the board: dragging it moves the board
};

// One item of a long list, of which only those near its sight are added.
struct ListItem {
  std::string list = {};     // its name, in words; empty: in no list
  std::string id = {};       // the item's own
  size_t place = 0, of = 0;  // which one it is, from 1, and how many there are
};

struct Control {
  std::string id = {};
  ControlRole role = ControlRole::Button;
  std::string name = {};   // what it is called, in words
  std::string value = {};  // what it says, in words
  Box box = {};            // where it stands on the page
  std::string group = {};  // the name of what an Option or Tab belongs to
  std::string note = {};   // a problem or explanation that is shown beside it
  bool enabled = true;
  bool chosen = false;                                  // pressed, selected, checked or unfolded
  double low = 0.0, high = 0.0, now = 0.0, step = 0.0;  // of a Slider
  Travel travel = Travel::None;
  bool silent = false;   // for pointers only: not named to the keyboard and screen readers
  bool through = false;  // for the keyboard and screen readers only: pointers reach what it lies on
  Box clip = {};         // filled in: what of the page the control can be seen through
  std::string area = {};  // filled in: the scrolled area it lies in
  ListItem item = {};     // filled in: what it is a part of
};

enum class Phase { Begin, Move, End, Cancel };

// What was done to a control since the last frame.
struct Gesture {
  enum class Kind { Tap, DoubleTap, Drag, Scroll, Zoom, Act, Entry } kind = Kind::Tap;
  std::string id = {};        // of the control, or of the area for Scroll
  Phase phase = Phase::Move;  // Drag
  Spot from = {}, at = {};    // Drag: where it began and is; Tap, Zoom: where
  Spot shift = {};            // Scroll, Zoom: how far it moved
  float factor = 1.0F;        // Zoom
  std::string text = {};      // Entry
  // Entry: what stood in the page's field before, if that is a field that grows as it is typed in.
  std::optional<std::string> was = {};
};

struct Key {
  std::string name;  // a character as typed, or "Enter", "Backspace", "ArrowLeft", "Tab", ...
  bool control = false;
  bool shift = false;
};

// A part of the page that scrolls up and down.
struct Area {
  std::string id;
  Box box;
  float most = 0.0F;  // how far it can be scrolled
};

class Ui {
 public:
  // Starts a frame with what happened since the last one.
  void begin(std::vector<Gesture> gestures, std::vector<Key> keys);

  // Adds a control in draw order: the last one added lies on top.
  void add(Control control);

  // Answers for this frame.
  [[nodiscard]] bool acted(std::string_view id) const;  // tapped, or pressed from the keyboard
  [[nodiscard]] const Gesture* find(Gesture::Kind kind, std::string_view id) const;
  [[nodiscard]] const std::vector<Gesture>& gestures() const { return gestures_; }
  // The text of a field after all that was entered into it, in its order. What was typed onto
  // another text than `now` (the page had not shown this one yet) goes onto this one; what else was
  // done to the other text is left out. Nothing if nothing was entered.
  [[nodiscard]] std::optional<std::string> entered(std::string_view id,
                                                   const std::string& now) const;
  // The keys nobody has used yet; a panel removes what it uses.
  [[nodiscard]] std::vector<Key>& keys() { return keys_; }

  // A scrolled area: controls added before end_area() are clipped to it and move with it.
  void begin_area(Area area);
  void end_area(float most);  // how far it can be scrolled
  // Until end_clip(), controls are clipped to the box as well.
  void begin_clip(const Box& box);
  void end_clip();
  // Until end_item(), controls are parts of this.
  void begin_item(ListItem item) { item_ = std::move(item); }
  void end_item() { item_ = {}; }

  [[nodiscard]] const std::vector<Control>& controls() const { return controls_; }
  [[nodiscard]] const std::vector<Area>& areas() const { return areas_; }
  [[nodiscard]] const Control* control(std::string_view id) const;
  // The control that a touch at a spot means: the topmost, and of overlapping handles the nearest.
  [[nodiscard]] const Control* at(Spot spot) const;
  [[nodiscard]] const Area* area_at(Spot spot) const;

  // The control that the keyboard is on, and whether a ring shows it.
  std::string focus;
  bool focus_shown = false;
  // The control under a pressed pointer.
  std::string pressed;

 private:
  [[nodiscard]] const Control* topmost(Spot spot) const;

  std::vector<Control> controls_;
  std::vector<Area> areas_;
  std::vector<Gesture> gestures_;
  std::vector<Key> keys_;
  std::vector<Box> clips_;
  std::string area_;
  ListItem item_;
};

// The control after or before `id` for the keyboard, wrapping round.
[[nodiscard]] std::string next_stop(const std::vector<Control>& controls, std::string_view id,
                                    int step);

// The controls as JSON for the page's hidden mirror.
[[nodiscard]] std::string mirror_json(const Ui& ui);

}  // namespace coatwright::studio
