#include "shell/words/words_table.h"

namespace coatwright {

const Words& word_table() {
  static const Words words = Words::parse(words_text());
  return words;
}

}  // namespace coatwright
