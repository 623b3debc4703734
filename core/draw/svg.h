// Drawings as SVG and as a document to print. All text is escaped; numbers have at most three
// decimals (1 µm); an item with a number that is not finite is left out. Nothing outside the file
// is needed: the typeface is Cabin where it is installed, else the reader's own plain one.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/draw/drawing.h"
#include "core/draw/html.h"
#include "core/draw/pen.h"

namespace coatwright {

// The whole drawing with a little margin; 1 user unit = 1 mm. Edges carry data-edge, cut outlines
// data-piece.
[[nodiscard]] std::string to_svg(const Drawing& drawing, std::string_view title);

// The same as part of an HTML page.
void append_inline_svg(std::string& out, const Drawing& drawing);

// All sheets below each other, one nested drawing each; sheet i begins at y = i * height.
[[nodiscard]] std::string sheets_svg(const std::vector<Drawing>& sheets, double width,
                                     double height, std::string_view title);

// A document of one page a sheet, to be printed by a browser at 100 %.
// What is drawn is stretched about the middle of each page, where a printer would shrink it.
[[nodiscard]] HtmlDocument sheets_html(const std::vector<Drawing>& sheets, double width,
                                       double height, std::string_view title,
                                       Vec stretch = {1.0, 1.0});

// Parts of the above for other writers.
void append_title(std::string& out, std::string_view title);
// All of it: what must not be long is cut before.
void append_escaped(std::string& out, std::string_view text);
void append_path(std::string& out, const Polyline& points, bool closed);
// Attributes of the lines or fills of a role.
void append_stroke_style(std::string& out, const Pen& pen);
void append_attribute(std::string& out, std::string_view name, double value);

}  // namespace coatwright
