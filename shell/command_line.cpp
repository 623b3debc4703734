// The command-line tool `coatwright`: the same core as the studio's, without a screen.
//
// Ends with 0 when done, 1 when it was used wrongly (usage on stderr), 2 when the file or the
// folder was refused (one sentence on stderr). Files are written whole or not at all.

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <ctime>
#include <filesystem>
#include <optional>
#include <random>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/utf8.h"
#include "core/base/version.h"
#include "core/lay/hand_lay.h"
#include "core/lay/instance.h"
#include "core/lay/lamination.h"
#include "core/sheet/lay_drawing.h"
#include "core/sheet/print.h"
#include "core/sheet/svg.h"
#include "core/slip/code.h"
#include "core/slip/merge.h"
#include "core/ticket/ids.h"
#include "core/ticket/ticket.h"
#include "shell/laid_coats.h"
#include "shell/make_page.h"
#include "shell/recipe_page.h"
#include "shell/report.h"
#include "shell/say.h"
#include "shell/shopping_words.h"
#include "shell/ticket_words.h"
#include "shell/words_table.h"

namespace coatwright {
namespace {

constexpr int kDone = 0;
constexpr int kWrongUse = 1;
constexpr int kRefused = 2;

constexpr const char* kUsage =
    "usage: coatwright check TICKET              values and findings, as JSON on stdout\n"
    "       coatwright draft TICKET --out DIR    writes draft.json and pattern.svg\n"
    "       coatwright print TICKET --out DIR    writes sheets.svg and sheets.html\n"
    "       coatwright recipe TICKET --out DIR   writes recipe.html: the pattern drawn by hand\n"
    "       coatwright make TICKET --out DIR     writes make.html: what to cut, how it is sewn\n"
    "       coatwright lay TICKET... --out DIR   writes lay.json, and each cloth's cutting "
    "diagram;\n"
    "                                            cloths that are laid by hand stay so. Up to four\n"
    "                                            coats are laid together on the cloths of the\n"
    "                                            first ticket\n"
    "       coatwright pack INSTANCE (--seconds S | --steps N) --out FILE    packs pieces on a "
    "strip\n"
    "       coatwright slip TICKET               the code that asks a client for readings\n"
    "       coatwright answer TICKET MESSAGE     what came back beside the ticket, as JSON on "
    "stdout\n"
    "       coatwright --help | --version\n"
    "\n"
    "all but check:\n"
    "  --out DIR      folder to write to, made if it is not there\n"
    "draft and print:\n"
    "  --full         whole pieces instead of halves on the fold\n"
    "print:\n"
    "  --paper PAPER  a4, letter, legal, tabloid, a3, a0 or WIDTHxHEIGHTmm; else the ticket's\n"
    "  --turn TURN    fewest (sheets), portrait or landscape; else the ticket's\n"
    "print, recipe and make:\n"
    "  --date TEXT    printed on the paper; else today\n"
    "lay:\n"
    "  --widths LIST  of cloths that are not as usual: \"shell=54 in, lining=150 cm\"\n"
    "  --scrap LIST   rests to cut from, length along the grain x width: \"lining=60 x 40 cm\";\n"
    "                 says of each on stdout whether it is enough\n"
    "pack and lay:\n"
    "  --seconds S    for how long to search (a cloth), in processor time, or\n"
    "  --steps N      how many steps to search: the same layout every time\n"
    "  --seed N       another search; else 1\n"
    "pack:\n"
    "  --out FILE     the layout, as JSON\n"
    "slip: put the code behind the # of the slip page's address\n"
    "  --all          every measure that is needed or worth taking; else those that are missing\n"
    "  --studio NAME  who asks\n"
    "  --back ADDRESS mail address or telephone number to which the answer goes\n"
    "  --note TEXT    for the client\n"
    "slip and answer:\n"
    "  --token TOKEN  eight letters by which an answer finds its ticket; slip makes one, answer\n"
    "                 refuses a message with another\n"
    "MESSAGE is a link, a text with a code in it, or - for stdin.\n"
    "\n"
    "ends with 0 done, 1 wrong use, 2 refused (the reason on stderr)\n";

// ---- arguments ---------------------------------------------------------------------------------

struct Order {
  std::string command;                 // one of kCommands
  std::string file;                    // the ticket, or what is to be packed
  std::vector<std::string> with = {};  // tickets whose coats are laid together with that one
  std::string out;
  bool full = false;
  std::optional<std::string> paper;
  std::optional<Turn> turn;
  std::optional<std::string> date;
  std::optional<double> seconds;
  std::optional<double> steps;
  std::optional<double> seed;
  std::string widths, scrap;
  bool all = false;
  std::string studio, back, note;
  std::optional<SlipToken> token;
  std::string message;
};

constexpr std::string_view kCommands[] = {"check", "draft", "print", "recipe", "make",
                                          "lay",   "pack",  "slip",  "answer"};

// What each option belongs to.
struct Option {
  const char* name;
  std::vector<const char*> commands;
  bool has_value = true;
};
const std::vector<Option>& options() {
  static const std::vector<Option> all = {
      {"--out", {"draft", "print", "recipe", "make", "lay", "pack"}},
      {"--full", {"draft", "print"}, false},
      {"--paper", {"print"}},
      {"--turn", {"print"}},
      {"--date", {"print", "recipe", "make"}},
      {"--widths", {"lay"}},
      {"--scrap", {"lay"}},
      {"--seconds", {"lay", "pack"}},
      {"--steps", {"lay", "pack"}},
      {"--seed", {"lay", "pack"}},
      {"--all", {"slip"}, false},
      {"--studio", {"slip"}},
      {"--back", {"slip"}},
      {"--note", {"slip"}},
      {"--token", {"slip", "answer"}},
  };
  return all;
}

// A plain decimal from `lowest` to `highest`.
std::optional<double> number_of(const std::string& text, double lowest, double highest,
                                bool whole) {
  if (text.empty() || text.size() > 20 || text.find_first_not_of("0123456789.") != text.npos) {
    return std::nullopt;
  }
  char* end = nullptr;
  const double value = std::strtod(text.c_str(), &end);
  if (*end != '\0' || !(value >= lowest && value <= highest)) return std::nullopt;
  if (whole && value != std::floor(value)) return std::nullopt;
  return value;
}

// Nothing if the arguments make no order; `why` then says what is wrong.
std::optional<Order> order_of(const std::vector<std::string>& arguments, std::string& why) {
  Order order;
  std::vector<std::string> names;
  std::vector<const Option*> seen;
  for (size_t i = 0; i < arguments.size(); ++i) {
    const std::string& a = arguments[i];
    if (!a.starts_with("--")) {
      names.push_back(a);
      continue;
    }
    const auto option = std::find_if(options().begin(), options().end(),
                                     [&](const Option& o) { return a == o.name; });
    if (option == options().end()) {
      why = "there is no option " + a;
      return std::nullopt;
    }
    if (std::find(seen.begin(), seen.end(), &*option) != seen.end()) {
      why = a + " is given twice";
      return std::nullopt;
    }
    seen.push_back(&*option);
    if (!option->has_value) {
      (a == "--all" ? order.all : order.full) = true;
      continue;
    }
    if (i + 1 == arguments.size() || arguments[i + 1].starts_with("--")) {
      why = a + " lacks its value";
      return std::nullopt;
    }
    const std::string& value = arguments[++i];
    if (a == "--out") order.out = value;
    if (a == "--paper") order.paper = value;
    if (a == "--date") order.date = value;
    if (a == "--turn" && !(order.turn = from_id<Turn>(value))) {
      why = "--turn is fewest, portrait or landscape";
      return std::nullopt;
    }
    if (a == "--widths") order.widths = value;
    if (a == "--scrap") order.scrap = value;
    if (a == "--studio") order.studio = value;
    if (a == "--back") order.back = value;
    if (a == "--note") order.note = value;
    if (a == "--token" && !(order.token = token_from_text(value))) {
      why = "--token is eight letters, as slip made them";
      return std::nullopt;
    }
    if (a == "--seconds" && !(order.seconds = number_of(value, 0.0, 86400.0, false))) {
      why = "--seconds is a number from 0 to 86400";
      return std::nullopt;
    }
    if (a == "--steps" && !(order.steps = number_of(value, 0.0, 1e12, true))) {
      why = "--steps is a whole number from 0 to 1000000000000";
      return std::nullopt;
    }
    if (a == "--seed" && !(order.seed = number_of(value, 0.0, 4294967295.0, true))) {
      why = "--seed is a whole number from 0 to 4294967295";
      return std::nullopt;
    }
  }
  if (names.empty()) {
    why = "no command is given";
    return std::nullopt;
  }
  const std::string& command = names[0];
  if (std::find(std::begin(kCommands), std::end(kCommands), command) == std::end(kCommands)) {
    why = "there is no command " + command;
    return std::nullopt;
  }
  const size_t most = command == "answer" ? 3 : command == "lay" ? 1 + kMostCoats : 2;
  const bool complete = names.size() <= most && (command == "lay" || names.size() == most);
  if (names.size() < 2 || !complete || names[1].empty()) {
    why = command + (command == "pack"     ? " takes one instance"
                     : command == "lay"    ? " takes one ticket, or up to four"
                     : command == "answer" ? " takes one ticket and one message"
                                           : " takes one ticket");
    return std::nullopt;
  }
  const bool to_stdout = command == "check" || command == "slip" || command == "answer";
  for (const Option* option : seen) {
    const auto& fitting = option->commands;
    if (std::find(fitting.begin(), fitting.end(), command) == fitting.end()) {
      why = command + " takes no " + option->name;
      return std::nullopt;
    }
  }
  if ((command == "pack" || command == "lay") &&
      order.seconds.has_value() == order.steps.has_value()) {
    why = command + " needs --seconds S or --steps N";
  } else if (!to_stdout && order.out.empty()) {
    why = command + (command == "pack" ? " needs --out FILE" : " needs --out DIR");
  } else {
    order.command = command;
    order.file = names[1];
    if (command == "answer") order.message = names[2];
    if (command == "lay") order.with.assign(names.begin() + 2, names.end());
    return order;
  }
  return std::nullopt;
}

// ---- files -------------------------------------------------------------------------------------

// Paths and system messages are shown clean, on one line.
std::string shown(std::string_view text) { return cleaned(text, 200); }

int refuse(const std::string& sentence) {
  std::fprintf(stderr, "%s\n", sentence.c_str());
  return kRefused;
}
std::string sentence(const char* key, std::string_view path, std::string_view reason) {
  return word_table()(key, {shown(path), shown(reason)});
}

// At most one byte more than such a file may have: its reader refuses it then.
bool read_file(const std::string& path, size_t most, std::string& out) {
  std::FILE* file = std::fopen(path.c_str(), "rb");
  if (!file) return false;
  out.resize(most + 1);
  out.resize(std::fread(out.data(), 1, out.size(), file));
  const bool failed = std::ferror(file) != 0;
  const int error = errno;
  std::fclose(file);
  errno = error;
  return !failed;
}

bool write_file(const std::filesystem::path& path, const std::string& text) {
  std::FILE* file = std::fopen(path.c_str(), "wb");
  if (!file) return false;
  const bool written = std::fwrite(text.data(), 1, text.size(), file) == text.size();
  const int error = errno;
  const bool closed = std::fclose(file) == 0;
  if (!written) errno = error;
  return written && closed;
}

struct NamedText {
  std::string name;
  std::string text;
};

// Writes all of them or none: each beside its place first, then all are renamed.
int write_all(const std::string& folder, const std::vector<NamedText>& files) {
  namespace fs = std::filesystem;
  const fs::path into(folder);
  std::error_code error;
  fs::create_directories(into, error);
  if (!fs::is_directory(into)) {
    return refuse(sentence("tool.no-folder", folder, error ? error.message() : "Not a directory"));
  }
  const auto beside = [&](const NamedText& f) {
    return into / (std::string(".") + f.name + ".part");
  };
  const auto give_up = [&](const NamedText& f, const std::string& reason) {
    for (const NamedText& each : files) fs::remove(beside(each), error);
    return refuse(sentence("tool.no-writing", (into / f.name).string(), reason));
  };
  for (const NamedText& f : files) {
    if (!write_file(beside(f), f.text)) return give_up(f, std::strerror(errno));
  }
  for (const NamedText& f : files) {
    if (fs::is_directory(into / f.name)) return give_up(f, "Is a directory");
  }
  for (const NamedText& f : files) {
    fs::rename(beside(f), into / f.name, error);
    if (error) return give_up(f, error.message());
  }
  return kDone;
}

std::string today() {
  const std::time_t now = std::time(nullptr);
  char text[16] = {};
  std::strftime(text, sizeof text, "%Y-%m-%d", std::localtime(&now));
  return text;
}

// ---- commands ----------------------------------------------------------------------------------

LengthStyle lengths_of(const Ticket& ticket) { return drawing_choices(ticket).lengths; }

int refuse(const Problem& problem, const LengthStyle& style) {
  return refuse(say(problem, word_table(), style));
}

int write_out(const std::string& text) {
  const bool written =
      std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0;
  return written ? kDone : refuse(sentence("tool.no-writing", "stdout", std::strerror(errno)));
}

int check(const Ticket& ticket, const Tape& tape) {
  const Checked<Body> body = assess(tape);
  const Checked<Pattern> made = make_pattern(tape, ticket.choices, style_of(ticket));
  Findings findings = made.findings;
  if (!made.result) findings.push_back({Level::Refused, made.result.problem()});
  const std::string json =
      check_json(ticket, body.result ? &*body.result : nullptr, findings, word_table());
  if (const int failed = write_out(json)) return failed;
  return made.result ? kDone : refuse(made.result.problem(), lengths_of(ticket));
}

int draft(const Order& order, const Ticket& ticket, const Checked<Pattern>& made) {
  DrawingChoices drawing = drawing_choices(ticket);
  drawing.opened = order.full;
  const PatternDrawing whole = draw_pattern(*made.result, drawing, word_table());
  return write_all(
      order.out,
      {{"draft.json", draft_json(ticket, *made.result, made.findings, order.full, word_table())},
       {"pattern.svg", to_svg(whole.drawing, title_of(ticket, word_table()))}});
}

// Any short clean text will do: the maker may write a date as they like.
bool is_date(const std::string& date) {
  return count_characters(date) <= 30 && is_clean(date, false);
}

int print(const Order& order, const Ticket& ticket, const Checked<Pattern>& made) {
  PrintChoices print = ticket.print;
  if (order.paper) print.paper = *order.paper;
  if (order.turn) print.turn = *order.turn;
  if (order.full) print.opened = true;
  const std::string date = order.date ? *order.date : today();
  if (!is_date(date)) return refuse(word_table()("tool.bad-date"));
  const DrawingChoices drawing = drawing_choices(ticket);
  const Result<SheetPlan> plan = plan_sheets(*made.result, print, drawing, word_table());
  if (!plan) return refuse(plan.problem(), drawing.lengths);
  const SheetNotes notes{.ticket = title_of(ticket, word_table()), .date = date};
  const std::vector<Drawing> sheets = draw_sheets(*plan, notes, word_table());
  const double width = plan->sheet_width;
  const double height = plan->sheet_height;
  return write_all(order.out, {{"sheets.svg", sheets_svg(sheets, width, height, notes.ticket)},
                               {"sheets.html", sheets_html(sheets, width, height, notes.ticket)}});
}

// A text document of the pattern: the recipe or the make sheet.
using WriteDocument = std::string (*)(const Ticket&, const Pattern&, const Words&,
                                      const std::string& date);
int document(const Order& order, const Ticket& ticket, const Checked<Pattern>& made,
             const char* file, WriteDocument write) {
  const std::string date = order.date ? *order.date : today();
  if (!is_date(date)) return refuse(word_table()("tool.bad-date"));
  return write_all(order.out, {{file, write(ticket, *made.result, word_table(), date)}});
}

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

Result<Pattern> pattern_of(const Ticket& ticket) {
  const Result<Tape> tape = tape_of(ticket);
  if (!tape) return tape.problem();
  return make_pattern(*tape, ticket.choices, style_of(ticket)).result;
}

// A coat that is laid together with the order's first, from its own file.
struct OtherCoat {
  std::string key;
  Ticket ticket;
  Pattern pattern;
};

// Nothing if a ticket was refused, and that said by the dog's name, or the file's.
std::optional<std::vector<OtherCoat>> others_of(const Order& order, const Ticket& first) {
  std::vector<OtherCoat> others;
  const auto refused = [](const std::string& name, const Problem& problem,
                          const LengthStyle& style) {
    refuse(word_table()("tool.coat-refused", {shown(name), say(problem, word_table(), style)}));
    return std::nullopt;
  };
  for (size_t n = 0; n < order.with.size(); ++n) {
    const std::string& file = order.with[n];
    std::string text;
    errno = 0;
    if (!read_file(file, kMostTicketBytes, text)) {
      refuse(sentence("tool.no-reading", file, std::strerror(errno)));
      return std::nullopt;
    }
    Result<Ticket> ticket = read_ticket(text);
    if (!ticket) return refused(file, ticket.problem(), {});
    Result<Pattern> pattern = pattern_of(*ticket);
    if (!pattern) {
      return refused(title_of(*ticket, word_table()), pattern.problem(), lengths_of(*ticket));
    }
    // A rack knows them by their ids, and so do places by hand; files come in the same order.
    const bool named = n < first.laid_with.size();
    others.push_back({named ? first.laid_with[n] : "coat-" + std::to_string(n + 2),
                      std::move(ticket.value()), std::move(pattern.value())});
  }
  return others;
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
                              : word_table()("tool.coat-refused",
                                             {title_of(*coats[n].ticket, word_table()), why});
    }
  }
  return std::nullopt;
}

int lay(const Order& order, const Ticket& ticket, const Checked<Pattern>& made) {
  constexpr double kLeastLeftover = 100.0;  // mm: what a small piece may want
  const LengthStyle lengths = lengths_of(ticket);
  const std::optional<std::vector<OtherCoat>> others = others_of(order, ticket);
  if (!others) return kRefused;
  LaidCoats coats = {{.key = {}, .ticket = &ticket, .draft = &made.result->draft}};
  std::vector<LayCoat> cut = {{.key = {}, .cut = &made.result->cut}};
  for (const OtherCoat& other : *others) {
    coats.push_back({other.key, &other.ticket, &other.pattern.draft});
    cut.push_back({other.key, &other.pattern.cut});
  }
  const LayNotes notes{.lengths = lengths, .coats = coat_names(coats, word_table())};
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
    const std::string name = std::string("lay-") + cloth_use_id(one.lay.cloth.use) +
                             (one.lay.laminated ? "-laminated" : "") + ".svg";
    const std::string title =
        title_of(coats, word_table()) + ": " + lay_title(one.lay, word_table());
    files.push_back({name, to_svg(draw_lay(one.lay, one.left_over, notes, word_table()), title)});
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

SlipToken random_token() {
  std::random_device dice;
  SlipToken token;
  for (uint8_t& byte : token) byte = static_cast<uint8_t>(dice());
  return token;
}

int slip(const Order& order, const Ticket& ticket) {
  Ticket unmeasured = ticket;
  unmeasured.readings = {};
  SlipRequest request = request_for(ticket, measures_to_ask(order.all ? unmeasured : ticket),
                                    order.token ? *order.token : random_token());
  const Result<SlipBack> back = slip_back(order.back);
  if (!back) return refuse(back.problem(), lengths_of(ticket));
  request.back = *back;
  request.studio = order.studio;
  request.note = order.note;
  const Result<std::string> code = write_request(request);
  return code ? write_out(*code + "\n") : refuse(code.problem(), lengths_of(ticket));
}

// At most one byte more than a message may have: its reader refuses it then.
std::string message_of(const Order& order) {
  if (order.message != "-") return order.message;
  std::string text(kMostMessageBytes + 1, '\0');
  text.resize(std::fread(text.data(), 1, text.size(), stdin));
  return text;
}

int answer(const Order& order, const Ticket& ticket) {
  const Result<SlipAnswer> sent = read_answer(message_of(order));
  if (!sent) return refuse(sent.problem(), lengths_of(ticket));
  if (order.token && *order.token != sent->token) {
    return refuse({.code = Code::SlipOtherTicket}, lengths_of(ticket));
  }
  return write_out(answer_json(ticket, *sent, compare(ticket, *sent), word_table()));
}

int carry_out(const Order& order) {
  std::string text;
  errno = 0;
  const size_t most = order.command == "pack" ? kMostInstanceBytes : kMostTicketBytes;
  if (!read_file(order.file, most, text)) {
    return refuse(sentence("tool.no-reading", order.file, std::strerror(errno)));
  }
  if (order.command == "pack") return pack(order, text);
  const Result<Ticket> ticket = read_ticket(text);
  if (!ticket) return refuse(ticket.problem(), {});
  if (order.command == "slip") return slip(order, *ticket);
  if (order.command == "answer") return answer(order, *ticket);
  const Result<Tape> tape = tape_of(*ticket);
  if (!tape) return refuse(tape.problem(), lengths_of(*ticket));
  if (order.command == "check") return check(*ticket, *tape);
  const Checked<Pattern> made = make_pattern(*tape, ticket->choices, style_of(*ticket));
  if (!made.result) return refuse(made.result.problem(), lengths_of(*ticket));
  if (order.command == "lay") return lay(order, *ticket, made);
  if (order.command == "recipe") {
    return document(order, *ticket, made, "recipe.html", recipe_html);
  }
  if (order.command == "make") return document(order, *ticket, made, "make.html", make_html);
  return order.command == "draft" ? draft(order, *ticket, made) : print(order, *ticket, made);
}

int run(const std::vector<std::string>& arguments) {
  if (arguments == std::vector<std::string>{"--version"}) {
    std::printf("coatwright %s\n", version());
    return kDone;
  }
  if (arguments == std::vector<std::string>{"--help"}) {
    std::fputs(kUsage, stdout);
    return kDone;
  }
  std::string why;
  const std::optional<Order> order = order_of(arguments, why);
  if (order) return carry_out(*order);
  std::fprintf(stderr, "coatwright: %s\n\n%s", shown(why).c_str(), kUsage);
  return kWrongUse;
}

}  // namespace
}  // namespace coatwright

int main(int argc, char** argv) {
  return coatwright::run(std::vector<std::string>(argv + 1, argv + argc));
}
