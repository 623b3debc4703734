#include "core/pack/setting_down.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace coatwright {

SettingDown::SettingDown(Strip& strip, std::vector<Lie> fixed, std::vector<size_t> order)
    : strip_(&strip), lies_(std::move(fixed)), order_(std::move(order)) {
  for (size_t i = 0; i < lies_.size(); ++i) {
    down_.push_back(i);
    end_ = std::max(end_, lies_[i].at.x + strip.shape(i, lies_[i]).width);
  }
  lies_.resize(strip.copies.size());
}

bool SettingDown::prepare() {
  if (done()) return false;
  for (const Choice& choice : strip_->copies[order_[next_]].choices) {
    for (const size_t j : down_) {
      if (strip_->prepare(j, lies_[j], choice.shape, true)) return true;
    }
  }
  return false;
}

void SettingDown::step() {
  if (done()) return;
  const size_t i = order_[next_++];
  const Copy& copy = strip_->copies[i];
  double least_end = std::numeric_limits<double>::infinity();
  for (size_t c = 0; c < copy.choices.size(); ++c) {
    const int moving = copy.choices[c].shape;
    const Shape& shape = strip_->shapes[moving];
    neighbours_.clear();
    double clear = end_;  // where nothing that lies is in the way
    for (const size_t j : down_) {
      neighbours_.push_back(strip_->neighbour(j, lies_[j], moving, 1.0));
      clear = std::max(clear, lies_[j].at.x + neighbours_.back().region->box.x1);
    }
    const Lattice& lattice = copy.choices[c].lattice;
    const GridBox room{0.0, 0.0, lattice.x.least_from(clear), strip_->width - shape.height};
    placer_.set(room, neighbours_, strip_->shapes.cell(moving), 1, lattice);
    if (const auto place = placer_.leftmost(least_end - shape.width)) {
      lies_[i] = {c, *place};
      least_end = place->x + shape.width;
    }
  }
  down_.push_back(i);
  end_ = std::max(end_, least_end);
}

std::vector<std::vector<size_t>> orders_of(const Strip& strip) {
  std::vector<size_t> all;
  for (size_t i = 0; i < strip.copies.size(); ++i) {
    if (!strip.copies[i].fixed) all.push_back(i);
  }
  std::vector<std::vector<size_t>> orders;
  const auto add = [&](auto size) {
    std::vector<size_t> order = all;
    std::stable_sort(order.begin(), order.end(), [&](size_t a, size_t b) {
      return size(strip.shapes[strip.copies[a].choices[0].shape]) >
             size(strip.shapes[strip.copies[b].choices[0].shape]);
    });
    if (std::find(orders.begin(), orders.end(), order) == orders.end()) orders.push_back(order);
  };
  add([](const Shape& s) { return s.area; });
  add([](const Shape& s) { return std::max(s.width, s.height); });
  add([](const Shape& s) { return s.width * s.height; });
  return orders;
}

}  // namespace coatwright
