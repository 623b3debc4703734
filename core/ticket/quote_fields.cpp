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

}  // namespace

Wrong read_quote(const Json& json, const std::string& path, QuoteChoices& out) {
  using P = const std::string&;
  std::vector<Field> fields = number_fields(out, "");
  fields.push_back({"currency", [&](const Json& v, P p) {
                      return read_text(v, p, kMostCurrency, false, out.currency);
                    }});
  fields.push_back({"by-yard", [&](const Json& v, P p) { return read_flag(v, p, out.by_yard); }});
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
  return out;
}

}  // namespace coatwright
