// Dogs to test on: named hard ones, and a seeded population from toy
// to giant. Proportions are drawn, not measured on any dog; the ranges
// they are drawn from stand in population.cpp with their sources.
#pragma once

#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "core/body/measures.h"

namespace coatwright::test {

// Random numbers that are the same under every library: std::mt19937_64 is fixed by the standard,
// the standard distributions are not.
class Dice {
 public:
  explicit Dice(uint64_t seed) : engine_(seed) {}
  double uniform(double low, double high);
  // Uniform in the logarithm.
  double log_uniform(double low, double high);
  // Peaked in the middle of low..high, never outside (the mean of two uniforms).
  double around(double low, double high);
  bool chance(double share) { return uniform(0.0, 1.0) < share; }
  int below(int n);

 private:
  std::mt19937_64 engine_;
};

// One plausible dog: weight 1..100 kg, any build and sex, one reading a measure, some of the
// optional measures not taken.
Tape random_dog(Dice& dice);
// `count` dogs; the same for the same seed, on every machine.
std::vector<Tape> population(int count, uint64_t seed);

struct NamedDog {
  std::string name;
  Tape tape;
};
// Shapes that are hard to dress, and an ordinary dog to compare them with.
const std::vector<NamedDog>& hard_dogs();
const Tape& hard_dog(const std::string& name);
// These and two easy ones: the dogs whose patterns are looked at.
std::vector<NamedDog> ten_dogs();

// A tape with the five required measures, mm.
Tape five(double back, double neck, double chest, double drop, double breast);
// Every length times `scale`, the weight times its cube.
Tape scaled(const Tape& tape, double scale);

}  // namespace coatwright::test
