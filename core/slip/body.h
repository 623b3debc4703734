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
// The bodies of the codes of this kind in the text, and the first of them: one at least. Problems:
// those of read_answer.
[[nodiscard]] Result<std::vector<Bytes>> slip_bodies(std::string_view text, SlipKind kind);
[[nodiscard]] Result<Bytes> slip_body(std::string_view text, SlipKind kind);

// What a body says. It is taken only if we would have written it: one body for each slip, so that
// nothing can hide in bits that are not looked at. Problems: SlipMalformed; of a ticket also those
// of read_ticket.
[[nodiscard]] Result<SlipRequest> request_in(const Bytes& body);
[[nodiscard]] Result<SlipAnswer> answer_in(const Bytes& body);
[[nodiscard]] Result<Ticket> ticket_in(const Bytes& body);

}  // namespace coatwright
