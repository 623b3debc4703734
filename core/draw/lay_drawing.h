// A lay as a drawing: the cloth with its selvages, the pieces on it with grain and fold, what is
// left over; and the laminate's strips on the blank. Feeds the board and the cutting diagram.
// Millimetres, true to the cloth.
#pragma once

#include "core/base/words.h"
#include "core/draw/drawing.h"
#include "core/lay/coat_lay.h"
#include "core/lay/lamination.h"
#include "core/units/length.h"

namespace coatwright {

// What a coat is called on its pieces.
struct CoatName {
  std::string key;  // LaidPiece::coat
  std::string name;
  bool operator==(const CoatName&) const = default;
};

struct LayNotes {
  LengthStyle lengths = {};
  double text_mm = 25.0;  // size of the texts: a cutting diagram is looked at much reduced
  std::vector<CoatName> coats = {};  // where several are laid together; else none
};

// "Body", "Body, face down"; with the coat's name before it, where it has one.
[[nodiscard]] std::string laid_name(const LaidPiece& piece, const std::vector<CoatName>& coats,
                                    const Words& words);

// Each piece has its name as large as it has room for, in up to three lines; of several coats, if
// that is too long, its coat's name, or where not even that has room the coat's number among
// `coats`, from 1.
//
// The cloth runs along x and is drawn a little longer than the lay, with an open end; a rest by its
// own outline, whatever lies on it, and what other lays take of it hatched. Dotted lines are the
// middles of stripes.
[[nodiscard]] Drawing draw_lay(const Lay& lay, const std::vector<Rect>& left_over,
                               const LayNotes& notes, const Words& words);

// The blanks on the cloth, and the strips that are fused to each, numbered in their order, laps
// shaded; an arrow at each lap says where water runs. Beside them, or below a lay that is longer
// than the cloth is wide, the roll in its own width, and on it a strip for each blank as it is cut.
[[nodiscard]] Drawing draw_lamination(const Lay& lay, const Lamination& plan, const LayNotes& notes,
                                      const Words& words);

// A text in the middle of a closed outline, clear of it and of `lines`, near the size as far as there
// is room, in up to three lines: of several texts the first that has room. False if none has.
bool write_inside(const Polyline& outline, const std::vector<std::string>& texts, double size_mm,
                  DrawItems& out, const std::vector<Polyline>& lines = {});

// Lines that shade what two closed outlines have in common, slanting, `apart` mm from each other.
[[nodiscard]] std::vector<Polyline> hatching(const Polyline& a, const Polyline& b, double apart);

// The ground of the cloth under a drawing of it; x0 < 0 where a rest begins before the lay does.
[[nodiscard]] Rect cloth_ground(const Lay& lay);

// The same of a lamination's two cloths. Where the roll lies depends on the size of the texts
// between them.
struct LaminationGround {
  Rect cloth, roll;
};
[[nodiscard]] LaminationGround lamination_ground(const Lay& lay, const Lamination& plan,
                                                 double text_mm);

// How the cloth is laid, in a paragraph each: which side up and which way; by which rule stripes
// round the dog meet, and where the first of them lies; the same of stripes along the dog.
[[nodiscard]] std::vector<std::string> how_to_lay(const Lay& lay, const LengthStyle& lengths,
                                                  const Words& words);

// How the blanks of a lay are fused, in a paragraph.
[[nodiscard]] std::string how_to_fuse(const Lay& lay, const LengthStyle& lengths,
                                      const Words& words);

// What the lay is of: "Shell cloth, laminated", "Lining cloth, laid by hand".
[[nodiscard]] std::string lay_title(const Lay& lay, const Words& words);

}  // namespace coatwright
