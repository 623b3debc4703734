#include "core/fit/alteration.h"

#include <algorithm>
#include <cmath>

#include "core/body/assess.h"
#include "core/draft/options/back_closure.h"
#include "core/draft/options/band.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/front.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/panel.h"
#include "core/draft/options/shaping.h"
#include "core/draft/options/strap.h"

namespace coatwright {
namespace {

using M = Measure;
const AlterInfo kAlterTable[kAlters] = {
    {Alter::ShoulderDart, "shoulder-dart", {}, {&kShoulderDart}, {}, {"body.neckline"}},
    {Alter::HemDart, "hem-dart", {}, {&kHemDart}, {}, {"body.hem"}},
    {Alter::Neckline, "neckline", M::Neck, {}, M::Neck, {"body.neckline"}},
    {Alter::Breast, "breast", M::Breast, {}, M::Breast, {"body.tab", "body.breast"}},
    {Alter::FrontLength, "front-length", M::Throat, {}, M::Throat, {"body.tab", "panel.fold"}},
    {Alter::Length, "length", M::Back, {}, M::Back, {"body.fold", "body.spine", "body.back"}},
    {Alter::Hem, "hem", M::Drop, {}, M::Drop, {"body.hem"}},
    {Alter::GirthLine, "girth-line", M::GirthPlace, {}, M::GirthPlace, {"body.front", "body.leg"}},
    {Alter::PanelLength, "panel-length", M::Underline, {}, M::Underline, {"panel.fold"}},
    {Alter::HemLift, "hem-lift", {}, {&kHemLift}, {}, {"body.hem"}},
    {Alter::Girth,
     "girth",
     {},
     {&kChestEase},
     M::Chest,
     {"band.front", "strap.front", "body.side"}},
    {Alter::BandPlace, "band-place", {}, {&kBandPlace, &kStrapPlace}, {}, {"body.hem"}},
    {Alter::BandWidth, "band-width", {}, {&kBandWidth}, {}, {"band.close"}},
    {Alter::FrontEnd, "front-end", {}, {&kFrontDepth}, {}, {"body.front"}},
    {Alter::Leg, "leg", {}, {&kForelegClearance, &kLegEase}, {}, {"body.front", "body.leg"}},
    {Alter::Closure, "closure", {}, {&kOverlap, &kBackOverlap}, {}, {"body.tab", "body.back"}},
};

// What answers what; of several rows of one place and kind the first that the style can be altered
// by. Common practice, no source: a sewing room's habits, put into the terms of the method.
struct Row {
  FitPlace place;
  FitKind kind;
  Alter alter;
  int sense;
};
using P = FitPlace;
using K = FitKind;
constexpr Row kRows[] = {
    {P::Neck, K::Loose, Alter::Neckline, -1},
    {P::Neck, K::Tight, Alter::Neckline, 1},
    {P::Neck, K::Gapes, Alter::Neckline, -1},
    {P::Neck, K::Rubs, Alter::Neckline, 1},
    {P::Neck, K::SlidesBack, Alter::Neckline, -1},
    {P::Shoulder, K::Gapes, Alter::ShoulderDart, 1},
    {P::Shoulder, K::Tight, Alter::Breast, 1},
    {P::Breast, K::Loose, Alter::Breast, -1},
    {P::Breast, K::Tight, Alter::Breast, 1},
    {P::Breast, K::Gapes, Alter::Breast, -1},
    {P::Breast, K::RidesUp, Alter::Breast, 1},
    {P::Breast, K::Long, Alter::FrontLength, -1},
    {P::Breast, K::Short, Alter::FrontLength, 1},
    {P::Breast, K::Rubs, Alter::FrontEnd, -1},
    {P::Foreleg, K::CutsIn, Alter::Leg, 1},
    {P::Foreleg, K::Rubs, Alter::Leg, 1},
    {P::Foreleg, K::Gapes, Alter::Leg, -1},
    {P::Foreleg, K::Back, Alter::GirthLine, -1},
    {P::Foreleg, K::Forward, Alter::GirthLine, 1},
    {P::Girth, K::Loose, Alter::Girth, -1},
    {P::Girth, K::Tight, Alter::Girth, 1},
    {P::Girth, K::Twists, Alter::BandWidth, 1},
    {P::Girth, K::Twists, Alter::Girth, -1},
    {P::Belly, K::Back, Alter::BandPlace, -1},
    {P::Belly, K::Forward, Alter::BandPlace, 1},
    {P::Belly, K::Rubs, Alter::BandPlace, 1},
    {P::Belly, K::Long, Alter::PanelLength, -1},
    {P::Belly, K::Short, Alter::PanelLength, 1},
    {P::Side, K::Low, Alter::Hem, -1},
    {P::Side, K::High, Alter::Hem, 1},
    {P::Loin, K::Gapes, Alter::HemDart, 1},
    {P::HindLeg, K::Drags, Alter::HemLift, 1},
    {P::HindLeg, K::High, Alter::HemLift, -1},
    {P::Tail, K::Long, Alter::Length, -1},
    {P::Tail, K::Short, Alter::Length, 1},
    {P::Closure, K::Long, Alter::Closure, -1},
    {P::Closure, K::Short, Alter::Closure, 1},
};

const ChoiceInfo* choice_in(const StyleInfo& style, const AlterInfo& alter) {
  const auto& all = choices_of(style);
  for (const ChoiceInfo* c : alter.choices) {
    if (c != nullptr && std::find(all.begin(), all.end(), c) != all.end()) return c;
  }
  return nullptr;
}

// A panel's length is drafted by the coats that have one.
bool has_panel(const StyleInfo& style) {
  const auto& all = choices_of(style);
  return std::find(all.begin(), all.end(), &kPanelTop) != all.end();
}

}  // namespace

const AlterInfo& info(Alter alter) { return kAlterTable[static_cast<size_t>(alter)]; }

bool can_alter(const StyleInfo& style, Alter alter) {
  if (alter == Alter::PanelLength) return has_panel(style);
  return info(alter).measure || choice_in(style, info(alter)) != nullptr;
}

std::optional<Answer> answer_to(FitPlace place, FitKind kind, const StyleInfo& style) {
  for (const Row& row : kRows) {
    if (row.place == place && row.kind == kind && can_alter(style, row.alter)) {
      return Answer{row.alter, row.sense};
    }
  }
  return std::nullopt;
}

std::vector<FitKind> kinds_at(FitPlace place, const StyleInfo& style) {
  std::vector<FitKind> out;
  for (const Row& row : kRows) {
    if (row.place != place || !answer_to(place, row.kind, style)) continue;
    if (std::find(out.begin(), out.end(), row.kind) == out.end()) out.push_back(row.kind);
  }
  return out;
}

namespace {

// What the notes of one fitting ask of one alteration.
struct Asked {
  double more = 0.0, less = 0.0;  // the largest of either
  int notes = 0;
};

// What part of its reading at the fitting a measure reads now; 1 if that differs by no more than `most`
// mm, or was not read both times.
double read_anew(const Fitting& fitting, Measure m, const std::array<double, kMeasures>& read,
                 double most) {
  const double then = fitting.based_on[static_cast<size_t>(m)], now = read[static_cast<size_t>(m)];
  return then != 0.0 && now != 0.0 && std::abs(now - then) > most ? now / then : 1.0;
}

std::string subject_of(Alter alter) { return std::string("alter.") + info(alter).id; }

}  // namespace

std::array<double, kMeasures> readings_of(const Tape& tape) {
  std::array<double, kMeasures> out{};
  for (size_t i = 0; i < out.size(); ++i) {
    if (!tape.readings[i].empty()) out[i] = value_of(tape.readings[i]).value;
  }
  return out;
}

std::optional<Measure> retired_by(const Fitting& fitting, Alter alter,
                                  const std::array<double, kMeasures>& readings) {
  const auto reading = info(alter).reading;
  if (!reading || read_anew(fitting, *reading, readings, kSameReading) == 1.0) return std::nullopt;
  return reading;
}

double growth_since(const Fitting& fitting, const std::array<double, kMeasures>& readings) {
  const auto grown = [&](Measure m) {
    const double then = fitting.based_on[static_cast<size_t>(m)];
    return read_anew(fitting, m, readings, allowed_spread(info(m), then));
  };
  const double back = grown(Measure::Back), chest = grown(Measure::Chest);
  return (back - 1.0) * (chest - 1.0) > 0.0 ? 0.5 * (back + chest) : 1.0;
}

Alterations alterations_of(std::span<const Fitting> fittings, const StyleInfo& style,
                           const Tape& tape) {
  Alterations out;
  if (fittings.empty()) return out;
  const auto read = readings_of(tape);
  std::array<Alteration, kAlters> sums;
  std::array<bool, kAlters> retired{};
  int idle = 0;
  for (size_t number = 0; number < fittings.size(); ++number) {
    std::array<Asked, kAlters> asked;
    const double growth = growth_since(fittings[number], read);
    bool grows = false;
    for (const FitNote& note : fittings[number].notes) {
      const auto answer = answer_to(note.place, note.kind, style);
      idle += answer ? 0 : 1;
      if (!answer) continue;
      Asked& one = asked[static_cast<size_t>(answer->alter)];
      double& most = answer->sense > 0 ? one.more : one.less;
      most = std::max(most, growth * note.amount());
      ++one.notes;
    }
    for (size_t i = 0; i < asked.size(); ++i) {
      const Asked& one = asked[i];
      if (one.notes == 0) continue;
      if (retired_by(fittings[number], static_cast<Alter>(i), read)) {
        retired[i] = true;
        continue;
      }
      grows = growth != 1.0;
      if (one.more > 0.0 && one.less > 0.0) {
        out.findings.push_back({Level::Check,
                                {Code::NotesConflict,
                                 subject_of(static_cast<Alter>(i)),
                                 {one.more, one.less, static_cast<double>(number + 1)}}});
      } else {
        sums[i].mm += one.more - one.less;
        sums[i].notes += one.notes;
      }
    }
    if (!grows) continue;
    out.findings.push_back(
        {Level::Note,
         {.code = Code::NotesGrown,
          .values = {static_cast<double>(number + 1), std::round(100.0 * growth)}}});
  }
  for (size_t i = 0; i < sums.size(); ++i) {
    sums[i].alter = static_cast<Alter>(i);
    if (sums[i].mm != 0.0) out.list.push_back(sums[i]);
    if (!retired[i]) continue;
    const AlterInfo& about = info(sums[i].alter);
    out.findings.push_back({Level::Note,
                            {.code = Code::AlterationRetired,
                             .subject = subject_of(about.alter),
                             .other = info(*about.reading).id}});
  }
  if (idle > 0) {
    out.findings.push_back({Level::Note,
                            {.code = Code::AlterationIdle,
                             .subject = std::string("style.") + style.id,
                             .values = {static_cast<double>(idle)}}});
  }
  return out;
}

}  // namespace coatwright
