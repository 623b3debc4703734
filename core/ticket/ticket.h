// The ticket: the record of one dog and one coat. Inputs only, never results; a few kB.
//
// Readings are kept as typed ("20 3/8 in"), so that what was entered comes back exactly. The file
// is JSON, described by assets/ticket.schema.json. Reading one treats it as hostile: bounded size
// and depth, every field checked, unknown fields and versions refused with their path.
//
//   read_ticket(file) -> Ticket -> tape_of -> Tape (mm, kg) -> assess -> Body -> make_pattern
//                          ^ write_ticket: what is written always reads back
#pragma once

#include <array>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/body/measures.h"
#include "core/draft/choice.h"
#include "core/draft/rule.h"
#include "core/fit/alteration.h"
#include "core/lay/cloth.h"
#include "core/lay/hand_place.h"
#include "core/make/cut_size.h"
#include "core/make/prices.h"
#include "core/sheet/print_choices.h"
#include "core/units/length.h"

namespace coatwright {

struct StyleInfo;

inline constexpr int kTicketVersion = 1;
inline constexpr size_t kMostTicketBytes = 136 * 1024;
inline constexpr size_t kMostNameCharacters = 60;
inline constexpr size_t kMostNotesCharacters = 2000;
inline constexpr size_t kMostReadingCharacters = 40;
inline constexpr size_t kMostPaperCharacters = 24;
inline constexpr size_t kMostLaidWith = kMostCoats - 1;
inline constexpr size_t kMostDone = 100;  // steps ticked off, of whatever coat it was
inline constexpr size_t kMostStepCharacters = 40;
inline constexpr double kMostChoice = 10000.0;  // mm; the draft's own ranges are much closer
inline constexpr double kMostMargin = 100.0;    // mm, margin and overlap of sheets

struct BirthMonth {
  int year = 0;   // 1900..2199
  int month = 0;  // 1..12
  bool operator==(const BirthMonth&) const = default;
};

struct Ticket {
  std::string name;        // of the coat: "Winter coat"; at most 60 characters
  std::string dog;         // "Bosun"
  Unit unit = Unit::Inch;  // how lengths are shown and numbers without a unit are read
  std::array<std::vector<std::string>, kMeasures> readings;  // as typed, each with its unit
  std::array<bool, kMeasures> carried = {};  // its readings are of an earlier coat: take it again
  Sex sex = Sex::Unknown;
  Build build = Build::Ordinary;
  Coat coat = Coat::Short;
  std::optional<BirthMonth> birth;
  std::optional<BirthMonth> measured;  // month of the first of these readings; core has no clock
  std::string style = "wrap";
  // The drafting rule whose coat the maker knows: that of the studio in which the ticket was made,
  // until the maker has seen what a later one changed. A file without it is of the first.
  int drafted_by = kDraftingRule;
  Choices choices;
  std::vector<Fitting> fittings;  // what was seen on the dog, in their order
  PrintChoices print;
  std::array<std::optional<Cloth>, kClothUses> cloths;  // that it is cut from; none: the usual one
  std::vector<HandLay> hand_lays;  // on cloths that are laid by hand; the others are found
  // Ids on the rack of the tickets whose coats are laid together with this one, on its cloths.
  std::vector<std::string> laid_with = {};
  QuoteChoices quote;
  // Ids of the steps of the work that are done. One that the coat does not have, or has no more,
  // does no harm: it counts again when its choice comes back.
  std::set<std::string> done;
  CutRecord cut;      // what was cut out, while that step is done
  std::string notes;  // at most 2000 characters

  [[nodiscard]] const std::vector<std::string>& of(Measure m) const {
    return readings[static_cast<size_t>(m)];
  }
  [[nodiscard]] std::vector<std::string>& of(Measure m) { return readings[static_cast<size_t>(m)]; }
  [[nodiscard]] const std::optional<Cloth>& of(ClothUse use) const {
    return cloths[static_cast<size_t>(use)];
  }
  [[nodiscard]] std::optional<Cloth>& of(ClothUse use) { return cloths[static_cast<size_t>(use)]; }
  bool operator==(const Ticket&) const = default;
};

// The first thing that is wrong is the Problem; its subject is the JSON pointer (RFC 6901) of the
// field. Problems: the Ticket* codes, ReadingTooMany, NumberOutOfRange.
[[nodiscard]] Result<Ticket> read_ticket(std::string_view json);

// The file, in the order of the schema, one field a line. What read_ticket would refuse is not
// written: texts are cleaned and cut to their length, numbers outside their bounds left at their
// default; so what is written reads back, and a ticket that was read comes back as it was.
[[nodiscard]] std::string write_ticket(const Ticket& ticket);

// The cloth that the ticket's coat is cut from, chosen or usual.
[[nodiscard]] Cloth cloth_of(const Ticket& ticket, ClothUse use);

[[nodiscard]] const StyleInfo& style_of(const Ticket& ticket);

// The ticket for the same dog's next coat: everything stays as it was, nothing of it is made yet,
// it is laid by itself, and every reading is to be taken again. The old readings hold the pattern
// until fresh ones take their places, and with them what fittings of the earlier coat altered; its
// photographs stay with the coat that they show.
[[nodiscard]] Ticket to_measure_again(Ticket ticket);

// The ticket as it leaves its rack, in which its photographs stay.
[[nodiscard]] Ticket without_photographs(Ticket ticket);

// What the fittings come to for the ticket's coat, beside its tape.
[[nodiscard]] Alterations alterations_of(const Ticket& ticket, const Tape& tape);

// Whether the coat is drafted by a later rule than the one that its maker knows.
[[nodiscard]] bool is_drafted_anew(const Ticket& ticket);

// Whether the same stands on both tickets of what tape_of() reads.
[[nodiscard]] bool reads_alike(const Ticket& a, const Ticket& b);

// The tape of a ticket. A reading that cannot be read is the Problem, its subject the measure's id.
[[nodiscard]] Result<Tape> tape_of(const Ticket& ticket);

}  // namespace coatwright
