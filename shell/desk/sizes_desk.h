// The run of sizes of the open ticket, while it is looked at: made again only when what it is made
// from has changed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/sizes/nest.h"
#include "core/sizes/size_run.h"

namespace coatwright::studio {

struct SizeRun {
  struct Size {
    Ticket ticket;  // its dog is the size's name
    bool wanted = true;
    std::optional<Problem> refusal = {};  // why it cannot be drafted
  };
  std::vector<Size> sizes = {};
  std::optional<Problem> problem = {};  // of what was typed
  Drawing nest = {};                    // of those that are wanted
  // The tickets of those that are wanted and can be drafted.
  [[nodiscard]] std::vector<Ticket> wanted() const;
};

class SizesDesk {
 public:
  explicit SizesDesk(const Words& words) : words_(words) {}
  const SizeRun& update(const Ticket& ticket, const SizesWanted& wanted);
  [[nodiscard]] const SizeRun& now() const { return now_; }

 private:
  const Words& words_;
  std::optional<Ticket> ticket_;
  SizesWanted wanted_;
  SizeRun now_;
};

}  // namespace coatwright::studio
