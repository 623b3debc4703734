// Whatever is opened as a packing task: it is refused, or it is packed a little, and the packing
// is complete and within the strip.

#include "core/pack/instance.h"

#include <cstddef>
#include <cstdint>

#include "core/base/utf8.h"
#include "tests/fuzz/drafts.h"

using namespace coatwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto require_showable = [](const Problem& problem) {
    require(is_clean(problem.subject, false) && problem.subject.size() < 2000, "clean subject");
    require(is_clean(problem.other, false) && problem.other.size() < 200, "clean other");
  };
  const Result<PackInstance> instance = read_instance({reinterpret_cast<const char*>(data), size});
  if (!instance) {
    require_showable(instance.problem());
    return 0;
  }
  Result<PackSearch> search = PackSearch::begin(instance->task);
  if (!search) {
    require_showable(in_file_units(search.problem(), *instance));
    return 0;
  }
  const double row = search->best().length;
  search.value().step(20);
  const Packing& best = search->best();
  require(best.length <= row, "no longer than a row");
  size_t copies = 0;
  for (const PackPiece& piece : instance->task.pieces)
    copies += static_cast<size_t>(piece.quantity);
  require(best.places.size() == copies, "every copy placed");
  for (const PackPlace& place : best.places) {
    const PackPiece& piece = instance->task.pieces[static_cast<size_t>(place.piece)];
    const GridBox box =
        bounds(in_stance(piece.outline, piece.stances[static_cast<size_t>(place.stance)]).outer);
    require(box.x0 + place.at.x >= 0.0 && box.x1 + place.at.x <= best.length, "within the length");
    require(box.y0 + place.at.y >= 0.0 && box.y1 + place.at.y <= instance->task.strip_width,
            "within the width");
  }
  require(!write_layout(*instance, best, search->steps_done()).empty(), "written");
  return 0;
}
