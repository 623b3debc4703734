#include "shell/lay/panel.h"

#include <algorithm>
#include <cmath>

#include "shell/desk/outputs.h"
#include "shell/kit/form_keys.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"
#include "shell/lay/by_hand.h"
#include "shell/lay/cloth_panel.h"
#include "shell/lay/company_panel.h"
#include "shell/lay/quote_panel.h"
#include "shell/words/shopping_words.h"

namespace coatwright::studio {
namespace {

size_t count_strips(const Lamination& plan) {
  size_t count = 0;
  for (const LaminateBlank& blank : plan.blanks) count += blank.strips.size();
  return count;
}

std::string view_name(const Frame& f, const LayView& view) {
  const LayJob& job = f.lay.jobs()[view.job];
  return view.lamination ? f.words("ui.lay-fuse") : lay_title(job.laid.lay, f.words);
}

// A lay to be looked at: its name, and how long it is.
void view_key(Frame& f, Columns& flow, const LayView& view, int number, bool chosen) {
  const LayJob& job = f.lay.jobs()[view.job];
  const std::string value =
      job.refusal                            ? f.words("ui.lay-refused")
      : job.hand_refusal && !view.lamination ? f.words("ui.lay-amiss")
      : view.lamination
          ? f.words("ui.lay-strips", {std::to_string(count_strips(*job.laid.lamination))})
          : f.length(job.laid.lay.length_mm);
  const RowOption row{
      .id = "lay.view." + std::to_string(number),
      .group = f.words("ui.lays"),
      .name = view_name(f, view),
      .value = value,
      .chosen = chosen,
      .wrong = job.refusal.has_value() || (job.hand_refusal.has_value() && !view.lamination)};
  if (row_option(f, flow.next(kTarget), row)) {
    f.view.lay.view = static_cast<size_t>(number);
    f.view.lay.touched = -1;
    f.view.lay.grip.reset();
    f.view.board().fitted = true;
  }
}

struct Figure {
  std::string id, name;
};
void figure(Frame& f, Columns& flow, const Figure& what, const std::string& value) {
  const Box row = flow.next(24.0F);
  const auto& [id, name] = what;
  const float wide =
      f.paint.text({row.right(), row.centre().y}, value, kStrong, f.colours.ink, Align::End);
  f.paint.clipped_text({row.x, row.centre().y}, row.w - wide - 12.0F, name, kBody, f.colours.ink);
  words_at(f, id, row, name + ": " + value);
}
void figure(Frame& f, Columns& flow, const std::string& key, const std::string& value) {
  figure(f, flow, {.id = key, .name = f.words(key)}, value);
}

// How large a blank is.
void blank_figure(Frame& f, Columns& flow, const Lay& lay, const LaminateBlank& blank) {
  const std::string name = f.words("ui.lay-blank", {laid_name(f, lay.pieces[blank.piece])});
  figure(f, flow, {.id = "lay.blank." + std::to_string(blank.piece), .name = name},
         f.length(blank.area.width()) + " × " + f.length(blank.area.height()));
}

// A leftover as a rest on the shelf: it has no selvage, and is no longer or wider than it is.
RackCommand rest_to_keep(const Frame& f, const Lay& lay, const Rect& r) {
  Cloth rest = lay.cloth;
  rest.name = f.words("ui.lay-rest-name", {cloth_title(lay.cloth, f.words), rest_words(f, r)});
  rest.width_mm = whole_steps(r.height(), f.lengths());
  rest.rest_mm = whole_steps(r.width(), f.lengths());
  rest.selvage_mm = 0.0;
  return {.deed = RackDeed::Shelve, .cloth = std::move(rest)};
}

std::string percent(double share) { return std::to_string(std::lround(100.0 * share)) + " %"; }

// How far the search is, and the key that goes on with it or stops it.
void search_row(Frame& f, Columns& flow) {
  const bool busy = f.lay.busy();
  const Box row = flow.across(kTarget);
  const std::string words = f.words(busy ? "ui.lay-stop" : "ui.lay-improve");
  const float wide = std::max(120.0F, text_width(words, kStrong) + 40.0F);
  const Box key{row.right() - wide, row.y, wide, row.h};
  if (button(f, busy ? "lay.stop" : "lay.improve", key, words,
             {.enabled = busy || f.lay.improvable()})) {
    if (busy) {
      f.lay.stop();
    } else {
      f.lay.improve();
    }
    f.again = true;
  }
  const Box bar{row.x, row.centre().y + 10.0F, row.w - wide - 16.0F, 8.0F};
  const double progress = f.lay.progress();
  const std::string state =
      busy ? f.words("ui.lay-searching", {percent(progress)}) : f.words("ui.lay-found");
  f.paint.clipped_text({row.x, row.centre().y - 8.0F}, bar.w, state, kBody, f.colours.ink);
  f.paint.fill(bar, f.colours.slider_rest, 4.0F);
  f.paint.fill({bar.x, bar.y, bar.w * static_cast<float>(progress), bar.h},
               busy ? f.colours.slider : f.colours.fir, 4.0F);
  f.ui.add({.id = "lay.progress",
            .role = busy ? ControlRole::Words : ControlRole::Status,
            .name = state,
            .box = {row.x, row.y, bar.w, row.h}});
}

void lay_figures(Frame& f, Columns& flow, const LayView& view) {
  const LayJob& job = f.lay.jobs()[view.job];
  const Lay& lay = job.laid.lay;
  if (job.refusal) return;  // the board says why
  if (job.lamination_refusal) {
    const std::string words = sentence_of(f, *job.lamination_refusal);
    sentence(f, flow, "lay.refusal", words, true);
  }
  if (view.lamination && job.laid.lamination) {
    const Lamination& plan = *job.laid.lamination;
    for (const LaminateBlank& blank : plan.blanks) blank_figure(f, flow, lay, blank);
    figure(f, flow, "ui.lay-lap", f.length(kLaminateLap));
    figure(f, flow, "ui.lay-roll", f.length(plan.roll_mm));
    aside(f, flow, "lay.how", how_to_fuse(lay, f.lengths(), f.words));
    return;
  }
  figure(f, flow, "ui.lay-length", f.length(lay.length_mm));
  for (const ClothLine& line : cloth_to_buy(f.lay.laid(), f.ticket.unit)) {
    if (line.cloth.use != lay.cloth.use) continue;
    if (line.cloth.rest_mm <= 0.0) {
      figure(f, flow, "ui.lay-buy", yardage(line.to_buy_mm, f.ticket.unit, f.words));
    } else {
      const std::string words = rest_answer(line, f.ticket.unit, f.words);
      sentence(f, flow, "lay.rest", words, line.lacks_mm > 0.0);
    }
  }
  figure(f, flow, "ui.lay-used", percent(lay.efficiency()));
  if (!job.by_hand() && !job.improvable()) {
    aside(f, flow, "lay.shortest", f.words("ui.lay-shortest"));
  }
  for (size_t i = 0; i < job.laid.left_over.size(); ++i) {
    figure(f, flow, i == 0 ? "ui.lay-left" : "ui.lay-left-more",
           rest_words(f, job.laid.left_over[i]));
  }
  if (!job.laid.left_over.empty() &&
      button(f, "lay.keep-rests", flow.across(kTarget), f.words("ui.lay-keep-rests"))) {
    for (const Rect& r : job.laid.left_over) f.rack_commands.push_back(rest_to_keep(f, lay, r));
  }
  const auto how = how_to_lay(lay, f.lengths(), f.words);
  for (size_t i = 0; i < how.size(); ++i) aside(f, flow, "lay.how." + std::to_string(i), how[i]);
}

// The diagrams with the list, or the list alone.
void outputs(Frame& f, Columns& flow, bool list) {
  const bool ready = f.lay.whole();
  const Coats coats = [&f] { return laid_texts(f.ticket, f.lay); };
  FormChoices choices;
  choices.left_out = left_out_of(f);
  for (const LayJob& job : f.lay.jobs()) {
    if (job.by_hand()) choices.by_hand.push_back(lay_key(job.order.use, job.order.laminated));
  }
  press_row(f, flow);
  form_key(f, flow.across(54.0F),
           {"print.lay",
            Form::LayHtml,
            "ui.print-lay",
            FormUse::Print,
            {.look = Look::Solid, .type = kLarge, .enabled = ready}},
           coats, choices);
  const Box row = flow.across(kTarget);
  const int keys = list ? 2 : 1;
  form_key(f, row.column(0, keys, 8.0F),
           {"save.lay", Form::LayPdf, "ui.save-lay", FormUse::Save, {.enabled = ready}}, coats,
           choices);
  if (!list) return;
  form_key(f, row.column(1, keys, 8.0F),
           {"save.list", Form::ShoppingPdf, "ui.save-list", FormUse::Save, {.enabled = ready}},
           coats, choices);
}

void lays(Frame& f, Columns& flow) {
  const auto views = f.lay.views();
  const std::optional<LayView> view = looked_at(f);
  for (size_t i = 0; i < views.size(); ++i) {
    view_key(f, flow, views[i], static_cast<int>(i), view == views[i]);
  }
  if (view) piece_controls(f, flow, *view);
  if (view) hand_lay_controls(f, flow, f.lay.jobs()[view->job]);
  search_row(f, flow);
  if (view) lay_figures(f, flow, *view);
  company_controls(f, flow);
  outputs(f, flow, false);
}

void shopping_row(Frame& f, Columns& flow, const ShoppingRow& row, int number) {
  const float amount = text_width(row.amount, kStrong) + 14.0F;
  const float w = flow.column_width();
  const float head = paragraph_height(row.ware, w - amount, kStrong);
  const float note = row.note.empty() ? 0.0F : paragraph_height(row.note, w, kBody);
  const Box box = flow.next(head + note + 12.0F);
  f.paint.paragraph({box.x, box.y}, box.w - amount, row.ware, kStrong, f.colours.ink);
  f.paint.text({box.right(), box.y + 0.5F * line_step(kStrong)}, row.amount, kStrong, f.colours.ink,
               Align::End);
  if (note > 0.0F) f.paint.paragraph({box.x, box.y + head}, box.w, row.note, kBody, f.colours.soft);
  f.paint.line({box.x, box.bottom() - 1.0F}, {box.right(), box.bottom() - 1.0F},
               f.colours.paper_line, 1.0F);
  f.ui.add({.id = "shop." + std::to_string(number),
            .role = ControlRole::Words,
            .name = row.ware + ": " + row.amount + (row.note.empty() ? "" : ". " + row.note),
            .box = box});
}

// That the list and the lay are not of all coats, where that is so.
void company_left_out(Frame& f, Columns& flow) {
  std::string coats;
  for (const LeftOut& one : left_out_of(f)) coats += (coats.empty() ? "" : "; ") + one.coat;
  if (coats.empty()) return;
  sentence(f, flow, "lay.left-out", f.words("ui.lay-left-out", {coats}), true);
}

void shopping(Frame& f, Columns& flow) {
  if (!f.lay.whole()) {
    const std::string words = f.words("ui.lay-not-whole");
    sentence(f, flow, "lay.not-whole", words, true);
  }
  company_left_out(f, flow);
  int number = 0;
  const auto rows = shopping_rows(coats_of(f), f.lay.laid(), f.words);
  for (const ShoppingRow& row : rows) shopping_row(f, flow, row, number++);
  outputs(f, flow, true);
}

float content(Frame& f, const Box& box) {
  Columns flow(box, 300.0F, 8.0F);
  const Box title = flow.across(30.0F);
  heading(f, "lay.title", {title.x, title.centre().y}, f.words("ui.lay-title"));
  status_row(f, flow);
  if (!f.derived.pattern || f.derived.stale) {
    refusal_sentence(f, flow);
    return flow.height();
  }
  const std::vector<std::string> tabs = {f.words("ui.lay-tab-lay"), f.words("ui.lay-tab-cloth"),
                                         f.words("ui.lay-tab-buy"), f.words("ui.lay-tab-quote")};
  const int picked =
      options(f, "lay.tab", flow.across(kTarget), f.words("ui.lay-tabs"), tabs, f.view.lay.tab);
  if (picked >= 0) {
    f.view.lay.tab = picked;
    f.view.scrolls["sheet.lay"] = 0.0F;
  }
  if (f.view.lay.tab == 0) lays(f, flow);
  if (f.view.lay.tab == 1) cloth_controls(f, flow);
  if (f.view.lay.tab == 2) shopping(f, flow);
  if (f.view.lay.tab == 3) quote_controls(f, flow);
  return flow.height();
}

}  // namespace

std::string rest_words(const Frame& f, const Rect& r) {
  const auto room = [&](double mm) { return f.length(whole_steps(mm, f.lengths())); };
  return room(r.width()) + " × " + room(r.height());
}

std::optional<LayView> looked_at(const Frame& f) {
  const auto views = f.lay.views();
  if (views.empty()) return std::nullopt;
  return views[std::min(f.view.lay.view, views.size() - 1)];
}

void lay_sheet(Frame& f, const Box& box) {
  scrolled(f, "sheet.lay", box,
           [&](const Box& inner) { return content(f, sheet_content(f, inner)) + kSheetPad; });
}

}  // namespace coatwright::studio
