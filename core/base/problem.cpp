#include "core/base/problem.h"

namespace coatwright {

const char* code_name(Code code) {
  static constexpr const char* kNames[] = {
#define COATWRIGHT_CODE_TEXT(name, text) text,
      COATWRIGHT_CODES(COATWRIGHT_CODE_TEXT)
#undef COATWRIGHT_CODE_TEXT
  };
  return kNames[static_cast<int>(code)];
}

const std::vector<Code>& all_codes() {
  static const std::vector<Code> codes = {
#define COATWRIGHT_CODE_ITEM(name, text) Code::name,
      COATWRIGHT_CODES(COATWRIGHT_CODE_ITEM)
#undef COATWRIGHT_CODE_ITEM
  };
  return codes;
}

}  // namespace coatwright
