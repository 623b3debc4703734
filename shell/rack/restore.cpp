#include "shell/rack/restore.h"

#include <algorithm>

#include "core/fit/photograph.h"

namespace coatwright::studio {

Saving::Saving(Rack& rack, bool with_photographs)
    : ids_(rack.kept_ids()),
      began_(rack.outside().now()),
      writer_(began_, rack.notes()),
      with_photographs_(with_photographs) {
  std::reverse(ids_.begin(), ids_.end());
}

bool Saving::write_on(const Rack& rack) {
  if (waits_) return true;
  if (card_ && !to_read_.empty()) {
    wanted_ = {card_->id, to_read_.back(), {}};
    return waits_ = true;
  }
  if (card_) {
    writer_.add(*std::exchange(card_, std::nullopt), std::exchange(photos_, {}));
    return true;
  }
  if (ids_.empty()) return false;
  const Card* card = rack.card(ids_.back());
  ids_.pop_back();
  if (card == nullptr || card->place == Place::Bin) return true;
  if (with_photographs_) to_read_ = photographs_of(card->ticket.fittings);
  if (to_read_.empty()) return writer_.add(*card), true;
  card_ = *card;
  std::reverse(to_read_.begin(), to_read_.end());
  return true;
}

void Saving::photo_read(const std::string& id, std::string jpeg) {
  if (!waits_ || to_read_.back() != id) return;
  waits_ = false;
  to_read_.pop_back();
  const bool there = !jpeg.empty() && jpeg.size() <= kMostPhotoText;
  if (there) photos_.push_back({card_->id, id, std::move(jpeg)});
  missing_ += there ? 0 : 1;
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

namespace {

// Under which id a ticket hangs that the backup has under its own.
std::string id_of(const Rack& rack, const Card& card) {
  const Card* mine = rack.rail().alike(card.ticket);
  return mine == nullptr ? std::string() : mine->id;
}

}  // namespace

bool Restore::hang_on(Rack& rack) {
  if (next_ == backup_.cards.size()) {
    if (!backup_.shelf.empty()) rack.put_back(backup_.shelf);
    if (!backup_.printers.empty()) rack.put_back(backup_.printers);
    if (backup_.usual && !rack.notes().usual) rack.keep_usual(backup_.usual);
    if (rack.notes().sizes == SizesWanted{}) rack.keep_sizes(backup_.sizes);
    backup_.cards.clear();
    next_ = 0;
    stage_ = differing_.empty() ? Stage::Done : Stage::Asking;
    return false;
  }
  Card& card = backup_.cards[next_++];
  const Fate fate = rack.put_back(card);
  if (fate == Fate::Hung || fate == Fate::There) bring_photos(card, id_of(rack, card));
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
  const Card& theirs = differing_[i];
  if (answers_[i] == TakeBack::Theirs) {
    rack.replace(theirs);
    bring_photos(theirs, theirs.id);
  }
  if (answers_[i] == TakeBack::Both) bring_photos(theirs, rack.hang_beside(theirs));
  return true;
}

void Restore::bring_photos(const Card& card, const std::string& id) {
  for (KeptPhoto& photo : backup_.photos) {
    if (!id.empty() && photo.ticket == card.id) photos_.push_back({id, photo.id, photo.jpeg});
  }
}

}  // namespace coatwright::studio
