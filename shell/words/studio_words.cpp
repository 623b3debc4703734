#include "shell/words/studio_words.h"

#include "shell/words/words_table.h"

namespace coatwright::studio {

const Words& studio_words() {
  static const Words words =
      Words::parse(std::string(words_text()) + "\n" + std::string(studio_text()));
  return words;
}

}  // namespace coatwright::studio
