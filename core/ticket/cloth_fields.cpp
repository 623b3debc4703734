#include "core/ticket/cloth_fields.h"

#include "core/base/utf8.h"
#include "core/ticket/ids.h"

namespace coatwright {
namespace {

constexpr std::string_view kPrefix = "cloth-";  // of ClothNumber::field, not in the file

Wrong read_use(const Json& json, const std::string& path, Cloth& out) {
  const std::string place = step(path, "use");
  if (!json.is_object()) return at(path, Code::TicketFieldType, "object");
  if (!json.contains("use")) return at(place, Code::TicketFieldMissing);
  if (!json["use"].is_string()) return at(place, Code::TicketFieldType, "text");
  const std::string& id = json["use"].get_ref<const std::string&>();
  const std::optional<ClothUse> use = cloth_use_by_id(id);
  if (!use) return at(place, Code::TicketChoiceUnknown, id);
  out = usual_cloth(*use, Unit::Centimetre);
  return std::nullopt;
}

std::string_view key_of(const ClothNumber& n) {
  return std::string_view(n.field).substr(kPrefix.size());
}

}  // namespace

Wrong read_cloth(const Json& json, const std::string& path, Cloth& out) {
  if (Wrong wrong = read_use(json, path, out)) return wrong;
  using P = const std::string&;
  std::vector<Field> fields = {
      {"use", [](const Json&, P) -> Wrong { return std::nullopt; }, true},
      {"name",
       [&](const Json& v, P p) { return read_text(v, p, kMostClothName, false, out.name); }},
      {"one-way", [&](const Json& v, P p) { return read_flag(v, p, out.one_way); }},
      {"keeps-holes", [&](const Json& v, P p) { return read_flag(v, p, out.keeps_holes); }},
      {"stretch", [&](const Json& v, P p) { return read_id(v, p, out.stretch); }},
      {"priced-by", [&](const Json& v, P p) { return read_id(v, p, out.priced_by); }},
  };
  for (const ClothNumber& n : cloth_numbers()) {
    fields.push_back({key_of(n), [&](const Json& v, P p) {
                        return read_number(v, p, n.lowest, n.highest, out.*n.number);
                      }});
  }
  if (Wrong wrong = read_fields(json, path, fields)) return wrong;
  return fault_of(out);
}

bool may_be_kept(const Cloth& cloth) {
  return !fault_of(cloth) && is_clean(cloth.name, false) &&
         count_characters(cloth.name) <= kMostClothName;
}

OrderedJson cloth_json(const Cloth& cloth) {
  OrderedJson out = {{"use", cloth_use_id(cloth.use)}, {"name", cloth.name}};
  for (const ClothNumber& n : cloth_numbers()) out[std::string(key_of(n))] = cloth.*n.number;
  out["one-way"] = cloth.one_way;
  out["keeps-holes"] = cloth.keeps_holes;
  out["stretch"] = id_of(cloth.stretch);
  out["priced-by"] = id_of(cloth.priced_by);
  return out;
}

}  // namespace coatwright
