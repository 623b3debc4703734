#include "shell/desk/lay_company.h"

#include <algorithm>

#include "core/ticket/pattern_of.h"

namespace coatwright::studio {
namespace {

// Whether both are drafted alike, whatever else stands on them.
bool drafted_alike(const Ticket& a, const Ticket& b) {
  const auto of_a = tape_of(a), of_b = tape_of(b);
  return of_a && of_b && *of_a == *of_b && a.choices == b.choices && a.style == b.style &&
         a.fittings == b.fittings;
}

}  // namespace

void LayCompany::take(const std::string& id, const Rack& rack, std::vector<Companion>& into) {
  const auto before =
      std::find_if(all_.begin(), all_.end(), [&](const Companion& c) { return c.id == id; });
  Companion one = before == all_.end() ? Companion{.id = id} : std::move(*before);
  const bool known = before != all_.end() && !one.gone;
  const Card* card = id == rack.open_id() ? nullptr : rack.card(id);
  one.gone = card == nullptr || card->place == Place::Bin;
  if (one.gone || (known && one.ticket == card->ticket)) {
    into.push_back(std::move(one));
    return;
  }
  const bool alike = known && one.pattern && drafted_alike(one.ticket, card->ticket);
  one.ticket = card->ticket;
  if (!alike) {
    one.pattern.reset();
    one.refusal.reset();
    one.drafted = ++drafts_;
    Checked<Pattern> made = pattern_of(one.ticket);
    if (made.result) {
      one.pattern = std::move(made.result.value());
      try_on_cloths(one);
    } else {
      one.refusal = made.result.problem();
    }
  }
  into.push_back(std::move(one));
}

// By itself, so that it is known which coat a cloth is too narrow for.
void LayCompany::try_on_cloths(Companion& one) const {
  if (!one.pattern) return;
  one.refusal.reset();
  const std::vector<LayCoat> alone = {{.key = one.id, .cut = &one.pattern->cut}};
  for (const LayOrder& order : lay_orders(alone, trial_)) {
    const auto search = LaySearch::begin(order, cloths_[static_cast<size_t>(order.use)], 1);
    if (search) continue;
    one.refusal = search.problem();
    return;
  }
}

bool LayCompany::update(const Ticket& ticket, const Rack& rack) {
  std::array<Cloth, kClothUses> cloths;
  for (int use = 0; use < kClothUses; ++use) {
    cloths[static_cast<size_t>(use)] = cloth_of(ticket, static_cast<ClothUse>(use));
  }
  const bool trial = ticket.of(ClothUse::Trial).has_value();
  if (cloths != cloths_ || trial != trial_) {
    cloths_ = cloths;
    trial_ = trial;
    for (Companion& one : all_) try_on_cloths(one);
  }
  std::vector<Companion> now;
  for (const std::string& id : ticket.laid_with) take(id, rack, now);
  all_ = std::move(now);
  std::vector<std::pair<std::string, int>> laid;
  for (const Companion& one : all_) {
    if (one.laid()) laid.emplace_back(one.id, one.drafted);
  }
  if (laid == laid_) return false;
  laid_ = std::move(laid);
  return true;
}

std::vector<LayCoat> LayCompany::coats(const CutSet& own) const {
  std::vector<LayCoat> coats = {{.key = {}, .cut = &own}};
  for (const Companion& one : all_) {
    if (one.laid()) coats.push_back({.key = one.id, .cut = &one.pattern->cut});
  }
  return coats;
}

}  // namespace coatwright::studio
