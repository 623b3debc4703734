// The look: contrast, fractions, and that everything fits and can be touched at every size of page.
#include <gtest/gtest.h>
#include <imgui.h>

#include <cmath>
#include <set>

#include "core/units/length.h"
#include "shell/kit/painter.h"
#include "shell/kit/theme.h"
#include "shell/words/studio_words.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

TEST(Look, EveryTextHasAContrastOfFourAndAHalfByDayAndByEvening) {
  for (const Palette* palette : {&day(), &evening()}) {
    for (const TextPair& pair : text_pairs(*palette)) {
      EXPECT_GE(contrast(pair.text, pair.ground), 4.5)
          << pair.name << (palette == &day() ? " by day" : " by evening");
    }
  }
}

TEST(Look, ContrastAgreesWithTheClosedEndsOfItsScale) {
  EXPECT_NEAR(contrast(rgb(0x000000), rgb(0xFFFFFF)), 21.0, 1e-9);
  EXPECT_NEAR(contrast(rgb(0x777777), rgb(0x777777)), 1.0, 1e-12);
}

struct PageSize {
  const char* name;
  float width, height;
};
constexpr PageSize kSizes[] = {{"tablet lying", 1180.0F, 820.0F},
                               {"tablet upright", 820.0F, 1180.0F},
                               {"phone", 390.0F, 844.0F},
                               {"phone lying", 844.0F, 390.0F},
                               {"laptop", 1366.0F, 768.0F}};

// Every state of the page that has controls of its own.
template <class Visit>
void visit_states(Driver& d, const Visit& visit) {
  for (const char* station : {"station.measure", "station.draft", "station.print"}) {
    d.click(station);
    visit(station);
  }
  d.click("station.measure");
  d.act("measure.chest");
  visit("taking the chest girth");
  d.act("pad.unit");
  visit("taking it in centimetres");
}

bool touchable(const Control& c) { return !only_shows(c) && !c.silent && !c.through; }

TEST(Look, EveryControlIsBigEnoughForAThumbAndStandsOnThePage) {
  int checked = 0;
  for (const PageSize& size : kSizes) {
    Driver d(a_ticket(), size.width, size.height);
    visit_states(d, [&](const char* state) {
      for (const Control& c : d.app.ui().controls()) {
        if (!touchable(c) || c.id.starts_with("sheet.")) continue;
        ++checked;
        const bool wide = c.role == ControlRole::Slider || c.role == ControlRole::Tab;
        EXPECT_GE(c.box.h, kTarget - 0.5F) << c.id << ", " << state << ", " << size.name;
        EXPECT_GE(c.box.w, (wide ? 1.0F : 0.95F) * kTarget - 0.5F)
            << c.id << ", " << state << ", " << size.name;
        if (!c.area.empty() || c.id.starts_with("handle.") || c.id.starts_with("tape.")) continue;
        EXPECT_GE(c.box.x, -0.5F) << c.id << ", " << state << ", " << size.name;
        EXPECT_LE(c.box.right(), size.width + 0.5F) << c.id << ", " << state << ", " << size.name;
        EXPECT_LE(c.box.bottom(), size.height + 0.5F) << c.id << ", " << state << ", " << size.name;
      }
    });
  }
  EXPECT_GT(checked, 400);
}

TEST(Look, NoTwoControlsOfAPanelOverlap) {
  int pairs = 0;
  for (const PageSize& size : kSizes) {
    Driver d(a_ticket(), size.width, size.height);
    visit_states(d, [&](const char* state) {
      const auto& all = d.app.ui().controls();
      for (size_t i = 0; i < all.size(); ++i) {
        for (size_t j = i + 1; j < all.size(); ++j) {
          const bool fixed = touchable(all[i]) && touchable(all[j]) && all[i].area == all[j].area &&
                             all[i].travel != Travel::Free && all[j].travel != Travel::Free &&
                             all[i].travel != Travel::Pan && all[j].travel != Travel::Pan;
          if (!fixed) continue;
          ++pairs;
          const Box both = intersected(all[i].box, all[j].box);
          EXPECT_LE(std::min(both.w, both.h), 1.5F)
              << all[i].id << " and " << all[j].id << ", " << state << ", " << size.name;
        }
      }
    });
  }
  EXPECT_GT(pairs, 5000);
}

TEST(Look, EveryWordThatIsShownStandsInTheWordTable) {
  Driver d(a_ticket());
  visit_states(d, [&](const char* state) {
    for (const Control& c : d.app.ui().controls()) {
      for (const std::string& words : {c.name, c.value, c.note, c.group}) {
        for (const char* key : {"ui.", "measure.", "choice.", "edge.", "piece.", "invariant.",
                                "estimate.", "station."}) {
          EXPECT_FALSE(words.starts_with(key)) << words << ", " << state;
        }
        EXPECT_EQ(words.find('{'), std::string::npos) << words << ", " << state;
      }
      EXPECT_TRUE(c.silent || !c.name.empty()) << c.id << ", " << state;
    }
  });
}

TEST(Look, EveryControlHasAnIdOfItsOwn) {
  Driver d(a_ticket());
  visit_states(d, [&](const char* state) {
    std::set<std::string> ids;
    for (const Control& c : d.app.ui().controls()) {
      EXPECT_TRUE(ids.insert(c.id).second) << c.id << " stands twice, " << state;
    }
  });
}

TEST(Look, FractionsAreSetNarrowerThanTheyAreTyped) {
  Driver d(a_ticket());
  EXPECT_LT(text_width("27⅞", kStrong), text_width("27 7/8", kStrong));
  EXPECT_NEAR(text_width("27⅞", kStrong), text_width("27 7\u20448", kStrong), 0.01);
  EXPECT_GT(text_width("27⅞", kStrong), text_width("27", kStrong) + 5.0F);
}

TEST(Look, ParagraphsBreakAtSpacesAndLoseNothing) {
  Driver d(a_ticket());
  const std::string_view words = "Round the deepest part of the rib cage, just behind the elbows.";
  const auto lines = broken(words, 150.0F, kBody);
  ASSERT_GT(lines.size(), 2U);
  std::string together;
  for (const std::string_view line : lines) {
    EXPECT_LE(text_width(line, kBody), 150.0F);
    if (!together.empty()) together += ' ';
    together += line;
  }
  EXPECT_EQ(together, words);
}

TEST(Painter, DrawsWhatTouchesItsClipAndNothingElse) {
  Driver d(a_ticket());
  ImGui::NewFrame();
  Painter paint(2.0F);
  const ImDrawList& list = *ImGui::GetBackgroundDrawList();
  paint.push_clip({100.0F, 100.0F, 50.0F, 50.0F});
  const auto vertices = [&](auto&& draw) {
    const int before = list.VtxBuffer.Size;
    draw();
    return list.VtxBuffer.Size - before;
  };
  const Colour ink = day().ink;
  const Spot across[] = {{0.0F, 125.0F}, {400.0F, 125.5F}},
             beside[] = {{0.0F, 0.0F}, {90.0F, 400.0F}};
  EXPECT_GT(vertices([&] { paint.fill({140.0F, 140.0F, 200.0F, 9.0F}, ink); }), 0);
  EXPECT_EQ(vertices([&] { paint.fill({160.0F, 140.0F, 200.0F, 9.0F}, ink); }), 0);
  EXPECT_GT(vertices([&] { paint.polyline(across, ink, 2.0F); }), 0) << "both ends outside";
  EXPECT_EQ(vertices([&] { paint.polyline(beside, ink, 2.0F); }), 0);
  EXPECT_GT(vertices([&] { paint.disc({95.0F, 120.0F}, 8.0F, ink); }), 0);
  EXPECT_EQ(vertices([&] { paint.disc({80.0F, 120.0F}, 8.0F, ink); }), 0);
  EXPECT_GT(vertices([&] { paint.text({120.0F, 120.0F}, "coat", kBody, ink); }), 0);
  EXPECT_EQ(vertices([&] { paint.text({120.0F, 300.0F}, "coat", kBody, ink); }), 0);
  EXPECT_GT(paint.text({120.0F, 300.0F}, "coat", kBody, ink), 10.0F)
      << "as wide as if it were seen";
  paint.pop_clip();
  ImGui::EndFrame();
}

TEST(Look, NoLineBreaksWithinANumberOrBeforeItsUnit) {
  Driver d(a_ticket());
  const std::string length =
      format_length(Length::inches(20.1875), {.unit = Unit::Inch, .steps_per_inch = 16});
  const std::string words = "The neck reads " + length + " and the weight is 20.5 kg, not 9 lb.";
  size_t lines = 0;
  for (float width = 30.0F; width < 400.0F; width += 5.0F) {
    for (const std::string_view line : broken(words, width, kBody)) {
      ++lines;
      for (const char* begin : {"3⁄16", "in ", "kg", "lb"}) {
        EXPECT_FALSE(line.starts_with(begin)) << line << " at " << width;
      }
    }
  }
  EXPECT_GT(lines, 100u);
}

}  // namespace
}  // namespace coatwright::studio
