// What a code carries under the frame, with its kind and version: for the files that write and read
// the kinds, and for whoever has a body without its code.
#pragma once

#include <string>
#include <string_view>

#include "core/slip/code.h"
#include "core/slip/slip.h"
#include "core/ticket/ticket.h"

namespace coatwright {

[[nodiscard]] uint8_t slip_head(SlipKind kind, int version);

// Problem: SlipTooLong, if the code would have more than `most` characters.
[[nodiscard]] Result<std::string> slip_code(const Coded& coded, size_t most);
// What the codes of this kind in the text carry, one at least, and the first of them. Problems:
// those of read_answer.
[[nodiscard]] Result<std::vector<Coded>> coded_slips(std::string_view text, SlipKind kind);
[[nodiscard]] Result<Coded> coded_slip(std::string_view text, SlipKind kind);

// What it says. It is taken only if we would have written it, in that version: one code for each
// slip, so that nothing can hide in bits that are not looked at. Problems: SlipMalformed; of a ticket
// also those of read_ticket.
[[nodiscard]] Result<SlipRequest> request_in(const Coded& coded);
[[nodiscard]] Result<SlipAnswer> answer_in(const Coded& coded);
[[nodiscard]] Result<Ticket> ticket_in(const Coded& coded);

}  // namespace coatwright
