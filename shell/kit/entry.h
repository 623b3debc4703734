// The number that is being typed (ViewState::entry): its field, and the keys of a keyboard that go
// into it.
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "shell/kit/frame.h"

namespace coatwright::studio {

struct NumberEntry {
  std::string name;             // of what it is
  std::string wrong = {};       // why it was not taken; empty: nothing is wrong
  std::string_view about = {};  // Control::about
  bool weight = false;
};
// The control "entry", with a switch for the unit at its end. True when it was entered whole by the
// device's keyboard.
bool number_entry(Frame& f, const Box& box, const NumberEntry& entry);

// Figures, fractions and units typed on a keyboard go into the entry as they are, unless a text
// field has them; Enter and Escape are for the caller.
void keys_into_entry(Frame& f, const std::function<void()>& enter,
                     const std::function<void()>& escape);

}  // namespace coatwright::studio
