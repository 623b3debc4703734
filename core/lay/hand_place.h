// Where the pieces of a lay by hand lie: what a ticket keeps of it. Millimetres, axes as in
// coat_lay.h.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/geometry/point.h"
#include "core/lay/cloth.h"

namespace coatwright {

// Coats that are laid together at the most, the ticket's own among them.
inline constexpr size_t kMostCoats = 4;

// Where one copy of a piece lies. `at` is the least x and y of its cut line as it lies, so that a
// piece that is drafted larger or smaller stays at its corner.
struct HandPlace {
  std::string piece;
  int copy = 0;         // as in LaidPiece
  bool turned = false;  // the other way round
  Point at = {};
  // As in LaidPiece: in a ticket, its id on the rack; the ticket's own: empty.
  std::string coat = {};
  bool operator==(const HandPlace&) const = default;
};
inline constexpr int kMostCopyNumber = 999;
inline constexpr double kFarthestPlace = 100000.0;  // mm

// The places on one of the ticket's cloths. Those of pieces that the coat has not, or no longer,
// and of coats that are not laid with it, stay in it and count for nothing.
struct HandLay {
  ClothUse use = ClothUse::Shell;
  bool laminated = false;
  std::vector<HandPlace> places = {};
  bool operator==(const HandLay&) const = default;
};
// In all lays of a ticket.
inline constexpr size_t kMostHandPlaces = 200;

// Whether both are of the same copy of a piece.
[[nodiscard]] bool same_copy(const HandPlace& a, const HandPlace& b);
// That of the cloth; null if it is not laid by hand.
[[nodiscard]] const HandLay* hand_lay(const std::vector<HandLay>& lays, ClothUse use,
                                      bool laminated);
// The lays with this one instead of that on the same cloth; without one if `lay` has no places.
[[nodiscard]] std::vector<HandLay> with_hand_lay(std::vector<HandLay> lays, HandLay lay);

// Places that are left for a lay of this cloth, beside the ticket's other ones.
[[nodiscard]] size_t places_left(const std::vector<HandLay>& lays, ClothUse use, bool laminated);

}  // namespace coatwright
