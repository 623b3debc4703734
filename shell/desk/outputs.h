// The files and prints that a ticket makes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/words.h"
#include "shell/desk/derived.h"
#include "shell/desk/effects.h"
#include "shell/desk/lay_desk.h"
#include "shell/desk/today.h"
#include "shell/pages/forms.h"

namespace coatwright::studio {

// Cover and sheets as one HTML document, a fixed-size page each; of one sheet that alone.
[[nodiscard]] HtmlDocument sheets_document(const Ticket& ticket, const SheetPlan& plan,
                                           const Words& words, const Today& today,
                                           std::optional<size_t> only = {});
// The first page alone, which has the scale check.
[[nodiscard]] HtmlDocument check_document(const Ticket& ticket, const SheetPlan& plan,
                                          const Words& words, const Today& today);
// An order of the press; the file is named after the ticket, or, of what names no dog, after nobody.
[[nodiscard]] PressForm press_form(Form form, const Ticket& ticket, std::vector<CoatText> coats,
                                   const FormChoices& choices, FormUse use = FormUse::Save);
// The ticket with the others that are laid together with it, every lay that can be cut as the places
// of a lay by hand.
[[nodiscard]] std::vector<CoatText> laid_texts(const Ticket& ticket, const LayDesk& lay);
// The coat as it is laid, for the page that lights the table. `id`: of the ticket on the rack.
[[nodiscard]] LightTable light_table(const std::string& id, const Ticket& ticket,
                                     const LayDesk& lay);
[[nodiscard]] SaveFile ticket_file(const Ticket& ticket);
// "coatwright-rack-2026-11-24.json"; of several, "coatwright-rack-2026-11-24-1-of-2.json".
[[nodiscard]] std::vector<SaveFile> backup_files(std::vector<std::string> backup,
                                                 const Today& today);
// "coatwright-unread-2026-11-24.json": what unread_json() wrote.
[[nodiscard]] SaveFile unread_file(std::string unread, const Today& today);

}  // namespace coatwright::studio
