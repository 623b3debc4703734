// Random numbers that are the same everywhere for a seed.
#pragma once

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace coatwright {

class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed * 0x9E3779B97F4A7C15u + 0x632BE59BD9B4E019u) {}

  // xorshift64* (Vigna 2016), the upper half.
  std::uint32_t next() {
    state_ ^= state_ >> 12;
    state_ ^= state_ << 25;
    state_ ^= state_ >> 27;
    return static_cast<std::uint32_t>((state_ * 0x2545F4914F6CDD1Du) >> 32);
  }
  // 0 to n - 1, for n > 0.
  size_t below(size_t n) {
    return static_cast<size_t>((static_cast<std::uint64_t>(next()) * n) >> 32);
  }
  // 0 to just below 1.
  double part() { return static_cast<double>(next()) / 4294967296.0; }

  template <class T>
  void shuffle(std::vector<T>& v) {
    for (size_t i = v.size(); i > 1; --i) std::swap(v[i - 1], v[below(i)]);
  }

 private:
  std::uint64_t state_;
};

}  // namespace coatwright
