#include "core/rack/backup.h"

#include <algorithm>

#include "core/rack/card_fields.h"

namespace coatwright {

namespace {

constexpr std::string_view kVersionKey = "coatwright-rack";
constexpr size_t kHeadBytes = 64;  // the version key stands at the head of every backup

Wrong read_version(const Json& json, const std::string& path) {
  double version = 0.0;
  if (Wrong wrong = read_number(json, path, 1.0, 1e9, version)) return wrong;
  if (version == kBackupVersion) return std::nullopt;
  return Problem{Code::RackFromFuture, path, {version, static_cast<double>(kBackupVersion)}};
}

Wrong read_cards(const Json& json, const std::string& path, Backup& backup) {
  if (!json.is_array()) return at(path, Code::TicketFieldType, "list");
  if (json.size() > kMostCards) {
    return Problem{Code::RackTooMany,
                   path,
                   {static_cast<double>(json.size()), static_cast<double>(kMostCards)}};
  }
  for (size_t i = 0; i < json.size(); ++i) {
    Result<Card> card = read_card(json[i], step(path, i));
    if (card) {
      backup.cards.push_back(std::move(card.value()));
    } else {
      backup.unreadable.push_back({Level::Check, card.problem()});
    }
  }
  return std::nullopt;
}

const Card* with_id(const std::vector<Card>& cards, const std::string& id) {
  const auto card =
      std::find_if(cards.begin(), cards.end(), [&](const Card& c) { return c.id == id; });
  return card == cards.end() ? nullptr : &*card;
}

}  // namespace

std::string write_backup(const std::vector<Card>& cards, UnixMs now, const Shelf& shelf) {
  std::string out = "{\"" + std::string(kVersionKey) + "\": " + std::to_string(kBackupVersion) +
                    ", \"saved\": " + std::to_string(now) + ", \"tickets\": [";
  for (size_t i = 0; i < cards.size(); ++i) {
    out += i == 0 ? "\n" : ",\n";
    out += write_card(cards[i]);
  }
  out += "\n]";
  if (!shelf.empty()) {
    out += ", \"shelf\": " +
           shelf_json(shelf).dump(-1, ' ', false, OrderedJson::error_handler_t::replace);
  }
  return out + "}\n";
}

bool looks_like_backup(std::string_view json) {
  const std::string key = "\"" + std::string(kVersionKey) + "\"";
  return json.substr(0, kHeadBytes).find(key) != std::string_view::npos;
}

Result<Backup> read_backup(std::string_view json) {
  if (json.size() > kMostBackupBytes) {
    return Problem{
        .code = Code::RackTooLarge,
        .values = {static_cast<double>(json.size()), static_cast<double>(kMostBackupBytes)}};
  }
  const Result<Json> tree = parse_json(json, kMostCardDepth + 2);
  if (!tree) return tree.problem();
  const std::string key(kVersionKey);
  if (!tree->is_object() || !tree->contains(key)) return at("", Code::RackNotRack);
  // First the version: a later one may have fields that this one lacks.
  if (Wrong wrong = read_version((*tree)[key], step("", key))) return *wrong;
  Backup backup;
  using P = const std::string&;
  const Wrong wrong = read_fields(
      *tree, "",
      {
          {kVersionKey, [](const Json&, P) -> Wrong { return std::nullopt; }, true},
          {"saved", [&](const Json& v, P p) { return read_time(v, p, backup.saved); }, true},
          {"tickets", [&](const Json& v, P p) { return read_cards(v, p, backup); }, true},
          {"shelf", [&](const Json& v, P p) { return read_shelf(v, p, backup.shelf); }},
      });
  if (wrong) return *wrong;
  return backup;
}

PutBack put_back(const std::vector<Card>& rack, const std::vector<Card>& backup,
                 const std::function<std::string()>& new_id) {
  PutBack out;
  for (const Card& card : backup) {
    const Card* twin = with_id(out.hung, card.id);  // twice in one file
    if (twin == nullptr) twin = with_id(rack, card.id);
    if (twin == nullptr) {
      out.hung.push_back(card);
    } else if (twin->ticket != card.ticket) {
      out.hung.push_back(card);
      out.hung.back().id = new_id();
    } else if (twin->place == Place::Bin && card.place != Place::Bin) {
      Card back = *twin;
      back.place = card.place;
      out.hung.push_back(std::move(back));
    } else {
      ++out.there_already;
    }
  }
  return out;
}

}  // namespace coatwright
