#include "shell/words/laid_coats.h"

#include <algorithm>

#include "core/base/utf8.h"
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

namespace {

// The blocks of the scripts that run right to left (Unicode's DerivedBidiClass: R and AL by default).
bool runs_left(char32_t c) {
  return (c >= 0x590 && c <= 0x8FF) || (c >= 0xFB1D && c <= 0xFDFF) ||
         (c >= 0xFE70 && c <= 0xFEFC) || (c >= 0x10800 && c <= 0x10FFF) ||
         (c >= 0x1E800 && c <= 0x1EFFF);
}

// Between marks that keep its direction to itself (first strong isolate, Unicode Annex 9), if it has
// letters that run right to left: else the end of one title and the beginning of the next change
// places, and each dog stands beside another's coat.
std::string set_apart(const std::string& title) {
  for (size_t at = 0; at < title.size(); at += character_at(title, at).bytes) {
    if (runs_left(character_at(title, at).point)) return "\u2068" + title + "\u2069";
  }
  return title;
}

}  // namespace

std::string title_of(const LaidCoats& coats, const Words& words) {
  std::string out;
  for (const LaidCoat& coat : coats) {
    const std::string title = title_of(*coat.ticket, words);
    out += (out.empty() ? "" : " + ") + (coats.size() > 1 ? set_apart(title) : title);
  }
  return out;
}

}  // namespace coatwright
