// The side view of the dog, drawn from its readings: it grows and shrinks with them, shows where
// each tape runs, and looks wrong when a reading is wrong. Our own drawing.
//
// Millimetres in the frame of landmarks.h: the dog faces left, y points down, the ground is y = 0.
#pragma once

#include "core/body/landmarks.h"

namespace coatwright {

// In the order in which they are painted: what is nearer covers what is farther.
enum class SidePart {
  FarLegs,  // filled, darker
  Tail,     // filled
  Body,     // filled: head, neck, trunk and the near legs in one outline
  Crease,   // open lines inside the body: shoulder, elbow, thigh, mouth, toes
  Ear,      // filled, darker
  Eye,      // filled dark
  Nose,     // filled dark
  Glint,    // filled light: the light in the eye
};

struct SideShape {
  SidePart part;
  Path path;
  bool closed = true;
};

// Where one measure's tape runs, and where its words may stand.
struct SideTape {
  Measure measure;
  Path line;
  Point label_at;    // on the tape or beside it
  Vec label_toward;  // unit: the words stand on this side of label_at
};

struct SideView {
  std::vector<SideShape> shapes;  // back to front
  std::vector<SideTape> tapes;    // every measure but the weight, in the order of Measure
  Rect bounds;                    // of the shapes
};

// The readings of an ordinary dog of the build, to show where the tapes run before a dog is
// measured; mm, in the middle of the published bands (ratios.h).
[[nodiscard]] Tape ordinary_tape(Build build);

[[nodiscard]] SideView draw_side_view(const Body& body);

}  // namespace coatwright
