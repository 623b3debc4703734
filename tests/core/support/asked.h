// How many dogs, screens or sets of options the largest tests ask.
#pragma once

#include <vector>

namespace coatwright::test {

// All of them natively. Where every access is watched (COATWRIGHT_SANITIZE) and under Node.js a dog
// takes several times as long, and only one in kOneIn is asked: whether promises hold on all of
// them is known by then; a bad access, or a figure that comes out otherwise in WebAssembly, shows
// on the first that come to its line.
#ifdef COATWRIGHT_ONE_IN
inline constexpr int kOneIn = COATWRIGHT_ONE_IN;
#else
inline constexpr int kOneIn = 1;
#endif
inline constexpr bool kAllAsked = kOneIn == 1;
// At least one.
constexpr int asked(int dogs) { return (dogs + kOneIn - 1) / kOneIn; }
template <class T>
std::vector<T> asked_of(std::vector<T> all) {
  all.erase(all.begin() + asked(static_cast<int>(all.size())), all.end());
  return all;
}

}  // namespace coatwright::test
