#include "core/draw/pattern_drawing.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>
#include <utility>

#include "core/base/utf8.h"
#include "core/draw/label.h"
#include "core/draw/text.h"

namespace coatwright {
namespace {

constexpr size_t kMostNote = 80;        // characters of the ticket's name on a piece
constexpr double kBracketInside = 0.6;  // of the room beside the fold, that its bracket may take
constexpr double kPieceGap = 25.0;      // between pieces side by side, mm

// Texts that a maker needs come at a part of the smallest size rather than not at all.
constexpr double kNameAtLeast = 0.3, kCountsAtLeast = 0.6, kMarksAtLeast = 0.75;
constexpr double kNameOnBoard = 0.82;  // of the size wanted there: smaller it cannot be read
constexpr double kOccupied = 1.15;     // of the smallest text: half of what stands on a point

// One line of text looking for room: preferred and least size, mm.
struct Wish {
  Role role;
  std::string text;
  double size;
  double least;
};

std::string in_a_row(const std::vector<std::string>& texts) {
  std::string row;
  for (const std::string& text : texts) row += (row.empty() ? "" : " \u00B7 ") + text;
  return row;
}

// Draws one piece that is in its place already.
class PieceDrawer {
 public:
  PieceDrawer(const PieceSketch& sketch, const Layout& layout, const DrawingChoices& choices,
              const Words& words, DrawItems& out)
      : s_(sketch), choices_(choices), words_(words), out_(out), space_(sketch.net) {
    const Rect box = bounds(sketch.cut);
    for (const double x : layout.upright) space_.avoid_if_possible({x, box.y0}, {x, box.y1});
    for (const double y : layout.level) space_.avoid_if_possible({box.x0, y}, {box.x1, y});
  }

  void draw_cloth() {
    const bool inside = s_.layers.front().layer != Layer::Shell;
    out_.push_back(FillItem{inside ? Role::LiningCloth : Role::Cloth, s_.cut, s_.id});
  }

  // Texts do, where they can; the name and what stands with it rather than off other such lines.
  void keep_off(const Under& under) {
    const Polyline& line = under.line;
    if (under.role == Role::Stripe) return;  // a grid is everywhere
    for (size_t i = 1; i < line.size(); ++i) space_.avoid_if_possible(line[i - 1], line[i]);
    if (under.role == Role::Former) former_.push_back(line);
  }

  void keep_off(Point occupied) {
    const double half = kOccupied * choices_.text_mm;
    space_.take({occupied, half, half, 0.0});
  }

  void draw_lines() {
    draw_marks();
    draw_edges();
    draw_notches();
    draw_fold();
    const std::vector<Wish> left = name_and_grain();
    write_mark_labels();
    if (choices_.sizes) write_sizes();
    for (const Wish& wish : left) write_block({wish}, space_);
    if (name_) std::get<TextItem>(out_[*name_]).most_mm = most_of_name();
  }

 private:
  void stroke(Role role, Polyline points, bool closed = false, std::string id = {}) {
    out_.push_back(StrokeItem{role, std::move(points), closed, std::move(id)});
  }

  void draw_edges() {
    for (size_t i = 0; i < s_.edges.size(); ++i) {
      const CutEdge& e = s_.edges[i];
      if (!is_fold(i) && e.allowance_mm > 0.0) stroke(Role::SewnLine, e.net, false, e.id);
    }
    for (StrokeItem& line : outline_strokes(s_)) out_.push_back(std::move(line));
  }

  void draw_notches() {
    for (const CutNotch& n : s_.notches) {
      stroke(Role::NotchLine, notch_peak(n));
      if (distance(n.on_net, n.on_cut) > 0.01) stroke(Role::NotchLine, {n.on_net, n.on_cut});
    }
  }

  // How far in from the fold the nearest other edge is, between two of the fold's points.
  [[nodiscard]] double room_beside(Point from, Vec along, Point a, Point b) const {
    const double first = dot(a - from, along), last = dot(b - from, along);
    double room = std::numeric_limits<double>::infinity();
    for (size_t i = 1; i < s_.edges.size(); ++i) {
      for (const Point p : s_.edges[i].net) {
        const double at = dot(p - from, along);
        if (at > first && at < last) room = std::min(room, std::abs(cross(along, p - from)));
      }
    }
    return room;
  }

  // The longest stretch of the fold, a tenth of it from both ends, beside which no mark lies; all
  // of it if that were short.
  [[nodiscard]] std::pair<double, double> beside_marks(Point from, Vec along, double whole) const {
    const double reach = 4.0 * choices_.text_mm;
    std::vector<std::pair<double, double>> taken;
    for (const Mark& m : s_.marks) {
      if (m.kind == MarkKind::GirthLine) continue;
      double first = whole, last = 0.0;
      for (const Point p : m.line) {
        if (std::abs(cross(along, p - from)) > reach) continue;
        first = std::min(first, dot(p - from, along));
        last = std::max(last, dot(p - from, along));
      }
      if (first <= last) taken.emplace_back(first - choices_.text_mm, last + choices_.text_mm);
    }
    std::sort(taken.begin(), taken.end());
    const double end = 0.9 * whole;
    taken.emplace_back(end, end);
    std::pair<double, double> longest{0.0, 0.0};
    double at = 0.1 * whole;
    for (const auto& [first, last] : taken) {
      if (std::min(first, end) - at > longest.second - longest.first) {
        longest = {at, std::min(first, end)};
      }
      at = std::max(at, last);
    }
    const bool is_short = longest.second - longest.first < 0.3 * whole;
    return is_short ? std::pair{0.1 * whole, end} : longest;
  }

  // A bracket whose arrows point to the fold, and what to do there.
  void draw_fold() {
    if (!s_.on_fold || s_.edges.empty() || s_.edges.front().net.size() < 2) return;
    const CutEdge& fold = s_.edges.front();
    const Point from = fold.net.front(), to = fold.net.back();
    const double whole = distance(from, to);
    const Vec along = unit(to - from), inward = {-along.y, along.x};
    const auto [first, last] = beside_marks(from, along, whole);
    const Point a = from + first * along, b = from + last * along;
    const double usual = std::clamp(0.05 * whole, 2.2 * choices_.text_mm, 4.0 * choices_.text_mm);
    const double depth = std::min(usual, kBracketInside * room_beside(from, along, a, b));
    const Point a_in = a + depth * inward, b_in = b + depth * inward;
    stroke(Role::Grain, {a, a_in, b_in, b});
    arrow_head(a, -inward, std::min(2.0 * depth, distance(a, b)));
    arrow_head(b, -inward, std::min(2.0 * depth, distance(a, b)));
    space_.avoid({a, a_in, b_in, b}, false);
    const Wish wish{Role::Size, words_("sheet.fold", {length_text(fold.length_mm)}),
                    1.25 * choices_.text_mm, choices_.text_mm};
    write_along({from, to}, wish, depth);
  }

  // The arrow first and the name where it leaves room; on a board the other way about, where the name
  // would be too small to be read. What of the name block found no place yet.
  std::vector<Wish> name_and_grain() {
    const LabelSpace before = space_;
    const auto drawn = static_cast<std::ptrdiff_t>(out_.size());
    draw_grain(true);
    std::vector<Wish> left = write_name_block();
    const double wanted = choices_.name_mm, least = kNameOnBoard * wanted;
    if (wanted == 0.0 || (name_ && most_of_name() >= least)) return left;
    const DrawItems items(out_.begin() + drawn, out_.end());
    const std::optional<size_t> name = std::exchange(name_, std::nullopt);
    const LabelSpace after = std::exchange(space_, before);
    out_.erase(out_.begin() + drawn, out_.end());
    if (write_block({{Role::Name, words_("piece." + s_.id), wanted, least}}, space_)) {
      draw_grain(false);
      left = counts_and_notes();
    } else {
      out_.insert(out_.end(), items.begin(), items.end());
      space_ = after;
      name_ = name;
    }
    return left;
  }

  // `always`: where it has no room, as it was drafted.
  void draw_grain(bool always) {
    if (s_.layers.front().layer == Layer::Webbing) return;  // it has no other way to lie
    const Vec along = unit(s_.grain_to - s_.grain_from);
    if (length(along) == 0.0) return;
    const bool one_way = goes_one_way();
    const Wish wish{Role::Caption, words_(one_way ? "sheet.nap" : "sheet.grain"),
                    1.1 * choices_.text_mm, choices_.text_mm};
    const double angle = readable_angle(along);
    const Vec reading{std::cos(angle), std::sin(angle)};
    const auto free = grain_line(angle, text_width(wish.text, wish.least, false));
    if (!free && !always) return;
    const Vec half = 0.5 * distance(s_.grain_from, s_.grain_to) * reading;
    const Point middle = lerp(s_.grain_from, s_.grain_to, 0.5);
    const auto [start, end] = free.value_or(std::pair{middle - half, middle + half});
    stroke(Role::Grain, {start, end});
    const double room = distance(start, end);
    const bool onward = dot(reading, along) > 0.0;  // it is read the way that it points
    if (!one_way || !onward) arrow_head(start, -reading, room);
    if (!one_way || onward) arrow_head(end, reading, room);
    space_.avoid({start, end}, false);
    // Above the arrow as it is read.
    write_along({end, start}, wish, choices_.text_mm);
  }

  [[nodiscard]] bool goes_one_way() const {
    return std::any_of(s_.layers.begin(), s_.layers.end(), [&](const SketchLayer& l) {
      return choices_.one_way[static_cast<size_t>(l.layer)];
    });
  }

  // Where the arrow lies on nothing, with its word above it if there is room for that too, as near
  // to where it was drafted and as long as can be; nothing if there is no such place.
  [[nodiscard]] std::optional<std::pair<Point, Point>> grain_line(double angle, double word) const {
    const Vec reading{std::cos(angle), std::sin(angle)}, down{-reading.y, reading.x};
    const Point middle = lerp(s_.grain_from, s_.grain_to, 0.5);
    const double whole = distance(s_.grain_from, s_.grain_to), t = choices_.text_mm;
    const double arrow = 0.4 * t;  // half as high as its head
    for (const double above : {kLineHeight * 1.1 * t + 1.0, 0.0}) {
      for (const double share : {1.0, 0.75, 0.55, 0.4}) {
        const double half = 0.5 * share * whole;
        const Vec lift = 0.5 * above * down;
        const auto room = find_room(space_, middle - lift, bounds(s_.net),
                                    std::max(half, above > 0.0 ? 0.5 * word : 0.0),
                                    arrow + 0.5 * above, {.strictly = false, .angle = angle});
        if (!room) continue;
        const Point at = room->centre + lift;
        return std::pair{at - half * reading, at + half * reading};
      }
    }
    return std::nullopt;
  }

  // `room`: how long the arrow is.
  void arrow_head(Point tip, Vec direction, double room) {
    const double size = std::min(1.3 * choices_.text_mm, 0.3 * room);
    const Vec across = {-direction.y, direction.x};
    const Point foot = tip - size * direction;
    out_.push_back(
        FillItem{Role::Grain, {tip, foot + 0.3 * size * across, foot - 0.3 * size * across}});
  }

  void draw_marks() {
    for (const Mark& m : s_.marks) {
      if (m.line.size() < 2) continue;
      switch (m.kind) {
        case MarkKind::CentreFront:
          stroke(Role::CentreLine, m.line, m.closed);
          break;
        case MarkKind::GirthLine:
          // The body map has the same line, and further.
          if (choices_.body_lines) continue;
          [[fallthrough]];
        case MarkKind::HookLoop:
        case MarkKind::BandPlace:
        case MarkKind::Placement:
        case MarkKind::Opening:
        case MarkKind::Dart:
          stroke(Role::Placement, m.line, m.closed);
          break;
        case MarkKind::TurningGap:
          draw_gap(m);
          break;
      }
      space_.avoid(m.line, m.closed);
    }
  }

  // The stretch left open: short bars across its two ends.
  void draw_gap(const Mark& m) {
    const double reach = choices_.text_mm;
    const auto bar = [&](Point p, Point next) {
      const Vec along = unit(next - p);
      const Vec across = reach * Vec{-along.y, along.x};
      stroke(Role::NotchLine, {p - across, p + across});
      space_.avoid({p - across, p + across}, false);
    };
    bar(m.line.front(), m.line[1]);
    bar(m.line.back(), m.line[m.line.size() - 2]);
  }

  [[nodiscard]] bool is_fold(size_t edge) const { return s_.on_fold && edge == 0; }

  [[nodiscard]] std::string length_text(double mm) const {
    return format_length(Length::mm(mm), choices_.lengths);
  }

  // The allowance of most of the outline, so that it is written once.
  [[nodiscard]] double usual_allowance() const {
    double usual = 0.0, most = 0.0;
    for (size_t i = 0; i < s_.edges.size(); ++i) {
      if (is_fold(i)) continue;
      double sum = 0.0;
      for (size_t j = 0; j < s_.edges.size(); ++j) {
        const bool same = std::abs(s_.edges[j].allowance_mm - s_.edges[i].allowance_mm) < 0.01;
        if (!is_fold(j) && same) sum += s_.edges[j].length_mm;
      }
      if (sum > most) {
        most = sum;
        usual = s_.edges[i].allowance_mm;
      }
    }
    return usual;
  }

  // Name, counts, ticket and allowance in one block, or what is most needed first. What found no
  // place yet.
  std::vector<Wish> write_name_block() {
    const double t = choices_.text_mm;
    const Rect box = bounds(s_.net);
    // A giant's body may carry a bigger name than a toy's band.
    const double name = std::clamp(0.05 * std::min(box.width(), box.height()), 2.0 * t, 4.0 * t);
    const std::vector<std::string> counts = cut_counts(s_, words_);

    const Wish title{Role::Name, words_("piece." + s_.id), name, 1.2 * t};
    std::vector<Wish> notes = notes_of_piece();
    std::vector<Wish> in_row = {title, {Role::Caption, in_a_row(counts), 1.35 * t, t}};
    // The counts one below the other.
    std::vector<Wish> below = {title};
    for (const std::string& count : counts) {
      below.push_back({Role::Caption, count, 1.35 * t, t});
    }
    const std::vector<Wish> needed = below;
    for (std::vector<Wish>* block : {&in_row, &below}) {
      block->insert(block->end(), notes.begin(), notes.end());
    }
    // What stands inside a mark would be taken for the mark's.
    std::vector<LabelSpace> spaces = {clear_of_marks(), space_};
    if (!former_.empty()) spaces.insert(spaces.begin(), clear_of_former(clear_of_marks()));
    for (const LabelSpace& space : spaces) {
      if (write_block(in_row, space)) return {};
      if (counts.size() > 1 && write_block(below, space)) return {};
    }
    std::reverse(notes.begin(), notes.end());  // the allowance is needed more
    if (write_block(needed, space_)) return notes;
    std::vector<Wish> small = needed;
    for (Wish& w : small) w.least = kCountsAtLeast * t;
    if (write_block(small, space_)) return notes;
    // Each for itself: a strap has room for one line only.
    for (Wish w : needed) {
      w.least = (w.role == Role::Name ? kNameAtLeast : kCountsAtLeast) * t;
      write_block({w}, space_);
    }
    return notes;
  }

  [[nodiscard]] LabelSpace clear_of_former(LabelSpace space) const {
    for (const Polyline& line : former_) space.avoid(line, false);
    return space;
  }

  // Ticket and allowance.
  [[nodiscard]] std::vector<Wish> notes_of_piece() const {
    const double t = choices_.text_mm;
    std::vector<Wish> notes;
    if (!choices_.ticket_name.empty()) {
      notes.push_back({Role::Caption, cleaned(choices_.ticket_name, kMostNote), 1.15 * t, t});
    }
    if (usual_allowance() > 0.0) {
      notes.push_back({Role::Caption, words_("sheet.allowance", {length_text(usual_allowance())}),
                       1.15 * t, t});
    } else if (s_.layers.front().layer != Layer::Webbing) {
      notes.push_back({Role::Caption, words_("sheet.no-allowance"), 1.15 * t, t});
    }
    return notes;
  }

  // What stands with the name, where each looks for a place of its own; the needed first.
  [[nodiscard]] std::vector<Wish> counts_and_notes() const {
    std::vector<Wish> out;
    for (const std::string& count : cut_counts(s_, words_)) {
      out.push_back({Role::Caption, count, 1.35 * choices_.text_mm, choices_.text_mm});
    }
    const std::vector<Wish> notes = notes_of_piece();
    out.insert(out.end(), notes.rbegin(), notes.rend());
    return out;
  }

  // How large the name may be written where it stands, and not be crossed; at least as it is.
  [[nodiscard]] double most_of_name() {
    const double size = std::get<TextItem>(out_[*name_]).size_mm;
    if (!name_alone_) return size;
    space_.give_back(name_box_);
    const bool strictly = space_.is_free(name_box_, true);
    double most = size;
    for (double larger = 1.08 * size; larger < 1.08 * choices_.name_mm; larger *= 1.08) {
      LabelBox box = name_box_;
      const double by = std::min(larger, choices_.name_mm) / size;
      box.half_width *= by;
      box.half_height *= by;
      if (!space_.is_free(box, strictly)) break;
      most = by * size;
    }
    space_.take(name_box_);
    return most;
  }

  [[nodiscard]] LabelSpace clear_of_marks() const {
    LabelSpace space = space_;
    for (const Mark& m : s_.marks) {
      if (!m.closed || m.line.size() < 4) continue;
      const Rect r = bounds(m.line);
      space.avoid({{r.x0, r.y0}, {r.x1, r.y1}}, false);
      space.avoid({{r.x1, r.y0}, {r.x0, r.y1}}, false);
    }
    return space;
  }

  // Whether to keep off what is to be avoided if possible: first so, then not.
  [[nodiscard]] std::vector<bool> strictness() const {
    return space_.avoids_softly() ? std::vector<bool>{true, false} : std::vector<bool>{false};
  }

  // Lines below each other, centred, near the place for the label; at 1, 0.85, ... of their sizes.
  bool write_block(const std::vector<Wish>& lines, const LabelSpace& space) {
    for (const bool strictly : strictness()) {
      for (double scale = 1.0;; scale *= 0.85) {
        double width = 0.0, height = 0.0;
        bool at_least = true;
        for (const Wish& w : lines) {
          const double size = std::max(w.least, scale * w.size);
          at_least = at_least && size == w.least;
          width = std::max(width, width_of(w, size));
          height += kLineHeight * size;
        }
        const auto room = find_room(space, s_.label_at, bounds(s_.net), 0.5 * width, 0.5 * height,
                                    {.strictly = strictly});
        if (room) {
          set_lines(lines, scale, *room);
          return true;
        }
        if (at_least) break;
      }
    }
    return false;
  }

  [[nodiscard]] double width_of(const Wish& w, double size) const {
    const double known = w.role == Role::Name ? choices_.name_width : 1.0;
    return known * text_width(w.text, size, is_bold(w.role));
  }

  void set_lines(const std::vector<Wish>& lines, double scale, const LabelBox& room) {
    const Vec down = {-std::sin(room.angle), std::cos(room.angle)};
    double y = -room.half_height;
    for (const Wish& w : lines) {
      const double size = std::max(w.least, scale * w.size);
      const double line = kLineHeight * size;
      const Point at = room.centre + (y + 0.5 * line + kTextMiddle * size) * down;
      TextItem text{w.role, at, size, room.angle, 0.5, w.text};
      if (w.role == Role::Name) {
        name_ = out_.size();
        name_box_ = room;
        name_alone_ = lines.size() == 1;
      }
      out_.push_back(std::move(text));
      y += line;
    }
    space_.take(room);
  }

  // Along the inner side of a line, no further in than `reach`.
  bool write_along(const Polyline& line, const Wish& w, double reach) {
    for (const bool strictly : strictness()) {
      for (double size = w.size;; size = std::max(w.least, 0.85 * size)) {
        const double half_width = 0.5 * text_width(w.text, size, is_bold(w.role));
        // A text much longer than its line would be taken for another line's.
        const bool too_long = 2.0 * half_width > 1.15 * polyline_length(line);
        const auto room = too_long
                              ? std::nullopt
                              : find_room_along(space_, line, half_width, 0.5 * kLineHeight * size,
                                                {.strictly = strictly, .reach = reach});
        if (room) {
          set_lines({{w.role, w.text, size, size}}, 1.0, *room);
          return true;
        }
        if (size <= w.least) break;
      }
    }
    return false;
  }

  void write_sizes() {
    const double usual = usual_allowance(), t = choices_.text_mm;
    const bool webbing = s_.layers.front().layer == Layer::Webbing;
    std::vector<std::string> written;
    for (size_t i = 0; i < s_.edges.size(); ++i) {
      const CutEdge& e = s_.edges[i];
      // An opened piece has each edge twice; one of them says how long it is.
      if (is_fold(i) || e.id.ends_with(kMirrored)) continue;
      std::string size = length_text(e.length_mm);
      // Webbing is as long on its one side as on the other.
      if (webbing && std::find(written.begin(), written.end(), size) != written.end()) continue;
      written.push_back(size);
      if (std::abs(e.allowance_mm - usual) > 0.01) {
        size += ", " + (e.allowance_mm > 0.0
                            ? words_("sheet.allowance-here", {length_text(e.allowance_mm)})
                            : words_("sheet.no-allowance-here"));
      }
      // Without its name where that has no room.
      const std::string named = words_("size." + e.id) + " " + size;
      if (write_along(e.net, {Role::Size, named, 1.25 * t, t}, 2.0 * t)) continue;
      write_along(e.net, {Role::Size, size, 1.25 * t, t}, 0.6 * t);
    }
  }

  void write_mark_labels() {
    const double t = choices_.text_mm;
    for (const Mark& m : s_.marks) {
      if (m.label.empty() || m.line.size() < 2) continue;
      if (m.kind == MarkKind::GirthLine && choices_.body_lines) continue;
      const std::string text = words_(m.label);
      if (write_at_mark(m, {Role::Caption, text, 1.1 * t, t})) continue;
      write_at_mark(m, {Role::Caption, text, kMarksAtLeast * t, kMarksAtLeast * t});
    }
  }

  bool write_at_mark(const Mark& m, const Wish& wish) {
    Polyline line = m.line;
    if (m.closed) line.push_back(line.front());
    const Polyline back(line.rbegin(), line.rend());
    const double reach = choices_.text_mm;
    return write_along(line, wish, reach) || write_along(back, wish, reach) ||
           (m.closed && write_inside(m, wish));
  }

  // Wherever there is room near the mark.
  bool write_inside(const Mark& m, const Wish& wish) {
    const Rect box = bounds(m.line);
    const Point middle = lerp({box.x0, box.y0}, {box.x1, box.y1}, 0.5);
    const double size = wish.least;
    const auto room =
        find_room(space_, middle, box, 0.5 * text_width(wish.text, size, is_bold(wish.role)),
                  0.5 * kLineHeight * size, {.strictly = false});
    if (room) set_lines({{wish.role, wish.text, size, size}}, 1.0, *room);
    return room.has_value();
  }

  const PieceSketch& s_;
  const DrawingChoices& choices_;
  const Words& words_;
  DrawItems& out_;
  LabelSpace space_;
  std::optional<size_t> name_ = {};  // which of the items it is
  LabelBox name_box_ = {};           // of it and what stands with it
  bool name_alone_ = false;
  std::vector<Polyline> former_ = {};
};

}  // namespace

std::vector<std::string> cut_counts(const PieceSketch& sketch, const Words& words) {
  std::vector<std::string> counts;
  for (const SketchLayer& l : sketch.layers) {
    const char* key = l.on_fold                ? "sheet.cut-on-fold"
                      : l.turned_over == 0     ? "sheet.cut"
                      : l.turned_over == l.cut ? "sheet.cut-mirrored"
                                               : "sheet.cut-pair";
    const std::string layer = words("layer." + std::string(layer_id(l.layer)));
    counts.push_back((l.laminated ? words("sheet.laminated", {layer}) : layer) + ": " +
                     words(key, {std::to_string(l.cut)}));
  }
  return counts;
}

std::vector<Polyline> body_lines(const BodyMap& map, bool opened) {
  constexpr double kTolerance = 0.1;
  std::vector<Polyline> lines;
  for (const double u : {map.girth_u, map.last_rib_u, map.loin_u}) {
    const double v = map.half_girth(u);
    lines.push_back({{u, opened ? -v : 0.0}, {u, v}});
  }
  Polyline zone = map.foreleg.outline(kTolerance);
  if (!zone.empty()) zone.push_back(zone.front());
  for (Polyline line : {map.midline, zone}) {
    if (opened) lines.push_back(mirrored(line));
    lines.push_back(std::move(line));
  }
  return lines;
}

namespace {

bool is_opened(const PieceSketch& sketch) {
  return std::any_of(sketch.edges.begin(), sketch.edges.end(),
                     [](const CutEdge& e) { return e.id.ends_with(kMirrored); });
}

}  // namespace

namespace {

// Lines of a grid inside an outline, from its origin; `upright`: across the spine.
void add_grid(std::vector<Under>& out, const PieceSketch& sketch, double apart, bool upright) {
  Polyline net = sketch.net;
  if (upright) {
    for (Point& p : net) p = {p.y, p.x};
  }
  constexpr double kOffEdge = 1.0;  // mm
  const Rect box = bounds(net);
  std::vector<double> at;
  for (double level = std::ceil(box.y0 / apart) * apart; level < box.y1; level += apart) {
    if (level - box.y0 < kOffEdge || box.y1 - level < kOffEdge) continue;  // along an edge
    crossings_at(net, level, at);
    for (size_t i = 0; i + 1 < at.size(); i += 2) {
      const Point a = upright ? Point{level, at[i]} : Point{at[i], level};
      const Point b = upright ? Point{level, at[i + 1]} : Point{at[i + 1], level};
      out.push_back({sketch.id, Role::Stripe, {a, b}});
    }
  }
}

}  // namespace

std::vector<Under> lines_under(const std::vector<PieceSketch>& sketches, const BodyMap& map,
                               const DrawingChoices& choices) {
  std::vector<Under> out;
  for (const PieceSketch& sketch : sketches) {
    if (choices.body_lines && sketch.id == kBodyPiece) {
      for (Polyline& line : body_lines(map, choices.opened)) {
        out.push_back({sketch.id, Role::BodyLine, std::move(line)});
      }
    }
    if (choices.grid_mm > 0.0) {
      for (const bool upright : {false, true}) add_grid(out, sketch, choices.grid_mm, upright);
    }
    for (const FormerOutline& former : choices.former) {
      if (former.piece != sketch.id) continue;
      out.push_back({sketch.id, Role::Former, former.line});
      if (is_opened(sketch)) out.push_back({sketch.id, Role::Former, mirrored(former.line)});
    }
  }
  return out;
}

Layout in_rows(const std::vector<PieceSketch>& sketches, const std::vector<Under>& under,
               double at_least) {
  std::vector<Rect> boxes;
  double widest = at_least;
  for (const PieceSketch& s : sketches) {
    Rect box = bounds(s.cut);
    for (const Under& u : under) {
      if (u.piece == s.id) box = united(box, bounds(u.line));
    }
    widest = std::max(widest, box.width());
    boxes.push_back(box);
  }
  Layout layout;
  double x = 0.0, y = 0.0, row = 0.0;
  for (const Rect& box : boxes) {
    if (x > 0.0 && x + box.width() > widest) {
      x = 0.0;
      y += row + kPieceGap;
      row = 0.0;
    }
    layout.places.push_back({0, Point{x, y} - Point{box.x0, box.y0}});
    x += box.width() + kPieceGap;
    row = std::max(row, box.height());
  }
  return layout;
}

PatternDrawing draw_placed(const std::vector<PieceSketch>& sketches, const Layout& layout,
                           const BodyMap& map, const DrawingChoices& choices, const Words& words) {
  PatternDrawing result;
  const std::vector<Under> under = lines_under(sketches, map, choices);
  for (size_t i = 0; i < sketches.size(); ++i) {
    const Placement& place = layout.places[i];
    const PieceSketch sketch = placed(sketches[i], place);
    const size_t before = result.drawing.items.size();
    PieceDrawer drawer(sketch, layout, choices, words, result.drawing.items);
    drawer.draw_cloth();
    for (const Under& u : under) {
      if (u.piece != sketch.id) continue;
      const Under here{u.piece, u.role, placed(u.line, place)};
      drawer.keep_off(here);
      result.drawing.items.push_back(
          StrokeItem{u.role, here.line, false, u.role == Role::Former ? kFormerOutline : ""});
    }
    for (const Occupied& o : choices.occupied) {
      if (o.piece == sketch.id) drawer.keep_off(placed(o.at, place));
    }
    drawer.draw_lines();
    for (size_t k = before; k < result.drawing.items.size(); ++k) {
      std::visit([&](auto& item) { item.part = static_cast<int>(i); }, result.drawing.items[k]);
    }
    result.placed.push_back({sketch.id, place.shift, bounds(sketch.cut), place.quarters, sketch.cut,
                             cut_counts(sketch, words)});
  }
  set_bounds(result.drawing);
  return result;
}

PatternDrawing draw_pattern(const Pattern& pattern, const DrawingChoices& choices,
                            const Words& words) {
  const std::vector<PieceSketch> sketches =
      sketch_pieces(pattern.cut, choices.opened, choices.merge_layers);
  const BodyMap& map = pattern.draft.map;
  const Layout layout = in_rows(sketches, lines_under(sketches, map, choices), 0.0);
  return draw_placed(sketches, layout, map, choices, words);
}

}  // namespace coatwright
