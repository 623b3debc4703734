// Bytes as a tape and choices, without the file format round them: any readings within the entry
// limits and any choices are refused or give sound pieces.
//
// Three bytes a number: which one it is (below 128 a measure, below 224 a choice, else an alteration),
// and its place in its range. The first byte is the dog's sex and build and the style.

#include <cstddef>
#include <cstdint>

#include "tests/fuzz/drafts.h"

using namespace coatwright;

namespace {

// The five required readings of an ordinary dog, mm: a start from which the search goes out.
Tape ordinary_dog() {
  Tape tape;
  tape.of(Measure::Back) = {560.0};
  tape.of(Measure::Neck) = {420.0};
  tape.of(Measure::Chest) = {670.0};
  tape.of(Measure::Drop) = {245.0};
  tape.of(Measure::Breast) = {690.0};
  return tape;
}

double between(double low, double high, double share) { return low + (high - low) * share; }

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  Tape tape = ordinary_dog();
  Choices choices;
  Alterations alterations;
  const StyleInfo* style = &kWrapCoat;
  if (size > 0) {
    tape.sex = static_cast<Sex>(data[0] % 3);
    tape.build = static_cast<Build>(data[0] / 3 % 4);
    style = styles()[data[0] / 12 % styles().size()];
  }
  for (std::size_t i = 1; i + 2 < size && i < 100; i += 3) {
    const double share = (data[i + 1] * 256 + data[i + 2]) / 65535.0;
    if (data[i] < 128) {
      const MeasureInfo& measure = measure_table()[data[i] % kMeasures];
      tape.of(measure.measure) = {between(measure.lowest, measure.highest, share)};
    } else if (data[i] >= 224) {
      const auto what = static_cast<Alter>(data[i] % kAlters);
      if (can_alter(*style, what))
        alterations.list.push_back({what, between(-300.0, 300.0, share), 1});
    } else {
      const ChoiceInfo& choice = *choice_table()[data[i] % 128U % choice_table().size()];
      choices.set(choice, choice.named() ? static_cast<double>(data[i + 1] % choice.options.size())
                                         : between(-500.0, 500.0, share));
    }
  }
  require_sound_draft(tape, choices, *style, alterations);
  return 0;
}
