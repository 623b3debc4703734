#include "core/pack/shapes.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace coatwright {

namespace {

// Of a region's parts in one go.
constexpr size_t kPartsAtOnce = 64;
// What rounding two outlines to the grid can make them overlap by.
constexpr double kInexactGap = 2.0;
// So many cells lie across a usual shape, and at least so many across a slender one.
constexpr double kCellsAcross = 8.0;
constexpr double kCellsAcrossSlender = 4.0;

std::uint64_t key_of(int still, int moving) {
  return (static_cast<std::uint64_t>(still) << 32) | static_cast<std::uint64_t>(moving);
}

}  // namespace

int ShapeTable::add(Shape shape) {
  for (size_t i = 0; i < shapes_.size(); ++i) {
    if (shapes_[i] == shape) return static_cast<int>(i);
  }
  shapes_.push_back(std::move(shape));
  return static_cast<int>(shapes_.size()) - 1;
}

NoFitWork ShapeTable::begin(int still, int moving) const {
  const Shape& a = (*this)[still];
  const Shape& b = (*this)[moving];
  return {a.parts, b.parts, gap_ + (a.exact && b.exact ? 0.0 : kInexactGap)};
}

ShapeTable::Kept& ShapeTable::keep(std::uint64_t key, NoFit region) {
  ++made_;
  const size_t bytes = 100 * (region.corner_x.size() + region.border.size());
  std::unique_ptr<Kept>& kept = kept_[key];
  kept = std::make_unique<Kept>(Kept{{std::move(region), {}}, bytes, clock_});
  bytes_kept_ += bytes;
  return *kept;
}

ShapeTable::Kept& ShapeTable::kept(int still, int moving) {
  const std::uint64_t key = key_of(still, moving);
  if (const auto found = kept_.find(key); found != kept_.end()) {
    found->second->asked = clock_;
    return *found->second;
  }
  NoFitWork work = work_ && work_->key == key ? std::move(work_->work) : begin(still, moving);
  if (work_ && work_->key == key) work_.reset();
  while (!work.go_on(kPartsAtOnce)) {
  }
  return keep(key, std::move(work).take());
}

bool ShapeTable::prepare(int still, int moving, bool with_map) {
  const std::uint64_t key = key_of(still, moving);
  if (const auto found = kept_.find(key); found != kept_.end()) {
    Kept& kept = *found->second;
    kept.asked = clock_;
    if (!with_map || kept.map.columns > 0) return false;
    add_map(kept, moving);
    return true;
  }
  if (!work_ || work_->key != key) work_.emplace(Work{key, begin(still, moving)});
  if (work_->work.go_on(kPartsAtOnce)) {
    keep(key, std::move(work_->work).take());
    work_.reset();
  }
  return true;
}

double ShapeTable::cell(int moving) const {
  const Shape& s = (*this)[moving];
  const double usual = std::sqrt(s.width * s.height) / kCellsAcross;
  const double slender = std::min(s.width, s.height) / kCellsAcrossSlender;
  return std::max(std::min(usual, slender), least_cell_);
}

void ShapeTable::add_map(Kept& kept, int moving) {
  ++made_;
  kept.map = depth_map(kept.region, cell(moving));
  const size_t bytes = 4 * (3 * kept.map.least.size() + kept.map.edges.size());
  kept.bytes += bytes;
  bytes_kept_ += bytes;
}

const ShapeTable::MappedRegion& ShapeTable::mapped(int still, int moving) {
  Kept& k = kept(still, moving);
  if (k.map.columns == 0) add_map(k, moving);
  return k;
}

void ShapeTable::trim() {
  ++clock_;
  if (bytes_kept_ <= room_) return;
  std::vector<std::int64_t> asked;
  for (const auto& [key, kept] : kept_) asked.push_back(kept->asked);
  const auto middle = asked.begin() + static_cast<std::ptrdiff_t>(asked.size() / 2);
  std::nth_element(asked.begin(), middle, asked.end());
  std::erase_if(kept_, [&](const auto& entry) {
    if (entry.second->asked > *middle) return false;
    bytes_kept_ -= entry.second->bytes;
    return true;
  });
}

}  // namespace coatwright
