#include "shell/pages/sizes_page.h"

#include <algorithm>
#include <cmath>

#include "core/draft/styles/style.h"
#include "core/units/length.h"
#include "shell/words/ticket_words.h"

namespace coatwright {
namespace {

constexpr double kWide = 178.0, kHigh = 225.0;  // mm, of the page's room for a drawing
constexpr double kText = 3.2;                   // mm, on paper

std::string as_measured(const Value& value, const MeasureInfo& measure, const Ticket& ticket) {
  std::string text = measure.is_weight ? format_weight(value.value, ticket.unit)
                                       : format_length(Length::mm(value.value),
                                                       {.unit = ticket.unit, .with_unit = false});
  return value.estimated() ? "(" + text + ")" : text;
}

// The pieces at one to a whole number, whose names can be read there.
void add_nest(Document& page, const std::vector<SizedPattern>& sizes, const Words& words) {
  const auto scale_for = [&](double text_mm) {
    const Rect box = draw_nest(sizes, words, text_mm).bounds;
    return std::max(1.0, std::ceil(std::max(box.width() / kWide, box.height() / kHigh)));
  };
  const double scale = scale_for(kText * scale_for(kText));
  page.heading(2, words("sizes.nest"));
  page.paragraph(words("sizes.nest-note"));
  page.drawing(scaled(draw_nest(sizes, words, kText * scale), 1.0 / scale));
}

}  // namespace

void write_size_table(Document& page, const Ticket& ticket, const std::vector<SizedPattern>& sizes,
                      const Words& words) {
  page.open_table(true);
  std::vector<std::string> cells = {words("sizes.measure") + ", " +
                                    words(ticket.unit == Unit::Inch ? "unit.in" : "unit.cm")};
  for (const SizedPattern& size : sizes) cells.push_back(size.name);
  page.row(cells);
  const std::vector<Measure> wanted = measures_of(style_of(ticket), ticket.choices);
  for (const MeasureInfo& measure : measure_table()) {
    const auto value = [&](const SizedPattern& size) -> const Value& {
      return size.pattern.body.of(measure.measure);
    };
    const bool read = std::any_of(sizes.begin(), sizes.end(),
                                  [&](const auto& size) { return !value(size).estimated(); });
    if (!read && std::find(wanted.begin(), wanted.end(), measure.measure) == wanted.end()) continue;
    cells = {words("measure." + std::string(measure.id))};
    for (const SizedPattern& size : sizes) {
      cells.push_back(as_measured(value(size), measure, ticket));
    }
    page.row(cells);
  }
  page.paragraph(words("sizes.brackets"));
}

Document sizes_sheet(const Ticket& ticket, const std::vector<SizedPattern>& sizes,
                     const Words& words, const std::string& date) {
  const std::string title = words("sizes.title", {title_of(ticket, words)});
  Document page(title);
  page.heading(1, title);
  if (!date.empty()) page.paragraph(date);
  page.paragraph(words("sizes.intro", {std::to_string(sizes.size())}));
  write_size_table(page, ticket, sizes, words);
  add_nest(page, sizes, words);
  return page;
}

}  // namespace coatwright
