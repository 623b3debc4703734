// The rack and the ticket that is worked on: what is done to them, and what must be kept of it.
// Knows no screen and no store.
//
// A history is long and read only when its ticket is opened: open() asks for it, the store answers
// with history_read(), and until then the ticket stands as its card has it and takes no change.
// Thousands of cards are not read at once either: the one that is worked on comes first, the others
// with read_on(), newest first, until the rack is whole().
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/rack/backup.h"
#include "core/rack/rack.h"
#include "core/rack/rail.h"
#include "shell/rack/history.h"
#include "shell/rack/keep.h"

namespace coatwright::studio {

// What core has not: a clock and chance.
struct Outside {
  std::function<UnixMs()> now;
  std::function<std::string()> new_id;  // eight characters of base64url, never twice
};

// What a store holds and this version cannot read, as it was found.
struct Unread {
  std::vector<std::string> rows;    // that should be tickets or the rack's notes
  std::vector<std::string> asides;  // put aside earlier
  int newer = 0;                    // of the rows: tickets of a newer version
  size_t old = 0;                   // of the asides: those of an earlier visit
  [[nodiscard]] std::vector<std::string> all() const;
};

// What a mark tells of and the store does not hold.
struct Missing {
  int tickets = 0;     // that hung here, and hang no longer
  UnixMs changed = 0;  // when the rack was last changed; 0: nothing is missing
  [[nodiscard]] bool any() const { return changed > 0; }
};

class Rack {
 public:
  Rack(Outside outside, const Ticket& demo);

  // Takes what a store holds: at the start, and again when another window has changed it. The open
  // ticket stays open if it is still there. On a first visit the demo ticket hangs.
  void hang(Stored stored);
  // Every card that the store holds was looked at. Until then nothing can be said of what hangs here.
  [[nodiscard]] bool whole() const { return lines_.empty(); }
  [[nodiscard]] size_t still_unread() const { return lines_.size(); }
  // Reads on, so many cards at the most.
  void read_on(size_t most);
  // Another window has changed a card: its line now, empty if it was erased. Without an id: the notes.
  void follow(const std::string& id, const std::string& line);
  // The store stands open again after it was closed, cleared, or not to be opened: takes in what it
  // holds and this window has not, and keeps, with the next take_keeps(), what it lacks or has
  // otherwise. Returns how many tickets were gone from it.
  [[nodiscard]] int join(const Stored& stored);
  // Nothing had been kept: someone's first visit.
  [[nodiscard]] bool was_empty() const { return was_empty_; }
  // Rows that are no ticket of this version. They stay in the store as they are.
  [[nodiscard]] const Unread& unread() const { return unread_; }
  // What the mark tells of and the store did not hold at the start, until it is forgotten or a
  // backup is put back.
  [[nodiscard]] const Missing& missing() const { return missing_; }
  void forget_missing() { missing_ = {}; }
  // The mark as it is to be kept now, outside the store.
  [[nodiscard]] std::string mark() const;
  // More hangs here than the demo ticket of a first visit.
  [[nodiscard]] bool has_work() const;

  [[nodiscard]] const Rail& rail() const { return rail_; }
  [[nodiscard]] const std::vector<Card>& cards() const { return rail_.cards(); }
  [[nodiscard]] const Card* card(std::string_view id) const { return rail_.find(id); }
  [[nodiscard]] const RackNotes& notes() const { return notes_; }
  [[nodiscard]] const std::string& open_id() const { return open_; }
  [[nodiscard]] const History& history() const { return history_; }
  // The open ticket's history is on its way.
  [[nodiscard]] bool waiting() const { return waiting_; }
  [[nodiscard]] const Outside& outside() const { return outside_; }

  // On the open ticket.
  void push(Ticket ticket, std::string label, int stroke);
  void undo();
  void redo();

  // On the rack.
  void open(const std::string& id);
  void add(const Ticket& ticket);  // hangs it and opens it; its twin, if that hangs there already
  // The same dog's next coat (to_measure_again), opened, under a name of its own.
  void copy(const std::string& id, const std::string& name);
  void move(const std::string& id, Place place);
  void erase(const std::string& id);  // for good; only its slips are remembered
  void sort(RackOrder order);
  // A card of a backup (core/rack/backup.h).
  Fate put_back(const Card& card);
  // The ticket of a backup takes the place of the one with its id, as a step that undo takes back;
  // or it is hung beside it:
  void replace(const Card& theirs);
  // the id under which it hangs then; empty: it hangs already.
  [[nodiscard]] std::string hang_beside(Card theirs);
  // A ticket that was made here, beside the open one; not if one like it hangs already.
  void hang_new(const Ticket& ticket);
  // The shelf of cloths.
  std::optional<Problem> shelve(const Cloth& cloth);
  void unshelve(const Cloth& cloth);
  void put_back(const Shelf& backup);
  // The printer that is printed on: the chosen one, or one that is true.
  [[nodiscard]] Printer printer() const;
  void use_printer(const std::string& name);
  [[nodiscard]] std::optional<Problem> keep_printer(const Printer& printer);
  void forget_printer(const std::string& name);
  void put_back(const Printers& backup);
  // What a new ticket begins with; nothing: as the program has it.
  void keep_usual(std::optional<Usual> usual);
  void keep_sizes(const SizesWanted& sizes);
  // The open ticket's prices, for the next one.
  void remember_prices();
  // What a backup holds: every ticket but those in the bin, in an order that stays.
  [[nodiscard]] std::vector<std::string> kept_ids();
  void backed_up(UnixMs when);
  // The ticket of a first visit, as long as it is that dog with these readings.
  [[nodiscard]] bool is_example(const Ticket& ticket) const;
  // A slip with this token was made for the open ticket.
  void slip_made(const SlipToken& token);
  // Readings were taken from an answer to it.
  void slip_answered(const SlipToken& token);
  // Who asks on slips, and how readings come back.
  void set_studio(const std::string& name, const SlipBack& back);
  // The ticket that an answer is for; a slip whose ticket was deleted for good is told apart.
  [[nodiscard]] const Card* card_of_slip(const SlipToken& token) const;
  [[nodiscard]] bool slip_is_gone(const SlipToken& token) const;

  // The id whose history is wanted, once.
  [[nodiscard]] std::optional<std::string> take_wanted();
  // Its journal. The problem, if part of it could not be read; that is put aside unchanged.
  std::optional<Problem> history_read(std::string_view id, std::string_view journal);
  // The store could not be asked: work goes on without the earlier steps. They are asked for again
  // by join(), and what was done meanwhile goes behind them.
  void history_unread(std::string_view id);

  // What has changed since the last call, once it is settled.
  [[nodiscard]] std::vector<Keep> take_keeps();
  // The store could not keep a change of this ticket ("": of the notes). With the next change, or
  // when it is asked for, all of it is brought again.
  void keep_failed(const std::string& id);
  // The store may lose what it holds: everything is to be brought again.
  void keep_everything();
  // The tickets that the store has not as they are here.
  [[nodiscard]] std::vector<Ticket> unkept();
  void keep_again() { again_ = again_ || !unkept_.empty(); }

 private:
  void hang_line(const std::string& line);
  void put(Card card);
  void hang_changed(Card card);
  void take_notes(const std::string& text);
  [[nodiscard]] RackMark marked() const;
  void keep_card(const Card& card, std::vector<std::string> lines = {}, bool anew = false);
  void keep_again(const std::string& id);
  void hold_history();
  [[nodiscard]] const History* held(std::string_view id) const;
  [[nodiscard]] bool is_work(const Card& card) const;
  void miss();
  void keep_notes();
  void settle();
  void begin(History history, std::string id);
  void adopt(std::string_view journal);
  void open_first(const Ticket& otherwise);

  Outside outside_;
  Ticket demo_;
  Rail rail_;
  std::vector<std::string> lines_;  // of cards that were not looked at yet, the next one last
  RackNotes notes_;
  std::string open_;
  History history_;
  bool waiting_ = false;
  bool partial_ = false;  // the open ticket's earlier steps could not be read yet
  // Of tickets that were open before, the latest last: what a lost store cannot give back.
  std::vector<std::pair<std::string, History>> held_;
  bool was_empty_ = false;
  bool closed_ = false;  // the store was never read
  Unread unread_;
  RackMark mark_;  // as it was at the start
  Missing missing_;
  bool looks_for_missing_ = false;  // by the mark, once the rack is whole
  std::optional<std::string> wanted_;
  std::vector<Keep> keeps_;
  std::vector<std::string> unkept_;  // ids that the store has not as they are here
  std::vector<std::string> also_;    // ids that are to be sent although it has them
  bool again_ = false;               // they are to be kept now
  // What was put aside, or may go, with a ticket's change: it goes with the next if that failed.
  std::map<std::string, Keep> burdens_;
};

}  // namespace coatwright::studio
