// Small pictures of the tickets on the rack, and how each of them stands. Made one a frame, so that
// a rack of any length opens at once; made anew when a ticket changes; never stored.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/rack/card.h"
#include "shell/desk/derived.h"
#include "shell/desk/standing.h"

namespace coatwright::studio {

struct Thumbnail {
  std::vector<Wash> pieces;  // in mm, y down; the outline of a Wash is its cut line
  Rect bounds{0.0, 0.0, 0.0, 0.0};
  PatternFacts facts;
};
[[nodiscard]] Thumbnail thumbnail_of(const Ticket& ticket);

class Thumbnails {
 public:
  // The card's picture; nothing while it waits for its turn.
  [[nodiscard]] const Thumbnail* of(const Card& card);
  // The same if it was made, and no turn for it if not.
  [[nodiscard]] const Thumbnail* made_before(const Card& card) const;
  // Makes one of those asked for since the last call; true if there was one: it is to be drawn.
  bool make_one();

 private:
  struct Made {
    Ticket ticket;
    Thumbnail thumbnail;
    long used = 0;  // when it was last asked for, in questions
  };
  std::map<std::string, Made> made_;
  long asked_ = 0;
  std::vector<Card> wanted_;
};

}  // namespace coatwright::studio
