#include "shell/kit/board_words.h"

#include <algorithm>

#include "shell/kit/widgets.h"
#include "shell/words/say.h"

namespace coatwright::studio {
namespace {

constexpr float kBeside = 26.0F;  // px

void add_new(std::vector<std::string>& said, const std::string& words) {
  if (std::find(said.begin(), said.end(), words) == said.end()) said.push_back(words);
}

std::string joined(const std::vector<std::string>& said, const char* between) {
  std::string out;
  for (const std::string& words : said) out += (out.empty() ? "" : between) + words;
  return out;
}

}  // namespace

Box box_on_page(const BoardMap& map, const Rect& r) {
  const Spot a = map.page(Point{r.x0, r.y0}), b = map.page(Point{r.x1, r.y1});
  return {a.x, a.y, b.x - a.x, b.y - a.y};
}

void tell_pieces(Frame& f, const BoardMap& map, const PatternDrawing& drawn, bool with_edges) {
  for (const PlacedPiece& piece : drawn.placed) {
    std::vector<std::string> said = piece.cut_counts, lengths, edges;
    for (const CutPiece& cut : f.derived.pattern->cut.pieces) {
      if (cut.piece.id != piece.id) continue;
      for (const CutEdge& edge : cut.edges) {
        lengths.push_back(f.length(edge.length_mm));
        add_new(edges, name_of(edge.id, f.words) + " " + lengths.back());
      }
    }
    for (const DrawItem& item : drawn.drawing.items) {
      const auto* text = std::get_if<TextItem>(&item);
      if (text == nullptr || text->role == Role::Name || !holds(piece.bounds, text->at)) continue;
      // A length that stands on its line is told with the line's name.
      const bool of_edge = std::find(lengths.begin(), lengths.end(), text->text) != lengths.end();
      if (!of_edge) add_new(said, text->text);
    }
    if (with_edges) {
      for (const std::string& edge : edges) add_new(said, edge);
    }
    const std::string name = f.words("piece." + piece.id);
    // With the room above and below, where the name of a small piece stands.
    words_at(f, "piece." + piece.id, box_on_page(map, piece.bounds).inset(0.0F, -kBeside),
             name + ": " + joined(said, "; "));
  }
}

void tell_drawing(Frame& f, const BoardMap& map, const Drawing& drawing, bool with_names) {
  std::vector<std::string> said;
  for (const DrawItem& item : drawing.items) {
    const auto* text = std::get_if<TextItem>(&item);
    if (text != nullptr && (with_names || text->role != Role::Name)) add_new(said, text->text);
  }
  if (!said.empty()) words_at(f, "board.words", map.box(), joined(said, "; "));
}

}  // namespace coatwright::studio
