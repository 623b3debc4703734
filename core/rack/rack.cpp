#include "core/rack/rack.h"

#include <algorithm>

#include "core/base/folding.h"
#include "core/base/utf8.h"
#include "core/body/assess.h"
#include "core/rack/card_fields.h"
#include "core/ticket/quote_fields.h"

namespace coatwright {

namespace {

constexpr std::string_view kVersionKey = "coatwright-notes";
constexpr int kNotesVersion = 2;  // 1 knew nothing of the studio
constexpr size_t kMostNotesBytes = 512 * 1024;
constexpr const char* kOrders[] = {"changed", "dog"};

Wrong read_order(const Json& json, const std::string& path, RackOrder& out) {
  if (!json.is_string()) return at(path, Code::TicketFieldType, "text");
  const std::string& id = json.get_ref<const std::string&>();
  for (const RackOrder order : {RackOrder::Changed, RackOrder::Dog}) {
    if (id == kOrders[static_cast<int>(order)]) return out = order, std::nullopt;
  }
  return at(path, Code::TicketChoiceUnknown, id);
}

Wrong read_back(const Json& json, const std::string& path, SlipBack& out) {
  std::string address;
  if (Wrong wrong = read_text(json, path, kMostSlipAddress, false, address)) return wrong;
  const Result<SlipBack> back = slip_back(address);
  if (!back) return back.problem();
  out = *back;
  return std::nullopt;
}

int months_between(const BirthMonth& from, const BirthMonth& to) {
  return 12 * (to.year - from.year) + to.month - from.month;
}

// Months at which this dog has its size; a dog without a chest reading might be a large one.
int adult_months_of(const Ticket& ticket) {
  constexpr double kLargest = 1e9;
  const Result<Tape> tape = tape_of(ticket);
  if (!tape || tape->of(Measure::Chest).empty()) return adult_months(kLargest);
  return adult_months(value_of(tape->of(Measure::Chest)).value);
}

}  // namespace

Result<RackNotes> read_rack_notes(std::string_view json) {
  if (json.size() > kMostNotesBytes) return at("", Code::RackNotRack);
  const Result<Json> tree = parse_json(json, kMostCardDepth);
  if (!tree) return tree.problem();
  RackNotes notes;
  using P = const std::string&;
  const Wrong wrong = read_fields(
      *tree, "",
      {
          {kVersionKey,
           [](const Json& v, P p) {
             double version = 0.0;
             return read_number(v, p, 1.0, kNotesVersion, version);
           },
           true},
          {"open", [&](const Json& v, P p) { return read_ticket_id(v, p, notes.open); }},
          {"order", [&](const Json& v, P p) { return read_order(v, p, notes.order); }},
          {"backed-up", [&](const Json& v, P p) { return read_time(v, p, notes.backed_up); }},
          {"gone", [&](const Json& v, P p) { return read_tokens(v, p, kMostGone, notes.gone); }},
          {"studio",
           [&](const Json& v, P p) { return read_text(v, p, kMostSlipName, false, notes.studio); }},
          {"back", [&](const Json& v, P p) { return read_back(v, p, notes.back); }},
          {"shelf", [&](const Json& v, P p) { return read_shelf(v, p, notes.shelf); }},
          {"priced", [&](const Json& v, P p) { return read_shelf(v, p, notes.priced); }},
          {"prices", [&](const Json& v, P p) { return read_quote(v, p, notes.prices); }},
          {"printers", [&](const Json& v, P p) { return read_printers(v, p, notes.printers); }},
          {"printer", [&](const Json& v,
                          P p) { return read_text(v, p, kMostPrinterName, false, notes.printer); }},
          {"usual", [&](const Json& v, P p) { return read_usual(v, p, notes.usual.emplace()); }},
          {"sizes", [&](const Json& v, P p) { return read_sizes(v, p, notes.sizes); }},
      });
  if (wrong) return *wrong;
  return notes;
}

std::string write_rack_notes(const RackNotes& notes) {
  OrderedJson out;
  out[std::string(kVersionKey)] = kNotesVersion;
  if (!notes.open.empty()) out["open"] = notes.open;
  out["order"] = kOrders[static_cast<int>(notes.order)];
  out["backed-up"] = notes.backed_up;
  if (!notes.gone.empty()) out["gone"] = tokens_json(notes.gone);
  if (!notes.studio.empty()) out["studio"] = notes.studio;
  if (notes.back.way != SlipWay::Any) out["back"] = notes.back.address;
  if (!notes.shelf.empty()) out["shelf"] = shelf_json(notes.shelf);
  if (!notes.priced.empty()) out["priced"] = shelf_json(notes.priced);
  if (notes.prices != QuoteChoices{}) out["prices"] = quote_json(notes.prices);
  if (!notes.printers.empty()) out["printers"] = printers_json(notes.printers);
  if (!notes.printer.empty()) out["printer"] = cleaned(notes.printer, kMostPrinterName);
  if (notes.usual) out["usual"] = usual_json(*notes.usual);
  if (notes.sizes != SizesWanted{}) out["sizes"] = sizes_json(notes.sizes);
  return out.dump(-1, ' ', false, OrderedJson::error_handler_t::replace);
}

RackNotes with_prices_of(RackNotes notes, const Ticket& ticket) {
  notes.prices = with_gaps_filled(ticket.quote, notes.prices);
  for (const std::optional<Cloth>& cloth : ticket.cloths) {
    if (!cloth || cloth->price <= 0.0 || cloth->rest_mm > 0.0) continue;
    notes.priced = without_cloth(std::move(notes.priced), *cloth);
    if (notes.priced.size() >= kMostShelf) notes.priced.erase(notes.priced.begin());
    notes.priced.push_back(*cloth);
  }
  return notes;
}

Ticket with_last_prices(Ticket ticket, const RackNotes& notes) {
  ticket.quote = with_gaps_filled(ticket.quote, notes.prices);
  for (const Cloth& known : notes.priced) {
    Cloth cloth = cloth_of(ticket, known.use);
    if (cloth.name != known.name || cloth.price > 0.0) continue;
    cloth.price = known.price;
    cloth.priced_by = known.priced_by;
    cloth.piece_mm = known.piece_mm;
    ticket.of(known.use) = std::move(cloth);
  }
  return ticket;
}

CardText text_of(const Card& card) {
  const Ticket& ticket = card.ticket;
  return {folded(ticket.dog), folded(ticket.dog + "\n" + ticket.name + "\n" + ticket.notes)};
}

bool has_words(const CardText& text, std::string_view folded_words) {
  size_t from = 0;
  while (from < folded_words.size()) {
    const size_t end = std::min(folded_words.find(' ', from), folded_words.size());
    if (text.all.find(folded_words.substr(from, end - from)) == std::string::npos) return false;
    from = end + 1;
  }
  return true;
}

bool hangs_before(const std::vector<Card>& cards, const std::vector<CardText>& texts,
                  RackOrder order, size_t a, size_t b) {
  if (order == RackOrder::Dog && texts[a].dog != texts[b].dog) return texts[a].dog < texts[b].dog;
  if (cards[a].changed != cards[b].changed) return cards[a].changed > cards[b].changed;
  return cards[a].id < cards[b].id;
}

std::vector<size_t> found(const std::vector<Card>& cards, const std::vector<CardText>& texts,
                          const RackQuery& query) {
  const std::string words = folded(query.words);
  std::vector<size_t> out;
  for (size_t i = 0; i < cards.size(); ++i) {
    if (cards[i].place == query.place && has_words(texts[i], words)) out.push_back(i);
  }
  std::sort(out.begin(), out.end(),
            [&](size_t a, size_t b) { return hangs_before(cards, texts, query.order, a, b); });
  return out;
}

std::vector<size_t> found(const std::vector<Card>& cards, const RackQuery& query) {
  std::vector<CardText> texts;
  for (const Card& card : cards) texts.push_back(text_of(card));
  return found(cards, texts, query);
}

std::optional<size_t> card_of_slip(const std::vector<Card>& cards, const SlipToken& token) {
  for (size_t i = 0; i < cards.size(); ++i) {
    if (slip_of(cards[i], token) != nullptr) return i;
  }
  return std::nullopt;
}

Due readings_due(const Ticket& ticket, const BirthMonth& today) {
  const bool taken = std::any_of(ticket.readings.begin(), ticket.readings.end(),
                                 [](const auto& readings) { return !readings.empty(); });
  if (!taken || !ticket.measured) return Due::No;
  const int since = months_between(*ticket.measured, today);
  if (ticket.birth) {
    const int age = months_between(*ticket.birth, *ticket.measured);
    const bool growing = age >= 0 && age < adult_months_of(ticket);
    if (growing && since >= std::max(1, age / 4)) return Due::Growing;
  }
  return since >= 12 ? Due::Season : Due::No;
}

}  // namespace coatwright
