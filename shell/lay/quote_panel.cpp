#include "shell/lay/quote_panel.h"

#include <algorithm>
#include <cmath>

#include "core/base/utf8.h"
#include "core/draw/number.h"
#include "shell/desk/outputs.h"
#include "shell/kit/form_keys.h"
#include "shell/kit/plain_number.h"
#include "shell/kit/status.h"
#include "shell/lay/company_panel.h"
#include "shell/words/quote_words.h"
#include "shell/words/shopping_words.h"

namespace coatwright::studio {
namespace {

// A number of the quote: shown `times` as large as it is kept.
struct Entry {
  std::string id;
  std::string name;
  double QuoteChoices::*number = nullptr;  // or
  double* in = nullptr;                    // of `next`
  double most = kMostMoney;
  double times = 1.0;
};

void number_field(Frame& f, Columns& flow, QuoteChoices& next, const Entry& entry) {
  double& number = entry.in != nullptr ? *entry.in : next.*entry.number;
  std::string shown;
  if (number > 0.0) append_number(shown, entry.times * number);
  auto& faults = f.view.lay.faults;
  const auto typed = text_field(f, entry.id, flow.next(kTarget), entry.name, shown);
  if (typed) {
    const bool empty = typed->find_first_not_of(' ') == std::string::npos;
    const std::optional<double> value = empty ? 0.0 : plain_number(*typed);
    faults.erase(entry.id);
    if (!value) {
      faults[entry.id] = Problem{.code = Code::NumberUnreadable, .subject = {}, .other = *typed};
    } else if (*value < 0.0 || *value > entry.times * entry.most) {
      faults[entry.id] = Problem{.code = Code::QuoteOutOfRange,
                                 .subject = {},
                                 .values = {*value, 0.0, entry.times * entry.most},
                                 .other = entry.name};
    } else {
      number = *value / entry.times;
    }
  }
  if (const auto fault = faults.find(entry.id); fault != faults.end()) {
    const std::string words = sentence_of(f, fault->second);
    sentence(f, flow, entry.id + ".fault", words, true);
  }
}

// A length of a piece, or nothing; 0 if it is left empty.
std::optional<double> length_field(Frame& f, Columns& flow, const std::string& id,
                                   const std::string& name, NotionKind kind, double now) {
  const std::string shown = now > 0.0 ? f.length(now) : "";
  const auto typed = text_field(f, id, flow.next(kTarget), name, shown);
  auto& faults = f.view.lay.faults;
  std::optional<double> out;
  if (typed) {
    faults.erase(id);
    if (typed->find_first_not_of(' ') == std::string::npos) {
      out = 0.0;
    } else if (const Result<Length> length = parse_length(*typed, f.ticket.unit); !length) {
      faults[id] = length.problem();
      faults[id].subject = "cloth-piece";
    } else if (length->mm() < kLeastWarePiece || length->mm() > kMostWarePiece) {
      faults[id] = Problem{.code = Code::ClothLengthOutOfRange,
                           .subject = "cloth-piece",
                           .values = {length->mm(), kLeastWarePiece, kMostWarePiece},
                           .other = std::string("notion.") + notion_id(kind)};
    } else {
      out = length->mm();
    }
  }
  if (const auto fault = faults.find(id); fault != faults.end()) {
    sentence(f, flow, id + ".fault", sentence_of(f, fault->second), true);
  }
  return out;
}

// A line of the quote in its column, or a sum under all of them.
void sum_row(Frame& f, const Box& row, const std::string& id, const std::string& name,
             const std::string& value, bool strong) {
  const float wide = f.paint.text({row.right(), row.centre().y}, value, strong ? kLarge : kStrong,
                                  f.colours.ink, Align::End);
  f.paint.clipped_text({row.x, row.centre().y}, row.w - wide - 12.0F, name, strong ? kLarge : kBody,
                       f.colours.ink);
  words_at(f, id, row, name + ": " + value);
}

// The price of a ware in its own width and, once that is known, how long a piece it is sold in.
void ware_fields(Frame& f, Columns& flow, QuoteChoices& next, const ShoppingLine& line) {
  const std::string title = notion_title(line, f.ticket.unit, f.words);
  const std::string id = std::string(notion_id(line.kind)) + "." +
                         std::to_string(static_cast<int>(std::lround(line.width_mm)));
  const std::optional<WarePrice> known = price_of(line, next);
  WarePrice ware = known.value_or(WarePrice{line.kind, line.width_mm});
  number_field(
      f, flow, next,
      {.id = "quote.ware." + id,
       .name = f.words(line.kind == NotionKind::HookLoop ? "ui.quote-price-pair" : "ui.quote-price",
                       {title}),
       .in = &ware.price});
  if (known && line.length_mm > 0.0) {
    if (const auto piece =
            length_field(f, flow, "quote.piece." + id, f.words("ui.quote-piece", {title}),
                         line.kind, ware.piece_mm)) {
      ware.piece_mm = *piece;
    }
  }
  if (ware != known.value_or(WarePrice{line.kind, line.width_mm})) {
    next = with_ware(std::move(next), ware);
  }
}

void fields(Frame& f, Columns& flow, const Quote& quote) {
  QuoteChoices next = f.ticket.quote;
  if (const auto currency = text_field(f, "quote.currency", flow.next(kTarget),
                                       f.words("ui.quote-currency"), next.currency)) {
    next.currency = cleaned(*currency, kMostCurrency);
  }
  number_field(
      f, flow, next,
      {.id = "quote.rate", .name = f.words("ui.quote-rate"), .number = &QuoteChoices::rate});
  number_field(f, flow, next,
               {.id = "quote.margin",
                .name = f.words("ui.quote-margin"),
                .number = &QuoteChoices::margin,
                .most = kMostMargin100,
                .times = 100.0});
  for (int k = 0; k < kStages; ++k) {
    const std::string id = stage_id(static_cast<Stage>(k));
    number_field(f, flow, next,
                 {.id = "quote.minutes." + id,
                  .name = f.words("ui.quote-minutes", {f.words("stage." + id)}),
                  .in = &next.minutes[static_cast<size_t>(k)],
                  .most = kMostMinutes});
  }
  const std::string group = f.words("ui.quote-by");
  const Box box = flow.next(26.0F + kTarget);
  f.paint.text({box.x, box.y + 11.0F}, group, kBody, f.colours.ink);
  const int by =
      options(f, "quote.by", box.below(26.0F).top(kTarget), group,
              {f.words("priced-by.metre"), f.words("priced-by.yard")}, next.by_yard ? 1 : 0);
  if (by >= 0) next.by_yard = by == 1;
  for (const QuoteLine& line : quote.lines) {
    if (line.notion) ware_fields(f, flow, next, *line.notion);
  }
  number_field(
      f, flow, next,
      {.id = "quote.thread", .name = f.words("ui.quote-thread"), .number = &QuoteChoices::thread});
  if (next != f.ticket.quote) f.commands.push_back(SetQuote{next});
}

// What is still open as it was typed on an earlier ticket: of this coat's cloths, and all else.
void last_prices(Frame& f, Columns& flow) {
  const Ticket with = with_last_prices(f.ticket, f.rack.notes());
  std::vector<Command> takes;
  if (with.quote != f.ticket.quote) takes.emplace_back(SetQuote{with.quote});
  std::vector<ClothUse> uses;
  for (const LaidCloth& laid : f.lay.laid()) {
    uses.push_back(laid.lay.cloth.use);
    if (laid.lamination) uses.push_back(ClothUse::Laminate);
  }
  std::sort(uses.begin(), uses.end());
  uses.erase(std::unique(uses.begin(), uses.end()), uses.end());
  for (const ClothUse use : uses) {
    if (with.of(use) != f.ticket.of(use)) takes.emplace_back(SetCloth{use, with.of(use)});
  }
  if (takes.empty()) return;
  if (button(f, "quote.last", flow.across(kTarget), f.words("ui.quote-last"))) {
    for (Command& take : takes) f.commands.push_back(std::move(take));
  }
}

// The wares without a price in the width that the coat needs, quietly.
void no_prices(Frame& f, Columns& flow, const Quote& quote) {
  std::string wares;
  for (const QuoteLine& line : quote.lines) {
    if (!line.notion || line.cost) continue;
    wares += (wares.empty() ? "" : "; ") + notion_title(*line.notion, f.ticket.unit, f.words);
  }
  if (wares.empty()) return;
  const std::string words = f.words("ui.quote-no-price", {wares});
  aside(f, flow, "quote.no-price", words);
}

// The quote of one of the coats that are laid together: by its own ticket's prices and times, but
// for the cloth, in the open ticket's unit.
struct CoatQuote {
  Ticket ticket;
  Quote quote;
  bool other_money = false;  // than the cloth is priced in
  [[nodiscard]] bool complete() const { return quote.complete() && !other_money; }
};
CoatQuote quote_for(const Frame& f, const LaidCoat& coat) {
  CoatQuote out{.ticket = *coat.ticket, .quote = {}};
  out.ticket.unit = f.ticket.unit;
  std::string& currency = out.ticket.quote.currency;
  if (currency.empty()) currency = f.ticket.quote.currency;
  out.other_money = !f.ticket.quote.currency.empty() && currency != f.ticket.quote.currency;
  out.quote = quote_of(*coat.draft, f.lay.laid(), f.ticket.unit, coat.ticket->quote, coat.key);
  return out;
}

// Whose quote is looked at: each coat with its sum.
size_t choose_coat(Frame& f, Columns& flow, const LaidCoats& coats) {
  size_t chosen = 0;
  for (size_t n = 0; n < coats.size(); ++n) {
    if (coats[n].key == f.view.lay.quoted) chosen = n;
  }
  if (coats.size() < 2) return chosen;
  for (size_t n = 0; n < coats.size(); ++n) {
    const CoatQuote its = quote_for(f, coats[n]);
    const std::optional<double> sum =
        its.complete() ? std::optional(its.quote.total) : std::nullopt;
    if (row_option(f, flow.next(kTarget),
                   {.id = "quote.coat." + std::to_string(n),
                    .group = f.words("ui.quote-coats"),
                    .name = f.lay.names()[n].name,
                    .value = money(sum, its.ticket.quote),
                    .chosen = n == chosen})) {
      f.view.lay.quoted = coats[n].key;
      f.again = true;
    }
  }
  return chosen;
}

}  // namespace

void quote_controls(Frame& f, Columns& flow) {
  const LaidCoats coats = coats_of(f);
  const size_t chosen = choose_coat(f, flow, coats);
  const CoatQuote its = quote_for(f, coats[chosen]);
  const Quote& quote = its.quote;
  const auto row = [&](const Box& box, const std::string& id, const std::string& name,
                       std::optional<double> sum, bool strong) {
    sum_row(f, box, id, name, money(sum, its.ticket.quote), strong);
  };
  const auto rule = [&] {
    const Box line = flow.across(1.0F);
    f.paint.line({line.x, line.y}, {line.right(), line.y}, f.colours.soft, 1.0F);
  };
  for (size_t i = 0; i < quote.lines.size(); ++i) {
    row(flow.next(26.0F), "quote.line." + std::to_string(i),
        ware_of(quote.lines[i], f.ticket.unit, f.words), quote.lines[i].cost, false);
  }
  rule();
  // A sum without a price that is missing would look like the whole.
  const auto if_known = [](bool known, double sum) {
    return known ? std::optional(sum) : std::nullopt;
  };
  row(flow.across(26.0F), "quote.materials", f.words("quote.materials"),
      if_known(quote.unpriced == 0 && !its.other_money, quote.materials), false);
  row(flow.across(26.0F), "quote.work", f.words("quote.work"), quote.work, false);
  row(flow.across(26.0F), "quote.added", f.words("ui.quote-added"),
      if_known(its.complete(), quote.margin), false);
  rule();
  row(flow.across(30.0F), "quote.total", f.words("quote.total"),
      if_known(its.complete(), quote.total), true);
  const bool ready = f.lay.whole() && its.complete();
  if (!ready) {
    const std::string words = !f.lay.whole()    ? f.words("ui.lay-not-whole")
                              : its.other_money ? f.words("ui.quote-other-money")
                              : quote.unpriced > 0
                                  ? f.words("ui.quote-unpriced", {std::to_string(quote.unpriced)})
                                  : f.words("ui.quote-no-work");
    sentence(f, flow, "quote.missing", words, true);
  }
  const Coats all = [&f] { return laid_texts(f.ticket, f.lay); };
  FormChoices choices;
  choices.quoted = coats[chosen].key;
  press_row(f, flow);
  form_key(f, flow.across(54.0F),
           {"print.quote",
            Form::QuoteHtml,
            "ui.print-quote",
            FormUse::Print,
            {.look = Look::Solid, .type = kLarge, .enabled = ready}},
           all, choices);
  form_key(f, flow.across(kTarget),
           {"save.quote", Form::QuotePdf, "ui.save-quote", FormUse::Save, {.enabled = ready}}, all,
           choices);
  if (chosen > 0) {
    const std::string words = f.words("ui.quote-its-own", {f.lay.names()[chosen].name});
    aside(f, flow, "quote.its-own", words);
    return;
  }
  last_prices(f, flow);
  no_prices(f, flow, quote);
  fields(f, flow, quote);
}

}  // namespace coatwright::studio
