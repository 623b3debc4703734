#include "tests/shell/driver.h"

#include <gtest/gtest.h>
#include <imgui.h>

#include <cstdio>
#include <memory>

#include "shell/desk/start.h"
#include "shell/kit/painter.h"
#include "shell/words/fonts.h"
#include "shell/words/studio_words.h"
#include "shell/words/words_table.h"

namespace coatwright::studio {
namespace {

const Control* find_control(const Ui& ui, std::string_view name) {
  for (const Control& c : ui.controls()) {
    if (c.id == name) return &c;
  }
  for (const Control& c : ui.controls()) {
    if (c.name == name && !c.silent) return &c;
  }
  return nullptr;
}

}  // namespace

Ticket a_ticket() { return demo_ticket(); }

Outside an_outside() {
  auto count = std::make_shared<int>(0);
  return {[] { return kNow; },
          [count] {
            char id[16];
            std::snprintf(id, sizeof id, "test%04d", (*count)++);
            return std::string(id);
          }};
}

namespace {

Rack first_visit(const Ticket& ticket) {
  Rack rack(an_outside(), ticket);
  rack.hang({});
  return rack;
}

// A rack as a store has it on which this history's ticket is open.
Rack kept_rack(const History& history) {
  Rack rack(an_outside(), Ticket{});
  const Card card{.id = "kept0000", .changed = kNow, .slips = {}, .ticket = history.now()};
  rack.hang({.notes = {}, .cards = {write_card(card)}, .before = {}});
  (void)rack.take_wanted();
  EXPECT_FALSE(rack.history_read(card.id, history.journal()).has_value());
  return rack;
}

}  // namespace

Driver::Driver(Ticket ticket, float width, float height)
    : Driver(first_visit(ticket), width, height) {}

Driver::Driver(const History& history, float width, float height)
    : Driver(kept_rack(history), width, height) {}

Driver::Driver(Rack rack, float width, float height)
    : app(studio_words(), std::move(rack), Today{{2026, 11}, "2026-11-24"}, false) {
  ImGui::CreateContext();
  ImGui::GetIO().IniFilename = nullptr;
  load_type(1.0F);
  resize(width, height);
  settle();
}

Driver::~Driver() { ImGui::DestroyContext(); }

void Driver::frame() {
  now_ms += 16.0;
  if (type_lacks_letters()) load_type(1.0F);
  ImGui::NewFrame();
  (void)app.frame(now_ms);
  ImGui::Render();
}

int Driver::settle(int most) {
  int n = 0;
  while (app.wants_frame() && n < most) {
    frame();
    ++n;
  }
  return n;
}

void Driver::resize(float width, float height) {
  ImGuiIO& io = ImGui::GetIO();
  io.DisplaySize = {width, height};
  io.DeltaTime = 1.0F / 60.0F;
  app.resize(width, height, 1.0F);
  settle();
}

const Control& Driver::see(std::string_view name) const {
  static const Control kNone;
  const Control* found = find_control(app.ui(), name);
  if (found == nullptr) ADD_FAILURE() << "no control is called \"" << name << "\"";
  return found == nullptr ? kNone : *found;
}

bool Driver::sees(std::string_view name) const { return find_control(app.ui(), name) != nullptr; }

void Driver::send(Contact contact, int pointer, bool finger, Spot at) {
  app.pointer({contact, pointer, finger, at, now_ms});
}

void Driver::tap_at(Spot at) {
  now_ms += 1000.0;  // no double tap by accident
  send(Contact::Down, 1, false, at);
  settle();
  send(Contact::Up, 1, false, at);
  settle();
}

void Driver::click(std::string_view name) {
  const Control& c = see(name);
  if (!c.area.empty() && c.clip.h < c.box.h) {  // scrolled away: come to it by the keyboard
    app.focus(c.id, true);
    settle();
  }
  tap_at(see(name).clip.centre());
}

void Driver::drag_begin(std::string_view name, float dx, float dy, bool finger) {
  const Spot from = see(name).clip.centre();
  held_finger_ = finger;
  send(Contact::Down, 1, finger, from);
  settle();
  for (int i = 1; i <= 8; ++i) {
    held_at_ = from + (0.125F * static_cast<float>(i)) * Spot{dx, dy};
    send(Contact::Move, 1, finger, held_at_);
    settle();
  }
}

void Driver::drag_end() {
  send(Contact::Up, 1, held_finger_, held_at_);
  settle();
}

void Driver::drag(std::string_view name, float dx, float dy, bool finger) {
  drag_begin(name, dx, dy, finger);
  drag_end();
}

void Driver::pinch(Spot a0, Spot b0, Spot a1, Spot b1) {
  send(Contact::Down, 1, true, a0);
  send(Contact::Down, 2, true, b0);
  settle();
  for (int i = 1; i <= 8; ++i) {
    const float t = 0.125F * static_cast<float>(i);
    send(Contact::Move, 1, true, a0 + t * (a1 - a0));
    send(Contact::Move, 2, true, b0 + t * (b1 - b0));
    settle();
  }
  send(Contact::Up, 1, true, a1);
  send(Contact::Up, 2, true, b1);
  settle();
}

void Driver::type(std::string_view keys) {
  for (const char key : keys) press({&key, 1});
}

void Driver::press(std::string_view key, bool control, bool shift) {
  app.key({std::string(key), control, shift});
  settle();
}

void Driver::enter(std::string_view name, std::string_view text) {
  app.enter(see(name).id, std::string(text));
  settle();
}

void Driver::act(std::string_view name) {
  app.act(see(name).id);
  settle();
}

FormFile pressed(const PressForm& form) {
  const PictureFonts fonts{font_regular(), font_semibold(), font_symbols()};
  Pressed made = coatwright::press(form.order, fonts, word_table());
  if (!made.file) ADD_FAILURE() << form.file << ": " << made.refused;
  return made.file.value_or(FormFile{});
}

FormFile made_by(Driver& driver, std::string_view key) {
  (void)driver.app.take_effects();
  driver.click(key);
  const Effects effects = driver.app.take_effects();
  const auto* form = effects.empty() ? nullptr : std::get_if<PressForm>(&effects.back());
  if (form == nullptr) {
    ADD_FAILURE() << key << " orders nothing";
    return {};
  }
  FormFile file = pressed(*form);
  std::string told;
  for (const std::string& sentence : file.told) told += (told.empty() ? "" : " ") + sentence;
  driver.app.pressed(PressEnd::Made, told);
  driver.settle();
  return file;
}

Ticket named(const std::string& dog) {
  Ticket ticket = demo_ticket();
  ticket.dog = dog;
  return ticket;
}

}  // namespace coatwright::studio
