#include "shell/make/panel.h"

#include <algorithm>
#include <utility>

#include "core/make/course.h"
#include "core/make/cut_record.h"
#include "core/sheet/page_blocks.h"
#include "shell/kit/form_keys.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"
#include "shell/words/shopping_words.h"
#include "shell/words/step_words.h"

namespace coatwright::studio {
namespace {

constexpr float kTickRoom = kTarget;

std::string of_all(const Frame& f, int done, int all) {
  return f.words("ui.make-of", {std::to_string(done), std::to_string(all)});
}

// How far the whole work is.
void progress(Frame& f, Columns& flow, const std::vector<StageCourse>& course) {
  const int done = done_steps(course), all = all_steps(course);
  const std::string words =
      f.words("ui.make-progress", {std::to_string(done), std::to_string(all)});
  const Box row = flow.across(36.0F);
  f.paint.text({row.x, row.y + 11.0F}, words, kBody, f.colours.ink);
  const Box bar{row.x, row.y + 25.0F, row.w, 8.0F};
  f.paint.fill(bar, f.colours.slider_rest, 4.0F);
  const float share = static_cast<float>(done) / static_cast<float>(std::max(1, all));
  f.paint.fill({bar.x, bar.y, bar.w * share, bar.h}, f.colours.fir, 4.0F);
  f.ui.add({.id = "make.progress", .role = ControlRole::Status, .name = words, .box = row});
}

// Shows or hides the steps of a stage.
void open_stage(Frame& f, std::optional<Stage> stage) {
  f.view.make.begun = true;
  f.view.make.stage = stage;
  f.view.make.step.clear();
}

bool stage_head(Frame& f, Columns& flow, const StageCourse& stage) {
  const bool unfolded = f.view.make.stage == stage.stage;
  const std::string id = std::string("stage.") + stage_id(stage.stage);
  const std::string name = f.words(id), count = of_all(f, stage.done, stage.count());
  if (fold_line(f, flow.across(kTarget),
                {.id = id,
                 .name = name,
                 .value = count,
                 .unfolded = unfolded,
                 .written = stage.whole() ? "✓ " + count : "",
                 .type = kStrong,
                 .ink = stage.whole() ? f.colours.fir : f.colours.ink})) {
    open_stage(f, unfolded ? std::nullopt : std::optional(stage.stage));
  }
  return unfolded;
}

void need(Frame& f, Columns& flow, const ShoppingRow& row, const std::string& id) {
  const float amount = text_width(row.amount, kStrong) + 14.0F, w = flow.width();
  const std::string ware = row.note.empty() ? row.ware : row.ware + " (" + row.note + ")";
  const float height = paragraph_height(ware, w - amount, kBody);
  const Box box = flow.across(height + 2.0F);
  f.paint.paragraph({box.x, box.y}, w - amount, ware, kBody, f.colours.ink);
  f.paint.text({box.right(), box.y + 0.5F * line_step(kStrong)}, row.amount, kStrong, f.colours.ink,
               Align::End);
  words_at(f, id, box, ware + ": " + row.amount);
}

// What the stage needs beside the pieces, where it is needed: cloth where it is cut or fused,
// thread and needle where sewing begins, and what single steps use.
void needs(Frame& f, Columns& flow, const StageCourse& stage, bool sewing) {
  const Draft& draft = f.derived.pattern->draft;
  const std::vector<LaidCloth> cloths = f.lay.whole() ? f.lay.laid() : std::vector<LaidCloth>{};
  std::vector<ShoppingRow> rows;
  if (stage.stage == Stage::Cut) rows = cloth_rows(f.ticket, cloths, f.words);
  if (sewing) {
    const LaidCoats coat = {{.key = {}, .ticket = &f.ticket, .draft = &draft}};
    for (ShoppingRow& row : thread_rows(coat, f.words)) rows.push_back(std::move(row));
  }
  for (const Operation& step : stage.steps) {
    for (const Notion& n : notions_at(draft, step)) {
      rows.push_back(notion_row(n, f.ticket.unit, f.words));
    }
  }
  if (rows.empty() && stage.stage != Stage::Cut) return;
  const Box head = flow.across(24.0F);
  const std::string needed = f.words("ui.make-needed");
  f.paint.text({head.x, head.centre().y}, needed, kStrong, f.colours.soft);
  words_at(f, "make.needed", head, needed);
  int number = 0;
  for (const ShoppingRow& row : rows) {
    need(f, flow, row, "need." + std::string(stage_id(stage.stage)) + std::to_string(number++));
  }
  if (stage.stage == Stage::Cut && cloths.empty()) {
    paragraph(f, flow, "make.cloth", f.words("ui.make-cloth"), true);
  }
}

// Where a coat is tried on the dog: the trial coat, and the finished one. They stand below the steps,
// which name at once what can hurt at each.
void cautions(Frame& f, Columns& flow, Stage stage) {
  if (stage != Stage::Prepare && stage != Stage::Try) return;
  constexpr float kPad = 14.0F, kBullet = 16.0F, kApart = 6.0F;
  const float w = flow.width() - 2.0F * kPad - kBullet, title = line_step(kStrong) + kApart;
  float height = 2.0F * kPad + title - kApart;
  for (const char* key : kCautions) height += paragraph_height(f.words(key), w, kBody) + kApart;
  const Box box = flow.across(height);
  f.paint.fill(box, f.colours.chalk_wash, 12.0F);
  float y = box.y + kPad;
  heading(f, "make.cautions", {box.x + kPad, y + 0.5F * line_step(kStrong)},
          f.words("cover.cautions"), kStrong);
  y += title;
  for (const char* key : kCautions) {
    const std::string words = f.words(key);
    const Box line{box.x + kPad + kBullet, y, w, paragraph_height(words, w, kBody)};
    f.paint.disc({line.x - 10.0F, y + 0.5F * line_step(kBody)}, 2.5F, f.colours.chalk_text);
    f.paint.paragraph({line.x, line.y}, line.w, words, kBody, f.colours.ink);
    words_at(f, key, line, words);
    y += line.h + kApart;
  }
}

// A tick, and beside it the step: touched, it says
// its numbers and the board shows what it is about.
void one_step(Frame& f, Columns& flow, const Operation& step, const Box& sheet) {
  const bool done = f.ticket.done.contains(step.id), shown = f.view.make.step == step.id;
  const std::string name = f.words("step." + step.id + ".name"),
                    how = how_of(step, f.lengths(), f.words);
  std::vector<std::string> numbers;
  if (shown) {
    numbers = numbers_of(*f.derived.pattern, step, f.lengths(), f.words);
    numbers.insert(numbers.begin(), why_of(step, f.words));
  }
  const float w = flow.width() - kTickRoom - 8.0F;
  float height = 12.0F + line_step(kStrong) + paragraph_height(how, w, kBody);
  for (const std::string& line : numbers) height += 6.0F + paragraph_height(line, w, kBody);
  const Box box = flow.across(std::max(kTarget, height));
  const Box text{box.x + kTickRoom, box.y, box.w - kTickRoom, box.h};
  if (shown) f.paint.fill(box.inset(-6.0F, 0.0F), f.colours.card, 10.0F);

  const std::string id = "step." + step.id;
  std::string value;
  for (const std::string& line : numbers) value += (value.empty() ? "" : ". ") + line;
  if (tick_box(f, "tick." + step.id, {box.x, box.y, kTickRoom, kTarget},
               f.words("ui.make-tick", {name}), done, false)) {
    f.commands.push_back(
        TickStep{.step = step.id,
                 .done = !done,
                 .cut = step.id == kCutStep ? cut_record(f.derived.pattern->cut) : CutRecord{}});
  }
  f.ui.add({.id = id,
            .role = ControlRole::Toggle,
            .name = name,
            .value = value,
            .box = text,
            .note = how,
            .chosen = shown});
  if (f.ui.pressed == id) f.paint.fill(text, f.colours.card, 10.0F);
  float y = text.y + 6.0F;
  f.paint.text({text.x, y + 0.5F * line_step(kStrong)}, name, kStrong,
               done ? f.colours.fir : f.colours.ink);
  y += line_step(kStrong);
  f.paint.paragraph({text.x, y}, w, how, kBody, done ? f.colours.soft : f.colours.ink);
  y += paragraph_height(how, w, kBody);
  for (const std::string& line : numbers) {
    y += 6.0F;
    f.paint.paragraph({text.x, y}, w, line, kBody, f.colours.chalk_text);
    y += paragraph_height(line, w, kBody);
  }
  if (shown) reveal(f, step.id, "sheet.make", box, sheet);
  if (f.ui.acted(id)) f.view.make.step = shown ? "" : step.id;
}

void go_on(Frame& f, Columns& flow, Stage next) {
  const std::string name = f.words(std::string("stage.") + stage_id(next));
  if (!button(f, "make.next", flow.across(kTarget), f.words("ui.make-next", {name}))) return;
  open_stage(f, next);
  f.view.scrolls["sheet.make"] = 0.0F;
}

void stage_steps(Frame& f, Columns& flow, const std::vector<StageCourse>& course, size_t at,
                 const Box& sheet) {
  const StageCourse& stage = course[at];
  needs(f, flow, stage, sewing_begins(course, stage.stage));
  for (const Operation& step : stage.steps) one_step(f, flow, step, sheet);
  if (stage.whole() && at + 1 < course.size()) go_on(f, flow, course[at + 1].stage);
  cautions(f, flow, stage.stage);
}

// The work goes on at the first stage that is not done.
void begin(Frame& f, const std::vector<StageCourse>& course) {
  if (f.view.make.begun) return;
  const auto next =
      std::find_if(course.begin(), course.end(), [](const StageCourse& s) { return !s.whole(); });
  open_stage(f, next == course.end() ? std::nullopt : std::optional(next->stage));
}

float content(Frame& f, const Box& box, const Box& sheet) {
  Columns flow(box, box.w, 8.0F);
  const Box title = flow.across(30.0F);
  heading(f, "make.title", {title.x, title.centre().y}, f.words("ui.make-title"));
  status_row(f, flow);
  if (!f.derived.pattern || f.derived.stale) {
    refusal_sentence(f, flow);
    return flow.height();
  }
  const auto course = course_of(f.derived.work, f.ticket.done);
  begin(f, course);
  progress(f, flow, course);
  if (!f.derived.unsound.empty()) sentence(f, flow, "make.unsound", f.derived.unsound, true);
  const std::string cut_again = to_cut_again(f.ticket, *f.derived.pattern, f.words);
  if (!cut_again.empty()) sentence(f, flow, "make.cut-again", cut_again, true);
  for (size_t i = 0; i < course.size(); ++i) {
    if (stage_head(f, flow, course[i])) stage_steps(f, flow, course, i, sheet);
  }
  form_key(f, flow.across(kTarget),
           {"print.make", Form::MakeHtml, "ui.print-make", FormUse::Print});
  press_row(f, flow);
  return flow.height();
}

}  // namespace

void make_sheet(Frame& f, const Box& box) {
  scrolled(f, "sheet.make", box,
           [&](const Box& inner) { return content(f, sheet_content(f, inner), box) + kSheetPad; });
}

}  // namespace coatwright::studio
