#include "core/rack/shelf.h"

#include <algorithm>

#include "core/rack/card_fields.h"
#include "core/ticket/cloth_fields.h"

namespace coatwright {
namespace {

Shelf::iterator place_of(Shelf& shelf, const Cloth& cloth) {
  return std::find_if(shelf.begin(), shelf.end(),
                      [&](const Cloth& c) { return c.use == cloth.use && c.name == cloth.name; });
}

}  // namespace

Result<Shelf> with_cloth(Shelf shelf, const Cloth& cloth) {
  if (const auto fault = fault_of(cloth)) return *fault;
  if (cloth.name.empty()) return Problem{Code::ShelfNameMissing, cloth_use_id(cloth.use)};
  const auto place = place_of(shelf, cloth);
  if (place != shelf.end()) {
    *place = cloth;
    return shelf;
  }
  if (shelf.size() >= kMostShelf) {
    return Problem{
        .code = Code::ShelfFull, .subject = {}, .values = {static_cast<double>(kMostShelf)}};
  }
  shelf.push_back(cloth);
  return shelf;
}

Shelf without_cloth(Shelf shelf, const Cloth& cloth) {
  const auto place = place_of(shelf, cloth);
  if (place != shelf.end()) shelf.erase(place);
  return shelf;
}

Shelf put_back(Shelf shelf, const Shelf& backup) {
  for (const Cloth& cloth : backup) {
    if (place_of(shelf, cloth) == shelf.end() && shelf.size() < kMostShelf) shelf.push_back(cloth);
  }
  return shelf;
}

Wrong read_shelf(const Json& json, const std::string& path, Shelf& out) {
  if (!json.is_array()) return at(path, Code::TicketFieldType, "list");
  if (json.size() > kMostShelf) {
    return Problem{Code::ShelfFull, path, {static_cast<double>(kMostShelf)}};
  }
  for (size_t i = 0; i < json.size(); ++i) {
    const std::string place = step(path, i);
    Cloth cloth;
    if (Wrong wrong = read_cloth(json[i], place, cloth)) return wrong;
    if (place_of(out, cloth) != out.end()) return at(place, Code::TicketFieldTwice);
    out.push_back(std::move(cloth));
  }
  return std::nullopt;
}

OrderedJson shelf_json(const Shelf& shelf) {
  OrderedJson out = OrderedJson::array();
  for (const Cloth& cloth : shelf) {
    if (may_be_kept(cloth)) out.push_back(cloth_json(cloth));
  }
  return out;
}

}  // namespace coatwright
