#include "core/ticket/quote_fields.h"

#include "core/base/utf8.h"

namespace coatwright {
namespace {

// Every number of a quote with its key, the object that it stands in ("" for the quote's own), and
// the most that it may be.
template <class Quote, class F>
void for_each_number(Quote& quote, F&& visit) {
  visit("", "rate", quote.rate, kMostMoney);
  visit("", "margin", quote.margin, kMostMargin100);
  visit("", "thread", quote.thread, kMostMoney);
  for (int k = 0; k < kNotionKinds; ++k) {
    visit("notions", notion_id(static_cast<NotionKind>(k)), quote.notions[static_cast<size_t>(k)],
          kMostMoney);
  }
  for (int k = 0; k < kStages; ++k) {
    visit("minutes", stage_id(static_cast<Stage>(k)), quote.minutes[static_cast<size_t>(k)],
          kMostMinutes);
  }
}

std::vector<Field> number_fields(QuoteChoices& quote, std::string_view object) {
  std::vector<Field> fields;
  for_each_number(quote,
                  [&](std::string_view in, std::string_view key, double& number, double most) {
                    if (in != object) return;
                    fields.push_back({key, [&number, most](const Json& v, const std::string& p) {
                                        return read_number(v, p, 0.0, most, number);
                                      }});
                  });
  return fields;
}

Wrong read_ware(const Json& json, const std::string& path, WarePrice& out) {
  using P = const std::string&;
  const auto read_kind = [&](const Json& v, P p) -> Wrong {
    if (!v.is_string()) return at(p, Code::TicketFieldType, "text");
    const std::string& id = v.get_ref<const std::string&>();
    for (int k = 0; k < kNotionKinds; ++k) {
      out.kind = static_cast<NotionKind>(k);
      if (id == notion_id(out.kind)) return std::nullopt;
    }
    return at(p, Code::TicketChoiceUnknown, id);
  };
  return read_fields(
      json, path,
      {
          {"kind", read_kind, true},
          {"width",
           [&](const Json& v, P p) { return read_number(v, p, 0.0, kMostWareWidth, out.width_mm); },
           true},
          {"price",
           [&](const Json& v, P p) { return read_number(v, p, 0.0, kMostMoney, out.price); }},
          {"piece",
           [&](const Json& v, P p) {
             return read_number(v, p, kLeastWarePiece, kMostWarePiece, out.piece_mm);
           }},
      });
}

Wrong read_wares(const Json& json, const std::string& path, std::vector<WarePrice>& out) {
  if (!json.is_array()) return at(path, Code::TicketFieldType, "list");
  if (json.size() > kMostWares) {
    return Problem{
        .code = Code::NumberOutOfRange,
        .subject = path,
        .values = {static_cast<double>(json.size()), 0.0, static_cast<double>(kMostWares)}};
  }
  out.resize(json.size());
  for (size_t i = 0; i < json.size(); ++i) {
    const std::string place = step(path, i);
    if (Wrong wrong = read_ware(json[i], place, out[i])) return wrong;
    for (size_t k = 0; k < i; ++k) {
      if (same_ware(out[k], out[i])) return at(place, Code::TicketFieldTwice);
    }
  }
  return std::nullopt;
}

bool may_be_kept(const WarePrice& ware) {
  return ware.width_mm >= 0.0 && ware.width_mm <= kMostWareWidth && ware.price >= 0.0 &&
         ware.price <= kMostMoney &&
         (ware.piece_mm == 0.0 ||
          (ware.piece_mm >= kLeastWarePiece && ware.piece_mm <= kMostWarePiece));
}

}  // namespace

Wrong read_quote(const Json& json, const std::string& path, QuoteChoices& out) {
  using P = const std::string&;
  std::vector<Field> fields = number_fields(out, "");
  fields.push_back({"currency", [&](const Json& v, P p) {
                      return read_text(v, p, kMostCurrency, false, out.currency);
                    }});
  fields.push_back({"by-yard", [&](const Json& v, P p) { return read_flag(v, p, out.by_yard); }});
  fields.push_back({"wares", [&](const Json& v, P p) { return read_wares(v, p, out.wares); }});
  for (const char* object : {"notions", "minutes"}) {
    fields.push_back({object, [&out, object](const Json& v, P p) {
                        return read_fields(v, p, number_fields(out, object));
                      }});
  }
  return read_fields(json, path, fields);
}

OrderedJson quote_json(const QuoteChoices& quote) {
  OrderedJson out = {{"currency", cleaned(quote.currency, kMostCurrency)},
                     {"by-yard", quote.by_yard}};
  for_each_number(quote,
                  [&](std::string_view in, std::string_view key, double number, double most) {
                    if (!(number > 0.0 && number <= most)) return;
                    OrderedJson& object = in.empty() ? out : out[std::string(in)];
                    object[std::string(key)] = number;
                  });
  for (const WarePrice& ware : quote.wares) {
    if (!may_be_kept(ware)) continue;
    OrderedJson one = {{"kind", notion_id(ware.kind)}, {"width", ware.width_mm}};
    if (ware.price > 0.0) one["price"] = ware.price;
    if (ware.piece_mm > 0.0) one["piece"] = ware.piece_mm;
    out["wares"].push_back(std::move(one));
  }
  return out;
}

}  // namespace coatwright
