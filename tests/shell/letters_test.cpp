#include "shell/desk/letters.h"

#include <gtest/gtest.h>

#include <set>

#include "core/base/utf8.h"
#include "shell/desk/outputs.h"
#include "shell/kit/painter.h"
#include "shell/kit/script_lines.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

// A host whose every character is of one width, and that counts its textures.
class FakeLetters : public Letters {
 public:
  FakeLetters() { use_letters(this); }
  ~FakeLetters() override {
    forget_script_lines();
    use_letters(nullptr);
  }
  float width(const std::string& words, bool, float size) override {
    return 0.4F * size * static_cast<float>(count_characters(words));
  }
  size_t fitting(const std::string&, bool, float, float) override { return 2; }
  TextPicture draw(const std::string& words, bool, float size, const std::string&) override {
    drawn.insert(words);
    const int w = std::max(1, static_cast<int>(size)), h = 4;
    return {w, h, 0, -h, std::vector<unsigned char>(4 * static_cast<size_t>(w * h), 255)};
  }
  void* upload(const TextPicture&) override {
    textures.insert(++last);
    return reinterpret_cast<void*>(static_cast<std::uintptr_t>(last));
  }
  void drop(void* texture) override {
    EXPECT_EQ(textures.erase(static_cast<long>(reinterpret_cast<std::uintptr_t>(texture))), 1U);
  }
  std::set<std::string> drawn;
  std::set<long> textures;
  long last = 0;
};

const char* const kNames[] = {"Шарик",     "Αργύρης", "רקס",   "ريكس",        "犬太郎",
                              "काला कुत्ता", "한가람",  "🐕 Rex", "Pr\u030Cemek"};

TEST(Letters, TheTypeHasWhatSentencesAreWrittenWithAndNoOtherScript) {
  for (const char* name : {"Bosun", "Käpt’n Ölzeug", "Łódka", "20 ⅜ in", "“a” – b…", "▶ ⌫", ""}) {
    EXPECT_TRUE(type_has(name)) << name;
  }
  for (const char* name : kNames) EXPECT_FALSE(type_has(name)) << name;
}

TEST(Letters, ADogsNameOfEveryScriptIsDrawnByTheHostOnTheTapeTheSheetAndTheRack) {
  FakeLetters host;
  for (const char* name : kNames) {
    host.drawn.clear();
    Driver d(named(name));
    EXPECT_TRUE(host.drawn.contains(name)) << "on the tape's metal end and in the field";
    host.drawn.clear();
    forget_script_lines();
    d.click("ticket");
    EXPECT_TRUE(host.drawn.contains(name)) << "on its card";
  }
}

TEST(Letters, WhereThereIsNoHostTheSheetSaysThatItShowsQuestionMarks) {
  for (const char* name : kNames) {
    Driver d(named(name));
    EXPECT_TRUE(d.sees("name.letters")) << name;
  }
  EXPECT_FALSE(Driver(named("Käpt’n Ölzeug")).sees("name.letters"));
  FakeLetters host;
  EXPECT_FALSE(Driver(named("Шарик")).sees("name.letters"));
}

TEST(Letters, LinesOutOfSightAreGivenUpAndThoseInSightStay) {
  FakeLetters host;
  ScriptLines lines;
  const size_t many = ScriptLines::kMostLines + 50;
  for (size_t i = 0; i < many; ++i) {
    const std::string name = "Ш" + std::to_string(i);
    ASSERT_NE(lines.line(name, kStrong, {}), nullptr);
  }
  lines.next_picture();
  EXPECT_EQ(lines.count(), many) << "all of them were in the last picture";
  const void* seen = lines.line("Ш7", kStrong, {})->texture;
  lines.next_picture();
  EXPECT_EQ(lines.count(), ScriptLines::kMostLines);
  EXPECT_EQ(host.textures.size(), lines.count()) << "what was given up is free";
  EXPECT_EQ(lines.line("Ш7", kStrong, {})->texture, seen);
  // Few lines may be too much, if they are long.
  (void)lines.line("Щ", {Face::Regular, 2e6F}, {});
  lines.next_picture();
  lines.next_picture();
  EXPECT_LT(lines.count(), 2U);
  lines.forget();
  EXPECT_TRUE(host.textures.empty());
}

TEST(Letters, ATextureIsMadeForEachColourOnceHoweverOftenItIsDrawn) {
  FakeLetters host;
  ScriptLines lines;
  const auto texture = [&](Colour c) { return lines.line("Ж", kBody, c)->texture; };
  EXPECT_EQ(texture(day().ink), texture(day().ink));
  EXPECT_EQ(texture(day().ink), texture(faded(day().ink, 0.5F)));
  EXPECT_NE(texture(day().ink), texture(evening().ink));
  lines.forget();
}

TEST(Outputs, AFileIsNamedAfterTheDogInItsOwnScriptWithoutWhatFileSystemsRefuse) {
  const auto name = [](const std::string& dog) { return file_name(named(dog), "ticket.json"); };
  EXPECT_EQ(name("Bosun"), "bosun-ticket.json");
  EXPECT_EQ(name(""), "coat-ticket.json");
  EXPECT_EQ(name("Příliš žluťoučký kůň"), "příliš-žluťoučký-kůň-ticket.json");
  EXPECT_EQ(name("Käpt’n  Ölzeug"), "käpt-n-Ölzeug-ticket.json");
  for (const char* dog : {"Шарик", "Αργύρης", "רקס", "ريكس", "犬太郎", "한가람"}) {
    EXPECT_EQ(name(dog), std::string(dog) + "-ticket.json");
  }
  EXPECT_EQ(name("../..\\a:b*c?d\"e<f>g|h\n.i "), "a-b-c-d-e-f-g-h-i-ticket.json");
  EXPECT_EQ(name("..."), "coat-ticket.json");
  EXPECT_EQ(name("con"), "con-ticket.json");
  std::string endless;
  for (int i = 0; i < 200; ++i) endless += "犬";
  EXPECT_LE(name(endless).size(), 140U);
  EXPECT_EQ(name(endless).substr(117), "犬-ticket.json") << "cut between two characters";
}

}  // namespace
}  // namespace coatwright::studio
