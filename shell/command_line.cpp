// The command-line tool `coatwright`: the same core as the studio's, without a screen.
//
// Ends with 0 when done, 1 when it was used wrongly (usage on stderr), 2 when the file or the
// folder was refused (one sentence on stderr). Files are written whole or not at all.

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstring>
#include <ctime>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/utf8.h"
#include "core/base/version.h"
#include "core/lay/instance.h"
#include "core/sheet/print.h"
#include "core/sheet/svg.h"
#include "core/ticket/ids.h"
#include "core/ticket/ticket.h"
#include "shell/report.h"
#include "shell/say.h"
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
    "       coatwright pack INSTANCE (--seconds S | --steps N) --out FILE    packs pieces on a "
    "strip\n"
    "       coatwright --help | --version\n"
    "\n"
    "draft and print:\n"
    "  --out DIR      folder to write to, made if it is not there\n"
    "  --full         whole pieces instead of halves on the fold\n"
    "print:\n"
    "  --paper PAPER  a4, letter, legal, tabloid, a3, a0 or WIDTHxHEIGHTmm; else the ticket's\n"
    "  --turn TURN    fewest (sheets), portrait or landscape; else the ticket's\n"
    "  --date TEXT    printed on the sheets; else today\n"
    "pack:\n"
    "  --seconds S    for how long to search, or\n"
    "  --steps N      how many steps to search: the same layout every time\n"
    "  --seed N       another search; else 1\n"
    "  --out FILE     the layout, as JSON\n"
    "\n"
    "ends with 0 done, 1 wrong use, 2 refused (the reason on stderr)\n";

// ---- arguments ---------------------------------------------------------------------------------

struct Order {
  std::string command;  // check, draft, print, pack
  std::string file;     // the ticket, or what is to be packed
  std::string out;
  bool full = false;
  std::optional<std::string> paper;
  std::optional<Turn> turn;
  std::optional<std::string> date;
  std::optional<double> seconds;
  std::optional<double> steps;
  std::optional<double> seed;
};

// What each option belongs to.
struct Option {
  const char* name;
  std::vector<const char*> commands;
  bool has_value = true;
};
const std::vector<Option>& options() {
  static const std::vector<Option> all = {
      {"--out", {"draft", "print", "pack"}},
      {"--full", {"draft", "print"}, false},
      {"--paper", {"print"}},
      {"--turn", {"print"}},
      {"--date", {"print"}},
      {"--seconds", {"pack"}},
      {"--steps", {"pack"}},
      {"--seed", {"pack"}},
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
      order.full = true;
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
  if (command != "check" && command != "draft" && command != "print" && command != "pack") {
    why = "there is no command " + command;
    return std::nullopt;
  }
  if (names.size() != 2 || names[1].empty()) {
    why = command + (command == "pack" ? " takes one instance" : " takes one ticket");
    return std::nullopt;
  }
  for (const Option* option : seen) {
    const auto& fitting = option->commands;
    if (std::find(fitting.begin(), fitting.end(), command) == fitting.end()) {
      why = command + " takes no " + option->name;
      return std::nullopt;
    }
  }
  if (command == "pack" && order.seconds.has_value() == order.steps.has_value()) {
    why = "pack needs --seconds S or --steps N";
  } else if (command != "check" && order.out.empty()) {
    why = command + (command == "pack" ? " needs --out FILE" : " needs --out DIR");
  } else {
    order.command = command;
    order.file = names[1];
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

int check(const Ticket& ticket, const Tape& tape) {
  const Checked<Body> body = assess(tape);
  const Checked<Pattern> made = make_pattern(tape, ticket.choices, style_of(ticket));
  Findings findings = made.findings;
  if (!made.result) findings.push_back({Level::Refused, made.result.problem()});
  const std::string json =
      check_json(ticket, body.result ? &*body.result : nullptr, findings, word_table());
  const bool written =
      std::fwrite(json.data(), 1, json.size(), stdout) == json.size() && std::fflush(stdout) == 0;
  if (!written) return refuse(sentence("tool.no-writing", "stdout", std::strerror(errno)));
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

int print(const Order& order, const Ticket& ticket, const Checked<Pattern>& made) {
  PrintChoices print = ticket.print;
  if (order.paper) print.paper = *order.paper;
  if (order.turn) print.turn = *order.turn;
  if (order.full) print.opened = true;
  const std::string date = order.date ? *order.date : today();
  if (count_characters(date) > 30 || !is_clean(date, false)) {
    return refuse(word_table()("tool.bad-date"));
  }
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

int pack(const Order& order, std::string_view text) {
  Result<PackInstance> instance = read_instance(text);
  if (!instance) return refuse(instance.problem(), {});
  instance.value().task.seed = static_cast<std::uint32_t>(order.seed.value_or(1.0));
  Result<PackSearch> begun = PackSearch::begin(instance->task);
  if (!begun) return refuse(in_file_units(begun.problem(), *instance), {});
  PackSearch& search = begun.value();
  if (order.steps) {
    while (static_cast<double>(search.steps_done()) < *order.steps) search.step(1);
  } else {
    using Clock = std::chrono::steady_clock;
    const Clock::time_point end = Clock::now() + std::chrono::duration_cast<Clock::duration>(
                                                     std::chrono::duration<double>(*order.seconds));
    while (Clock::now() < end) search.step(1);
  }
  const std::filesystem::path out(order.out);
  return write_all(
      out.has_parent_path() ? out.parent_path().string() : ".",
      {{out.filename().string(), write_layout(*instance, search.best(), search.steps_done())}});
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
  const Result<Tape> tape = tape_of(*ticket);
  if (!tape) return refuse(tape.problem(), lengths_of(*ticket));
  if (order.command == "check") return check(*ticket, *tape);
  const Checked<Pattern> made = make_pattern(*tape, ticket->choices, style_of(*ticket));
  if (!made.result) return refuse(made.result.problem(), lengths_of(*ticket));
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
