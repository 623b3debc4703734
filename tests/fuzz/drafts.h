// What holds of every draft, however odd the tape: it is refused, or its pieces are sound.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"

namespace coatwright {

// Stops the program, which is how a fuzzer learns of a fault.
inline void require(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "not so: %s\n", what);
  std::abort();
}

inline bool is_finite(const Polyline& line) {
  for (const Point p : line) {
    if (!std::isfinite(p.x) || !std::isfinite(p.y)) return false;
  }
  return true;
}

inline void require_sound_draft(const Tape& tape, const Choices& choices, const StyleInfo& style,
                                const Alterations& alterations = {}) {
  const Checked<Pattern> made = make_pattern(assess(tape), choices, style, alterations);
  for (const Finding& f : made.findings) {
    for (const double v : f.what.values) require(std::isfinite(v), code_name(f.what.code));
  }
  if (!made.result) return;
  for (const CutPiece& piece : made.result->cut.pieces) {
    const char* id = piece.piece.id.c_str();
    require(is_finite(piece.net) && is_finite(piece.cut), id);
    require(is_simple(piece.net) && is_simple(piece.cut), id);
    require(signed_area(piece.net) > 0.0, id);
    // A piece that is bound all round is cut at its net line.
    const bool has_allowance =
        std::ranges::any_of(piece.edges, [](const CutEdge& e) { return e.allowance_mm > 0.0; });
    const double added_mm2 = signed_area(piece.cut) - signed_area(piece.net);
    require(has_allowance ? added_mm2 > 0.0 : std::abs(added_mm2) < 1.0, id);
  }
  for (const Invariant& i : made.result->draft.invariants) {
    require(i.holds(kInvariantTolerance), i.id.c_str());
  }
}

}  // namespace coatwright
