// How the studio opens: with what its store holds, or with the demo ticket on a first visit.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/words.h"
#include "shell/frame.h"
#include "shell/history.h"

namespace coatwright::studio {

struct Start {
  History history;
  std::string notice;                  // what to tell the maker about the store; empty: all well
  std::vector<std::string> rewritten;  // the journal anew, when the old one was put aside
};
[[nodiscard]] Start start_from(std::string_view journal, const Words& words);

[[nodiscard]] Ticket demo_ticket();

// The date, from the machine's clock.
[[nodiscard]] Today today();

}  // namespace coatwright::studio
