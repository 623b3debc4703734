// A run of sizes: one coat for dogs from small to large.
//
// A size is a dog's readings with a name. It is made into a ticket of its own, so that it is drafted,
// laid, printed and made like any other: at equal readings a size of a run is the single draft.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/base/words.h"
#include "core/body/measures.h"
#include "core/ticket/ticket.h"

namespace coatwright {

inline constexpr size_t kMostSizes = 12;
inline constexpr size_t kMostSizeCharacters = 12;   // of a size's name
inline constexpr size_t kMostSizeText = 16 * 1024;  // bytes of a list or a table

struct DogSize {
  std::string name;  // "M"
  // As typed, each with its unit, like a ticket's: at most one of each measure.
  std::array<std::string, kMeasures> readings = {};
  bool operator==(const DogSize&) const = default;
};

// From the dog of a ticket to dogs of its shape. `list` names sizes by ';' or by lines, each with a
// chest girth or a weight, and a name before '=' if it shall have one: "S = 50 cm; M = 60 cm".
// Every measure that the ticket has a reading of is as much longer as the chest girth is; a weight
// goes with its third power (the girth law, core/body/estimates.h: for a dog that was not weighed
// its weight is that law's). Values are to what a tape shows, an eighth of an inch or a millimetre.
enum class SizeBy { Chest, Weight };
[[nodiscard]] Result<std::vector<DogSize>> sizes_of_shape(const Ticket& ticket, SizeBy by,
                                                          std::string_view list);

// From a maker's own table: a header and a line for each size, as typed or as a spreadsheet hands it
// over, between tabs, semicolons or commas, a text in "" as RFC 4180 has it; typed in one line, a line
// ends with a |. The header names measures
// by their ids or their words, whatever their capitals; one other column, or none, names the sizes.
// A number without a unit is in `unit`.
[[nodiscard]] Result<std::vector<DogSize>> sizes_of_table(std::string_view table, Unit unit,
                                                          const Words& words);
// Problems of both: the Size* codes.

// What a maker wants of a run: how its sizes are told, each way as it was typed or pasted, and the
// names of those that are left out.
enum class SizesBy { Chest, Weight, Table };
struct SizesWanted {
  SizesBy by = SizesBy::Chest;
  std::array<std::string, 3> typed = {};
  std::vector<std::string> left = {};
  bool operator==(const SizesWanted&) const = default;
};

// The ticket of one size: coat, style, choices, cloths and paper of the other; its dog is the size.
[[nodiscard]] Ticket ticket_of(const Ticket& ticket, const DogSize& size);

}  // namespace coatwright
