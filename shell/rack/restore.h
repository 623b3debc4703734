// What takes longer than a frame may, with thousands of tickets: a rack on its way into a file, and
// a backup on its way back. Both are worked on a ticket at a time.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/rack/backup.h"
#include "shell/rack/rack.h"

namespace coatwright::studio {

class Saving {
 public:
  explicit Saving(Rack& rack, bool with_photographs = false);
  // One ticket more, as it hangs now, or one of its photographs; false when all are written.
  bool write_on(const Rack& rack);
  // It goes on once the store has answered for a photograph: which one, asked once; its JPEG in base64,
  // empty if it is not there.
  [[nodiscard]] bool waits() const { return waits_; }
  [[nodiscard]] std::optional<KeptPhoto> take_wanted() { return std::exchange(wanted_, {}); }
  void photo_read(const std::string& id, std::string jpeg);
  [[nodiscard]] int photos_missing() const { return missing_; }
  [[nodiscard]] size_t to_go() const { return ids_.size(); }
  // The files. The rack notes when they were made: what was changed meanwhile is newer.
  [[nodiscard]] std::vector<std::string> finish(Rack& rack) &&;

 private:
  std::vector<std::string> ids_;  // still to be written, the next one last
  UnixMs began_;
  BackupWriter writer_;
  bool with_photographs_;
  std::optional<Card> card_;          // whose photographs are being read
  std::vector<std::string> to_read_;  // of these the next one last
  std::vector<KeptPhoto> photos_;     // those that were read
  std::optional<KeptPhoto> wanted_;
  bool waits_ = false;
  int missing_ = 0;
};

// What becomes of a ticket that differs from the one that hangs under its id.
enum class TakeBack { Mine, Theirs, Both };

// First the whole file is read, then what is new is hung; what differs waits for its maker, who is
// asked about each; then what was answered is done.
class Restore {
 public:
  explicit Restore(std::string file) : reader_(std::in_place, std::move(file)) {}
  // One ticket more; false when there is no more to do, or none before choose().
  bool work_on(Rack& rack);
  enum class Stage { Reading, Hanging, Asking, Taking, Done };
  [[nodiscard]] Stage stage() const { return stage_; }
  [[nodiscard]] double part() const;  // of the stage, 0 to 1

  // Why the file cannot be put back at all.
  [[nodiscard]] const std::optional<Problem>& problem() const { return problem_; }
  [[nodiscard]] const Backup& backup() const { return backup_; }  // but for its tickets
  [[nodiscard]] int hung() const { return hung_; }
  [[nodiscard]] int there() const { return there_; }
  [[nodiscard]] bool example_left_out() const { return example_left_out_; }
  // The backup's tickets that differ, under the ids of those that hang here.
  [[nodiscard]] const std::vector<Card>& differing() const { return differing_; }
  // One answer for each.
  void choose(std::vector<TakeBack> answers);
  // The photographs of what was hung, each under the id that its ticket has here, once.
  [[nodiscard]] std::vector<KeptPhoto> take_photos() { return std::exchange(photos_, {}); }

 private:
  bool read_on();
  bool hang_on(Rack& rack);
  bool take_on(Rack& rack);
  void bring_photos(const Card& card, const std::string& id);

  Stage stage_ = Stage::Reading;
  std::optional<BackupReader> reader_;
  Backup backup_;
  std::optional<Problem> problem_;
  size_t next_ = 0;  // of the tickets of this stage
  int hung_ = 0, there_ = 0;
  bool example_left_out_ = false;
  std::vector<Card> differing_;
  std::vector<TakeBack> answers_;
  std::vector<KeptPhoto> photos_;
};

}  // namespace coatwright::studio
