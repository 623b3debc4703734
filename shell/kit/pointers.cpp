#include "shell/kit/pointers.h"

#include <algorithm>
#include <cmath>

namespace coatwright::studio {
namespace {

// How far a pointer may shake and still be a tap, CSS pixels: a fingertip shakes more than a mouse.
constexpr float kShake = 4.0F;
constexpr float kFingerShake = 9.0F;
constexpr double kDoubleTapMs = 350.0;
constexpr float kDoubleTapReach = 28.0F;

float apart(Spot a, Spot b) { return std::hypot(a.x - b.x, a.y - b.y); }

}  // namespace

void Pointers::handle(const PointerEvent& event, Ui& ui, std::vector<Gesture>& out) {
  switch (event.contact) {
    case Contact::Down:
      return down(event, ui, out);
    case Contact::Move:
      return move(event, ui, out);
    case Contact::Up:
      return up(event, ui, out);
    case Contact::Cancel:
      let_go(ui, Phase::Cancel, out);
      std::erase_if(held_, [&](const Held& h) { return h.pointer == event.pointer; });
      pinching_ = pinching_ && held_.size() >= 2;
      return;
  }
}

void Pointers::down(const PointerEvent& event, Ui& ui, std::vector<Gesture>& out) {
  std::erase_if(held_, [&](const Held& h) { return h.pointer == event.pointer; });
  held_.push_back({event.pointer, event.at});
  ui.focus_shown = false;
  if (held_.size() == 2) {  // a second finger: what the first one did ends here
    const bool on_board = travel_ == Travel::Free || travel_ == Travel::Pan;
    let_go(ui, Phase::End, out);
    pinching_ = on_board;
    return;
  }
  if (held_.size() != 1) return;
  const Control* control = ui.at(event.at);
  const Area* area = ui.area_at(event.at);
  id_ = control != nullptr && control->enabled ? control->id : "";
  travel_ = id_.empty() ? Travel::None : control->travel;
  area_ = area != nullptr && (control == nullptr || control->area == area->id) ? area->id : "";
  from_ = last_ = event.at;
  finger_ = event.finger;
  dragging_ = scrolling_ = false;
  ui.pressed = id_;
}

void Pointers::begin_travel(Spot at, Ui& ui, std::vector<Gesture>& out) {
  if (travel_ == Travel::Pan) {
    id_ = ui.pressed = kBoardId;
    travel_ = Travel::Free;
  }
  const bool upright = std::abs(at.y - from_.y) > std::abs(at.x - from_.x);
  if (travel_ == Travel::Free || (travel_ == Travel::Across && (!upright || area_.empty()))) {
    dragging_ = true;
    out.push_back({.kind = Gesture::Kind::Drag,
                   .id = id_,
                   .phase = Phase::Begin,
                   .from = from_,
                   .at = from_});
  } else {
    scrolling_ = true;
    ui.pressed.clear();
  }
}

void Pointers::move(const PointerEvent& event, Ui& ui, std::vector<Gesture>& out) {
  const auto held = std::find_if(held_.begin(), held_.end(),
                                 [&](const Held& h) { return h.pointer == event.pointer; });
  if (held == held_.end() || held->at == event.at) return;
  if (pinching_ && held_.size() >= 2) return pinch(event, out);
  const Spot before = held->at;
  held->at = last_ = event.at;
  if (held_.size() > 1 || held != held_.begin()) return;
  if (!dragging_ && !scrolling_) {
    if (apart(event.at, from_) < (finger_ ? kFingerShake : kShake)) return;
    begin_travel(event.at, ui, out);
  }
  if (dragging_) {
    out.push_back({.kind = Gesture::Kind::Drag,
                   .id = id_,
                   .phase = Phase::Move,
                   .from = from_,
                   .at = event.at});
  } else if (!area_.empty()) {
    out.push_back({.kind = Gesture::Kind::Scroll, .id = area_, .shift = event.at - before});
  }
}

void Pointers::pinch(const PointerEvent& event, std::vector<Gesture>& out) {
  const Spot a = held_[0].at, b = held_[1].at;
  for (Held& h : held_) {
    if (h.pointer == event.pointer) h.at = event.at;
  }
  const Spot c = held_[0].at, d = held_[1].at;
  const Spot before = 0.5F * (a + b), now = 0.5F * (c + d);
  out.push_back({.kind = Gesture::Kind::Zoom,
                 .id = kBoardId,
                 .at = now,
                 .shift = now - before,
                 .factor = apart(c, d) / std::max(1.0F, apart(a, b))});
}

void Pointers::up(const PointerEvent& event, Ui& ui, std::vector<Gesture>& out) {
  const auto held = std::find_if(held_.begin(), held_.end(),
                                 [&](const Held& h) { return h.pointer == event.pointer; });
  if (held == held_.end()) return;
  const bool first_alone = held_.size() == 1;
  held_.erase(held);
  if (pinching_) {
    if (held_.empty()) pinching_ = false;
    return;
  }
  if (!first_alone) return;
  if (dragging_ || scrolling_ || id_.empty()) return let_go(ui, Phase::End, out);
  const bool twice = tapped_ == id_ && event.time_ms - tapped_ms_ < kDoubleTapMs &&
                     apart(tapped_at_, event.at) < kDoubleTapReach;
  out.push_back({.kind = twice ? Gesture::Kind::DoubleTap : Gesture::Kind::Tap,
                 .id = id_,
                 .from = from_,
                 .at = event.at});
  tapped_ = twice ? "" : id_;
  tapped_at_ = event.at;
  tapped_ms_ = event.time_ms;
  let_go(ui, Phase::End, out);
}

void Pointers::let_go(Ui& ui, Phase phase, std::vector<Gesture>& out) {
  if (dragging_) {
    out.push_back(
        {.kind = Gesture::Kind::Drag, .id = id_, .phase = phase, .from = from_, .at = last_});
  }
  dragging_ = scrolling_ = false;
  id_.clear();
  area_.clear();
  travel_ = Travel::None;
  ui.pressed.clear();
}

void Pointers::wheel(Spot at, float dx, float dy, bool zoom, const Ui& ui,
                     std::vector<Gesture>& out) const {
  const Area* area = ui.area_at(at);
  if (area != nullptr) {
    if (!zoom) {
      out.push_back({.kind = Gesture::Kind::Scroll, .id = area->id, .shift = {-dx, -dy}});
    }
    return;
  }
  // One notch of a wheel is about 100 px: a fifth larger or smaller. A pinch on a trackpad arrives
  // as small steps with the control key down.
  const float rate = zoom ? 0.01F : 0.0018F;
  out.push_back({.kind = Gesture::Kind::Zoom,
                 .id = kBoardId,
                 .at = at,
                 .factor = std::exp(-rate * std::clamp(dy, -240.0F, 240.0F))});
}

}  // namespace coatwright::studio
