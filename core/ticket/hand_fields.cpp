#include "core/ticket/hand_fields.h"

#include <algorithm>

namespace coatwright {
namespace {

Wrong read_place(const Json& json, const std::string& path, HandPlace& out) {
  using P = const std::string&;
  return read_fields(
      json, path,
      {
          {"piece", [&](const Json& v, P p) { return read_piece_id(v, p, out.piece); }, true},
          {"coat", [&](const Json& v, P p) { return read_ticket_id(v, p, out.coat); }},
          {"copy",
           [&](const Json& v, P p) { return read_count(v, p, 0, kMostCopyNumber, out.copy); }},
          {"turned", [&](const Json& v, P p) { return read_flag(v, p, out.turned); }},
          {"x",
           [&](const Json& v, P p) {
             return read_number(v, p, -kFarthestPlace, kFarthestPlace, out.at.x);
           },
           true},
          {"y",
           [&](const Json& v, P p) {
             return read_number(v, p, -kFarthestPlace, kFarthestPlace, out.at.y);
           },
           true},
      });
}

Wrong read_places(const Json& json, const std::string& path, std::vector<HandPlace>& out) {
  if (!json.is_array()) return at(path, Code::TicketFieldType, "list");
  if (json.size() > kMostHandPlaces) {
    return Problem{
        .code = Code::NumberOutOfRange,
        .subject = path,
        .values = {static_cast<double>(json.size()), 0.0, static_cast<double>(kMostHandPlaces)}};
  }
  out.resize(json.size());
  for (size_t i = 0; i < json.size(); ++i) {
    const std::string place = step(path, i);
    if (Wrong wrong = read_place(json[i], place, out[i])) return wrong;
    for (size_t k = 0; k < i; ++k) {
      if (same_copy(out[k], out[i])) return at(place, Code::TicketFieldTwice);
    }
  }
  return std::nullopt;
}

Wrong read_lay(const Json& json, const std::string& path, HandLay& out) {
  using P = const std::string&;
  const auto read_use = [&](const Json& v, P p) -> Wrong {
    if (!v.is_string()) return at(p, Code::TicketFieldType, "text");
    const std::string& id = v.get_ref<const std::string&>();
    const std::optional<ClothUse> use = cloth_use_by_id(id);
    if (!use || *use == ClothUse::Laminate) return at(p, Code::TicketChoiceUnknown, id);
    out.use = *use;
    return std::nullopt;
  };
  return read_fields(
      json, path,
      {
          {"cloth", read_use, true},
          {"laminated", [&](const Json& v, P p) { return read_flag(v, p, out.laminated); }},
          {"places", [&](const Json& v, P p) { return read_places(v, p, out.places); }, true},
      });
}

bool may_be_kept(const HandPlace& place) {
  const auto near = [](double v) { return v >= -kFarthestPlace && v <= kFarthestPlace; };
  if (!place.coat.empty() && !is_ticket_id(place.coat)) return false;
  return is_piece_id(place.piece) && place.copy >= 0 && place.copy <= kMostCopyNumber &&
         near(place.at.x) && near(place.at.y);
}

}  // namespace

Wrong read_hand_lays(const Json& json, const std::string& path, std::vector<HandLay>& out) {
  if (!json.is_array()) return at(path, Code::TicketFieldType, "list");
  size_t places = 0;
  for (size_t i = 0; i < json.size(); ++i) {
    const std::string place = step(path, i);
    HandLay lay;
    if (Wrong wrong = read_lay(json[i], place, lay)) return wrong;
    if (hand_lay(out, lay.use, lay.laminated) != nullptr) return at(place, Code::TicketFieldTwice);
    places += lay.places.size();
    if (places > kMostHandPlaces) {
      return Problem{
          .code = Code::NumberOutOfRange,
          .subject = step(place, "places"),
          .values = {static_cast<double>(places), 0.0, static_cast<double>(kMostHandPlaces)}};
    }
    out.push_back(std::move(lay));
  }
  return std::nullopt;
}

OrderedJson hand_lays_json(const std::vector<HandLay>& lays) {
  OrderedJson out = OrderedJson::array();
  std::vector<HandLay> written;
  size_t most = kMostHandPlaces;
  for (const HandLay& lay : lays) {
    if (lay.use == ClothUse::Laminate || hand_lay(written, lay.use, lay.laminated) != nullptr) {
      continue;
    }
    written.push_back({lay.use, lay.laminated, {}});
    std::vector<HandPlace>& kept = written.back().places;
    OrderedJson places = OrderedJson::array();
    for (const HandPlace& p : lay.places) {
      const bool twice = std::any_of(kept.begin(), kept.end(),
                                     [&](const HandPlace& k) { return same_copy(k, p); });
      if (twice || most == 0 || !may_be_kept(p)) continue;
      --most;
      kept.push_back(p);
      OrderedJson place = {{"piece", p.piece}};
      if (!p.coat.empty()) place["coat"] = p.coat;
      if (p.copy > 0) place["copy"] = p.copy;
      if (p.turned) place["turned"] = true;
      place["x"] = p.at.x;
      place["y"] = p.at.y;
      places.push_back(std::move(place));
    }
    out.push_back(
        {{"cloth", cloth_use_id(lay.use)}, {"laminated", lay.laminated}, {"places", places}});
  }
  return out;
}

}  // namespace coatwright
