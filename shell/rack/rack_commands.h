// What can be done to the rack from its screen, as values.
#pragma once

#include <string>

#include "core/rack/rack.h"

namespace coatwright::studio {

enum class RackDeed {
  Open,
  New,
  Copy,
  Hang,           // `tickets`, beside the others
  Move,           // to `place`
  Erase,          // for good, out of the bin
  Sort,           // by `order`
  Backup,         // saves one, with photographs or without
  TakeBack,       // of a backup's tickets that differ, what was answered of each
  LeaveBack,      // none of them
  SaveUnread,     // saves what cannot be read as a file
  ForgetMissing,  // what the mark tells of
  Shelve,         // `cloth`
  Unshelve,       // `cloth`
  UsePrinter,     // of the name `id`; empty: one that is true
  KeepPrinter,    // `printer`, new or measured
  ForgetPrinter,  // of the name `id`
  KeepUsual,      // `usual`; nothing: there is none any more
  KeepSizes,      // `sizes`
};

struct RackCommand {
  RackDeed deed = RackDeed::Open;
  std::string id = {};  // of the ticket that it is done to
  Place place = Place::Rack;
  RackOrder order = RackOrder::Changed;
  Cloth cloth = {};
  Printer printer = {};
  std::optional<Usual> usual = {};
  SizesWanted sizes = {};
  bool photographs = false;
  std::vector<Ticket> tickets = {};
};

}  // namespace coatwright::studio
