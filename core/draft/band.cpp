#include "core/draft/band.h"

#include <algorithm>

#include "core/draft/belly.h"
#include "core/draft/options/band.h"
#include "core/draft/options/ease.h"
#include "core/geometry/fillet.h"

namespace coatwright {
namespace {

// Parts of a reading; common practice, no source.
constexpr double kAttach = 0.045;     // of the chest: lap of the sewn end on the body
constexpr double kNarrowest = 0.05;   // of the back: a narrower band cuts in
constexpr double kLeastBelow = 0.02;  // of the chest: left open under the belly for the band

Piece band_piece(double length, double width, double attach, double overlap) {
  const Point a{0.0, 0.0}, b{length, 0.0}, c{length, width}, d{0.0, width};
  const Point half{length, 0.5 * width};
  const double radius = 0.22 * width;
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
  band.edges = {
      {"band.front", "band.front", Finish::Turned, {{straight(a, close.front())}}},
      {"band.close", "band.close", Finish::Turned, close},
      {"band.rear", "band.rear", Finish::Turned, {{straight(close.back(), d)}}},
      {"band.attach", "band.attach", Finish::Turned, {{straight(d, a)}}},
  };
  const double rear_length = close.back().x;
  band.notches = {{"band.front", "attach", attach}, {"band.rear", "attach", rear_length - attach}};
  band.grain_from = {0.3 * length, 0.82 * width};
  band.grain_to = {0.6 * length, 0.82 * width};
  band.label_at = {0.45 * length, 0.5 * width};
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
  Band band;
  band.from = map.girth_u + place;
  const double width = std::min(chosen.of(kBandWidth), limit - band.from);
  const auto say_if_less = [&](const ChoiceInfo& choice, double used) {
    const double wanted = chosen.of(choice);
    if (used >= wanted - 0.05) return;
    findings.push_back({Level::Note, {Code::BandLimited, choice.id, {wanted, used}, "underline"}});
  };
  say_if_less(kBandPlace, place);
  say_if_less(kBandWidth, width);
  band.to = band.from + width;
  band.attach = kAttach * body.mm(Measure::Chest);
  const double overlap = chosen.of(kBandOverlap);
  const double girth = 2.0 * map.half_girth(band.middle());
  const double below = girth + chosen.of(kChestEase) - 2.0 * rear.height(band.middle());
  const double least = kLeastBelow * body.mm(Measure::Chest);
  if (below < least) return Problem{Code::BandTooShort, "drop", {below, least}, "chest"};
  band.over = closes_on_back(chosen) ? rear.height(band.middle()) + 0.5 * overlap : overlap;
  band.length = below + band.over + band.attach;
  band.piece = band_piece(band.length, width, band.attach, overlap);
  return band;
}

Mark band_place(const Band& band, const Rear& rear, double up, const char* label) {
  Mark mark{MarkKind::BandPlace, label, {}, true};
  constexpr int kSteps = 8;
  for (int i = 0; i <= kSteps; ++i) {
    const double u = band.from + (band.to - band.from) * i / kSteps;
    mark.line.push_back({u, rear.height(u)});
  }
  for (int i = kSteps; i >= 0; --i) {
    const double u = band.from + (band.to - band.from) * i / kSteps;
    mark.line.push_back({u, rear.height(u) - up});
  }
  return mark;
}

Mark place_over_back(double from, double to, double overlap, const char* label) {
  const double half = 0.5 * overlap;
  return {MarkKind::BandPlace, label, {{from, 0.0}, {to, 0.0}, {to, half}, {from, half}}, true};
}

}  // namespace coatwright
