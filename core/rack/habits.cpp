#include "core/rack/habits.h"

#include <algorithm>
#include <array>

#include "core/body/assess.h"
#include "core/draft/options/ease.h"

namespace coatwright {
namespace {

constexpr int kFewest = 3;               // coats
constexpr double kMostOfThem = 2.0 / 3;  // of the fitted ones

struct Ease {
  Alter alter;
  const ChoiceInfo* choice;
};
constexpr std::array<Ease, 3> kEases = {
    {{Alter::Neckline, &kNeckEase}, {Alter::Breast, &kBreastEase}, {Alter::Girth, &kChestEase}}};

struct Seen {
  double mm = 0.0, part = 0.0;
};

double middle(std::vector<Seen> all, double Seen::*field) {
  const auto half = all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2);
  std::nth_element(all.begin(), half, all.end(),
                   [field](const Seen& a, const Seen& b) { return a.*field < b.*field; });
  return (*half).*field;
}

}  // namespace

std::vector<Habit> habits_of(const std::vector<Card>& cards) {
  std::array<std::vector<Seen>, kEases.size()> more, less;
  int fitted = 0;
  for (const Card& card : cards) {
    const Ticket& ticket = card.ticket;
    const bool tried = std::any_of(ticket.fittings.begin(), ticket.fittings.end(),
                                   [](const Fitting& f) { return !f.notes.empty(); });
    if (!tried || card.place == Place::Bin) continue;
    const Result<Tape> tape = tape_of(ticket);
    if (!tape) continue;
    const Checked<Body> body = assess(*tape);
    if (!body.result) continue;
    ++fitted;
    for (const Alteration& done : alterations_of(ticket, *tape).list) {
      for (size_t i = 0; i < kEases.size(); ++i) {
        if (kEases[i].alter != done.alter || done.mm == 0.0) continue;
        const double sized = range_of(*kEases[i].choice, *body.result).sized;
        (done.mm > 0.0 ? more : less)[i].push_back({done.mm, done.mm / sized});
      }
    }
  }
  std::vector<Habit> out;
  for (size_t i = 0; i < kEases.size(); ++i) {
    for (const std::vector<Seen>* seen : {&more[i], &less[i]}) {
      const int coats = static_cast<int>(seen->size());
      if (coats < kFewest || coats < kMostOfThem * fitted) continue;
      out.push_back(
          {kEases[i].choice, coats, fitted, middle(*seen, &Seen::mm), middle(*seen, &Seen::part)});
    }
  }
  return out;
}

Usual with_habit(Usual usual, const Habit& habit) {
  const double now = usual.eases.of(*habit.ease).value_or(1.0);
  usual.eases.set(*habit.ease, std::clamp(now + habit.part, 0.0, kMostEasePart));
  return usual;
}

}  // namespace coatwright
