#include "core/fit/places.h"

#include <algorithm>

#include "core/draft/options/back_closure.h"

namespace coatwright {

// Own rules: off each other by more than a fingertip on a telephone's board.
std::array<Point, kFitPlaces> fit_places(const Body& body, const StyleInfo& style) {
  const Landmarks at = make_landmarks(body);
  const auto& choices = choices_of(style);
  const bool on_back = std::find(choices.begin(), choices.end(), &kBackOverlap) != choices.end();
  std::array<Point, kFitPlaces> out;
  const auto place = [&](FitPlace p) -> Point& { return out[static_cast<size_t>(p)]; };
  place(FitPlace::Neck) = lerp(at.neck_top, at.neck_front, 0.3);
  place(FitPlace::Shoulder) = lerp(at.withers, at.elbow, 0.36);
  place(FitPlace::Breast) = at.breastbone;
  place(FitPlace::Foreleg) = at.elbow + Vec{-0.6 * at.leg_width, 0.1 * at.chest_depth};
  place(FitPlace::Girth) = lerp(at.girth_top, at.girth_floor, 0.5);
  place(FitPlace::Belly) = lerp(at.girth_floor, at.rib_floor, 0.6);
  place(FitPlace::Side) = lerp(at.rib_top, at.rib_floor, 0.62);
  place(FitPlace::Loin) = lerp(at.loin_top, at.loin_floor, 0.55);
  place(FitPlace::Tail) = at.tail_base;
  place(FitPlace::HindLeg) = {lerp(at.loin_floor, at.tail_base, 0.62).x,
                              at.loin_floor.y + 0.1 * at.chest_depth};
  place(FitPlace::Closure) = on_back ? lerp(at.rib_top, at.loin_top, 0.3) : at.neck_front;
  return out;
}

}  // namespace coatwright
