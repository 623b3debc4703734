// Which pieces and edges of a draft belong together.
#pragma once

#include "core/draft/draft.h"

namespace coatwright {

// Whether it is joined in its own layer, to another piece of the coat or to its mirror image, and to
// no other layer.
[[nodiscard]] bool joins_own_layer(const Draft& draft, const Piece& piece, const Edge& edge);
// One of the edges that a seam joins.
struct SeamSide {
  const Piece* piece = nullptr;
  const Edge* edge = nullptr;
};
// How much of an edge lies in the mouths of darts, read off their marks; how long it lies once they
// are closed.
[[nodiscard]] double taken_by_darts(const Piece& piece, const Edge& edge);
[[nodiscard]] double sewn_length(const Piece& piece, const Edge& edge);
// Of the coat itself, with its layers and its edges: no part that is made up before, no facing.
[[nodiscard]] bool of_coat(const Piece& piece);
// The ids of a piece's layers, from the outside in: all of them; those of the cloth outside, with what
// warms it; the lining's.
enum class Layers { All, Outside, Inside };
[[nodiscard]] std::vector<std::string> layers_of(const Draft& draft, std::string_view shell,
                                                 Layers which = Layers::All);
// Of all pieces of the coat itself but a band, which is finished by itself.
[[nodiscard]] std::vector<std::string> coat_layers(const Draft& draft, Layers which = Layers::All);
// The edges of the coat itself that are joined in their own layers; those of the outside layer with
// a finish.
[[nodiscard]] std::vector<std::string> own_seams(const Draft& draft);
[[nodiscard]] std::vector<std::string> coat_edges(const Draft& draft, Finish finish);
// What is true of one of these edges once all of its seam is sewn: without a lining it is felled, before
// anything is stitched across it.
[[nodiscard]] Fact seam_is_sewn(const Draft& draft, const char* edge);
// Whether the seam along the spine is left open for a leash or harness.
[[nodiscard]] bool opens_in_seam(const Draft& draft);
// The piece of the outer cloth that a piece of a layer below lies under.
[[nodiscard]] const Piece& shell_of(const Draft& draft, const Piece& layer);

}  // namespace coatwright
