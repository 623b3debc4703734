// Drawings as a PDF document at true scale: a page each, of exactly its size.
//
// Pages carry the same numbers as the SVG, to 1 µm. No scaling is preferred for printing, and paper
// of the page's size (viewers may follow: ISO 32000-1, table 150). Kinds of line, and pieces where
// the items know theirs, are optional content that a viewer can switch. Typefaces are embedded
// with no more outlines than the document uses; texts can be found and copied as they were written, in every script. The same input gives the
// same bytes.
#pragma once

#include <string>
#include <vector>

#include "core/base/words.h"
#include "core/draw/drawing.h"
#include "core/draw/letters.h"

namespace coatwright {

// The shortest and the longest side of a page, mm: 3 and 14 400 units of 1/72 in (ISO 32000-1,
// annex C).
inline constexpr double kLeastPdfPage = 1.06, kMostPdfPage = 5080.0;

struct PdfPage {
  Drawing drawing;  // 0,0 is the page's upper left corner
  double width = 0.0, height = 0.0;
  Vec stretch = {1.0, 1.0};  // of the drawing about the middle of the page
  int first_part = 0;        // of PdfNotes::parts: the one that the drawing's `part` 0 is
  std::string chapter = {};  // that begins with this page: in the reader's list of contents
};

struct PdfNotes {
  std::string title = {};               // of the document
  std::string subject = {};             // whose coat it is of
  std::string day = {};                 // "2026-11-24", its date; empty: it has none
  std::vector<std::string> parts = {};  // names of the pieces, see PdfPage::first_part
  bool one_side = false;                // of the paper is to be printed, even where both could be
};

struct Pdf {
  std::string bytes;  // empty if there was no room in memory
  // Characters that stand as □, since no typeface and no host had them: each once, with spaces
  // between.
  std::string unlettered = {};
};

// A page of another size is left out; without any, there is no document.
[[nodiscard]] Pdf to_pdf(const std::vector<PdfPage>& pages, const PdfNotes& notes,
                         const PictureFonts& fonts, const Words& words);

}  // namespace coatwright
