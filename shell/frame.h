// What a panel gets: what to show, where to draw it, and where to put what the maker wants.
#pragma once

#include <vector>

#include "core/base/words.h"
#include "shell/commands.h"
#include "shell/derived.h"
#include "shell/effects.h"
#include "shell/history.h"
#include "shell/keeping.h"
#include "shell/lay_desk.h"
#include "shell/layout.h"
#include "shell/painter.h"
#include "shell/rack.h"
#include "shell/rack_commands.h"
#include "shell/site.h"
#include "shell/slip_commands.h"
#include "shell/thumbnails.h"
#include "shell/ui.h"
#include "shell/view_state.h"

namespace coatwright::studio {

// Today as the shell's clock has it; core has none.
struct Today {
  BirthMonth month;
  std::string words;  // "24 November 2026"
};

struct Frame {
  const Ticket& ticket;
  const Rack& rack;
  const History& history;
  const Derived& derived;
  const Words& words;
  const Palette& colours;
  const Layout& layout;
  const Today& today;
  double now_ms;
  bool device_keyboard;  // text fields are HTML fields, not ours
  Keeping keeping;       // what becomes of what the store holds
  const Site& site;

  ViewState& view;
  Ui& ui;
  Painter& paint;
  std::vector<Command>& commands;
  std::vector<RackCommand>& rack_commands;
  std::vector<SlipCommand>& slip_commands;
  Thumbnails& thumbnails;
  LayDesk& lay;
  Effects& effects;
  bool& again;  // set by what moves by itself: another frame is wanted

  [[nodiscard]] LengthStyle lengths() const { return {.unit = ticket.unit}; }
  [[nodiscard]] std::string length(double mm) const {
    return format_length(Length::mm(mm), lengths());
  }
};

}  // namespace coatwright::studio
