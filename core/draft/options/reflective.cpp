#include "core/draft/options/reflective.h"

#include <algorithm>

#include "core/draft/options/back_closure.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/hem.h"
#include "core/draft/rear.h"
#include "core/draft/seams.h"
#include "core/draft/sold.h"
#include "core/draft/told.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

enum Layouts { kNone, kRing, kRingAndLoin };
constexpr auto kLayouts =
    named<Layouts>({{kNone, "none"}, {kRing, "ring"}, {kRingAndLoin, "ring-loin"}});

bool has_tape(const Chosen& c) { return c.option(kReflective) != kNone; }

}  // namespace

const ChoiceInfo kReflective = {.id = "reflective", .options = kLayouts};
// Part of the back; common practice, no source.
const ChoiceInfo kReflectiveWidth = {
    .id = "reflective-width",
    .range =
        [](const Body& b) {
          return as_sold(kSoldReflective, part_of(b.mm(Measure::Back), 0.015, 0.035, 0.07));
        },
    .applies = has_tape};

namespace {

// Own rules.
constexpr double kEndUnder = 10.0;   // mm, folded under at each end
constexpr double kOfBand = 0.4;      // of the band's width, that the tape takes at the most
constexpr double kClear = 0.02;      // of the back: cloth between a tape and an edge or the band
constexpr double kNarrowest = 0.25;  // of the wanted width; a narrower one is left out
constexpr double kTwoRows = 6.0;     // mm, the narrowest tape that has room for a row at each edge
constexpr double kTight = 1e-6;      // mm, tolerance of lengths
constexpr int kAlongSeam = 8;        // chords of an end that is cut along a seam

// A stretch of tape on the half of the body, square to the spine about u = middle.
struct Stretch {
  double middle = 0.0, width = 0.0;
  double from = 0.0, to = 0.0;  // v

  [[nodiscard]] double length() const { return to - from; }
  // Where it begins or ends in a seam that is not level, it is cut along the seam.
  const Path* upper_seam = nullptr;
  const Path* lower_seam = nullptr;

  [[nodiscard]] double first(double u) const {
    return upper_seam ? height_at(*upper_seam, u) : from;
  }
  [[nodiscard]] double last(double u) const { return lower_seam ? height_at(*lower_seam, u) : to; }
  [[nodiscard]] Mark mark(const char* label) const {
    const double a = middle - 0.5 * width;
    const int upper = upper_seam ? kAlongSeam : 1, lower = lower_seam ? kAlongSeam : 1;
    Mark m{MarkKind::Placement, label, {}, true};
    for (int i = 0; i <= upper; ++i) {
      const double u = a + width * i / upper;
      m.line.push_back({u, first(u)});
    }
    for (int i = lower; i >= 0; --i) {
      const double u = a + width * i / lower;
      m.line.push_back({u, last(u)});
    }
    return m;
  }
};

bool beside(const Rect& r, const Stretch& s) {
  return r.x1 > s.middle - 0.5 * s.width && r.x0 < s.middle + 0.5 * s.width;
}

// Where a tape may begin: not over an opening on the spine.
void keep_clear(const Piece& body, Stretch& s) {
  for (const Mark& m : body.marks) {
    const Rect r = bounds(m.line);
    if (!beside(r, s)) continue;
    const bool opening = m.kind == MarkKind::Opening || m.label == "mark.opening-facing";
    if (opening) s.from = std::max(s.from, r.y1);
  }
}

const char* step_of(const Draft& d) {
  return find_piece(d, "panel") == nullptr ? "sew-reflective" : "sew-reflective-panel";
}

void buy(Draft& d, const char* place, double length, double width, int count = 1) {
  d.notions.push_back(
      {NotionKind::ReflectiveTape, place, count, length + 2.0 * kEndUnder, width, step_of(d)});
}

// What goes round the belly: the band, or a strap of webbing.
Piece* girth_piece(Draft& d) {
  Piece* band = d.band ? find_piece(d, "band") : nullptr;
  return band != nullptr || !d.band ? band : find_piece(d, "strap");
}

// The ring: along the middle of the band, and on the body from where the band is sewn on over the
// back to where its end comes to lie.
void add_ring(Draft& d, double width, Findings& findings) {
  Piece& body = *find_piece(d, "body");
  Piece& band = *girth_piece(d);
  const Rect flat = bounds(outline_of(band, 0.01));
  const double u = d.band->middle(), hem = hem_at(d, u)->y;
  const double length = flat.width(), half = 0.5 * flat.height();
  // What lies on the coat at the closing end: the rest of the girth is under the belly.
  const double girth = 2.0 * d.map.half_girth(u) + d.chosen.of(kChestEase);
  const double over = length - d.band->attach - (girth - 2.0 * hem);
  band.marks.push_back({MarkKind::Placement,
                        "mark.reflective",
                        {{0.0, half - 0.5 * width},
                         {length, half - 0.5 * width},
                         {length, half + 0.5 * width},
                         {0.0, half + 0.5 * width}},
                        true});
  buy(d, band.id == "band" ? "piece.band" : "piece.strap", length, width);

  // From the spine to the sewn end on the one side, to the closing end on the other.
  Stretch sewn{u, width, 0.0, hem - d.band->attach};
  Stretch closing{u, width, 0.0, hem - over};
  if (d.band->over_back) {
    // The band covers the closing side and the spine.
    sewn.from = over - hem;
    body.marks.push_back(sewn.mark("mark.reflective-sewn-side"));
    closing.from = closing.to = 0.0;
    buy(d, "piece.body", sewn.length(), width);
  } else {
    keep_clear(body, sewn);
    keep_clear(body, closing);
    // The end that closes laps on the coat by more than the end that is sewn on.
    Stretch rest = sewn;
    rest.from = closing.to;
    body.marks.push_back(closing.mark("mark.reflective"));
    body.marks.push_back(rest.mark("mark.reflective-sewn-side"));
    const double hidden = sewn.from + closing.from;  // of the ring, at an opening
    if (hidden > 0.0) {
      buy(d, "piece.body", sewn.length(), width);
      buy(d, "piece.body", closing.length(), width);
      findings.push_back(
          {Level::Note, {Code::Advice, kReflective.id, {hidden}, "tape-at-opening"}});
    } else {
      buy(d, "piece.body", sewn.length() + closing.length(), width);
    }
  }
  d.trace.push_back({"reflective ring",
                     "reflective-ring",
                     {u, 0.5 * (sewn.from + sewn.to)},
                     {u, sewn.length() + closing.length(), length},
                     ""});
}

// Read off the marks: the tapes of the ring and what an opening hides of it, one after the other.
double measured_ring(const Draft& d, const Piece& band) {
  double sum = 0.0;
  for (const Mark& m : find_piece(d, "body")->marks) {
    const Rect r = bounds(m.line);
    if (m.label == "mark.reflective") sum += 2.0 * r.y1;  // from the spine, opening and all
    if (m.label == "mark.reflective-sewn-side") sum += r.height();
  }
  for (const Mark& m : band.marks) {
    if (m.label == "mark.reflective") sum += bounds(m.line).width();
  }
  return sum;
}

// Puts a tape on the body of a coat that closes along the back. The side that laps over carries it
// up to its edge, the side below from where it comes into sight.
void add_lapped(Draft& d, Stretch s, const char* label, const char* place) {
  const double lap = 0.5 * d.chosen.of(kBackOverlap);
  const Stretch upper{s.middle, s.width, -lap, lap};
  s.from = lap;
  Piece& body = *find_piece(d, "body");
  body.marks.push_back(s.mark(label));
  body.marks.push_back(upper.mark("mark.reflective-upper-side"));
  buy(d, place, s.length(), s.width);
  buy(d, place, s.length() + upper.length(), s.width);
}

// A side seam from the leg opening rearward, and how far along it the girth line is.
struct Side {
  Path path;
  double girth = 0.0;
};
Side side_of(const Piece& p, std::string_view edge) {
  const Edge& e = *find_edge(p, edge);
  const auto notch = std::find_if(p.notches.begin(), p.notches.end(), [&](const Notch& n) {
    return n.edge == edge && n.name == "girth-line";
  });
  return {reversed(e.path), arc_length(e.path, kTight) - notch->at_mm};
}

// The ring of a coat with a panel below: as near to the girth line as the leg opening lets it lie,
// over the body down to the side seam and on across the panel. Whether there is room for it.
bool add_panel_ring(Draft& d, double width, double clear) {
  Piece& panel = *find_piece(d, "panel");
  const Side side = side_of(*find_piece(d, "body"), "body.side");
  const Side below = side_of(panel, "panel.side");
  Stretch s{d.map.girth_u + std::max(0.0, 0.5 * width + clear - side.girth), width};
  s.to = height_at(side.path, s.middle);
  s.lower_seam = &side.path;
  const double behind = length_to(side.path, s.middle) - side.girth;
  const Point seam = station_at(below.path, below.girth + behind, kTight).point;
  Stretch across{seam.x, width, 0.0, seam.y};
  across.lower_seam = &below.path;
  if (across.middle + 0.5 * width + clear >
      bounds(flatten(find_edge(panel, "panel.fold")->path, 0.1)).x1) {
    return false;
  }
  add_lapped(d, s, "mark.reflective", "piece.body");
  panel.marks.push_back(across.mark("mark.reflective"));
  buy(d, "piece.panel", 2.0 * across.length(), width);
  d.trace.push_back({"reflective ring",
                     "reflective-ring-panel",
                     {s.middle, 0.5 * s.to},
                     {s.middle, s.to, across.middle, 2.0 * across.to},
                     ""});
  // Read off the mark: the tapes meet at the seam.
  const Rect r = bounds(panel.marks.back().line);
  d.invariants.push_back(
      {"reflective-meets", behind, length_to(below.path, 0.5 * (r.x0 + r.x1)) - below.girth});
  return true;
}

// Across the back behind the band, from hem to hem but for a little cloth.
bool add_loin_tape(Draft& d, double width, double clear) {
  Piece& body = *find_piece(d, "body");
  const double ahead = d.band ? d.band->to + clear : 0.0;
  Stretch s{std::max(d.map.loin_u, ahead + 0.5 * width), width};
  const auto before = hem_at(d, s.middle - 0.5 * width), behind = hem_at(d, s.middle + 0.5 * width);
  if (!before || !behind) return false;
  s.to = std::min(before->y, behind->y) - clear;
  const Edge* const spine = find_edge(body, "body.spine");
  if (spine != nullptr) {
    s.from = height_at(spine->path, s.middle);
    s.upper_seam = &spine->path;
  }
  keep_clear(body, s);
  if (d.chosen.has(kBackOverlap)) {
    add_lapped(d, s, "mark.reflective-loin", "mark.reflective-loin");
  } else {
    body.marks.push_back(s.mark("mark.reflective-loin"));
    buy(d, "mark.reflective-loin", 2.0 * s.length(), width);
  }
  d.trace.push_back({"reflective tape",
                     "reflective-loin",
                     {s.middle, 0.5 * s.to},
                     {s.middle, 2.0 * s.length()},
                     ""});
  return true;
}

std::optional<Problem> add_tapes(Draft& d, const Body&, Findings& findings) {
  if (!has_tape(d.chosen)) return std::nullopt;
  const double wanted = d.chosen.of(kReflectiveWidth), clear = kClear * d.map.back;
  double width = wanted;
  const bool ring = girth_piece(d) != nullptr;
  if (ring) {
    // About the middle of the band, and inside its waist.
    const double whole = d.band->to - d.band->from;
    const double narrowest = d.band->waist > 0.0 ? d.band->waist : whole;
    const double waist = 2.0 * (narrowest - 0.5 * whole) - 0.1 * whole;
    const double most = std::min(kOfBand * whole, waist);
    if (most < wanted) width = widest_up_to(kSoldReflective, most).value_or(most);
  }
  if (width < kNarrowest * wanted) {
    findings.push_back({Level::Check, {Code::Advice, kReflective.id, {wanted}, "tape-no-room"}});
    return std::nullopt;
  }
  // Where the narrowest that is sold is too wide, it is cut down.
  const bool trimmed = width < kSoldReflective[0] && width < wanted;
  if (trimmed) {
    findings.push_back(
        {Level::Note,
         {Code::Advice, kReflectiveWidth.id, {kSoldReflective[0], width}, "tape-trimmed"}});
  } else if (const auto found = unless_sold(kSoldReflective, width, kReflectiveWidth)) {
    findings.push_back(*found);
  }
  if (!trimmed && is_told(wanted, width)) {
    findings.push_back(
        {Level::Note, {Code::Advice, kReflectiveWidth.id, {wanted, width}, "tape-narrower"}});
  }
  if (ring) {
    add_ring(d, width, findings);
    const double girth = 2.0 * d.map.half_girth(d.band->middle()) + d.chosen.of(kChestEase);
    d.invariants.push_back({"reflective-ring", girth, measured_ring(d, *girth_piece(d))});
  }
  const bool panel = find_piece(d, "panel") != nullptr;
  if (panel && !add_panel_ring(d, width, clear)) {
    findings.push_back(
        {Level::Check, {Code::Advice, kReflective.id, {wanted}, "tape-no-room-on-panel"}});
  }
  const bool loin = d.chosen.option(kReflective) == kRingAndLoin;
  if (loin && !add_loin_tape(d, width, clear)) {
    findings.push_back({Level::Check, {Code::Advice, kReflective.id, {}, "loin-tape-no-room"}});
  }
  for (Notion& n : d.notions) {
    if (trimmed && n.kind == NotionKind::ReflectiveTape) n.width_mm = kSoldReflective[0];
  }
  return std::nullopt;
}

// A dart below a tape is closed before, and hides some of the tape's mark.
void add_dart_below(const Draft& d, Operation& sew) {
  const Piece& body = *find_piece(d, "body");
  for (const Mark& dart : body.marks) {
    if (dart.kind != MarkKind::Dart) continue;
    const bool below = std::any_of(body.marks.begin(), body.marks.end(), [&](const Mark& m) {
      return names(sew.marks, m.label) && meet(bounds(m.line), bounds(dart.line));
    });
    if (!below) continue;
    sew.how.push_back({"tape-over-dart"});
    sew.needs.push_back({State::Darted, "body.hem"});
    return;
  }
}

// How wide the marks are, and the tape that is bought for them.
double drawn_width(const Draft& d, const Operation& sew) {
  for (const Mark& m : find_piece(d, "body")->marks) {
    if (names(sew.marks, m.label)) return bounds(m.line).width();
  }
  return 0.0;
}
double sold_width(const Draft& d, const Operation& sew) {
  for (const Notion& n : d.notions) {
    if (n.step == sew.id) return n.width_mm;
  }
  return 0.0;
}

// Over a seam on the spine and over a dart a tape runs on; in a side seam its ends are caught.
void sew_tapes(const Draft& d, Operations& out) {
  Operation sew{Deed::Attach, Stage::Pieces, step_of(d)};
  for (const Piece& p : d.pieces) {
    if (p.layer != Layer::Shell && p.layer != Layer::Webbing) continue;
    const size_t before = sew.marks.size();
    for (const Mark& m : p.marks) {
      if (!m.label.starts_with("mark.reflective")) continue;
      sew.marks.push_back(m.label);
      if (m.label == "mark.reflective-loin") sew.how.push_back({"tape-loin", {bounds(m.line).x0}});
    }
    if (sew.marks.size() > before) sew.through.push_back(p.id);
  }
  if (sew.marks.empty()) return;
  add_dart_below(d, sew);
  std::sort(sew.marks.begin(), sew.marks.end());
  sew.marks.erase(std::unique(sew.marks.begin(), sew.marks.end()), sew.marks.end());
  const bool panel = find_piece(d, "panel") != nullptr;
  const double wide = drawn_width(d, sew);
  const bool two_rows = wide >= kTwoRows;
  sew.rows = two_rows ? 2 : 1;
  sew.how.insert(sew.how.begin(), two_rows ? Sentence{"sew-tape", {kEndUnder, kEdgestitch}}
                                           : Sentence{"sew-narrow-tape", {kEndUnder}});
  if (wide < sold_width(d, sew) - kTight) {
    sew.how.insert(sew.how.begin(), {"trim-tape", {wide}});
  }
  if (panel && sew.through.size() > 1) sew.how.push_back({"tape-at-sides"});
  if (!panel && sew.through.size() > 1) {
    sew.how.push_back({find_piece(d, "band") != nullptr ? "tape-at-band" : "tape-at-strap"});
  }
  if (panel) sew.needs = {{State::Raw, "body.side"}, {State::Raw, "panel.side"}};
  if (find_edge(*find_piece(d, "body"), "body.spine")) {
    sew.needs.push_back(seam_is_sewn(d, "body.spine"));
  }
  out.push_back(std::move(sew));
}

const ChoiceInfo* const kChoices[] = {&kReflective, &kReflectiveWidth};

}  // namespace

const OptionInfo kReflectiveOption = {
    .id = "reflective", .choices = kChoices, .apply = add_tapes, .sew = sew_tapes};

}  // namespace coatwright
