#include "shell/kit/keypad.h"

#include <gtest/gtest.h>

namespace coatwright::studio {
namespace {

std::string typed(std::initializer_list<const char*> keys) {
  std::string entry;
  for (const char* key : keys) entry = edited(entry, key);
  return entry;
}

TEST(Keypad, FractionsAreSetBehindTheWholeNumberAndReplaceEachOther) {
  EXPECT_EQ(typed({"2", "7", "7/8"}), "27 7/8");
  EXPECT_EQ(typed({"2", "7", "7/8", "1/4"}), "27 1/4");
  EXPECT_EQ(typed({"1/2"}), "1/2");
  EXPECT_EQ(typed({"1/2", "3"}), "3 1/2");
}

TEST(Keypad, EverySixteenthCanBeReached) {
  std::string entry = "20";
  const char* wanted[] = {"20 1/16",  "20 1/8", "20 3/16",  "20 1/4",  "20 5/16",  "20 3/8",
                          "20 7/16",  "20 1/2", "20 9/16",  "20 5/8",  "20 11/16", "20 3/4",
                          "20 13/16", "20 7/8", "20 15/16", "20 15/16"};
  for (const char* next : wanted) {
    entry = edited(entry, "+1/16");
    EXPECT_EQ(entry, next);
  }
}

TEST(Keypad, TheLastThingTypedIsTakenBackWhole) {
  EXPECT_EQ(typed({"2", "7", "7/8", "back"}), "27");
  EXPECT_EQ(typed({"2", "7", "back"}), "2");
  EXPECT_EQ(typed({"back"}), "");
  EXPECT_EQ(edited("20 ⅜", "back"), "20");
}

TEST(Keypad, OneDecimalPointAndNoFractionBesideIt) {
  EXPECT_EQ(typed({"5", "2", ".", "5", ".", "1"}), "52.51");
  EXPECT_EQ(typed({"2", "7", ".", "5", "1/8"}), "27 1/8");
  EXPECT_EQ(typed({"2", "7", "1/8", "."}), "27 1/8");
}

TEST(Keypad, WhatIsShownHasItsFractionSet) {
  EXPECT_EQ(set_entry("27 7/8"), "27 7\u20448");
  EXPECT_EQ(set_entry("52.5 cm"), "52.5 cm");
}

}  // namespace
}  // namespace coatwright::studio
