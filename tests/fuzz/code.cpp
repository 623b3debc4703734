// Whatever arrives where a slip is expected: a whole code is found in it or not, what is found is
// written as a code that is found again, and each reader takes its own kind or says what is wrong.
// The same bytes are also tried as what a code carries.

#include "core/slip/code.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "core/base/utf8.h"
#include "core/slip/slip.h"
#include "core/slip/ticket_code.h"
#include "tests/fuzz/drafts.h"

using namespace coatwright;

namespace {

template <typename T>
void require_showable(const Result<T>& read) {
  if (read) return;
  require(is_clean(read.problem().subject, false) && read.problem().subject.size() < 2000,
          "clean subject");
  require(is_clean(read.problem().other, false) && read.problem().other.size() < 400,
          "clean other");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const Result<Coded> found = find_code(text);
  require_showable(found);
  if (found) {
    const Codes all = *find_codes(text);
    require(all.whole.front() == *found && all.whole.size() <= 64 * 8, "all are found, and few");
    require(*find_code(to_code(*found)) == *found, "what is found is found again");
    require_showable(kind_of(*found));
    require_showable(read_request(text));
    require_showable(read_answers(text));
    require_showable(read_ticket_code(text));
  }
  if (size > 0 && size <= kMostCodeBody) {
    const Coded coded = {data[0], Bytes(data + 1, data + size)};
    const std::string code = to_code(coded);
    require(code.size() == code_size(coded.body.size()), "a code is as long as was said");
    const Result<Coded> back = find_code(code);
    require(back.ok() && *back == coded, "a code comes back");
  }
  return 0;
}
