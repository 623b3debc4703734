#include "shell/kit/form_keys.h"

#include <utility>

#include "core/ticket/leaving.h"
#include "shell/desk/outputs.h"

namespace coatwright::studio {

void form_key(Frame& f, const Box& box, FormKey key) {
  form_key(f, box, std::move(key), [&f] {
    return std::vector<CoatText>{{"", write_leaving(f.ticket)}};
  });
}

void form_key(Frame& f, const Box& box, FormKey key, const Coats& coats, FormChoices choices) {
  // Nothing that was drafted for another ticket goes out, and one form is made at a time.
  const bool stands = key.of_no_coat || (f.derived.pattern && !f.derived.refusal);
  key.style.enabled = key.style.enabled && stands && f.view.pressing.empty();
  if (!button(f, key.id, box, f.words(key.words), key.style)) return;
  choices.day = f.today.words;
  choices.roll_mm = f.view.roll_mm;
  choices.kerf_mm = f.view.kerf_mm;
  choices.printer = f.rack.printer();
  choices.studio = f.rack.notes().studio;
  PressForm order = press_form(key.form, f.ticket, coats(), choices, key.use);
  f.view.pressing = order.file;
  f.effects.emplace_back(std::move(order));
}

void form_keys(Frame& f, const Box& row, const FormKey& left, const FormKey& right) {
  constexpr float kApart = 8.0F;
  form_key(f, row.column(0, 2, kApart), left);
  form_key(f, row.column(1, 2, kApart), right);
}

void press_row(Frame& f, Columns& flow) {
  if (f.view.pressing.empty()) return;
  const std::string words = f.words("ui.pressing", {f.view.pressing});
  const Box row = flow.across(kTarget);
  const float key = text_width(f.words("ui.press-stop"), kStrong) + 36.0F;
  const Box left{row.x, row.y, row.w - key - 8.0F, row.h};
  f.paint.paragraph({left.x, left.y + 10.0F}, left.w, words, kBody, f.colours.ink);
  f.ui.add({.id = "pressing", .role = ControlRole::Status, .name = words, .box = left});
  if (button(f, "press.stop", {row.right() - key, row.y, key, row.h}, f.words("ui.press-stop"))) {
    f.view.pressing.clear();
    f.effects.emplace_back(StopPress{});
  }
}

}  // namespace coatwright::studio
