// Letters of every script. The program's own typefaces hold what its sentences are written with; a
// line of text with any other letter (a dog's name in Greek, Hebrew or Japanese, an emoji, an accent
// that was typed behind its letter) is set and drawn whole by the host, if it can: a browser can.
#pragma once

#include <string>
#include <string_view>

#include "core/draw/png.h"

namespace coatwright::studio {

class Letters {
 public:
  virtual ~Letters() = default;
  // How long a line of that size is, in the size's own unit.
  [[nodiscard]] virtual float width(const std::string& words, bool bold, float size) = 0;
  // How many bytes of it have room in `width` with an ellipsis behind them, cut between two
  // characters as their reader sees them.
  [[nodiscard]] virtual size_t fitting(const std::string& words, bool bold, float size,
                                       float width) = 0;
  // Its pixels; colour as "#1f2937". Emoji have their own.
  [[nodiscard]] virtual TextPicture draw(const std::string& words, bool bold, float size,
                                         const std::string& colour) = 0;
  // A texture of them for the screen, or of a photograph's, and its end.
  [[nodiscard]] virtual void* upload(const TextPicture& picture) = 0;
  virtual void drop(void* texture) = 0;
};

// The host's, for as long as the program runs; null where there is none.
void use_letters(Letters* host);
[[nodiscard]] Letters* letters();

// Whether the program's own typefaces have all that is written here.
[[nodiscard]] bool type_has(std::string_view words);
// The host's letters for a picture file, for lines that type_has() not.
[[nodiscard]] DrawText letters_for_pictures();

}  // namespace coatwright::studio
