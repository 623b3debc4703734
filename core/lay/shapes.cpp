#include "core/lay/shapes.h"

#include <utility>

namespace coatwright {

namespace {

// About 200 bytes each.
constexpr size_t kMostCornersKept = 1000000;
// What rounding two outlines to the grid can make them overlap by.
constexpr double kInexactGap = 2.0;

}  // namespace

int ShapeTable::add(Shape shape) {
  for (size_t i = 0; i < shapes_.size(); ++i) {
    if (shapes_[i] == shape) return static_cast<int>(i);
  }
  shapes_.push_back(std::move(shape));
  return static_cast<int>(shapes_.size()) - 1;
}

const NoFit& ShapeTable::region(int still, int moving) {
  const std::uint64_t key =
      (static_cast<std::uint64_t>(still) << 32) | static_cast<std::uint64_t>(moving);
  std::unique_ptr<NoFit>& kept = regions_[key];
  if (!kept) {
    const Shape& a = (*this)[still];
    const Shape& b = (*this)[moving];
    const double gap = gap_ + (a.exact && b.exact ? 0.0 : kInexactGap);
    kept = std::make_unique<NoFit>(no_fit(a.parts, b.parts, gap));
    corners_kept_ += kept->corner_x.size() + kept->border.size();
  }
  return *kept;
}

void ShapeTable::trim() {
  if (corners_kept_ <= kMostCornersKept) return;
  regions_.clear();
  corners_kept_ = 0;
}

}  // namespace coatwright
