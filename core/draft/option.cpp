#include "core/draft/option.h"

namespace coatwright {
namespace {

constexpr double kCurveTolerance = 0.05;  // mm

}  // namespace

std::optional<Point> along_edge(const Draft& draft, std::string_view piece, std::string_view id,
                                double share) {
  const Piece* found = find_piece(draft, piece);
  const Edge* edge = found == nullptr ? nullptr : find_edge(*found, id);
  if (edge == nullptr) return std::nullopt;
  const double length = arc_length(edge->path, kCurveTolerance);
  return station_at(edge->path, share * length, kCurveTolerance).point;
}

std::optional<Point> at_notch(const Draft& draft, std::string_view piece, std::string_view name) {
  const Piece* found = find_piece(draft, piece);
  if (found == nullptr) return std::nullopt;
  for (const Notch& n : found->notches) {
    const Edge* edge = n.name == name ? find_edge(*found, n.edge) : nullptr;
    if (edge != nullptr) return station_at(edge->path, n.at_mm, kCurveTolerance).point;
  }
  return std::nullopt;
}

}  // namespace coatwright
