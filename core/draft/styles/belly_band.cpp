#include "core/draft/styles/belly_band.h"

#include <algorithm>

#include "core/draft/belly.h"
#include "core/draft/options/band.h"
#include "core/draft/options/ease.h"
#include "core/draft/told.h"
#include "core/geometry/fillet.h"
#include "core/geometry/root.h"

namespace coatwright {
namespace {

// Parts of a reading; common practice, no source.
constexpr double kAttach = 0.045;     // of the chest: lap of the sewn end on the body
constexpr double kNarrowest = 0.07;   // of the back: a narrower band cuts in
constexpr double kLeastBelow = 0.02;  // of the chest: left open under the belly for the band

// A shaped band's hollow under the belly, of its width: more where the sheath lies behind it. Own
// rule. It is no deeper than this part of half its length, so that its sides stay easy to sew.
constexpr double kHollowFemale = 0.12, kHollowOther = 0.22;
constexpr double kSteepest = 0.5;
constexpr double kLeastWaist = 0.65;  // of the width; own rule
constexpr double kCorner = 0.22;      // of the width: radius at the closing end

// As round as cloth can turn, on a toy's narrow band too.
double corner_of(double width) {
  return std::min(0.45 * width, std::max(kCorner * width, 1.05 * kTightestTurn));
}

// The hollow in the rear edge, about the middle of what lies under the belly.
struct Hollow {
  double middle = 0.0, half = 0.0, depth = 0.0;
};

// The rear edge from the closing end at `from` to the sewn end at `to`.
Path rear_edge(Point from, Point to, const Hollow& hollow) {
  if (hollow.depth <= 0.0) return {{straight(from, to)}};
  const Point begin{hollow.middle + hollow.half, to.y}, end{hollow.middle - hollow.half, to.y};
  const Point deep{hollow.middle, to.y - hollow.depth};
  PathBuilder path(from);
  if (from.x > begin.x + 1e-6) path.line_to(begin);
  return path.level_to(deep).level_to(end).line_to(to).path();
}

Piece band_piece(double length, double width, double attach, double overlap, const Hollow& hollow) {
  const Point a{0.0, 0.0}, b{length, 0.0}, c{length, width}, d{0.0, width};
  const Point half{length, 0.5 * width};
  const double radius = corner_of(width);
  const Path lower = rounded_corner(lerp(a, b, 0.9), b, half, radius, 0.9);
  const Path upper = rounded_corner(half, c, lerp(d, c, 0.9), radius, 0.9);
  // The closing end runs from the start of one rounding to the end of the other.
  const auto trimmed = [](const Path& p, bool drop_first) {
    Path out = p;
    out.cubics.erase(drop_first ? out.cubics.begin() : out.cubics.end() - 1);
    return out;
  };
  const Path close = PathBuilder(trimmed(lower, true).front())
                         .append(trimmed(lower, true))
                         .append(trimmed(upper, false))
                         .path();
  Piece band;
  band.id = "band";
  band.runoff = Runoff::Along;
  band.edges = {
      {"band.front", "band.front", Finish::Turned, {{straight(a, close.front())}}},
      {"band.close", "band.close", Finish::Turned, close},
      {"band.rear", "band.rear", Finish::Turned, rear_edge(close.back(), d, hollow)},
      {"band.attach", "band.attach", Finish::Turned, {{straight(d, a)}}},
  };
  const double rear_length = arc_length(band.edges[2].path, 1e-7);
  band.notches = {{"band.front", "attach", attach}, {"band.rear", "attach", rear_length - attach}};
  const double grain = hollow.depth > 0.0 ? 0.14 * width : 0.82 * width;
  band.grain_from = {0.3 * length, grain};
  band.grain_to = {0.6 * length, grain};
  band.label_at = {0.45 * length, 0.5 * (width - hollow.depth)};
  const double in = 0.14 * width, end = length - 0.12 * overlap, start = length - 0.88 * overlap;
  band.marks = {
      {MarkKind::BandPlace, "mark.band-lap", {{attach, 0.0}, {attach, width}}},
      {MarkKind::HookLoop,
       "mark.band-hook",
       {{end, in}, {end, width - in}, {start, width - in}, {start, in}},
       true},
  };
  return band;
}

}  // namespace

Result<Band> draft_band(const Body& body, const Chosen& chosen, const BodyMap& map,
                        const Rear& rear, Findings& findings) {
  const double limit = std::min(belly_limit(body), rear.corner.x);
  const double narrowest = kNarrowest * map.back;
  const double room = limit - narrowest - map.girth_u;
  if (room < 0.0) {
    return Problem{Code::BandNoRoom, "band-place", {map.girth_u, limit}, "underline"};
  }
  const double place = std::min(chosen.of(kBandPlace), room);
  const double chest = body.mm(Measure::Chest), overlap = chosen.of(kBandOverlap);
  Band band;
  band.from = map.girth_u + place;
  band.attach = kAttach * chest;

  // What lies under the belly, and on the body at the closing end, for a band of some width.
  const auto below = [&](double width) {
    const double u = band.from + 0.5 * width;
    return 2.0 * map.half_girth(u) + chosen.of(kChestEase) - 2.0 * rear.height(u);
  };
  const auto over = [&](double width) {
    return closes_on_back(chosen) ? rear.height(band.from + 0.5 * width) + 0.5 * overlap : overlap;
  };
  const double wanted = chosen.of(kBandWidth), under = limit - band.from;
  double width = std::min(wanted, under);
  Hollow hollow;
  if (is_shaped(chosen)) {
    // Half the length that a hollow may take, clear of the rounded end.
    const auto half = [&](double w) {
      const double all = 0.5 * below(w);
      return std::max(0.0, std::min(all, all + over(w) - 1.1 * corner_of(w)));
    };
    const auto deepest = [&](double w) {
      return std::min(kSteepest * half(w), (1.0 - kLeastWaist) * w);
    };
    const auto too_wide = [&](double w) { return w - deepest(w) - under; };
    width = std::min(wanted, rear.corner.x - band.from);
    if (too_wide(width) > 0.0) width = root_between(too_wide, 0.0, width, 1e-9).value_or(under);
    const double part = body.sex == Sex::Female ? kHollowFemale : kHollowOther;
    hollow = {band.attach + 0.5 * below(width), half(width),
              std::max(width - under, std::min(part * width, deepest(width)))};
  }
  const auto say_if_less = [&](const ChoiceInfo& choice, double asked, double used) {
    if (!is_told(asked, used)) return;
    findings.push_back({Level::Note, {Code::BandLimited, choice.id, {asked, used}, "underline"}});
  };
  say_if_less(kBandPlace, chosen.of(kBandPlace), place);
  say_if_less(kBandWidth, wanted, width);
  const double least = kLeastBelow * chest;
  if (below(width) < least) {
    return Problem{Code::BandTooShort, "drop", {below(width), least}, "chest"};
  }
  band.to = band.from + width;
  band.waist = width - hollow.depth;
  band.over = over(width);
  band.length = below(width) + band.over + band.attach;
  band.piece = band_piece(band.length, width, band.attach, overlap, hollow);
  return band;
}

}  // namespace coatwright
