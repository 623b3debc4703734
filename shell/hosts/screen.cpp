#include "shell/hosts/screen.h"

#include <SDL.h>
#include <imgui.h>
#include <imgui_impl_opengl3.h>

#include <cstdint>

#include "shell/kit/painter.h"

#ifdef __EMSCRIPTEN__
#include <GLES3/gl3.h>
#else
#include <SDL_opengl.h>
#endif

namespace coatwright::studio {
namespace {

#ifdef __EMSCRIPTEN__
// The page gives all events through shell/hosts/page.h;
// SDL's own handlers would hear each touch twice.
constexpr Uint32 kWindowFlags = SDL_WINDOW_OPENGL;
void quiet_events() {
  SDL_SetHint(SDL_HINT_EMSCRIPTEN_KEYBOARD_ELEMENT, "#canvas");
  for (const Uint32 type :
       {SDL_MOUSEMOTION, SDL_MOUSEBUTTONDOWN, SDL_MOUSEBUTTONUP, SDL_MOUSEWHEEL, SDL_FINGERDOWN,
        SDL_FINGERUP, SDL_FINGERMOTION, SDL_KEYDOWN, SDL_KEYUP, SDL_TEXTINPUT}) {
    SDL_EventState(type, SDL_IGNORE);
  }
}
void set_attributes() {
  SDL_GL_SetAttribute(SDL_GL_DEPTH_SIZE, 0);  // nothing lies behind anything
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 3);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MINOR_VERSION, 0);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_PROFILE_MASK, SDL_GL_CONTEXT_PROFILE_ES);
}
#else
constexpr Uint32 kWindowFlags = SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI;
void quiet_events() {}
void set_attributes() {
  SDL_GL_SetAttribute(SDL_GL_DEPTH_SIZE, 0);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 3);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MINOR_VERSION, 0);
}
#endif

// As LayGround. The page's own, which begins a frame, is laid without a clip, which is quickest of all.
void clear_ground(const ImDrawList*, const ImDrawCmd* command) {
  const ImVec4& clip = command->ClipRect;
  const ImVec2 page = ImGui::GetIO().DisplaySize;
  const auto packed =
      static_cast<ImU32>(reinterpret_cast<std::uintptr_t>(command->UserCallbackData));
  const ImVec4 colour = ImGui::ColorConvertU32ToFloat4(packed);
  const bool whole = clip.x <= 0.0F && clip.y <= 0.0F && clip.z >= page.x && clip.w >= page.y;
  glScissor(static_cast<int>(clip.x), static_cast<int>(page.y - clip.w),
            static_cast<int>(clip.z - clip.x), static_cast<int>(clip.w - clip.y));
  glClearColor(colour.x, colour.y, colour.z, 1.0F);
  if (whole) glDisable(GL_SCISSOR_TEST);
  glClear(GL_COLOR_BUFFER_BIT);
  if (whole) glEnable(GL_SCISSOR_TEST);  // as the renderer has it for all that it draws
}

}  // namespace

std::unique_ptr<Screen> Screen::open(int width, int height) {
  if (SDL_Init(SDL_INIT_VIDEO) != 0) return nullptr;
  quiet_events();
  set_attributes();
  SDL_Window* window = SDL_CreateWindow("Coatwright", SDL_WINDOWPOS_CENTERED,
                                        SDL_WINDOWPOS_CENTERED, width, height, kWindowFlags);
  if (window == nullptr) return nullptr;
  SDL_GLContext context = SDL_GL_CreateContext(window);
  if (context == nullptr) return nullptr;
  ImGui::CreateContext();
  ImGui::GetIO().IniFilename = nullptr;
  ImGui::GetIO().LogFilename = nullptr;
  ImGui_ImplOpenGL3_Init();
  lay_grounds_by(clear_ground);
  return std::unique_ptr<Screen>(new Screen(window, context));
}

Screen::~Screen() {
  ImGui_ImplOpenGL3_Shutdown();
  ImGui::DestroyContext();
  SDL_GL_DeleteContext(context_);
  SDL_DestroyWindow(window_);
  SDL_Quit();
}

void Screen::resize(int device_width, int device_height) {
  SDL_SetWindowSize(window_, device_width, device_height);
}

void Screen::load_type_for(float device_ratio) {
  type_ratio_ = device_ratio;
  load_type(device_ratio);
  // The next frame makes what lives in the graphics context, the type's texture among it.
  ImGui_ImplOpenGL3_DestroyDeviceObjects();
}

bool Screen::wants_frame() const { return type_lacks_letters(); }

void Screen::begin(float device_width, float device_height) {
  if (type_lacks_letters()) load_type_for(type_ratio_);
  ImGuiIO& io = ImGui::GetIO();
  io.DisplaySize = {device_width, device_height};
  io.DeltaTime = 1.0F / 60.0F;
  ImGui_ImplOpenGL3_NewFrame();
  ImGui::NewFrame();
}

void Screen::end() {
  ImGui::Render();
  const ImVec2 size = ImGui::GetIO().DisplaySize;
  glViewport(0, 0, static_cast<int>(size.x), static_cast<int>(size.y));
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  SDL_GL_SwapWindow(window_);
}

void Screen::end_unseen() { ImGui::EndFrame(); }

void* Screen::make_texture(const TextPicture& picture) {
  GLuint name = 0;
  glGenTextures(1, &name);
  glBindTexture(GL_TEXTURE_2D, name);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA, picture.width, picture.height, 0, GL_RGBA,
               GL_UNSIGNED_BYTE, picture.rgba.data());
  glBindTexture(GL_TEXTURE_2D, 0);
  return reinterpret_cast<void*>(static_cast<std::uintptr_t>(name));
}

void Screen::drop_texture(void* texture) {
  const auto name = static_cast<GLuint>(reinterpret_cast<std::uintptr_t>(texture));
  glDeleteTextures(1, &name);
}

void Screen::restore() {
  forget_script_lines();
  ImGui_ImplOpenGL3_Shutdown();
  ImGui_ImplOpenGL3_Init();
}

}  // namespace coatwright::studio
