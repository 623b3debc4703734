// How safely what the studio keeps is kept, as far as the page or the window can tell.
#pragma once

namespace coatwright::studio {

enum class Kept {
  Unknown,  // not told yet
  ForGood,  // until the maker deletes it
  ForNow,   // the browser may clear it, when room is short or after a time without a visit
  Nowhere,  // nothing is kept: storage is denied, or the window is a private one
  Full,     // the last change found no room
};
inline constexpr int kKeptStates = 5;

struct Keeping {
  Kept kept = Kept::Unknown;
  bool installable = false;  // the page can be put among the device's programs
  bool follows = false;      // another window writes; this one shows what it does
};

}  // namespace coatwright::studio
