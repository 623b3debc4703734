#include "core/rack/printers.h"

#include <algorithm>

#include "core/base/utf8.h"
#include "core/rack/card_fields.h"

namespace coatwright {
namespace {

Printers::iterator place_of(Printers& printers, std::string_view name) {
  return std::find_if(printers.begin(), printers.end(),
                      [&](const Printer& one) { return one.name == name; });
}

}  // namespace

const Printer* printer_of(const Printers& printers, std::string_view name) {
  const auto place = std::find_if(printers.begin(), printers.end(),
                                  [&](const Printer& one) { return one.name == name; });
  return place == printers.end() ? nullptr : &*place;
}

Result<Printers> with_printer(Printers printers, const Printer& printer) {
  if (printer.name.empty()) return Problem{Code::PrinterNameMissing};
  const auto place = place_of(printers, printer.name);
  if (place != printers.end()) {
    *place = printer;
    return printers;
  }
  if (printers.size() >= kMostPrinters) {
    return Problem{
        .code = Code::PrintersFull, .subject = {}, .values = {static_cast<double>(kMostPrinters)}};
  }
  printers.push_back(printer);
  return printers;
}

Printers without_printer(Printers printers, std::string_view name) {
  const auto place = place_of(printers, name);
  if (place != printers.end()) printers.erase(place);
  return printers;
}

Printers put_back(Printers printers, const Printers& backup) {
  for (const Printer& one : backup) {
    const bool known = printer_of(printers, one.name) != nullptr;
    if (!known && printers.size() < kMostPrinters) printers.push_back(one);
  }
  return printers;
}

Wrong read_printers(const Json& json, const std::string& path, Printers& out) {
  if (Wrong wrong = read_list(json, path, kMostPrinters)) return wrong;
  for (size_t i = 0; i < json.size(); ++i) {
    const std::string place = step(path, i);
    Printer printer;
    using P = const std::string&;
    const auto ratio = [](const Json& v, P p, double& to) {
      return read_number(v, p, 1.0 - kMostPrinterError - 1e-6, 1.0 + kMostPrinterError + 1e-6, to);
    };
    const Wrong wrong = read_fields(
        json[i], place,
        {
            {"name",
             [&](const Json& v, P p) {
               return read_text(v, p, kMostPrinterName, false, printer.name);
             },
             true},
            {"across", [&](const Json& v, P p) { return ratio(v, p, printer.across); }, true},
            {"along", [&](const Json& v, P p) { return ratio(v, p, printer.along); }, true},
            {"proven", [&](const Json& v, P p) { return read_flag(v, p, printer.proven); }},
        });
    if (wrong) return wrong;
    if (printer.name.empty()) return at(step(place, "name"), Code::TicketFieldMissing);
    if (printer_of(out, printer.name) != nullptr) return at(place, Code::TicketFieldTwice);
    out.push_back(std::move(printer));
  }
  return std::nullopt;
}

OrderedJson printers_json(const Printers& printers) {
  OrderedJson out = OrderedJson::array();
  for (const Printer& one : printers) {
    OrderedJson json;
    json["name"] = cleaned(one.name, kMostPrinterName);
    json["across"] = one.across;
    json["along"] = one.along;
    json["proven"] = one.proven;
    out.push_back(std::move(json));
  }
  return out;
}

}  // namespace coatwright
