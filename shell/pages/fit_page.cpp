#include "shell/pages/fit_page.h"

#include <algorithm>

#include "core/fit/places.h"
#include "core/geometry/polygon.h"
#include "core/ticket/ids.h"
#include "shell/pages/paper_picture.h"
#include "shell/words/ticket_words.h"

namespace coatwright {
namespace {

// The two pictures, mm on the page: the dog, and beside it the coat.
constexpr double kDogWide = 100.0, kCoatWide = 74.0, kHigh = 66.0, kApart = 4.0;

void draw_dog(PaperPicture& picture, const Body& body, const StyleInfo& style) {
  const SideView dog = draw_side_view(body);
  picture.frame(dog.bounds, 0.0, kDogWide);
  picture.dog(dog);
  int number = 0;
  for (const Point place : fit_places(body, style)) picture.number(place, ++number);
}

// The pieces of the trial coat as they are sewn, one below the other.
void draw_coat(PaperPicture& picture, const Pattern& pattern) {
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
  for (const Polyline& net : nets) picture.line(Role::Grain, net, true);
}

constexpr const char* kCautionsHere[] = {"fit.caution-pins", "caution.fingers", "caution.heat"};

}  // namespace

Document fit_card(const Ticket& ticket, const Pattern& pattern, const Words& words,
                  const std::string& date) {
  Document page(title_of(ticket, words));
  page.heading(1, title_of(ticket, words));
  page.paragraph(date.empty() ? words("fit.title") : words("fit.title") + " \u00B7 " + date);
  PaperPicture picture(kHigh);
  draw_dog(picture, pattern.body, style_of(ticket));
  draw_coat(picture, pattern);
  page.drawing(std::move(picture).close());
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
