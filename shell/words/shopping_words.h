// The shopping list in words, the same on the screen and on paper.
#pragma once

#include <string>
#include <vector>

#include "core/base/words.h"
#include "core/make/shopping.h"
#include "core/ticket/ticket.h"
#include "shell/words/laid_coats.h"

namespace coatwright {

struct ShoppingRow {
  std::string ware;    // "Shell cloth, 44 in wide"
  std::string amount;  // "1 1/8 yd"
  std::string note;    // what it is for, or how it is had
};
// Cloth, laminate, notions, thread, needles. `cloths`: the lays of the coats on their cloths.
[[nodiscard]] std::vector<ShoppingRow> shopping_rows(const LaidCoats& coats,
                                                     const std::vector<LaidCloth>& cloths,
                                                     const Words& words);

// Of the rows above: cloth and laminate alone; thread and needles alone.
[[nodiscard]] std::vector<ShoppingRow> cloth_rows(const Ticket& ticket,
                                                  const std::vector<LaidCloth>& cloths,
                                                  const Words& words);
[[nodiscard]] std::vector<ShoppingRow> thread_rows(const LaidCoats& coats, const Words& words);

// One thing that is cut for a step: "Webbing, 1 in wide", "2 × 24 1/2 in", what it is for.
[[nodiscard]] ShoppingRow notion_row(const Notion& notion, Unit unit, const Words& words);

// A length as shops say it: yards in eighths, or metres. Whole steps of as_shops_cut().
[[nodiscard]] std::string yardage(double mm, Unit unit, const Words& words);

// What of a cloth is bought: a length, or nothing, since there is a rest.
[[nodiscard]] std::string bought(const ClothLine& line, Unit unit, const Words& words);
// Whether a rest is long enough, and what it lacks or what stays over.
[[nodiscard]] std::string rest_answer(const ClothLine& line, Unit unit, const Words& words);

// How wide a binding or its strip is, as fine as the steps say it.
[[nodiscard]] std::string strip_width(double mm, Unit unit);

// "Hook-and-loop, 1 in wide".
[[nodiscard]] std::string notion_title(const ShoppingLine& line, Unit unit, const Words& words);

// How much of it is bought: a length, so many pieces where it is sold in pieces, or a number.
[[nodiscard]] std::string ware_amount(const ShoppingLine& line,
                                      const std::optional<WarePrice>& price, Unit unit,
                                      const Words& words);

// "Rain stripe (Shell cloth)", or "Shell cloth" for a cloth without a name.
[[nodiscard]] std::string cloth_title(const Cloth& cloth, const Words& words);

}  // namespace coatwright
