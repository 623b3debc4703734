// What was seen on the dog: fit notes, and the fittings at which they were taken. Values of a ticket;
// their words stand in core/ticket/ids.h.
//
// A note says where, what and how much: "neck, loose, a pinch of 1/2 in". What is done about it is no
// part of it: core/fit/alteration.h answers each.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "core/body/measures.h"

namespace coatwright {

// Where on the standing dog, from the head to the tail and down.
enum class FitPlace {
  Neck,      // where the neckline lies
  Shoulder,  // over the shoulder blade
  Breast,    // at the breastbone
  Foreleg,   // round the leg, or in its fold
  Girth,     // round the chest, behind the elbows
  Belly,     // what goes round below: band, strap or panel
  Side,      // the hem at the girth line
  Loin,      // the hem behind the ribs
  HindLeg,   // the thigh
  Tail,      // the end of the spine
  Closure,   // where the coat closes
};

enum class FitKind {
  Loose,
  Tight,
  Long,
  Short,
  Low,
  High,
  Back,     // too far back
  Forward,  // too far forward
  Gapes,    // the edge stands off
  Rubs,
  CutsIn,
  RidesUp,
  SlidesBack,
  Twists,
  Drags,
};

// How the amount was found: the height of a fold that was pinched up, which takes twice as much
// cloth; or a gap, an overlap or a distance, along the tape.
enum class FitBy { Pinch, Gap };

// The bounds of an amount as it was found, mm: less is not seen, more is another coat.
inline constexpr double kLeastFit = 0.5, kMostFit = 150.0;

struct FitNote {
  FitPlace place = FitPlace::Neck;
  FitKind kind = FitKind::Loose;
  FitBy by = FitBy::Gap;
  double found_mm = 0.0;
  // Of cloth.
  [[nodiscard]] double amount() const { return by == FitBy::Pinch ? 2.0 * found_mm : found_mm; }
  bool operator==(const FitNote&) const = default;
};

// ISO 8601, from whoever has a clock.
struct FitDate {
  int year = 0, month = 0, day = 0;  // 1900..2199
  bool operator==(const FitDate&) const = default;
};
[[nodiscard]] bool is_date(const FitDate& date);

// Where on a photograph a note shows: parts of its width and height, from its upper left corner.
struct PhotoPin {
  size_t note = 0;  // its place among the fitting's
  double x = 0.0, y = 0.0;
  bool operator==(const PhotoPin&) const = default;
};

// A photograph that was taken at a fitting. The picture is no part of the ticket: it lies in the rack,
// under the ticket's id and its own.
struct Photograph {
  std::string id = {};              // is_ticket_id()
  int width = 0, height = 0;        // px, at most kMostPhotoSide
  std::vector<PhotoPin> pins = {};  // of each note one at the most
  bool operator==(const Photograph&) const = default;
};
inline constexpr size_t kMostPhotographs = 2;  // of one fitting
inline constexpr int kMostPhotoSide = 1280;

// One numbered try of the coat on the dog; its number is its place in the ticket.
struct Fitting {
  std::optional<FitDate> date = {};
  std::string words = {};  // at most kMostFittingCharacters
  std::vector<FitNote> notes = {};
  std::vector<Photograph> photographs = {};
  // What the readings said then, mm; 0 for a measure that was not read. What is read anew is told
  // better by its reading than by these notes.
  std::array<double, kMeasures> based_on = {};
  bool operator==(const Fitting&) const = default;
};
inline constexpr size_t kMostFittings = 9, kMostFitNotes = 12;  // notes of one fitting
inline constexpr size_t kMostFittingCharacters = 300;
inline constexpr double kLeastBasedOn = 1.0, kMostBasedOn = 2000.0;  // mm

// The fittings with one note more, of a coat that was drafted from these readings. It goes to the
// last fitting, and takes the place of what was said of the same thing there; to a new one if there is
// none, or if the last was based on other readings. Problem: FittingFull.
[[nodiscard]] Result<std::vector<Fitting>> with_note(std::vector<Fitting> fittings,
                                                     const FitNote& note,
                                                     const std::array<double, kMeasures>& readings,
                                                     const std::optional<FitDate>& today);
// With a new fitting, which is based on these readings. Problem: FittingFull.
[[nodiscard]] Result<std::vector<Fitting>> with_fitting(
    std::vector<Fitting> fittings, const std::array<double, kMeasures>& readings,
    const std::optional<FitDate>& today);

}  // namespace coatwright
