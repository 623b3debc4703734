#include "shell/kit/ui.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>
#include <map>
#include <utility>

namespace coatwright::studio {

const char* role_name(ControlRole role) {
  switch (role) {
    case ControlRole::Button:
      return "button";
    case ControlRole::Toggle:
      return "toggle";
    case ControlRole::Tick:
      return "tick";
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
    case ControlRole::Words:
      return "words";
    case ControlRole::Heading:
      return "heading";
    case ControlRole::Picture:
      return "img";
  }
  return "";
}

bool only_shows(const Control& control) {
  using R = ControlRole;
  return control.role == R::Status || control.role == R::Words || control.role == R::Heading ||
         control.role == R::Picture;
}

void Ui::begin(std::vector<Gesture> gestures, std::vector<Key> keys) {
  gestures_ = std::move(gestures);
  keys_ = std::move(keys);
  before_ = std::exchange(controls_, {});
  items_before_ = std::exchange(items_, {});
  parts_.clear();
  part_ = {};
  heading_ = 1;  // the page's own
  areas_.clear();
  clips_.clear();
  area_.clear();
  item_ = nullptr;
}

void Ui::add(Control control) {
  control.clip = clips_.empty() ? control.box : intersected(control.box, clips_.back());
  control.area = area_;
  control.item = item_;
  control.part = part_;
  if (control.role == ControlRole::Heading) {  // no level is left out on the way down
    heading_ = control.level = std::min(control.level, heading_ + 1);
  }
  const bool of_group = control.role == ControlRole::Option || control.role == ControlRole::Tab;
  control.in_set = control.in_set || of_group;
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

void Ui::begin_part(Part part) {
  part_ = part.id;
  parts_.push_back(std::move(part));
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
    if (c->through || (only_shows(*c) && c->travel == Travel::None)) continue;
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

constexpr size_t kNone = std::numeric_limits<size_t>::max();

// The focus stays on a control that can do nothing just now.
bool may_have_focus(const Control& c, std::string_view focus) {
  return !c.silent && !only_shows(c) && (c.enabled || c.id == focus);
}

size_t place_of(const std::vector<Control>& controls, std::string_view id) {
  const auto found =
      std::find_if(controls.begin(), controls.end(), [&](const Control& c) { return c.id == id; });
  return found == controls.end() ? kNone : static_cast<size_t>(found - controls.begin());
}

}  // namespace

std::vector<bool> tab_stops(const std::vector<Control>& controls, std::string_view focus) {
  std::vector<bool> out(controls.size(), false);
  const auto rank = [&](const Control& c) { return c.id == focus ? 2 : c.chosen ? 1 : 0; };
  std::map<std::pair<std::string_view, std::string_view>, size_t> best;
  for (size_t i = 0; i < controls.size(); ++i) {
    const Control& c = controls[i];
    if (!may_have_focus(c, focus) || (!c.tab && c.id != focus)) continue;
    if (!c.in_set) {
      out[i] = true;
      continue;
    }
    const auto [at, is_new] =
        best.emplace(std::pair<std::string_view, std::string_view>{c.part, c.group}, i);
    if (!is_new && rank(c) > rank(controls[at->second])) at->second = i;
  }
  for (const auto& [set, i] : best) out[i] = true;
  return out;
}

std::string next_stop(const std::vector<Control>& controls, std::string_view id, int step) {
  const std::vector<bool> stops = tab_stops(controls, id);
  const int n = static_cast<int>(controls.size());
  const size_t at = place_of(controls, id);
  const int from = at != kNone ? static_cast<int>(at) : step > 0 ? -1 : n;
  for (int i = 1; i <= n; ++i) {
    const auto next = static_cast<size_t>(((from + step * i) % n + n) % n);
    if (stops[next]) return controls[next].id;
  }
  return {};
}

namespace {

// Of a set, above or below: the nearest in the rows there, the one most nearly in line.
size_t in_next_row(const std::vector<Control>& controls, const std::vector<size_t>& set, size_t id,
                   bool down) {
  const Spot from = controls[id].box.centre();
  size_t nearest = kNone;
  float least = std::numeric_limits<float>::infinity();
  for (const size_t i : set) {
    const Spot off = controls[i].box.centre() - from;
    const float away = down ? off.y : -off.y;
    if (away < 4.0F) continue;
    const float far = 4.0F * away + std::abs(off.x);
    if (far < least) {
      least = far;
      nearest = i;
    }
  }
  return nearest;
}

}  // namespace

std::string beside(const std::vector<Control>& controls, std::string_view id,
                   std::string_view key) {
  const size_t at = place_of(controls, id);
  if (at == kNone || !controls[at].in_set) return {};
  std::vector<size_t> set;
  for (size_t i = 0; i < controls.size(); ++i) {
    const Control& c = controls[i];
    const bool same = c.in_set && c.part == controls[at].part && c.group == controls[at].group;
    if (same && may_have_focus(c, id)) set.push_back(i);
  }
  const size_t n = set.size();
  const auto mine = static_cast<size_t>(std::find(set.begin(), set.end(), at) - set.begin());
  if (mine == n) return {};
  if (key == "Home") return controls[set.front()].id;
  if (key == "End") return controls[set.back()].id;
  const bool down = key == "ArrowDown", up = key == "ArrowUp";
  if (!down && !up && key != "ArrowRight" && key != "ArrowLeft") return {};
  // Options are one row, as screen readers count them; other sets have the rows that are seen.
  const bool one_row =
      controls[at].role == ControlRole::Option || controls[at].role == ControlRole::Tab;
  if ((down || up) && !one_row) {
    if (const size_t there = in_next_row(controls, set, at, down); there != kNone) {
      return controls[there].id;
    }
  }
  const bool forward = down || key == "ArrowRight";
  return controls[set[(mine + (forward ? 1 : n - 1)) % n]].id;
}

namespace {

// From one item of a list to the next one, else to the one before.
std::string item_beside(const std::vector<Control>& before, const std::vector<Control>& now,
                        size_t lost) {
  const ListItem& item = *before[lost].item;
  const auto first_of = [&](const ListItem& other) -> std::string {
    for (const Control& c : now) {
      if (c.item != nullptr && c.item->id == other.id && may_have_focus(c, {})) return c.id;
    }
    return {};
  };
  const auto is_other = [&](const Control& c) {
    return c.item != nullptr && c.item->id != item.id;
  };
  for (size_t i = lost + 1; i < before.size(); ++i) {
    if (!is_other(before[i])) continue;
    if (std::string id = first_of(*before[i].item); !id.empty()) return id;
  }
  for (size_t i = lost; i-- > 0;) {
    if (!is_other(before[i])) continue;
    if (std::string id = first_of(*before[i].item); !id.empty()) return id;
  }
  return {};
}

}  // namespace

std::string successor(const std::vector<Control>& before, const std::vector<Control>& now,
                      std::string_view lost) {
  const size_t at = place_of(before, lost);
  const std::vector<bool> stops = tab_stops(now, {});
  const auto there = [&](const Control& c, std::string_view part) {
    if (c.part != part || c.item != nullptr) return false;
    const size_t i = place_of(now, c.id);
    return i != kNone && now[i].part == part && may_have_focus(now[i], {});
  };
  if (at != kNone) {
    const std::string_view part = before[at].part;
    if (before[at].item != nullptr) {
      if (std::string id = item_beside(before, now, at); !id.empty()) return id;
    }
    for (size_t i = at; i-- > 0;) {
      if (there(before[i], part)) return before[i].id;
    }
    for (size_t i = at + 1; i < before.size(); ++i) {
      if (there(before[i], part)) return before[i].id;
    }
  }
  for (size_t i = 0; i < now.size(); ++i) {
    if (stops[i] && now[i].part == kSheetPart) return now[i].id;
  }
  for (size_t i = 0; i < now.size(); ++i) {
    if (stops[i]) return now[i].id;
  }
  return {};
}

namespace {

void append_string(std::string& out, const char* key, std::string_view text) {
  if (out.back() != '{') out += ',';
  out += '"';
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

void append_part(std::string& out, const Part& part) {
  out += '{';
  append_string(out, "id", part.id);
  append_string(out, "role", part.role);
  if (!part.name.empty()) append_string(out, "name", part.name);
  if (!part.named_by.empty()) append_string(out, "by", part.named_by);
  out += '}';
}

void append_control(std::string& out, const Control& c, bool stop) {
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
  if (c.item != nullptr) {
    append_string(out, "list", c.item->list);
    append_string(out, "item", c.item->id);
    std::snprintf(numbers, sizeof numbers, ",\"place\":%zu,\"of\":%zu", c.item->place, c.item->of);
    out += numbers;
  }
  if (!c.note.empty()) append_string(out, "note", c.note);
  if (!c.about.empty()) append_string(out, "about", c.about);
  if (c.jump >= 0) append_string(out, "keys", jump_key(c.jump));
  if (!c.part.empty()) append_string(out, "part", c.part);
  if (!stop && !only_shows(c)) out += ",\"tab\":false";
  if (c.role == ControlRole::Heading) out += ",\"level\":" + std::to_string(c.level);
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

std::string mirror_json(const Ui& ui, std::string_view place) {
  std::string out = "{";
  append_string(out, "place", place);
  append_string(out, "focus", ui.focus);
  out += ",\"parts\":[";
  for (const Part& part : ui.parts()) {
    if (out.back() != '[') out += ',';
    append_part(out, part);
  }
  out += "],\"controls\":[";
  const std::vector<bool> stops = tab_stops(ui.controls(), ui.focus);
  for (size_t i = 0; i < stops.size(); ++i) {
    const Control& c = ui.controls()[i];
    if (c.silent) continue;
    if (out.back() != '[') out += ',';
    append_control(out, c, stops[i]);
  }
  out += "]}";
  return out;
}

}  // namespace coatwright::studio
