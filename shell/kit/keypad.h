// The keypad for readings, and what its keys do to the number typed so far.
#pragma once

#include <string>
#include <string_view>

#include "shell/kit/frame.h"

namespace coatwright::studio {

enum class PadKind { Inches, Centimetres, Weight };

// The entry after a key: a figure, ".", "back", a fraction ("3/8", which replaces the one there),
// or "+1/16" (a sixteenth more, up to 15/16). Keys that make no sense leave it as it is.
[[nodiscard]] std::string edited(const std::string& entry, std::string_view key);

// The entry as it is shown: "27 7/8" with a set fraction.
[[nodiscard]] std::string set_entry(const std::string& entry);

// Four rows of keys, each at least as high as a fingertip.
[[nodiscard]] float keypad_height(const Frame& f, float key);
void keypad(Frame& f, const Box& box, PadKind kind);

// A key that shows two units, the one that is on marked; true when it was pressed. On the table or
// on paper.
bool unit_switch(Frame& f, const std::string& id, const Box& box, const std::string& inch,
                 const std::string& metric, bool on_table);

}  // namespace coatwright::studio
