// The word table: keys to words, read from assets/words.txt. Core makes no sentences; what must be
// written on a drawing or shown beside a number comes from here.
//
// The file has one `key = words` a line; `#` begins a comment line. Words may hold {0} {1} {2} for
// arguments that the caller has already made into text, {subject} and {other} for names.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace coatwright {

class Words {
 public:
  // Lines that are neither a comment, blank nor `key = words` are left out.
  [[nodiscard]] static Words parse(std::string_view table);

  [[nodiscard]] bool has(std::string_view key) const;
  // The words of `key`, with {0}.. replaced; the key itself when the table lacks it, so that a
  // missing word is seen. A test proves that none is missing.
  [[nodiscard]] std::string operator()(std::string_view key,
                                       const std::vector<std::string>& args = {}) const;

 private:
  std::map<std::string, std::string, std::less<>> words_;
};

}  // namespace coatwright
