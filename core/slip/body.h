// What a code carries, with its kind and version: for the files that write and read the kinds, and
// for whoever has a body without its code.
#pragma once

#include <string>
#include <string_view>

#include "core/slip/code.h"
#include "core/slip/slip.h"
#include "core/ticket/ticket.h"

namespace coatwright {

// Problem: SlipTooLong, if the code would have more than `most` characters.
[[nodiscard]] Result<std::string> slip_code(SlipKind kind, const Bytes& body, size_t most);
// The body of the first code in the text, if it is of this kind. Problems: those of kind_of,
// SlipIsRequest, SlipIsAnswer, SlipIsTicket.
[[nodiscard]] Result<Bytes> slip_body(std::string_view text, SlipKind kind);

// What a body says. It is taken only if we would have written it: one body for each slip, so that
// nothing can hide in bits that are not looked at. Problems: SlipMalformed; of a ticket also those
// of read_ticket.
[[nodiscard]] Result<SlipRequest> request_in(const Bytes& body);
[[nodiscard]] Result<SlipAnswer> answer_in(const Bytes& body);
[[nodiscard]] Result<Ticket> ticket_in(const Bytes& body);

}  // namespace coatwright
