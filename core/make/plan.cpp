#include "core/make/plan.h"

#include <algorithm>
#include <array>
#include <tuple>

#include "core/lay/coat_lay.h"
#include "core/make/care.h"
#include "core/make/facts.h"
#include "core/make/trial.h"

namespace coatwright {
namespace {

// What an operation has to do with something that can be true.
enum class Part { Gives, Needs, Ends };
struct Stake {
  StateOf fact;
  Part part;
  size_t operation;
};

using Order = std::vector<std::vector<size_t>>;  // for each operation those that come after it

void comes_before(Order& after, size_t a, size_t b) {
  if (a != b) after[a].push_back(b);
}

// All that give, need and end one fact stand beside each other.
Order order_of(const std::vector<Stake>& stakes, size_t count) {
  Order after(count);
  for (size_t from = 0; from < stakes.size();) {
    size_t to = from;
    while (to < stakes.size() && stakes[to].fact == stakes[from].fact) ++to;
    for (size_t a = from; a < to; ++a) {
      for (size_t b = a + 1; b < to; ++b) {
        if (stakes[a].part < stakes[b].part) {
          comes_before(after, stakes[a].operation, stakes[b].operation);
        }
      }
    }
    from = to;
  }
  for (std::vector<size_t>& list : after) {
    std::sort(list.begin(), list.end());
    list.erase(std::unique(list.begin(), list.end()), list.end());
  }
  return after;
}

const char* wash_sentence(ClothUse use) {
  switch (use) {
    case ClothUse::Shell:
      return "wash-shell";
    case ClothUse::Insulation:
      return "wash-insulation";
    case ClothUse::Lining:
      return "wash-lining";
    case ClothUse::Laminate:
    case ClothUse::Trial:
      break;
  }
  return nullptr;
}

// Cloth shrinks before it is cut, or the coat does afterwards.
void add_wash(const Draft& draft, std::span<const Cloth> cloths, Operations& out) {
  Operation wash{Deed::Wash, Stage::Prepare, "wash-cloth"};
  for (const Cloth& cloth : cloths) {
    const char* const sentence = wash_sentence(cloth.use);
    if (sentence == nullptr || cloth.shrinkage <= 0.0) continue;
    const size_t before = wash.pieces.size();
    for (const Piece& p : draft.pieces) {
      if (cloth_use_of(p.layer) == cloth.use) wash.pieces.push_back(p.id);
    }
    if (wash.pieces.size() > before) wash.how.push_back({sentence});
  }
  if (!wash.pieces.empty()) out.push_back(std::move(wash));
}

}  // namespace

Operations ordered(const Draft& draft, Operations operations) {
  const size_t count = operations.size();
  std::vector<Stake> stakes;
  for (size_t i = 0; i < count; ++i) {
    const Facts facts = facts_of(draft, operations[i]);
    for (const StateOf& f : facts.gives) stakes.push_back({f, Part::Gives, i});
    for (const StateOf& f : facts.needs) stakes.push_back({f, Part::Needs, i});
    for (const StateOf& f : facts.ends) stakes.push_back({f, Part::Ends, i});
  }
  std::sort(stakes.begin(), stakes.end(), [](const Stake& a, const Stake& b) {
    return std::tie(a.fact, a.part, a.operation) < std::tie(b.fact, b.part, b.operation);
  });
  const Order after = order_of(stakes, count);
  std::vector<int> waits(count, 0);
  for (const std::vector<size_t>& list : after) {
    for (const size_t b : list) ++waits[b];
  }
  std::vector<bool> taken(count, false);
  Operations out;
  while (out.size() < count) {
    const auto rank = [&](size_t i) {
      return std::tuple(waits[i] > 0, operations[i].stage, operations[i].deed, i);
    };
    size_t next = count;
    for (size_t i = 0; i < count; ++i) {
      if (!taken[i] && (next == count || rank(i) < rank(next))) next = i;
    }
    taken[next] = true;
    for (const size_t b : after[next]) --waits[b];
    out.push_back(operations[next]);
  }
  return out;
}

Plan make_plan(const Draft& draft, std::span<const Cloth> cloths) {
  Operations all = draft.operations;
  add_wash(draft, cloths, all);
  for (Operation& o : all) add_cloth_care(draft, cloths, o);
  Plan out{ordered(draft, std::move(all)), trial_of(draft)};
  for (Operation& o : out.operations) {
    if (o.deed != Deed::Trial) continue;
    o.pieces = out.trial.front().pieces;
    for (const Operation& t : out.trial) o.how.insert(o.how.end(), t.how.begin(), t.how.end());
  }
  return out;
}

}  // namespace coatwright
