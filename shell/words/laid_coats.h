// The coats of one lay, and the words that tell them apart.
#pragma once

#include <string>
#include <vector>

#include "core/base/words.h"
#include "core/draw/lay_drawing.h"
#include "core/make/shopping.h"
#include "core/ticket/ticket.h"

namespace coatwright {

struct LaidCoat {
  std::string key;  // LaidPiece::coat
  const Ticket* ticket = nullptr;
  const Draft* draft = nullptr;
};
// The first is that of the ticket whose cloths they are all cut from; its unit is the lay's.
using LaidCoats = std::vector<LaidCoat>;

// A coat that was to be laid with the others and is not.
struct LeftOut {
  std::string coat;
  std::string why;  // a sentence
  bool operator==(const LeftOut&) const = default;
};

[[nodiscard]] Drafts drafts_of(const LaidCoats& coats);

// What stands on the pieces of each coat: the dog's name; where two have the same, the coat's too;
// where that does not tell them apart either, a number. Nothing for a coat that is laid by itself.
[[nodiscard]] std::vector<CoatName> coat_names(const LaidCoats& coats, const Words& words);

// "Bosun, Harbour coat + Gale, Wrap coat".
[[nodiscard]] std::string title_of(const LaidCoats& coats, const Words& words);

}  // namespace coatwright
