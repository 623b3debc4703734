// What is seen of slips: the one that is being made, and the answer that is looked at. Kept while
// the program runs.
#pragma once

#include <array>
#include <optional>
#include <string>

#include "core/slip/merge.h"
#include "shell/desk/slip_message.h"

namespace coatwright::studio {

enum class SlipShows { Nothing, Ask, Answer };

struct SlipView {
  SlipShows shows = SlipShows::Nothing;  // lies over the station

  // The slip that is being made.
  std::optional<SlipToken> token = {};  // once the rack remembers it
  std::array<bool, kMeasures> asked = {};
  std::string studio = {}, address = {}, note = {};  // as typed

  // The answer.
  std::string pasted = {};                // as typed or pasted into its field
  std::optional<Problem> problem = {};    // why nothing could be read from what came
  std::vector<Sent> sent = {};            // every answer in what came
  bool torn = false;                      // one more was in it that is not whole
  bool chosen = true;                     // false: there are several, and nobody said which counts
  size_t which = 0;                       // of them
  std::optional<SlipAnswer> answer = {};  // that one, as it is read
  SlipTakes takes = {};
};

}  // namespace coatwright::studio
