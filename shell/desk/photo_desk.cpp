#include "shell/desk/photo_desk.h"

#include "shell/desk/letters.h"

namespace coatwright::studio {

bool PhotoDesk::look_at(const PhotoKey& key) {
  if (key == key_) return false;
  forget();
  key_ = key;
  return true;
}

void PhotoDesk::take(const std::string& id, const TextPicture& pixels) {
  if (id != key_.id || texture_ != nullptr) return;
  missing_ = pixels.rgba.empty();
  if (!missing_ && letters() != nullptr) texture_ = letters()->upload(pixels);
}

void PhotoDesk::forget() {
  if (texture_ != nullptr) next_picture();
  before_ = texture_ != nullptr ? texture_ : before_;
  texture_ = nullptr;
  missing_ = false;
  key_ = {};
}

void PhotoDesk::next_picture() {
  if (before_ != nullptr && letters() != nullptr) letters()->drop(before_);
  before_ = nullptr;
}

PhotoDesk::~PhotoDesk() {
  forget();
  next_picture();
}

}  // namespace coatwright::studio
