// The rear of the coat: hem from the girth line to the rear corner, and the tail edge. Millimetres.
#pragma once

#include "core/body/measures.h"
#include "core/draft/draft.h"
#include "core/geometry/path.h"

namespace coatwright {

// v of a path that runs tailward (u grows all along it) at u, clamped to its ends.
[[nodiscard]] double height_at(const Path& tailward, double u);
// Length along such a path up to where it reaches u.
[[nodiscard]] double length_to(const Path& tailward, double u);

struct Rear {
  Point corner;  // E, where the hem ends and the rear corner begins
  Path hem;      // H -> E, level at both ends
  Path tail;     // T -> E, square to the fold at T
  // v of the hem at u, for u between H and E (clamped).
  [[nodiscard]] double height(double u) const { return height_at(hem, u); }
};

// As it was drafted, read off the body's edges.
[[nodiscard]] Rear rear_of(const Piece& body);

enum class HemLine { Level, Wave, Raised };
enum class TailLine { Square, Rounded, Hollow };

struct RearWanted {
  Point hem_start;         // H
  double spine_end = 0.0;  // u of T
  HemLine hem_line = HemLine::Level;
  double hem_rise = 0.5;  // 0..1; at the middle the line rises as it does by itself
  TailLine tail_line = TailLine::Rounded;
  double tail_fullness = 0.5;  // 0..1; at the middle the corner is as the line has it
};
[[nodiscard]] Rear draft_rear(const Body& body, const RearWanted& wanted);

// A notch at u on the body's hem, which runs from the rear corner forward.
[[nodiscard]] Notch notch_on_hem(const Rear& rear, double u, const char* name);

}  // namespace coatwright
