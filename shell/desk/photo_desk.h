// The photograph that is looked at, of which the host brings the pixels (web/photos.js), and the one
// that was asked for. One is held, and until the next picture the one before it.
#pragma once

#include <optional>

#include "core/draw/png.h"
#include "shell/desk/effects.h"

namespace coatwright::studio {

class PhotoDesk {
 public:
  PhotoDesk() = default;
  ~PhotoDesk();
  PhotoDesk(const PhotoDesk&) = delete;
  PhotoDesk& operator=(const PhotoDesk&) = delete;

  // What is to be seen from now on. True if the host is to be asked for it.
  [[nodiscard]] bool look_at(const PhotoKey& key);
  // The host's answer; without pixels: it is not there, or cannot be read.
  void take(const std::string& id, const TextPicture& pixels);
  // Asked for anew when it is looked at again: it may be there now, or the texture is gone.
  void forget();
  // What was forgotten since the last picture, which may have shown it, is let go.
  void next_picture();
  // To be drawn; null until it is there.
  [[nodiscard]] void* texture() const { return texture_; }
  [[nodiscard]] bool missing() const { return missing_; }

  struct Asked {
    PhotoKey key;
    size_t fitting = 0;
  };
  std::optional<Asked> asked;

 private:
  PhotoKey key_;
  void* texture_ = nullptr;
  void* before_ = nullptr;
  bool missing_ = false;
};

}  // namespace coatwright::studio
