#include "core/base/words.h"

#include <algorithm>

#include "core/base/utf8.h"

namespace coatwright {

namespace {

using Lines = std::map<std::string, std::string, std::less<>>;

// `text` with every {key.of-a-line} replaced by that line's words, not looked through again.
std::string with_lines(std::string_view text, const Lines& lines) {
  std::string out;
  for (size_t open = text.find('{'); open < text.size(); open = text.find('{')) {
    const size_t close = text.find('}', open);
    if (close == std::string_view::npos) break;
    const std::string_view name = text.substr(open + 1, close - open - 1);
    const auto line = lines.find(name);
    const bool named = name.find('.') != std::string_view::npos && line != lines.end();
    out.append(text.substr(0, open));
    out.append(named ? std::string_view(line->second) : text.substr(open, close - open + 1));
    text.remove_prefix(close + 1);
  }
  return out.append(text);
}

}  // namespace

std::string fill(std::string_view words, const std::vector<Filling>& fillings) {
  std::string out;
  while (!words.empty()) {
    const size_t open = words.find('{');
    const size_t close = words.find('}', open);
    out += words.substr(0, open);
    if (open == std::string_view::npos) break;
    if (close == std::string_view::npos) return out.append(words.substr(open));
    const std::string_view inside = words.substr(open + 1, close - open - 1);
    const size_t bar = inside.find('|'), second = inside.find('|', bar + 1);
    const auto f = std::find_if(fillings.begin(), fillings.end(), [&](const Filling& filling) {
      return filling.name == inside.substr(0, bar);
    });
    if (f == fillings.end()) {
      out += words.substr(open, close - open + 1);
    } else if (second == std::string_view::npos) {
      out += f->text;
    } else {
      out += f->text == "1" ? inside.substr(bar + 1, second - bar - 1) : inside.substr(second + 1);
    }
    words.remove_prefix(close + 1);
  }
  return out;
}

Words Words::parse(std::string_view table) {
  Words words;
  while (!table.empty()) {
    const size_t end = std::min(table.find('\n'), table.size());
    const std::string_view line = trimmed(table.substr(0, end));
    table.remove_prefix(std::min(end + 1, table.size()));
    const size_t equals = line.find('=');
    if (line.empty() || line.front() == '#' || equals == std::string_view::npos) continue;
    const std::string_view key = trimmed(line.substr(0, equals));
    if (!key.empty()) words.words_.emplace(key, trimmed(line.substr(equals + 1)));
  }
  for (auto& entry : words.words_) entry.second = with_lines(entry.second, words.words_);
  return words;
}

bool Words::has(std::string_view key) const { return words_.find(key) != words_.end(); }

std::string Words::operator()(std::string_view key, const std::vector<std::string>& args) const {
  const auto found = words_.find(key);
  if (found == words_.end()) return std::string(key);
  static constexpr std::string_view kNames[] = {"0", "1", "2", "3", "4", "5", "6", "7", "8", "9"};
  std::vector<Filling> fillings;
  for (size_t i = 0; i < args.size() && i < std::size(kNames); ++i) {
    fillings.push_back({kNames[i], args[i]});
  }
  return fill(found->second, fillings);
}

std::vector<std::string> Words::keys() const {
  std::vector<std::string> keys;
  for (const auto& [key, words] : words_) keys.push_back(key);
  return keys;
}

}  // namespace coatwright
