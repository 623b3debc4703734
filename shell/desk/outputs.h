// The files and prints that a ticket makes.
#pragma once

#include <string>
#include <vector>

#include "core/base/words.h"
#include "shell/desk/derived.h"
#include "shell/desk/effects.h"
#include "shell/desk/today.h"

namespace coatwright::studio {

// Cover and sheets as one HTML document, a fixed-size page each.
[[nodiscard]] HtmlDocument sheets_document(const Ticket& ticket, const SheetPlan& plan,
                                           const Words& words, const Today& today);
// Of the trial coat: one layer, wide allowances, the dog's own lines and a grid.
[[nodiscard]] Result<HtmlDocument> trial_document(const Ticket& ticket, const Pattern& pattern,
                                                  const Words& words, const Today& today);
[[nodiscard]] SaveFile sheets_file(const Ticket& ticket, const SheetPlan& plan, const Words& words,
                                   const Today& today);
[[nodiscard]] SaveFile pattern_file(const Ticket& ticket, const Pattern& pattern,
                                    const Words& words);
[[nodiscard]] SaveFile picture_file(const Ticket& ticket, const Pattern& pattern,
                                    const Words& words);
// For other workrooms, cutting machines and spreadsheets (core/exchange); in the ticket's unit.
[[nodiscard]] SaveFile dxf_file(const Ticket& ticket, const Pattern& pattern, const Words& words,
                                const Today& today);
[[nodiscard]] Result<SaveFile> cutting_file(const Ticket& ticket, const Pattern& pattern,
                                            double kerf_mm, const Words& words);
[[nodiscard]] SaveFile readings_file(const Ticket& ticket, const Tape& tape, const Body& body,
                                     const Words& words);
[[nodiscard]] SaveFile pieces_file(const Ticket& ticket, const Pattern& pattern,
                                   const Words& words);
// What of the coat's name the DXF writes otherwise, as a sentence; empty if nothing.
[[nodiscard]] std::string told_of_dxf(const Ticket& ticket, const Words& words);
[[nodiscard]] SaveFile ticket_file(const Ticket& ticket);
// "coatwright-rack-2026-11-24.json"; of several, "coatwright-rack-2026-11-24-1-of-2.json".
[[nodiscard]] std::vector<SaveFile> backup_files(std::vector<std::string> backup,
                                                 const Today& today);
// "coatwright-unread-2026-11-24.json": what unread_json() wrote.
[[nodiscard]] SaveFile unread_file(std::string unread, const Today& today);

// A file name that begins with the dog's: letters and figures of every script, and hyphens.
[[nodiscard]] std::string file_name(const Ticket& ticket, std::string_view what,
                                    std::string_view ending);

}  // namespace coatwright::studio
