#include "shell/rack/restore.h"

#include <algorithm>

namespace coatwright::studio {

Saving::Saving(Rack& rack)
    : ids_(rack.kept_ids()),
      began_(rack.outside().now()),
      writer_(began_, rack.notes().shelf, kMostBackupBytes, rack.notes().printers,
              rack.notes().usual) {
  std::reverse(ids_.begin(), ids_.end());
}

bool Saving::write_on(const Rack& rack) {
  if (ids_.empty()) return false;
  const Card* card = rack.card(ids_.back());
  if (card != nullptr && card->place != Place::Bin) writer_.add(*card);
  ids_.pop_back();
  return true;
}

std::vector<std::string> Saving::finish(Rack& rack) && {
  rack.backed_up(began_);
  return std::move(writer_).finish();
}

double Restore::part() const {
  if (stage_ == Stage::Reading) return reader_ ? reader_->part() : 1.0;
  const size_t all = stage_ == Stage::Taking ? differing_.size() : backup_.cards.size();
  return all == 0 ? 1.0 : static_cast<double>(next_) / static_cast<double>(all);
}

bool Restore::work_on(Rack& rack) {
  switch (stage_) {
    case Stage::Reading:
      return read_on();
    case Stage::Hanging:
      return hang_on(rack);
    case Stage::Taking:
      return take_on(rack);
    case Stage::Asking:
    case Stage::Done:
      return false;
  }
  return false;
}

bool Restore::read_on() {
  if (reader_->read_on()) return true;
  Result<Backup> backup = std::move(*reader_).result();
  reader_.reset();
  if (!backup) {
    problem_ = backup.problem();
    stage_ = Stage::Done;
    return false;
  }
  backup_ = std::move(backup.value());
  stage_ = Stage::Hanging;
  return true;
}

bool Restore::hang_on(Rack& rack) {
  if (next_ == backup_.cards.size()) {
    if (!backup_.shelf.empty()) rack.put_back(backup_.shelf);
    if (!backup_.printers.empty()) rack.put_back(backup_.printers);
    if (backup_.usual && !rack.notes().usual) rack.keep_usual(backup_.usual);
    backup_.cards.clear();
    next_ = 0;
    stage_ = differing_.empty() ? Stage::Done : Stage::Asking;
    return false;
  }
  Card& card = backup_.cards[next_++];
  const Fate fate = rack.put_back(card);
  hung_ += fate == Fate::Hung;
  there_ += fate == Fate::There;
  example_left_out_ |= fate == Fate::Example;
  if (fate == Fate::Differs) differing_.push_back(std::move(card));
  return true;
}

void Restore::choose(std::vector<TakeBack> answers) {
  answers_ = std::move(answers);
  answers_.resize(differing_.size(), TakeBack::Mine);
  stage_ = Stage::Taking;
}

bool Restore::take_on(Rack& rack) {
  if (next_ == differing_.size()) {
    stage_ = Stage::Done;
    return false;
  }
  const size_t i = next_++;
  if (answers_[i] == TakeBack::Theirs) rack.replace(differing_[i]);
  if (answers_[i] == TakeBack::Both) rack.hang_beside(differing_[i]);
  return true;
}

}  // namespace coatwright::studio
