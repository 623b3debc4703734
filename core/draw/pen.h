// How each role is drawn. On paper everything is black and roles differ by width and dashes alone;
// a picture has the studio's colours and a wash of cloth too. Millimetres.
#pragma once

#include <vector>

#include "core/draw/drawing.h"

namespace coatwright {

enum class Ink { Paper, Picture };

struct Pen {
  const char* name;             // "cut-line", as in the class of an SVG group
  double width = 0.0;           // of lines, mm
  std::vector<double> dashes;   // line, gap, line, gap, ... mm; empty: solid
  const char* colour = "#000";  // of lines, fills and text
  bool fills = true;            // whether filled items of this role are drawn
};
[[nodiscard]] const Pen& pen(Role role, Ink ink);

}  // namespace coatwright
