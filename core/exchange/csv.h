// Readings and cut list as CSV (RFC 4180): UTF-8 with its byte-order mark, by which spreadsheets
// know it; a header of ids; lines end with CR LF. Text of a maker's that a spreadsheet would take
// for a formula (it begins with = + - @ or their full-width forms, or a tab) has an apostrophe
// before it, as spreadsheets themselves mark text. Lengths as exchange_length() writes them.
#pragma once

#include <string>

#include "core/base/words.h"
#include "core/exchange/notes.h"
#include "core/pattern/pattern.h"

namespace coatwright {

// One line a measure: what it was drafted with, taken or estimated, and the readings as taken.
// coat,measure,name,from,unit,value,spread,reading_1..reading_5
[[nodiscard]] std::string readings_csv(const Tape& tape, const Body& body,
                                       const ExchangeNotes& notes, const Words& words);

// One line a piece: what it is cut from, how many, how many of them turned over; then of one whole
// piece with its grain along the length: its box, the length of its cut line, its area. Then one for
// the bias strips of a binding that is cut from the outer cloth: their length and width lie at 45
// degrees to the grain.
// coat,piece,name,cloth,laminated,cut,turned_over,on_fold,unit,length,width,cut_line,area
[[nodiscard]] std::string pieces_csv(const Pattern& pattern, const ExchangeNotes& notes,
                                     const Words& words);

}  // namespace coatwright
