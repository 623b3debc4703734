#include "shell/hosts/page.h"

#include <emscripten.h>
#include <imgui.h>

#include <algorithm>
#include <cstdlib>
#include <iterator>
#include <memory>
#include <span>
#include <string>
#include <utility>

#include "core/rack/backup.h"
#include "core/slip/code.h"
#include "shell/app/app.h"
#include "shell/desk/letters.h"
#include "shell/desk/start.h"
#include "shell/hosts/screen.h"
#include "shell/kit/painter.h"
#include "shell/words/fonts.h"
#include "shell/words/say.h"
#include "shell/words/studio_words.h"

EM_JS(void, page_call,
      (const char* kind, const char* name, const char* type, const char* bytes, int size), {
        Module.page(UTF8ToString(kind), UTF8ToString(name), UTF8ToString(type),
                    HEAPU8.slice(bytes, bytes + size));
      });

// The browser's letters (web/letters.js).
EM_JS(double, browser_width, (const char* words, int bold, double size),
      { return Module.letters.width(UTF8ToString(words), bold, size); });
EM_JS(int, browser_fitting, (const char* words, int bold, double size, double width),
      { return Module.letters.fitting(UTF8ToString(words), bold, size, width); });
// Pixels in the program's memory, to be freed; null if there is no room. `frame`: left, top, width,
// height.
EM_JS(unsigned char*, browser_draw,
      (const char* words, int bold, double size, const char* colour, int* frame), {
        const line = Module.letters.draw(UTF8ToString(words), bold, size, UTF8ToString(colour));
        const place = _malloc(line.pixels.length);
        if (place) {
          HEAPU8.set(line.pixels, place);
          HEAP32.set(line.frame, frame >> 2);
        }
        return place;
      });

void coatwright_page(const char* kind, const char* name, const char* type, const char* bytes,
                     int size) {
  page_call(kind, name, type, bytes, size);
}

namespace {

using namespace coatwright::studio;

// Bytes that the page fills for one call.
struct Room {
  std::unique_ptr<char, decltype(&std::free)> bytes = {nullptr, &std::free};
  size_t size = 0;
  // As much of it as the page says that it filled; nothing of a place that was not lent.
  [[nodiscard]] std::string_view filled(const char* place, int count) const {
    if (place != bytes.get() || count < 0) return {};
    return {bytes.get(), std::min(size, static_cast<size_t>(count))};
  }
};

// The program's whole state; the page's calls are all that reach it.
struct Page {
  std::unique_ptr<Screen> screen;
  std::unique_ptr<App> app;
  int width = 0, height = 0;  // device pixels
  float ratio = 0.0F;
  std::vector<std::string> cards;  // that the store holds, until it is hung
  std::string mirror;              // as last sent
  double mirror_ms = 0.0;
  double drawn_ms = 0.0;
  bool unseen = false;  // something was answered that no picture shows yet
  Room room;
};
Page& page() {
  static Page the_page;
  return the_page;
}

void send(const char* kind, std::string_view bytes, const char* name = "", const char* type = "") {
  coatwright_page(kind, name, type, bytes.data(), static_cast<int>(bytes.size()));
}

// What the program's own typefaces lack, set by the browser in these and whatever else it has.
class BrowserLetters : public Letters {
 public:
  float width(const std::string& words, bool bold, float size) override {
    begin();
    return static_cast<float>(browser_width(words.c_str(), bold, static_cast<double>(size)));
  }
  size_t fitting(const std::string& words, bool bold, float size, float width) override {
    begin();
    const int bytes =
        browser_fitting(words.c_str(), bold, static_cast<double>(size), static_cast<double>(width));
    return std::min(words.size(), static_cast<size_t>(std::max(0, bytes)));
  }
  coatwright::TextPicture draw(const std::string& words, bool bold, float size,
                               const std::string& colour) override {
    begin();
    int frame[4] = {};
    const std::unique_ptr<unsigned char, decltype(&std::free)> pixels(
        browser_draw(words.c_str(), bold, static_cast<double>(size), colour.c_str(), frame),
        &std::free);
    if (!pixels) return {};
    const size_t bytes = 4 * static_cast<size_t>(frame[2]) * static_cast<size_t>(frame[3]);
    return {frame[2], frame[3], frame[0], frame[1], {pixels.get(), pixels.get() + bytes}};
  }
  void* upload(const coatwright::TextPicture& picture) override {
    return Screen::make_texture(picture);
  }
  void drop(void* texture) override { Screen::drop_texture(texture); }

 private:
  // The faces are handed over with the first line, which most makers never have.
  void begin() {
    if (std::exchange(begun_, true)) return;
    const auto face = [](const char* weight, std::span<const unsigned char> bytes) {
      send("face", {reinterpret_cast<const char*>(bytes.data()), bytes.size()}, weight);
    };
    face("400", coatwright::font_regular());
    face("600", coatwright::font_semibold());
  }
  bool begun_ = false;
};

// What was lent, which ends with the call that takes it.
Room take_room() { return std::exchange(page().room, Room{}); }

void carry_out(const Effect& effect) {
  if (const auto* file = std::get_if<SaveFile>(&effect)) {
    send("save", file->bytes, file->name.c_str(), file->type.c_str());
  } else if (const auto* print = std::get_if<PrintSheets>(&effect)) {
    send("print", print->document.body, print->document.rules.c_str());
  } else if (const auto* form = std::get_if<PressForm>(&effect)) {
    constexpr const char* kUses[] = {"press", "press-share", "press-print"};  // FormUse
    send(kUses[static_cast<int>(form->use)], form->order, form->file.c_str());
  } else if (std::holds_alternative<StopPress>(effect)) {
    send("press-stop", "");
  } else if (std::holds_alternative<AskForFile>(effect)) {
    send("ask-file", "");
  } else if (const auto* photo = std::get_if<AskForPhoto>(&effect)) {
    send("photo-ask", photo->key.id, photo->key.ticket.c_str(), photo->camera ? "camera" : "");
  } else if (const auto* shown = std::get_if<ShowPhoto>(&effect)) {
    send("photo-show", shown->key.id, shown->key.ticket.c_str());
  } else if (const auto* read = std::get_if<ReadPhoto>(&effect)) {
    send("photo-read", read->key.id, read->key.ticket.c_str());
  } else if (const auto* kept = std::get_if<KeepPhoto>(&effect)) {
    send("photo-keep", kept->jpeg, kept->key.ticket.c_str(), kept->key.id.c_str());
  } else if (std::holds_alternative<TakePen>(effect)) {
    send("take-pen", "");
  } else if (std::holds_alternative<Install>(effect)) {
    send("install", "");
  } else if (const auto* share = std::get_if<ShareText>(&effect)) {
    send("share", share->text, share->title.c_str());
  } else if (const auto* copy = std::get_if<CopyText>(&effect)) {
    send("copy", copy->text);
  } else if (const auto* mail = std::get_if<MailText>(&effect)) {
    send("mail", mail->text, mail->subject.c_str());
  } else if (std::holds_alternative<AskForPaste>(effect)) {
    send("ask-paste", "");
  } else if (const auto* open = std::get_if<OpenPage>(&effect)) {
    send("open", open->file);
  } else if (const auto* table = std::get_if<LightTable>(&effect)) {
    send("cloth", table->order);
  } else if (const auto* look = std::get_if<RememberLook>(&effect)) {
    send("look", look->evening ? "evening" : "day");
  }
}

// What the store holds, with the cards that were handed over before.
Stored stored(Page& p, std::string_view text) {
  Stored out = read_stored(text);
  std::move(p.cards.begin(), p.cards.end(), std::back_inserter(out.cards));
  p.cards.clear();
  return out;
}

void send_wanted(Page& p) {
  if (const auto id = p.app->take_wanted()) send("history", *id);
}

void send_keeps(Page& p, bool at_once = false) {
  const std::vector<Keep> keeps = p.app->take_keeps(at_once);
  for (const Keep& keep : keeps) send("keep", keep_json(keep));
  if (!keeps.empty()) send("mark", p.app->rack().mark());
}

bool draw(Page& p, double now_ms) {
  p.screen->begin(static_cast<float>(p.width), static_cast<float>(p.height));
  const bool wanted = p.app->frame(now_ms);
  p.screen->end();
  return wanted || p.screen->wants_frame();
}

void draw_anew(Page& p) {
  p.app->resize(static_cast<float>(p.width) / p.ratio, static_cast<float>(p.height) / p.ratio,
                p.ratio);
}

void frame_unseen(Page& p) {
  p.screen->begin(static_cast<float>(p.width), static_cast<float>(p.height));
  (void)p.app->frame(p.drawn_ms);
  p.screen->end_unseen();
  p.unseen = true;
}

// Answers what was entered without a picture of it, which takes the page's graphics far longer: a page that is hidden or
// left draws none, and what was typed is kept before it is seen.
void answer(Page& p) {
  constexpr int kMostFrames = 50;  // a frame answers at least one entry
  if (!p.app || p.width == 0) return;
  for (int i = 0; i < kMostFrames && p.app->has_input(); ++i) frame_unseen(p);
}

// While things move the mirror follows ten times a second; at rest it is exact.
void send_mirror(Page& p, double now_ms, bool moving) {
  constexpr double kEveryMs = 100.0;
  if (moving && now_ms - p.mirror_ms < kEveryMs) return;
  p.mirror_ms = now_ms;
  std::string mirror = p.app->mirror();
  if (mirror == p.mirror) return;
  p.mirror = std::move(mirror);
  send("mirror", p.mirror);
}

void carry_out_all(Page& p) {
  for (const Effect& effect : p.app->take_effects()) carry_out(effect);
}

// What came of a frame.
void send_all(Page& p, double now_ms, bool moving) {
  send_keeps(p);
  send_wanted(p);
  send_mirror(p, now_ms, moving);
  carry_out_all(p);
}

// What a key or a press has changed is in the mirror, and the focus where it belongs, before the next key comes: who types
// fast types into what they see next.
void answer_at_once(Page& p) {
  if (!p.app || p.width == 0 || !p.app->has_input()) return;
  answer(p);
  // The change itself, and where it has led.
  for (int i = 0; i < 2 && p.app->wants_frame(); ++i) frame_unseen(p);
  send_all(p, p.drawn_ms, false);
}

}  // namespace

extern "C" {

EMSCRIPTEN_KEEPALIVE char* coatwright_room(int size) {
  Page& p = page();
  p.room = {};
  if (size >= 0) p.room.bytes.reset(static_cast<char*>(std::malloc(static_cast<size_t>(size) + 1)));
  if (p.room.bytes) {
    p.room.size = static_cast<size_t>(size);
  } else if (p.app) {
    p.app->tell(studio_words()("ui.no-room"));
  }
  return p.room.bytes.get();
}

EMSCRIPTEN_KEEPALIVE void coatwright_stored_cards(const char* bytes, int size) {
  const Room room = take_room();
  for (std::string& line : read_stored_cards(room.filled(bytes, size))) {
    page().cards.push_back(std::move(line));
  }
}

EMSCRIPTEN_KEEPALIVE void coatwright_start(const char* bytes, int size, int follows) {
  const Room room = take_room();
  Page& p = page();
  p.screen = Screen::open(1, 1);
  if (!p.screen) return send("no-graphics", "");
  static BrowserLetters the_letters;
  use_letters(&the_letters);
  Rack rack(outside(), demo_ticket());
  const Stored held = stored(p, room.filled(bytes, size));
  rack.hang(held);
  p.app = std::make_unique<App>(studio_words(), std::move(rack), today(), true);
  if (follows != 0) p.app->follow();
  p.app->resume(read_half(held.half));
  send_wanted(p);
}

EMSCRIPTEN_KEEPALIVE void coatwright_hang(const char* bytes, int size, int follows) {
  const Room room = take_room();
  Page& p = page();
  p.app->hang(stored(p, room.filled(bytes, size)), follows != 0);
  send_wanted(p);
}

EMSCRIPTEN_KEEPALIVE void coatwright_card(const char* id, const char* bytes, int size) {
  const Room room = take_room();
  page().app->card_changed(id, std::string(room.filled(bytes, size)));
  send_wanted(page());
}

EMSCRIPTEN_KEEPALIVE void coatwright_history(const char* id, const char* bytes, int size) {
  const Room room = take_room();
  page().app->history_read(id, room.filled(bytes, size));
}

EMSCRIPTEN_KEEPALIVE void coatwright_keep_failed(const char* id) { page().app->keep_failed(id); }

EMSCRIPTEN_KEEPALIVE void coatwright_history_unread(const char* id) {
  page().app->history_unread(id);
}

EMSCRIPTEN_KEEPALIVE void coatwright_join(const char* bytes, int size) {
  const Room room = take_room();
  page().app->join(stored(page(), room.filled(bytes, size)));
  send_keeps(page());  // a hidden page draws no frame
  send_wanted(page());
}

EMSCRIPTEN_KEEPALIVE void coatwright_keep_again() {
  page().app->keep_again();
  send_keeps(page());
}

EMSCRIPTEN_KEEPALIVE void coatwright_flush(int everything) {
  Page& p = page();
  if (!p.app) return;
  answer(p);
  if (everything != 0) p.app->keep_everything();
  send_keeps(p, true);
  send("half", p.app->half_typed());
}

EMSCRIPTEN_KEEPALIVE void coatwright_keeping(int kept, int installable) {
  if (kept < 0 || kept >= kKeptStates) return;
  page().app->know({.kept = static_cast<Kept>(kept), .installable = installable != 0});
}

EMSCRIPTEN_KEEPALIVE void coatwright_resize(double width, double height, int device_width,
                                            int device_height) {
  Page& p = page();
  p.width = device_width;
  p.height = device_height;
  const auto ratio = static_cast<float>(device_width / std::max(1.0, width));
  p.screen->resize(device_width, device_height);
  if (ratio != p.ratio) p.screen->load_type_for(ratio);
  p.ratio = ratio;
  p.app->resize(static_cast<float>(width), static_cast<float>(height), ratio);
}

EMSCRIPTEN_KEEPALIVE void coatwright_pointer(int contact, int pointer, int finger, double x,
                                             double y, double time_ms) {
  page().app->pointer({static_cast<Contact>(contact),
                       pointer,
                       finger != 0,
                       {static_cast<float>(x), static_cast<float>(y)},
                       time_ms});
}

EMSCRIPTEN_KEEPALIVE void coatwright_wheel(double x, double y, double dx, double dy, int zoom) {
  page().app->wheel({static_cast<float>(x), static_cast<float>(y)}, static_cast<float>(dx),
                    static_cast<float>(dy), zoom != 0);
}

EMSCRIPTEN_KEEPALIVE void coatwright_key(const char* name, int control, int shift) {
  page().app->key({name, control != 0, shift != 0});
  answer_at_once(page());
}

EMSCRIPTEN_KEEPALIVE void coatwright_act(const char* id) {
  page().app->act(id);
  answer_at_once(page());
}

EMSCRIPTEN_KEEPALIVE void coatwright_enter(const char* id, const char* text, const char* was) {
  Page& p = page();
  p.app->enter(id, text, was);
  p.mirror.clear();  // the field holds what was typed, whatever the program said of it last
  if (std::string_view(text).ends_with('\n')) return answer_at_once(p);
  answer(p);
  send_keeps(p);
}

EMSCRIPTEN_KEEPALIVE void coatwright_focus(const char* id, int shown) {
  page().app->focus(id, shown != 0);
}

EMSCRIPTEN_KEEPALIVE int coatwright_most_file() {
  return static_cast<int>(coatwright::kMostBackupBytes);
}
// As much of a text as is worth handing in: more than may be read, so that what is too large is
// refused for that.
EMSCRIPTEN_KEEPALIVE int coatwright_most_text() {
  return static_cast<int>(2 * coatwright::kMostMessageBytes);
}

EMSCRIPTEN_KEEPALIVE void coatwright_file(const char* bytes, int size) {
  const Room room = take_room();
  page().app->open_file(room.filled(bytes, size));
}

EMSCRIPTEN_KEEPALIVE void coatwright_file_too_large(double bytes) {
  page().app->refuse_file(bytes);
}

EMSCRIPTEN_KEEPALIVE void coatwright_site(const char* address, int shares, int shares_files,
                                          int keeps_pages, int camera) {
  page().app->stands_at({.address = address,
                         .shares = shares != 0,
                         .shares_files = shares_files != 0,
                         .keeps_pages = keeps_pages != 0,
                         .photographs = true,
                         .camera = camera != 0});
}

EMSCRIPTEN_KEEPALIVE void coatwright_photo_taken(const char* id, int width, int height) {
  page().app->photo_taken(id, width, height);
}

EMSCRIPTEN_KEEPALIVE void coatwright_photo_shown(const char* id, const char* bytes, int size,
                                                 int width, int height) {
  const Room room = take_room();
  const std::string_view pixels = room.filled(bytes, size);
  if (pixels.size() != 4 * static_cast<size_t>(width) * static_cast<size_t>(height)) return;
  page().app->photo_shown(id, {width, height, 0, 0, {pixels.begin(), pixels.end()}});
}

// A backup asks for one photograph after the other, without a picture in between.
EMSCRIPTEN_KEEPALIVE void coatwright_photo_read(const char* id, const char* bytes, int size) {
  const Room room = take_room();
  page().app->photo_read(id, std::string(room.filled(bytes, size)));
  carry_out_all(page());
}

EMSCRIPTEN_KEEPALIVE void coatwright_pressed(int end, const char* sentence) {
  if (end < 0 || end >= kPressEnds) return;
  page().app->pressed(static_cast<PressEnd>(end), sentence);
}

EMSCRIPTEN_KEEPALIVE void coatwright_text(const char* bytes, int size) {
  const Room room = take_room();
  page().app->take_text(room.filled(bytes, size));
}

EMSCRIPTEN_KEEPALIVE void coatwright_link(const char* bytes, int size) {
  const Room room = take_room();
  page().app->take_link(room.filled(bytes, size));
}

EMSCRIPTEN_KEEPALIVE void coatwright_tell(const char* word_key) {
  page().app->tell(studio_words()(word_key));
}

EMSCRIPTEN_KEEPALIVE void coatwright_evening() { page().app->wear_evening(); }

EMSCRIPTEN_KEEPALIVE int coatwright_frame(double now_ms) {
  Page& p = page();
  if (!p.app || p.width == 0) return 0;
  if (!p.unseen && !p.app->wants_frame() && !p.screen->wants_frame()) return 0;
  p.unseen = false;
  if (p.app->search_instead(now_ms)) return 4;
  p.drawn_ms = now_ms;
  const bool again = draw(p, now_ms);
  send_all(p, now_ms, p.app->moving());
  return again ? 3 : 2;
}

EMSCRIPTEN_KEEPALIVE void coatwright_restore() {
  page().app->forget_photo();
  page().screen->restore();
  draw_anew(page());
}

EMSCRIPTEN_KEEPALIVE void coatwright_faces() {
  forget_script_lines();
  draw_anew(page());
}

EMSCRIPTEN_KEEPALIVE void coatwright_prepare_print() {
  const coatwright::HtmlDocument document = page().app->print_document();
  send("print-ready", document.body, document.rules.c_str());
}
}

int main() { return 0; }
