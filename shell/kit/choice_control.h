// A choice of the cut as a control: its range and step, its value in words, and how it is set.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

// In the ticket's unit: a slider stops at sixteenths of an inch or at millimetres.
[[nodiscard]] double choice_step(const ChoiceInfo& c, Unit unit);
[[nodiscard]] std::string choice_words(const Frame& f, const ChoiceInfo& c, double value);
// What the ticket's coat is drafted with, or would be.
[[nodiscard]] double chosen_value(const Frame& f, const ChoiceInfo& c);
// The range for the present body; nothing while there is none.
[[nodiscard]] std::optional<ChoiceRange> choice_range(const Frame& f, const ChoiceInfo& c);

// Sets the choice to the step nearest to `value`, inside its range.
void set_choice(Frame& f, const ChoiceInfo& c, double value);

// Adds a slider for the choice that is drawn by the caller (a board handle); keyboard and mirror
// set it as they set any slider.
void add_choice_slider(Frame& f, const std::string& id, const ChoiceInfo& c, const Box& box,
                       Travel travel);

// A small drawing of a named option's line.
void draw_option_line(Frame& f, const Box& box, const ChoiceInfo& c, int option);

}  // namespace coatwright::studio
