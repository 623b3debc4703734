// The body that the wrap and the strap coat share: on the fold at the spine, with front tabs that
// close on the breast. Millimetres.
//
//      N=(0,0) ----- fold ----------------------- T=(B,0)
//       |                                          )
//   neckline                                       ) tail edge
//     /                                           )
//    F----.                              .-------'  rear corner
//   tab    '--. front edge .------------'  hem
//     '--F2'   '----------'
#pragma once

#include "core/draft/draft.h"
#include "core/draft/front.h"
#include "core/draft/rear.h"

namespace coatwright {

struct TabbedBody {
  Neckline neckline;
  Front front;
  Rear rear;
};

// Fills in the map, the piece "body" with its marks, notches and trace, and the front's hook-and-
// loop. Problems: those of solve_neckline and draft_front; findings: FrontDepthLimited,
// Advice "front-deeper".
[[nodiscard]] Result<TabbedBody> draft_tabbed_body(Draft& d, const Body& body, Findings& findings);

}  // namespace coatwright
