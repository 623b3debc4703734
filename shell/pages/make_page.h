// The make sheet: what to cut and every step of the
// work, with boxes to tick, as a document to print.
#pragma once

#include <string>

#include "core/base/words.h"
#include "core/draw/html.h"
#include "core/pattern/pattern.h"
#include "core/ticket/ticket.h"

namespace coatwright {

[[nodiscard]] HtmlDocument make_html(const Ticket& ticket, const Pattern& pattern,
                                     const Words& words, const std::string& date);

}  // namespace coatwright
