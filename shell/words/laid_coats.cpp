#include "shell/words/laid_coats.h"

#include <algorithm>

#include "shell/words/ticket_words.h"

namespace coatwright {
namespace {

std::string dog_of(const Ticket& ticket, const Words& words) {
  return ticket.dog.empty() ? title_of(ticket, words) : ticket.dog;
}

// How many of the coats have this name, by the one way of naming them.
template <class Name>
auto same(const LaidCoats& coats, const std::string& name, Name&& name_of) {
  return std::count_if(coats.begin(), coats.end(),
                       [&](const LaidCoat& c) { return name_of(*c.ticket) == name; });
}

}  // namespace

Drafts drafts_of(const LaidCoats& coats) {
  Drafts drafts;
  for (const LaidCoat& coat : coats) drafts.push_back(coat.draft);
  return drafts;
}

std::vector<CoatName> coat_names(const LaidCoats& coats, const Words& words) {
  if (coats.size() < 2) return {};
  const auto dog = [&](const Ticket& t) { return dog_of(t, words); };
  const auto title = [&](const Ticket& t) { return title_of(t, words); };
  std::vector<CoatName> names;
  for (size_t n = 0; n < coats.size(); ++n) {
    const Ticket& ticket = *coats[n].ticket;
    std::string name = dog(ticket);
    if (same(coats, name, dog) > 1) {
      name = title(ticket);
      if (same(coats, name, title) > 1) name += " " + std::to_string(n + 1);
    }
    names.push_back({coats[n].key, std::move(name)});
  }
  return names;
}

std::string title_of(const LaidCoats& coats, const Words& words) {
  std::string out;
  for (const LaidCoat& coat : coats) {
    out += (out.empty() ? "" : " + ") + title_of(*coat.ticket, words);
  }
  return out;
}

}  // namespace coatwright
