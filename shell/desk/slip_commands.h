// What can be done with slips from their screens, as values.
#pragma once

#include <optional>
#include <string>

#include "core/slip/slip.h"

namespace coatwright::studio {

enum class SlipDeed {
  Make,    // a slip for the open ticket, shown from now on
  Studio,  // remembers who asks and how readings come back
  Read,    // what came back, as `text`: an answer, or a whole ticket
  Choose,  // the `which`-th answer of a text that holds several
  Reread,  // the answer as `answer`: in the other unit, or by the words of its message
  Take,    // the readings that were ticked, on the ticket that they were asked for
  Return,  // that ticket out of the bin, to lay the answer beside it
  Hang,    // a new ticket for an answer whose ticket is not here
};

struct SlipCommand {
  SlipDeed deed = SlipDeed::Make;
  std::string text = {};                  // the studio's name, or what came back
  SlipBack back = {};                     // Studio
  size_t which = 0;                       // Choose
  std::optional<SlipAnswer> answer = {};  // Reread
};

}  // namespace coatwright::studio
