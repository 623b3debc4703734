#include "shell/fonts.h"

#include <gtest/gtest.h>
#include <imgui.h>

#include <string_view>

#include "shell/painter.h"

namespace coatwright {
namespace {

TEST(Fonts, EverySymbolThatTheStudioWritesHasAGlyph) {
  ImGui::CreateContext();
  studio::load_type(1.0F);
  ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
  for (const char16_t c : std::u16string_view(u"A¼½¾⅛⅜⅝⅞⁄←→↺⌫✕✓−′″◀▶")) {
    EXPECT_NE(atlas.Fonts[0]->FindGlyphNoFallback(c), nullptr) << std::hex << int{c};
  }
  EXPECT_EQ(atlas.Fonts[0]->FindGlyphNoFallback(0x4E00), nullptr);
  ImGui::DestroyContext();
}

}  // namespace
}  // namespace coatwright
