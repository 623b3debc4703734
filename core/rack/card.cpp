#include "core/rack/card.h"

#include <algorithm>

#include "core/rack/card_fields.h"

namespace coatwright {

namespace {

constexpr std::string_view kVersionKey = "coatwright-card";
constexpr double kLatestMs = 8.64e15;  // the last moment that a date of ECMAScript can hold
constexpr Place kPlaces[] = {Place::Rack, Place::Archive, Place::Bin};

Wrong read_place(const Json& json, const std::string& path, Place& out) {
  if (!json.is_string()) return at(path, Code::TicketFieldType, "text");
  const std::string& id = json.get_ref<const std::string&>();
  for (const Place place : kPlaces) {
    if (id == place_id(place)) return out = place, std::nullopt;
  }
  return at(path, Code::TicketChoiceUnknown, id);
}

Wrong read_version(const Json& json, const std::string& path) {
  double version = 0.0;
  if (Wrong wrong = read_number(json, path, 1.0, 1e9, version)) return wrong;
  if (version <= kCardVersion) return std::nullopt;
  return Problem{Code::TicketFromFuture, path, {version, static_cast<double>(kCardVersion)}};
}

}  // namespace

const char* place_id(Place place) {
  switch (place) {
    case Place::Rack:
      return "rack";
    case Place::Archive:
      return "archive";
    case Place::Bin:
      return "bin";
  }
  return "";
}

Wrong read_time(const Json& json, const std::string& path, UnixMs& out) {
  double number = 0.0;
  if (Wrong wrong = read_number(json, path, 0.0, kLatestMs, number)) return wrong;
  out = static_cast<UnixMs>(number);
  return std::nullopt;
}

Wrong read_list(const Json& json, const std::string& path, size_t most) {
  if (!json.is_array()) return at(path, Code::TicketFieldType, "list");
  if (json.size() <= most) return std::nullopt;
  return Problem{Code::NumberOutOfRange,
                 path,
                 {static_cast<double>(json.size()), 0.0, static_cast<double>(most)}};
}

Wrong read_tokens(const Json& json, const std::string& path, size_t most,
                  std::vector<SlipToken>& out) {
  if (Wrong wrong = read_list(json, path, most)) return wrong;
  for (size_t i = 0; i < json.size(); ++i) {
    std::string text;
    if (Wrong wrong = read_ticket_id(json[i], step(path, i), text)) return wrong;
    out.push_back(*token_from_text(text));
  }
  return std::nullopt;
}

OrderedJson tokens_json(const std::vector<SlipToken>& tokens) {
  OrderedJson out = OrderedJson::array();
  for (const SlipToken& token : tokens) out.push_back(token_text(token));
  return out;
}

namespace {

Wrong read_token(const Json& json, const std::string& path, SlipToken& out) {
  std::string text;
  if (Wrong wrong = read_ticket_id(json, path, text)) return wrong;
  out = *token_from_text(text);
  return std::nullopt;
}

// Version 1 of a card has the token alone.
Wrong read_slip(const Json& json, const std::string& path, MadeSlip& slip) {
  if (json.is_string()) return read_token(json, path, slip.token);
  using P = const std::string&;
  return read_fields(
      json, path,
      {
          {"token", [&](const Json& v, P p) { return read_token(v, p, slip.token); }, true},
          {"made", [&](const Json& v, P p) { return read_time(v, p, slip.made); }},
          {"answered", [&](const Json& v, P p) { return read_time(v, p, slip.answered); }},
      });
}

Wrong read_slips(const Json& json, const std::string& path, std::vector<MadeSlip>& out) {
  if (Wrong wrong = read_list(json, path, kMostSlips)) return wrong;
  for (size_t i = 0; i < json.size(); ++i) {
    if (Wrong wrong = read_slip(json[i], step(path, i), out.emplace_back())) return wrong;
  }
  return std::nullopt;
}

OrderedJson slips_json(const std::vector<MadeSlip>& slips) {
  OrderedJson out = OrderedJson::array();
  for (const MadeSlip& slip : slips) {
    OrderedJson one = {{"token", token_text(slip.token)}};
    if (slip.made != 0) one["made"] = slip.made;
    if (slip.answered != 0) one["answered"] = slip.answered;
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace

Result<Card> read_card(const Json& json, const std::string& path) {
  Card card;
  using P = const std::string&;
  const Wrong wrong = read_fields(
      json, path,
      {
          {kVersionKey, [](const Json& v, P p) { return read_version(v, p); }, true},
          {"id", [&](const Json& v, P p) { return read_ticket_id(v, p, card.id); }, true},
          {"place", [&](const Json& v, P p) { return read_place(v, p, card.place); }, true},
          {"changed", [&](const Json& v, P p) { return read_time(v, p, card.changed); }, true},
          {"slips", [&](const Json& v, P p) { return read_slips(v, p, card.slips); }},
          {"ticket",
           [&](const Json& v, P p) -> Wrong {
             Result<Ticket> ticket = read_ticket(v, p);
             if (!ticket) return ticket.problem();
             card.ticket = std::move(ticket.value());
             return std::nullopt;
           },
           true},
      });
  if (wrong) return *wrong;
  return card;
}

OrderedJson card_json(const Card& card) {
  OrderedJson out;
  out[std::string(kVersionKey)] = kCardVersion;
  out["id"] = card.id;
  out["place"] = place_id(card.place);
  out["changed"] = card.changed;
  if (!card.slips.empty()) out["slips"] = slips_json(card.slips);
  out["ticket"] = ticket_json(card.ticket);
  return out;
}

Result<Card> read_card(std::string_view json) {
  if (json.size() > kMostCardBytes) {
    return Problem{
        .code = Code::TicketTooLarge,
        .values = {static_cast<double>(json.size()), static_cast<double>(kMostCardBytes)}};
  }
  const Result<Json> tree = parse_json(json, kMostCardDepth);
  if (!tree) return tree.problem();
  return read_card(*tree, "");
}

std::string write_card(const Card& card) {
  return card_json(card).dump(-1, ' ', false, OrderedJson::error_handler_t::replace);
}

Card with_slip(Card card, const MadeSlip& slip) {
  if (card.slips.size() >= kMostSlips) card.slips.erase(card.slips.begin());
  card.slips.push_back(slip);
  return card;
}

const MadeSlip* slip_of(const Card& card, const SlipToken& token) {
  const auto slip = std::find_if(card.slips.begin(), card.slips.end(),
                                 [&](const MadeSlip& s) { return s.token == token; });
  return slip == card.slips.end() ? nullptr : &*slip;
}

}  // namespace coatwright
