// Alterations on the dog's form: what a note says of the coat on the dog is what its alteration
// changes there. Readings, flat pattern and the coat that fits are known to nobody here; what is
// noted is seen on the laid cloth.
#include <gtest/gtest.h>

#include <cmath>

#include "core/draft/options/front.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/on_the_dog.h"
#include "tests/core/support/population.h"

namespace coatwright::test {
namespace {

constexpr double kDegree = 3.14159265358979324 / 180.0;
constexpr double kReadTo = 0.125 * 25.4;  // mm: what a tape is read to

struct Worn {
  OnTheDog seen;
  double mark_below = 0.0;  // from the dog's breastbone down the breast to the coat's mark of it
};

Worn worn(const Draft& draft, const Stand& stand) {
  const HalfCoat coat = half_coat(draft);
  Worn out{try_on(coat, stand), 0.0};
  out.mark_below =
      out.seen.front_below - distance(coat.breastbone, coat.sides[HalfCoat::CentreFront].front());
  return out;
}

struct Dog {
  Checked<Body> body;
  Stand stand;
};
Dog dog_of(const char* name, double neck_lean = 0.0) {
  Checked<Body> body = assess(hard_dog(name));
  FormShape shape = usual_form_shape(body.result->build);
  if (neck_lean > 0.0) shape.neck_lean = neck_lean * kDegree;
  Stand stand = stand_of(make_form(*body.result, shape));
  return {std::move(body), std::move(stand)};
}

// What one note changes, seen on the dog before and after.
struct Told {
  FitNote note;
  double (*seen)(const Worn&);
  double share;      // of the note's amount that is seen there
  double tolerance;  // mm
};

TEST(OnTheDog, ANoteChangesOnTheDogWhatItSaysAndByAsMuch) {
  using enum FitPlace;
  using enum FitKind;
  constexpr double kMm = 16.0;
  const Told told[] = {
      // Of a gap between both fronts each has half. A sheet laid anew comes to lie a few mm elsewhere.
      {{Breast, Tight, FitBy::Gap, kMm}, [](const Worn& w) { return w.seen.gape; }, -0.5, 4.0},
      {{Breast, Loose, FitBy::Gap, kMm}, [](const Worn& w) { return w.seen.gape; }, 0.5, 4.0},
      {{Breast, Short, FitBy::Gap, kMm}, [](const Worn& w) { return w.mark_below; }, 1.0, 4.0},
      {{Breast, Long, FitBy::Gap, kMm}, [](const Worn& w) { return w.mark_below; }, -1.0, 4.0},
      {{Breast, Rubs, FitBy::Gap, kMm},
       [](const Worn& w) { return w.seen.front_below; },
       -1.0,
       3.0},
      {{Belly, Rubs, FitBy::Gap, kMm}, [](const Worn& w) { return w.seen.band_clear; }, 1.0, 4.0},
      {{Belly, Back, FitBy::Gap, kMm}, [](const Worn& w) { return w.seen.band_clear; }, -1.0, 4.0},
  };
  const Dog dog = dog_of("ordinary");
  const auto plain = make_pattern(dog.body, {});
  const Worn before = worn(plain.result->draft, dog.stand);
  for (const Told& t : asked_of(std::vector<Told>(std::begin(told), std::end(told)))) {
    const std::vector<Fitting> fittings = {{.notes = {t.note}}};
    const auto made = make_pattern(dog.body, {}, kWrapCoat,
                                   alterations_of(fittings, kWrapCoat, hard_dog("ordinary")));
    ASSERT_TRUE(made.result.ok());
    ASSERT_EQ(made.result->altered.size(), 1u);
    const Worn after = worn(made.result->draft, dog.stand);
    EXPECT_NEAR(t.seen(after) - t.seen(before), t.share * kMm, t.tolerance)
        << info(made.result->altered.front().alter).id;
  }
}

// Noted off the dog, read to an eighth of an inch, of what is more than half of it.
void note(Fitting& fitting, FitPlace place, FitKind much, FitKind little, double gap) {
  const double found = kReadTo * std::round(std::abs(gap) / kReadTo);
  if (found < kReadTo) return;
  fitting.notes.push_back({place, gap > 0.0 ? much : little, FitBy::Gap, found});
}

TEST(OnTheDog, ACoatForANeckThatWasNotReadIsBroughtToItsDogByNotesSeenOnIt) {
  struct Carried {
    const char* name;
    double lean;
  };
  const std::vector<Carried> dogs = {{"ordinary", 60.0},
                                     {"ordinary", 30.0},
                                     {"bulldog", 55.0},
                                     {"sighthound", 60.0},
                                     {"long-low", 30.0}};
  for (const Carried& carried : asked_of(dogs)) {
    const Dog dog = dog_of(carried.name, carried.lean);
    std::vector<Fitting> fittings;
    Worn seen;
    for (int tries = 0;; ++tries) {
      const auto made = make_pattern(dog.body, {}, kWrapCoat,
                                     alterations_of(fittings, kWrapCoat, hard_dog(carried.name)));
      ASSERT_TRUE(made.result.ok()) << carried.name;
      seen = worn(made.result->draft, dog.stand);
      if (tries == 3) break;
      Fitting now;
      note(now, FitPlace::Breast, FitKind::Tight, FitKind::Loose, 2.0 * seen.seen.gape);
      note(now, FitPlace::Breast, FitKind::Long, FitKind::Short, seen.mark_below);
      if (now.notes.empty()) break;
      fittings.push_back(std::move(now));
    }
    EXPECT_NEAR(seen.seen.gape, 0.0, 4.0) << carried.name << carried.lean;
    EXPECT_NEAR(seen.mark_below, 0.0, 5.0) << carried.name << carried.lean;
  }
}

}  // namespace
}  // namespace coatwright::test
