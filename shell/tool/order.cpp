#include "shell/tool/order.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string_view>

#include "core/ticket/ids.h"
#include "shell/words/laid_coats.h"

namespace coatwright {

const char* const kUsage =
    "usage: coatwright check TICKET              measures and what to check, as JSON on stdout\n"
    "       coatwright draft TICKET --out DIR    writes draft.json and pattern.svg\n"
    "       coatwright print TICKET --out DIR    writes sheets.svg and sheets.html\n"
    "       coatwright recipe TICKET --out DIR   writes recipe.html: the pattern drawn by hand\n"
    "       coatwright make TICKET --out DIR     writes make.html: what to cut, how it is sewn\n"
    "       coatwright lay TICKET... --out DIR   writes lay.json, and each cloth's cutting "
    "diagram;\n"
    "                                            cloths that are laid by hand stay so. Up to four\n"
    "                                            coats are laid together on the cloths of the\n"
    "                                            first ticket\n"
    "       coatwright pack INSTANCE (--seconds S | --steps N) --out FILE    packs shapes on a "
    "strip, for research\n"
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
    "  --scrap LIST   remnants to cut from, length along the grain x width: \"lining=60 x 40 "
    "cm\";\n"
    "                 says of each on stdout whether it is enough\n"
    "pack and lay:\n"
    "  --seconds S    how long to look for a shorter lay (of each cloth), or\n"
    "  --steps N      how many steps to look: the same lay every time\n"
    "  --seed N       another beginning of the search; else 1\n"
    "pack:\n"
    "  --out FILE     where the shapes lie, as JSON\n"
    "slip: put the code behind the # of the slip page's address\n"
    "  --all          every measure that is needed or worth taking; else those that are missing\n"
    "  --studio NAME  who asks\n"
    "  --back ADDRESS email address or phone number to which the answer goes\n"
    "  --note TEXT    for the client\n"
    "slip and answer:\n"
    "  --token TOKEN  eight letters by which an answer finds its ticket; slip makes some, answer\n"
    "                 refuses a message with others\n"
    "MESSAGE is a link, a text with a code in it, or - for stdin.\n"
    "\n"
    "ends with 0 done, 1 wrong use, 2 refused (the reason on stderr)\n";

namespace {

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

}  // namespace

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

}  // namespace coatwright
