// An option: choices that belong together, what they do to a draft, and where they are dragged.
//
// An option stands in a file of its own (core/draft/options) and is listed in the description of
// each style that has it (core/draft/styles); with its words in assets/words.txt that is all that
// is needed for it to be drafted, shown, stored, written and tested.
#pragma once

#include "core/draft/draft.h"

namespace coatwright {

// A point of the draft that a finger moves, the servant of one choice.
struct HandleInfo {
  const ChoiceInfo* choice;  // the control is "handle.<choice id>"
  const char* piece;         // whose coordinates its point is in
  // Where it stands; nothing if it has no place in this draft.
  std::optional<Point> (*place)(const Draft&);
};

struct OptionInfo {
  const char* id;  // its heading is "option.<id>" in the word table
  std::span<const ChoiceInfo* const> choices;
  std::span<const HandleInfo> handles = {};
  // Measures "by style" that it drafts from while its first choice is not its first option.
  std::span<const Measure> needs = {};
  // What it adds to the net pieces that the style has drafted: pieces, marks, notches, notions,
  // trace and invariants. Called in the order of the style's list. Nothing: the style itself reads
  // the choices.
  std::optional<Problem> (*apply)(Draft&, const Body&, Findings&) = nullptr;
  // What has to be done for it, read off the whole draft with all its layers; in any order.
  void (*sew)(const Draft&, Operations&) = nullptr;
};

// Places for handles. The point a share (0..1) of the way along an edge; where a notch stands.
[[nodiscard]] std::optional<Point> along_edge(const Draft& draft, std::string_view piece,
                                              std::string_view edge, double share);
[[nodiscard]] std::optional<Point> at_notch(const Draft& draft, std::string_view piece,
                                            std::string_view notch);

}  // namespace coatwright
