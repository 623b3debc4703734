#include "core/draft/options/pocket.h"

#include <algorithm>
#include <limits>

#include "core/draft/options/sewing.h"
#include "core/draft/seams.h"
#include "core/draft/told.h"
#include "core/geometry/fillet.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

enum Kinds { kNone, kPatch, kFlap };
enum Sides { kOneSide, kBothSides };
constexpr auto kKinds = named<Kinds>({{kNone, "none"}, {kPatch, "patch"}, {kFlap, "flap"}});
constexpr auto kSides = named<Sides>({{kOneSide, "one"}, {kBothSides, "both"}});

bool has_pocket(const Chosen& c) { return c.option(kPocket) != kNone; }

}  // namespace

const ChoiceInfo kPocket = {.id = "pocket", .options = kKinds};
const ChoiceInfo kPocketSides = {.id = "pocket-sides", .options = kSides, .applies = has_pocket};

// Parts of the back. Common practice, no source.
const ChoiceInfo kPocketWidth = {
    .id = "pocket-width",
    .range = [](const Body& b) { return part_of(b.mm(Measure::Back), 0.1, 0.2, 0.3); },
    .applies = has_pocket};
const ChoiceInfo kPocketPlace = {
    .id = "pocket-place",
    .range = [](const Body& b) { return part_of(b.mm(Measure::Back), 0.4, 0.63, 0.75); },
    .applies = has_pocket};

namespace {

// Own rules.
constexpr double kClear = 0.02;       // of the back: cloth between the pocket and all else
constexpr double kFine = 0.0004;      // of the back: how close the lines are that it keeps clear of
constexpr double kDepth = 0.95;       // of the width
constexpr double kCorner = 0.2;       // of the width: radius of the lower corners
constexpr double kFlapLap = 0.18;     // of the width: what the flap covers of the pocket
constexpr double kFlapGap = 0.12;     // of the width: from the flap's seam to the pocket's mouth
constexpr double kFlapBeyond = 0.04;  // of the width: on each side
constexpr double kSmallest = 0.45;    // of what was wanted, or there is none
constexpr double kNarrowest = 25.0;   // mm: a narrower one that was not wanted so holds nothing
constexpr double kMouthStitch = 15.0;  // mm: the row that holds the mouth flat, from its edge,
constexpr double kOfDepth = 0.25;      // and no more than this part of the depth
// Of what lies between the flap's seam and the mouth: what is left of its allowance, and the row
// that closes it in. Of the cloth, not of the dog: the least that is left of an allowance sets how
// little may lie there.
constexpr double kFlapTrim = 0.4, kFlapStitch = 0.7;
constexpr double kLeastFlapGap = kTrimInner / kFlapTrim;
constexpr double kTall = 0.48;  // of the side drop: where the pocket's middle lies

// The pocket on the body: mouth toward the spine. Its middle stays where it is when it is made
// smaller.
struct Place {
  Point middle;
  double width = 0.0;
  bool flap = false;

  [[nodiscard]] double depth() const { return kDepth * width; }
  [[nodiscard]] double above() const {
    return flap ? std::max(kLeastFlapGap, kFlapGap * width) : 0.0;
  }
  [[nodiscard]] double flap_depth() const { return above() + kFlapLap * width; }
  [[nodiscard]] double beyond() const { return flap ? kFlapBeyond * width : 0.0; }
  // The corner from which the pocket's own outline is measured: mouth, toward the neck.
  [[nodiscard]] Point corner() const {
    return middle - Vec{0.5 * width, 0.5 * (depth() - above())};
  }
  // All that is covered, flap and pocket.
  [[nodiscard]] Polyline covered() const {
    const Point a = corner() - Vec{beyond(), above()};
    const double w = width + 2.0 * beyond(), h = depth() + above();
    return {a, a + Vec{w, 0.0}, a + Vec{w, h}, a + Vec{0.0, h}};
  }
};

// A box with rounded lower corners, its mouth on the line from the origin to (w, 0).
struct Outline {
  Path rear, lower, front;
};
Outline outline(double w, double h) {
  const double r = kCorner * w;
  const Point rear{w, h - r}, front{0.0, h - r};
  return {{{straight({w, 0.0}, rear)}},
          PathBuilder(rear)
              .arc_to({w - r, h}, {w - r, h - r}, true)
              .line_to({r, h})
              .arc_to(front, {r, h - r}, true)
              .path(),
          {{straight(front, {0.0, 0.0})}}};
}

// The lines that a pocket keeps clear of: the outline but for the fold, and whatever else is sewn,
// cut or closed on the body.
std::vector<Polyline> obstacles(const Piece& body, double back) {
  std::vector<Polyline> out;
  for (const Edge& e : body.edges) {
    if (e.finish != Finish::Fold) out.push_back(flatten(e.path, kFine * back));
  }
  for (const Mark& m : body.marks) {
    if (m.kind == MarkKind::CentreFront || m.kind == MarkKind::GirthLine || m.line.size() < 2) {
      continue;
    }
    out.push_back(m.line);
    if (m.closed) out.back().push_back(m.line.front());
  }
  return out;
}

// The least distance between the outline and the obstacles and the fold; below 0 where they meet.
double room(const Polyline& closed, const std::vector<Polyline>& lines) {
  Polyline ring = closed;
  ring.push_back(closed.front());
  double least = std::numeric_limits<double>::infinity();
  for (const Point p : closed) least = std::min(least, p.y);
  for (const Polyline& line : lines) {
    for (const Point p : line) {
      if (contains(closed, p)) return -1.0;
      least = std::min(least, distance_to_polyline(ring, p));
    }
    for (const Point p : closed) least = std::min(least, distance_to_polyline(line, p));
    for (size_t i = 0; i + 1 < ring.size(); ++i) {
      for (size_t k = 0; k + 1 < line.size(); ++k) {
        if (crossing(ring[i], ring[i + 1], line[k], line[k + 1])) return -1.0;
      }
    }
  }
  return least;
}

// The parts of the lines that come within `clear` of the box.
std::vector<Polyline> parts_near(const Rect& box, const std::vector<Polyline>& lines,
                                 double clear) {
  const auto away = [&](Point a, Point b) {
    return std::min(a.x, b.x) > box.x1 + clear || std::max(a.x, b.x) < box.x0 - clear ||
           std::min(a.y, b.y) > box.y1 + clear || std::max(a.y, b.y) < box.y0 - clear;
  };
  std::vector<Polyline> out;
  for (const Polyline& line : lines) {
    for (size_t i = 0; i + 1 < line.size(); ++i) {
      if (!away(line[i], line[i + 1])) out.push_back({line[i], line[i + 1]});
    }
  }
  return out;
}

// As wide as is wanted and clear of everything; nothing if it would be smaller than is of use.
std::optional<Place> clear_place(const Place& wanted, const std::vector<Polyline>& lines,
                                 double clear) {
  // A narrower place lies within the one that is wanted, and what is far from that is far from it.
  const auto near = parts_near(bounds(wanted.covered()), lines, clear);
  const auto fit = [&](double share) {
    Place p = wanted;
    p.width *= share;
    return room(p.covered(), near) >= clear;
  };
  if (fit(1.0)) return wanted;
  const double least = std::max(kSmallest, std::min(1.0, kNarrowest / wanted.width));
  if (!fit(least)) return std::nullopt;
  double fits = least, not_fits = 1.0;
  while (not_fits - fits > 1e-7) {
    const double middle = 0.5 * (fits + not_fits);
    (fit(middle) ? fits : not_fits) = middle;
  }
  Place out = wanted;
  out.width *= fits;
  return out;
}

Piece pocket_piece(double w, double h, int count) {
  const Outline around = outline(w, h);
  Piece p;
  p.id = "pocket";
  p.made_up = true;
  p.cut = count;
  p.edges = {
      {"pocket.mouth", "pocket.mouth", Finish::Turned, {{straight({0.0, 0.0}, {w, 0.0})}}},
      {"pocket.rear", "pocket.rear", Finish::Turned, around.rear},
      {"pocket.lower", "pocket.lower", Finish::Turned, around.lower},
      {"pocket.front", "pocket.front", Finish::Turned, around.front},
  };
  p.grain_from = {0.25 * w, 0.8 * h};
  p.grain_to = {0.75 * w, 0.8 * h};
  p.label_at = {0.5 * w, 0.45 * h};
  return p;
}

// Sewn above the mouth along its straight edge, and folded down over it.
Piece flap_piece(double w, double h, int count) {
  const Outline around = outline(w, h);
  Piece p;
  p.id = "flap";
  p.made_up = true;
  p.cut = count;
  p.edges = {
      {"flap.top", "flap.top", Finish::Seam, {{straight({0.0, 0.0}, {w, 0.0})}}},
      {"flap.rear", "flap.rear", Finish::Turned, around.rear},
      {"flap.lower", "flap.lower", Finish::Turned, around.lower},
      {"flap.front", "flap.front", Finish::Turned, around.front},
  };
  p.grain_from = {0.3 * w, 0.8 * h};
  p.grain_to = {0.7 * w, 0.8 * h};
  p.label_at = {0.5 * w, 0.4 * h};
  return p;
}

void put_on_body(Draft& d, const Place& place, bool both) {
  Piece& body = *find_piece(d, "body");
  const Vec shift = place.corner() - Point{0.0, 0.0};
  Mark mark{MarkKind::Placement, both ? "mark.pocket" : "mark.pocket-one-side", {}, true};
  mark.line.push_back(Point{0.0, 0.0} + shift);
  mark.line.push_back(Point{place.width, 0.0} + shift);
  for (const Point p : flatten(outline(place.width, place.depth()).lower, 0.02)) {
    mark.line.push_back(p + shift);
  }
  body.marks.push_back(std::move(mark));
  if (!place.flap) return;
  const Point a = place.covered()[0], b = place.covered()[1];
  body.marks.push_back({MarkKind::Placement, "mark.flap", {a, b}});
}

void promise(Draft& d, const Place& place, const std::vector<Polyline>& lines, double clear) {
  const Piece& pocket = *find_piece(d, "pocket");
  double round = 0.0;
  for (const Edge& e : pocket.edges) round += arc_length(e.path, 1e-6);
  for (const Mark& m : find_piece(d, "body")->marks) {
    if (!m.label.starts_with("mark.pocket")) continue;
    Polyline ring = m.line;
    ring.push_back(ring.front());
    d.invariants.push_back({"pocket-on-mark", round, polyline_length(ring)});
  }
  d.invariants.push_back({"pocket-clear", clear, room(place.covered(), lines), true});
}

std::optional<Problem> add_pocket(Draft& d, const Body& body, Findings& findings) {
  if (!has_pocket(d.chosen)) return std::nullopt;
  const bool both = d.chosen.option(kPocketSides) == kBothSides;
  const bool flap = d.chosen.option(kPocket) == kFlap;
  const double clear = kClear * body.mm(Measure::Back);
  const double wanted = d.chosen.of(kPocketWidth);
  const auto lines = obstacles(*find_piece(d, "body"), d.map.back);
  const auto place = clear_place(
      {{d.chosen.of(kPocketPlace), kTall * body.mm(Measure::Drop)}, wanted, flap}, lines, clear);
  if (!place) {
    findings.push_back({Level::Check, {Code::Advice, kPocket.id, {clear}, "pocket-no-room"}});
    return std::nullopt;
  }
  const double w = place->width, h = place->depth();
  if (is_told(wanted, w)) {
    findings.push_back(
        {Level::Note, {Code::Advice, kPocketWidth.id, {wanted, w, clear}, "pocket-smaller"}});
  }
  d.pieces.push_back(pocket_piece(w, h, both ? 2 : 1));
  if (flap) {
    const double wide = w + 2.0 * place->beyond();
    const double deep = place->flap_depth();
    d.pieces.push_back(flap_piece(wide, deep, both ? 2 : 1));
    d.trace.push_back(
        {"flap", "flap", {0.5 * wide, 0.0}, {wide, deep, place->above()}, "flap.top"});
  }
  put_on_body(d, *place, both);
  d.trace.push_back({"pocket", "pocket", {0.5 * w, h}, {w, h, kCorner * w}, "pocket.lower"});
  d.trace.push_back({"pocket place",
                     "pocket-place",
                     place->corner(),
                     {place->corner().x, place->corner().y},
                     ""});
  promise(d, *place, lines, clear);
  return std::nullopt;
}

void sew_pocket(const Draft& d, Operations& out) {
  if (find_piece(d, "pocket") == nullptr) return;
  const bool flap = find_piece(d, "flap") != nullptr;
  const double depth = bounds(outline_of(*find_piece(d, "pocket"), 0.05)).y1;
  Operation make{Deed::MakeUp,
                 Stage::Pieces,
                 "make-pocket",
                 {"pocket"},
                 {"pocket.mouth", "pocket.rear", "pocket.lower", "pocket.front"}};
  make.through = layers_of(d, "pocket");
  make.open = {"pocket.lower"};
  make.how = {{"make-pocket"}};
  add_trim_and_turn(d, make);
  make.how.push_back({"stitch-mouth", {std::min(kMouthStitch, kOfDepth * depth)}});
  out.push_back(std::move(make));
  Operation sew{Deed::Attach,
                Stage::Pieces,
                "sew-pocket",
                {"pocket"},
                {"pocket.rear", "pocket.lower", "pocket.front"}};
  sew.through = {"body"};
  sew.open = {"pocket.lower"};
  sew.how = {{"fold-gap"}, {"sew-pocket", {kEdgestitch}}};
  double gap = 0.0, mouth = 0.0;
  for (const Mark& m : find_piece(d, "body")->marks) {
    if (m.label.starts_with("mark.pocket")) sew.marks.push_back(m.label);
    if (m.label.starts_with("mark.pocket")) mouth = m.line.front().y;
    if (m.label == "mark.flap") gap = m.line.front().y;
  }
  if (flap) {
    Operation top{Deed::MakeUp,
                  Stage::Pieces,
                  "make-flap",
                  {"flap"},
                  {"flap.rear", "flap.lower", "flap.front"}};
    top.through = layers_of(d, "flap");
    top.open = {"flap.top"};
    top.how = {{"make-flap"}};
    add_trim_and_turn(d, top);
    out.push_back(std::move(top));
    // Its raw edge lies between two rows of stitching, and ends short of the pocket's mouth.
    Operation hang{Deed::Attach, Stage::Pieces, "sew-flap", {"flap"}, {"flap.top"}, {"mark.flap"}};
    hang.through = {"body"};
    hang.open = {"flap.top"};
    hang.rows = 2;
    const double clear = mouth - gap;
    hang.how = {{"sew-flap"}};
    if (kFlapTrim * clear < d.chosen.of(kSeamAllowance)) {
      hang.how.push_back({"trim-flap", {kFlapTrim * clear}});
    }
    hang.how.push_back({"fold-flap", {kFlapStitch * clear}});
    out.push_back(std::move(hang));
  }
  out.push_back(std::move(sew));
}

std::optional<Point> middle_of_pocket(const Draft& d) {
  for (const Mark& m : find_piece(d, "body")->marks) {
    if (!m.label.starts_with("mark.pocket")) continue;
    const Rect r = bounds(m.line);
    return Point{0.5 * (r.x0 + r.x1), 0.5 * (r.y0 + r.y1)};
  }
  return std::nullopt;
}

const ChoiceInfo* const kChoices[] = {&kPocket, &kPocketWidth, &kPocketPlace, &kPocketSides};
const HandleInfo kHandles[] = {
    {&kPocketPlace, "body", middle_of_pocket},
    {&kPocketWidth, "pocket",
     [](const Draft& d) { return along_edge(d, "pocket", "pocket.mouth", 1.0); }},
};

}  // namespace

const OptionInfo kPocketOption = {.id = "pocket",
                                  .choices = kChoices,
                                  .handles = kHandles,
                                  .apply = add_pocket,
                                  .sew = sew_pocket};

}  // namespace coatwright
