// What is asked of every option: promises over a population in each style that has it, sizes that
// grow with the dog, points that move little with a reading, whole pieces that are their own mirror
// image, curves that cloth can turn.
#pragma once

#include <initializer_list>

#include "core/body/measures.h"
#include "core/draft/styles/style.h"

namespace coatwright::test {

[[nodiscard]] bool advised(const Findings& findings, std::string_view which);

// Each named option of `choice`, and random numbers of the choices beside it, on `dogs` dogs of
// each style that has it.
void check_population(const ChoiceInfo& choice, std::initializer_list<const ChoiceInfo*> beside,
                      int dogs);

// All lengths times s give points times s, but for the turn of cloth and tapes of sold widths.
void check_scale(const ChoiceInfo& choice, int dogs);

// A millimetre on any one of these readings, with all measures taken, moves no point by `most_mm`.
void check_continuity(const ChoiceInfo& choice, std::initializer_list<Measure> readings, int dogs,
                      double most_mm = 10.0);

}  // namespace coatwright::test
