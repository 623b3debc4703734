// How safely what the studio keeps is kept, as far as the page or the window can tell.
#pragma once

namespace coatwright::studio {

enum class Kept {
  Unknown,  // not told yet
  ForGood,  // until the maker deletes it
  ForNow,   // the browser may clear it, when room is short or after a time without a visit
  Nowhere,  // nothing is kept: storage is denied, or the window is a private one
  // From here on something is held back that was meant to be kept; it is tried again by itself.
  Full,    // there is no room
  Silent,  // the store does not answer
  Failed,  // the store refuses, or does not open, for a reason that it does not tell
  Lost,    // what was kept was taken away under the open studio, and cannot be written again
  Newer,   // a newer version of the studio has changed the store: this one may not touch it
};
inline constexpr int kKeptStates = 9;

// What was done last is in this window's memory only, although it was meant to be kept.
[[nodiscard]] constexpr bool in_memory_only(Kept kept) { return kept >= Kept::Full; }

struct Keeping {
  Kept kept = Kept::Unknown;
  bool installable = false;  // the page can be put among the device's programs
  bool follows = false;      // another window writes; this one shows what it does
};

}  // namespace coatwright::studio
