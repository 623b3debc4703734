#include "shell/kit/board.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "shell/kit/pointers.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"

namespace coatwright::studio {
namespace {

constexpr double kLeastScale = 0.05, kMostScale = 40.0;  // CSS pixels a mm
constexpr float kFitMargin = 34.0F;
constexpr float kReach = 22.0F;       // how near a fingertip must come to a line
constexpr float kLineSample = 40.0F;  // a line drawn ahead of the words about it

void zoom(BoardView& view, const Box& box, Spot at, float factor, Spot shift) {
  const BoardMap before(box, view);
  const Point under = before.drawing(at - shift);
  view.scale = std::clamp(view.scale * static_cast<double>(factor), kLeastScale, kMostScale);
  const BoardMap after(box, view);
  const Point now = after.drawing(at);
  view.centre = view.centre + (under - now);
  view.fitted = false;
}

void answer_gestures(Frame& f, const Box& box, BoardView& view, bool pans) {
  for (const Gesture& g : f.ui.gestures()) {
    if (g.id != kBoardId) continue;
    if (g.kind == Gesture::Kind::Zoom) zoom(view, box, g.at, g.factor, g.shift);
    if (g.kind == Gesture::Kind::DoubleTap) view.fitted = true;
    if (g.kind == Gesture::Kind::Drag && g.phase == Phase::Begin) f.view.pan_from = view.centre;
    if (g.kind == Gesture::Kind::Drag && g.phase == Phase::Move && pans) {
      view.centre = f.view.pan_from - Vec{static_cast<double>(g.at.x - g.from.x) / view.scale,
                                          static_cast<double>(g.at.y - g.from.y) / view.scale};
      view.fitted = false;
    }
  }
  if (f.ui.acted("fit")) view.fitted = true;
}

// Moves a fitted view to where it should be, gently when only the drawing changed.
void follow(Frame& f, const Box& box, const Rect& drawing, BoardView& view, bool hold) {
  const bool unseen = view.scale <= 0.0;
  if (unseen || view.box != box) {
    if (unseen || view.fitted) {
      view = fitted_view(box, drawing, noted_board(f));
    }
    view.box = box;
    return;
  }
  if (!view.fitted || hold) return;
  const BoardView aim = fitted_view(box, drawing, noted_board(f));
  const double away = distance(aim.centre, view.centre) * view.scale +
                      200.0 * std::abs(aim.scale / view.scale - 1.0);
  const double t = away < 0.5 ? 1.0 : 0.35;
  view.centre = lerp(view.centre, aim.centre, t);
  view.scale += t * (aim.scale - view.scale);
  if (t < 1.0) f.again = true;
}

void card(Frame& f, const Box& box, const BoardMap& map) {
  f.paint.fill(box, f.colours.card, 10.0F);
  // Dots every 50 mm or a whole multiple of it, far enough apart to be quiet.
  double pitch = 50.0;
  while (pitch * map.scale() < 22.0) pitch *= 2.0;
  while (pitch * map.scale() > 64.0) pitch *= 0.5;
  const Box inside = box.inset(3.0F, 3.0F);
  const Point from = map.drawing({inside.x, inside.y});
  const Point to = map.drawing({inside.right(), inside.bottom()});
  std::vector<Spot> dots;
  for (double x = std::ceil(from.x / pitch) * pitch; x < to.x; x += pitch) {
    for (double y = std::ceil(from.y / pitch) * pitch; y < to.y; y += pitch) {
      dots.push_back(map.page({x, y}));
    }
  }
  f.paint.dots(dots, 2.0F, f.colours.card_dot);
}

struct Pen {
  Colour ink;
  float width;
  std::vector<float> dashes;
};

Pen pen_of(const Palette& p, coatwright::Role role) {
  using R = coatwright::Role;
  switch (role) {
    case R::CutLine:
      return {p.ink, 2.4F, {}};
    case R::SewnLine:
      return {p.thread, 1.8F, {8.0F, 4.5F}};
    case R::FoldLine:
      return {p.ink, 1.8F, {16.0F, 4.0F, 3.0F, 4.0F}};
    case R::Grain:
      return {p.ink, 1.5F, {}};
    case R::NotchLine:
      return {p.ink, 1.8F, {}};
    case R::Placement:
      return {p.chalk_text, 1.4F, {5.0F, 4.0F}};
    case R::CentreLine:
      return {p.chalk_text, 1.4F, {12.0F, 4.0F, 3.0F, 4.0F}};
    case R::BodyLine:
      return {p.chalk, 1.6F, {2.5F, 4.0F}};
    case R::SheetEdge:
      return {p.soft, 1.2F, {}};
    case R::Stripe:
      return {p.chalk, 1.0F, {1.5F, 5.0F}};
    case R::Former:
      return {p.soft, 1.3F, {6.0F, 5.0F}};
    default:
      return {p.ink, 1.2F, {}};
  }
}

}  // namespace

Line BoardMap::page(const Polyline& line) const {
  Line out;
  out.reserve(line.size());
  for (const Point p : line) out.push_back(page(p));
  return out;
}

BoardView fitted_view(const Box& box, const Rect& drawing, float below) {
  BoardView view;
  const auto room_x = static_cast<double>(std::max(40.0F, box.w - 2.0F * kFitMargin));
  const auto room_y = static_cast<double>(std::max(40.0F, box.h - below - 2.0F * kFitMargin));
  view.scale = std::clamp(
      std::min(room_x / std::max(1.0, drawing.width()), room_y / std::max(1.0, drawing.height())),
      kLeastScale, kMostScale);
  view.centre = {0.5 * (drawing.x0 + drawing.x1),
                 0.5 * (drawing.y0 + drawing.y1) + 0.5 * static_cast<double>(below) / view.scale};
  view.box = box;
  return view;
}

BoardMap board(Frame& f, const Box& box, const Rect& drawing, const std::string& name, bool hold,
               bool pans) {
  BoardView& view = f.view.board();
  follow(f, box, drawing, view, hold);
  answer_gestures(f, box, view, pans);
  f.ui.add({.id = kBoardId,
            .role = ControlRole::Picture,
            .name = name,
            .box = box,
            .travel = Travel::Free});
  const BoardMap map(box, view);
  card(f, box, map);
  return map;
}

void draw_washes(Frame& f, const BoardMap& map, const std::vector<Wash>& washes, float strength) {
  for (const Wash& wash : washes) {
    const Colour colour = wash.role == coatwright::Role::Cloth         ? f.colours.cloth
                          : wash.role == coatwright::Role::LiningCloth ? f.colours.lining
                                                                       : f.colours.ink;
    f.paint.triangles(map.page(wash.points), wash.corners,
                      faded(coat_hue(f.colours, wash.tint, colour), strength));
  }
}

void draw_stroke(Frame& f, const BoardMap& map, const StrokeItem& stroke, float strength) {
  const Pen pen = pen_of(f.colours, stroke.role);
  const Line line = map.page(stroke.points);
  const Colour ink = faded(pen.ink, strength);
  if (pen.dashes.empty()) {
    f.paint.polyline(line, ink, pen.width, stroke.closed);
  } else {
    f.paint.dashes(line, pen.dashes, ink, pen.width, stroke.closed);
  }
}

float painted_size(const BoardMap& map, const TextItem& text) {
  float size = static_cast<float>(text.size_mm * map.scale());
  if (text.role == coatwright::Role::Name && size < kBody.size) {
    // Larger than it was meant, as far as there is room.
    size = std::clamp(static_cast<float>(text.most_mm * map.scale()), size, kBody.size);
  }
  return size < kLeastType ? 0.0F : size;
}

namespace {

void draw_text(Frame& f, const BoardMap& map, const TextItem& text, float strength) {
  using R = coatwright::Role;
  const float size = painted_size(map, text);
  if (size == 0.0F) return;
  const Type type{text.role == R::Name ? Face::Semibold : Face::Regular, std::min(size, 34.0F)};
  // The item's place is on the baseline; ours is the middle of a capital.
  const Vec up{std::sin(text.angle), -std::cos(text.angle)};
  const Spot at = map.page(text.at + (0.35 * text.size_mm) * up);
  const Align align = text.anchor < 0.25   ? Align::Start
                      : text.anchor < 0.75 ? Align::Middle
                                           : Align::End;
  const Colour ink = faded(text.role == R::Caption ? f.colours.soft : f.colours.ink, strength);
  if (text.angle == 0.0) {
    f.paint.text(at, text.text, type, ink, align);
  } else {
    f.paint.turned_text(at, text.text, type, ink, static_cast<float>(text.angle), align);
  }
}

}  // namespace

void draw_items(Frame& f, const BoardMap& map, const Drawing& drawing, float strength) {
  for (const DrawItem& item : drawing.items) {
    if (const auto* stroke = std::get_if<StrokeItem>(&item)) draw_stroke(f, map, *stroke, strength);
    if (const auto* text = std::get_if<TextItem>(&item)) draw_text(f, map, *text, strength);
  }
}

std::string line_at(const BoardMap& map, const Drawing& drawing, Spot spot) {
  const Point p = map.drawing(spot);
  double nearest = static_cast<double>(kReach) / map.scale();
  std::string id;
  for (const DrawItem& item : drawing.items) {
    const auto* stroke = std::get_if<StrokeItem>(&item);
    if (stroke == nullptr || stroke->id.empty() || stroke->points.size() < 2) continue;
    if (stroke->role == coatwright::Role::CutLine) continue;  // has the piece's id, not an edge's
    const double d = distance_to_polyline(stroke->points, p);
    if (d < nearest) {
      nearest = d;
      id = stroke->id;
    }
  }
  return id;
}

namespace {
// px: from the sheet's upper edge to the first note on it, and free below each.
constexpr float kAheadOfNotes = 26.0F, kBelowNote = 12.0F;
}  // namespace

bool notes_on_sheet(const Frame& f) {
  return f.layout.narrow && f.layout.holds != SheetHolds::Keypad;
}
float noted_board(const Frame& f) { return notes_on_sheet(f) ? 0.0F : f.view.note_height; }
float noted_sheet(const Frame& f) {
  const bool noted = notes_on_sheet(f) && f.view.note_height > 0.0F;
  return noted ? kAheadOfNotes - kBelowNote + f.view.note_height : 0.0F;  // to the last one's edge
}

Box sheet_in_sight(const Frame& f) {
  const Box sheet = f.layout.sheet;
  const Box seen = sheet.top(std::min(sheet.h, f.layout.page.h - sheet.y));
  return seen.below(std::min(seen.h - kTarget, noted_sheet(f)));
}

bool board_note(Frame& f, const Box& over, const BoardNote& note) {
  const bool on_sheet = notes_on_sheet(f);
  const Box& board = on_sheet ? f.layout.sheet : over;
  const std::string& words = f.layout.narrow && !note.brief.empty() ? note.brief : note.text;
  const float width = std::min(board.w - 24.0F, 760.0F), pad = 14.0F;
  const std::string& action =
      f.layout.narrow && !note.action_brief.empty() ? note.action_brief : note.action;
  const float key = action.empty() ? 0.0F : text_width(action, kStrong) + 40.0F;
  const float sample = f.layout.narrow ? 0.6F * kLineSample : kLineSample;
  const float lead = note.line ? sample + 12.0F : 0.0F;
  const float all = width - 2.0F * pad - lead - (note.closes ? kTarget : 0.0F);
  // The key stands beside the words, or where they would have no room, below them.
  const bool below = key > 0.0F && all - key < 150.0F;
  const float room = below ? all : all - key;
  const float head = note.title.empty() ? 0.0F : 26.0F;
  const float text = paragraph_height(words, room, kBody);
  const float body = std::max(kTarget + 8.0F, head + text + 2.0F * pad - 4.0F);
  const float height = below ? body + kTarget + 4.0F : body;
  // Beside the notes that stand there already.
  const float y = on_sheet ? board.y + kAheadOfNotes + f.view.next_note_height
                           : board.bottom() - f.view.next_note_height - height - kBelowNote;
  const Box box{board.x + 0.5F * (board.w - width), y, width, height};
  f.view.next_note_height += height + kBelowNote;
  const Colour edge = note.wrong ? f.colours.brick : f.colours.card_edge;
  f.paint.fill(box, note.wrong ? f.colours.brick_wash : f.colours.paper, 14.0F);
  f.paint.outline(box, edge, note.wrong ? 2.0F : 1.5F, 14.0F);
  const Colour ink = note.wrong ? f.colours.brick : f.colours.ink;
  if (head > 0.0F) f.paint.text({box.x + pad, box.y + pad + 9.0F}, note.title, kLarge, ink);
  f.paint.paragraph({box.x + pad + lead, box.y + 0.5F * (body - head - text) + head}, room, words,
                    kBody, ink);
  if (note.line) {
    const Pen pen = pen_of(f.colours, *note.line);
    const float y_line = box.y + 0.5F * (body + head);
    const Spot ends[] = {{box.x + pad, y_line}, {box.x + pad + sample, y_line}};
    f.paint.dashes(ends, pen.dashes, pen.ink, pen.width, false);
  }
  // Nothing behind the note is touched through it.
  f.ui.add({.id = note.id + ".ground", .box = box, .silent = true});
  f.ui.add({.id = note.id,
            .role = note.told ? ControlRole::Status : ControlRole::Words,
            .name = note.title.empty() ? note.text : note.title + ": " + note.text,
            .box = box});
  if (key > 0.0F) {
    const float right = box.right() - 8.0F - (note.closes ? kTarget : 0.0F);
    const Box beside{right - key, box.y + 0.5F * (body - kTarget), key, kTarget};
    const Box under{box.x + 8.0F, box.y + body - 4.0F, box.w - 16.0F, kTarget};
    const Box& place = below ? under : beside;
    (void)button(f, note.id + ".action", place, action, {.name = note.action});
  }
  if (!note.closes) return false;
  const Box cross{box.right() - kTarget - 4.0F, box.y + 4.0F, kTarget, kTarget};
  return button(
      f, note.id + ".close", cross, "✕",
      {.look = Look::Quiet, .name = note.closes_as.empty() ? f.words("ui.close") : note.closes_as});
}

bool notice(Frame& f, const Box& board) {
  if (f.view.notice.empty()) return false;
  const bool undoes = f.view.moved.has_value();
  const bool closed = board_note(
      f, board,
      {.id = "notice", .text = f.view.notice, .action = undoes ? f.words("ui.put-back") : ""});
  if (undoes && f.ui.acted("notice.action")) {
    f.rack_commands.push_back(*f.view.moved);
    f.view.moved.reset();
    f.view.notice.clear();
  }
  if (closed) {
    f.view.moved.reset();
    f.view.notice.clear();
  }
  return true;
}

bool refusal_note(Frame& f, const Box& board) {
  // Where a reading is only missing the sheet invites to it, and the board has nothing to warn of.
  if (!f.derived.refusal || waits_for_reading(f)) return false;
  // A telephone's board has room for one note; the refusal stands on its sheet too.
  if (f.layout.narrow && !f.view.notice.empty()) return false;
  board_note(f, board,
             {.id = "note.refusal",
              .text = sentence_of(f, *f.derived.refusal),
              .wrong = true,
              .closes = false});
  return true;
}

bool keeping_note_stands(const Frame& f) {
  return in_memory_only(f.keeping.kept) || f.keeping.follows || f.rack.missing().any();
}

void guidance(Frame& f, const Box& board) {
  const auto station = static_cast<size_t>(f.view.station);
  if (f.view.guided[station] || (f.layout.narrow && keeping_note_stands(f))) return;
  const std::string guide = f.words(std::string("ui.guide-") + station_id(f.view.station));
  BoardNote note{.id = "note.guide", .text = guide, .told = false};
  if (f.view.station == Station::Measure && f.rack.is_example(f.ticket)) {
    note.text = f.words("ui.guide-example", {f.ticket.dog, guide});
    note.brief = f.words("ui.guide-example-brief", {f.ticket.dog});
    if (!f.keeping.follows) note.action = f.words("ui.new-ticket");
  }
  if (board_note(f, board, note)) f.view.guided[station] = true;
  if (f.ui.acted("note.guide.action")) f.rack_commands.push_back({.deed = RackDeed::New});
}

}  // namespace coatwright::studio
