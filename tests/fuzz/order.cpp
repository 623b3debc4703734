// What one program hands to another: an order of the press, an order of the page that lights the cutting
// table, and that page's questions. Nothing that is no order is taken for one, what is taken comes back the
// same when it is written, and every answer is of whole records with finite numbers.
//
// The bytes are tried as both orders; what stands behind the first U+001D are questions, ended by others,
// asked of the coat of the order, or of a demo coat if it is none.

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "core/base/utf8.h"
#include "shell/pages/forms.h"
#include "shell/pages/records.h"
#include "shell/pages/table_page.h"
#include "shell/words/words_table.h"
#include "tests/fuzz/drafts.h"

using namespace coatwright;

namespace {

constexpr char kQuestion = '\x1D';

Ticket a_dog() {
  Ticket ticket;
  ticket.dog = "Bosun";
  ticket.unit = Unit::Centimetre;
  ticket.of(Measure::Back) = {"56 cm"};
  ticket.of(Measure::Neck) = {"42 cm"};
  ticket.of(Measure::Chest) = {"67 cm"};
  ticket.of(Measure::Drop) = {"24.5 cm"};
  ticket.of(Measure::Breast) = {"69 cm"};
  return ticket;
}

const TableShow& demo() {
  static const auto shown =
      open_table(write_table_order({"", write_ticket(a_dog()), {}}), word_table());
  return std::get<TableShow>(shown);
}

void require_records(std::string_view text) {
  require(text.empty() || text.back() == kEndOfRecord, "whole records");
  while (!text.empty()) {
    std::string_view record = cut_off(text, kEndOfRecord);
    require(!record.empty() && record.back() == kEndOfField, "whole fields");
    while (!record.empty()) {
      const std::string_view field = cut_off(record, kEndOfField);
      require(is_clean(field, false), "clean field");
      require(field != "nan" && field != "inf" && field != "-nan" && field != "-inf", "a number");
    }
  }
}

void ask(const TableShow& show, std::string_view questions) {
  constexpr int kMost = 8;
  for (int n = 0; n < kMost && !questions.empty(); ++n) {
    require_records(table_answer(show, cut_off(questions, kQuestion), word_table()));
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::string_view rest(reinterpret_cast<const char*>(data), size);
  const std::string_view text = cut_off(rest, kQuestion);

  if (const auto form = read_form_order(text)) {
    const auto again = read_form_order(write_form_order(*form));
    require(again.has_value(), "an order of the press reads back");
    require(again->form == form->form && again->coats.size() == form->coats.size() &&
                again->choices.left_out.size() == form->choices.left_out.size(),
            "as it was");
    require(!form->coats.empty() && form->coats.size() <= kMostFormCoats, "bounded");
  }
  if (const auto table = read_table_order(text)) {
    require(read_table_order(write_table_order(*table)) == table,
            "an order of the table reads back");
    require(table->others.size() < kMostCoats, "bounded");
  }
  const auto opened = open_table(text, word_table());
  if (const auto* why = std::get_if<std::string>(&opened)) {
    require(is_clean(*why, false) && !why->empty() && why->size() < 4000, "a sentence");
    ask(demo(), rest);
    return 0;
  }
  const auto& show = std::get<TableShow>(opened);
  require_records(table_list(show, word_table()));
  ask(show, rest);
  return 0;
}
