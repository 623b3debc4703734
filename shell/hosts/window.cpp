// The studio in a native window: SDL2's events in,
// effects carried out as files in the user's folder.

#include <SDL.h>

#include <cstdio>
#include <filesystem>
#include <memory>
#include <string>

#include "shell/app/app.h"
#include "shell/desk/start.h"
#include "shell/hosts/folder_host.h"
#include "shell/hosts/screen.h"
#include "shell/pages/press.h"
#include "shell/words/fonts.h"
#include "shell/words/studio_words.h"
#include "shell/words/words_table.h"

namespace {

using namespace coatwright::studio;
namespace fs = std::filesystem;

// Where the journal and saved files live: SDL's folder for this user and program.
fs::path user_folder() {
  char* path = SDL_GetPrefPath("", "coatwright");
  const fs::path folder = path == nullptr ? fs::path(".") : fs::path(path);
  SDL_free(path);
  return folder;
}

float ratio_of(SDL_Window* window, int& width, int& height, int& device_width, int& device_height) {
  SDL_GetWindowSize(window, &width, &height);
  SDL_GL_GetDrawableSize(window, &device_width, &device_height);
  return width > 0 ? static_cast<float>(device_width) / static_cast<float>(width) : 1.0F;
}

class Window {
 public:
  Window(std::unique_ptr<Screen> screen, fs::path folder)
      : screen_(std::move(screen)), folder_(std::move(folder)), host_(folder_, today()) {
    measure();
  }

  void run() {
    SDL_StartTextInput();
    Uint32 looked = SDL_GetTicks();
    while (open_) {
      SDL_Event event;
      // At rest the program sleeps until something happens, but for a look at the folder.
      const bool rests = !app_->wants_frame() && !screen_->wants_frame();
      if (rests && SDL_WaitEventTimeout(&event, FolderHost::kLookMs) != 0) take(event);
      while (SDL_PollEvent(&event) != 0) take(event);
      if (SDL_GetTicks() - looked >= FolderHost::kLookMs) {
        looked = SDL_GetTicks();
        host_.look();
      }
      draw();
    }
    leave();
  }

 private:
  void measure() {
    int width = 0, height = 0;
    const float ratio = ratio_of(screen_->window(), width, height, device_width_, device_height_);
    if (ratio != ratio_) screen_->load_type_for(ratio);
    ratio_ = ratio;
    app_->resize(static_cast<float>(width), static_cast<float>(height), ratio);
  }

  void pointer(Contact contact, int id, bool finger, float x, float y) {
    app_->pointer({contact, id, finger, {x, y}, static_cast<double>(SDL_GetTicks())});
  }

  void take_mouse(const SDL_Event& e) {
    if (e.type == SDL_MOUSEMOTION && e.motion.which != SDL_TOUCH_MOUSEID) {
      mouse_ = {static_cast<float>(e.motion.x), static_cast<float>(e.motion.y)};
      pointer(Contact::Move, -1, false, mouse_.x, mouse_.y);
    } else if (e.button.which != SDL_TOUCH_MOUSEID && e.button.button == SDL_BUTTON_LEFT) {
      if (e.type == SDL_MOUSEBUTTONDOWN)
        pointer(Contact::Down, -1, false, static_cast<float>(e.button.x),
                static_cast<float>(e.button.y));
      if (e.type == SDL_MOUSEBUTTONUP)
        pointer(Contact::Up, -1, false, static_cast<float>(e.button.x),
                static_cast<float>(e.button.y));
    }
  }

  void take_finger(const SDL_Event& e) {
    const Contact contact = e.type == SDL_FINGERDOWN ? Contact::Down
                            : e.type == SDL_FINGERUP ? Contact::Up
                                                     : Contact::Move;
    pointer(contact, static_cast<int>(e.tfinger.fingerId), true,
            e.tfinger.x * static_cast<float>(device_width_) / ratio_,
            e.tfinger.y * static_cast<float>(device_height_) / ratio_);
  }

  void take_key(const SDL_KeyboardEvent& e) {
    const bool control = (e.keysym.mod & (KMOD_CTRL | KMOD_GUI)) != 0;
    const bool shift = (e.keysym.mod & KMOD_SHIFT) != 0;
    const bool alt = (e.keysym.mod & KMOD_ALT) != 0 && !control;
    if (alt && e.keysym.sym >= SDLK_0 && e.keysym.sym <= SDLK_9) {
      return app_->key({"Alt+" + std::string(1, static_cast<char>(e.keysym.sym)), false, shift});
    }
    switch (e.keysym.sym) {
      case SDLK_RETURN:
      case SDLK_KP_ENTER:
        return app_->key({"Enter", control, shift});
      case SDLK_BACKSPACE:
        return app_->key({"Backspace", control, shift});
      case SDLK_TAB:
        return app_->key({"Tab", control, shift});
      case SDLK_ESCAPE:
        return app_->key({"Escape", control, shift});
      case SDLK_LEFT:
        return app_->key({"ArrowLeft", control, shift});
      case SDLK_RIGHT:
        return app_->key({"ArrowRight", control, shift});
      case SDLK_UP:
        return app_->key({"ArrowUp", control, shift});
      case SDLK_DOWN:
        return app_->key({"ArrowDown", control, shift});
      case SDLK_HOME:
        return app_->key({"Home", control, shift});
      case SDLK_END:
        return app_->key({"End", control, shift});
      default:
        break;
    }
    if (control && e.keysym.sym == SDLK_v) return paste();
    if (control && e.keysym.sym < 128) {
      app_->key({std::string(1, static_cast<char>(e.keysym.sym)), true, shift});
    }
  }

  void take(const SDL_Event& e) {
    switch (e.type) {
      case SDL_QUIT:
        open_ = false;
        break;
      case SDL_WINDOWEVENT:
        measure();
        break;
      case SDL_MOUSEMOTION:
      case SDL_MOUSEBUTTONDOWN:
      case SDL_MOUSEBUTTONUP:
        take_mouse(e);
        break;
      case SDL_MOUSEWHEEL:
        app_->wheel(mouse_, 0.0F, -80.0F * e.wheel.preciseY, false);
        break;
      case SDL_FINGERDOWN:
      case SDL_FINGERUP:
      case SDL_FINGERMOTION:
        take_finger(e);
        break;
      case SDL_KEYDOWN:
        take_key(e.key);
        break;
      case SDL_TEXTINPUT:
        app_->key({e.text.text, false, false});
        break;
      case SDL_DROPFILE:
        open_file(e.drop.file);
        SDL_free(e.drop.file);
        break;
      default:
        break;
    }
  }

  // Of a file that is larger than any of ours only the size is looked at.
  void open_file(const fs::path& path) {
    std::error_code error;
    const auto bytes = fs::file_size(path, error);
    if (!error && bytes > coatwright::kMostBackupBytes) {
      app_->refuse_file(static_cast<double>(bytes));
    } else {
      app_->open_file(read_file(path));
    }
  }

  void paste() {
    char* text = SDL_GetClipboardText();
    if (text != nullptr) app_->take_text(text);
    SDL_free(text);
  }

  void carry_out(const Effect& effect) {
    if (std::holds_alternative<AskForPaste>(effect)) return paste();
    if (std::holds_alternative<TakePen>(effect)) return host_.take_pen();
    if (const auto* copy = std::get_if<CopyText>(&effect)) {
      SDL_SetClipboardText(copy->text.c_str());
      return app_->tell(studio_words()("ui.text-copied"));
    }
    if (const auto* form = std::get_if<PressForm>(&effect)) return press_now(*form);
    if (std::holds_alternative<AskForFile>(effect))
      return app_->tell(studio_words()("ui.drop-file"));
    if (const auto* file = std::get_if<SaveFile>(&effect)) put(file->name, file->bytes);
    if (const auto* print = std::get_if<PrintSheets>(&effect))
      put("print.html", to_html(print->document), true);
    // All else is the page's business.
  }

  // A file in the folder; what is to be printed is opened in a browser.
  void put(const std::string& name, const std::string& bytes, bool printed = false) {
    const fs::path path = folder_ / name;
    const bool written = write_file(path, bytes) == 0;
    app_->tell(studio_words()(written ? "ui.saved-as" : "ui.not-saved", {path.string()}));
    if (written && printed) SDL_OpenURL(("file://" + path.string()).c_str());
  }

  void press_now(const PressForm& form) {
    const coatwright::PictureFonts fonts{coatwright::font_regular(), coatwright::font_semibold(),
                                         coatwright::font_symbols()};
    coatwright::Pressed made = coatwright::press(form.order, fonts, coatwright::word_table());
    if (!made.file) return app_->pressed(PressEnd::Refused, made.refused);
    put(form.file, made.file->bytes, form.use == FormUse::Print);
    std::string told;
    for (const std::string& sentence : made.file->told)
      told += (told.empty() ? "" : " ") + sentence;
    app_->pressed(PressEnd::Made, told);
  }

  // Everything that was typed is answered and kept before the window closes.
  void leave() {
    constexpr int kMostFrames = 50;
    for (int i = 0; i < kMostFrames && app_->has_input(); ++i) draw();
    host_.leave();
  }

  void draw() {
    if (!app_->wants_frame() && !screen_->wants_frame()) return;
    if (app_->search_instead(static_cast<double>(SDL_GetTicks()))) return;
    screen_->begin(static_cast<float>(device_width_), static_cast<float>(device_height_));
    (void)app_->frame(static_cast<double>(SDL_GetTicks()));
    screen_->end();
    host_.settle();
    for (const Effect& effect : app_->take_effects()) carry_out(effect);
  }

  std::unique_ptr<Screen> screen_;
  fs::path folder_;
  FolderHost host_;
  App* app_ = &host_.app();
  coatwright::studio::Spot mouse_;
  int device_width_ = 0, device_height_ = 0;
  float ratio_ = 0.0F;
  bool open_ = true;
};

}  // namespace

int main(int, char**) {
  auto screen = Screen::open(1180, 820);
  if (!screen) {
    std::fprintf(stderr, "coatwright_window: no window with OpenGL: %s\n", SDL_GetError());
    return 1;
  }
  Window(std::move(screen), user_folder()).run();
  return 0;
}
