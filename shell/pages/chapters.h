// PDF forms as chapters: the sheets of a coat, or a text document, one behind the other in one file,
// each as it would be alone.
#pragma once

#include <string>
#include <vector>

#include "core/draw/pdf.h"
#include "core/sheet/roll.h"
#include "shell/pages/document.h"
#include "shell/pages/form_source.h"

namespace coatwright {

struct Chapter {
  std::string title;                     // in the reader's list of contents
  std::vector<PdfPage> pages;            // whose parts are the chapter's own
  std::vector<std::string> pieces = {};  // names of the parts
  bool sheets = false;                   // to be joined: printed on one side of the paper
};
using Chapters = std::vector<Chapter>;

// Of all coats: "Bosun, Harbour coat + Gale, Wrap coat".
[[nodiscard]] std::string titles_of(const FormSource& source);

[[nodiscard]] Result<SheetPlan> sheets_of(const MadeCoat& coat, const FormSource& source);
[[nodiscard]] Result<SheetPlan> trial_sheets_of(const MadeCoat& coat, const FormSource& source);
[[nodiscard]] Chapter sheets_chapter(const MadeCoat& coat, const SheetPlan& plan,
                                     const FormSource& source);

// On the ticket's paper, if that is one to write on; else on the usual one of its unit.
[[nodiscard]] Chapter document_chapter(const Ticket& ticket, const Document& document,
                                       const FormSource& source);
// One page as large as the drawing.
[[nodiscard]] Chapter nest_chapter(const Drawing& nest, const FormSource& source);

using WriteDocument = Document (*)(const Ticket&, const Pattern&, const Words&,
                                   const std::string& day);

[[nodiscard]] Pdf pdf_of_chapters(const Chapters& chapters, const std::string& title,
                                  const FormSource& source);

}  // namespace coatwright
