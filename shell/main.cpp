// The studio with a screen: SDL2 gives the window or canvas and its events, OpenGL draws what Dear
// ImGui lists.

#include <SDL.h>
#include <imgui.h>
#include <imgui_impl_opengl3.h>
#include <imgui_impl_sdl2.h>

#include "shell/studio.h"

#ifdef __EMSCRIPTEN__
#include <GLES3/gl3.h>
#include <emscripten.h>
#else
#include <SDL_opengl.h>
#endif

namespace {

SDL_Window* window = nullptr;

// One frame; false when the window was closed.
bool frame() {
  bool open = true;
  for (SDL_Event event; SDL_PollEvent(&event) != 0;) {
    ImGui_ImplSDL2_ProcessEvent(&event);
    if (event.type == SDL_QUIT) open = false;
  }
  ImGui_ImplOpenGL3_NewFrame();
  ImGui_ImplSDL2_NewFrame();
  ImGui::NewFrame();
  coatwright::draw_studio();
  ImGui::Render();
  int width = 0;
  int height = 0;
  SDL_GL_GetDrawableSize(window, &width, &height);
  glViewport(0, 0, width, height);
  glClear(GL_COLOR_BUFFER_BIT);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  SDL_GL_SwapWindow(window);
  return open;
}

int fail(const char* what) {
  SDL_LogError(SDL_LOG_CATEGORY_APPLICATION, "%s: %s", what, SDL_GetError());
  return 1;
}

}  // namespace

int main(int, char**) {
  if (SDL_Init(SDL_INIT_VIDEO) != 0) return fail("no screen");
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 3);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MINOR_VERSION, 0);
#ifdef __EMSCRIPTEN__
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_PROFILE_MASK, SDL_GL_CONTEXT_PROFILE_ES);
#endif
  window = SDL_CreateWindow("Coatwright", SDL_WINDOWPOS_CENTERED, SDL_WINDOWPOS_CENTERED, 1180, 820,
                            SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
  if (window == nullptr) return fail("no window");
  SDL_GLContext context = SDL_GL_CreateContext(window);
  if (context == nullptr) return fail("no OpenGL");

  ImGui::CreateContext();
  ImGui::GetIO().IniFilename = nullptr;
  ImGui_ImplSDL2_InitForOpenGL(window, context);
  ImGui_ImplOpenGL3_Init();
  coatwright::load_fonts(18.0F);
#ifdef __EMSCRIPTEN__
  emscripten_set_main_loop([] { frame(); }, 0, true);
#else
  while (frame()) SDL_Delay(1);
#endif
  return 0;
}
