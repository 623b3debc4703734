#include "core/make/cut_record.h"

#include <cmath>

#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

constexpr double kKept = 0.25;  // mm; what scissors keep to

double to_tenth(double value) { return std::round(value * 10.0) / 10.0; }

CutSize size_of(const CutPiece& piece) {
  const Rect box = bounds(piece.cut);
  return {to_tenth(box.x1 - box.x0), to_tenth(box.y1 - box.y0),
          to_tenth(std::abs(signed_area(piece.cut)))};
}

// An edge of another shape shows in the area where the box stays: an outline that moves by d all
// round changes its area by about 2 d (width + height), and here d is a tenth of kKept.
bool same(const CutSize& a, const CutSize& b) {
  return std::abs(a.width - b.width) <= kKept && std::abs(a.height - b.height) <= kKept &&
         std::abs(a.area - b.area) <= 0.2 * kKept * (a.width + a.height);
}

bool is_cut_from_cloth(const CutPiece& piece) { return piece.piece.layer != Layer::Webbing; }

}  // namespace

CutRecord cut_record(const CutSet& cut) {
  CutRecord out;
  for (const CutPiece& piece : cut.pieces) {
    if (is_cut_from_cloth(piece)) out.emplace(piece.piece.id, size_of(piece));
  }
  return out;
}

std::vector<std::string> not_as_cut(const CutRecord& record, const CutSet& now) {
  std::vector<std::string> out;
  if (record.empty()) return out;
  for (const CutPiece& piece : now.pieces) {
    if (!is_cut_from_cloth(piece)) continue;
    const auto was = record.find(piece.piece.id);
    if (was == record.end() || !same(was->second, size_of(piece))) out.push_back(piece.piece.id);
  }
  return out;
}

}  // namespace coatwright
