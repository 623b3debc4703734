#include "shell/rack/rack.h"

#include <algorithm>

namespace coatwright::studio {

namespace {

constexpr char kOpenLabel[] = "ui.open-ticket";

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

Card* Rack::find(std::string_view id) {
  const auto card =
      std::find_if(cards_.begin(), cards_.end(), [&](const Card& c) { return c.id == id; });
  return card == cards_.end() ? nullptr : &*card;
}

const Card* Rack::card(std::string_view id) const { return const_cast<Rack*>(this)->find(id); }

// ---- what the store holds --------------------------------------------------------------------

void Rack::hang(const Stored& stored) {
  cards_.clear();
  keeps_.clear();
  unkept_.clear();
  unreadable_ = 0;
  const auto notes = read_rack_notes(stored.notes);
  notes_ = notes ? *notes : RackNotes{};
  for (const std::string& line : stored.cards) {
    auto card = read_card(line);
    if (card) {
      cards_.push_back(std::move(card.value()));
    } else {
      ++unreadable_;
    }
  }
  was_empty_ = stored.cards.empty() && stored.before.empty();
  const std::string stays = open_;
  open_.clear();
  if (!stored.before.empty()) return adopt(stored.before);
  if (card(stays) != nullptr) return open(stays);
  if (card(notes_.open) != nullptr) return open(notes_.open);
  open_first(was_empty_ ? demo_ : Ticket{});
}

// Opens what was worked on last, or a ticket that is hung for it.
void Rack::open_first(const Ticket& otherwise) {
  for (const Place place : {Place::Rack, Place::Archive}) {
    const auto newest = coatwright::found(cards_, {.place = place, .words = {}});
    if (!newest.empty()) return open(cards_[newest.front()].id);
  }
  begin(History(otherwise));
}

// The journal of the version that kept one ticket, in a browser that has it still.
void Rack::adopt(std::string_view journal) {
  Replayed replayed = replay(journal);
  const bool readable = !replayed.entries.empty();
  History history =
      readable ? History(std::move(replayed.entries), replayed.cursor) : History(demo_);
  begin(std::move(history));
  Keep keep{.id = open_, .card = write_card(cards_.back()), .anew = true, .moved = true};
  keep.lines = lines_of(history_.journal());
  if (replayed.problem) keep.aside = journal;
  (void)history_.unsaved();  // the lines hold it all
  keeps_.push_back(std::move(keep));
}

// ---- the open ticket -------------------------------------------------------------------------

// Hangs a new ticket and opens it.
void Rack::begin(History history) {
  open_ = outside_.new_id();
  cards_.push_back({.id = open_, .changed = outside_.now(), .ticket = history.now()});
  history_ = std::move(history);
  waiting_ = false;
  wanted_.reset();
  keep_notes();
}

void Rack::open(const std::string& id) {
  const Card* card = find(id);
  if (card == nullptr || id == open_) return;
  settle();
  open_ = id;
  history_ = History(card->ticket);
  waiting_ = true;
  wanted_ = id;
  if (notes_.open != id) keep_notes();
}

std::optional<std::string> Rack::take_wanted() { return std::exchange(wanted_, std::nullopt); }

std::optional<Problem> Rack::history_read(std::string_view id, std::string_view journal) {
  const Card* card = find(id);
  if (!waiting_ || id != open_ || card == nullptr) return std::nullopt;
  waiting_ = false;
  Replayed replayed = replay(journal);
  const bool readable = !replayed.entries.empty();
  history_ =
      readable ? History(std::move(replayed.entries), replayed.cursor) : History(card->ticket);
  // The card is always as new as the newest line; if a line was lost, its step is taken again.
  history_.push(card->ticket, kOpenLabel, -1);
  if (!replayed.problem) return std::nullopt;
  Keep keep{.id = open_, .card = write_card(*card), .anew = true, .aside = std::string(journal)};
  keep.lines = lines_of(history_.journal());
  (void)history_.unsaved();
  keeps_.push_back(std::move(keep));
  return replayed.problem;
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
  for (const Card& card : cards_) {
    if (card.place != Place::Bin && card.ticket == ticket) return open(card.id);
  }
  begin(History(ticket));
}

void Rack::copy(const std::string& id) {
  settle();
  const Card* card = find(id);
  if (card == nullptr) return;
  const Ticket next = to_measure_again(card->ticket);
  begin(History(next));
}

void Rack::move(const std::string& id, Place place) {
  settle();
  Card* card = find(id);
  if (card == nullptr || card->place == place) return;
  card->place = place;
  keep_card(*card);
  if (id == open_ && place == Place::Bin) open_first(Ticket{});
}

void Rack::erase(const std::string& id) {
  settle();
  const Card* card = find(id);
  if (card == nullptr || card->place != Place::Bin) return;
  for (const MadeSlip& slip : card->slips) notes_.gone.push_back(slip.token);
  if (notes_.gone.size() > kMostGone) {
    notes_.gone.erase(notes_.gone.begin(), notes_.gone.end() - static_cast<long>(kMostGone));
  }
  cards_.erase(cards_.begin() + (card - cards_.data()));
  keeps_.push_back({.id = id});
  std::erase(unkept_, id);
  if (id == open_) open_first(Ticket{});
  keep_notes();
}

void Rack::sort(RackOrder order) {
  if (notes_.order == order) return;
  notes_.order = order;
  keep_notes();
}

PutBack Rack::put_back(const std::vector<Card>& backup) {
  settle();
  PutBack out = coatwright::put_back(cards_, backup, outside_.new_id);
  for (const Card& card : out.hung) {
    Card* there = find(card.id);
    if (there == nullptr) {
      cards_.push_back(card);
    } else {
      *there = card;
    }
    keep_card(card);
  }
  return out;
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

void Rack::remember_prices() {
  RackNotes notes = with_prices_of(notes_, history_.now());
  if (notes == notes_) return;
  notes_ = std::move(notes);
  keep_notes();
}

std::string Rack::backup() {
  settle();
  std::vector<Card> kept;
  for (const Card& card : cards_) {
    if (card.place != Place::Bin) kept.push_back(card);
  }
  notes_.backed_up = outside_.now();
  keep_notes();
  return write_backup(kept, notes_.backed_up, notes_.shelf);
}

void Rack::slip_made(const SlipToken& token) {
  settle();
  Card* card = find(open_);
  if (card == nullptr || slip_of(*card, token) != nullptr) return;
  *card = with_slip(std::move(*card), {.token = token, .made = outside_.now()});
  keep_card(*card);
}

void Rack::slip_answered(const SlipToken& token) {
  settle();
  const auto index = coatwright::card_of_slip(cards_, token);
  if (!index) return;
  Card& card = cards_[*index];
  for (MadeSlip& slip : card.slips) {
    if (slip.token == token) slip.answered = outside_.now();
  }
  keep_card(card);
}

void Rack::set_studio(const std::string& name, const SlipBack& back) {
  if (notes_.studio == name && notes_.back == back) return;
  notes_.studio = name;
  notes_.back = back;
  keep_notes();
}

const Card* Rack::card_of_slip(const SlipToken& token) const {
  const auto index = coatwright::card_of_slip(cards_, token);
  return index ? &cards_[*index] : nullptr;
}

bool Rack::slip_is_gone(const SlipToken& token) const {
  return std::find(notes_.gone.begin(), notes_.gone.end(), token) != notes_.gone.end();
}

// ---- what must be kept -----------------------------------------------------------------------

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
  Card* card = find(open_);
  const auto failed = std::find(unkept_.begin(), unkept_.end(), open_);
  if (card == nullptr || (!history_.has_unsaved() && failed == unkept_.end())) return;
  if (card->ticket != history_.now()) {
    card->ticket = history_.now();
    card->changed = outside_.now();
  }
  std::vector<std::string> lines = history_.unsaved();
  const bool anew = failed != unkept_.end();
  if (anew) lines = lines_of(history_.journal());
  std::erase(unkept_, open_);
  keep_card(*card, std::move(lines), anew);
}

std::vector<Keep> Rack::take_keeps() {
  const bool changed = history_.has_unsaved() || !keeps_.empty();
  if (!changed) return {};
  settle();
  // With this change, what another ticket could not keep is tried again.
  for (const std::string& id : std::exchange(unkept_, {})) {
    if (id == open_) continue;
    if (const Card* card = find(id)) keep_card(*card);
  }
  return std::exchange(keeps_, {});
}

void Rack::keep_failed(const std::string& id) {
  if (id.empty() || find(id) == nullptr) return;
  if (std::find(unkept_.begin(), unkept_.end(), id) == unkept_.end()) unkept_.push_back(id);
}

}  // namespace coatwright::studio
