// What to buy for a coat: cloth, and what there is beside it. Millimetres.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "core/draft/binding.h"
#include "core/lay/lamination.h"
#include "core/make/thread.h"
#include "core/units/length.h"

namespace coatwright {

// So many lengths that are alike.
struct ShoppingRun {
  int count = 0;
  double length_mm = 0.0;
};
// Tape, webbing and binding are cut square at one end first. Common practice, no source.
inline constexpr double kCrookedTape = 10.0;  // mm

// One ware: all notions of a kind and width together.
struct ShoppingLine {
  NotionKind kind = NotionKind::HookLoop;
  double width_mm = 0.0;
  int count = 0;           // of pieces that are cut from it, or of things that are counted
  double length_mm = 0.0;  // of all of them; of hook-and-loop the same of each side
  double to_buy_mm = 0.0;  // as shops cut it; 0 for things that are counted or not bought
  std::vector<std::string> places = {};  // word keys, in the order of the draft
  std::vector<ShoppingRun> runs = {};    // the lengths that it is cut into, in the same order
  bool from_cloth = false;  // strips that lie with the pieces on the outer cloth: nothing is bought
  std::vector<BiasStrips> strips = {};  // of them, coat by coat
};
[[nodiscard]] std::vector<ShoppingLine> shopping_list(const Draft& draft, Unit unit);
// For all coats of a lay together.
[[nodiscard]] std::vector<ShoppingLine> shopping_list(const Drafts& drafts, Unit unit);
// So much seam tape (seam_tape() of core/make/care.h), as shops cut it. Its width is not asked for.
[[nodiscard]] ShoppingLine seam_tape_to_buy(double mm, Unit unit);

// A coat laid on one of its cloths.
struct LaidCloth {
  Lay lay;
  std::vector<Rect> left_over = {};
  std::int64_t steps = 0;
  std::optional<Lamination> lamination = {};  // of a lay that is laminated
};
// Where on their rests the lays lie, one behind the other as cloth_to_buy() counts them; others are
// left as they are. How many are not where they were.
int place_on_rests(const std::vector<LaidCloth*>& cloths);

// One coat's part of a cloth: of the area of the pieces, or blanks, that are cut from it; of
// laminate, of what its strips take.
struct CoatShare {
  std::string coat;  // as in LaidPiece
  double area_mm2 = 0.0;
  double from = 0.0, to = 1.0;  // of the cloth, 0 to 1: the coats' parts one behind the other
  [[nodiscard]] double part() const { return to - from; }
};
// Cloth by use: all lays on one length of it, the blanks that are laminated first and the others
// behind them, a gap between them, and a repeat so that stripes are found again; then what is bought
// for that. The laminate last.
struct ClothLine {
  Cloth cloth;
  double needed_mm = 0.0;
  double to_buy_mm = 0.0;  // of a rest nothing
  double lacks_mm = 0.0;   // how much a rest is too short
  std::vector<CoatShare> shares = {};
};
[[nodiscard]] std::vector<ClothLine> cloth_to_buy(const std::vector<LaidCloth>& cloths, Unit unit);

// Word key under "needle." of the machine needle for the coat's thickest seam: "laminate" (90/14,
// trade pages on laminated cotton) where its holes stay, "fleece" (80/12 to 90/14, sewing pages on fleece) where the
// coat is lined or insulated, "cotton" (80/12: from memory).
[[nodiscard]] const char* needle_for(const Draft& draft, std::span<const Cloth> cloths);

}  // namespace coatwright
