#include "core/ticket/cut_fields.h"

namespace coatwright {
namespace {

Wrong read_piece(const Json& json, const std::string& path, CutRecord& out) {
  using P = const std::string&;
  std::string id;
  CutSize size;
  const auto length = [](double& to) {
    return [&to](const Json& v, P p) { return read_number(v, p, 0.0, kMostCutSize, to); };
  };
  Wrong wrong = read_fields(
      json, path,
      {
          {"piece", [&](const Json& v, P p) { return read_piece_id(v, p, id); }, true},
          {"width", length(size.width), true},
          {"height", length(size.height), true},
          {"area",
           [&](const Json& v, P p) { return read_number(v, p, 0.0, kMostCutArea, size.area); },
           true},
      });
  if (wrong) return wrong;
  if (!out.emplace(id, size).second) return at(path, Code::TicketFieldTwice);
  return std::nullopt;
}

bool may_be_kept(const std::string& id, const CutSize& size) {
  const auto within = [](double v, double most) { return v >= 0.0 && v <= most; };
  return is_piece_id(id) && within(size.width, kMostCutSize) && within(size.height, kMostCutSize) &&
         within(size.area, kMostCutArea);
}

}  // namespace

Wrong read_cut(const Json& json, const std::string& path, CutRecord& out) {
  if (!json.is_array()) return at(path, Code::TicketFieldType, "list");
  if (json.size() > kMostCutRecord) return at(step(path, kMostCutRecord), Code::TicketFieldUnknown);
  for (size_t i = 0; i < json.size(); ++i) {
    if (Wrong wrong = read_piece(json[i], step(path, i), out)) return wrong;
  }
  return std::nullopt;
}

OrderedJson cut_json(const CutRecord& record) {
  OrderedJson out = OrderedJson::array();
  for (const auto& [id, size] : record) {
    if (!may_be_kept(id, size) || out.size() == kMostCutRecord) continue;
    out.push_back(
        {{"piece", id}, {"width", size.width}, {"height", size.height}, {"area", size.area}});
  }
  return out;
}

}  // namespace coatwright
