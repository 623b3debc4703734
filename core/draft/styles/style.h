// A style of coat: which options it has, which further measures it wants, and how its pieces are
// drafted. The list of styles is the one place that names them all.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

struct StyleInfo {
  const char* id;                              // "wrap", as in tickets; "style.wrap" in the words
  std::span<const OptionInfo* const> options;  // in the order of the side sheet and of drafting
  std::span<const Measure> needs = {};         // measures "by style" that it always drafts from
  // The net pieces of the outside layer, with their trace. `draft.chosen` is filled in.
  std::optional<Problem> (*draft)(Draft&, const Body&, Findings&) = nullptr;
  // What has to be done for the style itself, as an option's (core/draft/option.h).
  void (*sew)(const Draft&, Operations&) = nullptr;
  // What the finished pieces measure beside what was promised, options and all.
  std::vector<Invariant> (*measure)(const Draft&, const Body&) = nullptr;
};

[[nodiscard]] std::span<const StyleInfo* const> styles();
[[nodiscard]] const StyleInfo* style_by_id(std::string_view id);
// The style of a new ticket.
extern const StyleInfo kWrapCoat;
extern const StyleInfo kStrapCoat;
extern const StyleInfo kUnderpanelCoat;

// The choices of a style in its order; of all styles, each once.
[[nodiscard]] const std::vector<const ChoiceInfo*>& choices_of(const StyleInfo& style);
[[nodiscard]] const std::vector<const ChoiceInfo*>& choice_table();
[[nodiscard]] const ChoiceInfo* choice_by_id(std::string_view id);
// The measures "by style" that the style drafts from with these choices, in the table's order.
[[nodiscard]] std::vector<Measure> needs_of(const StyleInfo& style, const Choices& choices);
// Every measure that a coat of it asks for, in the order in which they are listed and taken: those
// that every coat is drafted from or better for, and those of needs_of.
[[nodiscard]] std::vector<Measure> measures_of(const StyleInfo& style, const Choices& choices);
[[nodiscard]] std::vector<HandleInfo> handles_of(const StyleInfo& style);

// The net pieces of every layer, before anything is promised of them or said about sewing them: for who
// looks a place up in a coat that nobody gets.
[[nodiscard]] Checked<Draft> draft_pieces(const StyleInfo& style, const Body& body,
                                          const Choices& choices);
// From a body and choices to the net pieces of every layer. Refused where a draft would not keep
// what it promises.
[[nodiscard]] Checked<Draft> draft_coat(const StyleInfo& style, const Body& body,
                                        const Choices& choices);

}  // namespace coatwright
