#include "shell/app/app.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <functional>

#include "core/fit/photograph.h"
#include "core/ticket/ids.h"
#include "shell/app/station_bar.h"
#include "shell/counter/about_panel.h"
#include "shell/counter/rack_panel.h"
#include "shell/counter/restore_panel.h"
#include "shell/desk/outputs.h"
#include "shell/draft/board.h"
#include "shell/draft/panel.h"
#include "shell/fit/board.h"
#include "shell/fit/panel.h"
#include "shell/kit/board.h"
#include "shell/kit/keeping_notes.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"
#include "shell/lay/board.h"
#include "shell/lay/panel.h"
#include "shell/make/board.h"
#include "shell/make/panel.h"
#include "shell/measure/board.h"
#include "shell/measure/panel.h"
#include "shell/print/panel.h"
#include "shell/words/say.h"

namespace coatwright::studio {

const char* station_id(Station s) {
  switch (s) {
    case Station::Measure:
      return "measure";
    case Station::Draft:
      return "draft";
    case Station::Fit:
      return "fit";
    case Station::Lay:
      return "lay";
    case Station::Print:
      return "print";
    case Station::Make:
      return "make";
  }
  return "";
}

namespace {

constexpr const char* kEntry = "entry";  // the number that is typed, on Measure
constexpr double kSlice = 7.0;           // ms, of what is done between frames

std::function<double()> stopwatch() {
  using Clock = std::chrono::steady_clock;
  return [from = Clock::now()] {
    return std::chrono::duration<double, std::milli>(Clock::now() - from).count();
  };
}

}  // namespace

App::App(const Words& words, Rack rack, Today today, bool device_keyboard)
    : words_(words),
      rack_(std::move(rack)),
      today_(std::move(today)),
      device_keyboard_(device_keyboard),
      pipeline_(words),
      lay_(words),
      sizes_(words) {
  view_.guided.fill(!rack_.was_empty());
}

void App::resize(float width, float height, float device_ratio) {
  wanted_ = true;
  width_ = std::max(200.0F, width);
  height_ = std::max(200.0F, height);
  ratio_ = device_ratio;
}

void App::pointer(const PointerEvent& event) {
  std::vector<Gesture> gestures;
  const std::string pressed = ui_.pressed;
  view_.finger = event.finger;
  pointers_.handle(event, ui_, gestures);
  wanted_ = wanted_ || !gestures.empty() || pressed != ui_.pressed;
  std::move(gestures.begin(), gestures.end(), std::back_inserter(inputs_));
}

void App::wheel(Spot at, float dx, float dy, bool zoom) {
  std::vector<Gesture> gestures;
  pointers_.wheel(at, dx, dy, zoom, ui_, gestures);
  std::move(gestures.begin(), gestures.end(), std::back_inserter(inputs_));
  wanted_ = true;
}

void App::key(Key key) {
  inputs_.emplace_back(std::move(key));
  wanted_ = true;
}

void App::act(std::string id) {
  inputs_.emplace_back(Gesture{.kind = Gesture::Kind::Act, .id = std::move(id)});
  wanted_ = true;
}

void App::enter(std::string id, std::string text, std::optional<std::string> was) {
  inputs_.emplace_back(Gesture{.kind = Gesture::Kind::Entry,
                               .id = std::move(id),
                               .text = std::move(text),
                               .was = std::move(was)});
  wanted_ = true;
}

void App::focus(std::string id, bool shown) {
  ui_.focus = std::move(id);
  ui_.focus_shown = shown;
  wanted_ = true;
}

void App::tell(std::string sentence) {
  view_.notice = std::move(sentence);
  view_.moved.reset();
  wanted_ = true;
}

void App::pressed(PressEnd end, std::string sentence) {
  view_.pressing.clear();
  wanted_ = true;
  switch (end) {
    case PressEnd::Made:
    case PressEnd::Refused:
      if (!sentence.empty()) tell(std::move(sentence));
      return;
    case PressEnd::Missing:
      return tell(words_("ui.press-missing"));
    case PressEnd::Broken:
      return tell(words_("ui.press-broken"));
    case PressEnd::Waits:
      return tell(words_("ui.press-waits"));
  }
}

// False, and said so, while another window writes.
bool App::may_write() {
  if (keeping_.follows) tell(words_("ui.follows-refused"));
  return !keeping_.follows;
}

void App::open_file(std::string_view bytes) {
  if (!ready()) return arrivals_.push_back({Arrival::Kind::File, std::string(bytes)});
  if (looks_like_backup(bytes)) {
    if (may_write()) open_backup(bytes);
    return;
  }
  const auto ticket = read_ticket(bytes);
  if (!ticket) return tell(say(ticket.problem(), words_, {.unit = App::ticket().unit}));
  hang_ticket(*ticket);
}

void App::refuse_file(double bytes) {
  const Problem problem{.code = Code::RackTooLarge,
                        .values = {bytes, static_cast<double>(kMostBackupBytes)}};
  tell(say(problem, words_, {.unit = ticket().unit}));
}

void App::photo_taken(const std::string& id, int width, int height) {
  const auto asked = std::exchange(photos_.asked, std::nullopt);
  if (view_.notice == words_("ui.photo-comes")) view_.notice.clear();
  wanted_ = true;
  if (!asked || asked->key != PhotoKey{rack_.open_id(), id}) {
    return tell(say({Code::PhotographLate}, words_, {}));
  }
  ++stroke_;
  carry_out({AddPhotograph{asked->fitting, {id, width, height}}});
}

void App::photo_shown(const std::string& id, const TextPicture& pixels) {
  photos_.take(id, pixels);
  wanted_ = true;
}

void App::photo_read(const std::string& id, std::string jpeg) {
  if (saving_) saving_->photo_read(id, std::move(jpeg));
  (void)work_on_files(stopwatch());
  wanted_ = true;
}

void App::forget_photo() {
  photos_.forget();
  wanted_ = true;
}

constexpr size_t kMostWaiting = 50;

// A link leaves the address as soon as it is read: its ticket waits here while another window has
// the pen.
void App::hang_ticket(const Ticket& ticket) {
  if (keeping_.follows) {
    const bool waits = std::find(waiting_.begin(), waiting_.end(), ticket) != waiting_.end();
    if (!waits && waiting_.size() == kMostWaiting) return (void)may_write();
    if (!waits) waiting_.push_back(ticket);
    return tell(words_("ui.follows-waits", {title_of(ticket, words_)}));
  }
  rack_.add(ticket);
  leave_ticket();
  tell(words_("ui.opened", {title_of(ticket, words_)}));
}

// An answer that is looked at stays so.
void App::hang_waiting() {
  if (waiting_.empty()) return;
  const SlipView slip = view_.slip;
  for (const Ticket& ticket : std::exchange(waiting_, {})) hang_ticket(ticket);
  if (!slip.answer) return;
  const std::string told = view_.notice;
  show_answer(*slip.answer);
  view_.slip = slip;
  tell(told);
}

bool App::ready() const { return rack_.whole() && !restore_; }

void App::open_backup(std::string_view bytes) {
  view_.restore = {};
  restore_.emplace(std::string(bytes));
  wanted_ = true;
}

// A slice of writing a backup, or of putting one back; true if there is more to do.
bool App::work_on_files(const std::function<double()>& passed) {
  while (saving_ && !saving_->waits() && passed() < kSlice) {
    if (!saving_->write_on(rack_)) backup_written();
  }
  if (auto photo = saving_ ? saving_->take_wanted() : std::nullopt) {
    effects_.emplace_back(ReadPhoto{{photo->ticket, photo->id}});
  }
  if (restore_ && keeping_.follows) {  // it was another window's turn before all was hung
    restore_.reset();
    view_.restore = {};
    tell(words_("ui.follows-refused"));
  }
  while (restore_ && passed() < kSlice) {
    const bool more = restore_->work_on(rack_);
    keep_photos(restore_->take_photos());
    if (more) continue;
    if (restore_->stage() == Restore::Stage::Asking) {
      if (!view_.restore.shows) backup_read();
      break;
    }
    if (restore_->stage() == Restore::Stage::Done) backup_read();
  }
  return files_busy();
}

bool App::files_busy() const {
  return (saving_ && !saving_->waits()) ||
         (restore_ && restore_->stage() != Restore::Stage::Asking);
}

void App::backup_written() {
  const int missing = saving_->photos_missing();
  std::vector<SaveFile> files = backup_files(std::move(*saving_).finish(rack_), today_);
  saving_.reset();
  std::string told;
  if (files.size() > 1) told = words_("ui.backup-parts", {std::to_string(files.size())});
  if (missing > 0) {
    told +=
        (told.empty() ? "" : " ") + words_("ui.backup-photos-missing", {std::to_string(missing)});
  }
  if (!told.empty()) tell(told);
  std::move(files.begin(), files.end(), std::back_inserter(effects_));
  wanted_ = true;
}

void App::keep_photos(std::vector<KeptPhoto> photos) {
  if (!site_.photographs) {
    restored_.photos_left_out = restored_.photos_left_out || !photos.empty();
    return;
  }
  for (KeptPhoto& photo : photos) {
    effects_.emplace_back(KeepPhoto{{photo.ticket, photo.id}, std::move(photo.jpeg)});
  }
  if (!photos.empty()) photos_.forget();
}

// Whole, but for what its maker is asked.
void App::backup_read() {
  if (restore_->problem()) {
    tell(say(*restore_->problem(), words_, {.unit = ticket().unit}));
    restore_.reset();
    return;
  }
  if (restore_->stage() == Restore::Stage::Asking) {
    view_.restore.shows = true;
    view_.restore.answers.resize(restore_->differing().size(), TakeBack::Mine);
    wanted_ = true;
    return;
  }
  tell_restored();
  view_.restore = {};
  restore_.reset();
}

// Of all files that were opened together: a backup may have several.
void App::tell_restored() {
  const Restore& back = *restore_;
  int taken = 0;
  for (const TakeBack answer : view_.restore.answers) taken += answer != TakeBack::Mine;
  restored_.hung += back.hung() + taken;
  restored_.there += back.there();
  restored_.mine += static_cast<int>(back.differing().size()) - taken;
  restored_.unreadable += back.backup().unreadable;
  if (!restored_.why) restored_.why = back.backup().why;
  restored_.cut_short = restored_.cut_short || back.backup().cut_short;
  restored_.example_left_out = restored_.example_left_out || back.example_left_out();
  const auto n = [](int count) { return std::to_string(count); };
  std::string words = restored_.hung == 0
                          ? words_("ui.restored-nothing", {n(restored_.there)})
                          : words_("ui.restored", {n(restored_.hung), n(restored_.there)});
  if (restored_.mine > 0) words += " " + words_("ui.restored-mine", {n(restored_.mine)});
  if (restored_.example_left_out) words += " " + words_("ui.restored-example");
  if (restored_.photos_left_out) words += " " + words_("ui.photo-window");
  if (restored_.why) {
    const std::string why = say(*restored_.why, words_, {.unit = ticket().unit});
    words += " " + words_("ui.restored-not", {n(restored_.unreadable), why});
  }
  if (restored_.cut_short) words += " " + words_("ui.restored-part");
  tell(words);
  if (arrivals_.empty()) restored_ = {};
}

void App::history_read(std::string_view id, std::string_view journal) {
  const auto problem = rack_.history_read(id, journal);
  if (problem) tell(words_("ui.journal-broken", {say(*problem, words_, LengthStyle{})}));
  wanted_ = true;
}

void App::follow() {
  keeping_.follows = true;
  wanted_ = true;
}

void App::card_changed(const std::string& id, const std::string& line) {
  const std::string open = rack_.open_id();
  const SlipView slip = view_.slip;
  const bool looked_at = view_.rack;
  rack_.follow(id, line);
  if (rack_.open_id() != open) {
    leave_ticket();
    view_.rack = looked_at;
    if (slip.answer) view_.slip = slip;
  }
  wanted_ = true;
}

void App::hang(Stored stored, bool follows) {
  const std::string open = rack_.open_id();
  const bool looked_at = view_.rack;
  // A client's answer stands for itself, whatever another window does to its ticket.
  const SlipView slip = view_.slip.answer ? view_.slip : SlipView{};
  // What this window could not keep is not lost when another one writes: it waits for this one's turn.
  std::vector<Ticket> unkept = rack_.unkept();
  std::move(unkept.begin(), unkept.end(), std::back_inserter(unkept_));
  rack_.hang(std::move(stored));
  if (rack_.open_id() != open) {
    leave_ticket();
    view_.slip = slip;
  }
  view_.rack = looked_at;
  // What was refused while another window wrote is possible now.
  if (keeping_.follows && !follows && view_.notice == words_("ui.follows-refused"))
    view_.notice.clear();
  keeping_.follows = follows;
  wanted_ = true;
}

void App::keep_failed(const std::string& id) { rack_.keep_failed(id); }

void App::history_unread(std::string_view id) {
  rack_.history_unread(id);
  wanted_ = true;
}

void App::join(const Stored& stored) {
  const std::string open = rack_.open_id();
  gone_ += rack_.join(stored);
  if (rack_.open_id() != open) leave_ticket();
  wanted_ = true;
}

void App::keep_again() {
  rack_.keep_again();
  wanted_ = true;
}

// That a lost store was filled again is told once it is, with why it was lost: a browser may throw
// away what it cannot open on a full disk.
void App::know(Keeping keeping) {
  const bool was_full = keeping_.kept == Kept::Full;
  keeping.follows = keeping_.follows;
  keeping_ = keeping;
  const bool kept = keeping.kept == Kept::ForGood || keeping.kept == Kept::ForNow;
  const int again = kept ? std::exchange(gone_, 0) : 0;
  if (again > 0) {
    tell(was_full ? words_("ui.kept-again-full")
                  : words_("ui.kept-again", {std::to_string(again)}));
  }
  wanted_ = true;
}

std::string App::half_typed() const {
  if (!view_.measure || view_.entry.empty()) return {};
  return write_half({rack_.open_id(), info(*view_.measure).id, view_.entry});
}

void App::resume(const HalfTyped& half) {
  if (half.entry.empty() || half.ticket != rack_.open_id()) return;
  for (const MeasureInfo& measure : measure_table()) {
    if (half.measure != measure.id) continue;
    view_.station = Station::Measure;
    view_.measure = measure.measure;
    view_.entry = half.entry;
  }
  wanted_ = true;
}

// What is half done on one ticket is not carried over to another.
void App::leave_ticket() {
  ++stroke_;
  pipeline_.leave_ticket();
  view_.measure.reset();
  view_.entry.clear();
  view_.entry_problem.reset();
  view_.paper_problem.reset();
  view_.touched.clear();
  view_.former = false;
  view_.habits.reset();
  view_.goal.reset();
  view_.reveal.clear();
  view_.make = {};
  view_.fit = {};
  view_.lay.grip.reset();
  view_.lay.touched = -1;
  view_.lay.adding = false;
  view_.lay.company_search.clear();
  view_.lay.quoted.clear();
  view_.fields.clear();
  view_.rack = false;
  view_.slip = {};
  view_.scrolls.erase("sheet.measure");
  for (BoardView& board : view_.boards) board.fitted = true;
  wanted_ = true;
}

// Keys that work everywhere: undo and redo, and those that are for what the focus is on.
std::optional<Gesture> App::gesture_of(const Key& key) const {
  if (key.control && (key.name == "z" || key.name == "Z" || key.name == "y")) {
    const bool redo = key.shift || key.name != "z";
    return Gesture{.kind = Gesture::Kind::Act, .id = redo ? "redo" : "undo"};
  }
  const Control* focused = ui_.control(ui_.focus);
  if (focused == nullptr || focused->role == ControlRole::Text ||
      focused->role == ControlRole::Number || !ui_.focus_shown) {
    return std::nullopt;
  }
  const bool up = key.name == "ArrowRight" || key.name == "ArrowUp";
  if (focused->role == ControlRole::Slider &&
      (up || key.name == "ArrowLeft" || key.name == "ArrowDown")) {
    char text[32];
    std::snprintf(text, sizeof text, "%.9g", focused->now + (up ? focused->step : -focused->step));
    return Gesture{.kind = Gesture::Kind::Entry, .id = focused->id, .text = text};
  }
  if (key.name == "Enter" || key.name == " ") {
    return Gesture{.kind = Gesture::Kind::Act, .id = focused->id};
  }
  return std::nullopt;
}

namespace {

bool is_press(const Gesture& g) {
  using K = Gesture::Kind;
  return g.kind == K::Tap || g.kind == K::DoubleTap || g.kind == K::Act;
}
bool is_entry(const Gesture& g) { return g.kind == Gesture::Kind::Entry; }
bool is_movement(const Gesture& g) { return !is_press(g) && !is_entry(g); }
// Enter, Escape and the like may change what the keys behind them are for.
bool is_named(const Key& key) {
  return key.name.size() > 1 && static_cast<unsigned char>(key.name[0]) < 0x80 &&
         key.name != "Backspace";
}

}  // namespace

namespace {

bool is_one_of(const std::string& name, std::initializer_list<const char*> names) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

// Keys that go to another control.
bool moves_focus(const Key& key) {
  return is_one_of(
      key.name, {"Tab", "Enter", "Home", "End", "ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown"});
}

}  // namespace

// True if the key only moved the focus.
bool App::move_focus(const Key& key) {
  const Control* focused = ui_.control(ui_.focus);
  std::string next;
  if (key.name == "Tab") {
    next = next_stop(ui_.controls(), ui_.focus, key.shift ? -1 : 1);
  } else if (focused != nullptr && focused->role == ControlRole::Text && key.name == "Enter") {
    next = next_stop(ui_.controls(), ui_.focus, 1);
  } else if (focused != nullptr && ui_.focus_shown) {
    next = beside(ui_.controls(), ui_.focus, key.name);
  }
  if (next.empty()) return false;
  ui_.focus = next;
  ui_.focus_shown = true;
  return true;
}

// Arrows choose what they come to, among options and among the stations.
std::optional<Gesture> App::chosen_by(const Key& key) const {
  const Control* c = ui_.control(ui_.focus);
  if (c == nullptr || is_one_of(key.name, {"Tab", "Enter"})) return std::nullopt;
  if (c->role != ControlRole::Option && c->role != ControlRole::Tab) return std::nullopt;
  return Gesture{.kind = Gesture::Kind::Act, .id = c->id};
}

// To a station from anywhere, or to the rack: into its side sheet.
std::optional<Gesture> App::jump(const Key& key) {
  for (int i = 0; i < kStations; ++i) {
    if (key.name != jump_key(i + 1)) continue;
    ui_.focus = std::string("station.") + station_id(static_cast<Station>(i));
    jumps_ = true;
    return Gesture{.kind = Gesture::Kind::Act, .id = ui_.focus};
  }
  if (key.name != jump_key(0)) return std::nullopt;
  ui_.focus = "ticket";
  return Gesture{.kind = Gesture::Kind::Act, .id = ui_.focus};
}

// A frame answers one press at the most, and none together with what was typed before it: all
// else waits for the next one. So everything is answered in the order in which it came, two presses
// of one key twice, each on what the one before has changed; and what was typed is there before a
// press leads away from it.
App::Inputs App::next_inputs() {
  Inputs out;
  auto next = inputs_.begin();
  for (bool whole = false; next != inputs_.end() && !whole; ++next) {
    const bool entered = std::any_of(out.gestures.begin(), out.gestures.end(), is_entry);
    const Key* key = std::get_if<Key>(&*next);
    const bool first = out.keys.empty() && out.gestures.empty();
    std::optional<Gesture> gesture;
    if (key == nullptr) {
      gesture = std::get<Gesture>(*next);
    } else if (moves_focus(*key) && !first) {
      break;  // what was done before may change what there is to come to
    } else if (move_focus(*key)) {
      gesture = chosen_by(*key);
      if (!gesture) continue;
    } else {
      gesture = jump(*key);
      if (!gesture) gesture = gesture_of(*key);
    }
    if (!gesture) {
      if (entered) break;
      out.keys.push_back(*key);
      whole = is_named(*key);
    } else if (is_press(*gesture)) {
      if (entered || !out.keys.empty()) break;
      out.gestures.push_back(std::move(*gesture));
      whole = true;
    } else {
      // One step of a slider goes on from where the one before has led.
      const bool unshown = entered || enters_;
      if (is_entry(*gesture) && (!out.keys.empty() || (key != nullptr && unshown))) break;
      whole = is_entry(*gesture) && gesture->text.ends_with('\n');
      out.gestures.push_back(std::move(*gesture));
    }
  }
  inputs_.erase(inputs_.begin(), next);
  enters_ = std::any_of(out.gestures.begin(), out.gestures.end(), is_entry);
  return out;
}

// A drag, a tap, or a run of entries into one control is one stroke: one step of undo.
void App::count_strokes(const std::vector<Gesture>& gestures) {
  for (const Gesture& g : gestures) {
    using K = Gesture::Kind;
    const bool begins = is_press(g) || (g.kind == K::Drag && g.phase == Phase::Begin) ||
                        (g.kind == K::Entry && g.id != entered_);
    if (begins) ++stroke_;
    if (g.kind == K::Entry) {
      entered_ = g.id;
    } else if (begins) {
      entered_.clear();
    }
  }
}

namespace {

// Marks grow with the text; beyond this they would hide a small board's pieces, whose captions then
// wait for a closer look.
constexpr double kLargestText = 21.0;  // mm
// A piece's name is as large as the board's other words; where there is little room, at a part.
constexpr double kNameOverText = 16.0 / 14.5, kLargestName = 80.0;  // mm

}  // namespace

Wanted App::wanted_stages() const {
  const bool makes = view_.station == Station::Make;
  const Station shows = makes ? Station::Make : Station::Draft;  // the same drawing, lettered anew
  const double scale = view_.boards[static_cast<size_t>(shows)].scale;
  // Sixteen CSS pixels on the board, in steps of a tenth, so that zooming does not letter anew at
  // every frame.
  const double text = scale > 0.0 ? 14.5 / scale : 10.0;
  const double stepped = std::pow(1.1, std::ceil(std::log(text) / std::log(1.1)));
  return {.plan = view_.station == Station::Print,
          .weighs = !pointers_.dragging() && !moved_,
          .text_mm = std::clamp(stepped, 3.2, kLargestText),
          .name_mm = std::min(kNameOverText * stepped, kLargestName),
          .former = view_.former && view_.station == Station::Draft,
          .compare = view_.station == Station::Fit
                         ? fit_states(view_, ticket(), pipeline_.now().tape)
                         : std::nullopt,
          .printer = rack_.printer()};
}

namespace {

// Where it can be mended: a choice's own control, what is told of a line, else the side sheet.
std::string goal_control(const Goal& goal) {
  if (goal.station != Station::Draft || goal.subject.empty()) return std::string(kSheetPart);
  return choice_by_id(goal.subject) ? std::string("choice.") + goal.subject : "note.line.close";
}

}  // namespace

// Where something can be mended, seen as it is mended.
void App::go_to_goal(Frame& f) {
  if (!view_.goal) return;
  const Goal goal = *std::exchange(view_.goal, std::nullopt);
  view_.rack = goal.rack;
  view_.slip = {};
  view_.focus_on = goal.rack ? "rack.backup" : goal_control(goal);
  if (goal.rack) return;
  view_.station = goal.station;
  view_.reveal = goal.subject;
  if (goal.station == Station::Measure) go_to_measure(f, measure_by_id(goal.subject));
  const bool is_line = goal.station == Station::Draft && !choice_by_id(goal.subject);
  if (is_line) view_.touched = goal.subject;
  view_.boards[static_cast<size_t>(goal.station)].fitted = true;
}

void App::draw(Frame& f) {
  go_to_goal(f);
  f.paint.fill(f.layout.page, f.colours.table);
  station_bar(f);
  const Box board = f.layout.board;
  if (view_.restore.shows && restore_) return draw_restore(f);
  if (view_.rack) return draw_rack(f);
  view_.about = false;
  if (view_.slip.shows != SlipShows::Nothing) return draw_slip(f);
  paper(f);  // below the notes that stand on it
  if (f.layout.row.h > 0.0F) table_row(f);
  f.ui.begin_part({.id = kBoardPart, .role = "region", .name = f.words("ui.part-board")});
  if (view_.station == Station::Measure) measure_board(f, board);
  if (view_.station == Station::Draft) draft_board(f, board, trail_);
  if (view_.station == Station::Fit) fit_board(f, board);
  if (view_.station == Station::Lay) lay_board(f, board);
  if (view_.station == Station::Print) print_board(f, board);
  if (view_.station == Station::Make) make_board(f, board);
  keeping_notes(f, board);
  f.ui.end_part();
  rack_edge(f);
  const std::string tab = std::string("station.") + station_id(view_.station);
  f.ui.begin_part({.id = kSheetPart, .role = "tabpanel", .named_by = tab});
  const Box inner = sheet_in_sight(f);
  if (view_.station == Station::Measure) measure_sheet(f, inner);
  if (view_.station == Station::Draft) draft_sheet(f, inner);
  if (view_.station == Station::Fit) fit_sheet(f, inner);
  if (view_.station == Station::Lay) lay_sheet(f, inner);
  if (view_.station == Station::Print) print_sheet(f, inner);
  if (view_.station == Station::Make) make_sheet(f, inner);
  f.ui.end_part();
  corner(f);
  answer_row(f);
  focus_ring(f);
}

// The rack lies over the board and the table row.
void App::draw_rack(Frame& f) {
  const Box board = f.layout.board, row = f.layout.row;
  paper(f);
  f.ui.begin_part({.id = kBoardPart, .role = "region", .name = f.words("ui.part-cards")});
  rack_board(f, {board.x, board.y, board.w, row.bottom() - board.y});
  f.ui.end_part();
  const Box inner = sheet_in_sight(f);
  f.ui.begin_part(
      {.id = kSheetPart, .role = "region", .named_by = view_.about ? "about.title" : "rack.title"});
  view_.about ? about_sheet(f, inner) : rack_sheet(f, inner);
  f.ui.end_part();
  corner(f);
  focus_ring(f);
  const auto escape = [](const Key& key) { return key.name == "Escape"; };
  if (std::erase_if(f.ui.keys(), escape) == 0) return;
  view_.focus_on = view_.about ? "rack.about" : "ticket";
  (view_.about ? view_.about : view_.rack) = false;
}

// What a backup has otherwise lies over the rack.
void App::draw_restore(Frame& f) {
  const Box board = f.layout.board, row = f.layout.row;
  f.ui.begin_part({.id = kBoardPart, .role = "region", .named_by = "differs.ticket"});
  restore_board(f, {board.x, board.y, board.w, row.bottom() - board.y});
  f.ui.end_part();
  paper(f);
  f.ui.begin_part({.id = kSheetPart, .role = "region", .named_by = "differs.title"});
  restore_sheet(f, sheet_in_sight(f));
  f.ui.end_part();
  corner(f);
  focus_ring(f);
}

void App::answer_row(Frame& f) {
  if (f.ui.acted("undo") && may_write()) rack_.undo();
  if (f.ui.acted("redo") && may_write()) rack_.redo();
  if (f.ui.acted("evening")) {
    view_.evening = !view_.evening;
    f.effects.push_back(RememberLook{view_.evening});
  }
  if (f.ui.acted("unit")) {
    f.commands.push_back(SetUnit{f.ticket.unit == Unit::Inch ? Unit::Centimetre : Unit::Inch});
  }
}

void App::carry_out(const std::vector<Command>& commands) {
  if (!commands.empty() && !may_write()) return;
  for (const Command& command : commands) {
    auto next = apply(ticket(), command);
    const auto* reading = std::get_if<AddReading>(&command);
    if (!next) {
      if (reading != nullptr || std::holds_alternative<AddFitNote>(command)) {
        view_.entry_problem = next.problem();
      } else {
        tell(say(next.problem(), words_, {.unit = ticket().unit}));
      }
      continue;
    }
    if (reading != nullptr && view_.measure == reading->measure) view_.entry.clear();
    if (const auto* added = std::get_if<AddFitNote>(&command)) {
      view_.entry.clear();
      const FitLook was = std::exchange(view_.fit, {});
      view_.fit.fitting = next->fittings.size() - 1;
      // It is pinned next on the photograph that it was seen on.
      if (was.photo && was.fitting == view_.fit.fitting) {
        view_.fit.photo = was.photo;
        view_.fit.pin = place_of(next->fittings.back(), added->note);
      }
    }
    rack_.push(std::move(next.value()), label_of(command), stroke_);
    if (std::holds_alternative<SetQuote>(command) || std::holds_alternative<SetCloth>(command)) {
      rack_.remember_prices();
    }
  }
}

namespace {

// The coat's name with the next number that no coat of this dog has yet: "Deck coat", "Deck coat 2".
std::string next_name(const std::vector<Card>& cards, const Ticket& ticket, const Words& words) {
  std::string name = ticket.name.empty() ? words("style." + ticket.style) : ticket.name;
  const size_t last = name.find_last_not_of("0123456789");
  if (last != std::string::npos && last + 1 < name.size() && name[last] == ' ') name.resize(last);
  for (int n = 2;; ++n) {
    std::string next = name + " " + std::to_string(n);
    const bool taken = std::any_of(cards.begin(), cards.end(), [&](const Card& card) {
      return card.ticket.dog == ticket.dog && card.ticket.name == next;
    });
    if (!taken) return next;
  }
}

bool only_looks(RackDeed deed) {
  return deed == RackDeed::Open || deed == RackDeed::Backup || deed == RackDeed::SaveUnread ||
         deed == RackDeed::ForgetMissing;
}

}  // namespace

void App::carry_out(const std::vector<RackCommand>& commands) {
  for (const RackCommand& command : commands) {
    if (only_looks(command.deed) || may_write()) carry_out(command);
    wanted_ = true;
  }
}

void App::carry_out(const RackCommand& command) {
  const std::string open = rack_.open_id();
  switch (command.deed) {
    case RackDeed::Open:
      rack_.open(command.id);
      view_.focus_on = std::string("station.") + station_id(view_.station);
      return leave_ticket();
    case RackDeed::New: {
      Ticket fresh;
      fresh.unit = ticket().unit;
      rack_.add(rack_.notes().usual ? rack_.notes().usual->start : fresh);
      break;
    }
    case RackDeed::Copy:
      if (const Card* card = rack_.card(command.id)) {
        rack_.copy(command.id, next_name(rack_.cards(), card->ticket, words_));
      }
      tell(words_("ui.copied", {title_of(ticket(), words_)}));
      break;
    case RackDeed::Hang:
      for (const Ticket& one : command.tickets) rack_.hang_new(one);
      tell(words_("ui.hung", {std::to_string(command.tickets.size())}));
      return;
    case RackDeed::Move:
      move_card(command);
      break;
    case RackDeed::Erase:
      rack_.erase(command.id);
      break;
    case RackDeed::Sort:
      return rack_.sort(command.order);
    case RackDeed::Backup:
      rack_.read_on(rack_.still_unread());
      if (!saving_) saving_.emplace(rack_, command.photographs);
      (void)work_on_files(stopwatch());  // a short one is there with the touch that asked for it
      return;
    case RackDeed::TakeBack:
      if (restore_) restore_->choose(view_.restore.answers);
      view_.restore.shows = false;
      return;
    case RackDeed::LeaveBack:
      view_.restore.answers.clear();
      if (restore_) restore_->choose({});
      view_.restore.shows = false;
      return;
    case RackDeed::SaveUnread:
      effects_.emplace_back(unread_file(unread_json(rack_.unread().all()), today_));
      return;
    case RackDeed::ForgetMissing:
      return rack_.forget_missing();
    case RackDeed::Shelve:
      if (const auto problem = rack_.shelve(command.cloth)) {
        tell(say(*problem, words_, {.unit = ticket().unit}));
      }
      return;
    case RackDeed::Unshelve:
      return rack_.unshelve(command.cloth);
    case RackDeed::UsePrinter:
      return rack_.use_printer(command.id);
    case RackDeed::ForgetPrinter:
      return rack_.forget_printer(command.id);
    case RackDeed::KeepUsual:
      return rack_.keep_usual(command.usual);
    case RackDeed::KeepSizes:
      return rack_.keep_sizes(command.sizes);
    case RackDeed::KeepPrinter:
      if (const auto problem = rack_.keep_printer(command.printer)) {
        tell(say(*problem, words_, {.unit = ticket().unit}));
      }
      return;
  }
  const bool made = command.deed == RackDeed::New || command.deed == RackDeed::Copy;
  if (!made && rack_.open_id() == open) return;
  leave_ticket();
  view_.rack = !made;  // where a ticket was only put away, the rack is still looked at
  if (!made) return;
  view_.station = Station::Measure;
  view_.focus_on = "dog";
}

// Away from the rack is told, with the way back.
void App::move_card(const RackCommand& command) {
  const Card* card = rack_.card(command.id);
  if (card == nullptr) return;
  RackCommand back = command;
  back.place = card->place;
  const std::string title = title_of(card->ticket, words_);
  rack_.move(command.id, command.place);
  if (command.place == Place::Rack) return;
  tell(words_(command.place == Place::Bin ? "ui.deleted" : "ui.archived", {title}));
  view_.moved = back;
}

namespace {

// The control that an id or a part means: itself, of several "ID.N" or of a part the one that the
// Tab key comes to first; empty if it is not there.
std::string stop_at(const std::vector<Control>& controls, const std::string& wanted) {
  const std::vector<bool> stops = tab_stops(controls, {});
  for (size_t i = 0; i < stops.size(); ++i) {
    const Control& c = controls[i];
    if (c.id == wanted && c.enabled && !only_shows(c)) return c.id;
    if (stops[i] && (c.part == wanted || c.id.starts_with(wanted + "."))) return c.id;
  }
  return {};
}

}  // namespace

// What stands where the maker has come to. Only who works with the focus is given one, but for the
// number that is typed.
void App::settle_focus() {
  // What a station needs is made with the frame after the one that has come to it.
  if (std::exchange(jumps_, false)) view_.focus_on = kSheetPart;
  constexpr int kPatience = 3;  // frames, after which what it was to go to does not come any more
  if (!focus_to_.empty() && (!ui_.focus.empty() || focus_to_ == kEntry)) {
    if (const std::string id = stop_at(ui_.controls(), focus_to_); !id.empty()) {
      ui_.focus = id;
    } else if (view_.focus_on.empty() && ++focus_waits_ < kPatience) {
      view_.focus_on = focus_to_;
      wanted_ = true;
      return;
    }
  }
  focus_waits_ = 0;
  if (!ui_.focus.empty() && ui_.control(ui_.focus) == nullptr) {
    ui_.focus = successor(ui_.controls_before(), ui_.controls(), ui_.focus);
  }
}

// Where the maker is: what is new after that has changed is not told, because all of it is.
std::string App::place() const {
  if (view_.restore.shows) return "restore";
  if (view_.rack) return view_.about ? "about" : "rack";
  std::string out = rack_.open_id() + "/";
  if (view_.slip.shows != SlipShows::Nothing) return out + "slip";
  out += station_id(view_.station);
  if (view_.station == Station::Measure && view_.measure) out += info(*view_.measure).id;
  if (view_.station == Station::Fit && view_.fit.place) out += id_of(*view_.fit.place);
  if (view_.station == Station::Lay) out += std::to_string(view_.lay.tab);
  return out;
}

// A control that the keyboard has just come to is scrolled into sight.
void App::show_focus() {
  if (focused_ == ui_.focus) return;
  focused_ = ui_.focus;
  const Control* c = ui_.control(ui_.focus);
  if (c == nullptr || c->area.empty() || !ui_.focus_shown) return;
  const auto area = std::find_if(ui_.areas().begin(), ui_.areas().end(),
                                 [&](const Area& a) { return a.id == c->area; });
  if (area == ui_.areas().end()) return;
  const float above = area->box.y + 14.0F - c->box.y;
  const float below = c->box.bottom() + 14.0F - area->box.bottom();
  if (above > 0.0F) view_.scrolls[c->area] -= above;
  if (above <= 0.0F && below > 0.0F) view_.scrolls[c->area] += below;
  wanted_ = wanted_ || above > 0.0F || below > 0.0F;
}

SheetHolds App::sheet_holds() const {
  const bool keypad = (view_.station == Station::Measure && view_.measure) ||
                      (view_.station == Station::Fit && view_.fit.kind);
  const bool over = view_.rack || view_.restore.shows || view_.slip.shows != SlipShows::Nothing;
  return over ? SheetHolds::Rack : keypad ? SheetHolds::Keypad : SheetHolds::Controls;
}

// A slice of reading what hangs here; true if there is more to do.
bool App::work_on_rack() {
  constexpr size_t kAtOnce = 4;  // cards between two looks at the clock
  const auto passed = stopwatch();
  while (!rack_.whole() && passed() < kSlice) rack_.read_on(kAtOnce);
  if (!rack_.whole()) return true;
  if (work_on_files(passed)) return true;
  for (const Ticket& ticket : std::exchange(unkept_, {})) {
    if (rack_.rail().alike(ticket) == nullptr) hang_ticket(ticket);
  }
  if (!keeping_.follows) hang_waiting();
  take_arrivals();
  return files_busy();
}

// What came while the rack was read, now that it is known.
void App::take_arrivals() {
  while (!arrivals_.empty() && ready()) {
    const Arrival came = std::move(arrivals_.front());
    arrivals_.erase(arrivals_.begin());
    if (came.kind == Arrival::Kind::File) open_file(came.bytes);
    if (came.kind == Arrival::Kind::Text) take_text(came.bytes);
    if (came.kind == Arrival::Kind::Link) take_link(came.bytes);
  }
}

// A slice of the search for lays, while they are looked at; true if there is more to do.
bool App::work_on_lays() {
  const bool hidden = view_.rack || view_.restore.shows || view_.slip.shows != SlipShows::Nothing;
  // The Make station tells what the lays have found, as long as that is of this coat.
  if (view_.station == Station::Make && !lay_.jobs().empty()) {
    lay_.update(ticket(), pipeline_.now(), rack_);
  }
  // On cloth the lays go out as they are found.
  const bool wanted = view_.station == Station::Lay ||
                      (view_.station == Station::Print && view_.print_tab == kOnCloth);
  if (!wanted || hidden) return false;
  lay_.update(ticket(), pipeline_.now(), rack_);
  (void)lay_.work(kSlice, stopwatch());
  return lay_.busy();
}

bool App::search_instead(double now_ms) {
  constexpr double kDrawEvery = 50.0;  // ms
  if (wanted_ || !searching_ || now_ms - drawn_ms_ >= kDrawEvery) return false;
  searching_ = work_on_rack() || work_on_lays();
  wanted_ = !searching_;
  return true;
}

bool App::frame(double now_ms) {
  drawn_ms_ = now_ms;
  Inputs inputs = next_inputs();
  count_strokes(inputs.gestures);
  const bool input = !inputs.gestures.empty() || !inputs.keys.empty() || !inputs_.empty();
  moved_ = std::any_of(inputs.gestures.begin(), inputs.gestures.end(), is_movement);
  ui_.begin(std::move(inputs.gestures), std::move(inputs.keys));
  focus_to_ = std::exchange(view_.focus_on, {});
  const bool reading = work_on_rack();
  photos_.next_picture();
  const Derived& derived = pipeline_.update(ticket(), wanted_stages());
  follow_change(trail_, derived.drawing, derived.redrafts, stroke_, now_ms);

  Painter painter(ratio_);
  std::vector<Command> commands;
  std::vector<RackCommand> rack_commands;
  std::vector<SlipCommand> slip_commands;
  searching_ = reading || work_on_lays();
  bool again = false;
  const Layout layout = App::layout();
  const Ticket ticket = App::ticket();  // stays as it is while the panels run
  Frame f{.ticket = ticket,
          .rack = rack_,
          .history = rack_.history(),
          .saving = saving_ ? &*saving_ : nullptr,
          .restore = restore_ ? &*restore_ : nullptr,
          .derived = derived,
          .words = words_,
          .colours = view_.evening ? evening() : day(),
          .layout = layout,
          .today = today_,
          .now_ms = now_ms,
          .device_keyboard = device_keyboard_,
          .keeping = keeping_,
          .site = site_,
          .view = view_,
          .ui = ui_,
          .paint = painter,
          .commands = commands,
          .rack_commands = rack_commands,
          .slip_commands = slip_commands,
          .thumbnails = thumbnails_,
          .lay = lay_,
          .photos = photos_,
          .sizes = sizes_,
          .effects = effects_,
          .again = again};
  draw(f);
  cut_short_ = painter.cut_short();
  again = thumbnails_.make_one() || again;
  again = again || view_.note_height != view_.next_note_height;
  view_.note_height = std::exchange(view_.next_note_height, 0.0F);
  wanted_ = again || input;
  carry_out(commands);
  carry_out(rack_commands);
  for (const SlipCommand& command : slip_commands) carry_out(command);
  settle_focus();
  show_focus();
  return wants_frame();
}

Effects App::take_effects() { return std::exchange(effects_, {}); }

std::vector<Keep> App::take_keeps(bool at_once) {
  if (keeping_.follows || (pointers_.dragging() && !at_once)) return {};
  // A full or failing disk may lose what it held, and leave nothing but what is sent now.
  if (at_once && in_memory_only(keeping_.kept)) rack_.keep_everything();
  if (at_once) rack_.keep_again();
  return rack_.take_keeps();
}

HtmlDocument App::print_document() {
  Wanted wanted = wanted_stages();
  wanted.plan = true;
  const Derived& derived = pipeline_.update(ticket(), wanted);
  if (!derived.plan) return {};
  return sheets_document(ticket(), *derived.plan, words_, today_);
}

}  // namespace coatwright::studio
