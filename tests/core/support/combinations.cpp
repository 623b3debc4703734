#include "tests/core/support/combinations.h"

#include <algorithm>
#include <set>

#include "tests/core/support/population.h"

namespace coatwright::test {
namespace {

constexpr int kCandidates = 12;

struct Setting {
  size_t factor;
  int value;
  auto operator<=>(const Setting&) const = default;
};
using Pair = std::pair<Setting, Setting>;

int values_of(const ChoiceInfo* factor) { return static_cast<int>(factor->options.size()); }

std::set<Pair> all_pairs(const std::vector<const ChoiceInfo*>& factors) {
  std::set<Pair> out;
  for (size_t a = 0; a < factors.size(); ++a) {
    for (size_t b = a + 1; b < factors.size(); ++b) {
      for (int i = 0; i < values_of(factors[a]); ++i) {
        for (int k = 0; k < values_of(factors[b]); ++k) out.insert({{a, i}, {b, k}});
      }
    }
  }
  return out;
}

Pair pair_of(Setting a, Setting b) { return a.factor < b.factor ? Pair{a, b} : Pair{b, a}; }

// How many pairs not covered yet the setting makes with those that are set (value -1: not yet).
int covers(const std::vector<int>& set, Setting with, const std::set<Pair>& left) {
  int n = 0;
  for (size_t f = 0; f < set.size(); ++f) {
    if (f == with.factor || set[f] < 0) continue;
    n += left.contains(pair_of({f, set[f]}, with)) ? 1 : 0;
  }
  return n;
}

std::vector<int> candidate(const std::vector<const ChoiceInfo*>& factors,
                           const std::set<Pair>& left, Dice& dice) {
  std::vector<int> set(factors.size(), -1);
  const auto first = std::next(left.begin(), dice.below(static_cast<int>(left.size())));
  set[first->first.factor] = first->first.value;
  set[first->second.factor] = first->second.value;
  std::vector<size_t> order;
  for (size_t f = 0; f < factors.size(); ++f) {
    order.insert(order.begin() + dice.below(static_cast<int>(f) + 1), f);
  }
  for (const size_t f : order) {
    if (set[f] >= 0) continue;
    int best = -1;
    const int shift = dice.below(values_of(factors[f]));
    for (int i = 0; i < values_of(factors[f]); ++i) {
      const int value = (i + shift) % values_of(factors[f]);
      const int n = covers(set, {f, value}, left);
      if (n > best) best = n, set[f] = value;
    }
  }
  return set;
}

std::vector<Pair> pairs_in(const std::vector<int>& set) {
  std::vector<Pair> out;
  for (size_t a = 0; a < set.size(); ++a) {
    for (size_t b = a + 1; b < set.size(); ++b) out.push_back({{a, set[a]}, {b, set[b]}});
  }
  return out;
}

}  // namespace

std::vector<const ChoiceInfo*> factors_of(const StyleInfo& style) {
  std::vector<const ChoiceInfo*> out;
  for (const ChoiceInfo* c : choices_of(style)) {
    if (c->named()) out.push_back(c);
  }
  return out;
}

std::vector<Choices> pairwise(const StyleInfo& style, uint64_t seed) {
  const auto factors = factors_of(style);
  std::set<Pair> left = all_pairs(factors);
  Dice dice(seed);
  std::vector<Choices> out;
  while (!left.empty()) {
    std::vector<int> best;
    size_t most = 0;
    for (int i = 0; i < kCandidates; ++i) {
      const auto set = candidate(factors, left, dice);
      const auto pairs = pairs_in(set);
      const auto n = static_cast<size_t>(std::count_if(
          pairs.begin(), pairs.end(), [&](const Pair& p) { return left.contains(p); }));
      if (n > most) most = n, best = set;
    }
    for (const Pair& p : pairs_in(best)) left.erase(p);
    Choices choices;
    for (size_t f = 0; f < factors.size(); ++f) choices.set(*factors[f], best[f]);
    out.push_back(choices);
  }
  return out;
}

std::vector<Choices> all_combinations(const StyleInfo& style) {
  std::vector<Choices> out{{}};
  for (const ChoiceInfo* c : factors_of(style)) {
    for (int i = 0; i < values_of(c); ++i) {
      Choices one;
      one.set(*c, i);
      out.push_back(one);
    }
  }
  const auto pairs = pairwise(style);
  out.insert(out.end(), pairs.begin(), pairs.end());
  return out;
}

std::string told(const StyleInfo& style, const Choices& choices) {
  std::string out = style.id;
  for (const ChoiceInfo* c : factors_of(style)) {
    if (const auto v = choices.of(*c)) {
      out += std::string(" ") + c->id + "=" + c->options[static_cast<size_t>(*v)];
    }
  }
  return out;
}

std::string told(const Problem& p) {
  return std::string(code_name(p.code)) + " " + p.subject + " " + std::to_string(p.values[0]) +
         " " + std::to_string(p.values[1]);
}

}  // namespace coatwright::test
