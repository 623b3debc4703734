// The underpanel coat's two net pieces: a body in two sides that close on the back, and a panel on
// the fold from the breast to the end of the underline. Millimetres.
//
//   body, u along the spine, v round the side     panel, s along the underline, d from the middle
//
//      .--------- closing edge ----------.                  S ----- breast seam ---- A
//     N=(0,0)                     T=(B,0)|                 .'                         )  leg
//      |                                 )                |   B- girth line ------.  (
//   neckline       A.--.B- girth line    ) tail           | ,'                     '-. R
//        S ------- '    ' -----.         )         neckline |  leg                      |  hem
//         breast seam   side seam '--R--'          (0,0) ------------ fold ------------ L
//
// Where two edges are sewn together they meet their neighbours at the same angles on both pieces,
// so that neckline and leg opening run smoothly across the seams.
#pragma once

#include "core/draft/draft.h"
#include "core/draft/leg_opening.h"
#include "core/draft/rear.h"

namespace coatwright {

// Fills in the map and the neckline, and the pieces "body" and "panel" with their marks, notches
// and trace, and the back's hook-and-loop. Problems: those of solve_neckline; PromiseMissed where
// the underline ends before the panel has passed the leg. Findings: Advice "leg-ease-raised" and
// "hem-raised"; `chosen` then has what is drafted.
[[nodiscard]] std::optional<Problem> draft_underpanel_body(Draft& d, const Body& body,
                                                           Findings& findings);
// Joins panel and body.
void sew_panel(const Draft& draft, Operations& out);

}  // namespace coatwright
