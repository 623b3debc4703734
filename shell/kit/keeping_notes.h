// What is told of how things are kept, over whatever station is open.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

// Word key of the sentence; empty for Unknown.
[[nodiscard]] const char* kept_key(Kept kept);

// What the store holds and nobody can read, in a sentence; empty if there is nothing.
[[nodiscard]] std::string unread_words(const Frame& f);

// Notes over the board's lower edge: that changes are not kept, that another window writes, that
// something is gone or cannot be read. What is wrong now cannot be put away. A telephone shows the
// gravest one.
void keeping_notes(Frame& f, const Box& board);

}  // namespace coatwright::studio
