#include "shell/tool/lay.h"

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/base/utf8.h"
#include "core/draw/lay_drawing.h"
#include "core/draw/number.h"
#include "core/draw/svg.h"
#include "core/lay/hand_lay.h"
#include "core/lay/lamination.h"
#include "core/pack/instance.h"
#include "core/table/light.h"
#include "core/ticket/ids.h"
#include "shell/pages/table_page.h"
#include "shell/tool/coats.h"
#include "shell/tool/files.h"
#include "shell/tool/report.h"
#include "shell/words/laid_coats.h"
#include "shell/words/say.h"
#include "shell/words/shopping_words.h"
#include "shell/words/ticket_words.h"
#include "shell/words/words_table.h"

namespace coatwright {
namespace {

// For as long, or for as many steps, as was asked, or until nothing shorter can be found.
template <class Search>
void search_on(const Order& order, Search& search) {
  if (order.steps) {
    while (static_cast<double>(search.steps_done()) < *order.steps && !search.shortest()) {
      search.step(1);
    }
    return;
  }
  // Of the processor's time, so that a busy machine gives the same lays as an idle one.
  const std::clock_t from = std::clock();
  while (static_cast<double>(std::clock() - from) < *order.seconds * CLOCKS_PER_SEC &&
         !search.shortest()) {
    search.step(1);
  }
}

Result<double> read_mm(std::string_view text, Unit unit, const char* subject) {
  const Result<Length> length = parse_length(text, unit);
  if (length) return length->mm();
  Problem problem = length.problem();
  problem.subject = subject;
  return problem;
}

// Makes the cloth a rest: "60 x 40 cm", where a length without a unit has that of the width.
std::optional<Problem> make_rest(std::string_view size, Unit unit, Cloth& cloth) {
  const size_t by = size.find('x');
  if (by == size.npos) return Problem{.code = Code::ClothUnknown, .other = cleaned(size, 40)};
  const std::string_view width = size.substr(by + 1);
  std::string length(size.substr(0, by));
  constexpr std::string_view kPlain = "0123456789 ./,";
  if (length.find_first_not_of(kPlain) == length.npos) {
    const size_t from = width.find_first_not_of(kPlain);
    if (from != width.npos) length += width.substr(from);
  }
  const Result<double> long_mm = read_mm(length, unit, "cloth-rest");
  if (!long_mm) return long_mm.problem();
  const Result<double> wide_mm = read_mm(width, unit, "cloth-width");
  if (!wide_mm) return wide_mm.problem();
  cloth.rest_mm = *long_mm;
  cloth.width_mm = *wide_mm;
  cloth.selvage_mm = 0.0;
  return std::nullopt;
}

// Does `set` with each "shell=…" of a list and the cloth that it names.
template <class Set>
std::optional<Problem> for_each_cloth(std::string_view list, std::vector<Cloth>& cloths,
                                      Set&& set) {
  while (!list.empty()) {
    const size_t comma = list.find(',');
    std::string_view one = list.substr(0, comma);
    list = comma == list.npos ? std::string_view{} : list.substr(comma + 1);
    one.remove_prefix(std::min(one.size(), one.find_first_not_of(' ')));
    const size_t equals = one.find('=');
    const auto cloth = std::find_if(cloths.begin(), cloths.end(), [&](const Cloth& c) {
      return one.substr(0, equals) == cloth_use_id(c.use);
    });
    if (equals == one.npos || cloth == cloths.end()) {
      return Problem{.code = Code::ClothUnknown, .other = cleaned(one, 40)};
    }
    if (const auto problem = set(one.substr(equals + 1), *cloth)) return problem;
  }
  return std::nullopt;
}

// The ticket’s cloths with the widths and rests that were given instead.
Result<std::vector<Cloth>> cloths_of(const Order& order, const Ticket& ticket) {
  std::vector<Cloth> cloths;
  for (int i = 0; i < kClothUses; ++i) cloths.push_back(cloth_of(ticket, static_cast<ClothUse>(i)));
  const auto set_width = [&](std::string_view text, Cloth& cloth) -> std::optional<Problem> {
    const Result<double> width = read_mm(text, ticket.unit, "cloth-width");
    if (!width) return width.problem();
    cloth.width_mm = *width;
    return std::nullopt;
  };
  const auto set_rest = [&](std::string_view text, Cloth& cloth) {
    return make_rest(text, ticket.unit, cloth);
  };
  if (const auto problem = for_each_cloth(order.widths, cloths, set_width)) return *problem;
  if (const auto problem = for_each_cloth(order.scrap, cloths, set_rest)) return *problem;
  return cloths;
}

// The ticket's own lay of the cloth, if its maker has laid it by hand, else one that is found.
Result<LaidCloth> laid_cloth(const Order& order, const Ticket& ticket, const LayOrder& lay_order,
                             const Cloth& cloth) {
  const HandLay* hand = hand_lay(ticket.hand_lays, lay_order.use, lay_order.laminated);
  if (hand != nullptr) {
    Result<LayTable> table = LayTable::begin(lay_order, cloth);
    if (!table) return table.problem();
    LaidCloth laid{.lay = table->laid(*hand).lay};
    const auto problem = problem_of(table.value().faults(laid.lay), lay_order.use);
    if (problem) return *problem;
    return laid;
  }
  Result<LaySearch> search =
      LaySearch::begin(lay_order, cloth, static_cast<std::uint32_t>(order.seed.value_or(1.0)));
  if (!search) return search.problem();
  search_on(order, search.value());
  return LaidCloth{.lay = search->best(), .steps = search->steps_done()};
}

std::string file_of(const char* what, const Lay& lay) {
  return what + lay_key(lay.cloth.use, lay.laminated) + ".svg";
}

// The projector of --light.
struct Lamp {
  TableSetUp set_up;
  LightStyle style;
};
// Nothing if it is no set-up that holds a map.
std::optional<Lamp> lamp_of(std::string_view list) {
  Lamp lamp;
  std::vector<double*> numbers = {&lamp.set_up.width_mm, &lamp.set_up.height_mm,
                                  &lamp.style.px_wide, &lamp.style.px_high};
  for (Point& pin : lamp.set_up.pins) numbers.insert(numbers.end(), {&pin.x, &pin.y});
  std::string text(list.substr(0, 400));
  for (char& c : text) c = c == 'x' || c == ',' ? ' ' : c;
  const char* at = text.c_str();
  for (double* number : numbers) {
    char* end = nullptr;
    *number = std::strtod(at, &end);
    if (end == at) return std::nullopt;
    at = end;
  }
  if (*at != '\0' || fault_of(lamp.set_up) != SetUpFault::None) return std::nullopt;
  return lamp;
}

// The lays as the lamp shows them, and a square to check it by.
std::vector<NamedText> lit_pictures(const Lamp& lamp, const std::vector<LaidCloth>& laid,
                                    const std::vector<LayCoat>& cut, const LayNotes& notes) {
  const auto picture = [&](const Light& light, const std::string& title) {
    return light_svg(light, lamp.style.px_wide, lamp.style.px_high, title);
  };
  std::vector<NamedText> files;
  for (const LaidCloth& one : laid) {
    const TableLay lay = table_lay(one.lay, cut, notes.coats, word_table());
    const Light light = light_of_lay(lamp.set_up, lay, {}, {}, false, lamp.style);
    files.push_back({file_of("table-", one.lay), picture(light, lay.title)});
  }
  constexpr double kStep = 50.0;  // mm
  const double side = check_side(lamp.set_up, kStep);
  std::string title;
  append_number(title, side);
  files.push_back(
      {"table-check.svg", picture(light_of_check(lamp.set_up, side, lamp.style), title + " mm")});
  return files;
}

// Of each rest a line on stdout: whether the coat can be cut from it.
int tell_rests(const std::vector<LaidCloth>& laid, Unit unit) {
  std::string lines;
  for (const ClothLine& line : cloth_to_buy(laid, unit)) {
    if (line.cloth.rest_mm <= 0.0) continue;
    lines +=
        cloth_title(line.cloth, word_table()) + ": " + rest_answer(line, unit, word_table()) + "\n";
  }
  return lines.empty() ? kDone : write_out(lines);
}

// Of the coats that are laid together the first that does not go onto these cloths even by itself;
// nothing if each one does.
std::optional<std::string> unfit(const LaidCoats& coats, const std::vector<LayCoat>& cut,
                                 const std::vector<Cloth>& cloths, bool trial) {
  for (size_t n = 0; n < cut.size(); ++n) {
    for (const LayOrder& order : lay_orders(std::vector<LayCoat>{cut[n]}, trial)) {
      const auto search = LaySearch::begin(order, cloths[static_cast<size_t>(order.use)], 1);
      if (search) continue;
      const std::string why =
          say(search.problem(), word_table(), lengths_of(*coats.front().ticket));
      return coats.size() < 2 ? why
                              : word_table()("form.coat-refused",
                                             {title_of(*coats[n].ticket, word_table()), why});
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<Problem> lay_all(const Order& order, std::vector<MadeCoat>& coats) {
  Order usual = order;
  usual.steps = kUsualSteps;
  Ticket& ticket = coats.front().ticket;
  for (const LayOrder& lay_order :
       lay_orders(lay_coats(coats), ticket.of(ClothUse::Trial).has_value())) {
    Result<LaidCloth> laid = laid_cloth(usual, ticket, lay_order, cloth_of(ticket, lay_order.use));
    if (!laid) return laid.problem();
    ticket.hand_lays = with_hand_lay(std::move(ticket.hand_lays), hand_lay_of(laid->lay));
  }
  return std::nullopt;
}

int lay(const Order& order, MadeCoat first) {
  constexpr double kLeastLeftover = 100.0;  // mm: what a small piece may want
  const std::optional<std::vector<MadeCoat>> made = coats_of(order, std::move(first));
  if (!made) return kRefused;
  const Ticket& ticket = made->front().ticket;
  const LengthStyle lengths = lengths_of(ticket);
  const LaidCoats coats = laid_coats(*made);
  const std::vector<LayCoat> cut = lay_coats(*made);
  const LayNotes notes{.lengths = lengths, .coats = coat_names(coats, word_table())};
  std::optional<Lamp> lamp;
  if (!order.light.empty()) {
    lamp = lamp_of(order.light);
    if (!lamp) return refuse(word_table()("tool.no-light"));
  }
  const Result<std::vector<Cloth>> cloths = cloths_of(order, ticket);
  if (!cloths) return refuse(cloths.problem(), lengths);
  const bool trial = ticket.of(ClothUse::Trial) ||
                     order.widths.find("trial=") != std::string::npos ||
                     order.scrap.find("trial=") != std::string::npos;
  if (const auto why = unfit(coats, cut, *cloths, trial)) return refuse(*why);
  std::vector<LaidCloth> laid;
  for (const LayOrder& lay_order : lay_orders(cut, trial)) {
    const Cloth& cloth = (*cloths)[static_cast<size_t>(lay_order.use)];
    Result<LaidCloth> made_lay = laid_cloth(order, ticket, lay_order, cloth);
    if (!made_lay) return refuse(made_lay.problem(), lengths);
    LaidCloth& one = made_lay.value();
    if (one.lay.laminated) {
      const Result<Lamination> plan =
          lamination_of(one.lay, (*cloths)[static_cast<size_t>(ClothUse::Laminate)]);
      if (!plan) return refuse(plan.problem(), lengths);
      one.lamination = *plan;
    }
    laid.push_back(std::move(one));
  }
  std::vector<LaidCloth*> all;
  for (LaidCloth& one : laid) all.push_back(&one);
  place_on_rests(all);
  std::vector<NamedText> files;
  for (LaidCloth& one : laid) {
    one.left_over = leftovers(one.lay, 3, kLeastLeftover);
    const std::string title =
        title_of(coats, word_table()) + ": " + lay_title(one.lay, word_table());
    files.push_back({file_of("lay-", one.lay),
                     to_svg(draw_lay(one.lay, one.left_over, notes, word_table()), title)});
  }
  if (lamp) {
    for (NamedText& file : lit_pictures(*lamp, laid, cut, notes)) files.push_back(std::move(file));
  }
  files.push_back({"lay.json", lay_json(coats, laid, word_table())});
  if (const int failed = write_all(order.out, files)) return failed;
  return tell_rests(laid, ticket.unit);
}

int pack(const Order& order, std::string_view text) {
  Result<PackInstance> instance = read_instance(text);
  if (!instance) return refuse(instance.problem(), {});
  instance.value().task.seed = static_cast<std::uint32_t>(order.seed.value_or(1.0));
  Result<PackSearch> begun = PackSearch::begin(instance->task);
  if (!begun) return refuse(in_file_units(begun.problem(), *instance), {});
  PackSearch& search = begun.value();
  search_on(order, search);
  const std::filesystem::path out(order.out);
  return write_all(
      out.has_parent_path() ? out.parent_path().string() : ".",
      {{out.filename().string(), write_layout(*instance, search.best(), search.steps_done())}});
}

}  // namespace coatwright
