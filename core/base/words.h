// The word table: keys to words, read from assets/words.txt. Core makes no sentences; what must be
// written on a drawing or shown beside a number comes from here.
//
// The file has one `key = words` a line; `#` begins a comment line. Words may hold {0} {1} {2} for
// arguments that the caller has already made into text, {subject} and {other} for names. A word that
// follows a count is written twice, `{0} {0|sheet|sheets}`: the first after 1, the second otherwise.
// A name with a dot, `{care.iron}`, is another line of the table, whose words stand there.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace coatwright {

// What a {name} in words stands for.
struct Filling {
  std::string_view name;
  std::string text;
};

// `words` with every {name} of `fillings` replaced, in one pass: what is filled in is never read as
// words itself. A {name} without a filling stays, so that it is seen.
[[nodiscard]] std::string fill(std::string_view words, const std::vector<Filling>& fillings);

class Words {
 public:
  // Lines that are neither a comment, blank nor `key = words` are left out. Of two lines with one
  // key the first holds; a test proves that the table has no such pair.
  [[nodiscard]] static Words parse(std::string_view table);

  [[nodiscard]] bool has(std::string_view key) const;
  // The words of `key`, with {0}.. replaced; the key itself when the table lacks it, so that a
  // missing word is seen. A test proves that none is missing.
  [[nodiscard]] std::string operator()(std::string_view key,
                                       const std::vector<std::string>& args = {}) const;

  // Every key, in order.
  [[nodiscard]] std::vector<std::string> keys() const;

 private:
  std::map<std::string, std::string, std::less<>> words_;
};

}  // namespace coatwright
