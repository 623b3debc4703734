#pragma once

namespace coatwright {

// Loads the faces of shell/fonts.h into the current Dear ImGui context.
// size_px: height of a line of text in framebuffer pixels.
void load_fonts(float size_px);

// Draws one frame of the studio into the current Dear ImGui context.
void draw_studio();

}  // namespace coatwright
