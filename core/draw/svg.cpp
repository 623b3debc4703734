#include "core/draw/svg.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/base/utf8.h"
#include "core/draw/number.h"
#include "core/draw/text.h"

namespace coatwright {
namespace {

constexpr double kAround = 5.0;  // margin of the whole pattern, mm
// Browsers round pages to whole points or so and shrink, silently, what is wider than the page; a
// block this much narrower than the page stays at its size. WebKit prints 0.3 % larger, and would
// run onto a second page with a block that is not this much lower, where no sheet shows anything
// (kSmallestMargin). mm.
constexpr double kNarrower = 0.6, kLower = 2.5;
constexpr size_t kMostText = 400;  // characters of one text of a drawing
constexpr std::string_view kFont =
    " font-family=\"Cabin,'Helvetica Neue',Arial,'Liberation Sans',sans-serif\"";

void append_view(std::string& out, const Rect& r) {
  out += " viewBox=\"";
  append_number(out, r.x0);
  out += ' ';
  append_number(out, r.y0);
  out += ' ';
  append_number(out, r.width());
  out += ' ';
  append_number(out, r.height());
  out += '"';
}

void append_quantity(std::string& out, std::string_view name, double value, std::string_view unit) {
  out += ' ';
  out += name;
  out += "=\"";
  append_number(out, value);
  out += unit;
  out += '"';
}

void append_mm(std::string& out, std::string_view name, double mm) {
  append_quantity(out, name, mm, "mm");
}

void append_id(std::string& out, std::string_view name, std::string_view id) {
  if (id.empty()) return;
  out += ' ';
  out += name;
  out += "=\"";
  append_escaped(out, cleaned(id, kMostText));
  out += '"';
}

void append(std::string& out, const StrokeItem& line) {
  out += "<path d=\"";
  append_path(out, line.points, line.closed);
  out += '"';
  append_id(out, line.role == Role::CutLine ? "data-piece" : "data-edge", line.id);
  const std::vector<double>& dashes = pen(line.role, Ink::Paper).dashes;
  if (!dashes.empty() && line.dash_from > 0.0) {
    double whole = 0.0;
    for (const double d : dashes) whole += d;
    append_attribute(out, "stroke-dashoffset", std::fmod(line.dash_from, whole));
  }
  out += "/>";
}

void append(std::string& out, const FillItem& fill) {
  out += "<path d=\"";
  append_path(out, fill.points, true);
  out += '"';
  append_id(out, "data-piece", fill.id);
  out += "/>";
}

void append(std::string& out, const TextItem& text) {
  if (text.clip) {
    out += "<svg";
    append_attribute(out, "x", text.clip->x0);
    append_attribute(out, "y", text.clip->y0);
    append_attribute(out, "width", text.clip->width());
    append_attribute(out, "height", text.clip->height());
    append_view(out, *text.clip);
    out += " overflow=\"hidden\">";
  }
  out += "<text";
  append_attribute(out, "x", text.at.x);
  append_attribute(out, "y", text.at.y);
  append_attribute(out, "font-size", text.size_mm);
  if (text.anchor > 0.25)
    out += text.anchor < 0.75 ? " text-anchor=\"middle\"" : " text-anchor=\"end\"";
  if (text.angle != 0.0) {
    out += " transform=\"rotate(";
    append_number(out, text.angle * 180.0 / std::numbers::pi);
    out += ' ';
    append_number(out, text.at.x);
    out += ' ';
    append_number(out, text.at.y);
    out += ")\"";
  }
  out += '>';
  append_escaped(out, cleaned(text.text, kMostText));
  out += "</text>";
  if (text.clip) out += "</svg>";
}

Role role_of(const DrawItem& item) {
  return std::visit([](const auto& i) { return i.role; }, item);
}

void open_group(std::string& out, const DrawItem& first) {
  const Pen& p = pen(role_of(first), Ink::Paper);
  out += "<g class=\"";
  out += p.name;
  out += '"';
  if (std::holds_alternative<StrokeItem>(first)) {
    append_stroke_style(out, p);
  } else {
    append_id(out, "fill", p.colour);
    if (is_bold(role_of(first)) && std::holds_alternative<TextItem>(first)) {
      out += " font-weight=\"600\"";
    }
  }
  out += '>';
}

// Items in their order; neighbours of one kind and role share a group.
void append_items(std::string& out, const DrawItems& items) {
  const DrawItem* group = nullptr;
  for (const DrawItem& item : items) {
    const bool hidden =
        std::holds_alternative<FillItem>(item) && !pen(role_of(item), Ink::Paper).fills;
    if (hidden || !is_finite(item)) continue;
    if (!group || group->index() != item.index() || role_of(*group) != role_of(item)) {
      if (group) out += "</g>\n";
      open_group(out, item);
      group = &item;
    }
    std::visit([&](const auto& i) { append(out, i); }, item);
  }
  if (group) out += "</g>\n";
}

Rect inset_by(double width, double height, Vec stretch) {
  const double x = 0.5 * width * (1.0 - 1.0 / stretch.x);
  const double y = 0.5 * height * (1.0 - 1.0 / stretch.y);
  return {x, y, width - x, height - y};
}

constexpr std::string_view kSvg = "<svg xmlns=\"http://www.w3.org/2000/svg\"";
constexpr std::string_view kXml = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";

}  // namespace

void append_escaped(std::string& out, std::string_view text) {
  for (const char c : cleaned(text, text.size())) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
}

void append_path(std::string& out, const Polyline& points, bool closed) {
  for (size_t i = 0; i < points.size(); ++i) {
    out += i == 0 ? 'M' : 'L';
    append_number(out, points[i].x);
    out += ' ';
    append_number(out, points[i].y);
  }
  if (closed && !points.empty()) out += 'Z';
}

void append_stroke_style(std::string& out, const Pen& p) {
  out += " fill=\"none\"";
  append_id(out, "stroke", p.colour);
  append_attribute(out, "stroke-width", p.width);
  if (!p.dashes.empty()) {
    out += " stroke-dasharray=\"";
    for (size_t i = 0; i < p.dashes.size(); ++i) {
      if (i > 0) out += ' ';
      append_number(out, p.dashes[i]);
    }
    out += '"';
  }
  out += " stroke-linejoin=\"round\"";
}

void append_attribute(std::string& out, std::string_view name, double value) {
  append_quantity(out, name, value, "");
}

void append_title(std::string& out, std::string_view title) {
  out += "<title>";
  append_escaped(out, cleaned(title, kMostText));
  out += "</title>\n";
}

std::string to_svg(const Drawing& drawing, std::string_view title) {
  const Rect page = inset(drawing.bounds, -kAround);
  std::string out(kXml);
  out += kSvg;
  append_mm(out, "width", page.width());
  append_mm(out, "height", page.height());
  append_view(out, page);
  out += kFont;
  out += ">\n";
  append_title(out, title);
  append_items(out, drawing.items);
  out += "</svg>\n";
  return out;
}

void append_inline_svg(std::string& out, const Drawing& drawing) {
  const Rect page = inset(drawing.bounds, -kAround);
  out += "<svg role=\"img\"";
  append_mm(out, "width", page.width());
  append_mm(out, "height", page.height());
  append_view(out, page);
  out += kFont;
  out += ">\n";
  append_items(out, drawing.items);
  out += "</svg>\n";
}

std::string sheets_svg(const std::vector<Drawing>& sheets, double width, double height,
                       std::string_view title) {
  const double whole = height * static_cast<double>(std::max<size_t>(sheets.size(), 1));
  std::string out(kXml);
  out += kSvg;
  append_mm(out, "width", width);
  append_mm(out, "height", whole);
  append_view(out, {0.0, 0.0, width, whole});
  out += kFont;
  out += ">\n";
  append_title(out, title);
  double y = 0.0;
  for (const Drawing& sheet : sheets) {
    out += "<svg";
    append_attribute(out, "x", 0.0);
    append_attribute(out, "y", y);
    append_attribute(out, "width", width);
    append_attribute(out, "height", height);
    append_view(out, {0.0, 0.0, width, height});
    out += ">\n";
    append_items(out, sheet.items);
    out += "</svg>\n";
    y += height;
  }
  out += "</svg>\n";
  return out;
}

HtmlDocument sheets_html(const std::vector<Drawing>& sheets, double width, double height,
                         std::string_view title, Vec stretch) {
  const auto mm = [](double v) {
    std::string text;
    append_number(text, v);
    return text + "mm";
  };
  HtmlDocument document{
      std::string(title),
      "@page{size:" + mm(width) + " " + mm(height) +
          ";margin:0}\n"
          "html,body{margin:0;padding:0}\n"
          "section{width:" +
          mm(width - kNarrower) + ";height:" + mm(height - kLower) +
          ";overflow:hidden;break-inside:avoid;background:#fff;-webkit-print-color-adjust:exact;"
          "print-color-adjust:exact}\n"
          "section:not(:last-child){break-after:page}\n"
          "svg{display:block}\n"
          "@media screen{body{background:#2F3A4C;padding:8mm 0}"
          "section{margin:0 auto 8mm;box-shadow:0 1mm 3mm #0008;width:" +
          mm(width) + ";height:" + mm(height) + "}}\n",
      {}};
  std::string& out = document.body;
  for (const Drawing& sheet : sheets) {
    out += "<section><svg";
    append_mm(out, "width", width);
    append_mm(out, "height", height);
    // The part of the drawing that fills the page.
    append_view(out, inset_by(width, height, stretch));
    if (stretch != Vec{1.0, 1.0}) out += " preserveAspectRatio=\"none\"";
    out += kFont;
    out += ">\n";
    append_items(out, sheet.items);
    out += "</svg></section>\n";
  }
  return document;
}

}  // namespace coatwright
