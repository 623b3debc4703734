// Photographs of fittings and the pins on them.
#include "core/fit/photograph.h"

#include <gtest/gtest.h>

namespace coatwright {
namespace {

FitNote note(FitPlace place, double mm = 7.0) { return {place, FitKind::Loose, FitBy::Gap, mm}; }

Fitting a_fitting() {
  return {.notes = {note(FitPlace::Neck), note(FitPlace::Girth), note(FitPlace::Breast)},
          .photographs = {{"Ph0t-_0a", 1280, 960, {{2, 0.25, 0.5}, {0, 0.75, 0.5}}},
                          {"Ph0t-_0b", 960, 1280, {{1, 0.5, 0.5}}}}};
}

TEST(Photograph, APinTakesThePlaceOfTheNotesOwnAndStaysOnThePicture) {
  Photograph photo{"Ph0t-_0a", 1280, 960};
  photo = with_pin(photo, {1, 0.123456, 0.98765});
  ASSERT_NE(pin_of(photo, 1), nullptr);
  EXPECT_EQ(*pin_of(photo, 1), (PhotoPin{1, 0.1235, 0.9877})) << "short in a file";
  photo = with_pin(photo, {0, 0.5, 0.5});
  photo = with_pin(photo, {1, -4.0, 1.5});
  EXPECT_EQ(photo.pins.size(), 2U);
  EXPECT_EQ(*pin_of(photo, 1), (PhotoPin{1, 0.0, 1.0}));
  photo = without_pin(photo, 0);
  EXPECT_EQ(pin_of(photo, 0), nullptr);
  EXPECT_EQ(photo.pins.size(), 1U);
}

TEST(Photograph, ANoteThatIsTakenBackTakesItsPinsAlongAndTheOthersKeepTheirs) {
  const Fitting two = without_note(a_fitting(), 1);
  EXPECT_EQ(two.notes, (std::vector<FitNote>{note(FitPlace::Neck), note(FitPlace::Breast)}));
  EXPECT_EQ(two.photographs[0].pins, (std::vector<PhotoPin>{{1, 0.25, 0.5}, {0, 0.75, 0.5}}));
  EXPECT_TRUE(two.photographs[1].pins.empty());
  EXPECT_EQ(without_note(a_fitting(), 3), a_fitting()) << "there is no such note";
}

TEST(Photograph, ANoteThatIsSaidOtherwiseKeepsItsNumberAndSoItsPins) {
  std::vector<Fitting> all = {a_fitting()};
  const auto more = with_note(all, note(FitPlace::Neck, 9.0), {}, {});
  ASSERT_TRUE(more.ok());
  EXPECT_EQ((*more)[0].notes[0], note(FitPlace::Neck, 9.0));
  EXPECT_EQ((*more)[0].notes.size(), 3U);
  EXPECT_EQ((*more)[0].photographs, a_fitting().photographs);
}

TEST(Photograph, AllOfThemAreFoundByTheirIdsAndLeftOutTogether) {
  const std::vector<Fitting> all = {a_fitting(), {}, {.photographs = {{"Ph0t-_0c", 2, 2}}}};
  EXPECT_EQ(photographs_of(all), (std::vector<std::string>{"Ph0t-_0a", "Ph0t-_0b", "Ph0t-_0c"}));
  const auto bare = without_photographs(all);
  EXPECT_TRUE(photographs_of(bare).empty());
  EXPECT_EQ(bare[0].notes, all[0].notes);
  EXPECT_EQ(bare.size(), 3U);
}

}  // namespace
}  // namespace coatwright
