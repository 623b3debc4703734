#include "shell/tool/order.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <span>
#include <string_view>

#include "core/exchange/cutting_svg.h"
#include "core/ticket/ids.h"
#include "shell/words/laid_coats.h"
#include "shell/words/words_table.h"

namespace coatwright {
namespace {

struct Command {
  std::string_view name;
  const char* arguments;
  const char* takes;          // of arguments, in words
  size_t fewest, most;        // of arguments
  const char* out = nullptr;  // what --out names; none: the answer goes to stdout
  bool searches = false;      // for as long as --seconds or --steps say
  const char* help = "";
};

constexpr std::array<Command, 12> kCommands = {{
    {.name = "check",
     .arguments = "TICKET",
     .takes = "one ticket",
     .fewest = 1,
     .most = 1,
     .help = "measures and what to check, as JSON on stdout"},
    {.name = "draft",
     .arguments = "TICKET",
     .takes = "one ticket",
     .fewest = 1,
     .most = 1,
     .out = "DIR",
     .help = "writes draft.json and pattern.svg"},
    {.name = "print",
     .arguments = "TICKET...",
     .takes = "one ticket, or up to 24",
     .fewest = 1,
     .most = kMostFormCoats,
     .out = "DIR",
     .help = "writes sheets.svg and sheets.html, or the form that\n"
             "--as names; several tickets as one job where that\n"
             "form can hold them"},
    {.name = "fit",
     .arguments = "TICKET",
     .takes = "one ticket",
     .fewest = 1,
     .most = 1,
     .out = "DIR",
     .help = "for the trial on the dog: writes the trial coat's\n"
             "trial.svg and trial.html, and fit.html, the card"},
    {.name = "recipe",
     .arguments = "TICKET",
     .takes = "one ticket",
     .fewest = 1,
     .most = 1,
     .out = "DIR",
     .help = "writes recipe.html: the pattern drawn by hand"},
    {.name = "make",
     .arguments = "TICKET",
     .takes = "one ticket",
     .fewest = 1,
     .most = 1,
     .out = "DIR",
     .help = "writes make.html: what to cut, how it is sewn"},
    {.name = "lay",
     .arguments = "TICKET...",
     .takes = "one ticket, or up to four",
     .fewest = 1,
     .most = kMostCoats,
     .out = "DIR",
     .searches = true,
     .help = "writes lay.json, and each cloth's cutting diagram;\n"
             "cloths that are laid by hand stay so. Up to four\n"
             "coats are laid together on the cloths of the\n"
             "first ticket"},
    {.name = "exchange",
     .arguments = "TICKET",
     .takes = "one ticket",
     .fewest = 1,
     .most = 1,
     .out = "DIR",
     .help = "writes for other workrooms pattern.dxf, for cutting\n"
             "machines cutting.svg, for spreadsheets readings.csv\n"
             "and pieces.csv"},
    {.name = "sizes",
     .arguments = "TICKET",
     .takes = "one ticket",
     .fewest = 1,
     .most = 1,
     .out = "DIR",
     .help = "the coat in several sizes: writes a ticket of each,\n"
             "sizes.html with what their dogs measure, and\n"
             "nest.svg with the pieces in each other"},
    {.name = "pack",
     .arguments = "INSTANCE",
     .takes = "one instance",
     .fewest = 1,
     .most = 1,
     .out = "FILE",
     .searches = true,
     .help = "packs shapes on a strip, for research; where they\n"
             "lie, as JSON"},
    {.name = "slip",
     .arguments = "TICKET",
     .takes = "one ticket",
     .fewest = 1,
     .most = 1,
     .help = "the code that asks a client for readings, to be put\n"
             "behind the # of the slip page's address"},
    {.name = "answer",
     .arguments = "TICKET MESSAGE",
     .takes = "one ticket and one message",
     .fewest = 2,
     .most = 2,
     .help = "what came back beside the ticket, as JSON on stdout;\n"
             "the message is a link, a text with a code in it,\n"
             "or - for stdin"},
}};
static_assert(kMostCoats == 4, "the words above say four");

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

struct Option {
  std::string_view name;
  const char* value = nullptr;  // what stands for its value in the help; none: it takes no value
  std::span<const std::string_view> commands;  // that it belongs to
  // Puts the value into the order; false if it is none.
  bool (*set)(Order&, const std::string&);
  const char* must_be = "";  // what the value has to be
  const char* help;
};

template <auto kField>
bool text(Order& order, const std::string& value) {
  return order.*kField = value, true;
}
template <auto kField>
bool flag(Order& order, const std::string&) {
  return order.*kField = true;
}

constexpr double kMostSeconds = 86400.0, kMostSteps = 1e12, kMostSeed = 4294967295.0;

constexpr std::string_view kWriting[] = {"draft", "print",    "fit",   "recipe", "make",
                                         "lay",   "exchange", "sizes", "pack"};
constexpr std::string_view kWithFold[] = {"draft", "print", "fit"};
constexpr std::string_view kPrint[] = {"print", "fit"};
constexpr std::string_view kPrintAlone[] = {"print"};
constexpr std::string_view kDated[] = {"print", "fit", "recipe", "make", "exchange", "sizes"};
constexpr std::string_view kSizes[] = {"sizes"};
constexpr std::string_view kPrintOrExchange[] = {"print", "exchange"};
constexpr std::string_view kLay[] = {"lay"};
constexpr std::string_view kSearching[] = {"lay", "pack"};
constexpr std::string_view kSlip[] = {"slip"};
constexpr std::string_view kWithStudio[] = {"slip", "print"};
constexpr std::string_view kWithToken[] = {"slip", "answer"};

// In the order of the help, those of the same commands together.
constexpr std::array<Option, 24> kOptions = {{
    {.name = "--out",
     .value = "DIR",
     .commands = kWriting,
     .set = text<&Order::out>,
     .help = "folder to write to, made if it is not there;\n"
             "of pack the file to write"},
    {.name = "--full",
     .commands = kWithFold,
     .set = flag<&Order::full>,
     .help = "whole pieces instead of halves on the fold"},
    {.name = "--paper",
     .value = "PAPER",
     .commands = kPrint,
     .set = text<&Order::paper>,
     .help = "a4, letter, legal, tabloid, a3, a0 or WIDTHxHEIGHTmm; else the ticket's"},
    {.name = "--turn",
     .value = "TURN",
     .commands = kPrint,
     .set = [](Order& o, const std::string& v) { return (o.turn = from_id<Turn>(v)).has_value(); },
     .must_be = "fewest, portrait or landscape",
     .help = "fewest (sheets), portrait or landscape; else the ticket's"},
    {.name = "--as",
     .value = "FORM",
     .commands = kPrintAlone,
     .set = [](Order& o, const std::string& v) { return (o.as = form_by_id(v)).has_value(); },
     .must_be = "one of the forms below",
     .help = "the form to write, see below"},
    {.name = "--roll",
     .value = "WIDTH",
     .commands = kPrintAlone,
     .set =
         [](Order& o, const std::string& v) {
           const Result<Length> width = parse_length(v, Unit::Inch);
           if (!width) return false;
           o.roll_mm = width->mm();
           return o.roll_mm >= kSmallestPaper && o.roll_mm <= kLargestPaper;
         },
     .must_be = "a length from 80 mm to 5000 mm",
     .help = "of the paper for roll.pdf: \"36 in\", \"91.4 cm\"; else 36 in"},
    {.name = "--printed",
     .value = "LENGTHS",
     .commands = kPrint,
     .set =
         [](Order& o, const std::string& v) {
           const size_t by = v.find('x');
           if (by == v.npos) return false;
           const auto across = number_of(v.substr(0, by), 0.0, 1000.0, false);
           const auto along = number_of(v.substr(by + 1), 0.0, 1000.0, false);
           if (!across || !along) return false;
           const Result<Printer> printer = measured({}, *across, *along);
           if (printer) o.printer = *printer;
           return printer.ok();
         },
     .must_be = "two lengths from 95 to 105 mm, such as 98.5x99",
     .help = "what a ruler showed of the check's 100 mm, along the short and the long\n"
             "side of the paper, in mm: \"98.5x99\"; sheets are corrected by it"},
    {.name = "--date",
     .value = "TEXT",
     .commands = kDated,
     .set = text<&Order::date>,
     .help = "printed on the paper, of exchange written as YYYY-MM-DD; else today"},
    {.name = "--unit",
     .value = "UNIT",
     .commands = kPrintOrExchange,
     .set =
         [](Order& o, const std::string& v) {
           if (v == "in") o.unit = Unit::Inch;
           if (v == "mm") o.unit = Unit::Centimetre;
           return o.unit.has_value();
         },
     .must_be = "mm or in",
     .help = "mm or in (and kg or lb), of the DXF and CSV files; else the ticket's"},
    {.name = "--kerf",
     .value = "MM",
     .commands = kPrintOrExchange,
     .set =
         [](Order& o, const std::string& v) {
           const auto kerf = number_of(v, 0.0, kMostKerf, false);
           o.kerf_mm = kerf.value_or(0.0);
           return kerf.has_value();
         },
     .must_be = "a number from 0 to 5, in millimetres",
     .help = "width that the machine takes away: cut lines lie half of it outside the\n"
             "pieces; else 0"},
    {.name = "--chests",
     .value = "LIST",
     .commands = kSizes,
     .set = text<&Order::chests>,
     .help = "dogs of the ticket's shape by their chest girth: \"S = 50 cm; M = 60 cm\", or"},
    {.name = "--weights",
     .value = "LIST",
     .commands = kSizes,
     .set = text<&Order::weights>,
     .help = "by their weight: \"5 kg; 10 kg; 20 kg\", or"},
    {.name = "--table",
     .value = "FILE",
     .commands = kSizes,
     .set = text<&Order::table>,
     .help = "of a table of your own: a column of names, the others measures"},
    {.name = "--widths",
     .value = "LIST",
     .commands = kLay,
     .set = text<&Order::widths>,
     .help = "of cloths that are not as usual: \"shell=54 in, lining=150 cm\""},
    {.name = "--scrap",
     .value = "LIST",
     .commands = kLay,
     .set = text<&Order::scrap>,
     .help = "remnants to cut from, length along the grain x width: \"lining=60 x 40 cm\";\n"
             "says of each on stdout whether it is enough"},
    {.name = "--light",
     .value = "LIST",
     .commands = kLay,
     .set = text<&Order::light>,
     .help = "a picture of each lay for a projector over the table, and one of a square to\n"
             "check it by: \"420x297 1920x1080 312,204 1530,180 1601,930 266,954\", a\n"
             "rectangle on the table in mm, the picture's pixels, and the pixels of the\n"
             "rectangle's corners, clockwise from above left"},
    {.name = "--seconds",
     .value = "S",
     .commands = kSearching,
     .set =
         [](Order& o, const std::string& v) {
           return (o.seconds = number_of(v, 0.0, kMostSeconds, false)).has_value();
         },
     .must_be = "a number from 0 to 86400",
     .help = "how long to look for a shorter lay (of each cloth), or"},
    {.name = "--steps",
     .value = "N",
     .commands = kSearching,
     .set =
         [](Order& o, const std::string& v) {
           return (o.steps = number_of(v, 0.0, kMostSteps, true)).has_value();
         },
     .must_be = "a whole number from 0 to 1000000000000",
     .help = "how many steps to look: the same lay every time"},
    {.name = "--seed",
     .value = "N",
     .commands = kSearching,
     .set =
         [](Order& o, const std::string& v) {
           return (o.seed = number_of(v, 0.0, kMostSeed, true)).has_value();
         },
     .must_be = "a whole number from 0 to 4294967295",
     .help = "another beginning of the search; else 1"},
    {.name = "--all",
     .commands = kSlip,
     .set = flag<&Order::all>,
     .help = "every measure that is needed or worth taking; else those that are missing"},
    {.name = "--back",
     .value = "ADDRESS",
     .commands = kSlip,
     .set = text<&Order::back>,
     .help = "email address or phone number to which the answer goes"},
    {.name = "--note",
     .value = "TEXT",
     .commands = kSlip,
     .set = text<&Order::note>,
     .help = "for the client"},
    {.name = "--studio",
     .value = "NAME",
     .commands = kWithStudio,
     .set = text<&Order::studio>,
     .help = "who asks; printed on a quote and on what is for a class"},
    {.name = "--token",
     .value = "TOKEN",
     .commands = kWithToken,
     .set = [](Order& o,
               const std::string& v) { return (o.token = token_from_text(v)).has_value(); },
     .must_be = "eight letters, as slip made them",
     .help = "eight letters by which an answer finds its ticket; slip makes some, answer\n"
             "refuses a message with others"},
}};

template <class Row, size_t kRows>
const Row* row_of(const std::array<Row, kRows>& table, std::string_view name) {
  const auto row = std::find_if(table.begin(), table.end(),
                                [&](const Row& candidate) { return candidate.name == name; });
  return row == table.end() ? nullptr : &*row;
}

bool belongs_to(const Option& option, std::string_view command) {
  const auto& all = option.commands;
  return std::find(all.begin(), all.end(), command) != all.end();
}

// A table's row: the left part, then the help in a column of its own.
std::string line(std::string left, size_t column, std::string_view help) {
  left.resize(std::max(left.size() + 1, column), ' ');
  for (const char c : help) {
    left += c;
    if (c == '\n') left.append(column, ' ');
  }
  return left + '\n';
}

std::string names_of(std::span<const std::string_view> commands) {
  std::string out;
  for (size_t i = 0; i < commands.size(); ++i) {
    if (i > 0) out += i + 1 == commands.size() ? " and " : ", ";
    out += commands[i];
  }
  return out;
}

}  // namespace

std::string usage() {
  std::string out;
  for (const Command& command : kCommands) {
    std::string left = out.empty() ? "usage: " : "       ";
    left += "coatwright " + std::string(command.name) + " " + command.arguments;
    if (command.searches) left += " (--seconds S | --steps N)";
    if (command.out != nullptr) left += std::string(" --out ") + command.out;
    out += command.searches ? left + "\n" + line("", 44, command.help)
                            : line(std::move(left), 44, command.help);
  }
  out += "       coatwright --help | --version\n";
  const Option* before = nullptr;
  for (const Option& option : kOptions) {
    if (before == nullptr || before->commands.data() != option.commands.data()) {
      out += (before == nullptr ? "\n" : "") + names_of(option.commands) + ":\n";
    }
    before = &option;
    std::string left = "  " + std::string(option.name);
    if (option.value != nullptr) left += std::string(" ") + option.value;
    out += line(std::move(left), 17, option.help);
  }
  out += "\nforms:\n";
  for (const FormInfo& form : form_table()) {
    out += line(std::string("  ") + form.id, 17, word_table()(std::string("form.") + form.id));
  }
  return out + "\nends with 0 done, 1 wrong use, 2 refused (the reason on stderr)\n";
}

std::optional<Order> order_of(const std::vector<std::string>& arguments, std::string& why) {
  const auto refused = [&](std::string words) {
    why = std::move(words);
    return std::nullopt;
  };
  Order order;
  std::vector<std::string> names;
  std::vector<const Option*> seen;
  for (size_t i = 0; i < arguments.size(); ++i) {
    const std::string& argument = arguments[i];
    if (!argument.starts_with("--")) {
      names.push_back(argument);
      continue;
    }
    const Option* option = row_of(kOptions, argument);
    if (option == nullptr) return refused("there is no option " + argument);
    if (std::find(seen.begin(), seen.end(), option) != seen.end()) {
      return refused(argument + " is given twice");
    }
    seen.push_back(option);
    std::string value;
    if (option->value != nullptr) {
      if (i + 1 == arguments.size() || arguments[i + 1].starts_with("--")) {
        return refused(argument + " lacks its value");
      }
      value = arguments[++i];
    }
    if (!option->set(order, value)) return refused(argument + " is " + option->must_be);
  }
  if (names.empty()) return refused("no command is given");
  order.command = names[0];
  const Command* command = row_of(kCommands, order.command);
  if (command == nullptr) return refused("there is no command " + order.command);
  const size_t given = names.size() - 1;
  if (given < command->fewest || given > command->most || names[1].empty()) {
    return refused(order.command + " takes " + command->takes);
  }
  for (const Option* option : seen) {
    if (!belongs_to(*option, order.command)) {
      return refused(order.command + " takes no " + std::string(option->name));
    }
  }
  if (command->searches && order.seconds.has_value() == order.steps.has_value()) {
    return refused(order.command + " needs --seconds S or --steps N");
  }
  if (command->out != nullptr && order.out.empty()) {
    return refused(order.command + " needs --out " + command->out);
  }
  const int ways = !order.chests.empty() + !order.weights.empty() + !order.table.empty();
  if (order.command == "sizes" && ways != 1) {
    return refused("sizes needs one of --chests LIST, --weights LIST and --table FILE");
  }
  order.file = names[1];
  if (order.command == "answer") order.message = names[2];
  if (order.command == "lay" || order.command == "print")
    order.with.assign(names.begin() + 2, names.end());
  return order;
}

}  // namespace coatwright
