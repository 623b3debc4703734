#include "core/lay/shapes.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace coatwright {

namespace {

constexpr size_t kMostBytesKept = 200000000;
// What rounding two outlines to the grid can make them overlap by.
constexpr double kInexactGap = 2.0;
// So many cells lie across a usual shape, and at least so many across a slender one.
constexpr double kCellsAcross = 8.0;
constexpr double kCellsAcrossSlender = 4.0;

}  // namespace

int ShapeTable::add(Shape shape) {
  for (size_t i = 0; i < shapes_.size(); ++i) {
    if (shapes_[i] == shape) return static_cast<int>(i);
  }
  shapes_.push_back(std::move(shape));
  return static_cast<int>(shapes_.size()) - 1;
}

ShapeTable::MappedRegion& ShapeTable::kept(int still, int moving) {
  const std::uint64_t key =
      (static_cast<std::uint64_t>(still) << 32) | static_cast<std::uint64_t>(moving);
  std::unique_ptr<MappedRegion>& kept = kept_[key];
  if (!kept) {
    const Shape& a = (*this)[still];
    const Shape& b = (*this)[moving];
    const double gap = gap_ + (a.exact && b.exact ? 0.0 : kInexactGap);
    kept = std::make_unique<MappedRegion>(MappedRegion{no_fit(a.parts, b.parts, gap), {}});
    bytes_kept_ += 100 * (kept->region.corner_x.size() + kept->region.border.size());
  }
  return *kept;
}

double ShapeTable::cell(int moving) const {
  const Shape& s = (*this)[moving];
  const double usual = std::sqrt(s.width * s.height) / kCellsAcross;
  const double slender = std::min(s.width, s.height) / kCellsAcrossSlender;
  return std::max(std::min(usual, slender), least_cell_);
}

const ShapeTable::MappedRegion& ShapeTable::mapped(int still, int moving) {
  MappedRegion& k = kept(still, moving);
  if (k.map.columns == 0) {
    k.map = depth_map(k.region, cell(moving));
    bytes_kept_ += 4 * (3 * k.map.least.size() + k.map.edges.size());
  }
  return k;
}

void ShapeTable::trim() {
  if (bytes_kept_ <= kMostBytesKept) return;
  kept_.clear();
  bytes_kept_ = 0;
}

}  // namespace coatwright
