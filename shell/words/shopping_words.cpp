#include "shell/words/shopping_words.h"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "core/draft/sold.h"
#include "core/draw/number.h"
#include "core/make/care.h"
#include "shell/words/quote_words.h"
#include "shell/words/step_words.h"

namespace coatwright {

namespace {

// As shops call it: 20 mm go by 3/4 in.
std::string called_width(const ShoppingLine& line, Unit unit) {
  if (line.kind == NotionKind::Binding) return strip_width(line.width_mm, unit);
  const double wide = unit == Unit::Inch ? named_in_inches(line.width_mm) : line.width_mm;
  return format_length(Length::mm(wide), {.unit = unit});
}

void begin_large(std::string& words) {
  if (words.empty()) return;
  words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
}

// A mark that is called as its ware is: by what it closes.
std::string place_in_words(const std::string& place, const Words& words) {
  const std::string closes = "shop.at." + place;
  return words(words.has(closes) ? closes : place);
}

}  // namespace

std::string strip_width(double mm, Unit unit) {
  return format_length(Length::mm(mm), {.unit = unit, .steps_per_inch = 16});
}

std::string notion_title(const ShoppingLine& line, Unit unit, const Words& words) {
  std::string name =
      words(line.kind != NotionKind::Binding ? std::string("notion.") + notion_id(line.kind)
            : line.from_cloth                ? "shop.bias-strip"
                                             : "shop.bias-binding");
  if (line.width_mm > 0.0) name = words("shop.notion", {name, called_width(line, unit)});
  begin_large(name);
  return name;
}

namespace {

constexpr double kYard = Length::yards(1.0).mm();
const char* const kEighths[] = {"", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"};

std::string number(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  std::string text;
  append_number(text, std::round(value * scale) / scale);
  return text;
}

class Rows {
 public:
  Rows(const Ticket& ticket, const Words& words)
      : unit_(ticket.unit), quote_(ticket.quote), words_(words) {
    lengths_.unit = ticket.unit;
  }

  void add(const ClothLine& line) {
    const Cloth& cloth = line.cloth;
    std::string note = needed("shop.needed", line.needed_mm, line.shares.size());
    if (cloth.repeat_mm > 0.0 && cloth.rest_mm <= 0.0)
      note += " " + words_("shop.repeat", {length(cloth.repeat_mm)});
    if (cloth.shrinkage > 0.0) {
      note += " " + words_("shop.shrinkage", {number(100.0 * cloth.shrinkage, 1)});
    }
    if (cloth.rest_mm > 0.0) note += " " + rest_answer(line, unit_, words_);
    if (cloth.rest_mm <= 0.0 && cloth.priced_by != PricedBy::Piece) {
      note += " " + words_("shop.crooked", {length(kCrookedCut)});
    }
    std::string amount = bought(line, unit_, words_);
    if (cloth.priced_by == PricedBy::Piece && cloth.rest_mm <= 0.0) {
      const double pieces = line.to_buy_mm / cloth.piece_mm;
      amount = words_("shop.pieces", {number(pieces, 0), length(cloth.piece_mm)});
    }
    out.push_back({words_("shop.cloth", {cloth_title(cloth, words_), length(cloth.width_mm)}),
                   std::move(amount), std::move(note)});
  }

  // `coats`: how many the line is for.
  void add(const ShoppingLine& line, size_t coats) {
    std::vector<std::string> named;
    std::string places;
    const auto add_note = [](std::string& note, const std::string& more) {
      note += (note.empty() ? "" : ". ") + more;
    };
    for (const std::string& place : line.places) {
      const std::string one = place_in_words(place, words_);
      if (std::find(named.begin(), named.end(), one) != named.end()) continue;
      named.push_back(one);
      places += (places.empty() ? "" : ", ") + one;
    }
    begin_large(places);
    ShoppingRow row{.ware = notion_title(line, unit_, words_), .amount = {}, .note = places};
    const std::optional<WarePrice> price = price_of(line, quote_);
    row.amount =
        line.from_cloth ? words_("shop.from-cloth") : ware_amount(line, price, unit_, words_);
    if (line.length_mm > 0.0 && line.kind == NotionKind::HookLoop) {
      row.amount = words_("shop.each-side", {row.amount});
      add_note(row.note, needed("shop.hook-and-loop", line.length_mm, coats));
    } else if (line.length_mm > 0.0) {
      add_note(row.note, needed("shop.needed", line.length_mm, coats));
    }
    if (line.to_buy_mm > 0.0 && (!price || price->piece_mm <= 0.0)) {
      row.note += " " + words_("shop.crooked", {length(kCrookedTape)});
    }
    if (line.kind == NotionKind::Binding) {
      if (!line.from_cloth) row.note += " " + words_("shop.bias-binding.note");
      row.note += " " + words_("shop.runs", {runs_of(line)});
    }
    for (const BiasStrips& s : line.strips) {
      row.note += " " + words_("shop.bias", {std::to_string(s.count),
                                             strip_width(s.width_mm, unit_), length(s.length_mm)});
    }
    const std::string told = told_price(line, price);
    if (!told.empty()) row.note += (row.note.empty() ? "" : " ") + told;
    out.push_back(std::move(row));
  }

  void thread(double mm) {
    const bool inch = unit_ == Unit::Inch;
    const std::string amount = number(std::ceil(inch ? mm / kYard : mm / 1000.0), 0);
    out.push_back({words_("shop.thread"), words_(inch ? "shop.yards" : "shop.metres", {amount}),
                   words_("shop.thread.note")});
  }

  void seam_tape_for(const LaidCoats& coats) {
    const std::vector<Cloth> cloths = cloths_of(*coats.front().ticket);
    double mm = 0.0;
    for (const LaidCoat& coat : coats) mm += seam_tape(*coat.draft, cloths);
    if (mm <= 0.0) return;
    const ShoppingLine line = seam_tape_to_buy(mm, unit_);
    const std::optional<WarePrice> price = price_of(line, quote_);
    std::string note =
        needed("shop.needed", mm, coats.size()) + " " + words_("shop.seam-tape.note");
    if (price) note += " " + told_price(line, price);
    out.push_back({notion_title(line, unit_, words_), ware_amount(line, price, unit_, words_),
                   std::move(note)});
  }

  // Of several coats some may want another needle than the others.
  void needles(const LaidCoats& coats) {
    const std::vector<CoatName> names = coat_names(coats, words_);
    std::vector<std::pair<std::string, std::string>> kinds;  // and for whom
    const std::vector<Cloth> cloths = cloths_of(*coats.front().ticket);
    for (size_t n = 0; n < coats.size(); ++n) {
      const std::string kind = needle_for(*coats[n].draft, cloths);
      const std::string name = names.empty() ? "" : names[n].name;
      const auto known =
          std::find_if(kinds.begin(), kinds.end(), [&](const auto& k) { return k.first == kind; });
      if (known == kinds.end()) {
        kinds.emplace_back(kind, name);
      } else {
        known->second += ", " + name;
      }
    }
    for (const auto& [kind, whom] : kinds) {
      out.push_back(
          {words_("shop.needle"), words_("needle." + kind),
           kinds.size() > 1 ? words_("shop.needle.note-of", {whom}) : words_("shop.needle.note")});
    }
  }

  std::vector<ShoppingRow> out;

 private:
  // "250.9 cm + 2 × 38.3 cm".
  [[nodiscard]] std::string runs_of(const ShoppingLine& line) const {
    std::string sum;
    for (const ShoppingRun& run : line.runs) {
      const std::string one = length(run.length_mm);
      sum += (sum.empty() ? "" : " + ") +
             (run.count > 1 ? words_("shop.cut", {std::to_string(run.count), one}) : one);
    }
    return sum;
  }
  [[nodiscard]] std::string needed(const std::string& key, double mm, size_t coats) const {
    if (coats < 2) return words_(key, {length(mm)});
    return words_(key + "-together", {length(mm), std::to_string(coats)});
  }
  [[nodiscard]] std::string length(double mm) const {
    return format_length(Length::mm(mm), lengths_);
  }
  // What it costs; or that this width has no price yet, if another one has.
  [[nodiscard]] std::string told_price(const ShoppingLine& line,
                                       const std::optional<WarePrice>& price) const {
    if (line.from_cloth) return "";
    if (price) {
      const std::string sum = money(price->price, quote_);
      if (line.kind == NotionKind::HookLoop && price->piece_mm <= 0.0) {
        return words_(quote_.by_yard ? "shop.price-pair-yard" : "shop.price-pair-metre", {sum});
      }
      if (line.length_mm <= 0.0) return words_("shop.price-each", {sum});
      if (price->piece_mm > 0.0) return words_("shop.price-piece", {sum});
      return words_(quote_.by_yard ? "shop.price-yard" : "shop.price-metre", {sum});
    }
    const bool other = std::any_of(quote_.wares.begin(), quote_.wares.end(), [&](const auto& w) {
      return w.kind == line.kind && w.price > 0.0;
    });
    return other ? words_("shop.no-price", {called_width(line, unit_)}) : "";
  }

  Unit unit_;
  const QuoteChoices& quote_;
  const Words& words_;
  LengthStyle lengths_;
};

}  // namespace

std::string yardage(double mm, Unit unit, const Words& words) {
  if (unit == Unit::Centimetre) return words("shop.metres", {number(mm / 1000.0, 2)});
  const auto eighths = static_cast<long>(std::ceil(8.0 * mm / kYard - 1e-6));
  const std::string part = kEighths[eighths % 8];
  const std::string whole = eighths >= 8 || part.empty() ? std::to_string(eighths / 8) : "";
  return words(eighths <= 8 ? "shop.yard" : "shop.yards", {whole + part});
}

ShoppingRow notion_row(const Notion& notion, Unit unit, const Words& words) {
  const LengthStyle lengths{.unit = unit};
  const ShoppingLine ware{
      .kind = notion.kind, .width_mm = notion.width_mm, .from_cloth = notion.from_cloth};
  const std::string count = std::to_string(notion.count);
  return {notion_title(ware, unit, words),
          notion.length_mm <= 0.0
              ? count
              : words("shop.cut", {count, format_length(Length::mm(notion.length_mm), lengths)}),
          place_in_words(notion.place, words)};
}

std::string ware_amount(const ShoppingLine& line, const std::optional<WarePrice>& price, Unit unit,
                        const Words& words) {
  if (line.length_mm <= 0.0) return std::to_string(line.count);
  if (!price || price->piece_mm <= 0.0) return yardage(line.to_buy_mm, unit, words);
  const LengthStyle style{.unit = unit};
  return words("shop.pieces", {std::to_string(pieces_of(line, *price)),
                               format_length(Length::mm(price->piece_mm), style)});
}

std::string bought(const ClothLine& line, Unit unit, const Words& words) {
  if (line.cloth.rest_mm > 0.0) return words(line.lacks_mm > 0.0 ? "shop.too-short" : "shop.there");
  return yardage(line.to_buy_mm, unit, words);
}

std::string rest_answer(const ClothLine& line, Unit unit, const Words& words) {
  const LengthStyle style{.unit = unit};
  const auto rest = format_length(Length::mm(line.cloth.rest_mm), style);
  if (line.lacks_mm > 0.0) {
    const Length lacks = Length::mm(std::max(line.lacks_mm, smallest_step(style)));
    return words("shop.rest-lacks", {rest, format_length(lacks, style)});
  }
  const double over = line.cloth.rest_mm - line.needed_mm / (1.0 - line.cloth.shrinkage);
  return words("shop.rest-enough",
               {rest, format_length(Length::mm(whole_steps(over, style)), style)});
}

std::string cloth_title(const Cloth& cloth, const Words& words) {
  const std::string use = words(std::string("cloth.") + cloth_use_id(cloth.use));
  return cloth.name.empty() ? use : words("shop.named", {cloth.name, use});
}

std::vector<ShoppingRow> shopping_rows(const LaidCoats& coats, const std::vector<LaidCloth>& cloths,
                                       const Words& words) {
  const Ticket& ticket = *coats.front().ticket;
  Rows rows(ticket, words);
  rows.out = cloth_rows(ticket, cloths, words);
  for (const ShoppingLine& line : shopping_list(drafts_of(coats), ticket.unit)) {
    rows.add(line, coats.size());
  }
  for (ShoppingRow& row : thread_rows(coats, words)) rows.out.push_back(std::move(row));
  return std::move(rows.out);
}

std::vector<ShoppingRow> cloth_rows(const Ticket& ticket, const std::vector<LaidCloth>& cloths,
                                    const Words& words) {
  Rows rows(ticket, words);
  for (const ClothLine& line : cloth_to_buy(cloths, ticket.unit)) rows.add(line);
  return std::move(rows.out);
}

std::vector<ShoppingRow> thread_rows(const LaidCoats& coats, const Words& words) {
  Rows rows(*coats.front().ticket, words);
  rows.seam_tape_for(coats);
  rows.thread(thread_length(drafts_of(coats)));
  rows.needles(coats);
  return std::move(rows.out);
}

}  // namespace coatwright
