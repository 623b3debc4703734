// A whole ticket as a code (code.h), for a colleague or a student: it fits into a link as long as
// its names and notes are short; a longer one is sent as a file.
#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/ticket/ticket.h"

namespace coatwright {

// 2000 characters are what every mail program and messenger is said to let through as a link (folk
// limit, no standard); 80 are left for the address.
inline constexpr size_t kMostTicketCode = 1920;

inline constexpr int kTicketCodeVersion = 1;  // the ticket in it has its own

// Problem: SlipTooLong.
[[nodiscard]] Result<std::string> write_ticket_code(const Ticket& ticket);

// The first ticket's code in a text. Problems: those of read_answer, and those of read_ticket, whose versions are told apart.
[[nodiscard]] Result<Ticket> read_ticket_code(std::string_view text);

}  // namespace coatwright
