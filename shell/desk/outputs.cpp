#include "shell/desk/outputs.h"

#include "core/draw/svg.h"
#include "core/sheet/print.h"
#include "core/ticket/leaving.h"
#include "shell/pages/table_page.h"

namespace coatwright::studio {

namespace {

HtmlDocument document_of(const std::vector<Drawing>& pages, const SheetPlan& plan,
                         const std::string& title) {
  return sheets_html(pages, plan.sheet_width, plan.sheet_height, title, plan.stretch);
}

SheetNotes notes_of(const Ticket& ticket, const Words& words, const Today& today) {
  return {title_of(ticket, words), today.words};
}

}  // namespace

HtmlDocument sheets_document(const Ticket& ticket, const SheetPlan& plan, const Words& words,
                             const Today& today, std::optional<size_t> only) {
  const SheetNotes notes = notes_of(ticket, words, today);
  if (only) return document_of({draw_sheet(plan, *only, notes, words)}, plan, notes.ticket);
  return document_of(draw_sheets(plan, notes, words), plan, notes.ticket);
}

HtmlDocument check_document(const Ticket& ticket, const SheetPlan& plan, const Words& words,
                            const Today& today) {
  const SheetNotes notes = notes_of(ticket, words, today);
  std::vector<Drawing> pages = draw_sheets(plan, notes, words);
  pages.resize(1);
  return document_of(pages, plan, notes.ticket);
}

PressForm press_form(Form form, const Ticket& ticket, std::vector<CoatText> coats,
                     const FormChoices& choices, FormUse use) {
  const bool nobodys =
      form == Form::MeasuringPdf || form == Form::HandoutPdf || form == Form::ClassPdf;
  return {file_name(nobodys ? Ticket{} : ticket, info_of(form).id),
          write_form_order({form, choices, std::move(coats)}), use};
}

std::vector<CoatText> laid_texts(const Ticket& ticket, const LayDesk& lay) {
  // What was found goes as the places of a lay by hand, as far as a ticket has room for them; what
  // cannot be cut stays here.
  Ticket with = ticket;
  for (const LayJob& job : lay.jobs()) {
    const bool cut = job.search && !job.hand_refusal;
    if (cut && job.by_hand() && job.added == 0) continue;
    HandLay hand{.use = job.order.use, .laminated = job.order.laminated};  // none of it
    const size_t most = places_left(with.hand_lays, job.order.use, job.order.laminated);
    if (cut && job.laid.lay.pieces.size() <= most) hand = hand_lay_of(job.laid.lay);
    with.hand_lays = with_hand_lay(std::move(with.hand_lays), std::move(hand));
  }
  std::vector<CoatText> out = {{"", write_leaving(with)}};
  for (const Companion& one : lay.company()) {
    if (one.laid()) out.push_back({one.id, write_leaving(one.ticket)});
  }
  return out;
}

LightTable light_table(const std::string& id, const Ticket& ticket, const LayDesk& lay) {
  std::vector<CoatText> coats = laid_texts(ticket, lay);
  TableOrder order{.id = id, .ticket = std::move(coats.front().ticket)};
  order.others.assign(coats.begin() + 1, coats.end());
  return {write_table_order(order)};
}

SaveFile ticket_file(const Ticket& ticket) {
  return {file_name(ticket, "ticket.json"), "application/json", write_leaving(ticket)};
}

std::vector<SaveFile> backup_files(std::vector<std::string> backup, const Today& today) {
  std::vector<SaveFile> out;
  const std::string all = std::to_string(backup.size());
  for (std::string& file : backup) {
    const std::string part =
        backup.size() == 1 ? "" : "-" + std::to_string(out.size() + 1) + "-of-" + all;
    out.push_back(
        {"coatwright-rack-" + today.words + part + ".json", "application/json", std::move(file)});
  }
  return out;
}

SaveFile unread_file(std::string unread, const Today& today) {
  return {"coatwright-unread-" + today.words + ".json", "application/json", std::move(unread)};
}

}  // namespace coatwright::studio
