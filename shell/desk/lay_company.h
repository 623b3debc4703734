// The coats that are laid together with the open ticket's, as the rack has them now.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/lay/coat_lay.h"
#include "core/pattern/pattern.h"
#include "core/ticket/ticket.h"
#include "shell/rack/rack.h"
#include "shell/words/laid_coats.h"

namespace coatwright::studio {

struct Companion {
  std::string id;  // on the rack, and its coat's key in the lay
  Ticket ticket = {};
  bool gone = false;  // off the rack, or in its bin
  std::optional<Pattern> pattern = {};
  std::optional<Problem> refusal = {};  // it cannot be drafted, or not laid on one of the cloths
  int drafted = 0;                      // tells one pattern of it from another

  [[nodiscard]] bool laid() const { return !gone && pattern && !refusal; }
};

class LayCompany {
 public:
  // Drafts and tries anew what has changed. True if other pieces are to be laid than before.
  bool update(const Ticket& ticket, const Rack& rack);
  [[nodiscard]] const std::vector<Companion>& all() const { return all_; }
  // The pieces of all coats that are laid, the ticket's own first.
  [[nodiscard]] std::vector<LayCoat> coats(const CutSet& own) const;

 private:
  void take(const std::string& id, const Rack& rack, std::vector<Companion>& into);
  void try_on_cloths(Companion& one) const;

  std::vector<Companion> all_;
  std::array<Cloth, kClothUses> cloths_;
  bool trial_ = false;
  int drafts_ = 0;
  std::vector<std::pair<std::string, int>> laid_;  // and which pattern of it
};

}  // namespace coatwright::studio
