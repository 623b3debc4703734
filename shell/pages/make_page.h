// The make sheet: what to cut and every step of the
// work, with boxes to tick.
#pragma once

#include <string>

#include "core/base/words.h"
#include "core/pattern/pattern.h"
#include "core/ticket/ticket.h"
#include "shell/pages/document.h"

namespace coatwright {

[[nodiscard]] Document make_sheet(const Ticket& ticket, const Pattern& pattern, const Words& words,
                                  const std::string& date);

}  // namespace coatwright
