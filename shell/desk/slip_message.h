// The message round a client's answer: people mend a reading in its words and leave the code as it
// was, and answer twice in one text.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/words.h"
#include "core/slip/slip.h"

namespace coatwright::studio {

// A line of the message that says other readings of a measure than the code does.
struct Correction {
  Measure measure = Measure::Back;
  std::vector<std::string> readings;  // as they stand in the words; may not be readable
};

struct Sent {
  SlipAnswer answer;  // as its code has it
  std::vector<Correction> corrections = {};
};

// The answers in a text, and where the words beside them differ from them: lines such as
// "Neck girth: 16 3/4 in; 16 7/8 in", quoted or not. A line that any of the answers has is no
// correction. Problems: those of read_answers.
[[nodiscard]] Result<std::vector<Sent>> read_message(std::string_view text, const Words& words);

// The answer by the words of its message, as far as they can be read.
[[nodiscard]] SlipAnswer by_words(const Sent& sent);

}  // namespace coatwright::studio
