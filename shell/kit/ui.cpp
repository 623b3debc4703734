#include "shell/kit/ui.h"

#include <cstdio>

namespace coatwright::studio {

const char* role_name(ControlRole role) {
  switch (role) {
    case ControlRole::Button:
      return "button";
    case ControlRole::Toggle:
      return "toggle";
    case ControlRole::Fold:
      return "fold";
    case ControlRole::Tab:
      return "tab";
    case ControlRole::Option:
      return "radio";
    case ControlRole::Slider:
      return "slider";
    case ControlRole::Text:
      return "text";
    case ControlRole::Number:
      return "number";
    case ControlRole::Status:
      return "status";
    case ControlRole::Heading:
      return "heading";
    case ControlRole::Picture:
      return "img";
  }
  return "";
}

void Ui::begin(std::vector<Gesture> gestures, std::vector<Key> keys) {
  gestures_ = std::move(gestures);
  keys_ = std::move(keys);
  controls_.clear();
  areas_.clear();
  clips_.clear();
  area_.clear();
  item_ = {};
}

void Ui::add(Control control) {
  control.clip = clips_.empty() ? control.box : intersected(control.box, clips_.back());
  control.area = area_;
  control.item = item_;
  controls_.push_back(std::move(control));
}

bool Ui::acted(std::string_view id) const {
  return find(Gesture::Kind::Tap, id) != nullptr || find(Gesture::Kind::DoubleTap, id) != nullptr ||
         find(Gesture::Kind::Act, id) != nullptr;
}

const Gesture* Ui::find(Gesture::Kind kind, std::string_view id) const {
  for (auto g = gestures_.rbegin(); g != gestures_.rend(); ++g) {
    if (g->kind == kind && g->id == id) return &*g;
  }
  return nullptr;
}

std::optional<std::string> Ui::entered(std::string_view id, const std::string& now) const {
  std::optional<std::string> out;
  for (const Gesture& g : gestures_) {
    if (g.kind != Gesture::Kind::Entry || g.id != id) continue;
    const std::string& before = out ? *out : now;
    if (!g.was || *g.was == before) {
      out = g.text;
    } else if (g.text.starts_with(*g.was)) {
      out = before + g.text.substr(g.was->size());
    }
  }
  return out;
}

void Ui::begin_area(Area area) {
  area_ = area.id;
  begin_clip(area.box);
  areas_.push_back(std::move(area));
}

void Ui::end_area(float most) {
  areas_.back().most = most;
  area_.clear();
  end_clip();
}

void Ui::begin_clip(const Box& box) {
  clips_.push_back(clips_.empty() ? box : intersected(clips_.back(), box));
}

void Ui::end_clip() { clips_.pop_back(); }

const Control* Ui::control(std::string_view id) const {
  for (const Control& c : controls_) {
    if (c.id == id) return &c;
  }
  return nullptr;
}

namespace {

float distance_to_middle(const Control& c, Spot spot) {
  const Spot off = c.box.centre() - spot;
  return off.x * off.x + off.y * off.y;
}

bool is_handle(const Control& c) {
  return c.role == ControlRole::Slider && c.travel == Travel::Free;
}

}  // namespace

const Control* Ui::at(Spot spot) const {
  const Control* top = topmost(spot);
  if (top == nullptr || !is_handle(*top)) return top;
  for (const Control& c : controls_) {  // of handles that overlap, the nearest
    if (is_handle(c) && c.clip.contains(spot) &&
        distance_to_middle(c, spot) < distance_to_middle(*top, spot)) {
      top = &c;
    }
  }
  return top;
}

const Control* Ui::topmost(Spot spot) const {
  for (auto c = controls_.rbegin(); c != controls_.rend(); ++c) {
    const bool shown_only = c->role == ControlRole::Status || c->role == ControlRole::Heading ||
                            c->role == ControlRole::Picture;
    if (c->through || (shown_only && c->travel == Travel::None)) continue;
    if (c->clip.contains(spot)) return &*c;
  }
  return nullptr;
}

const Area* Ui::area_at(Spot spot) const {
  for (auto a = areas_.rbegin(); a != areas_.rend(); ++a) {
    if (a->box.contains(spot)) return &*a;
  }
  return nullptr;
}

namespace {

bool is_stop(const Control& c) {
  return c.enabled && !c.silent && c.role != ControlRole::Status &&
         c.role != ControlRole::Heading && c.role != ControlRole::Picture;
}

}  // namespace

std::string next_stop(const std::vector<Control>& controls, std::string_view id, int step) {
  const int n = static_cast<int>(controls.size());
  int from = step > 0 ? -1 : n;
  for (int i = 0; i < n; ++i) {
    if (controls[static_cast<size_t>(i)].id == id) from = i;
  }
  for (int i = 1; i <= n; ++i) {
    const auto at = static_cast<size_t>(((from + step * i) % n + n) % n);
    if (is_stop(controls[at])) return controls[at].id;
  }
  return {};
}

namespace {

void append_string(std::string& out, const char* key, std::string_view text) {
  out += ",\"";
  out += key;
  out += "\":\"";
  for (const char c : text) {
    char escaped[8];
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (static_cast<unsigned char>(c) < 0x20) {
      std::snprintf(escaped, sizeof escaped, "\\u%04x", static_cast<unsigned>(c));
      out += escaped;
    } else {
      out += c;
    }
  }
  out += '"';
}

void append_control(std::string& out, const Control& c) {
  char numbers[160];
  std::snprintf(numbers, sizeof numbers, "{\"box\":[%.1f,%.1f,%.1f,%.1f],\"seen\":%s",
                static_cast<double>(c.box.x), static_cast<double>(c.box.y),
                static_cast<double>(c.box.w), static_cast<double>(c.box.h),
                c.clip.w > 1.0F && c.clip.h > 0.9F * c.box.h ? "true" : "false");
  out += numbers;
  append_string(out, "id", c.id);
  append_string(out, "role", role_name(c.role));
  append_string(out, "name", c.name);
  if (!c.value.empty() || c.role == ControlRole::Text || c.role == ControlRole::Number) {
    append_string(out, "value", c.value);
  }
  if (!c.group.empty()) append_string(out, "group", c.group);
  if (!c.item.list.empty()) {
    append_string(out, "list", c.item.list);
    append_string(out, "item", c.item.id);
    std::snprintf(numbers, sizeof numbers, ",\"place\":%zu,\"of\":%zu", c.item.place, c.item.of);
    out += numbers;
  }
  if (!c.note.empty()) append_string(out, "note", c.note);
  if (!c.enabled) out += ",\"disabled\":true";
  if (c.chosen) out += ",\"chosen\":true";
  if (c.role == ControlRole::Slider) {
    std::snprintf(numbers, sizeof numbers, ",\"low\":%.6g,\"high\":%.6g,\"now\":%.6g,\"step\":%.6g",
                  c.low, c.high, c.now, c.step);
    out += numbers;
  }
  out += '}';
}

}  // namespace

std::string mirror_json(const Ui& ui) {
  std::string out = "[";
  for (const Control& c : ui.controls()) {
    if (c.silent) continue;
    if (out.size() > 1) out += ',';
    append_control(out, c);
  }
  out += ']';
  return out;
}

}  // namespace coatwright::studio
