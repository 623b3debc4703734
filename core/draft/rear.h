// The rear of the coat: hem from the girth line to the rear corner, and the tail edge. Millimetres.
#pragma once

#include <array>

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
  Path hem;      // H -> E, level at its end
  Path tail;     // T -> E, square to the fold at T
  // v of the hem at u, for u between H and E (clamped).
  [[nodiscard]] double height(double u) const { return height_at(hem, u); }
};

// As it was drafted, read off the body's edges.
[[nodiscard]] Rear rear_of(const Piece& body);

enum class HemLine { Belly, Level, Wave, Raised };
enum class TailLine { Square, Rounded, Hollow };

// The hem that stays above the belly: level at the girth line, rising toward the loin as the dog is
// tucked up, level behind it.
struct BellyHem {
  double from = 0.0, to = 0.0;  // u of girth line and loin
  double drop = 0.0;            // v at the girth line
  double rise = 0.0;
  [[nodiscard]] double height(double u) const;
  [[nodiscard]] double slope(double u) const;  // dv/du, 0 or less
};
// The belly's levels from the girth line to where hems end, read off a map once for hems of every drop.
struct BellyLevels {
  struct Level {
    double v = 0.0;      // of the belly
    double risen = 0.0;  // what part of a hem's rise has come there
  };
  std::array<Level, 48> levels;
  double from = 0.0, to = 0.0;  // u of girth line and loin
  double clear = 0.0;           // of the belly, mm
  double room = 0.0;            // v to which a drop may reach at the girth line
};
[[nodiscard]] BellyLevels belly_levels(const BodyMap& map);
// The least rise, 0 or more, that keeps the hem kClearOfBelly above the belly's level as far back
// as hems reach. What the drop itself is too much at the girth line, no rise can take away there:
// past_belly tells it.
[[nodiscard]] BellyHem belly_hem(const BellyLevels& belly, double drop);
[[nodiscard]] BellyHem belly_hem(const BodyMap& map, double drop);
inline constexpr double kClearOfBelly = 0.02;  // of the chest girth
// How far v = `drop` at the girth line lies past what it may be there; below 0: it does not.
[[nodiscard]] double past_belly(const BodyMap& map, double drop);

struct RearWanted {
  Point hem_start;         // H
  double drop = 0.0;       // v of the hem at the girth line, where H lies or ahead of it
  double spine_end = 0.0;  // u of T
  HemLine hem_line = HemLine::Level;
  double hem_rise = 0.5;  // 0..1; at the middle the line rises as it does by itself
  double hem_lift = 0.0;  // how much further the line rises toward the loin than it does so, mm
  TailLine tail_line = TailLine::Rounded;
  double tail_fullness = 0.5;  // 0..1; at the middle the corner is as the line has it
};
[[nodiscard]] Rear draft_rear(const Body& body, const BodyMap& map, const RearWanted& wanted);

// A notch at u on the body's hem, which runs from the rear corner forward.
[[nodiscard]] Notch notch_on_hem(const Rear& rear, double u, const char* name);

}  // namespace coatwright
