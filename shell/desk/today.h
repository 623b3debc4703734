// The date as the shell has it; core has no clock.
#pragma once

#include <string>

#include "core/body/assess.h"

namespace coatwright::studio {

struct Today {
  BirthMonth month;
  std::string words;  // "2026-11-24"
};

}  // namespace coatwright::studio
