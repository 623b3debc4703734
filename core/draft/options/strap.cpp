#include "core/draft/options/strap.h"

#include <algorithm>
#include <cmath>

#include "core/draft/belly.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/hem.h"
#include "core/draft/rear.h"
#include "core/draft/seams.h"
#include "core/draft/sold.h"
#include "core/draft/told.h"

namespace coatwright {
namespace {

// Webbing is sold in these widths; values from memory.
constexpr SoldWidth kSold[] = {{10.0, "mm10"}, {15.0, "mm15"}, {20.0, "mm20"}, {25.0, "mm25"},
                               {30.0, "mm30"}, {40.0, "mm40"}, {50.0, "mm50"}};
constexpr auto kWidths = fitting_or(kSold);

}  // namespace

const ChoiceInfo kStrapWidth = {.id = "strap-width", .options = kWidths};

// Common practice, no source: two to three fingers behind the foreleg, of which the foreleg's
// clearance gives the first.
const ChoiceInfo kStrapPlace = {.id = "strap-place", .range = [](const Body& b) {
                                  ChoiceRange place = part_of(b.mm(Measure::Back), 0.0, 0.03, 0.15);
                                  place.sized =
                                      std::min(place.sized + drawn_forward(b), place.highest);
                                  return place;
                                }};

const ChoiceInfo kStrapOverlap = {.id = "strap-overlap", .range = [](const Body& b) {
                                    return part_of(b.mm(Measure::Chest), 0.06, 0.12, 0.2);
                                  }};

namespace {

// Common practice, no source. Parts of a reading, and lengths that the webbing decides, mm.
constexpr double kFitting = 0.055;    // of the back: the width that fits
constexpr size_t kWidestFitting = 5;  // of the sold widths, the number that are tried for it
constexpr double kWidest = 0.15;      // of the back
constexpr double kAttach = 0.06;      // of the chest: lap of the sewn end on the body
constexpr double kLeastBelow = 0.02;  // of the chest: between the two hems, under the belly
constexpr double kTurnedUnder = 15.0;
constexpr double kLargeDog = 550.0;  // chest girth from which a band carries better than a strap

// The sold width nearest to what fits, or the one that was chosen.
double wanted_width(const Chosen& chosen, double back) {
  const int named = chosen.option(kStrapWidth);
  if (named > 0) return kSold[named - 1].mm;
  const double wanted = kFitting * back;
  return std::min_element(kSold, kSold + kWidestFitting,
                          [&](const SoldWidth& a, const SoldWidth& b) {
                            return std::abs(a.mm - wanted) < std::abs(b.mm - wanted);
                          })
      ->mm;
}

struct Strap {
  double from = 0.0, to = 0.0;  // u of its stretch of the hem
  double length = 0.0;          // finished, along the girth
  double attach = 0.0;          // lapped on the body at the sewn end, part of the length
  double overlap = 0.0;         // where it closes, half of it past the spine
  [[nodiscard]] double width() const { return to - from; }
  [[nodiscard]] double middle() const { return 0.5 * (from + to); }
};

Result<Strap> place_strap(const Draft& d, const Body& body, const Rear& rear, Findings& findings) {
  const double limit = std::min(belly_limit(body), rear.corner.x);
  const double chest = body.mm(Measure::Chest);
  const double named = wanted_width(d.chosen, d.map.back);
  const double width =
      std::min(named, widest_sold(kSold, std::min(limit - d.map.girth_u, kWidest * d.map.back)));
  const double room = limit - width - d.map.girth_u;
  if (room < 0.0) {
    return Problem{Code::BandNoRoom, kStrapPlace.id, {d.map.girth_u, limit}, "underline"};
  }
  if (width < named) {
    findings.push_back({Level::Note, {Code::BandLimited, kStrapWidth.id, {named, width}}});
  }
  const double wanted = d.chosen.of(kStrapPlace), place = std::min(wanted, room);
  if (is_told(wanted, place)) {
    findings.push_back(
        {Level::Note, {Code::BandLimited, kStrapPlace.id, {wanted, place}, "underline"}});
  }
  Strap strap;
  strap.from = d.map.girth_u + place;
  strap.to = strap.from + width;
  strap.attach = kAttach * chest;
  strap.overlap = d.chosen.of(kStrapOverlap);
  const double side = rear.height(strap.middle());
  const double girth = 2.0 * d.map.half_girth(strap.middle());
  const double below = girth + d.chosen.of(kChestEase) - 2.0 * side;
  const double least = kLeastBelow * chest;
  if (below < least) return Problem{Code::BandTooShort, "drop", {below, least}, "chest"};
  strap.length = strap.attach + below + side + 0.5 * strap.overlap;
  return strap;
}

// As it lies when it is sewn: both ends turned under, so that they are cut longer by that.
Piece strap_piece(const Strap& s) {
  const double l = s.length, w = s.width();
  const Point a{0.0, 0.0}, b{l, 0.0}, c{l, w}, d{0.0, w};
  Piece p;
  p.id = "strap";
  p.layer = Layer::Webbing;
  p.single = true;
  p.edges = {
      {"strap.front", "", Finish::Turned, {{straight(a, b)}}, 0.0, 0.0},
      {"strap.close", "", Finish::Turned, {{straight(b, c)}}, 0.0, kTurnedUnder},
      {"strap.rear", "", Finish::Turned, {{straight(c, d)}}, 0.0, 0.0},
      {"strap.attach", "", Finish::Turned, {{straight(d, a)}}, 0.0, kTurnedUnder},
  };
  p.notches = {{"strap.front", "attach", s.attach}, {"strap.rear", "attach", l - s.attach}};
  p.grain_from = {0.3 * l, 0.8 * w};
  p.grain_to = {0.6 * l, 0.8 * w};
  p.label_at = {0.45 * l, 0.5 * w};
  const double in = 0.1 * w, from = l - 0.95 * s.overlap, to = l - 0.1 * s.overlap;
  p.marks = {
      {MarkKind::BandPlace, "mark.strap-lap", {{s.attach, 0.0}, {s.attach, w}}},
      {MarkKind::HookLoop,
       "mark.strap-hook",
       {{from, in}, {to, in}, {to, w - in}, {from, w - in}},
       true},
  };
  return p;
}

void explain(Draft& d, const Strap& s, double side) {
  d.trace.push_back({"strap",
                     "strap-length",
                     {s.middle(), side},
                     {2.0 * d.map.half_girth(s.middle()), d.chosen.of(kChestEase), side, s.overlap,
                      s.attach, s.length},
                     "strap.close"});
  d.trace.push_back({"strap-place",
                     "strap-place",
                     {s.from, side},
                     {s.from, s.from - d.map.girth_u, s.width()},
                     "body.hem"});
  d.trace.push_back({"strap-ends",
                     "strap-ends",
                     {s.length, 0.5 * s.width()},
                     {kTurnedUnder, s.length + 2.0 * kTurnedUnder},
                     "strap.close"});
}

std::optional<Problem> add_strap(Draft& d, const Body& body, Findings& findings) {
  Piece& shell = *find_piece(d, "body");
  const Rear rear = rear_of(shell);
  const auto strap = place_strap(d, body, rear, findings);
  if (!strap) return strap.problem();
  if (body.mm(Measure::Chest) > kLargeDog) {
    findings.push_back({Level::Note, {Code::Advice, kStrapWidth.id, {}, "strap-small-dogs"}});
  }
  shell.notches.push_back(notch_on_hem(rear, strap->to, "strap-rear"));
  shell.notches.push_back(notch_on_hem(rear, strap->from, "strap-front"));
  shell.marks.push_back(
      place_on_hem(rear, strap->from, strap->to, strap->attach, "mark.strap-attach"));
  shell.marks.push_back(place_over_back(strap->from, strap->to, strap->overlap, "mark.strap-loop"));
  d.band = {strap->from, strap->to, strap->attach, true};
  d.pieces.push_back(strap_piece(*strap));
  const double cut = strap->length + 2.0 * kTurnedUnder;
  d.notions.push_back({NotionKind::Webbing, "piece.strap", 1, cut, strap->width(), kCutStep});
  d.notions.push_back(hook_and_loop(d.pieces.back().marks.back(), "make-strap"));
  explain(d, *strap, rear.height(strap->middle()));
  return std::nullopt;
}

void sew_strap(const Draft& d, Operations& out) {
  if (find_piece(d, "strap") == nullptr) return;
  Operation make{
      Deed::MakeUp,       Stage::Pieces, "make-strap", {"strap"}, {"strap.close", "strap.attach"},
      {"mark.strap-hook"}};
  make.through = {"strap"};
  make.how = {{"make-strap", {kTurnedUnder}}};
  out.push_back(std::move(make));
  Operation sew{Deed::Attach, Stage::Close,     "sew-strap",
                {"strap"},    {"strap.attach"}, {"mark.strap-lap", "mark.strap-attach"}};
  sew.through = coat_layers(d);
  sew.through.emplace_back("strap");
  sew.together = true;
  sew.needs = {{State::Finished, "body.hem"}};
  sew.how = {{"sew-strap", {d.band->attach, kEdgestitch}}};
  out.push_back(std::move(sew));
}

const ChoiceInfo* const kChoices[] = {&kStrapWidth, &kStrapPlace, &kStrapOverlap};
const HandleInfo kHandles[] = {
    {&kStrapPlace, "body", inside_band},
    {&kStrapOverlap, "strap",
     [](const Draft& d) { return along_edge(d, "strap", "strap.close", 0.5); }},
};

}  // namespace

double strap_reach(const Body& body, const Chosen& chosen) {
  return chosen.of(kStrapPlace) + wanted_width(chosen, body.mm(Measure::Back));
}

const OptionInfo kGirthStrap = {
    .id = "strap", .choices = kChoices, .handles = kHandles, .apply = add_strap, .sew = sew_strap};

}  // namespace coatwright
