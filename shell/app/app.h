// The studio as one value: input goes in between frames, a frame draws and answers, and what is to
// be done outside comes out as values. Knows neither SDL nor OpenGL nor the browser.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/base/words.h"
#include "shell/desk/derived.h"
#include "shell/desk/effects.h"
#include "shell/desk/lay_desk.h"
#include "shell/desk/trail.h"
#include "shell/desk/view_state.h"
#include "shell/kit/frame.h"
#include "shell/kit/pointers.h"
#include "shell/kit/ui.h"
#include "shell/rack/history.h"

namespace coatwright::studio {

class App {
 public:
  // `device_keyboard`: text fields are real fields laid over the canvas (a page).
  App(const Words& words, Rack rack, Today today, bool device_keyboard);

  // The page's size in CSS pixels, and device pixels for each.
  void resize(float width, float height, float device_ratio);

  void pointer(const PointerEvent& event);
  void wheel(Spot at, float dx, float dy, bool zoom);
  void key(Key key);
  void act(std::string id);  // a control pressed through the mirror
  // A value set through the mirror; `was`: what stood in the field before (Gesture).
  void enter(std::string id, std::string text, std::optional<std::string> was = {});
  void focus(std::string id, bool shown);
  void open_file(std::string_view bytes);  // a ticket or a backup of a rack
  void refuse_file(double bytes);          // larger than a file of either may be
  // A photograph that was asked for is kept under this id.
  void photo_taken(const std::string& id, int width, int height);
  void photo_shown(const std::string& id, const TextPicture& pixels);
  void photo_read(const std::string& id, std::string jpeg);
  void forget_photo();  // its texture is gone
  // What came in a link's fragment, and what was pasted or dropped: a client's answer, or a ticket.
  void take_link(std::string_view fragment);
  void take_text(std::string_view text);
  void stands_at(Site site);
  void wear_evening() { view_.evening = true; }
  void tell(std::string sentence);  // a notice on the board, until put away
  // What came of a PressForm; the sentence says what is to be known of the file, or why there is
  // none.
  void pressed(PressEnd end, std::string sentence);

  // The store has answered, has changed under another window, or could not keep something.
  void history_read(std::string_view id, std::string_view journal);
  void hang(Stored stored, bool follows);
  void card_changed(const std::string& id, const std::string& line);
  void follow();  // another window writes
  void keep_failed(const std::string& id);
  void history_unread(std::string_view id);
  // The store stands open again: Rack::join.
  void join(const Stored& stored);
  // What could not be kept is to be tried again.
  void keep_again();
  void know(Keeping keeping);
  // The page may be left at any moment. What is half typed then, and that it is there again.
  [[nodiscard]] std::string half_typed() const;
  void resume(const HalfTyped& half);
  [[nodiscard]] bool has_input() const { return !inputs_.empty(); }

  // Draws one frame between ImGui::NewFrame and ImGui::Render. True if another is wanted.
  bool frame(double now_ms);
  [[nodiscard]] bool wants_frame() const { return wanted_ || searching_; }
  // Instead of a frame, where nothing is to be drawn but how far a search (or the reading of the
  // rack) is, and that was drawn a moment ago: a slice of it. False: draw.
  bool search_instead(double now_ms);

  [[nodiscard]] Effects take_effects();
  // What is to be stored: what changed and is settled. `at_once`: also what is not settled yet, and
  // what could not be kept before.
  [[nodiscard]] std::vector<Keep> take_keeps(bool at_once = false);
  // They are all that hangs here.
  void keep_everything() { rack_.keep_everything(); }
  // The id of the ticket whose history is to be read from the store, once.
  [[nodiscard]] std::optional<std::string> take_wanted() { return rack_.take_wanted(); }
  // The controls for the page's mirror.
  [[nodiscard]] std::string mirror() const { return mirror_json(ui_, place()); }
  // The sheets as a document to print, whatever station is open; empty if there are none.
  [[nodiscard]] HtmlDocument print_document();

  [[nodiscard]] const Rack& rack() const { return rack_; }
  [[nodiscard]] const Ticket& ticket() const { return rack_.history().now(); }
  [[nodiscard]] const History& history() const { return rack_.history(); }
  [[nodiscard]] const Derived& derived() const { return pipeline_.now(); }
  [[nodiscard]] const ViewState& view() const { return view_; }
  [[nodiscard]] const Ui& ui() const { return ui_; }
  [[nodiscard]] Layout layout() const { return lay_out(width_, height_, sheet_holds()); }
  // Words of the last frame that had no room (Painter::cut_short).
  [[nodiscard]] const std::vector<std::string>& cut_short() const { return cut_short_; }
  // Things follow a finger, or a search goes on: what is told of them may come a moment later.
  [[nodiscard]] bool moving() const { return pointers_.dragging() || moved_ || searching_; }

 private:
  struct Inputs {
    std::vector<Gesture> gestures;
    std::vector<Key> keys;
  };
  [[nodiscard]] Inputs next_inputs();
  [[nodiscard]] std::optional<Gesture> gesture_of(const Key& key) const;
  void count_strokes(const std::vector<Gesture>& gestures);
  void draw(Frame& f);
  void draw_rack(Frame& f);
  void go_to_goal(Frame& f);
  void draw_slip(Frame& f);
  void draw_restore(Frame& f);
  void answer_row(Frame& f);
  bool work_on_rack();
  bool work_on_lays();
  void take_arrivals();
  // The rack is read, and no backup is on its way: what comes can be answered.
  [[nodiscard]] bool ready() const;
  void carry_out(const std::vector<Command>& commands);
  void carry_out(const std::vector<RackCommand>& commands);
  void carry_out(const RackCommand& command);
  void move_card(const RackCommand& command);
  void carry_out(const SlipCommand& command);
  void make_slip();
  void show_message(std::vector<Sent> sent, bool torn);
  void show_answer(SlipAnswer answer);
  void suggest_takes();
  void take_readings();
  void hang_ticket(const Ticket& ticket);
  void hang_waiting();
  void refuse_text(const Problem& problem);
  void open_backup(std::string_view bytes);
  [[nodiscard]] bool work_on_files(const std::function<double()>& passed);
  [[nodiscard]] bool files_busy() const;
  void backup_written();
  void keep_photos(std::vector<KeptPhoto> photos);
  void backup_read();
  void tell_restored();
  void leave_ticket();
  [[nodiscard]] bool may_write();
  [[nodiscard]] bool move_focus(const Key& key);
  [[nodiscard]] std::optional<Gesture> chosen_by(const Key& key) const;
  [[nodiscard]] std::optional<Gesture> jump(const Key& key);
  void settle_focus();
  void show_focus();
  [[nodiscard]] std::string place() const;
  [[nodiscard]] Wanted wanted_stages() const;
  [[nodiscard]] SheetHolds sheet_holds() const;

  const Words& words_;
  Rack rack_;
  Keeping keeping_;
  int gone_ = 0;  // tickets that the store had lost and gets again
  Site site_;
  Thumbnails thumbnails_;
  Today today_;
  bool device_keyboard_;
  Pipeline pipeline_;
  LayDesk lay_;
  PhotoDesk photos_;
  SizesDesk sizes_;
  std::optional<Saving> saving_;
  std::optional<Restore> restore_;
  struct Restored {
    int hung = 0, there = 0, mine = 0, unreadable = 0;
    std::optional<Problem> why;
    bool cut_short = false;
    bool example_left_out = false;
    bool photos_left_out = false;
  };
  Restored restored_;  // of the backups that were opened together so far
  // What came while the rack was still being read, or a backup: it is not known yet what it belongs
  // to.
  struct Arrival {
    enum class Kind { File, Text, Link } kind = Kind::File;
    std::string bytes;
  };
  std::vector<Arrival> arrivals_;
  std::vector<Ticket> unkept_;   // what this window could not keep before another one wrote
  std::vector<Ticket> waiting_;  // came while another window wrote; hung when this one may
  ViewState view_;
  Ui ui_;
  std::vector<std::string> cut_short_;
  Pointers pointers_;
  Trail trail_;
  Effects effects_;
  std::vector<std::variant<Gesture, Key>> inputs_;  // in the order in which they came
  bool enters_ = false;   // the last frame took an entry, which the controls do not show yet
  std::string entered_;   // the control that the last entry went to
  std::string focused_;   // where the focus was at the last frame
  std::string focus_to_;  // where it is to go, asked for before this frame
  bool jumps_ = false;    // a key has gone to a station
  int focus_waits_ = 0;   // for how many frames already
  int stroke_ = 0;
  float width_ = 1180.0F, height_ = 820.0F, ratio_ = 1.0F;
  bool wanted_ = true;
  bool searching_ = false;  // for lays, or through the rack, and nothing else is wanted
  bool moved_ = false;      // at the last frame
  double drawn_ms_ = 0.0;   // when the last frame was drawn
};

}  // namespace coatwright::studio
