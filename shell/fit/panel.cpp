#include "shell/fit/panel.h"

#include <algorithm>
#include <cmath>

#include "core/fit/photograph.h"
#include "core/ticket/ids.h"
#include "shell/kit/entry.h"
#include "shell/kit/form_keys.h"
#include "shell/kit/keypad.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"
#include "shell/words/say.h"

namespace coatwright::studio {
namespace {

std::string words_of(const Frame& f, FitPlace place) {
  return f.words(std::string("place.") + id_of(place));
}
std::string words_of(const Frame& f, FitKind kind) {
  return f.words(std::string("seen.") + id_of(kind));
}
// What answers a note, and by how much, on a dog that has grown since; empty: this style has no answer.
std::string answer_words(const Frame& f, const FitNote& note, double growth = 1.0) {
  const auto answer = answer_to(note.place, note.kind, style_of(f.ticket));
  if (!answer) return {};
  return f.words(std::string("trace.alter.") + info(answer->alter).id +
                     (answer->sense > 0 ? ".more" : ".less"),
                 {f.length(growth * note.amount())});
}
// What answers a note of this fitting now, or what tells it better.
std::string answer_words(const Frame& f, const Fitting& fitting, const FitNote& note) {
  const auto now = readings_of(f.derived.tape);
  const auto answer = answer_to(note.place, note.kind, style_of(f.ticket));
  const auto anew = answer ? retired_by(fitting, answer->alter, now) : std::nullopt;
  if (anew) return f.words("ui.fit-retired", {name_of(info(*anew).id, f.words)});
  return answer_words(f, note, growth_since(fitting, now));
}

bool is_about_fit(Code code) {
  return code == Code::NotesConflict || code == Code::NotesMeanReading ||
         code == Code::AlterationLimited || code == Code::AlterationRetired ||
         code == Code::NotesGrown || code == Code::AlterationIdle;
}

// What the notes ask for as the dog's own reading, from which every style starts. Its notes are done
// with by that.
void read_as_key(Frame& f, Columns& flow, const Problem& told) {
  const auto measure = measure_by_id(told.subject);
  if (!measure) return;
  const std::string text = f.length(told.values[1]);
  const std::string name = f.words(std::string("measure.") + info(*measure).id);
  if (button(f, std::string("fit.read-as.") + info(*measure).id, flow.across(kTarget),
             f.words("ui.fit-read-as", {name, text}))) {
    f.commands.push_back(ReadAs{*measure, text, f.today.month});
  }
}

// What is told of the notes and what they come to: what is to be checked, or what is worth knowing.
void told_of_fit(Frame& f, Columns& flow, const Findings& findings, bool checks) {
  int number = 0;
  for (const Finding& finding : findings) {
    if (!is_about_fit(finding.what.code) || (finding.level != Level::Note) != checks) continue;
    sentence(f, flow, (checks ? "fit.told." : "fit.known.") + std::to_string(number++),
             sentence_of(f, finding.what), checks);
    if (finding.what.code == Code::NotesMeanReading) read_as_key(f, flow, finding.what);
  }
}

// The lines that come out longer, shorter or elsewhere.
void changes(Frame& f, Columns& flow) {
  const auto& c = f.derived.comparison;
  if (!c || c->refusal) return;
  for (const EdgeChange& change : c->changes) {
    const std::string name = name_of(change.edge, f.words);
    const std::string now = f.length(change.after_mm), was = f.length(change.before_mm);
    if (now == was && f.length(change.moved_mm) == f.length(0.0)) continue;  // not to be seen
    const std::string value =
        now == was ? f.words("ui.fit-moved", {f.length(change.moved_mm)}) : was + " → " + now;
    const Box row = flow.across(24.0F);
    const float width =
        f.paint.text({row.right(), row.centre().y}, value, kStrong, f.colours.ink, Align::End);
    f.paint.clipped_text({row.x, row.centre().y}, row.w - width - 10.0F, name, kBody,
                         f.colours.ink);
    words_at(f, "change.row." + change.edge, row, name + ": " + value);
  }
}

// ---- the fittings ---------------------------------------------------------------------------------

// The note's number, as on its pin: chosen, the note is pinned where the picture is touched. One that
// has no pin yet gets it in the middle, from where it is moved by keys too.
void pin_key(Frame& f, const Box& box, size_t at, const std::string& said) {
  FitLook& look = f.view.fit;
  const std::string number = std::to_string(at + 1);
  const bool on = look.pin == at;
  if (!button(f, "pinned." + number, box, number,
              {.chosen = on,
               .role = ControlRole::Toggle,
               .name = f.words("ui.photo-pin", {number, said})})) {
    return;
  }
  look.pin = on ? std::nullopt : std::optional(at);
  if (on || pin_of(*photograph_seen(f), at) != nullptr) return;
  f.commands.push_back(SetPin{*look.fitting, *look.photo, at, PhotoPin{at, 0.5, 0.5}});
  f.view.focus_on = "photo.pin." + number;
}

void one_note(Frame& f, Columns& flow, size_t fitting, size_t at) {
  const Fitting& its = f.ticket.fittings[fitting];
  const FitNote& note = its.notes[at];
  const std::string said = note_words(f, note), answer = answer_words(f, its, note);
  const bool pins = photograph_seen(f) != nullptr;
  const float left = pins ? kTarget + 8.0F : 0.0F;
  const float w = flow.width() - left - kTarget - 6.0F;
  const float height =
      10.0F + paragraph_height(said, w, kStrong) + paragraph_height(answer, w, kBody);
  const Box row = flow.across(std::max(kTarget, height));
  if (pins) pin_key(f, {row.x, row.y, kTarget, kTarget}, at, said);
  const Box box = row.after(left);
  f.paint.paragraph({box.x, box.y + 4.0F}, w, said, kStrong, f.colours.ink);
  f.paint.paragraph({box.x, box.y + 4.0F + paragraph_height(said, w, kStrong)}, w, answer, kBody,
                    f.colours.soft);
  const std::string id = "note." + std::to_string(fitting) + "." + std::to_string(at);
  words_at(f, id, box.left(w), said + ". " + answer);
  const Box take{box.right() - kTarget, box.y, kTarget, kTarget};
  if (button(f, id + ".remove", take, "×",
             {.look = Look::Quiet, .type = kTitle, .name = f.words("ui.fit-take-back", {said})})) {
    f.view.fit.pin.reset();
    f.commands.push_back(RemoveFitNote{fitting, at});
  }
}

std::string date_words(const FitDate& d) {
  char text[40];
  std::snprintf(text, sizeof text, "%04d-%02d-%02d", d.year, d.month, d.day);
  return text;
}

std::string fitting_name(const Frame& f, size_t at) {
  return f.words("ui.fitting-number", {std::to_string(at + 1)});
}

// The readings that it was based on: those that read otherwise by now, and on the next coat's ticket
// those that were not taken again.
std::string based_words(const Frame& f, const Fitting& fitting) {
  std::string out;
  const auto readings = readings_of(f.derived.tape);
  for (const MeasureInfo& m : measure_table()) {
    const double was = fitting.based_on[static_cast<size_t>(m.measure)],
                 now = readings[static_cast<size_t>(m.measure)];
    const bool taken = now != 0.0 && !f.ticket.carried[static_cast<size_t>(m.measure)];
    const bool same = std::abs(was - now) <= kSameReading;
    if (was == 0.0 || (same && taken)) continue;
    const std::string name = name_of(m.id, f.words), then = f.length(was);
    if (!out.empty()) out += ", ";
    out += taken ? f.words("ui.fitting-read", {name, then, f.length(now)}) : name + " " + then;
  }
  return out.empty() ? out : f.words("ui.fitting-based", {out});
}

void look_at_photo(Frame& f, std::optional<size_t> photo) {
  f.view.fit.photo = photo;
  f.view.fit.pin.reset();
  f.photos.forget();
  if (photo) f.view.fit.compared.reset();
}

bool fitting_head(Frame& f, Columns& flow, size_t at) {
  const Fitting& fitting = f.ticket.fittings[at];
  const bool unfolded = f.view.fit.fitting == at;
  const std::string id = "fitting." + std::to_string(at), name = fitting_name(f, at);
  std::string value = f.words("ui.fit-notes", {std::to_string(fitting.notes.size())});
  if (fitting.date) value = date_words(*fitting.date) + ", " + value;
  if (fold_line(f, flow.across(kTarget),
                {.id = id, .name = name, .value = value, .unfolded = unfolded})) {
    f.view.fit.fitting = unfolded ? std::nullopt : std::optional(at);
    f.view.fit.compared.reset();
    look_at_photo(f, std::nullopt);
  }
  return unfolded;
}

// The pattern before and after on the board, and below the key the lines that changed.
void compare_key(Frame& f, Columns& flow, size_t at, const char* words) {
  const std::string id = "compare." + std::to_string(at);
  const bool on = f.view.fit.compared == at;
  if (button(f, id, flow.across(kTarget), f.words(words),
             {.chosen = on, .role = ControlRole::Toggle})) {
    look_at_photo(f, std::nullopt);
    f.view.fit.compared = on ? std::nullopt : std::optional(at);
  }
  if (on) changes(f, flow);
}

void one_photograph(Frame& f, Columns& flow, size_t fitting, size_t at) {
  const std::string number = std::to_string(at + 1), id = "photo." + number,
                    name = f.words("ui.photo", {number});
  const Box row = flow.across(kTarget);
  const bool on = f.view.fit.photo == at;
  if (button(f, id, row.left(row.w - kTarget - 6.0F), name,
             {.chosen = on, .role = ControlRole::Toggle})) {
    look_at_photo(f, on ? std::nullopt : std::optional(at));
  }
  if (button(f, id + ".remove", row.after(row.w - kTarget), "×",
             {.look = Look::Quiet, .type = kTitle, .name = f.words("ui.fit-take-back", {name})})) {
    look_at_photo(f, std::nullopt);
    f.commands.push_back(RemovePhotograph{fitting, at});
  }
}

void ask_for_photo(Frame& f, size_t fitting, bool camera) {
  if (f.keeping.follows) {
    f.view.notice = f.words("ui.follows-refused");
    return;
  }
  const PhotoKey key{f.rack.open_id(), f.rack.outside().new_id()};
  f.photos.asked = {key, fitting};
  f.effects.emplace_back(AskForPhoto{key, camera});
}

// What was photographed at a fitting, and what can be: on a telephone or tablet by its own camera.
void photographs(Frame& f, Columns& flow, size_t at) {
  const Fitting& fitting = f.ticket.fittings[at];
  for (size_t i = 0; i < fitting.photographs.size(); ++i) one_photograph(f, flow, at, i);
  if (photograph_seen(f) != nullptr) {
    if (!fitting.notes.empty()) aside(f, flow, "photo.how", f.words("ui.photo-how"));
  } else if (fitting.photographs.empty() || !f.site.photographs) {
    aside(f, flow, "photo.stays",
          f.words(f.site.photographs ? "ui.photo-stays" : "ui.photo-window"));
  }
  if (!f.site.photographs || fitting.photographs.size() >= kMostPhotographs) return;
  if (f.site.camera && button(f, "photo.take", flow.across(kTarget), f.words("ui.photo-take"))) {
    ask_for_photo(f, at, true);
  }
  if (button(f, "photo.choose", flow.across(kTarget), f.words("ui.photo-choose"))) {
    ask_for_photo(f, at, false);
  }
}

void one_fitting(Frame& f, Columns& flow, size_t at) {
  const Fitting& fitting = f.ticket.fittings[at];
  if (const std::string based = based_words(f, fitting); !based.empty()) {
    aside(f, flow, "fitting.based", based);
  }
  for (size_t i = 0; i < fitting.notes.size(); ++i) one_note(f, flow, at, i);
  const std::string id = "fitting.words." + std::to_string(at);
  const auto words =
      text_field(f, id, flow.across(kTarget), f.words("ui.fitting-words"), fitting.words);
  if (words) f.commands.push_back(SetFittingWords{at, *words});
  photographs(f, flow, at);
  if (f.derived.pattern && !fitting.notes.empty()) compare_key(f, flow, at, "ui.fitting-changed");
}

void fittings(Frame& f, Columns& flow) {
  const auto& all = f.ticket.fittings;
  for (size_t back = all.size(); back > 0; --back) {
    if (fitting_head(f, flow, back - 1)) one_fitting(f, flow, back - 1);
  }
  if (!f.derived.body) return;  // nothing can be noted of a dog that is not read yet
  if (all.size() > 1) compare_key(f, flow, all.size(), "ui.fittings-changed");
  // The next coat is tried once something was noted on this one; the first may begin with a photograph.
  const bool empty = !all.empty() && all.back().notes.empty();
  if (empty || all.size() == kMostFittings) return;
  if (button(f, "fitting.next", flow.across(kTarget),
             f.words("ui.fitting-next", {fitting_name(f, all.size())}))) {
    f.commands.push_back(BeginFitting{readings_of(f.derived.tape), date_of(f.today)});
    f.view.fit.fitting = all.size();
  }
}

void places(Frame& f, Columns& flow) {
  const Box head = flow.across(26.0F);
  heading(f, "fit.where", {head.x, head.centre().y}, f.words("ui.fit-where"), kLarge);
  const auto& all = all_of<FitPlace>();
  std::vector<std::string> names;
  for (const FitPlace place : all) names.push_back(words_of(f, place));
  constexpr float kApart = 6.0F;
  const int row = std::max(2, options_in_a_row(names, flow.width(), kStrong, kApart));
  for (size_t i = 0; i < all.size(); i += static_cast<size_t>(row)) {
    const Box line = flow.across(kTarget);
    for (int k = 0; k < row && i + static_cast<size_t>(k) < all.size(); ++k) {
      const size_t at = i + static_cast<size_t>(k);
      if (button(f, std::string("place.") + id_of(all[at]), line.column(k, row, kApart), names[at],
                 {.group = f.words("ui.fit-places"), .in_set = true})) {
        go_to_place(f, all[at]);
      }
    }
  }
}

// What goes to the dog: the trial pattern and the card.
void prints(Frame& f, Columns& flow) {
  if (!f.derived.pattern || f.derived.stale) return;
  form_keys(f, flow.across(kTarget),
            {"print.trial", Form::TrialHtml, "ui.print-trial", FormUse::Print},
            {"print.card", Form::FitHtml, "ui.print-card", FormUse::Print});
  form_keys(f, flow.across(kTarget), {"save.trial-pdf", Form::TrialPdf, "ui.save-trial"},
            {"save.card-pdf", Form::FitPdf, "ui.save-card"});
  press_row(f, flow);
}

float list(Frame& f, const Box& box) {
  Columns flow(box, box.w, 8.0F);
  const Box title = flow.across(30.0F);
  heading(f, "fit.title", {title.x, title.centre().y}, f.words("ui.fit-title"));
  status_row(f, flow);
  if (!f.derived.body) {
    refusal_sentence(f, flow);
    fittings(f, flow);
    return flow.height();
  }
  told_of_fit(f, flow, f.derived.findings, true);
  if (f.derived.refusal) refusal_sentence(f, flow);
  places(f, flow);
  fittings(f, flow);
  told_of_fit(f, flow, f.derived.findings, false);
  prints(f, flow);
  return flow.height();
}

// ---- the note that is being made ------------------------------------------------------------------

void choose_kind(Frame& f, std::optional<FitKind> kind) {
  f.view.fit.kind = kind;
  f.view.entry.clear();
  f.view.entry_problem.reset();
  f.view.measure.reset();  // the number that is typed is this one's
  f.view.focus_on = kind ? "entry" : std::string(kSheetPart);
  if (!kind) return;
  // Too much cloth is pinched up; what lacks is a gap.
  const auto answer = answer_to(*f.view.fit.place, *kind, style_of(f.ticket));
  const bool much = answer && answer->sense < 0;
  const bool folds = *kind == FitKind::Loose || *kind == FitKind::Gapes || *kind == FitKind::Long;
  f.view.fit.by = much && folds ? FitBy::Pinch : FitBy::Gap;
}

void back(Frame& f) {
  if (f.view.fit.kind) return choose_kind(f, std::nullopt);
  go_to_place(f, std::nullopt);
}

void keep(Frame& f) {
  const auto note = typed_note(f.view, f.ticket.unit);
  if (!note) {
    f.view.entry_problem = note.problem();
    return;
  }
  if (f.derived.comparison && f.derived.comparison->refusal) return;
  f.view.focus_on = std::string(kSheetPart);
  f.commands.push_back(AddFitNote{*note, readings_of(f.derived.tape), date_of(f.today)});
}

void head(Frame& f, Columns& flow) {
  const Box row = flow.across(kTarget);
  if (button(f, "fit.back", row.left(kTarget), "◀", {.name = f.words("ui.fit-back")})) back(f);
  std::string name = words_of(f, *f.view.fit.place);
  if (f.view.fit.kind) name += ": " + words_of(f, *f.view.fit.kind);
  heading(f, "fit.title", {row.x + kTarget + 12.0F, row.centre().y}, name, kLarge);
}

float kinds(Frame& f, const Box& box) {
  Columns flow(box, box.w, 8.0F);
  head(f, flow);
  const auto all = kinds_at(*f.view.fit.place, style_of(f.ticket));
  for (const FitKind kind : all) {
    const std::string id = std::string("kind.") + id_of(kind);
    if (button(f, id, flow.across(kTarget), words_of(f, kind),
               {.group = f.words("ui.fit-kinds"), .in_set = true})) {
      choose_kind(f, kind);
    }
  }
  return flow.height();
}

// What the note does, before it is taken.
float amount_told(Frame& f, const Box& box) {
  Columns flow(box, box.w, 8.0F);
  head(f, flow);
  const std::vector<std::string> ways = {f.words("ui.fit-pinch"), f.words("ui.fit-gap")};
  const int chosen = options(f, "fit.by", flow.across(options_height(ways, flow.width())),
                             f.words("ui.fit-by"), ways, static_cast<int>(f.view.fit.by));
  if (chosen >= 0) f.view.fit.by = static_cast<FitBy>(chosen);
  if (f.view.entry_problem) {
    sentence(f, flow, "fit.wrong", sentence_of(f, *f.view.entry_problem), true);
  }
  const auto& c = f.derived.comparison;
  const auto note = typed_note(f.view, f.ticket.unit);
  if (!note || !c) {
    paragraph(f, flow, "fit.how",
              f.words(f.view.fit.by == FitBy::Pinch ? "ui.fit-how-pinch" : "ui.fit-how-gap"), true);
    return flow.height();
  }
  if (c->refusal) {
    sentence(f, flow, "fit.refused", sentence_of(f, *c->refusal), true);
    return flow.height();
  }
  paragraph(f, flow, "fit.does", answer_words(f, *note));
  told_of_fit(f, flow, c->findings, true);
  changes(f, flow);
  told_of_fit(f, flow, c->findings, false);
  return flow.height();
}

void amount(Frame& f, const Box& sheet) {
  keys_into_entry(
      f, [&] { keep(f); }, [&] { back(f); });
  const bool narrow = f.layout.narrow;
  const float side = narrow ? 14.0F : 22.0F, foot = narrow ? 8.0F : 20.0F,
              gap = narrow ? 6.0F : kGap;
  const float key = narrow ? kTarget : 50.0F, field = narrow ? kTarget : 60.0F;
  const Box box{sheet.x + side, sheet.y, sheet.w - 2.0F * side, sheet.h - foot};
  const float pad = keypad_height(f, key);
  const bool beside = f.layout.bare;  // what keeps it stands beside the number
  const float height = field + gap + pad + (beside ? 0.0F : gap + kTarget + 2.0F);
  const Box block{box.x, box.bottom() - height, box.w, height};
  scrolled(f, "sheet.fit-amount", {sheet.x, sheet.y, sheet.w, block.y - gap - sheet.y},
           [&](const Box& inner) {
             const float top = narrow ? 10.0F : 24.0F;
             return top +
                    amount_told(f,
                                {box.x, inner.y + top, box.w - (narrow ? 12.0F : 0.0F), inner.h}) +
                    4.0F;
           });
  const float beside_width = beside ? 110.0F + gap : 0.0F;
  const Box number = block.top(field);
  if (number_entry(f, number.left(number.w - beside_width),
                   {.name = f.words("ui.fit-amount"),
                    .wrong = f.view.entry_problem ? sentence_of(f, *f.view.entry_problem) : "",
                    .about = "entry.unit"})) {
    keep(f);
  }
  keypad(f, block.below(field + gap).top(pad),
         f.ticket.unit == Unit::Inch ? PadKind::Inches : PadKind::Centimetres);
  const bool refused = f.derived.comparison && f.derived.comparison->refusal;
  const Box last =
      beside ? number.after(number.w - beside_width + gap) : block.below(height - kTarget - 2.0F);
  if (button(f, "fit.keep", last, f.words("ui.fit-keep"),
             {.look = f.view.entry.empty() ? Look::Outline : Look::Solid,
              .type = beside ? kStrong : kLarge,
              .enabled = !refused})) {
    keep(f);
  }
}

}  // namespace

const Photograph* photograph_seen(const Frame& f) {
  const FitLook& look = f.view.fit;
  if (!look.fitting || *look.fitting >= f.ticket.fittings.size() || look.place || look.compared)
    return nullptr;
  const auto& all = f.ticket.fittings[*look.fitting].photographs;
  return look.photo && *look.photo < all.size() ? &all[*look.photo] : nullptr;
}

std::string note_words(const Frame& f, const FitNote& note) {
  return words_of(f, note.place) + ": " + words_of(f, note.kind) + ", " +
         f.words(std::string("found.") + id_of(note.by), {f.length(note.found_mm)});
}

std::string difference_words(const Frame& f, double mm) {
  const std::string by = f.length(std::abs(mm));
  if (by == f.length(0.0)) return {};
  return (mm > 0.0 ? "+" : "−") + by;
}

void go_to_place(Frame& f, std::optional<FitPlace> place) {
  f.view.fit.place = place;
  f.view.fit.kind.reset();
  f.view.entry.clear();
  f.view.entry_problem.reset();
  f.view.focus_on = std::string(place ? "fit.back" : "fit.title");
  f.view.scrolls["sheet.fit"] = 0.0F;
}

void fit_sheet(Frame& f, const Box& box) {
  FitLook& look = f.view.fit;
  // A style that was chosen since, or a draft that is lost, has no such note to be made.
  if (look.place && !f.derived.body) look = {};
  if (look.kind && !answer_to(*look.place, *look.kind, style_of(f.ticket))) look.kind.reset();
  if (look.kind) return amount(f, box);
  scrolled(f, "sheet.fit", box, [&](const Box& inner) {
    const Box content = sheet_content(f, inner);
    return (look.place ? kinds(f, content) : list(f, content)) + kSheetPad;
  });
}

}  // namespace coatwright::studio
