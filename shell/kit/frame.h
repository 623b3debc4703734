// What a panel gets: what to show, where to draw it, and where to put what the maker wants.
#pragma once

#include <vector>

#include "core/base/words.h"
#include "shell/desk/derived.h"
#include "shell/desk/effects.h"
#include "shell/desk/lay_desk.h"
#include "shell/desk/photo_desk.h"
#include "shell/desk/site.h"
#include "shell/desk/slip_commands.h"
#include "shell/desk/thumbnails.h"
#include "shell/desk/today.h"
#include "shell/desk/view_state.h"
#include "shell/kit/layout.h"
#include "shell/kit/painter.h"
#include "shell/kit/ui.h"
#include "shell/rack/commands.h"
#include "shell/rack/history.h"
#include "shell/rack/keeping.h"
#include "shell/rack/rack.h"
#include "shell/rack/rack_commands.h"
#include "shell/rack/restore.h"

namespace coatwright::studio {

struct Frame {
  const Ticket& ticket;
  const Rack& rack;
  const History& history;
  const Saving* saving;    // a backup that is being written, or null
  const Restore* restore;  // one that is being put back, or null
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
  PhotoDesk& photos;
  SizesDesk& sizes;
  Effects& effects;
  bool& again;  // set by what moves by itself: another frame is wanted

  [[nodiscard]] LengthStyle lengths() const { return {.unit = ticket.unit}; }
  [[nodiscard]] std::string length(double mm) const {
    return format_length(Length::mm(mm), lengths());
  }
};

}  // namespace coatwright::studio
