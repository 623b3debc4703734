#include "shell/pages/fit_page.h"

#include <algorithm>

#include "core/body/side_view.h"
#include "core/draw/number.h"
#include "core/draw/svg.h"
#include "core/fit/places.h"
#include "core/geometry/polygon.h"
#include "core/ticket/ids.h"
#include "shell/words/ticket_words.h"

namespace coatwright {
namespace {

// The two pictures, mm on the page: the dog, and beside it the coat.
constexpr double kDogWide = 100.0, kCoatWide = 74.0, kHigh = 66.0, kApart = 4.0;
constexpr double kSag = 0.05;  // mm on the page, of curves

class Picture {
 public:
  Picture() {
    out_ = "<svg width=\"" + mm(kWide) + "mm\" height=\"" + mm(kHigh) + "mm\" viewBox=\"0 0 " +
           mm(kWide) + " " + mm(kHigh) +
           "\" font-size=\"3.6\" stroke=\"#000\" stroke-linejoin=\"round\" role=\"img\">\n";
  }

  // What is drawn from now on: `box` as large as it has room from `left` on.
  void frame(const Rect& box, double left, double wide) {
    scale_ = std::min((wide - 2.0 * kEdge) / box.width(), (kHigh - 2.0 * kEdge) / box.height());
    origin_ = {box.x0 - (left + 0.5 * (wide - scale_ * box.width())) / scale_,
               box.y0 - 0.5 * (kHigh - scale_ * box.height()) / scale_};
  }

  void line(const Polyline& points, bool closed, const char* style) {
    Polyline on_page;
    for (const Point p : points) on_page.push_back(spot(p));
    out_ += std::string("<path ") + style + " d=\"";
    append_path(out_, on_page, closed);
    out_ += "\"/>\n";
  }
  void path(const Path& path, bool closed, const char* style) {
    line(flatten(path, kSag / scale_), closed, style);
  }
  void number(Point at, int n) {
    const Point p = spot(at);
    out_ += "<circle fill=\"#fff\" stroke-width=\"0.3\" r=\"2.5\" cx=\"" + mm(p.x) + "\" cy=\"" +
            mm(p.y) + "\"/><text stroke=\"none\" text-anchor=\"middle\" x=\"" + mm(p.x) +
            "\" y=\"" + mm(p.y + 1.3) + "\">" + std::to_string(n) + "</text>\n";
  }
  [[nodiscard]] std::string close() && { return out_ + "</svg>\n"; }

 private:
  static constexpr double kEdge = 3.0, kWide = kDogWide + kApart + kCoatWide;

  [[nodiscard]] Point spot(Point p) const { return Point{} + scale_ * (p - origin_); }
  static std::string mm(double v) {
    std::string text;
    append_number(text, v);
    return text;
  }

  std::string out_;
  double scale_ = 1.0;
  Point origin_;
};

void draw_dog(Picture& picture, const Body& body, const StyleInfo& style) {
  const SideView dog = draw_side_view(body);
  picture.frame(dog.bounds, 0.0, kDogWide);
  for (const SideShape& s : dog.shapes) {
    if (s.part == SidePart::Glint) continue;
    const bool crease = s.part == SidePart::Crease;
    picture.path(
        s.path, s.closed,
        crease ? "fill=\"none\" stroke-width=\"0.2\"" : "fill=\"#fff\" stroke-width=\"0.4\"");
  }
  const auto places = fit_places(body, style);
  for (size_t i = 0; i < places.size(); ++i) picture.number(places[i], static_cast<int>(i) + 1);
}

// The pieces of the trial coat as they are sewn, one below the other.
void draw_coat(Picture& picture, const Pattern& pattern) {
  std::vector<Polyline> nets;
  double low = 0.0;
  Rect all{};
  for (const CutPiece& piece : pattern.cut.pieces) {
    const bool shown = piece.piece.id == "body" || piece.piece.id == "band" ||
                       piece.piece.id == "panel" || piece.piece.id == "strap";
    if (!shown) continue;
    const Rect box = bounds(piece.net);
    const Vec shift{-box.x0, low - box.y0};
    Polyline net = piece.net;
    for (Point& p : net) p = p + shift;
    const Rect here = bounds(net);
    all = nets.empty() ? here : united(all, here);
    low = here.y1 + 0.05 * all.width();
    nets.push_back(std::move(net));
  }
  if (nets.empty()) return;
  picture.frame(all, kDogWide + kApart, kCoatWide);
  for (const Polyline& net : nets) picture.line(net, true, "fill=\"none\" stroke-width=\"0.4\"");
}

constexpr const char* kCautionsHere[] = {"fit.caution-pins", "caution.fingers", "caution.heat"};

}  // namespace

Document fit_card(const Ticket& ticket, const Pattern& pattern, const Words& words,
                  const std::string& date) {
  Document page(title_of(ticket, words));
  page.heading(1, title_of(ticket, words));
  page.paragraph(date.empty() ? words("fit.title") : words("fit.title") + " \u00B7 " + date);
  Picture picture;
  draw_dog(picture, pattern.body, style_of(ticket));
  draw_coat(picture, pattern);
  page.picture(std::move(picture).close());
  page.paragraph(words("fit.how"));
  page.open_list(ListKind::Numbered);  // as on the picture
  for (const FitPlace place : all_of<FitPlace>()) {
    const std::string id = id_of(place);
    page.item(words("place." + id) + " __________  " + words("look." + id));
  }
  page.open_list(ListKind::Plain);
  for (const char* key : kCautionsHere) page.item(words(key));
  return page;
}

}  // namespace coatwright
