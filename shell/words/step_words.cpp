#include "shell/words/step_words.h"

#include <algorithm>
#include <cmath>

#include "core/draft/seams.h"
#include "core/make/check.h"
#include "core/make/course.h"
#include "core/make/cut_record.h"
#include "core/make/thread.h"
#include "shell/words/say.h"
#include "shell/words/shopping_words.h"

namespace coatwright {
namespace {

void add_to(std::string& list, const std::string& one) { list += (list.empty() ? "" : ", ") + one; }

// With its sign before it, which no line is broken behind.
std::string signed_as(const Signs& signs, std::string_view id, const std::string& name) {
  const std::string sign = sign_of(signs, id);
  return sign.empty() ? name : sign + "\u00A0" + name;
}

// Edges by what is added to them, in the order of the pieces; an edge of several layers once.
struct Allowance {
  double mm = 0.0;
  std::string edges;
};

// The marks of one piece, as they are told.
struct MarksOf {
  std::string piece;
  std::vector<std::string> marks;
};
void add_mark(std::vector<MarksOf>& all, const std::string& piece, std::string mark) {
  auto of =
      std::find_if(all.begin(), all.end(), [&](const MarksOf& m) { return m.piece == piece; });
  if (of == all.end()) of = all.insert(of, {piece, {}});
  if (!names(of->marks, mark)) of->marks.push_back(std::move(mark));
}

// Whether a piece is worked on; what is only looked at is the coat.
bool is_about(const Draft& draft, const Operation& step, const std::string& outside) {
  if (step.pieces.empty() && step.through.empty()) return of_coat(*find_piece(draft, outside));
  const auto here = [&](const std::string& id) { return outside_of(draft, id) == outside; };
  return std::any_of(step.pieces.begin(), step.pieces.end(), here) ||
         std::any_of(step.through.begin(), step.through.end(), here);
}

// All figures of a step alike, those of a few millimetres too.
LengthStyle fine_of(LengthStyle lengths) {
  lengths.steps_per_inch = 16;
  return lengths;
}

std::string told(const std::string& when, const std::vector<Said>& all, const StepSketch& sketch,
                 const Words& words) {
  std::string list;
  for (const Said& said : all) {
    std::string of;
    for (const std::string& id : said.of) {
      add_to(of, id.starts_with("mark.")
                     ? signed_as(sketch.marks, id, words("make.mark", {words(id)}))
                     : signed_as(sketch.edges, id, name_of(id, words)));
    }
    list += (list.empty() ? "" : "; ") + words(when + said.id, {of, std::to_string(said.count)});
  }
  return list.empty() ? "" : words("make." + when + "is", {list});
}

}  // namespace

std::vector<Cloth> cloths_of(const Ticket& ticket) {
  std::vector<Cloth> out;
  for (const ClothUse use :
       {ClothUse::Shell, ClothUse::Insulation, ClothUse::Lining, ClothUse::Laminate}) {
    out.push_back(cloth_of(ticket, use));
  }
  return out;
}

Plan plan_of(const Ticket& ticket, const Draft& draft) {
  return make_plan(draft, cloths_of(ticket));
}

std::string how_of(const Operation& step, const LengthStyle& lengths, const Words& words) {
  const LengthStyle fine = fine_of(lengths);
  std::string out;
  for (const Sentence& s : step.how) {
    std::vector<std::string> numbers;
    for (const double mm : s.mm) numbers.push_back(format_length(Length::mm(mm), fine));
    for (const int number : s.plain) numbers.push_back(std::to_string(number));
    out += (out.empty() ? "" : " ") + words("how." + s.id, numbers);
  }
  return out;
}

std::string why_of(const Operation& step, const Words& words) { return words("why." + step.id); }

std::vector<std::string> places_of(const Pattern& pattern, const Operation& step,
                                   const StepSketch& sketch, const LengthStyle& lengths,
                                   const Words& words) {
  const LengthStyle fine = fine_of(lengths);
  const auto length = [&](double mm) { return format_length(Length::mm(mm), fine); };
  std::vector<std::string> out;

  std::vector<std::string> seen;
  std::string pieces;
  for (const std::string& id : step.pieces) {
    const std::string outside(outside_of(pattern.draft, id));
    if (names(seen, outside)) continue;
    seen.push_back(outside);
    add_to(pieces, words("piece." + outside));
  }
  const bool drawn = !sketch.drawing.items.empty();  // with its name
  if (!pieces.empty() && !drawn) out.push_back(words("make.piece-names", {pieces}));

  // What is sewn tells its edges; where they are only pressed, stitched on or looked at, they stood
  // before.
  const bool again = step.deed == Deed::Turn || step.deed == Deed::Roll ||
                     step.deed == Deed::Edgestitch || step.deed == Deed::Try;
  std::vector<Allowance> allowances;
  for (const CutPiece& piece : pattern.cut.pieces) {
    for (const CutEdge& edge : piece.edges) {
      if (again || !names(step.edges, edge.id) || names(seen, edge.id)) continue;
      seen.push_back(edge.id);
      auto same = std::find_if(allowances.begin(), allowances.end(), [&](const Allowance& a) {
        return std::abs(a.mm - edge.allowance_mm) < 0.05;
      });
      if (same == allowances.end()) same = allowances.insert(same, {edge.allowance_mm, {}});
      const std::string name = signed_as(sketch.edges, edge.id, name_of(edge.id, words));
      add_to(same->edges, words("make.edge", {name, length(edge.length_mm)}));
    }
  }
  for (const Allowance& a : allowances) {
    out.push_back(a.mm > 0.0 ? words("make.with-allowance", {length(a.mm), a.edges})
                             : words("make.without-allowance", {a.edges}));
  }

  // By the piece on which they are found; where two are called alike, once.
  std::vector<MarksOf> marked;
  for (const Piece& piece : pattern.draft.pieces) {
    const std::string outside(outside_of(pattern.draft, piece.id));
    if (!is_about(pattern.draft, step, outside)) continue;
    for (const Mark& mark : piece.marks) {
      if (!names(step.marks, mark.label)) continue;
      // A gap lies across the middle of the piece, half of it on either side.
      add_mark(marked, outside,
               signed_as(sketch.marks, mark.label,
                         mark.kind == MarkKind::TurningGap
                             ? words("make.gap",
                                     {words(mark.label), length(2.0 * polyline_length(mark.line))})
                             : words("make.mark", {words(mark.label)})));
    }
  }
  for (const MarksOf& m : marked) {
    std::string list;
    for (const std::string& name : m.marks) add_to(list, name);
    out.push_back(words("make.marks", {words("piece." + m.piece), list}));
  }

  return out;
}

std::vector<std::string> needs_of(const Draft& draft, const Operation& step, Unit unit,
                                  const Words& words) {
  std::vector<std::string> out;
  for (const Notion& notion : notions_at(draft, step)) {
    const ShoppingRow row = notion_row(notion, unit, words);
    std::string line = words("make.notion", {row.ware, row.amount});
    if (!row.note.empty()) line += " (" + row.note + ")";
    out.push_back(std::move(line));
  }
  return out;
}

std::vector<std::string> numbers_of(const Pattern& pattern, const Operation& step,
                                    const LengthStyle& lengths, const Words& words) {
  std::vector<std::string> out = places_of(pattern, step, {}, lengths, words);
  if (const char* seam = seam_of(step.deed)) {
    out.push_back(words(std::string("seam.") + seam));
  }
  for (std::string& need : needs_of(pattern.draft, step, lengths.unit, words)) {
    out.push_back(std::move(need));
  }
  return out;
}

std::string before_of(const Standing& standing, const StepSketch& sketch, const Words& words) {
  return told("before.", standing.before, sketch, words);
}
std::string after_of(const Standing& standing, const StepSketch& sketch, const Words& words) {
  return told("after.", standing.after, sketch, words);
}

std::string told_unsound(const Draft& draft, const Plan& plan, const Words& words) {
  return check_plan(draft, plan).empty() ? "" : words("make.unsound");
}

std::string to_cut_again(const Ticket& ticket, const Pattern& pattern, const Words& words) {
  std::string pieces;
  for (const std::string& id : not_as_cut(ticket.cut, pattern.cut)) {
    add_to(pieces, words("piece." + id));
  }
  return pieces.empty() ? "" : words("make.cut-again", {pieces});
}

}  // namespace coatwright
