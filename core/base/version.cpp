#include "core/base/version.h"

namespace coatwright {

const char* version() { return COATWRIGHT_VERSION; }

}  // namespace coatwright
