// How many dogs the largest tests ask.
#pragma once

#include <vector>

namespace coatwright::test {

// All of them; or a quarter where every access is watched (COATWRIGHT_SANITIZE) and a dog takes
// several times as long. Whether promises hold is asked of all of them elsewhere; a bad access shows
// on the first that come to its line.
#ifdef COATWRIGHT_WATCHED
inline constexpr bool kAllAsked = false;
#else
inline constexpr bool kAllAsked = true;
#endif
constexpr int asked(int dogs) { return kAllAsked ? dogs : dogs / 4; }
template <class T>
std::vector<T> asked_of(std::vector<T> all) {
  all.erase(all.begin() + asked(static_cast<int>(all.size())), all.end());
  return all;
}

}  // namespace coatwright::test
