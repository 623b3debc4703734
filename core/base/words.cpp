#include "core/base/words.h"

#include <algorithm>

namespace coatwright {

namespace {

std::string_view trimmed(std::string_view s) {
  constexpr std::string_view kBlanks = " \t\r";
  const size_t from = s.find_first_not_of(kBlanks);
  if (from == std::string_view::npos) return {};
  return s.substr(from, s.find_last_not_of(kBlanks) - from + 1);
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
    const std::string_view name = words.substr(open + 1, close - open - 1);
    const auto f = std::find_if(fillings.begin(), fillings.end(),
                                [&](const Filling& filling) { return filling.name == name; });
    out += f == fillings.end() ? words.substr(open, close - open + 1) : f->text;
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
