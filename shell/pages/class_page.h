// For a class: the handout of a style, and the packet of its handouts with the sheets of every dog.
#pragma once

#include <string>

#include "shell/pages/chapters.h"

namespace coatwright {

// "For a class: Wrap coat".
[[nodiscard]] std::string handout_title(const Ticket& ticket, const Words& words);

// A page that says what is in it, the measuring sheet, the recipe and the make sheet of the first
// coat's style and choices. Without more coats the recipe's lengths are lines to write on; else they
// are sample sizes, and there is a recipe of each. No dog, client or note is named.
[[nodiscard]] Chapters handout(const std::vector<MadeCoat>& coats, const FormSource& source);

// A handout of each style that the coats have, with lines to write on, and every coat's sheets, each
// with its own cover.
[[nodiscard]] Result<Chapters> class_packet(const FormSource& source);

}  // namespace coatwright
