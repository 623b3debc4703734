// How the command-line tool ends, reads and writes. Each int is what the process ends with; a
// refusal puts its one sentence on stderr.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/problem.h"
#include "core/ticket/ticket.h"
#include "core/units/length.h"

namespace coatwright {

constexpr int kDone = 0;
constexpr int kWrongUse = 1;
constexpr int kRefused = 2;

// Paths and system messages are shown clean, on one line.
[[nodiscard]] std::string shown(std::string_view text);

// A refusal for a reason of the system's, with the path that it is about.
[[nodiscard]] std::string sentence(const char* key, std::string_view path, std::string_view reason);

int refuse(const std::string& sentence);
int refuse(const Problem& problem, const LengthStyle& style);

// How the ticket's lengths are written.
[[nodiscard]] LengthStyle lengths_of(const Ticket& ticket);

// At most one byte more than such a file may have: its reader refuses it then. False with errno.
[[nodiscard]] bool read_file(const std::string& path, size_t most, std::string& out);

struct NamedText {
  std::string name;
  std::string text;
};

// Writes all of them or none: each beside its place first, then all are renamed.
int write_all(const std::string& folder, const std::vector<NamedText>& files);

// On stdout.
int write_out(const std::string& text);

}  // namespace coatwright
