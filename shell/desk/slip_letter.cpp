#include "shell/desk/slip_letter.h"

#include "core/base/utf8.h"
#include "core/slip/ticket_code.h"
#include "shell/words/ticket_words.h"

namespace coatwright::studio {
namespace {

Result<std::string> link_of(const std::string& before, const Result<std::string>& code,
                            size_t most) {
  if (!code) return code.problem();
  const std::string link = before + "#" + *code;
  if (link.size() <= most) return link;
  return Problem{.code = Code::SlipTooLong,
                 .values = {static_cast<double>(link.size()), static_cast<double>(most)}};
}

}  // namespace

Result<SlipRequest> slip_request(const Ticket& ticket, const SlipView& view) {
  SlipRequest request = request_for(ticket, view.asked, view.token.value_or(SlipToken{}));
  const Result<SlipBack> back = slip_back(view.address);
  if (!back) return back.problem();
  request.back = *back;
  request.studio = view.studio;
  request.note = view.note;
  return request;
}

Result<Letter> slip_letter(const SlipRequest& request, const Site& site, const Words& words) {
  const auto link = link_of(site.address + "slip.html", write_request(request), kMostSlipLink);
  if (!link) return link.problem();
  Letter letter;
  letter.link = *link;
  letter.subject = request.dog.empty() ? words("ui.slip-subject-plain")
                                       : words("ui.slip-subject", {request.dog});
  letter.text = words("ui.slip-text") + "\n\n" + letter.link;
  if (!request.note.empty()) letter.text = request.note + "\n\n" + letter.text;
  if (!request.studio.empty()) letter.text += "\n\n" + request.studio;
  return letter;
}

Result<Letter> ticket_letter(const Ticket& ticket, const Site& site, const Words& words) {
  const auto link = link_of(site.address, write_ticket_code(ticket), kMostTicketLink);
  if (!link) return link.problem();
  Letter letter;
  letter.link = *link;
  letter.subject = title_of(ticket, words);
  letter.text = words("ui.ticket-text") + "\n\n" + letter.link;
  return letter;
}

}  // namespace coatwright::studio
