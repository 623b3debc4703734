#include "shell/rack/rack.h"

#include <algorithm>
#include <charconv>
#include <unordered_map>

namespace coatwright::studio {

namespace {

// The ticket of a first visit has the same id everywhere, so that two of them meet as one.
constexpr char kDemoId[] = "Example0";
constexpr char kOpenLabel[] = "ui.open-ticket";
constexpr size_t kMostHeld = 30;  // histories; a ticket's is some hundred kB at the most

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const size_t end = std::min(text.find('\n'), text.size());
    if (end > 0) lines.emplace_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

}  // namespace

Rack::Rack(Outside outside, const Ticket& demo)
    : outside_(std::move(outside)), demo_(demo), history_(demo) {}

// ---- what the store holds --------------------------------------------------------------------

namespace {

constexpr size_t kHeadBytes = 256;  // a card's line begins with its id, place and last change

// What stands behind a key in the head of a card's line, as write_card() writes it. A guess by which
// lines are sorted, nothing more: what a card says is what read_card() reads.
std::string_view behind(std::string_view line, std::string_view key) {
  const std::string_view head = line.substr(0, kHeadBytes);
  const size_t at = head.find(key);
  return at == std::string_view::npos ? std::string_view() : head.substr(at + key.size());
}

UnixMs changed_as_written(std::string_view line) {
  const std::string_view digits = behind(line, "\"changed\":");
  UnixMs out = 0;
  (void)std::from_chars(digits.data(), digits.data() + digits.size(), out);
  return out;
}

bool says_id(std::string_view line, const std::string& id) {
  return !id.empty() && behind(line, "\"id\":\"").starts_with(id + "\"");
}

// The lines as they are read: from the last one, which is the newest.
std::vector<std::string> newest_last(std::vector<std::string> lines) {
  std::vector<std::pair<UnixMs, size_t>> order;
  for (size_t i = 0; i < lines.size(); ++i) order.emplace_back(changed_as_written(lines[i]), i);
  std::sort(order.begin(), order.end());
  std::vector<std::string> out;
  for (const auto& [changed, i] : order) out.push_back(std::move(lines[i]));
  return out;
}

bool contains(const std::vector<std::string>& ids, const std::string& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

size_t told_before(const Stored& stored) {
  return stored.asides.size() - std::min(stored.fresh, stored.asides.size());
}

}  // namespace

// Notes that cannot be read are put aside before fresh ones take their place.
void Rack::take_notes(const std::string& text) {
  const auto notes = read_rack_notes(text);
  notes_ = notes ? *notes : RackNotes{};
  if (notes || text.empty()) return;
  unread_.asides.push_back(text);
  keeps_.push_back({.id = {}, .card = write_rack_notes(notes_), .aside = text});
}

void Rack::hang(Stored stored) {
  rail_.clear();
  keeps_.clear();
  unkept_.clear();
  also_.clear();
  held_.clear();
  again_ = partial_ = false;
  closed_ = stored.closed;
  unread_ = {.rows = {}, .asides = stored.asides, .old = told_before(stored)};
  take_notes(stored.notes);
  lines_ = newest_last(std::move(stored.cards));
  if (!stored.mark.empty()) mark_ = read_mark(stored.mark);
  looks_for_missing_ = !stored.mark.empty();
  const bool empty = whole() && stored.before.empty() && !closed_;
  if (whole()) miss();
  was_empty_ = empty && !missing_.any();
  const std::string stays = open_;
  open_.clear();
  if (!stored.before.empty()) return adopt(stored.before);
  for (const std::string& wanted : {stays, notes_.open}) {
    const auto line = std::find_if(lines_.begin(), lines_.end(),
                                   [&](const std::string& l) { return says_id(l, wanted); });
    if (line == lines_.end()) continue;
    hang_line(*line);
    lines_.erase(line);
    if (whole()) miss();
    if (card(wanted) != nullptr) return open(wanted);
  }
  open_first(was_empty_ ? demo_ : Ticket{});
}

int Rack::join(const Stored& stored) {
  read_on(still_unread());
  const std::vector<std::string> failed = unkept_;
  settle();
  const bool late = std::exchange(closed_, false);
  const auto has_failed = [&](const std::string& id) { return contains(failed, id); };
  const size_t old = late ? told_before(stored) : std::min(unread_.old, stored.asides.size());
  unread_ = {.rows = {}, .asides = stored.asides, .old = old};
  if (late) {
    take_notes(stored.notes);
  } else if (stored.notes != write_rack_notes(notes_)) {
    keep_failed({});
  }
  std::unordered_map<std::string, std::string> there;
  for (const std::string& line : stored.cards) {
    const auto card = read_card(line);
    const bool first = card && there.emplace(card->id, line).second;
    const bool is_here = first && this->card(card->id) != nullptr;
    if (is_here || (first && has_failed(card->id))) continue;  // the latter was erased here
    hang_line(line);
  }
  // The ticket that hung only because something must.
  const Card* now = card(open_);
  const bool stands_in = late && !there.empty() && now != nullptr && now->ticket == Ticket{};
  if (stands_in) {
    std::erase_if(keeps_, [&](const Keep& keep) { return keep.id == open_; });
    rail_.erase(open_);
    std::erase(unkept_, open_);
    open_.clear();
  }
  int gone = 0;
  for (const Card& card : cards()) {
    const auto line = there.find(card.id);
    if (line == there.end() && !has_failed(card.id)) ++gone;
    if (line == there.end() || line->second != write_card(card)) unkept_.push_back(card.id);
  }
  std::sort(unkept_.begin(), unkept_.end());
  unkept_.erase(std::unique(unkept_.begin(), unkept_.end()), unkept_.end());
  again_ = true;
  // They are brought whole: nothing less before that.
  std::erase_if(keeps_, [&](const Keep& keep) {
    return keep.aside.empty() && !keep.moved &&
           std::binary_search(unkept_.begin(), unkept_.end(), keep.id);
  });
  if (late) {
    looks_for_missing_ = true;
    miss();
  }
  if (late && !stored.before.empty()) {
    adopt(stored.before);
  } else if (stands_in && card(notes_.open) != nullptr) {
    open(notes_.open);
  } else if (stands_in) {
    open_first(Ticket{});
  } else if (partial_) {
    wanted_ = open_;
  }
  return gone;
}

// Two rows of one ticket cannot both be it.
void Rack::hang_line(const std::string& line) {
  auto read = read_card(line);
  if (read && card(read->id) == nullptr) return rail_.put(std::move(read.value()));
  unread_.rows.push_back(line);
  if (!read && read.problem().code == Code::TicketFromFuture) ++unread_.newer;
}

void Rack::read_on(size_t most) {
  if (whole()) return;
  for (; most > 0 && !lines_.empty(); --most) {
    const std::string line = std::move(lines_.back());
    lines_.pop_back();
    hang_line(line);
  }
  if (whole()) miss();
}

void Rack::follow(const std::string& id, const std::string& line) {
  if (id.empty()) {
    const auto notes = read_rack_notes(line);
    if (notes) notes_ = *notes;
    return;
  }
  const bool reading = !whole();
  std::erase_if(lines_, [&](const std::string& l) { return says_id(l, id); });
  rail_.erase(id);
  if (!line.empty()) hang_line(line);
  if (reading && whole()) miss();
  if (id != open_) return;
  const std::string stays = std::exchange(open_, {});
  if (card(stays) != nullptr) return open(stays);
  open_first(Ticket{});
}

// Opens what was worked on last, or a ticket that is hung for it.
void Rack::open_first(const Ticket& otherwise) {
  for (const Place place : {Place::Rack, Place::Archive}) {
    while (rail_.count(Place::Rack) == 0 && !whole()) read_on(1);
    const auto& newest = rail_.found({.place = place});
    if (!newest.empty()) return open(std::string(cards()[newest.front()].id));
  }
  begin(History(otherwise), was_empty_ && otherwise == demo_ ? kDemoId : outside_.new_id());
}

// The journal of the version that kept one ticket, in a browser that has it still.
void Rack::adopt(std::string_view journal) {
  Replayed replayed = replay(journal);
  const bool readable = !replayed.entries.empty();
  History history =
      readable ? History(std::move(replayed.entries), replayed.cursor) : History(demo_);
  begin(std::move(history), outside_.new_id());
  Keep keep{.id = open_, .card = write_card(*card(open_)), .anew = true, .moved = true};
  keep.lines = lines_of(history_.journal());
  if (replayed.problem) keep.aside = journal;
  (void)history_.unsaved();  // the lines hold it all
  keeps_.push_back(std::move(keep));
}

// ---- the open ticket -------------------------------------------------------------------------

void Rack::hold_history() {
  if (waiting_ || partial_ || card(open_) == nullptr) return;
  std::erase_if(held_, [&](const auto& held) { return held.first == open_; });
  held_.emplace_back(open_, history_);
  if (held_.size() > kMostHeld) held_.erase(held_.begin());
}

const History* Rack::held(std::string_view id) const {
  const auto held =
      std::find_if(held_.begin(), held_.end(), [&](const auto& h) { return h.first == id; });
  return held == held_.end() ? nullptr : &held->second;
}

// Hangs a new ticket and opens it.
void Rack::begin(History history, std::string id) {
  hold_history();
  open_ = std::move(id);
  rail_.put({.id = open_, .changed = outside_.now(), .ticket = history.now()});
  history_ = std::move(history);
  waiting_ = partial_ = false;
  wanted_.reset();
  keep_notes();
}

void Rack::open(const std::string& id) {
  if (card(id) == nullptr || id == open_) return;
  settle();
  hold_history();
  const Card* card = rail_.find(id);
  open_ = id;
  partial_ = false;
  wanted_.reset();
  const History* history = held(id);
  waiting_ = history == nullptr;
  if (waiting_) {
    history_ = History(card->ticket);
    wanted_ = id;
  } else {
    history_ = *history;
    history_.push(card->ticket, kOpenLabel, -1);
  }
  if (notes_.open != id) keep_notes();
}

std::optional<std::string> Rack::take_wanted() { return std::exchange(wanted_, std::nullopt); }

std::optional<Problem> Rack::history_read(std::string_view id, std::string_view journal) {
  const Card* card = rail_.find(id);
  if (!(waiting_ || partial_) || id != open_ || card == nullptr) return std::nullopt;
  waiting_ = false;
  const bool was_partial = std::exchange(partial_, false);
  Replayed replayed = replay(journal);
  const bool readable = !replayed.entries.empty();
  const History meanwhile = history_;
  history_ =
      readable ? History(std::move(replayed.entries), replayed.cursor) : History(card->ticket);
  if (was_partial && !readable) {
    history_ = meanwhile;
  } else if (was_partial) {
    for (size_t i = 0; i <= meanwhile.cursor(); ++i) {
      const HistoryEntry& step = meanwhile.entries()[i];
      // Each is a step of its own.
      const int stroke = -2 - static_cast<int>(i);
      history_.push(step.ticket, step.label.empty() ? kOpenLabel : step.label, stroke);
    }
  }
  // The card is always as new as the newest line; if a line was lost, its step is taken again.
  history_.push(card->ticket, kOpenLabel, -1);
  if (!replayed.problem && !was_partial) return std::nullopt;
  Keep keep{.id = open_, .card = write_card(*card), .anew = true};
  if (replayed.problem) keep.aside = std::string(journal);
  if (replayed.problem) unread_.asides.push_back(keep.aside);
  keep.lines = lines_of(history_.journal());
  (void)history_.unsaved();
  keeps_.push_back(std::move(keep));
  return replayed.problem;
}

void Rack::history_unread(std::string_view id) {
  if (!waiting_ || id != open_) return;
  waiting_ = false;
  partial_ = true;
  (void)history_.unsaved();
}

void Rack::push(Ticket ticket, std::string label, int stroke) {
  if (!waiting_) history_.push(std::move(ticket), std::move(label), stroke);
}
void Rack::undo() {
  if (!waiting_) history_.undo();
}
void Rack::redo() {
  if (!waiting_) history_.redo();
}

// ---- the rack --------------------------------------------------------------------------------

void Rack::add(const Ticket& ticket) {
  settle();
  const Card* twin = rail_.alike(ticket);
  if (twin != nullptr && twin->place != Place::Bin) return open(std::string(twin->id));
  begin(History(ticket), outside_.new_id());
}

void Rack::copy(const std::string& id, const std::string& name) {
  settle();
  const Card* card = rail_.find(id);
  if (card == nullptr) return;
  Ticket next = to_measure_again(card->ticket);
  next.name = name;
  begin(History(next), outside_.new_id());
}

void Rack::move(const std::string& id, Place place) {
  settle();
  const Card* there = card(id);
  if (there == nullptr || there->place == place) return;
  Card moved = *there;
  moved.place = place;
  put(std::move(moved));
  if (id == open_ && place == Place::Bin) open_first(Ticket{});
}

void Rack::erase(const std::string& id) {
  settle();
  const Card* card = rail_.find(id);
  if (card == nullptr || card->place != Place::Bin) return;
  for (const MadeSlip& slip : card->slips) notes_.gone.push_back(slip.token);
  if (notes_.gone.size() > kMostGone) {
    notes_.gone.erase(notes_.gone.begin(), notes_.gone.end() - static_cast<long>(kMostGone));
  }
  rail_.erase(id);
  keeps_.push_back({.id = id});
  std::erase(unkept_, id);
  std::erase_if(held_, [&](const auto& held) { return held.first == id; });
  if (id == open_) open_first(Ticket{});
  keep_notes();
}

void Rack::sort(RackOrder order) {
  if (notes_.order == order) return;
  notes_.order = order;
  keep_notes();
}

Fate Rack::put_back(const Card& card) {
  if (card.id == open_) settle();
  PutBack back = coatwright::put_back(rail_, demo_, card);
  if (back.card) hang_changed(std::move(*back.card));
  if (back.fate == Fate::Hung) forget_missing();
  return back.fate;
}

// A card that hangs here already, or not, as it is to be now. What was done to the open ticket goes
// into its history.
void Rack::hang_changed(Card card) {
  if (card.id == open_ && waiting_)
    history_ = History(card.ticket);  // the step comes with its history
  if (card.id != open_ || card.ticket == history_.now()) return put(std::move(card));
  const Ticket ticket = card.ticket;
  card.ticket = history_.now();
  put(std::move(card));
  push(ticket, kOpenLabel, -1);
  settle();
}

void Rack::replace(const Card& theirs) {
  const Card* mine = card(theirs.id);
  if (mine == nullptr) return put(theirs);
  Card now = *mine;
  now.ticket = theirs.ticket;
  now.changed = outside_.now();
  hang_changed(std::move(now));
}

std::string Rack::hang_beside(Card theirs) {
  if (rail_.alike(theirs.ticket) != nullptr) return {};
  theirs.id = outside_.new_id();
  const std::string id = theirs.id;
  put(std::move(theirs));
  return id;
}

void Rack::hang_new(const Ticket& ticket) {
  if (rail_.alike(ticket) != nullptr) return;
  put({.id = outside_.new_id(), .changed = outside_.now(), .ticket = ticket});
}

bool Rack::is_example(const Ticket& ticket) const {
  return !ticket.dog.empty() && ticket.dog == demo_.dog && ticket.readings == demo_.readings;
}

std::optional<Problem> Rack::shelve(const Cloth& cloth) {
  Result<Shelf> shelf = with_cloth(notes_.shelf, cloth);
  if (!shelf) return shelf.problem();
  notes_.shelf = std::move(shelf.value());
  keep_notes();
  return std::nullopt;
}

void Rack::unshelve(const Cloth& cloth) {
  notes_.shelf = without_cloth(std::move(notes_.shelf), cloth);
  keep_notes();
}

void Rack::put_back(const Shelf& backup) {
  notes_.shelf = coatwright::put_back(std::move(notes_.shelf), backup);
  keep_notes();
}

Printer Rack::printer() const {
  const Printer* chosen = printer_of(notes_.printers, notes_.printer);
  return chosen != nullptr ? *chosen : Printer{};
}

void Rack::use_printer(const std::string& name) {
  notes_.printer = name;
  keep_notes();
}

// It is the one that is printed on from now on.
std::optional<Problem> Rack::keep_printer(const Printer& printer) {
  Result<Printers> printers = with_printer(notes_.printers, printer);
  if (!printers) return printers.problem();
  notes_.printers = std::move(printers.value());
  use_printer(printer.name);
  return std::nullopt;
}

void Rack::forget_printer(const std::string& name) {
  notes_.printers = without_printer(std::move(notes_.printers), name);
  if (notes_.printer == name) notes_.printer.clear();
  keep_notes();
}

void Rack::keep_usual(std::optional<Usual> usual) {
  notes_.usual = std::move(usual);
  keep_notes();
}

void Rack::keep_sizes(const SizesWanted& sizes) {
  if (notes_.sizes == sizes) return;
  notes_.sizes = sizes;
  keep_notes();
}

void Rack::put_back(const Printers& backup) {
  notes_.printers = coatwright::put_back(std::move(notes_.printers), backup);
  keep_notes();
}

void Rack::remember_prices() {
  RackNotes notes = with_prices_of(notes_, history_.now());
  if (notes == notes_) return;
  notes_ = std::move(notes);
  keep_notes();
}

std::vector<std::string> Rack::kept_ids() {
  settle();
  std::vector<std::string> out;
  for (const Place place : {Place::Rack, Place::Archive}) {
    for (const size_t i : rail_.found({.place = place})) out.push_back(cards()[i].id);
  }
  return out;
}

void Rack::backed_up(UnixMs when) {
  notes_.backed_up = when;
  keep_notes();
}

void Rack::slip_made(const SlipToken& token) {
  settle();
  const Card* there = card(open_);
  if (there == nullptr || slip_of(*there, token) != nullptr) return;
  put(with_slip(*there, {.token = token, .made = outside_.now()}));
}

void Rack::slip_answered(const SlipToken& token) {
  settle();
  const Card* there = card_of_slip(token);
  if (there == nullptr) return;
  Card answered = *there;
  for (MadeSlip& slip : answered.slips) {
    if (slip.token == token) slip.answered = outside_.now();
  }
  put(std::move(answered));
}

void Rack::set_studio(const std::string& name, const SlipBack& back) {
  if (notes_.studio == name && notes_.back == back) return;
  notes_.studio = name;
  notes_.back = back;
  keep_notes();
}

const Card* Rack::card_of_slip(const SlipToken& token) const {
  const auto index = coatwright::card_of_slip(cards(), token);
  return index ? &cards()[*index] : nullptr;
}

bool Rack::slip_is_gone(const SlipToken& token) const {
  return std::find(notes_.gone.begin(), notes_.gone.end(), token) != notes_.gone.end();
}

// ---- what must be kept -----------------------------------------------------------------------

// Hangs a card as it is now, and has it kept.
void Rack::put(Card card) {
  keep_card(card);
  rail_.put(std::move(card));
}

void Rack::keep_card(const Card& card, std::vector<std::string> lines, bool anew) {
  keeps_.push_back(
      {.id = card.id, .card = write_card(card), .lines = std::move(lines), .anew = anew});
}

void Rack::keep_notes() {
  notes_.open = open_;
  keeps_.push_back({.id = {}, .card = write_rack_notes(notes_)});
}

// The open ticket's changes, and everything of it that the store could not keep before.
void Rack::settle() {
  if (waiting_) return;
  const Card* there = card(open_);
  const auto failed = std::find(unkept_.begin(), unkept_.end(), open_);
  if (there == nullptr || (!history_.has_unsaved() && failed == unkept_.end())) return;
  Card card = *there;
  if (card.ticket != history_.now()) {
    card.ticket = history_.now();
    card.changed = outside_.now();
  }
  std::vector<std::string> lines = history_.unsaved();
  const bool anew = failed != unkept_.end() && !partial_;
  if (anew) lines = lines_of(history_.journal());
  // Behind steps that could not be read, these would take their place.
  if (partial_) lines.clear();
  std::erase(unkept_, open_);
  keep_card(card, std::move(lines), anew);
  // Steps that could not be read may have them still.
  if (std::vector<std::string> gone = history_.take_gone(); !partial_) {
    keeps_.back().gone = std::move(gone);
  }
  rail_.put(std::move(card));
}

// All of it that is in memory.
void Rack::keep_again(const std::string& id) {
  if (id.empty()) return keep_notes();
  const Card* card = rail_.find(id);
  if (card == nullptr) return keeps_.push_back({.id = id});
  const bool open = id == open_;
  const History* history = !open ? held(id) : waiting_ || partial_ ? nullptr : &history_;
  if (history == nullptr) return keep_card(*card);
  keep_card(*card, lines_of(history->journal()), true);
}

std::vector<Keep> Rack::take_keeps() {
  const bool changed = std::exchange(again_, false) || history_.has_unsaved() || !keeps_.empty();
  if (!changed) return {};
  const std::vector<std::string> failed = unkept_;
  settle();
  for (const std::string& id : std::exchange(unkept_, {})) keep_again(id);
  const size_t changes = keeps_.size();
  for (const std::string& id : std::exchange(also_, {})) keep_again(id);
  for (size_t i = changes; i < keeps_.size(); ++i) keeps_[i].again = true;
  for (Keep& keep : keeps_) {
    if (!keep.aside.empty() || keep.moved) {
      burdens_[keep.id] = {.id = keep.id, .aside = keep.aside, .moved = keep.moved};
    } else if (contains(failed, keep.id)) {
      const auto burden = burdens_.find(keep.id);
      if (burden == burdens_.end()) continue;
      keep.aside = burden->second.aside;
      keep.moved = burden->second.moved;
    }
  }
  return std::exchange(keeps_, {});
}

void Rack::keep_failed(const std::string& id) {
  if (!contains(unkept_, id)) unkept_.push_back(id);
}

void Rack::keep_everything() {
  constexpr size_t kMost = 300;  // tickets; a letter holds no more
  if (cards().size() > kMost) return keep_again();
  also_ = {{}};
  for (const Card& card : cards()) also_.push_back(card.id);
  std::erase_if(also_, [&](const std::string& id) { return contains(unkept_, id); });
  again_ = true;
}

std::vector<Ticket> Rack::unkept() {
  if (unkept_.empty()) return {};
  if (const Card* open = card(open_); !waiting_ && open != nullptr) {
    Card now = *open;
    now.ticket = history_.now();
    rail_.put(std::move(now));
  }
  std::vector<Ticket> tickets;
  for (const std::string& id : unkept_) {
    const Card* card = rail_.find(id);
    if (card != nullptr && is_work(*card)) tickets.push_back(card->ticket);
  }
  return tickets;
}

// ---- what is gone ----------------------------------------------------------------------------

std::vector<std::string> Unread::all() const {
  std::vector<std::string> out = rows;
  out.insert(out.end(), asides.begin(), asides.end());
  return out;
}

bool Rack::is_work(const Card& card) const {
  static const Ticket blank;
  return card.place != Place::Bin && card.ticket != demo_ && card.ticket != blank;
}

bool Rack::has_work() const {
  return std::any_of(cards().begin(), cards().end(), [&](const Card& c) { return is_work(c); });
}

RackMark Rack::marked() const {
  RackMark mark;
  for (const Card& card : cards()) {
    if (!is_work(card)) continue;
    ++mark.tickets;
    mark.changed = std::max(mark.changed, card.changed);
  }
  return mark;
}

std::string Rack::mark() const {
  return write_mark(missing_.any() || closed_ || !whole() ? mark_ : marked());
}

// Compares the mark of the last visit with what is there. Rows that cannot be read are there.
void Rack::miss() {
  if (!looks_for_missing_) return;
  missing_ = {};
  if (closed_ || mark_.tickets == 0) return;
  const RackMark now = marked();
  const int there = now.tickets + static_cast<int>(unread_.rows.size());
  const int gone = std::max(0, mark_.tickets - there);
  const bool older = unread_.rows.empty() && now.changed < mark_.changed;
  if (gone > 0 || older) missing_ = {gone, mark_.changed};
}

}  // namespace coatwright::studio
