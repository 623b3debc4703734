// Pieces set down one after another, each as far left as it can lie among those before it.
#pragma once

#include <vector>

#include "core/pack/layout.h"
#include "core/pack/placer.h"

namespace coatwright {

class SettingDown {
 public:
  // `order` names the copies that are not fixed, all of them; fixed ones lie as in `fixed`.
  SettingDown(Strip& strip, std::vector<Lie> fixed, std::vector<size_t> order);

  // Makes a bit of what the next step needs; false if it has all of it.
  bool prepare();
  void step();  // sets down the next copy
  [[nodiscard]] bool done() const { return next_ == order_.size(); }
  [[nodiscard]] const std::vector<Lie>& lies() const { return lies_; }

 private:
  Strip* strip_;
  std::vector<Lie> lies_;
  std::vector<size_t> down_;  // copies that lie
  std::vector<size_t> order_;
  size_t next_ = 0;
  double end_ = 0.0;  // of the last piece that lies
  Placer placer_;
  std::vector<Neighbour> neighbours_;
};

// Orders that are worth trying: by area, by longest side, by box, the largest first.
[[nodiscard]] std::vector<std::vector<size_t>> orders_of(const Strip& strip);

}  // namespace coatwright
