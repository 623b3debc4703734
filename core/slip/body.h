// What a code carries, with its kind and version: for the files that write and read the kinds.
#pragma once

#include <string>
#include <string_view>

#include "core/slip/code.h"
#include "core/slip/slip.h"

namespace coatwright {

// Problem: SlipTooLong, if the code would have more than `most` characters.
[[nodiscard]] Result<std::string> slip_code(SlipKind kind, const Bytes& body, size_t most);
// The body of the first code in the text, if it is of this kind. Problems: those of kind_of,
// SlipIsRequest, SlipIsAnswer, SlipIsTicket.
[[nodiscard]] Result<Bytes> slip_body(std::string_view text, SlipKind kind);

}  // namespace coatwright
