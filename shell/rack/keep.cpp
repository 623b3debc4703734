#include "shell/rack/keep.h"

#include <nlohmann/json.hpp>

namespace coatwright::studio {

using Json = nlohmann::json;

std::string keep_json(const Keep& keep) {
  const Json json = {{"id", keep.id},     {"card", keep.card},   {"lines", keep.lines},
                     {"anew", keep.anew}, {"aside", keep.aside}, {"moved", keep.moved}};
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Stored read_stored(std::string_view text) {
  const Json json = Json::parse(text.begin(), text.end(), nullptr, false);
  Stored out;
  if (!json.is_object()) return out;
  const auto string_of = [](const Json& value) {
    return value.is_string() ? value.get<std::string>() : std::string();
  };
  if (json.contains("notes")) out.notes = string_of(json["notes"]);
  if (json.contains("before")) out.before = string_of(json["before"]);
  if (json.contains("cards") && json["cards"].is_array()) {
    for (const Json& card : json["cards"]) out.cards.push_back(string_of(card));
  }
  return out;
}

}  // namespace coatwright::studio
