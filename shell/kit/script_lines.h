// Lines that the host's letters drew (shell/desk/letters.h), kept as textures for as long as they
// are looked at: as many as a screen full of cards has, and not more.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "shell/kit/theme.h"

namespace coatwright::studio {

struct ScriptLine {
  void* texture = nullptr;
  float left = 0.0F, top = 0.0F;  // device px, from where its baseline begins
  float width = 0.0F, height = 0.0F;
};

// All sizes in device pixels. Only where letters() is not null.
class ScriptLines {
 public:
  [[nodiscard]] float width(std::string_view words, Type type);
  // Nothing if the host could not draw it; good until the next call.
  [[nodiscard]] const ScriptLine* line(std::string_view words, Type type, Colour colour);
  // Between two pictures: what was not in the last one is given up, if there is too much of it.
  void next_picture();
  // The textures are gone, or other letters have come.
  void forget();

  [[nodiscard]] size_t count() const { return lines_.size(); }

  static constexpr size_t kMostLines = 300;
  static constexpr double kMostPixels = 6e6;  // 24 MB

 private:
  struct Kept {
    std::string key;
    ScriptLine line = {};
    long used = 0;
  };
  void give_up(size_t index);

  std::vector<Kept> lines_;
  std::vector<std::pair<std::string, float>> widths_;  // of the lines that were asked for last
  double pixels_ = 0.0;
  long picture_ = 0;
};

}  // namespace coatwright::studio
