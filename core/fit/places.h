// Where the places of fit notes lie on the standing dog, in the frame of core/body/landmarks.h: to be
// touched. Millimetres.
#pragma once

#include <array>

#include "core/body/landmarks.h"
#include "core/draft/styles/style.h"
#include "core/fit/note.h"

namespace coatwright {

inline constexpr int kFitPlaces = 11;
// In the order of FitPlace; the closure lies where the style closes.
[[nodiscard]] std::array<Point, kFitPlaces> fit_places(const Body& body, const StyleInfo& style);

}  // namespace coatwright
