// How long core takes from readings to cut pieces, and on to finished sheets. tests/bench.sh builds
// it natively and as WebAssembly and sets the figures side by side. Prints `id milliseconds note`,
// one a line; no figure passes or fails.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <string>
#include <vector>

#include "core/body/form.h"
#include "core/draw/svg.h"
#include "core/exchange/csv.h"
#include "core/exchange/cutting_svg.h"
#include "core/exchange/dxf.h"
#include "core/make/check.h"
#include "core/sheet/print.h"
#include "shell/words/words_table.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

constexpr int kDogs = 300;
constexpr uint64_t kSeed = 2026;
constexpr int kRounds = 25;
constexpr int kSheetRounds = 25;

// What was made is counted here and printed, so that no work can be optimised away.
size_t made = 0;

double milliseconds_now() {
  using namespace std::chrono;
  return duration<double, std::milli>(steady_clock::now().time_since_epoch()).count();
}

// Half of them lie below it.
double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

// The mean time of one call in the fastest of `rounds`, which is what the code needs when the
// machine does nothing else; one call before them is not counted.
template <typename Work>
double time_of(int rounds, int calls, const Work& work) {
  work();
  double fastest = 1e9;
  for (int round = 0; round < rounds; ++round) {
    const double from = milliseconds_now();
    for (int call = 0; call < calls; ++call) work();
    fastest = std::min(fastest, (milliseconds_now() - from) / calls);
  }
  return fastest;
}

Pattern pattern_of(const Tape& tape) {
  Checked<Pattern> pattern = make_pattern(assess(tape), {});
  if (!pattern.result) {
    std::fprintf(stderr, "a dog of the benchmark was refused: %s\n",
                 code_name(pattern.result.problem().code));
    std::exit(1);
  }
  return std::move(pattern.result.value());
}

void readings_to_cut_pieces() {
  const auto cut = [](const Tape& tape) {
    return time_of(kRounds, 10, [&] { made += pattern_of(tape).cut.pieces.size(); });
  };
  double slowest = 0.0;
  const char* slowest_dog = "";
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const double time = cut(dog.tape);
    if (time > slowest) {
      slowest = time;
      slowest_dog = dog.name.c_str();
    }
  }
  std::printf("cut-pieces %.3f ordinary dog\n", cut(test::hard_dog("ordinary")));
  std::printf("cut-pieces-slowest %.3f %s, the slowest of %zu hard dogs\n", slowest, slowest_dog,
              test::hard_dogs().size());
  const std::vector<Tape> dogs = test::population(kDogs, kSeed);
  std::vector<double> times;
  for (const Tape& tape : dogs) {
    const double from = milliseconds_now();
    made += make_pattern(assess(tape), {}).result ? 1 : 0;
    times.push_back(milliseconds_now() - from);
  }
  std::printf("cut-pieces-population %.3f median of %d dogs from toy to giant\n", median(times),
              kDogs);
}

// Each set of options of every style, on the ordinary dog.
void options_to_cut_pieces() {
  const Tape& tape = test::hard_dog("ordinary");
  std::vector<double> times;
  std::string slowest;
  for (const StyleInfo* style : styles()) {
    for (const Choices& choices : test::all_combinations(*style)) {
      const double time = time_of(
          kRounds, 1, [&] { made += make_pattern(assess(tape), choices, *style).result ? 1 : 0; });
      if (times.empty() || time > *std::max_element(times.begin(), times.end())) {
        slowest = test::told(*style, choices);
      }
      times.push_back(time);
    }
  }
  std::printf("options %.3f median of %zu sets of options\n", median(times), times.size());
  std::printf("options-slowest %.3f %s\n", *std::max_element(times.begin(), times.end()),
              slowest.c_str());
}

// The solid that a body is taken for; made only when it is asked for.
void body_to_form() {
  double slowest = 0.0;
  std::string slowest_dog;
  for (const test::NamedDog& dog : test::ten_dogs()) {
    const Body body = *assess(dog.tape).result;
    const FormShape shape = usual_form_shape(body.build);
    const double time = time_of(kRounds, 10, [&] { made += make_form(body, shape).torso.size(); });
    if (time > slowest) slowest = time, slowest_dog = dog.name;
  }
  std::printf("form %.3f %s, the slowest of ten dogs\n", slowest, slowest_dog.c_str());
}

// What answers each of a style's kinds of note, by half an inch.
std::vector<Alteration> one_of_each(const StyleInfo& style) {
  std::vector<Alteration> out;
  for (int i = 0; i < kAlters; ++i) {
    const Alter alter = static_cast<Alter>(i);
    if (can_alter(style, alter)) out.push_back({alter, 12.7, 1});
  }
  return out;
}

// A fit note, and a whole fitting of all that can be noted: from the readings to cut pieces again.
void notes_to_cut_pieces() {
  const auto redraft = [](const Tape& tape, const StyleInfo& style,
                          const std::vector<Alteration>& list) {
    const Checked<Body> body = assess(tape);
    return time_of(kRounds, 1, [&] {
      made += make_pattern(body, {}, style, {list, {}}).result ? 1 : 0;
    });
  };
  struct Slowest {
    double ms = 0.0;
    std::string note;
    void see(double now, const std::string& told) {
      if (now > ms) ms = now, note = told;
    }
  } one, all;
  std::vector<double> times;
  for (const StyleInfo* style : styles()) {
    const std::vector<Alteration> each = one_of_each(*style);
    for (const test::NamedDog& dog : test::ten_dogs()) {
      const std::string told = std::string(style->id) + ", " + dog.name;
      for (const Alteration& a : each) {
        times.push_back(redraft(dog.tape, *style, {a}));
        one.see(times.back(), told + ", " + info(a.alter).id);
      }
      all.see(redraft(dog.tape, *style, each),
              told + ", all " + std::to_string(each.size()) + " alterations at once");
    }
  }
  std::printf("note %.3f median of %zu notes on ten dogs\n", median(times), times.size());
  std::printf("note-slowest %.3f %s\n", one.ms, one.note.c_str());
  std::printf("fitting-slowest %.3f %s\n", all.ms, all.note.c_str());
}

// Of the coats of every set of options the one with most pieces: its plan of sewing, and its check,
// which together take no longer than the coat's own draft.
void pieces_to_checked_plan() {
  std::optional<Draft> largest;
  std::string told;
  const StyleInfo* its_style = nullptr;
  Choices its_choices;
  for (const StyleInfo* style : styles()) {
    for (const Choices& choices : test::all_combinations(*style)) {
      auto coat = make_pattern(assess(test::hard_dog("ordinary")), choices, *style);
      if (!coat.result) continue;
      if (largest && largest->pieces.size() >= coat.result->draft.pieces.size()) continue;
      largest = std::move(coat.result->draft);
      told = test::told(*style, choices);
      its_style = style;
      its_choices = choices;
    }
  }
  const Checked<Body> body = assess(test::hard_dog("ordinary"));
  const double drafted = time_of(kRounds, 10, [&] {
    made += make_pattern(body, its_choices, *its_style).result->draft.pieces.size();
  });
  const double planned =
      time_of(kRounds, 10, [&] { made += make_plan(*largest).operations.size(); });
  const Plan plan = make_plan(*largest);
  const double checked = time_of(kRounds, 10, [&] { made += check_plan(*largest, plan).size(); });
  std::printf(
      "sewing-plan %.3f %.3f of it the plan of %zu operations for %zu pieces that take %.3f "
      "to draft, %s\n",
      planned + checked, planned, plan.operations.size(), largest->pieces.size(), drafted,
      told.c_str());
}

// The dog whose coat takes the most cloth.
Tape largest_dog() {
  std::vector<Tape> dogs = test::population(kDogs, kSeed);
  dogs.push_back(test::hard_dog("giant"));
  const auto size = [](const Tape& t) {
    return t.of(Measure::Back).front() * t.of(Measure::Chest).front();
  };
  return *std::max_element(dogs.begin(), dogs.end(),
                           [&](const Tape& a, const Tape& b) { return size(a) < size(b); });
}

void readings_to_sheets() {
  const Tape tape = largest_dog();
  const SheetNotes notes{"Benchmark, wrap coat", "2026-01-01"};
  // A4, the default, whole pieces: the most sheets that a printer at home needs.
  PrintChoices print;
  print.opened = true;
  size_t sheets = 0, bytes = 0;
  const double time = time_of(kSheetRounds, 1, [&] {
    const Pattern pattern = pattern_of(tape);
    const Result<SheetPlan> plan = plan_sheets(pattern, print, {}, word_table());
    if (!plan) {
      std::fprintf(stderr, "the sheets were refused: %s\n", code_name(plan.problem().code));
      std::exit(1);
    }
    const auto pages = draw_sheets(*plan, notes, word_table());
    sheets = pages.size();
    bytes = sheets_svg(pages, plan->sheet_width, plan->sheet_height, notes.ticket).size();
    made += bytes;
  });
  std::printf(
      "sheets %.3f back %.0f mm, chest %.0f mm, whole pieces, %zu pages of A4, %zu kB of SVG\n",
      time, tape.of(Measure::Back).front(), tape.of(Measure::Chest).front(), sheets, bytes / 1000);
}

// Each file for others, from a pattern that is there.
void pattern_to_exchange_files() {
  const Tape tape = largest_dog();
  const Pattern pattern = pattern_of(tape);
  const ExchangeNotes notes{"Benchmark, wrap coat", "2026-01-01", Unit::Centimetre};
  size_t bytes = 0;
  const auto print = [&](const char* id, const auto& write) {
    const double time = time_of(kSheetRounds, 1, [&] { made += bytes = write().size(); });
    std::printf("%s %.3f largest dog, %zu kB\n", id, time, bytes / 1000);
  };
  print("exchange-dxf", [&] { return pattern_dxf(pattern, notes, word_table()); });
  print("exchange-cutting", [&] { return cutting_svg(pattern, notes, 0.2, word_table()).value(); });
  print("exchange-pieces", [&] { return pieces_csv(pattern, notes, word_table()); });
  print("exchange-readings", [&] { return readings_csv(tape, pattern.body, notes, word_table()); });
}

}  // namespace
}  // namespace coatwright

int main() {
  coatwright::readings_to_cut_pieces();
  coatwright::options_to_cut_pieces();
  coatwright::notes_to_cut_pieces();
  coatwright::body_to_form();
  coatwright::pieces_to_checked_plan();
  coatwright::readings_to_sheets();
  coatwright::pattern_to_exchange_files();
  std::printf("made %zu\n", coatwright::made);
}
