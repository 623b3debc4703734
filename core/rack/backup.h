// The whole rack as a file: every ticket, also archived ones, with what the rack knows of it, and
// of the rack's notes the shelf of cloths, the printers, the studio's usual and sizes; if wanted, the
// photographs of fittings.
// Steps of undo stay in the browser.
//
// Both ways go a ticket at a time, so that a rack of any length is saved and put back between
// frames. One limit holds both ways: a rack that is larger than a file may be is written as several,
// each a backup by itself, in whatever order they are put back.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/rack/card.h"
#include "core/rack/rack.h"
#include "core/rack/rail.h"

namespace coatwright {

inline constexpr int kBackupVersion = 1;
inline constexpr size_t kMostBackupBytes = 32u << 20;  // of one file

// A photograph's picture as a backup has it: a JPEG in base64 (RFC 4648, section 4). What it shows is
// the browser's to look at.
struct KeptPhoto {
  std::string ticket, id;
  std::string jpeg;
  bool operator==(const KeptPhoto&) const = default;
};
inline constexpr size_t kMostPhotoText = 280'000;  // 210 kB of picture

// JSON, one ticket a line, and behind them one photograph a line. A ticket's photographs are in its
// file.
class BackupWriter {
 public:
  BackupWriter(UnixMs now, const RackNotes& notes, size_t most_bytes = kMostBackupBytes);
  void add(const Card& card, const std::vector<KeptPhoto>& photos = {});
  // The files, one at least.
  [[nodiscard]] std::vector<std::string> finish() &&;

 private:
  void begin();
  void end();

  std::string head_, tail_;
  size_t most_bytes_;
  bool empty_ = true;   // the last file has no ticket yet
  std::string photos_;  // of the last file
  std::vector<std::string> files_;
};
[[nodiscard]] std::vector<std::string> write_backup(const std::vector<Card>& cards, UnixMs now,
                                                    const RackNotes& notes = {});

struct Backup {
  UnixMs saved = 0;
  std::vector<Card> cards;
  Shelf shelf;
  Printers printers;
  std::optional<Usual> usual;
  SizesWanted sizes;
  std::vector<KeptPhoto> photos;  // each one of a ticket here
  // What was left out: tickets, photographs, or places that are no JSON; and of the first of them what
  // is wrong, subject "/tickets/3/ticket/dog".
  int unreadable = 0;
  std::optional<Problem> why;
  bool cut_short = false;  // the file ends before its end
};

// Reads a backup a ticket at a time. A ticket that cannot be read is left out and told, as is what
// is missing of a file that breaks off; the others can be had. Tickets stand one a line: behind a
// place that is no JSON, the next line is tried.
class BackupReader {
 public:
  explicit BackupReader(std::string json);
  // One ticket, or one thing beside them, more; false when there is no more.
  bool read_on();
  [[nodiscard]] double part() const;  // that was read, 0 to 1
  // Once there is no more. Problems: RackTooLarge, RackNotRack, RackFromFuture, and those of
  // parse_json and read_fields.
  [[nodiscard]] Result<Backup> result() &&;

 private:
  bool fail(Problem problem);
  bool leave_out(Problem problem);
  bool read_item_here();
  bool read_member();
  bool read_value(const std::string& key, std::string_view value);
  void check_photos();
  bool cut_short();
  bool skip(char sign);
  void skip_blanks();
  [[nodiscard]] bool knows(std::string_view key) const;

  std::string text_;
  size_t at_ = 0;
  enum class Where { Start, Members, Tickets, Photos, End } where_ = Where::Start;
  std::vector<std::string> keys_;          // that were read
  size_t items_ = 0;                       // of this list that were met
  size_t damaged_ = 0;                     // places that are no JSON
  size_t damaged_at_ = std::string::npos;  // the line behind the last of them
  Backup backup_;
  std::optional<Problem> problem_;
};
[[nodiscard]] Result<Backup> read_backup(std::string_view json);

// True for what a BackupReader reads or has a better sentence for than read_ticket.
[[nodiscard]] bool looks_like_backup(std::string_view json);

// What becomes of a backup's card on the rack. Nothing of the maker's is ever replaced unasked.
enum class Fate {
  Hung,     // new here, or out of the bin, or in the place of the example as it came
  There,    // this very ticket hangs here, whatever its id
  Differs,  // under its id hangs a ticket that differs
  Example,  // the example as it came, and under its id hangs what was made of it: not hung again
};
struct PutBack {
  Fate fate = Fate::There;
  std::optional<Card> card;  // to be hung, or that gets more slips
};
// `example`: the ticket of a first visit, which stands for nobody's work.
[[nodiscard]] PutBack put_back(const Rail& rail, const Ticket& example, const Card& card);

// What differs between a ticket that hangs here and the one of a backup.
struct TicketDifference {
  bool dog = false, name = false, notes = false;
  std::vector<Measure> measures;  // their readings
  bool coat = false;              // style or choices
  bool other = false;             // anything else that stands on it
};
[[nodiscard]] TicketDifference difference_of(const Ticket& a, const Ticket& b);

}  // namespace coatwright
