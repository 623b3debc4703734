// The rack and the ticket that is worked on: what is done to them, and what must be kept of it.
// Knows no screen and no store.
//
// A history is long and read only when its ticket is opened: open() asks for it, the store answers
// with history_read(), and until then the ticket stands as its card has it and takes no change.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/rack/backup.h"
#include "core/rack/rack.h"
#include "shell/rack/history.h"
#include "shell/rack/keep.h"

namespace coatwright::studio {

// What core has not: a clock and chance.
struct Outside {
  std::function<UnixMs()> now;
  std::function<std::string()> new_id;  // eight characters of base64url, never twice
};

class Rack {
 public:
  Rack(Outside outside, const Ticket& demo);

  // Takes what a store holds: at the start, and again when another window has changed it. The open
  // ticket stays open if it is still there. On a first visit the demo ticket hangs.
  void hang(const Stored& stored);
  // Cards that could not be read (of a later version, or damaged). They stay in the store as they
  // are.
  [[nodiscard]] int unreadable() const { return unreadable_; }
  // Nothing had been kept: someone's first visit.
  [[nodiscard]] bool was_empty() const { return was_empty_; }

  [[nodiscard]] const std::vector<Card>& cards() const { return cards_; }
  [[nodiscard]] const Card* card(std::string_view id) const;
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
  void add(const Ticket& ticket);    // hangs it and opens it; its twin, if that hangs there already
  void copy(const std::string& id);  // the same dog's next coat (to_measure_again), opened
  void move(const std::string& id, Place place);
  void erase(const std::string& id);  // for good; only its slips are remembered
  void sort(RackOrder order);
  PutBack put_back(const std::vector<Card>& backup);
  // The shelf of cloths.
  std::optional<Problem> shelve(const Cloth& cloth);
  void unshelve(const Cloth& cloth);
  void put_back(const Shelf& backup);
  // The open ticket's prices, for the next one.
  void remember_prices();
  // Every ticket but those in the bin; notes when it was made.
  [[nodiscard]] std::string backup();
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

  // What has changed since the last call, once it is settled.
  [[nodiscard]] std::vector<Keep> take_keeps();
  // The store could not keep a ticket's change: its next one brings everything again.
  void keep_failed(const std::string& id);

 private:
  [[nodiscard]] Card* find(std::string_view id);
  void keep_card(const Card& card, std::vector<std::string> lines = {}, bool anew = false);
  void keep_notes();
  void settle();
  void begin(History history);
  void adopt(std::string_view journal);
  void open_first(const Ticket& otherwise);

  Outside outside_;
  Ticket demo_;
  std::vector<Card> cards_;
  RackNotes notes_;
  std::string open_;
  History history_;
  bool waiting_ = false;
  bool was_empty_ = false;
  int unreadable_ = 0;
  std::optional<std::string> wanted_;
  std::vector<Keep> keeps_;
  std::vector<std::string> unkept_;  // ids that the store has not as they are here
};

}  // namespace coatwright::studio
