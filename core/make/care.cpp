#include "core/make/care.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <vector>

#include "core/draft/options/neck_sewing.h"
#include "core/lay/coat_lay.h"
#include "core/make/thread.h"

namespace coatwright {
namespace {

constexpr std::string_view kPresses[] = {
    "wash-shell", "join-strips", "press-darts",  "press-spine",   "press-open",  "face-opening",
    "make-snood", "press-edges", "press-coated", "press-through", "roll-lining",
};

const Cloth* cloth_for(std::span<const Cloth> cloths, ClothUse use) {
  const auto found =
      std::find_if(cloths.begin(), cloths.end(), [&](const Cloth& c) { return c.use == use; });
  return found == cloths.end() ? nullptr : &*found;
}
const Cloth* cloth_of(std::span<const Cloth> cloths, const Piece& piece) {
  const std::optional<ClothUse> use = cloth_use_of(piece.layer);
  return use ? cloth_for(cloths, *use) : nullptr;
}

// Degrees Celsius, and Fahrenheit to the nearest five as irons and presses are marked.
std::vector<int> heat(double celsius) {
  const double fahrenheit = 1.8 * celsius + 32.0;
  return {static_cast<int>(std::lround(celsius)),
          5 * static_cast<int>(std::lround(fahrenheit / 5.0))};
}

void tell_how_to_fuse(std::span<const Cloth> cloths, Operation& o) {
  const Cloth* const laminate = cloth_for(cloths, ClothUse::Laminate);
  const double hot = laminate ? laminate->iron_c : 0.0, long_s = laminate ? laminate->fuse_s : 0.0;
  o.how.push_back(hot > 0.0 ? Sentence{"fuse-heat", {}, heat(hot)} : Sentence{"fuse-heat-unknown"});
  o.how.push_back(long_s > 0.0
                      ? Sentence{"fuse-seconds", {}, {static_cast<int>(std::lround(long_s))}}
                      : Sentence{"fuse-seconds-unknown"});
}

// What lies under the iron: before it is sewn only the outer cloth is pressed, and strips of it.
std::vector<const Cloth*> under_the_iron(const std::vector<const Piece*>& touched,
                                         std::span<const Cloth> cloths, Deed deed) {
  if (deed == Deed::Wash || deed == Deed::Cut) return {cloth_for(cloths, ClothUse::Shell)};
  std::vector<const Cloth*> out;
  for (const Piece* p : touched) {
    out.push_back(cloth_of(cloths, *p));
    if (p->laminated) out.push_back(cloth_for(cloths, ClothUse::Laminate));
  }
  return out;
}

// The hottest iron that all of them take; none where it is known of none.
std::optional<double> hottest(const std::vector<const Cloth*>& cloths) {
  std::optional<double> out;
  for (const Cloth* cloth : cloths) {
    if (cloth == nullptr || cloth->iron_c <= 0.0) continue;
    out = std::min(out.value_or(cloth->iron_c), cloth->iron_c);
  }
  return out;
}

// The operation that fells or binds the allowances of what is joined here; or none.
const Operation* felling_of(const Draft& draft, const Operation& o) {
  for (const Operation& f : draft.operations) {
    if (f.deed != Deed::Fell) continue;
    if (std::any_of(f.edges.begin(), f.edges.end(),
                    [&](const auto& e) { return names(o.edges, e); })) {
      return &f;
    }
  }
  return nullptr;
}

// A seam is sealed when its allowances lie as they stay: with tape on the inside, or where something lies
// on the inside that leaves no room for it, a binding or what is sewn on, with sealant outside.
enum class Seal { None, Tape, Sealant };
Seal seal_at(const Draft& draft, const Operation& o) {
  switch (o.deed) {
    case Deed::Dart:
      return Seal::Tape;
    case Deed::Join:
      return felling_of(draft, o) == nullptr ? Seal::Tape : Seal::None;
    case Deed::Fell:
      if (o.edges.empty()) return Seal::None;
      return o.id == kBindNeckline ? Seal::Sealant : Seal::Tape;
    case Deed::Attach:
      return Seal::Sealant;
    default:
      return Seal::None;
  }
}

bool is_held_to_be_sewn(Deed deed) {
  return deed == Deed::Fuse || deed == Deed::Dart || deed == Deed::Join || deed == Deed::Face ||
         deed == Deed::Enclose || deed == Deed::Bind || deed == Deed::Hem;
}

}  // namespace

bool keeps_holes(const Piece& piece, std::span<const Cloth> cloths) {
  const Cloth* const cloth = cloth_of(cloths, piece);
  return piece.laminated || (cloth != nullptr && cloth->keeps_holes);
}

bool presses(std::string_view sentence) {
  return std::find(std::begin(kPresses), std::end(kPresses), sentence) != std::end(kPresses);
}

double seam_tape(const Draft& draft, std::span<const Cloth> cloths) {
  double sum = 0.0;
  for (Operation o : draft.operations) {
    if (o.deed != Deed::Dart && o.deed != Deed::Join) continue;
    const Operation* const felled = o.deed == Deed::Join ? felling_of(draft, o) : nullptr;
    if (felled != nullptr && seal_at(draft, *felled) != Seal::Tape) continue;
    // What is joined to coated cloth may be other cloth; what lies below it has seams of
    // its own.
    bool any = false;
    std::erase_if(o.through, [&](const std::string& id) {
      const Piece& p = *find_piece(draft, id);
      any = any || keeps_holes(p, cloths);
      return p.layer != Layer::Shell && !keeps_holes(p, cloths);
    });
    if (any) sum += lines_of(draft, o).lockstitch / o.rows;
  }
  return sum;
}

void add_cloth_care(const Draft& draft, std::span<const Cloth> cloths, Operation& o) {
  std::vector<const Piece*> touched;
  for (const Piece& p : draft.pieces) {
    if (names(o.pieces, p.id) || names(o.through, p.id)) touched.push_back(&p);
  }
  const bool holes = std::any_of(touched.begin(), touched.end(),
                                 [&](const Piece* p) { return keeps_holes(*p, cloths); });
  const bool lined = std::any_of(touched.begin(), touched.end(),
                                 [](const Piece* p) { return p->layer == Layer::Lining; });
  if (o.deed == Deed::Fuse) tell_how_to_fuse(cloths, o);
  if (holes) {
    for (Sentence& s : o.how) {
      if (s.id == "press-edges") s.id = lined ? "press-coated" : "press-through";
      if (s.id == "roll-lining") s.id = "roll-lining-coated";
    }
    if (o.deed == Deed::Cut) o.how.push_back({"cut-coated"});
    const Seal seal = seal_at(draft, o);
    if (seal == Seal::Tape) o.how.push_back({"seal-seam"});
    if (seal == Seal::Sealant) o.how.push_back({"seal-holes"});
    if (is_held_to_be_sewn(o.deed)) o.how.push_back({"clips"});
  }
  if (std::none_of(o.how.begin(), o.how.end(), [](const Sentence& s) { return presses(s.id); })) {
    return;
  }
  if (const auto most = hottest(under_the_iron(touched, cloths, o.deed))) {
    o.how.push_back({"iron-at-most", {}, heat(*most)});
  }
}

}  // namespace coatwright
