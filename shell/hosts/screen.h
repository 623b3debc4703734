// A window or canvas that Dear ImGui's draw lists are put on: SDL2 makes it, OpenGL draws.
#pragma once

#include <memory>

#include "core/draw/png.h"

struct SDL_Window;

namespace coatwright::studio {

class Screen {
 public:
  // Size in device pixels of a canvas, in points of a window. Nothing if there is no OpenGL.
  static std::unique_ptr<Screen> open(int width, int height);
  ~Screen();

  void resize(int device_width, int device_height);  // a canvas only
  // Makes the type for a device pixel ratio.
  void load_type_for(float device_ratio);
  // Whether the frame drawn last lacks letters, which the next one will have.
  [[nodiscard]] bool wants_frame() const;
  // A frame of so many device pixels; draw between the two.
  void begin(float device_width, float device_height);
  void end();
  // Ends a frame of which nothing is shown.
  void end_unseen();
  // After the graphics context was lost: makes everything that lived in it anew.
  void restore();
  // A texture of a line of text, drawn pixel by pixel, and its end.
  static void* make_texture(const TextPicture& picture);
  static void drop_texture(void* texture);

  [[nodiscard]] SDL_Window* window() const { return window_; }

 private:
  Screen(SDL_Window* window, void* context) : window_(window), context_(context) {}
  SDL_Window* window_;
  void* context_;
  float type_ratio_ = 1.0F;
};

}  // namespace coatwright::studio
