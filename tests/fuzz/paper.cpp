// Whatever is asked for as paper, margin and overlap: it is refused with words that can be shown,
// or the sheets are few and fit the paper, and their drawings hold none of the text unescaped.
//
// Byte 0 turn and fold, 1 and 2 margin, 3 and 4 overlap, the rest the paper as typed.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "core/base/utf8.h"
#include "core/draw/svg.h"
#include "core/sheet/print.h"
#include "tests/fuzz/drafts.h"

using namespace coatwright;

namespace {

const Pattern& small_pattern() {
  static const Pattern pattern = [] {
    Tape tape;
    tape.of(Measure::Back) = {265.0};
    tape.of(Measure::Neck) = {205.0};
    tape.of(Measure::Chest) = {315.0};
    tape.of(Measure::Drop) = {115.0};
    tape.of(Measure::Breast) = {320.0};
    return make_pattern(assess(tape), {}).result.value();
  }();
  return pattern;
}

double number(const std::uint8_t* data) { return (data[0] * 256 + data[1]) / 256.0 - 20.0; }

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size < 5) return 0;
  const std::string_view typed(reinterpret_cast<const char*>(data) + 5, size - 5);
  const PrintChoices print{.paper = std::string(typed),
                           .turn = static_cast<Turn>(data[0] % 3),
                           .margin = number(data + 1),
                           .overlap = number(data + 3),
                           .opened = (data[0] & 4) != 0};
  const Result<Paper> paper = paper_by_id(typed);
  const Result<SheetPlan> plan = plan_sheets(small_pattern(), print, {}, {});
  if (!plan) {
    require(is_clean(plan.problem().other, false) && plan.problem().other.size() < 200, "clean");
    return 0;
  }
  require(paper.ok(), "paper known");
  require(!plan->sheets.empty() && plan->sheets.size() <= static_cast<std::size_t>(kMostSheets),
          "few sheets");
  for (const Sheet& sheet : plan->sheets) {
    require(std::isfinite(sheet.window.x0) && std::isfinite(sheet.window.y0), "finite window");
    require(sheet.window.width() <= plan->sheet_width - 2.0 * plan->margin + 1e-6, "wide enough");
    require(sheet.window.height() <= plan->sheet_height - 2.0 * plan->margin + 1e-6, "high enough");
  }
  if (size > 12) return 0;  // drawing takes longer; a short text will do
  const std::string title = "<" + std::string(typed) + "&\"";
  const std::string svg = to_svg(draw_sheet(*plan, 0, {title, title}, {}), title);
  require(svg.find(title) == std::string::npos, "escaped");
  return 0;
}
