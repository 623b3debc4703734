// The alterations: what answers a fit note. A closed set, each an operation on a quantity that the
// drafting method solves with, so that seams, lining, band, collar, marks and lay follow by themselves.
//
// One table (alteration.cpp) says which answers what, and in which sense. Millimetres.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "core/draft/styles/style.h"
#include "core/fit/note.h"

namespace coatwright {

// In the order in which they are done. More is what a gap asks for, less what a pinch takes away.
enum class Alter {
  ShoulderDart,  // a dart in the neckline that takes in so much more; the neckline stays as long
  HemDart,       // a dart in the hem at the loin
  Neckline,      // let out or taken in, all round; the breastbone stays as far from the tail
  Breast,        // the front turned about the neck, so that both centre fronts meet so much later
  FrontLength,   // between throat and breastbone; the throat stays
  Length,        // of the back, behind the girth line; the front stays
  Hem,           // lower or higher all along
  GirthLine,     // further back or forward, with the foreleg's edge and what goes round behind it
  PanelLength,   // of a panel, behind the girth line
  HemLift,       // the hem behind higher, toward the loin
  Girth,         // ease round the chest
  BandPlace,     // band or strap further back or forward
  BandWidth,
  FrontEnd,  // the lower end of the front
  Leg,       // wider off the leg: the front's edge, or the panel's opening all round
  Closure,   // the overlap, of both edges together
};
inline constexpr int kAlters = 16;

struct AlterInfo {
  Alter alter;
  const char* id;  // "neckline": "alter.<id>.more" and ".less" in the word table
  // The measure that is drafted as another one, or the choices of which the style has one.
  std::optional<Measure> measure = {};
  std::array<const ChoiceInfo*, 2> choices = {};
  // The reading that is likely wrong where notes ask for much of it.
  std::optional<Measure> reading = {};
  // The edges that it changes, in the order in which they are looked for.
  std::array<const char*, 3> edges = {};
};
[[nodiscard]] const AlterInfo& info(Alter alter);
// Whether a coat of the style can be altered so.
[[nodiscard]] bool can_alter(const StyleInfo& style, Alter alter);

// What answers a note about this on a coat of the style: the alteration, and 1 for more of it, -1 for
// less. Nothing: it is seen at no such place, or this style has no answer.
struct Answer {
  Alter alter = Alter::Neckline;
  int sense = 1;
};
[[nodiscard]] std::optional<Answer> answer_to(FitPlace place, FitKind kind, const StyleInfo& style);
// Kinds that can be noted at a place, in the order in which they are asked.
[[nodiscard]] std::vector<FitKind> kinds_at(FitPlace place, const StyleInfo& style);

struct Alteration {
  Alter alter = Alter::Neckline;
  double mm = 0.0;  // of cloth, more or less than without it
  int notes = 0;    // that ask for it
  bool operator==(const Alteration&) const = default;
};

struct Alterations {
  std::vector<Alteration> list;  // each alteration once, in their order
  Findings findings;             // about the notes
  bool operator==(const Alterations&) const = default;
};

// What the notes of all fittings come to for a style. The notes of one fitting were seen on one coat:
// of several that ask for one alteration the largest counts; fittings add up, since each is of the
// coat that the one before left. Notes of one fitting that ask for more and for less of it are not
// averaged: neither is done, and NotesConflict names it. Of a dog that was read anew since, what a
// reading tells is retired (AlterationRetired), and the rest grows with the dog (NotesGrown).
// AlterationIdle: the style has no such part.
[[nodiscard]] Alterations alterations_of(std::span<const Fitting> fittings, const StyleInfo& style,
                                         const Tape& tape);
// What the readings of a tape say, for a fitting that is based on them.
[[nodiscard]] std::array<double, kMeasures> readings_of(const Tape& tape);
// By so much a reading may differ from what a fitting was based on, mm.
inline constexpr double kSameReading = 0.5;
// The reading that was taken anew since the fitting and tells this better than its notes do.
[[nodiscard]] std::optional<Measure> retired_by(const Fitting& fitting, Alter alter,
                                                const std::array<double, kMeasures>& readings);
// What a millimetre of a fitting's notes comes to on the dog as it is read now. 1, unless back and chest
// both read longer, or both shorter, by more than two readings of one dog may differ: it has grown, or
// this is the next coat of a smaller one. Then the mean of both ratios, since what fits a dog fits
// one of the same shape at its size.
[[nodiscard]] double growth_since(const Fitting& fitting,
                                  const std::array<double, kMeasures>& readings);

}  // namespace coatwright
