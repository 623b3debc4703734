// From net to cut: allowance by edge, mitred corners, notches, for every piece of a draft.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/draft/binding.h"
#include "core/draft/draft.h"

namespace coatwright {

// Outlines are flattened within this of the true curves, mm.
inline constexpr double kOutlineTolerance = 0.005;

struct CutEdge {
  std::string id;
  std::string seam;
  double allowance_mm = 0.0;
  double length_mm = 0.0;  // of the net edge
  Polyline net;            // flattened
};

// A notch as drawn: from the cut line outward.
struct CutNotch {
  std::string name;
  std::string edge;
  Point on_net;
  Point on_cut;
  Vec outward;  // unit
};

struct CutPiece {
  Piece piece;  // the net piece
  std::vector<CutEdge> edges;
  Polyline net;  // closed outline, counter-clockwise
  Polyline cut;  // closed outline, counter-clockwise; along the fold it equals net
  std::vector<CutNotch> notches;
};

struct CutSet {
  std::vector<CutPiece> pieces;
  std::optional<BiasStrips> binding = {};  // of the outer cloth
  [[nodiscard]] const CutPiece* find(std::string_view id) const;
};

// Refused with OutlineCrosses when an outline would cross itself, with AllowanceTooWide when only
// the cut line round it would.
[[nodiscard]] Result<CutSet> cut_pieces(const Draft& draft);

// The whole piece of a half on the fold (the fold gone); other pieces as they are. The edges of the
// other side have the ids of their partners with this behind.
inline constexpr std::string_view kMirrored = ".mirrored";
[[nodiscard]] CutPiece opened(const CutPiece& half);

}  // namespace coatwright
