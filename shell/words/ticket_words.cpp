#include "shell/words/ticket_words.h"

#include "core/lay/coat_lay.h"

namespace coatwright {

std::string title_of(const Ticket& ticket, const Words& words) {
  const std::string coat = ticket.name.empty() ? words("style." + ticket.style) : ticket.name;
  return ticket.dog.empty() ? coat : ticket.dog + ", " + coat;
}

std::array<bool, kLayerCount> one_way_layers(const Ticket& ticket) {
  std::array<bool, kLayerCount> out{};
  for (int i = 0; i < kLayerCount; ++i) {
    const std::optional<ClothUse> use = cloth_use_of(static_cast<Layer>(i));
    out[static_cast<size_t>(i)] = use && cloth_of(ticket, *use).one_way;
  }
  return out;
}

DrawingChoices drawing_choices(const Ticket& ticket) {
  DrawingChoices choices;
  choices.lengths.unit = ticket.unit;
  choices.one_way = one_way_layers(ticket);
  choices.ticket_name = ticket.dog.empty() ? ticket.name : ticket.dog;
  return choices;
}

}  // namespace coatwright
