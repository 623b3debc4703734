#include "shell/desk/sizes_desk.h"

#include <utility>

#include "core/base/utf8.h"
#include "core/ticket/pattern_of.h"

namespace coatwright::studio {
namespace {

Result<std::vector<DogSize>> sizes_as_typed(const Ticket& ticket, const SizesLook& look,
                                            const Words& words) {
  const std::string& typed = look.typed[static_cast<size_t>(look.by)];
  if (look.by == SizesBy::Table) return sizes_of_table(typed, ticket.unit, words);
  const SizeBy by = look.by == SizesBy::Chest ? SizeBy::Chest : SizeBy::Weight;
  return sizes_of_shape(ticket, by, typed);
}

SizeRun made(const Ticket& ticket, const SizesLook& look, const Words& words) {
  SizeRun out;
  if (trimmed(look.typed[static_cast<size_t>(look.by)]).empty()) return out;
  const Result<std::vector<DogSize>> sizes = sizes_as_typed(ticket, look, words);
  if (!sizes) {
    out.problem = sizes.problem();
    return out;
  }
  std::vector<SizedPattern> patterns;
  for (const DogSize& size : *sizes) {
    SizeRun::Size& one = out.sizes.emplace_back(
        SizeRun::Size{ticket_of(ticket, size), !look.left.contains(size.name)});
    Checked<Pattern> pattern = pattern_of(one.ticket);
    if (!pattern.result) {
      one.refusal = pattern.result.problem();
    } else if (one.wanted) {
      patterns.push_back({size.name, std::move(pattern.result.value())});
    }
  }
  if (!patterns.empty()) out.nest = draw_nest(patterns, words);
  return out;
}

}  // namespace

std::vector<Ticket> SizeRun::wanted() const {
  std::vector<Ticket> out;
  for (const Size& one : sizes) {
    if (one.wanted && !one.refusal) out.push_back(one.ticket);
  }
  return out;
}

const SizeRun& SizesDesk::update(const Ticket& ticket, const SizesLook& look) {
  if (ticket_ == ticket && look_ == look) return now_;
  ticket_ = ticket;
  look_ = look;
  now_ = made(ticket, look, words_);
  return now_;
}

}  // namespace coatwright::studio
