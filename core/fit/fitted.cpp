#include "core/fit/fitted.h"

#include <algorithm>
#include <cmath>

#include "core/body/assess.h"
#include "core/body/estimates.h"
#include "core/draft/belly.h"
#include "core/draft/options/band.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/front.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/panel.h"
#include "core/draft/options/shaping.h"
#include "core/draft/options/strap.h"
#include "core/draft/told.h"
#include "core/geometry/root.h"

namespace coatwright {
namespace {

// Own rules: by how much of itself a measure is altered at the most; where the girth line may lie, of
// the back; how far the front may turn, radians (up to there its breast surely grows with it).
constexpr double kMostOfMeasure = 0.25, kMostOfThroat = 0.6;
constexpr double kLeastGirthPlace = 0.1, kMostGirthPlace = 0.42;
constexpr double kMostTurned = 1.92;
constexpr double kLeastThroat = 0.1;  // of half the neckline: nearer, the front's turn is not told
constexpr int kManyNotes = 3;         // that ask for one thing, however little

struct Bounds {
  double lowest = 0.0, highest = 0.0;  // both 0: none
  double most = kMostOfMeasure;        // of what the tape says
};

class Fitter {
 public:
  Fitter(const Body& body, const Choices& choices, const StyleInfo& style,
         const Alterations& alterations)
      : measured_(body), style_(style), out_{body, choices, {}, alterations.findings} {
    for (const Alteration& a : alterations.list) asked_[static_cast<size_t>(a.alter)] = a;
  }

  Fitted fit() {
    for (const Alter dart : {Alter::ShoulderDart, Alter::HemDart}) sew_dart(dart);
    alter_front();
    hem();
    const double back = out_.body.mm(Measure::Back);
    alter(Alter::GirthLine, Measure::GirthPlace, mm(Alter::GirthLine),
          {kLeastGirthPlace * back, kMostGirthPlace * back});
    if (can_alter(style_, Alter::PanelLength)) {
      // The sheath's clearance is a part of the underline.
      const double share = out_.body.mm(Measure::Underline) / belly_end(out_.body);
      alter(Alter::PanelLength, Measure::Underline, share * mm(Alter::PanelLength), {},
            1.0 / share);
    }
    for (const Alter a : {Alter::HemLift, Alter::Girth, Alter::Closure, Alter::Leg}) {
      alter_choice(a);
    }
    alter_within_room();
    std::sort(out_.done.begin(), out_.done.end(),
              [](const Alteration& a, const Alteration& b) { return a.alter < b.alter; });
    suspect_readings();
    return std::move(out_);
  }

 private:
  [[nodiscard]] double mm(Alter alter) const { return asked_[static_cast<size_t>(alter)].mm; }
  [[nodiscard]] Value& value(Measure m) { return out_.body.values[static_cast<size_t>(m)]; }

  void done(Alter alter, double got) {
    const Alteration& asked = asked_[static_cast<size_t>(alter)];
    if (got != 0.0) out_.done.push_back({alter, got, asked.notes});
    if (!is_told(asked.mm, got)) return;
    out_.findings.push_back({Level::Check,
                             {Code::AlterationLimited,
                              std::string("alter.") + info(alter).id,
                              {std::abs(asked.mm), std::abs(got)}}});
  }

  // The measure as drafted, `by` mm more; `shown`: of that, what the note speaks of.
  void alter(Alter what, Measure m, double by, Bounds bounds = {}, double shown = 1.0) {
    if (by == 0.0) return;
    const double was = value(m).value;
    const double taken = was - value(m).altered, most = bounds.most * taken;
    double now = std::clamp(was + by, taken - most, taken + most);
    if (bounds.highest > 0.0) now = std::clamp(now, bounds.lowest, bounds.highest);
    set(m, now);
    done(what, shown * (now - was));
  }
  void set(Measure m, double now) {
    Value& v = value(m);
    v.altered += now - v.value;
    v.value = now;
  }

  [[nodiscard]] Chosen chosen() const {
    Findings unheard;
    return resolve(choices_of(style_), out_.choices, out_.body, unheard);
  }

  [[nodiscard]] bool has(const ChoiceInfo& choice) const {
    const auto& all = choices_of(style_);
    return std::find(all.begin(), all.end(), &choice) != all.end();
  }
  [[nodiscard]] double of(const ChoiceInfo& choice) const {
    return resolved(choice, out_.choices, out_.body);
  }

  // So that the measure and its ease come to `finished`: an ease that nobody chose follows the measure.
  void finish(Measure m, const ChoiceInfo& ease, double finished) {
    double now = value(m).value;
    // Ease is a few hundredths: each step leaves so much of the rest.
    for (int i = 0; i < 12; ++i) {
      set(m, now);
      const double rest = finished - now - of(ease);
      if (std::abs(rest) < 1e-10) return;
      now += rest;
    }
  }

  [[nodiscard]] NecklineWanted wanted() const {
    const Chosen c = chosen();
    NecklineWanted w = neckline_wanted(out_.body, c, spine_end(out_.body, c), neckline_for_dart(c));
    if (can_alter(style_, Alter::PanelLength)) w.raised = 0.0;  // as the panel's coat has it
    return w;
  }

  // Neckline, front and back hang together by the breast, |P - T|. The neckline is altered first, with
  // the breast as it is; what follows leaves the turn of the front as it is, or turns it, and the
  // breast comes out. A panel ends where it did behind the girth line, wherever the breastbone goes.
  void alter_front() {
    const double turn_by = mm(Alter::Breast), down = mm(Alter::FrontLength),
                 longer = mm(Alter::Length), round = mm(Alter::Neckline);
    if (turn_by == 0.0 && down == 0.0 && longer == 0.0 && round == 0.0) return;
    const auto before = solve_neckline(wanted());
    if (round != 0.0) {
      const double was = out_.body.mm(Measure::Neck) + of(kNeckEase);
      const double most = kMostOfMeasure * out_.body.mm(Measure::Neck);
      const double got = std::clamp(round, -most, most);
      finish(Measure::Neck, kNeckEase, was + got);
      done(Alter::Neckline, got);
    }
    NecklineWanted w = wanted();
    const auto neckline = solve_neckline(w);
    if (!neckline) return;  // the draft will say why
    double turn = neckline->turn;
    if (turn_by != 0.0) {
      turn = turned(w, turn, turn_by);
      breast_by_ = breast_at(turn, w) - breast_at(neckline->turn, w);
    }
    const double least = std::min(kLeastThroat * w.half_length, w.throat);
    alter(Alter::FrontLength, Measure::Throat, down,
          {.lowest = least, .highest = w.half_length + w.throat, .most = kMostOfThroat});
    alter(Alter::Length, Measure::Back, longer);
    if (turn_by != 0.0 || down != 0.0 ||
        longer != 0.0) {  // the draft finds the turn from the breast
      w = wanted();
      finish(Measure::Breast, kBreastEase, breast_at(turn, w));
    }
    // Where the soft part of the belly begins is a share of the back, as the last rib and the loin are.
    const Value& underline = value(Measure::Underline);
    if (longer != 0.0 && underline.estimated()) {
      set(Measure::Underline, estimate(Measure::Underline, out_.body));
    }
    if (before && can_alter(style_, Alter::PanelLength)) {
      const BodyMap map = make_map(out_.body, 0.0);
      const auto to_girth = [&](Point p) { return breast_to_girth(out_.body, map, p); };
      const double further =
          to_girth(neckline_turned(turn, w).breastbone) - to_girth(before->breastbone);
      set(Measure::Underline, underline.value + further * underline.value / belly_end(out_.body));
    }
  }

  // The turn at which the breastbone lies half of `by` further out, square to the middle of how the
  // centre front lay and lies: both fronts together reach further by all of it, and back by as much.
  double turned(const NecklineWanted& w, double turn, double by) {
    const Neckline from = neckline_turned(turn, w);
    const double end = by > 0.0 ? std::max(turn, kMostTurned) : std::min(turn, kLeastTurn);
    const auto out = [&](double t) {
      const Neckline to = neckline_turned(t, w);
      return 2.0 * dot(to.breastbone - from.breastbone, unit(from.outward() + to.outward()));
    };
    const auto excess = [&](double t) { return out(t) - by; };
    const double now =
        root_between(excess, std::min(turn, end), std::max(turn, end), 1e-12).value_or(end);
    done(Alter::Breast, out(now));
    return now;
  }

  // Where a panel is sewn to it the hem begins behind the girth line, and may have been drafted
  // higher than it was wished: it is looked at there, and so much lower or higher there.
  void hem() {
    const double by = mm(Alter::Hem), wished = of(kHemDepth);
    if (by == 0.0) return;
    if (!can_alter(style_, Alter::PanelLength)) return alter(Alter::Hem, Measure::Drop, by);
    const auto coat = draft_pieces(style_, out_.body, out_.choices);
    if (!coat.result) return;
    const Draft& d = *coat.result;
    const Point begins = find_edge(*find_piece(d, "body"), "body.hem")->path.back();
    const ChosenHems hems(d.map, d.chosen);
    const auto lower = [&](double drop) {
      return hems.at(drop + wished).height(begins.x) - begins.y;
    };
    const auto excess = [&](double drop) { return lower(drop) - by; };
    const double was = value(Measure::Drop).value, most = kMostOfMeasure * was;
    const double end = by > 0.0 ? was + most : was - most;
    const double now =
        root_between(excess, std::min(was, end), std::max(was, end), 1e-9).value_or(end);
    set(Measure::Drop, now);
    done(Alter::Hem, lower(now));
  }

  // Choices that a coat may have no room for. A note is about the coat that was tried: it counts from what
  // was drafted there, and what of it comes to be drafted is what was done.
  struct Roomy {
    Alter alter;
    const ChoiceInfo* choice;
    double (*drafted)(const Draft&);
  };
  static constexpr Roomy kRoomy[] = {
      {Alter::BandPlace, &kBandPlace, [](const Draft& d) { return d.band->from - d.map.girth_u; }},
      {Alter::BandPlace, &kStrapPlace, [](const Draft& d) { return d.band->from - d.map.girth_u; }},
      {Alter::BandWidth, &kBandWidth, [](const Draft& d) { return d.band->to - d.band->from; }},
      {Alter::FrontEnd, &kFrontDepth,
       [](const Draft& d) { return distance(d.centre_front, d.front_end); }},
      {Alter::Leg, &kLegEase, [](const Draft& d) { return d.chosen.of(kLegEase); }},
  };
  void alter_within_room() {
    std::vector<Roomy> asked;
    for (const Roomy& r : kRoomy) {
      if (mm(r.alter) != 0.0 && has(*r.choice)) asked.push_back(r);
    }
    if (asked.empty()) return;
    const auto before = draft_pieces(style_, out_.body, out_.choices);
    if (!before.result) return;  // the draft will say why
    for (const Roomy& r : asked) {
      const ChoiceRange range = range_of(*r.choice, out_.body);
      out_.choices.set(*r.choice, std::clamp(r.drafted(*before.result) + mm(r.alter), range.lowest,
                                             range.highest));
    }
    const auto after = draft_pieces(style_, out_.body, out_.choices);
    for (const Roomy& r : asked) {
      const double now = after.result ? r.drafted(*after.result) : *out_.choices.of(*r.choice);
      out_.choices.set(*r.choice, now);
      done(r.alter, now - r.drafted(*before.result));
    }
  }

  // The choice with so much more, as far as its range goes.
  void alter_choice(Alter what) {
    const double by = mm(what);
    if (by == 0.0) return;
    for (const ChoiceInfo* choice : info(what).choices) {
      if (choice == nullptr || !has(*choice) || choice == &kLegEase) continue;
      const ChoiceRange range = range_of(*choice, out_.body);
      const double was = of(*choice);
      const double now = std::clamp(was + by, range.lowest, range.highest);
      out_.choices.set(*choice, now);
      done(what, now - was);
    }
  }

  // A coat without darts gets this one alone. One that is shaped along the spine has no other.
  void sew_dart(Alter what) {
    if (mm(what) == 0.0) return;
    if (of(kShaping) == 0.0) {
      out_.choices.set(kShaping, kShapedByDarts);
      for (const ChoiceInfo* dart : {&kShoulderDart, &kHemDart}) out_.choices.set(*dart, 0.0);
    }
    if (of(kShaping) == kShapedByDarts) {
      alter_choice(what);
    } else {
      done(what, 0.0);
    }
  }

  // Notes that ask for more than readings of one measure may differ by, or keep asking, are about the
  // reading.
  void suspect_readings() {
    for (const Alteration& a : out_.done) {
      const auto reading = info(a.alter).reading;
      if (!reading) continue;
      const Value& taken = measured_.of(*reading);
      if (taken.estimated()) continue;
      const double fits = a.alter == Alter::Girth    ? taken.value + a.mm
                          : a.alter == Alter::Breast ? taken.value + breast_by_
                                                     : out_.body.mm(*reading);
      const double off = std::abs(fits - taken.value);
      const double most = allowed_spread(info(*reading), taken.value);
      if (off <= most && (a.notes < kManyNotes || off < 0.5 * most)) continue;
      out_.findings.push_back({Level::Note,
                               {Code::NotesMeanReading,
                                info(*reading).id,
                                {taken.value, fits, static_cast<double>(a.notes)}}});
    }
  }

  const Body& measured_;
  const StyleInfo& style_;
  Fitted out_;
  std::array<Alteration, kAlters> asked_;
  double breast_by_ = 0.0;  // by so much the turned front changed the breast by itself
};

// The middle of the first of its edges that the draft has.
TraceStep told(const Alteration& a, const Draft& d) {
  const AlterInfo& about = info(a.alter);
  TraceStep step{"altered",
                 std::string("alter.") + about.id + (a.mm > 0.0 ? ".more" : ".less"),
                 {},
                 {std::abs(a.mm)},
                 ""};
  for (const char* id : about.edges) {
    for (const Piece& piece : d.pieces) {
      const Edge* edge = id == nullptr ? nullptr : find_edge(piece, id);
      if (edge == nullptr) continue;
      step.edge = id;
      step.at = station_at(edge->path, 0.5 * arc_length(edge->path, 1e-3), 1e-3).point;
      return step;
    }
  }
  return step;
}

}  // namespace

Fitted fitted(const Body& body, const Choices& choices, const StyleInfo& style,
              const Alterations& alterations) {
  if (alterations.list.empty()) return {body, choices, {}, alterations.findings};
  return Fitter(body, choices, style, alterations).fit();
}

Checked<Draft> draft_fitted(const StyleInfo& style, const Fitted& to) {
  auto made = draft_coat(style, to.body, to.choices);
  made.findings.insert(made.findings.begin(), to.findings.begin(), to.findings.end());
  if (!made.result) return made;
  Draft& draft = made.result.value();
  for (const Alteration& a : to.done) draft.trace.push_back(told(a, draft));
  return made;
}

}  // namespace coatwright
