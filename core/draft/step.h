// The steps of sewing a coat, stage by stage.
#pragma once

#include <string>
#include <vector>

namespace coatwright {

// What has to be done, in the order of the work: "step.<id>" in the word table. Before the pieces
// are cut; as they are; on single pieces; shell and lining each; the edges, turned or bound; what
// closes the coat; on the dog.
enum class Stage { Prepare, Cut, Pieces, Join, Edges, Close, Try };
inline constexpr int kStages = 7;
[[nodiscard]] const char* stage_id(Stage stage);  // "stage.<id>" in the word table
struct Step {
  Stage stage;
  std::string id;  // once in a draft; what is ticked off is kept under it
  // What it is about, by the names that stand in the draft: whole pieces, single edges, marks. An
  // edge or mark means every layer that has it.
  std::vector<std::string> pieces = {}, edges = {}, marks = {};
};

// The step that cuts the pieces out.
inline constexpr const char* kCutStep = "cut-pieces";

}  // namespace coatwright
