// Packing instances and layouts as files, in the form of the published benchmark sets (JSON):
//
//     {"name": "fu", "strip_width": 38, "strip_width_relaxed": 38.0038, "pieces": [
//       {"id": 0, "demand": 1, "allowed_rotations_deg": [0, 90],
//        "polygon": [[0,0],[10,0],[10,10]], "holes": []}, ...]}
//
//     {"instance": "fu", "length": 31.5, "density_pct": 92.4, "seed": 1, "steps": 20000,
//      "placements": [{"piece": 0, "rotation_deg": 90, "x": 1.5, "y": 2}, ...]}
//
// A rotation is counter-clockwise about the piece's own origin and comes before the move by x, y.
// The strip runs along x, its width along y; where the file gives a relaxed width (a rounding
// allowance that published results use), that one bounds the pieces. Fields that are not named here
// are left out.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/pack/packer.h"

namespace coatwright {

inline constexpr size_t kMostInstanceBytes = 4000000;

struct PackInstance {
  std::string name;
  double strip_width = 0.0;      // as in the file, not relaxed
  double units = 1.0;            // grid units in one unit of the file
  std::vector<std::string> ids;  // of the pieces, as JSON: 7 or "seven"
  PackTask task;                 // on the grid, as fine as the largest piece allows
};

// Problems: Pack… with the place in the file ("/pieces/3/polygon") or the piece's number as
// subject.
[[nodiscard]] Result<PackInstance> read_instance(std::string_view json);

// A problem of PackSearch::begin with the id of the piece as the file has it, and its values in the
// file's units.
[[nodiscard]] Problem in_file_units(Problem problem, const PackInstance& instance);

// `packing` of the instance's task as a file. Density is counted in the strip width proper.
[[nodiscard]] std::string write_layout(const PackInstance& instance, const Packing& packing,
                                       long long steps);

}  // namespace coatwright
