#include "core/draw/png.h"

#include <zlib.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <memory>
#include <numeric>
#include <string>
#include <utility>

#include "core/draw/lettering.h"
#include "core/draw/number.h"
#include "core/draw/pen.h"
#include "core/draw/svg.h"
#include "core/draw/text.h"

namespace {

// stb's own compressor takes several times as long. The bytes are freed by it.
unsigned char* compressed(unsigned char* data, int size, int* out_size, int level) {
  uLong room = compressBound(static_cast<uLong>(size));
  auto* out = static_cast<unsigned char*>(std::malloc(room));
  if (out == nullptr || compress2(out, &room, data, static_cast<uLong>(size), level) != Z_OK) {
    std::free(out);
    return nullptr;
  }
  *out_size = static_cast<int>(room);
  return out;
}

}  // namespace

#define STBIW_ZLIB_COMPRESS compressed
#define NANOSVG_IMPLEMENTATION
#define NANOSVGRAST_IMPLEMENTATION
#define STBI_WRITE_NO_STDIO
#define STB_IMAGE_WRITE_STATIC
#define STB_IMAGE_WRITE_IMPLEMENTATION
#include <nanosvg.h>
#include <nanosvgrast.h>
#include <stb_image_write.h>

namespace coatwright {
namespace {

constexpr double kAround = 6.0;  // margin, mm
constexpr int kLevel = 3;        // of compression, 1 to 9
constexpr int kPaper[] = {0xFF, 0xFD, 0xF7};

// nanosvg draws no text: it is drawn as the outlines of its glyphs.
void append_glyph(std::string& out, const stbtt_fontinfo& face, int glyph, double scale, Point at,
                  Vec along) {
  const Vec up = {along.y, -along.x};
  const auto point = [&](char command, int x, int y) {
    const Point p = at + (scale * x) * along + (scale * y) * up;
    out += command;
    append_number(out, p.x);
    out += ' ';
    append_number(out, p.y);
  };
  stbtt_vertex* shape = nullptr;
  const int n = stbtt_GetGlyphShape(&face, glyph, &shape);
  for (int k = 0; k < n; ++k) {
    const stbtt_vertex& v = shape[k];
    switch (v.type) {
      case STBTT_vmove:
        if (k > 0) out += 'Z';
        point('M', v.x, v.y);
        break;
      case STBTT_vline:
        point('L', v.x, v.y);
        break;
      case STBTT_vcurve:
        point('Q', v.cx, v.cy);
        point(' ', v.x, v.y);
        break;
      case STBTT_vcubic:
        point('C', v.cx, v.cy);
        point(' ', v.cx1, v.cy1);
        point(' ', v.x, v.y);
        break;
      default:
        break;
    }
  }
  if (n > 0) out += 'Z';
  stbtt_FreeShape(&face, shape);
}

// The outlines of a line's glyphs.
std::string path_of(const Lettering& lettering, const TextItem& text) {
  const Vec along = {std::cos(text.angle), std::sin(text.angle)};
  const auto glyphs = lettering.glyphs(text.text, is_bold(text.role));
  double at = -text.anchor * Lettering::width(glyphs) * text.size_mm;
  std::string path;
  for (const Lettering::Glyph& one : glyphs) {
    if (one.face == Lettering::kFaces) continue;
    append_glyph(path, lettering.info(one.face), one.glyph, text.size_mm * lettering.unit(one.face),
                 text.at + at * along, along);
    at += text.size_mm * one.advance;
  }
  return path;
}

// The line cut into its dashes: nanosvg reads memory it never wrote where a dashed line ends in a
// dash.
std::vector<Polyline> dashes_of(const StrokeItem& line, const std::vector<double>& pattern) {
  Polyline points = line.points;
  if (line.closed && !points.empty()) points.push_back(points.front());
  std::vector<Polyline> dashes;
  size_t phase = 0;
  double left =
      pattern[0] - std::fmod(line.dash_from, std::accumulate(pattern.begin(), pattern.end(), 0.0));
  while (left <= 0.0) {
    phase = (phase + 1) % pattern.size();
    left += pattern[phase];
  }
  const auto is_dash = [&] { return phase % 2 == 0; };
  if (is_dash() && !points.empty()) dashes.push_back({points.front()});
  for (size_t i = 1; i < points.size(); ++i) {
    Point from = points[i - 1];
    double segment = distance(from, points[i]);
    while (segment > left) {
      from = lerp(from, points[i], left / segment);
      segment -= left;
      if (is_dash()) dashes.back().push_back(from);
      phase = (phase + 1) % pattern.size();
      left = pattern[phase];
      if (is_dash()) dashes.push_back({from});
    }
    left -= segment;
    if (is_dash()) dashes.back().push_back(points[i]);
  }
  return dashes;
}

std::string filled(Role role) {
  return " fill=\"" + std::string(pen(role, Ink::Picture).colour) + "\"";
}

// The drawing as SVG without text elements, its upper left corner at 0,0, 1 px = 1 mm. Lines that
// `fonts.letters` is to draw go to `others`.
std::string picture_svg(const Drawing& drawing, const Rect& page, const PictureFonts& fonts,
                        std::vector<TextItem>& others) {
  const Lettering lettering(fonts);
  const Vec to_corner = Point{} - Point{page.x0, page.y0};
  std::string svg = "<svg xmlns=\"http://www.w3.org/2000/svg\"";
  append_attribute(svg, "width", page.width());
  append_attribute(svg, "height", page.height());
  svg += ">\n";
  // What follows one another in one style is one shape: nanosvg goes through the picture's rows for each.
  std::string style, path;
  const auto end_shape = [&] {
    if (!path.empty()) svg += "<path" + style + " d=\"" + path + "\"/>\n";
    path.clear();
  };
  const auto in_style = [&](const std::string& wanted) {
    if (wanted != style) end_shape();
    style = wanted;
  };
  for (const DrawItem& original : drawing.items) {
    if (!is_finite(original)) continue;
    const DrawItem item = shifted(original, to_corner);
    if (const auto* text = std::get_if<TextItem>(&item)) {
      if (fonts.letters && !lettering.has(text->text)) {
        others.push_back(*text);
        continue;
      }
      in_style(filled(text->role));
      path += path_of(lettering, *text);
    } else if (const auto* line = std::get_if<StrokeItem>(&item)) {
      Pen solid = pen(line->role, Ink::Picture);
      const std::vector<double> pattern = std::exchange(solid.dashes, {});
      std::string stroke;
      append_stroke_style(stroke, solid);
      in_style(stroke);
      if (pattern.empty()) {
        append_path(path, line->points, line->closed);
      } else {
        for (const Polyline& dash : dashes_of(*line, pattern)) append_path(path, dash, false);
      }
    } else if (const auto* fill = std::get_if<FillItem>(&item)) {
      in_style(filled(fill->role));
      append_path(path, fill->points, true);
      end_shape();  // where two lie on each other both are seen
    }
  }
  end_shape();
  return svg + "</svg>\n";
}

struct Canvas {
  std::vector<unsigned char> rgba;  // opaque
  int width, height;
};

// The paper below what was drawn. nanosvg would draw it no other way than a shape, the largest of all.
void lay_on_paper(Canvas& canvas) {
  for (size_t i = 0; i < canvas.rgba.size(); i += 4) {
    unsigned char* to = &canvas.rgba[i];
    const int alpha = to[3];
    if (alpha == 255) continue;
    for (int k = 0; k < 3; ++k) {
      to[k] = static_cast<unsigned char>((to[k] * alpha + kPaper[k] * (255 - alpha) + 127) / 255);
    }
    to[3] = 255;
  }
}

// Mixes a colour into a pixel.
void mix(Canvas& canvas, int x, int y, const double (&colour)[3], double alpha) {
  unsigned char* to = &canvas.rgba[4 * (static_cast<size_t>(y) * static_cast<size_t>(canvas.width) +
                                        static_cast<size_t>(x))];
  for (size_t k = 0; k < 3; ++k) {
    to[k] = static_cast<unsigned char>(std::lround(to[k] + alpha * (colour[k] - to[k])));
  }
}

// Lays a line of text over the picture, its baseline from `start` along `along` (px), each pixel
// from the four of the line's that lie round it.
void lay_over(Canvas& canvas, const TextPicture& line, Point start, Vec along) {
  const Vec down{-along.y, along.x};
  const auto corner = [&](int x, int y) {
    return start + static_cast<double>(line.left + x) * along +
           static_cast<double>(line.top + y) * down;
  };
  const Rect box = bounds({corner(0, 0), corner(line.width, 0), corner(line.width, line.height),
                           corner(0, line.height)});
  const auto pixel = [&](int x, int y) -> const unsigned char* {
    if (x < 0 || y < 0 || x >= line.width || y >= line.height) return nullptr;
    return &line.rgba[4 * (static_cast<size_t>(y) * static_cast<size_t>(line.width) +
                           static_cast<size_t>(x))];
  };
  const auto first = [](double v) { return std::max(0, static_cast<int>(std::floor(v))); };
  for (int y = first(box.y0); y < std::min<double>(canvas.height, box.y1); ++y) {
    for (int x = first(box.x0); x < std::min<double>(canvas.width, box.x1); ++x) {
      const Vec off = Point{x + 0.5, y + 0.5} - start;
      const double u = dot(off, along) - line.left - 0.5, v = dot(off, down) - line.top - 0.5;
      const int left = static_cast<int>(std::floor(u)), top = static_cast<int>(std::floor(v));
      double alpha = 0.0, colour[3] = {};
      for (int k = 0; k < 4; ++k) {
        const int right = k % 2, lower = k / 2;
        const unsigned char* from = pixel(left + right, top + lower);
        if (from == nullptr) continue;
        const double part = (right ? u - left : 1.0 - (u - left)) *
                            (lower ? v - top : 1.0 - (v - top)) * from[3] / 255.0;
        alpha += part;
        for (size_t c = 0; c < 3; ++c) colour[c] += part * from[c];
      }
      if (alpha <= 0.0) continue;
      for (double& c : colour) c /= alpha;
      mix(canvas, x, y, colour, alpha);
    }
  }
}

void lay_over(Canvas& canvas, const TextItem& text, double px_per_mm, const DrawText& letters) {
  constexpr double kMostSize = 200.0;  // px; a name larger than this says no more
  const double size = std::min(kMostSize, text.size_mm * px_per_mm);
  const TextPicture line = letters(text.text, size, is_bold(text.role),
                                   std::string(pen(text.role, Ink::Picture).colour));
  if (!line.whole()) return;
  const Vec along = {std::cos(text.angle), std::sin(text.angle)};
  // Drawn lines have as much margin on either side.
  const double length = line.width + 2.0 * line.left;
  Point start = Point{text.at.x * px_per_mm, text.at.y * px_per_mm} - text.anchor * length * along;
  if (text.angle == 0.0) start = {std::round(start.x), std::round(start.y)};
  lay_over(canvas, line, start, along);
}

}  // namespace

std::vector<unsigned char> to_png(const Drawing& drawing, double px_per_mm,
                                  const PictureFonts& fonts) {
  std::vector<unsigned char> png;
  const Rect page = inset(drawing.bounds, -kAround);
  const double area = page.width() * page.height();
  if (drawing.items.empty() || !std::isfinite(area) || area <= 0.0) return png;
  if (!std::isfinite(px_per_mm) || px_per_mm <= 0.0) return png;
  const double scale = std::min(px_per_mm, std::sqrt(kMostPixels / area));
  const int width = static_cast<int>(std::ceil(scale * page.width()));
  const int height = static_cast<int>(std::ceil(scale * page.height()));

  std::vector<TextItem> others;
  std::string svg = picture_svg(drawing, page, fonts, others);
  const std::unique_ptr<NSVGimage, decltype(&nsvgDelete)> image(nsvgParse(svg.data(), "px", 96.0f),
                                                                nsvgDelete);
  const std::unique_ptr<NSVGrasterizer, decltype(&nsvgDeleteRasterizer)> rasterizer(
      nsvgCreateRasterizer(), nsvgDeleteRasterizer);
  if (!image || !rasterizer) return png;
  Canvas canvas{{}, width, height};
  std::vector<unsigned char>& pixels = canvas.rgba;
  pixels.resize(static_cast<size_t>(width) * static_cast<size_t>(height) * 4);
  nsvgRasterize(rasterizer.get(), image.get(), 0.0f, 0.0f, static_cast<float>(scale), pixels.data(),
                width, height, width * 4);
  lay_on_paper(canvas);
  for (const TextItem& text : others) lay_over(canvas, text, scale, fonts.letters);
  for (size_t from = 0, to = 0; from < pixels.size(); from += 4, to += 3) {
    std::copy_n(pixels.begin() + static_cast<std::ptrdiff_t>(from), 3,
                pixels.begin() + static_cast<std::ptrdiff_t>(to));
  }
  const auto keep = [](void* context, void* data, int size) {
    const auto* bytes = static_cast<const unsigned char*>(data);
    auto* out = static_cast<std::vector<unsigned char>*>(context);
    out->insert(out->end(), bytes, bytes + size);
  };
  // Most of a row is as the one above it; trying every way for each row takes most of the time.
  constexpr int kAsAbove = 2;
  stbi_write_force_png_filter = kAsAbove;
  stbi_write_png_compression_level = kLevel;
  stbi_write_png_to_func(keep, &png, width, height, 3, pixels.data(), width * 3);
  return png;
}

}  // namespace coatwright
