// Coats that are handed from the studio to a program beside it: their tickets as texts, and made into
// patterns again there.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/base/words.h"
#include "core/lay/coat_lay.h"
#include "core/make/shopping.h"
#include "core/pattern/pattern.h"
#include "core/ticket/ticket.h"
#include "shell/words/laid_coats.h"

namespace coatwright {

struct CoatText {
  std::string id;      // on the rack; its coat's key in a lay
  std::string ticket;  // write_ticket()
  bool operator==(const CoatText&) const = default;
};

struct MadeCoat {
  std::string key;
  Ticket ticket;
  Tape tape;
  Pattern pattern;
};
// Or a sentence: why not; of several coats with the name of the one that cannot be made.
[[nodiscard]] std::variant<std::vector<MadeCoat>, std::string> made_coats(
    const std::vector<CoatText>& coats, const Words& words);

// ---- laid together on the cloths of the first ------------------------------------------------------

[[nodiscard]] LaidCoats laid_coats(const std::vector<MadeCoat>& coats);
[[nodiscard]] std::vector<LayCoat> lay_coats(const std::vector<MadeCoat>& coats);

// Every cloth, laid as the places by hand on the first ticket have it; nothing where it has none.
// That is how every lay is handed over, whoever has laid it.
[[nodiscard]] std::string lay_key(ClothUse use, bool laminated);  // "shell-laminated"
struct HandedLay {
  LayOrder order;
  std::optional<LaidCloth> laid = {};
};
[[nodiscard]] std::vector<HandedLay> handed_lays(const std::vector<MadeCoat>& coats);

}  // namespace coatwright
