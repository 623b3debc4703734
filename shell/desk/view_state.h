// What is seen and half typed: kept while the program runs, never part of the ticket.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/body/measures.h"
#include "core/draft/draft.h"
#include "core/fit/note.h"
#include "core/geometry/point.h"
#include "core/lay/cloth.h"
#include "core/rack/habits.h"
#include "core/sheet/roll.h"
#include "shell/desk/box.h"
#include "shell/desk/sizes_desk.h"
#include "shell/desk/slip_view.h"
#include "shell/rack/rack_commands.h"
#include "shell/rack/restore.h"

namespace coatwright::studio {

enum class Station { Measure, Draft, Fit, Lay, Print, Make };
inline constexpr int kStations = 6;
[[nodiscard]] const char* station_id(Station s);  // "measure", "draft", "fit", ...

// A place to go to: a station and what is to be seen there (a measure, a choice, an edge; empty:
// nothing in particular), or the rack.
struct Goal {
  Station station = Station::Measure;
  std::string subject = {};
  bool rack = false;
  bool operator==(const Goal&) const = default;
};

// How a board is looked at: the point of the drawing in the middle of the board, and the scale.
struct BoardView {
  Point centre;
  double scale = 0.0;  // CSS pixels a mm; 0: not looked at yet
  bool fitted = true;  // follows the drawing, until the maker moves it
  Box box;             // the board it was made for
};

// A board handle being dragged.
struct Grip {
  std::string handle;
  Spot offset;  // from the finger to the handle's middle when it was taken
  Spot finger;  // where the finger is now
};

// A piece of a lay being dragged.
struct PieceGrip {
  size_t piece = 0;
  Vec offset;  // mm, from the finger to the piece's corner when it was taken
};

// What of the Lay station is looked at.
struct LayLook {
  int tab = 0;                            // of the side sheet: lays, cloth, to buy
  size_t view = 0;                        // the lay on the board
  std::optional<PieceGrip> grip;          // on the lay on the board
  int touched = -1;                       // number of the piece that was touched
  ClothUse use = ClothUse::Shell;         // whose cloth the side sheet shows
  bool adding = false;                    // the rack's other tickets are shown, to be laid with it
  std::string company_search;             // as typed
  std::string quoted;                     // key of the coat whose quote is shown
  std::map<std::string, Problem> faults;  // why an entry was not taken, by the field's id
};

// The fit note that is being made, or the fitting that is looked at.
struct FitLook {
  std::optional<FitPlace> place;
  std::optional<FitKind> kind;
  FitBy by = FitBy::Gap;
  std::optional<size_t> fitting;  // the one unfolded
  std::optional<size_t>
      compared;                 // what it changed is looked at; as many as there are: all together
  std::optional<size_t> photo;  // of that fitting: the photograph that is looked at
  std::optional<size_t> pin;    // the note that is pinned where the picture is touched
  Spot pin_offset;              // from the finger to the point of the pin that it drags
  // What the board shows: 0 the dog, 1 patterns, else a photograph.
  size_t on_board = 0;
};

// What of the Make station is looked at.
struct MakeLook {
  bool begun = false;          // a stage was chosen, by the maker or by how far the work has come
  std::optional<Stage> stage;  // that is unfolded
  std::string step;            // id of the step that the board shows; empty: none
};

// The tickets of a backup that differ from those that hang here: asked for over the station.
struct RestoreLook {
  bool shows = false;
  size_t at = 0;                  // the one that is looked at
  std::vector<TakeBack> answers;  // one for each
};

// Of ViewState::print_tab.
inline constexpr int kOnPaper = 0, kOnCloth = 1, kToShop = 2, kToPerson = 3, kForSeveral = 4;

// What goes out for a class.
struct SeveralLook {
  std::set<std::string> job = {};  // ids of the tickets that go out with the open one
  std::string search = {};         // as typed
};

struct ViewState {
  Station station = Station::Measure;
  bool evening = false;
  std::array<BoardView, kStations> boards;

  // Measure
  std::optional<Measure> measure;        // the one being taken; none: the list
  std::string entry;                     // as typed so far
  std::optional<Problem> entry_problem;  // why the entry was not taken

  std::optional<Goal> goal;  // to be gone to at the next frame
  std::string reveal;        // id of what the side sheet is to be scrolled to, once it stands there
  // Id of the control or part that the focus goes to as soon as it stands there, if somebody works
  // with the focus at all; of several "ID.N" it is the one that the Tab key comes to.
  std::string focus_on;

  float note_height = 0.0F;  // what notes took at the last frame, of the board or the side sheet
  float next_note_height = 0.0F;
  Point pan_from;  // the board's centre when a pan began

  // Draft
  std::string touched;             // edge id of the line that was touched
  bool former = false;             // the outlines by a former drafting rule are shown
  std::set<std::string> unfolded;  // options whose choices are all shown
  std::optional<Grip> grip;
  bool finger = false;  // what touches is a finger, which hides what it touches

  FitLook fit;

  LayLook lay;

  MakeLook make;

  // Draft: what the rack's fittings have in common, once it was asked for
  std::optional<std::vector<Habit>> habits;

  // Print
  int sheet = -1;     // the sheet that is looked at; -1: the plan
  int print_tab = 0;  // of the side sheet: paper, cloth, shop, person, several
  SeveralLook several;
  double kerf_mm = 0.0;                  // of the machine that the pieces are cut by
  double roll_mm = kUsualRoll;           // width of the paper of one page
  std::string pressing;                  // name of the file that the press is making; empty: none
  std::optional<Problem> paper_problem;  // why a size that was typed was not taken
  std::optional<Problem> roll_problem;   // the same of the roll's width
  // Of the scale check, as it was measured so far, mm; and why that was not taken.
  std::optional<double> check_across, check_along;
  std::optional<Problem> check_problem;

  // Rack
  bool backup_photos = false;        // a backup is to have the photographs
  bool rack = false;                 // it lies over the station
  bool about = false;                // what Coatwright is stands in place of the rack's sheet
  std::string search;                // as typed
  Place place = Place::Rack;         // what of it is shown
  std::string erasing;               // the id whose deleting for good was asked once
  std::optional<RackCommand> moved;  // what takes the last deleting or archiving back

  RestoreLook restore;  // lies over the rack

  SlipView slip;  // lies over the station, and under the rack

  size_t unread_away = 0;                // how much of what cannot be read was told and put away
  std::string notice;                    // about files and storage, until it is put away
  std::map<std::string, float> scrolls;  // how far each area is scrolled
  std::map<std::string, std::string> fields;  // text fields being edited, as typed
  std::array<bool, kStations> guided{};       // the line of guidance was put away

  [[nodiscard]] BoardView& board() { return boards[static_cast<size_t>(station)]; }
};

}  // namespace coatwright::studio
