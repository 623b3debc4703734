#include "shell/kit/widgets.h"

#include <algorithm>
#include <cmath>

namespace coatwright::studio {
namespace {

struct ButtonInks {
  Colour ground, edge, text;
};

ButtonInks inks_of(const Palette& p, const ButtonStyle& s) {
  if (s.chosen) return {p.solid, p.solid, p.solid_text};
  switch (s.look) {
    case Look::Table:
      return {p.table_key, p.table_key, p.table_text};
    case Look::Solid:
      return {p.solid, p.solid, p.solid_text};
    case Look::Outline:
      return {p.paper, p.ink, p.ink};
    case Look::Quiet:
      return {faded(p.paper, 0.0F), faded(p.paper, 0.0F), p.chalk_text};
    case Look::Key:
      return {p.key, p.key, p.key_text};
    case Look::Fraction:
      return {p.key_fraction, p.key_fraction, p.key_text};
  }
  return {};
}

float radius_of(Look look, const Box& box) {
  const bool key = look == Look::Key || look == Look::Fraction;
  return key ? 12.0F : std::min(0.5F * box.h, 26.0F);
}

}  // namespace

bool button(Frame& f, const std::string& id, const Box& box, std::string_view words,
            const ButtonStyle& s) {
  f.ui.add({.id = id,
            .role = s.role,
            .name = s.name.empty() ? std::string(words) : s.name,
            .box = box,
            .group = s.group,
            .enabled = s.enabled,
            .chosen = s.chosen,
            .in_set = s.in_set});
  ButtonInks inks = inks_of(f.colours, s);
  const bool held = f.ui.pressed == id && s.enabled;
  if (held) inks.ground = mixed(inks.ground, inks.text, 0.18F);
  if (!s.enabled) {
    inks.ground =
        s.look == Look::Table ? mixed(f.colours.table_key, f.colours.table, 0.65F) : inks.ground;
    inks.text = s.look == Look::Table ? f.colours.table_soft : mixed(inks.text, inks.ground, 0.45F);
    inks.edge = mixed(inks.edge, f.colours.paper, 0.6F);
  }
  const float radius = radius_of(s.look, box);
  f.paint.fill(box, inks.ground, radius);
  if (s.look == Look::Outline) f.paint.outline(box, inks.edge, 2.0F, radius);
  f.paint.boxed_text(box.inset(4.0F, 4.0F), words, s.type, inks.text);
  return s.enabled && f.ui.acted(id);
}

bool row_option(Frame& f, const Box& box, const RowOption& option) {
  constexpr float kInside = 14.0F;
  f.ui.add({.id = option.id,
            .role = ControlRole::Option,
            .name = option.name,
            .value = option.value,
            .box = box,
            .group = option.group,
            .chosen = option.chosen});
  f.paint.fill(box, f.ui.pressed == option.id ? f.colours.card_edge : f.colours.key, 12.0F);
  if (option.chosen) f.paint.outline(box, f.colours.ink, 2.5F, 12.0F);
  const float mid = box.centre().y;
  const float wide = f.paint.text({box.right() - kInside, mid}, option.value, kStrong,
                                  option.wrong ? f.colours.brick : f.colours.key_text, Align::End);
  f.paint.clipped_text({box.x + kInside, mid}, box.w - wide - 40.0F, option.name,
                       option.chosen ? kStrong : kBody, f.colours.key_text);
  return f.ui.acted(option.id);
}

namespace {

constexpr float kOptionGap = 6.0F;
// The type of an option may be as small where that saves a row.
constexpr Type kLeastOption{Face::Semibold, kLeastType};

int option_columns(const std::vector<std::string>& names, float width) {
  return options_in_a_row(names, width, kLeastOption, kOptionGap);
}

}  // namespace

int options_in_a_row(const std::vector<std::string>& names, float width, Type type, float gap) {
  float least = kTarget;
  for (const std::string& name : names) {
    for (const std::string_view word : broken(name, 1.0F, type)) {
      least = std::max(least, text_width(word, type) + 10.0F);
    }
  }
  const int fit = std::max(1, static_cast<int>((width + gap) / (least + gap)));
  const auto n = static_cast<int>(names.size());
  const int rows = (n + fit - 1) / fit;
  return (n + rows - 1) / rows;
}

float options_height(const std::vector<std::string>& names, float width) {
  const int columns = option_columns(names, width);
  const int rows = (static_cast<int>(names.size()) + columns - 1) / columns;
  return static_cast<float>(rows) * (kTarget + kOptionGap) - kOptionGap;
}

int options(Frame& f, const std::string& id, const Box& box, const std::string& group,
            const std::vector<std::string>& names, int chosen) {
  const auto n = static_cast<int>(names.size());
  const int columns = option_columns(names, box.w);
  // In one row widths follow the words, so that long ones keep their room.
  float total = 0.0F, least = box.w;
  for (const std::string& name : names) {
    total += text_width(name, kStrong);
    least = std::min(least, text_width(name, kStrong));
  }
  const float spare =
      (box.w - kOptionGap * static_cast<float>(n - 1) - total) / static_cast<float>(n);
  const bool by_words = columns == n && spare > 8.0F && least + spare >= kTarget;
  int picked = -1;
  float x = box.x;
  for (int i = 0; i < n; ++i) {
    const std::string& name = names[static_cast<size_t>(i)];
    const Box row = box.below(static_cast<float>(i / columns) * (kTarget + kOptionGap));
    Box cell = row.column(i % columns, columns, kOptionGap);
    cell.h = columns == n ? box.h : kTarget;
    if (by_words) cell.x = x, cell.w = text_width(name, kStrong) + spare;
    const ButtonStyle style{
        .look = Look::Outline, .chosen = i == chosen, .role = ControlRole::Option, .group = group};
    if (button(f, id + "." + std::to_string(i), cell, name, style)) picked = i;
    x += cell.w + kOptionGap;
  }
  return picked;
}

bool tick_box(Frame& f, const std::string& id, const Box& box, const std::string& words,
              bool ticked, bool written) {
  f.ui.add({.id = id, .role = ControlRole::Tick, .name = words, .box = box, .chosen = ticked});
  if (f.ui.pressed == id) f.paint.fill(box.inset(-6.0F, 0.0F), f.colours.card, 10.0F);
  const Box square = around({box.x + 14.0F, box.centre().y}, 24.0F);
  if (ticked) f.paint.fill(square, f.colours.solid, 6.0F);
  f.paint.outline(square, f.colours.ink, 2.0F, 6.0F);
  const Spot c = square.centre();
  const Spot tick[] = {{c.x - 6.0F, c.y}, {c.x - 1.5F, c.y + 5.0F}, {c.x + 6.5F, c.y - 5.0F}};
  if (ticked) f.paint.polyline(tick, f.colours.solid_text, 2.5F);
  if (written) {
    f.paint.clipped_text({box.x + 38.0F, c.y}, box.w - 40.0F, words, kBody, f.colours.ink);
  }
  return f.ui.acted(id);
}

namespace {

double snapped_to_step(double value, const SliderSpec& s) {
  const double steps = std::round(value / s.step);
  return std::clamp(steps * s.step, s.low, s.high);
}

std::optional<double> moved_to(Frame& f, const Box& rail, const SliderSpec& s) {
  const auto value_at = [&](Spot at) {
    const double t = static_cast<double>((at.x - rail.x) / std::max(1.0F, rail.w));
    return snapped_to_step(s.low + std::clamp(t, 0.0, 1.0) * (s.high - s.low), s);
  };
  if (const Gesture* tap = f.ui.find(Gesture::Kind::Tap, s.id)) return value_at(tap->at);
  if (const Gesture* drag = f.ui.find(Gesture::Kind::Drag, s.id)) return value_at(drag->at);
  if (const Gesture* entry = f.ui.find(Gesture::Kind::Entry, s.id)) {
    char* end = nullptr;
    const double value = std::strtod(entry->text.c_str(), &end);
    if (end != entry->text.c_str() && std::isfinite(value)) return std::clamp(value, s.low, s.high);
  }
  return std::nullopt;
}

}  // namespace

bool fold_line(Frame& f, const Box& box, const FoldLine& line) {
  f.ui.add({.id = line.id,
            .role = ControlRole::Fold,
            .name = line.name,
            .value = line.value,
            .box = box,
            .chosen = line.unfolded});
  if (f.ui.pressed == line.id) f.paint.fill(box.inset(-6.0F, 0.0F), f.colours.card, 10.0F);
  f.paint.line({box.x, box.y}, {box.right(), box.y}, f.colours.paper_line, 1.0F);
  const float x = box.x + 8.0F, y = box.centre().y;
  const Spot down[] = {{x - 5.0F, y - 3.0F}, {x, y + 3.0F}, {x + 5.0F, y - 3.0F}};
  const Spot aside[] = {{x - 3.0F, y - 5.0F}, {x + 3.0F, y}, {x - 3.0F, y + 5.0F}};
  f.paint.polyline(line.unfolded ? down : aside, f.colours.soft, 1.8F);
  const float wide =
      f.paint.text({box.right(), y}, line.written.empty() ? line.value : line.written, line.type,
                   line.ink.value_or(f.colours.soft), Align::End);
  f.paint.clipped_text({box.x + 24.0F, y}, box.w - wide - 36.0F, line.name, kLarge, f.colours.ink);
  return f.ui.acted(line.id);
}

std::optional<double> slider_track(Frame& f, const Box& box, const SliderSpec& s) {
  f.ui.add({.id = s.id,
            .role = ControlRole::Slider,
            .name = s.name,
            .value = s.value,
            .box = box,
            .note = s.note,
            .low = s.low,
            .high = s.high,
            .now = s.now,
            .step = s.step,
            .travel = Travel::Across});
  const Box rail = box.inset(13.0F, 0.5F * box.h - 3.0F);
  const auto x_of = [&](double value) {
    const double t = s.high > s.low ? (value - s.low) / (s.high - s.low) : 0.0;
    return rail.x + rail.w * static_cast<float>(std::clamp(t, 0.0, 1.0));
  };
  const float knob = x_of(s.now), mid = box.centre().y;
  f.paint.fill(rail, f.colours.slider_rest, 3.0F);
  f.paint.fill({rail.x, rail.y, knob - rail.x, rail.h}, f.colours.slider, 3.0F);
  const float mark = x_of(s.mark);
  f.paint.line({mark, mid + 9.0F}, {mark, mid + 17.0F}, f.colours.soft, 2.0F);
  const bool held = f.ui.pressed == s.id;
  f.paint.disc({knob, mid}, held ? 15.0F : 13.0F, f.colours.ink);
  f.paint.disc({knob, mid}, held ? 12.5F : 10.5F, f.colours.knob);
  return moved_to(f, rail, s);
}

namespace {

// Keys of a native window for a field that has the focus; a page uses the browser's own field.
std::optional<std::string> typed_into(Frame& f, const std::string& id, const std::string& text) {
  if (f.device_keyboard || f.ui.focus != id) return std::nullopt;
  std::string next = text;
  bool changed = false;
  std::erase_if(f.ui.keys(), [&](const Key& key) {
    if (key.control) return false;
    if (key.name == "Backspace") {
      while (!next.empty() && (static_cast<unsigned char>(next.back()) & 0xC0) == 0x80) {
        next.pop_back();
      }
      if (!next.empty()) next.pop_back();
    } else if (key.name.size() == 1 || static_cast<unsigned char>(key.name[0]) >= 0x80) {
      next += key.name;
    } else {
      return false;
    }
    changed = true;
    return true;
  });
  return changed ? std::optional(next) : std::nullopt;
}

}  // namespace

std::optional<std::string> text_field(Frame& f, const std::string& id, const Box& box,
                                      const std::string& name, const std::string& text) {
  if (f.ui.acted(id)) f.ui.focus = id;
  // While it is being edited the field shows what was typed, spaces at its end included.
  auto& fields = f.view.fields;
  if (f.ui.focus != id) fields.erase(id);
  std::optional<std::string> entered = typed_into(f, id, fields.contains(id) ? fields[id] : text);
  if (const Gesture* entry = f.ui.find(Gesture::Kind::Entry, id)) entered = entry->text;
  if (entered && f.ui.focus == id) fields[id] = *entered;
  const std::string shown = fields.contains(id) ? fields[id] : text;
  f.ui.add({.id = id, .role = ControlRole::Text, .name = name, .value = shown, .box = box});
  f.paint.fill(box, f.colours.card, 10.0F);
  f.paint.outline(box, f.ui.focus == id ? f.colours.ink : f.colours.card_edge, 2.0F, 10.0F);
  const Spot at{box.x + 14.0F, box.centre().y};
  const float label = f.paint.text(at, name, kBody, f.colours.soft) + 12.0F;
  f.paint.clipped_text({at.x + label, at.y}, box.w - 28.0F - label, shown, kStrong, f.colours.ink);
  return entered;
}

namespace {

constexpr float kSentencePad = 12.0F;

}  // namespace

float sentence_height(std::string_view words, float width) {
  return paragraph_height(words, width - 2.0F * kSentencePad - 6.0F, kStrong) + 2.0F * kSentencePad;
}

void sentence(Frame& f, const std::string& id, const Box& box, std::string_view words, bool wrong) {
  const Colour ink = wrong ? f.colours.brick : f.colours.chalk_text;
  f.paint.fill(box, wrong ? f.colours.brick_wash : f.colours.chalk_wash, 12.0F);
  f.paint.outline(box, ink, 1.5F, 12.0F);
  f.paint.fill({box.x, box.y + 12.0F, 5.0F, box.h - 24.0F}, ink, 2.5F);
  f.paint.paragraph({box.x + kSentencePad + 6.0F, box.y + kSentencePad},
                    box.w - 2.0F * kSentencePad - 6.0F, words, kStrong, ink);
  f.ui.add({.id = id, .role = ControlRole::Status, .name = std::string(words), .box = box});
}

void sentence(Frame& f, Columns& flow, const std::string& id, std::string_view words, bool wrong) {
  sentence(f, id, flow.across(sentence_height(words, flow.width())), words, wrong);
}

void paragraph(Frame& f, Columns& flow, const std::string& id, const std::string& words,
               bool soft) {
  const Box box = flow.next(paragraph_height(words, flow.column_width(), kBody));
  f.paint.paragraph({box.x, box.y}, box.w, words, kBody, soft ? f.colours.soft : f.colours.ink);
  words_at(f, id, box, words);
}

void aside(Frame& f, Columns& flow, const std::string& id, const std::string& words) {
  const Box box = flow.across(paragraph_height(words, flow.width(), kBody));
  f.paint.paragraph({box.x, box.y}, box.w, words, kBody, f.colours.soft);
  words_at(f, id, box, words);
}

void words_at(Frame& f, const std::string& id, const Box& box, const std::string& words) {
  f.ui.add({.id = id, .role = ControlRole::Words, .name = words, .box = box});
}

void heading(Frame& f, const std::string& id, Spot at, const std::string& words, Type type) {
  const float width = f.paint.text(at, words, type, f.colours.ink);
  const int level = type.size >= kTitle.size ? 2 : type.size >= kLarge.size ? 3 : 4;
  f.ui.add({.id = id,
            .role = ControlRole::Heading,
            .name = words,
            .box = {at.x, at.y - 0.6F * type.size, width, 1.2F * type.size},
            .level = level});
}

void focus_ring(Frame& f) {
  if (!f.ui.focus_shown || f.ui.focus.empty()) return;
  const Control* c = f.ui.control(f.ui.focus);
  if (c == nullptr || c->clip.w < 1.0F || c->clip.h < 1.0F) return;
  const Box box = c->box.inset(-4.0F, -4.0F);
  f.paint.push_clip(c->clip.inset(-6.0F, -6.0F));
  f.paint.outline(box.inset(-1.5F, -1.5F), f.colours.paper, 2.0F, 15.0F);
  f.paint.outline(box, f.colours.focus, 3.0F, 14.0F);
  f.paint.pop_clip();
}

void reveal(Frame& f, const std::string& id, const std::string& area, const Box& box,
            const Box& sheet) {
  if (f.view.reveal != id) return;
  f.view.reveal.clear();
  const float above = sheet.y + 30.0F - box.y, below = box.bottom() - sheet.bottom() + 20.0F;
  float& scroll = f.view.scrolls[area];
  if (above > 0.0F) scroll -= above;
  if (above <= 0.0F && below > 0.0F) scroll += std::min(below, -above);
  f.again = true;
}

void scrolled(Frame& f, const std::string& id, const Box& box,
              const std::function<float(const Box&)>& draw) {
  float& offset = f.view.scrolls[id];
  for (const Gesture& g : f.ui.gestures()) {
    if (g.kind == Gesture::Kind::Scroll && g.id == id) offset -= g.shift.y;
  }
  offset = std::max(0.0F, offset);
  f.paint.push_clip(box);
  f.ui.begin_area({id, box});
  const float height = draw(box.moved(0.0F, -std::round(offset)));
  const float most = std::max(0.0F, height - box.h);
  f.ui.end_area(most);
  if (most > 0.0F) {  // a thin thumb at the edge, and a shade where more is hidden
    const float span = box.h - 12.0F, thumb = std::max(32.0F, span * box.h / height);
    const float at = box.y + 6.0F + (span - thumb) * std::min(1.0F, offset / most);
    f.paint.fill({box.right() - 5.0F, at, 3.0F, thumb}, faded(f.colours.soft, 0.55F), 1.5F);
    if (offset < most - 2.0F) {
      f.paint.fill({box.x, box.bottom() - 2.0F, box.w, 2.0F}, f.colours.paper_line);
    }
  }
  f.paint.pop_clip();
  if (offset > most) {
    offset = most;
    f.again = true;
  }
}

void paper(Frame& f) { f.paint.fill(f.layout.sheet, f.colours.paper); }

// Turned over, on what lies on the sheet too.
void corner(Frame& f) {
  const Box sheet = f.layout.sheet;
  const float turn = 24.0F, x = sheet.right() - turn;
  const Spot cut[] = {{x, sheet.y - 1.0F},
                      {sheet.right() + 1.0F, sheet.y - 1.0F},
                      {sheet.right() + 1.0F, sheet.y + turn}};
  f.paint.fill({x, sheet.y, turn, turn}, f.colours.paper_corner);
  f.paint.convex(cut, f.colours.table);  // over half of it, so that no paper shines between them
}

Box sheet_content(const Frame& f, const Box& sheet) {
  const float side = f.layout.narrow ? 14.0F : 22.0F;
  return {sheet.x + side, sheet.y + 26.0F, sheet.w - 2.0F * side, sheet.h - kSheetPad};
}

Columns::Columns(const Box& box, float least_width, float gap) : box_(box), gap_(gap) {
  const float n = std::floor((box.w + kColumnGap) / (least_width + kColumnGap));
  heights_.assign(static_cast<size_t>(std::clamp(n, 1.0F, 3.0F)), 0.0F);
}

Box Columns::next(float height) {
  const auto least = std::min_element(heights_.begin(), heights_.end(),
                                      [](float a, float b) { return a < b - 0.5F; });
  const auto i = static_cast<int>(least - heights_.begin());
  const Box column = box_.column(i, count(), kColumnGap);
  const Box place{column.x, column.y + *least, column.w, height};
  *least += height + gap_;
  return place;
}

Box Columns::across(float height) {
  const float top = *std::max_element(heights_.begin(), heights_.end());
  std::fill(heights_.begin(), heights_.end(), top + height + gap_);
  return {box_.x, box_.y + top, box_.w, height};
}

float Columns::height() const { return *std::max_element(heights_.begin(), heights_.end()); }

}  // namespace coatwright::studio
