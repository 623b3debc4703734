#include "shell/studio.h"

#include <imgui.h>

#include "core/base/version.h"
#include "shell/fonts.h"

namespace coatwright {
namespace {

void add_face(std::span<const unsigned char> face, float size_px, const ImWchar* ranges,
              bool merge) {
  ImFontConfig config;
  config.FontDataOwnedByAtlas = false;
  config.MergeMode = merge;
  // The atlas only reads the bytes; its interface predates const.
  ImGui::GetIO().Fonts->AddFontFromMemoryTTF(const_cast<unsigned char*>(face.data()),
                                             static_cast<int>(face.size()), size_px, &config,
                                             ranges);
}

}  // namespace

void load_fonts(float size_px) {
  static const ImWchar kText[] = {0x20, 0x17F, 0x2013, 0x2044, 0x20AC, 0x20AC, 0};
  add_face(font_regular(), size_px, kText, false);
  add_face(font_symbols(), size_px, font_symbol_ranges(), true);
}

void draw_studio() {
  const ImGuiViewport& screen = *ImGui::GetMainViewport();
  ImGui::SetNextWindowPos(screen.WorkPos);
  ImGui::SetNextWindowSize(screen.WorkSize);
  ImGui::Begin("Studio", nullptr, ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove);
  ImGui::Text("Coatwright %s", version());
  ImGui::TextUnformatted("chest 27 ⅝ in, back 52,5 cm  ← → ↺ ⌫ ✓");
  ImGui::End();
}

}  // namespace coatwright
