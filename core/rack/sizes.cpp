// Sizes as they stand in a file.
#include <algorithm>
#include <iterator>

#include "core/base/utf8.h"
#include "core/rack/card_fields.h"

namespace coatwright {
namespace {

constexpr const char* kWays[] = {"chest", "weight", "table"};  // SizesBy

// A spreadsheet's table has tabs, which no other text of a file may have.
bool may_be_kept(const std::string& text) {
  std::string plain = text;
  std::replace(plain.begin(), plain.end(), '\t', ' ');
  return text.size() <= kMostSizeText && is_clean(plain, true);
}

Wrong read_typed(const Json& json, const std::string& path, std::string& out) {
  if (!json.is_string()) return at(path, Code::TicketFieldType, "text");
  out = json.get<std::string>();
  if (!may_be_kept(out)) return at(path, Code::TicketTextUnclean);
  return std::nullopt;
}

Wrong read_way(const Json& json, const std::string& path, SizesBy& out) {
  std::string id;
  if (Wrong wrong = read_text(json, path, kMostSizeCharacters, false, id)) return wrong;
  const auto way = std::find(std::begin(kWays), std::end(kWays), id);
  if (way == std::end(kWays)) return at(path, Code::TicketChoiceUnknown, id);
  out = static_cast<SizesBy>(way - std::begin(kWays));
  return std::nullopt;
}

Wrong read_names(const Json& json, const std::string& path, std::vector<std::string>& out) {
  if (Wrong wrong = read_list(json, path, kMostSizes)) return wrong;
  for (size_t i = 0; i < json.size(); ++i) {
    std::string name;
    if (Wrong wrong = read_text(json[i], step(path, i), kMostSizeCharacters, false, name)) {
      return wrong;
    }
    out.push_back(name);
  }
  return std::nullopt;
}

}  // namespace

Wrong read_sizes(const Json& json, const std::string& path, SizesWanted& out) {
  using P = const std::string&;
  std::vector<Field> fields = {
      {"by", [&](const Json& v, P p) { return read_way(v, p, out.by); }},
      {"left", [&](const Json& v, P p) { return read_names(v, p, out.left); }}};
  for (size_t way = 0; way < out.typed.size(); ++way) {
    fields.push_back(
        {kWays[way], [&out, way](const Json& v, P p) { return read_typed(v, p, out.typed[way]); }});
  }
  return read_fields(json, path, fields);
}

OrderedJson sizes_json(const SizesWanted& sizes) {
  OrderedJson out{{"by", kWays[static_cast<size_t>(sizes.by)]}};
  for (size_t way = 0; way < sizes.typed.size(); ++way) {
    const std::string& typed = sizes.typed[way];
    if (!typed.empty() && may_be_kept(typed)) out[kWays[way]] = typed;
  }
  OrderedJson left = OrderedJson::array();
  for (const std::string& name : sizes.left) {
    if (left.size() < kMostSizes) left.push_back(cleaned(name, kMostSizeCharacters));
  }
  if (!left.empty()) out["left"] = std::move(left);
  return out;
}

}  // namespace coatwright
