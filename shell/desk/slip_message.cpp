#include "shell/desk/slip_message.h"

#include <algorithm>
#include <cmath>

#include "core/base/utf8.h"
#include "shell/words/say.h"

namespace coatwright::studio {
namespace {

constexpr size_t kMostWords = 200;  // bytes of a line that are looked at

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

// Without what a mail program puts before a line that it quotes.
std::string_view unquoted(std::string_view line) {
  while (!line.empty() && (is_space(line.front()) || line.front() == '>' || line.front() == '|')) {
    line.remove_prefix(1);
  }
  return trimmed(line);
}

std::vector<std::string_view> lines_of(std::string_view text) {
  std::vector<std::string_view> lines;
  while (!text.empty()) {
    const size_t end = std::min(text.find('\n'), text.size());
    lines.push_back(unquoted(text.substr(0, end)));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

std::string without_spaces(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (!is_space(c)) out.push_back(c);
  }
  return out;
}

std::string as_sent(const SlipAnswer& answer, Measure m) {
  std::string out;
  for (const std::string& typed : answer.of(m)) {
    out += (out.empty() ? "" : "; ") + reading_with_unit(typed, m, answer.unit);
  }
  return out;
}

// True if `words`, which may run on into what follows, say exactly what was sent.
bool begins_with(const std::string& words, const std::string& sent) {
  if (sent.empty() || !words.starts_with(sent)) return false;
  const char next = words.size() > sent.size() ? words[sent.size()] : 'x';
  return (next >= 'A' && next <= 'Z') || (next >= 'a' && next <= 'z') || next == '<';
}

std::vector<std::string> readings_in(std::string_view words) {
  std::vector<std::string> out;
  while (!words.empty()) {
    const size_t end = std::min(words.find(';'), words.size());
    const std::string_view reading = trimmed(words.substr(0, end));
    if (!reading.empty()) out.push_back(cleaned(reading, kMostWords));
    words.remove_prefix(std::min(end + 1, words.size()));
  }
  return out;
}

bool same_values(const std::vector<std::string>& words, const SlipAnswer& answer, Measure m) {
  const std::vector<std::string>& sent = answer.of(m);
  return std::equal(words.begin(), words.end(), sent.begin(), sent.end(),
                    [&](const std::string& a, const std::string& b) {
                      const Result<double> x = reading_value(a, m, answer.unit);
                      const Result<double> y = reading_value(b, m, answer.unit);
                      return x && y && std::abs(*x - *y) < 1e-6;
                    });
}

// The lines that name a measure, each with those behind it, into which a mail program may have
// broken it; all without what quotes them.
struct Line {
  std::string_view words;  // behind the colon
  std::string run_on;      // without spaces
};
std::vector<Line> lines_about(const std::vector<std::string_view>& lines, const std::string& name) {
  std::vector<Line> out;
  for (size_t i = 0; i < lines.size(); ++i) {
    if (!lines[i].starts_with(name)) continue;
    const std::string_view rest = trimmed(lines[i].substr(name.size()));
    if (!rest.starts_with(':')) continue;
    Line line = {trimmed(rest.substr(1)).substr(0, kMostWords), {}};
    line.run_on = without_spaces(line.words);
    for (size_t j = i + 1; j < std::min(i + 4, lines.size()); ++j) {
      line.run_on += without_spaces(lines[j].substr(0, kMostWords));
    }
    out.push_back(std::move(line));
  }
  return out;
}

std::vector<Correction> corrections_in(const std::vector<std::string_view>& lines,
                                       const std::vector<SlipAnswer>& answers, const Words& words) {
  std::vector<Correction> out;
  for (const MeasureInfo& m : measure_table()) {
    for (const Line& line : lines_about(lines, name_of(m.id, words))) {
      const std::vector<std::string> readings = readings_in(line.words);
      const bool agrees =
          readings.empty() ||
          std::any_of(answers.begin(), answers.end(), [&](const SlipAnswer& answer) {
            return begins_with(line.run_on, without_spaces(as_sent(answer, m.measure))) ||
                   same_values(readings, answer, m.measure);
          });
      if (agrees) continue;
      out.push_back({m.measure, readings});
      break;
    }
  }
  return out;
}

}  // namespace

Result<std::vector<Sent>> read_message(std::string_view text, const Words& words) {
  const Result<std::vector<SlipAnswer>> answers = read_answers(text);
  if (!answers) return answers.problem();
  const std::vector<Correction> corrections = corrections_in(lines_of(text), *answers, words);
  std::vector<Sent> out;
  for (const SlipAnswer& answer : *answers) out.push_back({answer, corrections});
  return out;
}

SlipAnswer by_words(const Sent& sent) {
  SlipAnswer answer = sent.answer;
  for (const Correction& correction : sent.corrections) {
    const bool readable =
        correction.readings.size() <= static_cast<size_t>(kMostReadings) &&
        std::all_of(correction.readings.begin(), correction.readings.end(),
                    [&](const std::string& typed) {
                      return typed.size() <= kMostSlipReading &&
                             reading_value(typed, correction.measure, answer.unit).ok();
                    });
    if (readable) answer.of(correction.measure) = correction.readings;
  }
  return answer;
}

}  // namespace coatwright::studio
