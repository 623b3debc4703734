#include "shell/desk/thumbnails.h"

#include <algorithm>

#include "core/draft/styles/doubt.h"
#include "core/draw/sketch.h"
#include "core/geometry/polygon.h"
#include "core/ticket/pattern_of.h"
#include "shell/desk/derived.h"

namespace coatwright::studio {

namespace {

constexpr double kPieceGap = 40.0;  // between pieces, mm
constexpr size_t kMostMade = 200;   // several screens full
constexpr double kTolerance = 0.3;  // mm: less than half a device pixel at this size

Wash wash_of(const PieceSketch& sketch, Vec shift) {
  Wash wash{sketch.layers.front().layer == Layer::Lining ? Role::LiningCloth : Role::Cloth, {}, {}};
  wash.points = thinned(placed(sketch.cut, Placement{0, shift}), kTolerance);
  wash.corners = triangulate(wash.points);
  return wash;
}

}  // namespace

// The body on top, the other pieces in a row below it.
Thumbnail thumbnail_of(const Ticket& ticket) {
  Thumbnail out;
  const Checked<Pattern> made = pattern_of(ticket);
  out.facts.findings = made.findings;
  if (!made.result) {
    out.facts.refusal = made.result.problem();
    return out;
  }
  const StyleInfo& style = style_of(ticket);
  const Body& body = made.result->body;
  out.facts.estimated = estimated_for(style, ticket.choices, body);
  const Findings doubts = doubts_of(style, body, made.result->choices, made.result->draft);
  out.facts.findings.insert(out.facts.findings.end(), doubts.begin(), doubts.end());
  out.facts.closes = seams_close(made.result->draft);
  const auto sketches = sketch_pieces(made.result->cut, ticket.print.opened, true);
  double x = 0.0, low = 0.0;
  for (size_t i = 0; i < sketches.size(); ++i) {
    const Rect box = bounds(sketches[i].cut);
    const Vec shift = i == 0 ? Vec{-box.x0, -box.y0} : Vec{x - box.x0, low + kPieceGap - box.y0};
    if (i == 0) {
      low = box.height();
    } else {
      x += box.width() + kPieceGap;
    }
    out.pieces.push_back(wash_of(sketches[i], shift));
    const Rect drawn = bounds(out.pieces.back().points);
    out.bounds = i == 0 ? drawn : united(out.bounds, drawn);
  }
  return out;
}

const Thumbnail* Thumbnails::of(const Card& card) {
  const auto made = made_.find(card.id);
  if (made != made_.end()) made->second.used = ++asked_;
  if (made != made_.end() && made->second.ticket == card.ticket) return &made->second.thumbnail;
  wanted_.push_back(card);
  // The picture of before is better than none while the new one is made.
  return made == made_.end() ? nullptr : &made->second.thumbnail;
}

const Thumbnail* Thumbnails::made_before(const Card& card) const {
  const auto made = made_.find(card.id);
  return made == made_.end() ? nullptr : &made->second.thumbnail;
}

bool Thumbnails::make_one() {
  std::vector<Card> wanted = std::exchange(wanted_, {});
  if (wanted.empty()) return false;
  const Card& first = wanted.front();
  made_[first.id] = {first.ticket, thumbnail_of(first.ticket), ++asked_};
  if (made_.size() > kMostMade) {
    made_.erase(std::min_element(made_.begin(), made_.end(), [](const auto& a, const auto& b) {
      return a.second.used < b.second.used;
    }));
  }
  return true;
}

}  // namespace coatwright::studio
