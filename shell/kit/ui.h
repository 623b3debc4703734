// The controls of a frame, and what was done to them.
//
// Panels draw a control and add it here under an id, with its role, name, value and place. This one
// list is what pointers are tested against, what the keyboard steps through, what the page mirrors
// for screen readers, and what tests drive. Input is collected between frames and answered while
// the panels run, so a document never changes in mid-frame.
#pragma once

#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "shell/desk/box.h"

namespace coatwright::studio {

enum class ControlRole {
  Button,
  Toggle,
  Tick,  // a box with a tick
  Fold,  // shows and hides what stands below it
  Tab,
  Option,
  Slider,
  Text,
  Number,
  Status,  // words that are told when they change: what came of a deed
  Words,   // all other words: they stand there to be read
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

// A part of the page that a screen reader names and goes to: the board, the side sheet.
struct Part {
  std::string_view id = {};    // a literal
  std::string_view role = {};  // in ARIA's words: "region", "toolbar", ...
  std::string name = {};       // in words, or
  std::string named_by = {};   // the id of the control that names it
};
inline constexpr std::string_view kBoardPart = "part.board";
inline constexpr std::string_view kSheetPart = "part.sheet";

struct Control {
  std::string id = {};
  ControlRole role = ControlRole::Button;
  std::string name = {};   // what it is called, in words
  std::string value = {};  // what it says, in words
  Box box = {};            // where it stands on the page
  std::string group = {};  // the name of what it belongs to: an Option or Tab always, or buttons
  std::string note = {};   // a problem or explanation that is shown beside it
  std::string_view about =
      {};         // literal: ids of the words that explain it, if they stand elsewhere
  int jump = -1;  // number of the key that presses it from anywhere: jump_key()
  bool enabled = true;
  bool chosen = false;                                  // pressed, selected, checked or unfolded
  double low = 0.0, high = 0.0, now = 0.0, step = 0.0;  // of a Slider
  Travel travel = Travel::None;
  bool silent = false;   // for pointers only: not named to the keyboard and screen readers
  bool through = false;  // for the keyboard and screen readers only: pointers reach what it lies on
  // One of a set, which is one stop of the Tab key; arrows go from one to the next. A set is what has
  // the same group in the same part; options and tabs always are in one.
  bool in_set = false;
  bool tab = true;        // false: the Tab key passes it by, because something else does the same
  int level = 2;          // of a Heading
  Box clip = {};          // filled in: what of the page the control can be seen through
  std::string area = {};  // filled in: the scrolled area it lies in
  const ListItem* item = nullptr;  // filled in: what it is a part of, as long as the control lives
  std::string_view part = {};      // filled in: the id of its Part
};

// The key that goes to a station from anywhere (from 1), or to the rack (0).
[[nodiscard]] inline std::string jump_key(int number) { return "Alt+" + std::to_string(number); }

// Words or a picture: nothing can be done to it.
[[nodiscard]] bool only_shows(const Control& control);

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
  void begin_item(ListItem item) { item_ = &items_.emplace_back(std::move(item)); }
  void end_item() { item_ = nullptr; }
  // Until end_part(), controls stand in this part.
  void begin_part(Part part);
  void end_part() { part_ = {}; }

  [[nodiscard]] const std::vector<Control>& controls() const { return controls_; }
  [[nodiscard]] const std::vector<Control>& controls_before() const { return before_; }
  [[nodiscard]] const std::vector<Area>& areas() const { return areas_; }
  [[nodiscard]] const std::vector<Part>& parts() const { return parts_; }
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
  std::vector<Control> before_;  // of the last frame
  std::vector<Part> parts_;
  std::string_view part_;
  int heading_ = 1;  // level of the last one
  std::vector<Area> areas_;
  std::vector<Gesture> gestures_;
  std::vector<Key> keys_;
  std::vector<Box> clips_;
  std::string area_;
  std::deque<ListItem> items_, items_before_;  // of both frames' controls
  const ListItem* item_ = nullptr;
};

// Whether the Tab key comes to each control while the focus is on `focus`: of a set to one, where
// the focus is, else the chosen one, else the first.
[[nodiscard]] std::vector<bool> tab_stops(const std::vector<Control>& controls,
                                          std::string_view focus);

// The stop after or before `id` for the Tab key, wrapping round.
[[nodiscard]] std::string next_stop(const std::vector<Control>& controls, std::string_view id,
                                    int step);

// Where an arrow key, Home or End goes from `id` within its set; empty: nowhere.
[[nodiscard]] std::string beside(const std::vector<Control>& controls, std::string_view id,
                                 std::string_view key);

// Where the focus goes when its control `lost` of the controls `before` is gone: to what stood
// before it in the same part, else behind it; from an item of a list to the item beside it, to that
// itself and to nothing that is done with it. Empty: nothing is there to have the focus.
[[nodiscard]] std::string successor(const std::vector<Control>& before,
                                    const std::vector<Control>& now, std::string_view lost);

// The page's hidden mirror as JSON: its parts, its controls, where the focus is, and `place`, which
// changes where the maker comes to another place, so that nobody is told what is only new there.
[[nodiscard]] std::string mirror_json(const Ui& ui, std::string_view place);

}  // namespace coatwright::studio
