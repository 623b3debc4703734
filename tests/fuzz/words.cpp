// Whatever stands in a word table and is filled into it: nothing is read twice, nothing is lost.

#include "core/base/words.h"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "core/base/utf8.h"

using namespace coatwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const Words words = Words::parse(text);
  for (const std::string& key : words.keys()) {
    if (!words.has(key)) std::abort();
    // Without arguments the words come out as they stand in the table.
    if (text.find(words(key)) == std::string_view::npos) std::abort();
    (void)words(key, {"{1}", "{0}", std::string(text.substr(0, 20))});
  }
  if (fill(text, {}) != text) std::abort();
  const std::string clean = cleaned(text, 50);
  if (!is_clean(clean, false) || count_characters(clean) > 50) std::abort();
  if (is_clean(text, false) && count_characters(text) <= 50 && clean != text) std::abort();
  return 0;
}
