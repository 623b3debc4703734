// What the maker may choose about the cut. Every choice has an id, a range and a default that are
// sized by the body: a toy's band is not a giant's. An unset choice follows its default.
//
// A choice is declared by the option that it belongs to (core/draft/options) and known by its
// address; nothing else lists it.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "core/body/measures.h"
#include "core/geometry/point.h"

namespace coatwright {

// The range that makes sense for this body, and the default. mm or plain numbers.
struct ChoiceRange {
  double lowest = 0.0;
  double highest = 0.0;
  double sized = 0.0;  // the default
};

// What a choice's number counts.
enum class Amount { Length, Share };  // mm; a part of one, told in per cent

class Chosen;

struct ChoiceInfo {
  const char* id;  // "chest-ease", ... as in tickets and the word table
  // The range of a number. Named options have none: their values are 0 .. options.size() - 1.
  ChoiceRange (*range)(const Body&) = nullptr;
  std::span<const char* const> options = {};  // ids of named options: "hem-line.level" in the words
  double usual = 0.0;                         // the default among named options
  Amount amount = Amount::Length;
  // Whether it means anything beside what else is chosen; a choice that does not is not shown.
  bool (*applies)(const Chosen&) = nullptr;
  // A named option as a line in the unit square, y down, for the eye; none: its name alone.
  Polyline (*picture)(int option) = nullptr;

  [[nodiscard]] bool named() const { return !options.empty(); }
};

// A named option's enumerator, which is its number, and its id.
template <class Enum>
struct Named {
  Enum option;
  const char* id;
};
void options_out_of_order();  // nowhere defined: a call while compiling is an error
// ChoiceInfo::options from a table that has each enumerator beside its id. One in which they are not
// 0, 1, 2, ... does not compile, so that number and id cannot come apart.
template <class Enum, size_t N>
[[nodiscard]] consteval std::array<const char*, N> named(const Named<Enum> (&table)[N]) {
  std::array<const char*, N> ids{};
  for (size_t i = 0; i < N; ++i) {
    if (static_cast<size_t>(table[i].option) != i) options_out_of_order();
    ids[i] = table[i].id;
  }
  return ids;
}

[[nodiscard]] bool applies(const ChoiceInfo& choice, const Chosen& chosen);
[[nodiscard]] ChoiceRange range_of(const ChoiceInfo& choice, const Body& body);
// Ranges as fractions of a reading, so that a coat twice the size has choices twice the size.
[[nodiscard]] ChoiceRange part_of(double reading, double lowest, double sized, double highest);

// Numbers of choices, by choice.
class ChoiceValues {
 public:
  [[nodiscard]] std::optional<double> of(const ChoiceInfo& choice) const;
  void set(const ChoiceInfo& choice, std::optional<double> value);
  [[nodiscard]] bool empty() const { return set_.empty(); }
  bool operator==(const ChoiceValues&) const = default;

 private:
  struct Entry {
    const ChoiceInfo* choice;
    double value;
    bool operator==(const Entry&) const = default;
  };
  std::vector<Entry> set_;  // sorted by id
};

// What a ticket sets. Choices of other styles stay in it, so that a maker who comes back to a style
// finds them again.
using Choices = ChoiceValues;

// Every choice of a style with a number; 0 for a choice that the style does not have.
class Chosen {
 public:
  [[nodiscard]] double of(const ChoiceInfo& choice) const {
    return values_.of(choice).value_or(0.0);
  }
  // Which of the named options; 0 for a choice that the style does not have.
  [[nodiscard]] int option(const ChoiceInfo& choice) const;
  [[nodiscard]] bool has(const ChoiceInfo& choice) const { return values_.of(choice).has_value(); }
  void set(const ChoiceInfo& choice, double value) { values_.set(choice, value); }

 private:
  ChoiceValues values_;
};
// What is drafted of one choice: as it was set, or as its body sizes it; of a value that this body
// cannot take, the nearest end of its range.
[[nodiscard]] double resolved(const ChoiceInfo& choice, const Choices& choices, const Body& body);
// A set choice that this body cannot take (the readings may have changed since) is drafted at the
// nearest end of its range, and a ChoiceOutOfRange finding says so, unless the choice does not
// apply and is not drafted at all; the ticket keeps what was set.
[[nodiscard]] Chosen resolve(std::span<const ChoiceInfo* const> all, const Choices& choices,
                             const Body& body, Findings& findings);

}  // namespace coatwright
