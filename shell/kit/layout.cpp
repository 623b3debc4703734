#include "shell/kit/layout.h"

#include "shell/kit/theme.h"

namespace coatwright::studio {
namespace {

constexpr float kRowHeight = 50.0F;

}  // namespace

Layout lay_out(float width, float height, SheetHolds holds) {
  Layout l;
  l.page = {0.0F, 0.0F, width, height};
  l.portrait = height > width * 1.05F;
  l.narrow = std::min(width, height) < 560.0F;
  l.gutter = l.narrow ? 8.0F : 16.0F;
  l.tape = l.page.top(l.narrow ? 56.0F : 64.0F);
  const float g = l.gutter;
  const Box work = l.page.below(l.tape.h).inset(g, g);
  const float row_and_gap = kRowHeight + (l.narrow ? 8.0F : 14.0F);
  if (l.portrait) {
    const float most = work.h - row_and_gap - g - (l.narrow ? 210.0F : 320.0F);
    const float keypad = l.narrow ? 470.0F : 440.0F;
    const float rack = l.narrow ? 268.0F : 0.36F * work.h;
    const float usual = work.h * (l.narrow ? 0.5F : 0.44F);
    const float sheet = std::min(most, holds == SheetHolds::Keypad ? keypad
                                       : holds == SheetHolds::Rack ? rack
                                                                   : usual);
    l.sheet = {work.x, work.bottom() - sheet, work.w, sheet + g};  // runs off the table's edge
    const Box upper{work.x, work.y, work.w, work.h - sheet - g};
    l.board = upper.top(upper.h - row_and_gap);
    l.row = {upper.x, upper.bottom() - kRowHeight, upper.w, kRowHeight};
  } else {
    const float sheet = std::clamp(0.3F * width, l.narrow ? 300.0F : 340.0F, 420.0F);
    l.sheet = {work.right() - sheet, work.y, sheet, work.h};
    const Box left{work.x, work.y, work.w - sheet - g, work.h};
    l.board = left.top(left.h - row_and_gap);
    l.row = {left.x, left.bottom() - kRowHeight, left.w, kRowHeight};
  }
  return l;
}

}  // namespace coatwright::studio
