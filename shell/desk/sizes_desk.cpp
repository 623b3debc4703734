#include "shell/desk/sizes_desk.h"

#include <algorithm>
#include <utility>

#include "core/base/utf8.h"
#include "core/ticket/pattern_of.h"

namespace coatwright::studio {
namespace {

Result<std::vector<DogSize>> sizes_as_typed(const Ticket& ticket, const SizesWanted& wanted,
                                            const Words& words) {
  const std::string& typed = wanted.typed[static_cast<size_t>(wanted.by)];
  if (wanted.by == SizesBy::Table) return sizes_of_table(typed, ticket.unit, words);
  const SizeBy by = wanted.by == SizesBy::Chest ? SizeBy::Chest : SizeBy::Weight;
  return sizes_of_shape(ticket, by, typed);
}

SizeRun made(const Ticket& ticket, const SizesWanted& wanted, const Words& words) {
  SizeRun out;
  if (trimmed(wanted.typed[static_cast<size_t>(wanted.by)]).empty()) return out;
  const Result<std::vector<DogSize>> sizes = sizes_as_typed(ticket, wanted, words);
  if (!sizes) {
    out.problem = sizes.problem();
    return out;
  }
  const auto is_left = [&](const std::string& name) {
    return std::find(wanted.left.begin(), wanted.left.end(), name) != wanted.left.end();
  };
  std::vector<SizedPattern> patterns;
  for (const DogSize& size : *sizes) {
    SizeRun::Size& one =
        out.sizes.emplace_back(SizeRun::Size{ticket_of(ticket, size), !is_left(size.name)});
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

const SizeRun& SizesDesk::update(const Ticket& ticket, const SizesWanted& wanted) {
  if (ticket_ == ticket && wanted_ == wanted) return now_;
  ticket_ = ticket;
  wanted_ = wanted;
  now_ = made(ticket, wanted, words_);
  return now_;
}

}  // namespace coatwright::studio
