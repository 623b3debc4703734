#include "shell/measure/list.h"

#include "shell/counter/slip_ask_panel.h"
#include "shell/desk/letters.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"
#include "shell/measure/panel.h"

namespace coatwright::studio {
namespace {

// How a row's value came about.
enum class Mark { None, Taken, Estimated, Check };

Mark mark_of(const Frame& f, Measure m) {
  if (!sentences_about(f, info(m).id).empty()) return Mark::Check;
  if (!f.ticket.of(m).empty()) return Mark::Taken;
  return f.derived.body && f.derived.body->of(m).estimated() ? Mark::Estimated : Mark::None;
}

void draw_mark(Frame& f, Spot at, Mark mark) {
  switch (mark) {
    case Mark::None:
      f.paint.ring(at, 7.0F, f.colours.soft, 1.5F);
      break;
    case Mark::Estimated: {
      const float pattern[] = {3.0F, 3.0F};
      Line circle;
      for (int i = 0; i <= 24; ++i) {
        const float a = static_cast<float>(i) * 0.2618F;
        circle.push_back({at.x + 7.0F * std::cos(a), at.y + 7.0F * std::sin(a)});
      }
      f.paint.dashes(circle, pattern, f.colours.chalk_text, 1.5F);
      break;
    }
    case Mark::Taken:
      standing_mark(f, at, Tone::Right);
      break;
    case Mark::Check:
      standing_mark(f, at, Tone::Wrong);
      break;
  }
}

// Told under a measure's row: what is wrong with it, or what hangs on its estimate.
struct Told {
  std::string words;
  bool wrong = true;
};
Told told_of(const Frame& f, Measure m) {
  auto wrong = sentences_about(f, info(m).id);
  if (f.ticket.carried[static_cast<size_t>(m)]) {
    std::erase(wrong, sentence_of(f, {Code::ReadingCarried, info(m).id}));  // the banner's
  }
  if (!wrong.empty()) return {wrong[0]};
  if (!f.ticket.of(m).empty()) return {};
  const auto notes = notes_about(f, info(m).id);
  return notes.empty() ? Told{} : Told{notes[0], false};
}

// A measure with its value, and under it what is told of it.
void measure_row(Frame& f, Columns& flow, Measure m) {
  const bool carried = f.ticket.carried[static_cast<size_t>(m)];
  const Told told = told_of(f, m);
  const float below = told.words.empty() ? 0.0F : sentence_height(told.words, flow.column_width());
  const Box whole = flow.next(kTarget - kGap + 4.0F + (below > 0.0F ? below + 10.0F : 0.0F));
  const Box box = whole.top(kTarget);
  const std::string id = std::string("measure.") + info(m).id;
  const std::string name = f.words(id), value = value_words(f, m);
  const Mark mark = mark_of(f, m);
  const char* said[] = {"ui.not-taken", "", "ui.estimated", "level.check"};
  const std::string state = carried ? "ui.carried" : said[static_cast<int>(mark)];
  std::string said_of_it = value;
  for (const std::string& more : {state, value.empty() ? std::string("ui.add") : std::string()}) {
    if (!more.empty()) said_of_it += (said_of_it.empty() ? "" : ", ") + f.words(more);
  }
  f.ui.add({.id = id, .role = ControlRole::Button, .name = name, .value = said_of_it, .box = box});
  if (below > 0.0F) {
    sentence(f, std::string("row.") + info(m).id, {box.x, box.bottom() + 4.0F, whole.w, below},
             told.words, told.wrong);
  }
  if (f.ui.pressed == id) f.paint.fill(box.inset(-6.0F, 0.0F), f.colours.card, 10.0F);
  const float mid = box.centre().y;
  draw_mark(f, {box.x + 11.0F, mid}, mark);
  const Colour ink = mark == Mark::Check ? f.colours.brick : f.colours.ink;
  const Colour value_ink = mark == Mark::Estimated ? f.colours.chalk_text : ink;
  const std::string shown = value.empty() ? f.words("ui.add") : value;
  const float width = f.paint.text({box.right() - 20.0F, mid}, shown, kStrong,
                                   value.empty() ? f.colours.chalk_text : value_ink, Align::End);
  f.paint.clipped_text({box.x + 32.0F, mid}, box.w - 60.0F - width, name, kBody, ink);
  const float x = box.right() - 10.0F;
  const Spot chevron[] = {{x, mid - 5.0F}, {x + 5.0F, mid}, {x, mid + 5.0F}};
  f.paint.polyline(chevron, f.colours.soft, 1.8F);
  f.paint.line({box.x, box.bottom()}, {box.right(), box.bottom()}, f.colours.paper_line, 1.0F);
  if (f.ui.acted(id)) go_to_measure(f, m);
}

void section(Frame& f, Columns& flow, const std::string& words) {
  const Box box = flow.across(30.0F);
  heading(f, "section." + words, {box.x, box.centre().y + 3.0F}, words, kLarge);
}

void names(Frame& f, Columns& flow) {
  if (const auto dog = text_field(f, "dog", flow.next(kTarget), f.words("ui.dog"), f.ticket.dog)) {
    f.commands.push_back(SetDog{*dog});
  }
  if (const auto name =
          text_field(f, "name", flow.next(kTarget), f.words("ui.ticket-name"), f.ticket.name)) {
    f.commands.push_back(SetName{*name});
  }
  if (letters() == nullptr && !(type_has(f.ticket.dog) && type_has(f.ticket.name))) {
    const std::string words = f.words("ui.no-letters");
    sentence(f, "name.letters", flow.next(sentence_height(words, flow.column_width())), words,
             false);
  }
}

// Another dog's ticket, and where all of them hang.
void ticket_row(Frame& f, Columns& flow) {
  const Box row = flow.next(kTarget);
  if (button(f, "ticket.new", row.column(0, 2, 8.0F), f.words("ui.new-ticket"),
             {.enabled = !f.keeping.follows})) {
    f.rack_commands.push_back({.deed = RackDeed::New});
  }
  if (button(f, "ticket.rack", row.column(1, 2, 8.0F), f.words("ui.to-rack"))) {
    f.view.rack = true;
    f.view.notice.clear();
    f.view.moved.reset();
  }
}

// Measuring at home: a slip out, and its answer back.
void client_row(Frame& f, Columns& flow) {
  const Box row = flow.next(kTarget);
  if (button(f, "ask-client", row.column(0, 2, 8.0F), f.words("ui.slip"),
             {.enabled = !f.keeping.follows})) {
    ask_the_client(f);
  }
  if (button(f, "client-answer", row.column(1, 2, 8.0F), f.words("ui.client-answer"))) {
    f.view.slip = {.shows = SlipShows::Answer};
    f.view.focus_on = kSheetPart;
  }
}

void measure_rows(Frame& f, Columns& flow, bool required) {
  for (const Measure m : measures_of(style_of(f.ticket), f.ticket.choices)) {
    if ((info(m).need == Need::Required) == required) measure_row(f, flow, m);
  }
}

// A named set of options below its label.
int labelled(Frame& f, Columns& flow, const std::string& id, const std::string& label,
             const std::vector<std::string>& names_, int chosen) {
  const Box box = flow.next(24.0F + kTarget);
  f.paint.text({box.x, box.y + 10.0F}, label, kBody, f.colours.ink);
  return options(f, id, box.below(24.0F), label, names_, chosen);
}

void stepper(Frame& f, const Box& box, const std::string& id, const std::string& name,
             const std::string& value, int& steps) {
  const ButtonStyle style{.look = Look::Key, .type = kLarge};
  ButtonStyle less = style, more = style;
  less.name = f.words("ui.less", {name});
  more.name = f.words("ui.more", {name});
  if (button(f, id + ".less", box.left(kTarget), "−", less)) steps = -1;
  if (button(f, id + ".more", box.after(box.w - kTarget), "+", more)) steps = 1;
  f.paint.text(box.centre(), value, kStrong, f.colours.ink, Align::Middle);
  words_at(f, id + ".now", box, name + ": " + value);
}

void birth_month(Frame& f, Columns& flow) {
  const Box box = flow.next(24.0F + kTarget);
  const std::string birth = f.words("birth");
  f.paint.text({box.x, box.y + 10.0F}, birth, kBody, f.colours.ink);
  words_at(f, "birth", box.top(20.0F), birth);
  const Box row = box.below(24.0F);
  if (!f.ticket.birth) {
    if (button(f, "birth.add", row, f.words("ui.add-birth"))) {
      f.commands.push_back(
          SetBirth{BirthMonth{f.today.month.year - 3, f.today.month.month}, f.today.month});
    }
    return;
  }
  BirthMonth born = *f.ticket.birth;
  int months = 0, years = 0;
  stepper(f, row.column(0, 2, 8.0F), "birth.month", f.words("ui.month"),
          f.words("ui.month." + std::to_string(born.month)), months);
  stepper(f, row.column(1, 2, 8.0F), "birth.year", f.words("ui.year"), std::to_string(born.year),
          years);
  if (months == 0 && years == 0) return;
  born.month = (born.month - 1 + months + 12) % 12 + 1;
  born.year += years;
  f.commands.push_back(SetBirth{born, f.today.month});
}

void about_the_dog(Frame& f, Columns& flow) {
  section(f, flow, f.words("ui.the-dog"));
  const auto words = [&](std::initializer_list<const char*> keys) {
    std::vector<std::string> out;
    for (const char* key : keys) out.push_back(f.words(key));
    return out;
  };
  const int sex =
      labelled(f, flow, "sex", f.words("sex"), words({"sex.unknown", "sex.female", "sex.male"}),
               static_cast<int>(f.ticket.sex));
  if (sex >= 0) f.commands.push_back(SetSex{static_cast<Sex>(sex)});
  const int coat =
      labelled(f, flow, "coat", f.words("coat"), words({"coat.short", "coat.medium", "coat.thick"}),
               static_cast<int>(f.ticket.coat));
  if (coat >= 0) f.commands.push_back(SetCoat{static_cast<Coat>(coat)});
  const auto builds = words({"build.ordinary", "build.broad", "build.deep", "build.long-low"});
  const Box box = flow.next(24.0F + 2.0F * kTarget + 6.0F);
  f.paint.text({box.x, box.y + 10.0F}, f.words("build"), kBody, f.colours.ink);
  for (int i = 0; i < 4; ++i) {
    const Box row = box.below(24.0F + static_cast<float>(i / 2) * (kTarget + 6.0F)).top(kTarget);
    const ButtonStyle style{.chosen = static_cast<int>(f.ticket.build) == i,
                            .role = ControlRole::Option,
                            .group = f.words("build")};
    if (button(f, "build." + std::to_string(i), row.column(i % 2, 2, 6.0F),
               builds[static_cast<size_t>(i)], style)) {
      f.commands.push_back(SetBuild{static_cast<Build>(i)});
    }
  }
  birth_month(f, flow);
  // Build, age and hair decide whether a coat suits the dog at all.
  sentence(f, flow, "caution.vet", f.words("caution.vet"), false);
}

}  // namespace

std::string estimate_words(const Frame& f, Measure m) {
  if (!f.derived.body || !f.derived.body->of(m).estimated()) return {};
  const char* rule = f.derived.body->of(m).rule;
  return f.words("ui.estimated-by", {value_words(f, m), f.words(std::string("estimate.") +
                                                                (rule == nullptr ? "" : rule))});
}

std::string value_words(const Frame& f, Measure m) {
  const auto& readings = f.derived.tape.of(m);
  if (readings.empty() && !f.derived.body) return {};
  if (readings.empty()) {
    const double value = f.derived.body->of(m).value;
    return info(m).is_weight ? format_weight_about(value, f.ticket.unit)
                             : format_about(Length::mm(value), f.lengths());
  }
  const double value = value_of(readings).value;
  return info(m).is_weight ? format_weight(value, f.ticket.unit) : f.length(value);
}

namespace {

// Readings that no coat should be cut by any more, and what to do about them.
void old_readings(Frame& f, Columns& flow) {
  const Due due = readings_due(f.ticket, f.today.month);
  const bool carried = to_take_again(f.ticket) > 0;
  if (!carried && due == Due::No) return;
  const std::string words = f.words(carried               ? "ui.carried-hint"
                                    : due == Due::Growing ? "ui.due-growing"
                                                          : "ui.due-season");
  sentence(f, flow, "old-readings", words, true);
  if (!carried && button(f, "measure-again", flow.across(kTarget), f.words("ui.measure-again"))) {
    f.commands.emplace_back(MeasureAgain{});
  }
}

}  // namespace

float measure_list(Frame& f, const Box& box) {
  Columns flow(box, 300.0F, kGap);
  status_row(f, flow);
  old_readings(f, flow);
  names(f, flow);
  ticket_row(f, flow);
  client_row(f, flow);
  section(f, flow, f.words("ui.needed-measures"));
  measure_rows(f, flow, true);
  section(f, flow, f.words("ui.worth-taking"));
  measure_rows(f, flow, false);
  about_the_dog(f, flow);
  return flow.height();
}

}  // namespace coatwright::studio
