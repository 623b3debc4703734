#include "core/make/shopping.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"
#include "core/lay/cloth.h"
#include "core/make/care.h"

namespace coatwright {
namespace {

constexpr double kSameWidth = 0.05;  // mm

void add(std::vector<ShoppingLine>& list, const std::vector<Notion>& notions) {
  for (const Notion& n : notions) {
    auto line = std::find_if(list.begin(), list.end(), [&](const ShoppingLine& l) {
      return l.kind == n.kind && l.from_cloth == n.from_cloth &&
             std::abs(l.width_mm - n.width_mm) < kSameWidth;
    });
    if (line == list.end()) {
      list.push_back({.kind = n.kind, .width_mm = n.width_mm, .from_cloth = n.from_cloth});
      line = list.end() - 1;
    }
    if (n.length_mm > 0.0) line->runs.push_back({n.count, n.length_mm});
    line->count += n.count;
    line->length_mm += n.count * n.length_mm;
    line->places.push_back(n.place);
  }
}

// Adds what a coat takes to its area.
void add(std::vector<CoatShare>& shares, const std::string& coat, double area_mm2) {
  auto share = std::find_if(shares.begin(), shares.end(),
                            [&](const CoatShare& s) { return s.coat == coat; });
  if (share == shares.end()) share = shares.insert(share, CoatShare{.coat = coat});
  share->area_mm2 += area_mm2;
}

void divide(std::vector<CoatShare>& shares) {
  double all = 0.0, before = 0.0;
  for (const CoatShare& s : shares) all += s.area_mm2;
  for (CoatShare& s : shares) {
    s.from = all > 0.0 ? before / all : 0.0;
    before += s.area_mm2;
    s.to = &s == &shares.back() || all <= 0.0 ? 1.0 : before / all;
  }
}

}  // namespace

std::vector<ShoppingLine> shopping_list(const Draft& draft, Unit unit) {
  return shopping_list(Drafts{&draft}, unit);
}

std::vector<ShoppingLine> shopping_list(const Drafts& drafts, Unit unit) {
  std::vector<ShoppingLine> list;
  for (const Draft* draft : drafts) {
    add(list, draft->notions);
    const std::optional<BiasStrips> strips = binding_strips(*draft);
    if (!strips) continue;
    for (ShoppingLine& line : list) {
      if (line.from_cloth && std::abs(line.width_mm - strips->width_mm) < kSameWidth) {
        line.strips.push_back(*strips);
      }
    }
  }
  for (ShoppingLine& line : list) {
    if (line.length_mm <= 0.0 || line.from_cloth) continue;
    line.to_buy_mm = as_shops_cut(line.length_mm + kCrookedTape, unit);
  }
  return list;
}

ShoppingLine seam_tape_to_buy(double mm, Unit unit) {
  return {.kind = NotionKind::SeamTape,
          .length_mm = mm,
          .to_buy_mm = as_shops_cut(mm + kCrookedTape, unit)};
}

namespace {

// Between two lays on a cloth: the gap, and a repeat so that stripes are found again.
double between(const Cloth& cloth) { return cloth.gap_mm + cloth.repeat_mm; }

}  // namespace

int place_on_rests(const std::vector<LaidCloth*>& cloths) {
  int moved = 0;
  for (size_t i = 0; i < cloths.size(); ++i) {
    Lay& lay = cloths[i]->lay;
    double begins = 0.0;
    bool more = false;
    for (size_t k = 0; k < cloths.size() && lay.cloth.rest_mm > 0.0; ++k) {
      if (k == i || cloths[k]->lay.cloth.use != lay.cloth.use) continue;
      if (k < i) begins += cloths[k]->lay.length_mm + between(lay.cloth);
      more = more || k > i;
    }
    moved += lay.begins_mm != begins || lay.more_behind != more ? 1 : 0;
    lay.begins_mm = begins;
    lay.more_behind = more;
  }
  return moved;
}

std::vector<ClothLine> cloth_to_buy(const std::vector<LaidCloth>& cloths, Unit unit) {
  std::vector<ClothLine> out;
  const auto need = [&](const Cloth& cloth, double length) -> ClothLine& {
    auto line = std::find_if(out.begin(), out.end(),
                             [&](const ClothLine& l) { return l.cloth.use == cloth.use; });
    if (line == out.end()) line = out.insert(out.end(), {.cloth = cloth});
    if (line->needed_mm > 0.0) line->needed_mm += between(cloth);
    line->needed_mm += length;
    return *line;
  };
  for (const LaidCloth& laid : cloths) {
    ClothLine& line = need(laid.lay.cloth, laid.lay.length_mm);
    for (const LaidPiece& piece : laid.lay.pieces) {
      add(line.shares, piece.coat, std::abs(signed_area(piece.outline)));
    }
  }
  // A strip takes the whole width of the roll, however wide it is.
  for (const LaidCloth& laid : cloths) {
    if (!laid.lamination) continue;
    const Cloth& roll = laid.lamination->roll;
    ClothLine& line = need(roll, laid.lamination->roll_mm);
    for (const LaminateBlank& blank : laid.lamination->blanks) {
      add(line.shares, laid.lay.pieces[blank.piece].coat, blank.roll_mm() * roll.width_mm);
    }
  }
  for (ClothLine& line : out) {
    divide(line.shares);
    line.to_buy_mm = length_to_buy(line.cloth, line.needed_mm, unit);
    line.lacks_mm = lacks_of_rest(line.cloth, line.needed_mm);
  }
  return out;
}

const char* needle_for(const Draft& draft, std::span<const Cloth> cloths) {
  const auto any = [&](auto&& holds) {
    return std::any_of(draft.pieces.begin(), draft.pieces.end(), holds);
  };
  if (any([&](const Piece& p) { return keeps_holes(p, cloths); })) return "laminate";
  const bool layered =
      any([](const Piece& p) { return p.layer == Layer::Lining || p.layer == Layer::Insulation; });
  return layered ? "fleece" : "cotton";
}

}  // namespace coatwright
