// Pieces that overlap are moved until none does, within a given length of strip.
#pragma once

#include <optional>
#include <vector>

#include "core/pack/layout.h"
#include "core/pack/placer.h"
#include "core/pack/random.h"

namespace coatwright {

class Separation {
 public:
  Separation(Strip& strip, Random& random) : strip_(&strip), random_(&random) {}

  // Begins anew with pieces at these places, moved into the strip of this length where they stick
  // out. All weights are 1 again. How they overlap is measured by the first step.
  void begin(std::vector<Lie> lies, double length);

  // Makes a bit of what the next step needs; false if it has all of it.
  bool prepare();

  // Moves one overlapping piece, and after a pass over all of them raises the weights of the pairs
  // that still overlap.
  void step();

  // No pieces overlap.
  [[nodiscard]] bool done() const { return total_ == 0.0; }
  // Passes since the sum of depths last fell by 2 %.
  [[nodiscard]] int idle_passes() const { return idle_passes_; }
  [[nodiscard]] const std::vector<Lie>& lies() const { return lies_; }
  // The places with the least sum of depths since begin(), and that sum.
  [[nodiscard]] const std::vector<Lie>& closest() const { return closest_; }
  [[nodiscard]] double closest_total() const { return closest_total_; }

 private:
  [[nodiscard]] double& depth(size_t i, size_t j) { return depths_[i * lies_.size() + j]; }
  [[nodiscard]] double& weight(size_t i, size_t j) { return weights_[i * lies_.size() + j]; }
  [[nodiscard]] double loss(size_t i);
  void fit_in(size_t i);
  void measure(size_t i);
  void move(size_t i);
  void measure_all();
  // The copy whose turn it is; nothing if none of the pass is left.
  [[nodiscard]] std::optional<size_t> next();
  void end_pass();
  void gather();

  Strip* strip_;
  Random* random_;
  double length_ = 0.0;
  bool measured_ = false;
  std::vector<Lie> lies_;
  std::vector<double> depths_, weights_;  // of pairs, both ways
  std::vector<size_t> queue_;             // of this pass, the next one last
  double total_ = 0.0;                    // sum of depths over pairs; kept up by end_pass()
  double closest_total_ = 0.0;
  std::vector<Lie> closest_;
  int idle_passes_ = 0;
  Placer placer_;
  std::vector<Neighbour> neighbours_;
};

}  // namespace coatwright
