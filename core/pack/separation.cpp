#include "core/pack/separation.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <utility>

namespace coatwright {

namespace {

// After each pass the weight of a pair that overlaps is multiplied by 1.1 to 1.5, the more the
// deeper it is; the others fall by 5 % toward 1 (as in Gardeyn et al. 2025, where they rise
// faster).
constexpr double kLeastRaise = 1.1;
constexpr double kMostRaise = 1.5;
constexpr double kDecay = 0.95;
constexpr double kGain = 0.98;
constexpr double kInfinity = std::numeric_limits<double>::infinity();

}  // namespace

void Separation::begin(std::vector<Lie> lies, double length) {
  lies_ = std::move(lies);
  length_ = length;
  const size_t n = lies_.size();
  depths_.assign(n * n, 0.0);
  weights_.assign(n * n, 1.0);
  for (size_t i = 0; i < n; ++i) {
    if (strip_->copies[i].fixed) continue;
    fit_in(i);
  }
  queue_.clear();
  measured_ = false;
}

void Separation::measure_all() {
  for (size_t i = 0; i < lies_.size(); ++i) measure(i);
  idle_passes_ = 0;
  closest_total_ = kInfinity;
  measured_ = true;
  gather();
}

std::optional<size_t> Separation::next() {
  while (!queue_.empty() && loss(queue_.back()) == 0.0) queue_.pop_back();
  if (queue_.empty()) return std::nullopt;
  return queue_.back();
}

bool Separation::prepare() {
  if (!measured_) {
    for (size_t i = 0; i < lies_.size(); ++i) {
      const int moving = strip_->shape_number(i, lies_[i]);
      for (size_t j = 0; j < lies_.size(); ++j) {
        if (j != i && strip_->prepare(j, lies_[j], moving, false)) return true;
      }
    }
    measure_all();
  }
  const std::optional<size_t> i = next();
  if (!i) return false;
  for (const Choice& choice : strip_->copies[*i].choices) {
    for (size_t j = 0; j < lies_.size(); ++j) {
      if (j != *i && strip_->prepare(j, lies_[j], choice.shape, true)) return true;
    }
  }
  return false;
}

// Moves the copy into the strip, in another stance if this one is too long for it.
void Separation::fit_in(size_t i) {
  const Copy& copy = strip_->copies[i];
  Lie& lie = lies_[i];
  const auto room_now = [&] { return strip_->room(copy.choices[lie.choice], length_); };
  for (size_t c = 0; c < copy.choices.size(); ++c) {
    if (room_now().x1 >= room_now().x0) break;
    lie.choice = c;
  }
  const GridBox room = room_now();
  const Lattice& lattice = copy.choices[lie.choice].lattice;
  lie.at.x = lattice.x.nearest(lie.at.x, room.x0, std::max(room.x0, room.x1));
  lie.at.y = lattice.y.nearest(lie.at.y, room.y0, room.y1);
}

// The depths of the copy's overlaps with all others.
void Separation::measure(size_t i) {
  const int moving = strip_->shape_number(i, lies_[i]);
  for (size_t j = 0; j < lies_.size(); ++j) {
    if (j == i) continue;
    const NoFit& region = strip_->region(j, lies_[j], moving);
    const double d = depth_in(region, lies_[i].at - lies_[j].at, kInfinity);
    depth(i, j) = d;
    depth(j, i) = d;
  }
}

double Separation::loss(size_t i) {
  double sum = 0.0;
  for (size_t j = 0; j < lies_.size(); ++j) {
    if (j != i) sum += weight(i, j) * depth(i, j);
  }
  return sum;
}

void Separation::move(size_t i) {
  const Copy& copy = strip_->copies[i];
  double bound = loss(i);
  Lie best = lies_[i];
  std::vector<size_t> choices(copy.choices.size());
  std::iota(choices.begin(), choices.end(), size_t{0});
  random_->shuffle(choices);
  for (const size_t choice : choices) {
    const int moving = copy.choices[choice].shape;
    const GridBox room = strip_->room(copy.choices[choice], length_);
    if (room.x1 < room.x0 || room.y1 < room.y0) continue;
    neighbours_.clear();
    for (size_t j = 0; j < lies_.size(); ++j) {
      if (j == i) continue;
      neighbours_.push_back(strip_->neighbour(j, lies_[j], moving, weight(i, j)));
    }
    placer_.set(room, neighbours_, strip_->shapes.cell(moving), random_->next(),
                copy.choices[choice].lattice);
    if (const auto offer = placer_.least_loss(bound)) {
      bound = offer->loss;
      best = {choice, offer->at};
    }
    if (bound == 0.0) break;
  }
  if (best == lies_[i]) return;
  lies_[i] = best;
  measure(i);
}

// The overlapping copies in random order, and the sum of depths.
void Separation::gather() {
  queue_.clear();
  total_ = 0.0;
  for (size_t i = 0; i < lies_.size(); ++i) {
    double sum = 0.0;
    for (size_t j = 0; j < lies_.size(); ++j) {
      if (j != i) sum += depth(i, j);
    }
    total_ += sum;
    if (sum > 0.0 && !strip_->copies[i].fixed) queue_.push_back(i);
  }
  random_->shuffle(queue_);
  if (total_ < kGain * closest_total_) {
    idle_passes_ = 0;
  } else {
    ++idle_passes_;
  }
  if (total_ < closest_total_) {
    closest_total_ = total_;
    closest_ = lies_;
  }
}

void Separation::end_pass() {
  double deepest = 0.0;
  for (const double d : depths_) deepest = std::max(deepest, d);
  for (size_t k = 0; k < depths_.size(); ++k) {
    if (depths_[k] > 0.0) {
      weights_[k] *= kLeastRaise + (kMostRaise - kLeastRaise) * depths_[k] / deepest;
    } else {
      weights_[k] = std::max(1.0, weights_[k] * kDecay);
    }
  }
}

void Separation::step() {
  if (!measured_) measure_all();
  if (const std::optional<size_t> i = next()) {
    queue_.pop_back();
    move(*i);
  }
  if (!queue_.empty()) return;
  gather();
  if (!done()) end_pass();
}

}  // namespace coatwright
