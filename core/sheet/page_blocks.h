// What a page says beside the pattern, in blocks that go down a column: how to print and join, the
// pieces, what the lines mean, and the cautions. Millimetres.
#pragma once

#include <functional>
#include <utility>
#include <vector>

#include "core/sheet/print.h"

namespace coatwright {

inline constexpr double kHeadSize = 4.4;
inline constexpr double kBodySize = 3.4;
inline constexpr double kBlockGap = 5.0;   // between blocks
inline constexpr size_t kMostTitle = 130;  // characters: the longest names of a dog and its coat

// Text and samples of lines going down a column.
class Column {
 public:
  // What to do when the area is full: go_on() elsewhere, in an area as wide. Nothing: it is written
  // on below, and whoever writes has looked that it fits.
  using WhenFull = std::function<void(Column&)>;
  using Part = std::function<void(Column&)>;

  Column(const Rect& area, DrawItems& out, WhenFull when_full = {})
      : area_(area), y_(area.y0), out_(&out), when_full_(std::move(when_full)) {}

  [[nodiscard]] double width() const { return area_.width(); }
  [[nodiscard]] Rect rest() const { return {area_.x0, y_, area_.x1, area_.y1}; }
  void skip(double mm) { y_ += mm; }

  void write(Role role, const std::string& text, double size, double indent = 0.0);
  // Beside what is written next.
  void put(Role role, const std::string& text, double size, double indent = 0.0);
  void sample(Role role, double size, double indent);
  // What should not be divided, if an area holds it.
  void together(const Part& write);
  // As many beside one another as have room, row by row; no row is divided, if an area holds it.
  void in_rows(const std::vector<Part>& parts, double narrowest);
  void go_on(const Rect& area, DrawItems& out);

 private:
  Rect area_;
  double y_;
  DrawItems* out_;
  WhenFull when_full_;
};

// Word keys of the cautions, which stand on every print.
inline constexpr const char* kCautions[] = {"caution.fingers", "caution.belly", "caution.skin",
                                            "caution.heat",    "caution.wet",   "caution.alone",
                                            "caution.leash",   "caution.vet"};

using Block = void (*)(Column&, const SheetPlan&, const Words&);
void write_steps(Column& column, const SheetPlan& plan, const Words& words);
void write_pieces(Column& column, const SheetPlan& plan, const Words& words);
void write_key(Column& column, const SheetPlan& plan, const Words& words);
void write_cautions(Column& column, const SheetPlan& plan, const Words& words);

// The height that a block takes in a column of this width.
[[nodiscard]] double height_of(Block block, double width, const SheetPlan& plan,
                               const Words& words);

// A block where it may stand on a sheet that holds the whole pattern.
struct PlacedBlock {
  Block block;
  Rect area;  // in the layout
};
// The cautions and the key, clear of the pieces, the scale check and each other; none of them if one
// has no room: the sheet needs a cover.
[[nodiscard]] std::vector<PlacedBlock> blocks_beside_pieces(const SheetPlan& plan,
                                                            const Words& words);

}  // namespace coatwright
