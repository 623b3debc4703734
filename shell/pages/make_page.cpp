#include "shell/pages/make_page.h"

#include <algorithm>
#include <optional>

#include "core/draw/pattern_drawing.h"
#include "core/make/shopping.h"
#include "core/make/thread.h"
#include "core/sheet/page_blocks.h"
#include "shell/pages/document.h"
#include "shell/words/shopping_words.h"
#include "shell/words/step_words.h"
#include "shell/words/ticket_words.h"

namespace coatwright {
namespace {

// Of the sketches, mm.
constexpr SketchRoom kRoom{.beside = 50.0, .across = 165.0};

void write_cut_list(Document& page, const Pattern& pattern, const LengthStyle& lengths,
                    const Words& words) {
  page.heading(2, words("make.pieces"));
  page.open_list(ListKind::Boxes);
  for (const PieceSketch& piece : sketch_pieces(pattern.cut, false, true)) {
    std::string line = words("piece." + piece.id);
    const char* joint = ": ";
    for (const std::string& count : cut_counts(piece, words)) {
      line += joint + count;
      joint = "; ";
    }
    page.item(line);
  }
  if (const auto& strips = pattern.cut.binding) {
    page.item(words("make.strips",
                    {words(std::string("piece.") + kBindingStrips), std::to_string(strips->count),
                     strip_width(strips->width_mm, lengths.unit),
                     format_length(Length::mm(strips->length_mm), lengths)}));
  }
  page.drawing(sketch_all(pattern.cut, kRoom.across, words));
}

std::string joined(const std::vector<std::string>& all, const char* between) {
  std::string out;
  for (const std::string& one : all) {
    if (!one.empty()) out += (out.empty() ? "" : between) + one;
  }
  return out;
}

// What is done and why; below it how the work stands before and after it, what is needed, and where.
void write_step(Document& page, const Operation& step, const Standing& standing,
                const Ticket& ticket, const Pattern& pattern, const Words& words) {
  const LengthStyle lengths{.unit = ticket.unit};
  StepSketch sketch = sketch_step(pattern.draft, pattern.cut, step, kRoom, words);
  page.item(words("step." + step.id + ".name") + ". " + how_of(step, lengths, words),
            ticket.done.contains(step.id));
  std::string need = joined(needs_of(pattern.draft, step, ticket.unit, words), "; ");
  if (!need.empty()) need = words("make.with", {need});
  std::vector<std::string> places = places_of(pattern, step, sketch, lengths, words);
  if (const char* seam = seam_of(step.deed)) places.push_back(words(std::string("seam.") + seam));
  const std::string place = places.empty() ? "" : joined(places, ". ") + ".";
  const std::string why = words("make.why", {why_of(step, words)});
  for (const std::string& line : {joined({before_of(standing, sketch, words), need}, " "), place,
                                  joined({after_of(standing, sketch, words), why}, " ")}) {
    if (!line.empty()) page.line(line);
  }
  page.beside(std::move(sketch.drawing));
}

void write_steps(Document& page, const Ticket& ticket, const Pattern& pattern, const Words& words) {
  std::optional<Stage> stage;
  const Plan plan = plan_of(ticket, pattern.draft);
  const std::string unsound = told_unsound(pattern.draft, plan, words);
  if (!unsound.empty()) page.paragraph(unsound);
  const std::vector<Standing> all = standings(pattern.draft, plan.operations);
  for (size_t i = 0; i < plan.operations.size(); ++i) {
    const Operation& step = plan.operations[i];
    if (step.stage != stage) {
      page.heading(3, words(std::string("stage.") + stage_id(step.stage)));
      page.open_list(ListKind::Boxes);
      stage = step.stage;
    }
    write_step(page, step, all[i], ticket, pattern, words);
  }
}

}  // namespace

Document make_sheet(const Ticket& ticket, const Pattern& pattern, const Words& words,
                    const std::string& date) {
  Document page(title_of(ticket, words));
  page.heading(1, title_of(ticket, words));
  page.paragraph(date.empty() ? words("make.title") : words("make.title") + " \u00B7 " + date);
  page.heading(2, words("cover.cautions"));
  page.open_list(ListKind::Plain);
  for (const char* key : kCautions) page.item(words(key));
  const std::string cut_again = to_cut_again(ticket, pattern, words);
  if (!cut_again.empty()) page.paragraph(cut_again);
  write_cut_list(page, pattern, {.unit = ticket.unit}, words);
  page.heading(2, words("make.steps"));
  const std::string cloth = needle_for(pattern.draft, cloths_of(ticket));
  const Operations& steps = pattern.draft.operations;
  const bool hems = cloth == "fleece" && std::any_of(steps.begin(), steps.end(), [](const auto& o) {
                      return o.deed == Deed::Hem;
                    });
  const std::string stitch = words("stitch." + cloth);
  page.paragraph(words("make.sides") + " " + words("make.sketches"));
  page.paragraph(words("make.machine", {words("needle." + cloth),
                                        hems ? words("make.in-hems", {stitch}) : stitch}) +
                 " " + words(cloth == "laminate" ? "make.ends-laminate" : "make.ends"));
  write_steps(page, ticket, pattern, words);
  return page;
}

}  // namespace coatwright
