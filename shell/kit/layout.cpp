#include "shell/kit/layout.h"

#include <algorithm>

#include "shell/kit/theme.h"

namespace coatwright::studio {
namespace {

constexpr float kRowHeight = 50.0F;
constexpr float kSlim = 360.0F;

// The keypad's sheet on a phone: where the tape runs in three or four lines, and what stands below it
// (shell/measure/panel.cpp).
constexpr float kPadSheet = 497.0F, kBarePadSheet = 398.0F;
// From these heights on there is room for the table row beside the keypad.
constexpr float kRowUpright = 720.0F, kRowLying = 480.0F;

// The sheet below the board.
void lay_upright(Layout& l, const Box& work, float row_and_gap) {
  const float g = l.gutter;
  const float most = work.h - row_and_gap - g -
                     (l.narrow ? (l.stacked ? 122.0F
                                  : l.bare  ? 150.0F
                                            : 180.0F)
                               : 320.0F);
  const float keypad = l.bare ? kBarePadSheet : l.narrow ? kPadSheet : 440.0F;
  const float rack = l.narrow ? 268.0F : 0.36F * work.h;
  const float usual = work.h * (l.narrow ? 0.5F : 0.44F);
  const float sheet = std::min(most, l.holds == SheetHolds::Keypad ? keypad
                                     : l.holds == SheetHolds::Rack ? rack
                                                                   : usual);
  l.sheet = {work.x, work.bottom() - sheet, work.w, sheet + g};  // runs off the table's edge
  const Box upper{work.x, work.y, work.w, work.h - sheet - g};
  l.board = upper.top(upper.h - row_and_gap);
  l.row = {upper.x, upper.bottom() - kRowHeight, upper.w, kRowHeight};
}

// The sheet beside the board; the keypad's takes the margins too where every line counts.
void lay_lying(Layout& l, const Box& work, float row_and_gap) {
  const float g = l.gutter;
  const float sheet = l.bare ? std::clamp(0.42F * l.page.w, 300.0F, 360.0F)
                             : std::clamp(0.3F * l.page.w, l.narrow ? 300.0F : 340.0F, 420.0F);
  l.sheet = {work.right() - sheet, work.y, sheet, work.h};
  if (l.bare) l.sheet.y = l.tape.h, l.sheet.h = l.page.h - l.tape.h;
  const Box left{work.x, work.y, work.w - sheet - g, work.h};
  l.board = left.top(left.h - row_and_gap);
  l.row = {left.x, left.bottom() - kRowHeight, left.w, kRowHeight};
}

}  // namespace

Layout lay_out(float width, float height, SheetHolds holds) {
  Layout l;
  l.holds = holds;
  l.page = {0.0F, 0.0F, width, height};
  l.portrait = height > width * 1.05F;
  l.narrow = std::min(width, height) < 560.0F;
  l.bare =
      l.narrow && holds == SheetHolds::Keypad && height < (l.portrait ? kRowUpright : kRowLying);
  l.gutter = l.narrow ? 8.0F : 16.0F;
  l.stacked = width < kSlim;
  l.tape = l.page.top(l.stacked ? 96.0F : l.narrow ? 56.0F : 64.0F);
  const Box work = l.page.below(l.tape.h).inset(l.gutter, l.gutter);
  const float row_and_gap = l.bare ? 0.0F : kRowHeight + (l.narrow ? 8.0F : 14.0F);
  l.portrait ? lay_upright(l, work, row_and_gap) : lay_lying(l, work, row_and_gap);
  if (l.bare) l.row = {l.row.x, l.board.bottom(), l.row.w, 0.0F};
  return l;
}

}  // namespace coatwright::studio
