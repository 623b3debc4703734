#include "core/rack/usual.h"

#include <algorithm>

#include "core/draft/options/ease.h"
#include "core/draft/options/finish.h"
#include "core/draft/options/panel.h"
#include "core/draft/options/sewing.h"
#include "core/rack/card_fields.h"

namespace coatwright {
namespace {

constexpr const ChoiceInfo* kEases[] = {&kChestEase, &kNeckEase, &kBreastEase, &kLegEase};
// Numbers of the cloth and of the hand that sews it: the same on every dog.
constexpr const ChoiceInfo* kOfNoDog[] = {&kSeamAllowance, &kLayersThickness};

}  // namespace

Usual usual_of(const Ticket& ticket, const Body& body) {
  Usual usual;
  Ticket& start = usual.start;
  start.unit = ticket.unit;
  start.style = ticket.style;
  start.print = ticket.print;
  start.cloths = ticket.cloths;
  start.quote = ticket.quote;
  for (const ChoiceInfo* choice : choice_table()) {
    const bool of_no_dog =
        std::find(std::begin(kOfNoDog), std::end(kOfNoDog), choice) != std::end(kOfNoDog);
    if (choice->named() || of_no_dog) start.choices.set(*choice, ticket.choices.of(*choice));
  }
  for (const ChoiceInfo* ease : kEases) {
    const std::optional<double> set = ticket.choices.of(*ease);
    const double sized = range_of(*ease, body).sized;
    if (set && sized > 0.0) usual.eases.set(*ease, std::min(*set / sized, kMostEasePart));
  }
  return usual;
}

Choices with_usual_eases(Choices choices, const Usual& usual, const StyleInfo& style,
                         const Body& body) {
  for (const ChoiceInfo* choice : choices_of(style)) {
    const std::optional<double> part = usual.eases.of(*choice);
    if (!part) continue;
    const ChoiceRange range = range_of(*choice, body);
    choices.set(*choice, std::clamp(*part * range.sized, range.lowest, range.highest));
  }
  return choices;
}

Wrong read_usual(const Json& json, const std::string& path, Usual& out) {
  using P = const std::string&;
  const auto read_eases = [&](const Json& v, P p) {
    std::vector<Field> fields;
    for (const ChoiceInfo* ease : kEases) {
      fields.push_back({ease->id, [ease, &out](const Json& one, P place) {
                          double part = 0.0;
                          Wrong wrong = read_number(one, place, 0.0, kMostEasePart, part);
                          if (!wrong) out.eases.set(*ease, part);
                          return wrong;
                        }});
    }
    return read_fields(v, p, fields);
  };
  const auto read_start = [&](const Json& v, P p) -> Wrong {
    Result<Ticket> start = read_ticket(v, p);
    if (!start) return start.problem();
    out.start = std::move(start.value());
    return std::nullopt;
  };
  return read_fields(json, path, {{"start", read_start, true}, {"eases", read_eases}});
}

OrderedJson usual_json(const Usual& usual) {
  OrderedJson out{{"start", ticket_json(usual.start)}};
  for (const ChoiceInfo* ease : kEases) {
    if (const auto part = usual.eases.of(*ease)) out["eases"][ease->id] = *part;
  }
  return out;
}

}  // namespace coatwright
