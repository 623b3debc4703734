#include "shell/pages/measuring_page.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "core/body/assess.h"
#include "core/draft/styles/style.h"
#include "core/draw/signs.h"
#include "shell/pages/paper_picture.h"

namespace coatwright {
namespace {

constexpr double kWide = 168.0, kHigh = 76.0;  // of the picture
constexpr const char* kLine = "__________";

// An ordinary dog of the build, each tape with its number, which are those of the rows.
Drawing dog_with_tapes(Build build, const std::vector<Measure>& wanted) {
  constexpr double kRoom = 8.0;  // for numbers round the dog
  Tape tape = ordinary_tape(build);
  tape.build = build;
  const SideView view = draw_side_view(*assess(tape).result);
  PaperPicture picture(kHigh - 2.0 * kRoom);
  picture.frame(view.bounds, 0.0, kWide);
  picture.dog(view);
  const auto number_of = [&](Measure m) {
    return static_cast<int>(std::find(wanted.begin(), wanted.end(), m) - wanted.begin()) + 1;
  };
  std::vector<const SideTape*> shown;
  for (const SideTape& one : view.tapes) {
    if (number_of(one.measure) <= static_cast<int>(wanted.size())) shown.push_back(&one);
  }
  for (const SideTape* one : shown) picture.path(Role::Tape, one->line, false);
  for (const SideTape* one : shown) {
    picture.number(one->label_at, number_of(one->measure), (kRing + 1.0) * one->label_toward);
  }
  return std::move(picture).close();
}

std::string to_tick(const char* title, std::initializer_list<const char*> keys,
                    const Words& words) {
  std::string out = words(title) + ":";
  for (const char* key : keys) out += "   \u25A1 " + words(key);
  return out;
}

}  // namespace

Document measuring_sheet(const Ticket& ticket, const Words& words, const std::string& day) {
  const std::vector<Measure> wanted = measures_of(style_of(ticket), ticket.choices);
  Document page(words("measuring.title", {words("style." + ticket.style)}));
  page.heading(1, page.title());
  page.paragraph(words("measuring.whose", {day.empty() ? kLine : day}));
  page.paragraph(words("measuring.how"));
  page.paragraph(words("measuring.care"));
  page.drawing(dog_with_tapes(ticket.build, wanted));
  page.open_list(ListKind::Numbered);  // as on the picture
  const bool inches = ticket.unit == Unit::Inch;
  const char* units[] = {inches ? "in" : "cm", inches ? "lb" : "kg"};
  for (const Measure measure : wanted) {
    const MeasureInfo& m = info(measure);
    const std::string key = std::string("measure.") + m.id;
    page.item(words(key) + (m.need == Need::Required ? " *" : "") + "  " + kLine + "  " + kLine +
              " " + units[m.is_weight ? 1 : 0]);
    page.line(words(key + ".tape"));
  }
  page.paragraph(words("measuring.needed"));
  page.paragraph(
      to_tick("build", {"build.ordinary", "build.broad", "build.deep", "build.long-low"}, words));
  page.paragraph(to_tick("sex", {"sex.female", "sex.male"}, words) + "        " +
                 to_tick("measuring.coat", {"coat.short", "coat.medium", "coat.thick"}, words));
  return page;
}

}  // namespace coatwright
