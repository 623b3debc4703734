#include "shell/kit/script_lines.h"

#include <cstdio>

#include "shell/desk/letters.h"

namespace coatwright::studio {
namespace {

std::string css(Colour c) {
  char text[8];
  std::snprintf(text, sizeof text, "#%02x%02x%02x", c.r, c.g, c.b);
  return text;
}

std::string key_of(std::string_view words, Type type) {
  char size[32];
  std::snprintf(size, sizeof size, "%d %.2f ", type.face == Face::Semibold ? 1 : 0,
                static_cast<double>(type.size));
  return size + std::string(words);
}

}  // namespace

float ScriptLines::width(std::string_view words, Type type) {
  std::string key = key_of(words, type);
  for (const auto& [known, width] : widths_) {
    if (known == key) return width;
  }
  if (widths_.size() >= kMostLines) widths_.clear();
  const bool bold = type.face == Face::Semibold;
  widths_.emplace_back(std::move(key), letters()->width(std::string(words), bold, type.size));
  return widths_.back().second;
}

const ScriptLine* ScriptLines::line(std::string_view words, Type type, Colour colour) {
  const std::string ink = css(colour), key = ink + key_of(words, type);
  for (Kept& kept : lines_) {
    if (kept.key != key) continue;
    kept.used = picture_;
    return &kept.line;
  }
  const bool bold = type.face == Face::Semibold;
  const TextPicture drawn = letters()->draw(std::string(words), bold, type.size, ink);
  if (drawn.rgba.empty()) return nullptr;
  const ScriptLine line{letters()->upload(drawn), static_cast<float>(drawn.left),
                        static_cast<float>(drawn.top), static_cast<float>(drawn.width),
                        static_cast<float>(drawn.height)};
  pixels_ += static_cast<double>(drawn.width) * drawn.height;
  lines_.push_back({key, line, picture_});
  return &lines_.back().line;
}

void ScriptLines::give_up(size_t index) {
  const ScriptLine& line = lines_[index].line;
  letters()->drop(line.texture);
  pixels_ -= static_cast<double>(line.width) * static_cast<double>(line.height);
  lines_[index] = std::move(lines_.back());
  lines_.pop_back();
}

void ScriptLines::next_picture() {
  while (lines_.size() > kMostLines || pixels_ > kMostPixels) {
    size_t oldest = 0;
    for (size_t i = 0; i < lines_.size(); ++i) {
      if (lines_[i].used < lines_[oldest].used) oldest = i;
    }
    if (lines_.empty() || lines_[oldest].used == picture_) break;
    give_up(oldest);
  }
  ++picture_;
}

void ScriptLines::forget() {
  while (!lines_.empty()) give_up(lines_.size() - 1);
  widths_.clear();
}

}  // namespace coatwright::studio
