#include "shell/words/fonts.h"

#include <gtest/gtest.h>
#include <imgui.h>

#include <string>

#include "core/base/utf8.h"
#include "shell/kit/painter.h"
#include "shell/words/studio_words.h"
#include "shell/words/words_table.h"

namespace coatwright {
namespace {

TEST(Fonts, EveryCharacterThatTheStudioWritesHasAGlyph) {
  ImGui::CreateContext();
  studio::load_type(1.0F);
  (void)studio::text_width("É", {});
  studio::load_type(1.0F);
  EXPECT_FALSE(studio::type_lacks_letters());
  const ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
  // The texts, what a keypad writes, and what a maker may call a dog.
  const std::string written = std::string(words_text()) + std::string(studio::studio_text()) +
                              std::string(studio::demo_text()) + "¼½¾⅛⅜⅝⅞⁄←→↺⌫✕✓−′″◀▶ÀÉßØåçñöűšž";
  int lettered = 0;
  for (const ImFont* face : atlas.Fonts) {
    if (face->FindGlyphNoFallback(0xC0) == nullptr) continue;  // the keypad's, figures only
    ++lettered;
    for (size_t at = 0; at < written.size();) {
      const Character character = character_at(written, at);
      at += character.bytes;
      if (character.point == U'\n') continue;
      EXPECT_NE(face->FindGlyphNoFallback(static_cast<ImWchar>(character.point)), nullptr)
          << "U+" << std::hex << int{static_cast<ImWchar>(character.point)};
    }
    EXPECT_EQ(face->FindGlyphNoFallback(0x4E00), nullptr);
  }
  EXPECT_GE(lettered, 2);
  ImGui::DestroyContext();
}

// WebGL 2 promises 2048 px a side; telephones have had 4096 since its day (common practice, no source).
TEST(Fonts, TheAtlasIsATextureThatEveryTelephoneTakesHoweverFarThePageIsEnlarged) {
  for (const float ratio : {3.0F, 8.0F}) {
    ImGui::CreateContext();
    studio::load_type(ratio);
    (void)studio::text_width("É", {});
    studio::load_type(ratio);
    const ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
    EXPECT_LE(atlas.TexWidth, 4096) << ratio;
    EXPECT_LE(atlas.TexHeight, 4096) << ratio;
    EXPECT_NE(atlas.Fonts[0]->FindGlyphNoFallback(0xC9), nullptr) << ratio;
    ImGui::DestroyContext();
  }
}

}  // namespace
}  // namespace coatwright
