// A slip on its way out: the request, its link, and the words that go with it; and a whole ticket
// for a colleague.
#pragma once

#include <string>

#include "core/base/words.h"
#include "core/slip/slip.h"
#include "core/ticket/ticket.h"
#include "shell/desk/site.h"
#include "shell/desk/slip_view.h"

namespace coatwright::studio {

inline constexpr size_t kMostSlipLink = 500;     // bytes: a QR code that a telephone reads at once
inline constexpr size_t kMostTicketLink = 2000;  // what any mail program lets through (folk limit)

struct Letter {
  std::string subject;
  std::string link;
  std::string text;  // the words and the link, as it is mailed
};

// Problems: those of slip_back and write_request, and SlipTooLong of the whole link.
[[nodiscard]] Result<SlipRequest> slip_request(const Ticket& ticket, const SlipView& view);
[[nodiscard]] Result<Letter> slip_letter(const SlipRequest& request, const Site& site,
                                         const Words& words);
// Problem: SlipTooLong; then the ticket goes as a file.
[[nodiscard]] Result<Letter> ticket_letter(const Ticket& ticket, const Site& site,
                                           const Words& words);

}  // namespace coatwright::studio
