#include "core/make/facts.h"

#include <algorithm>

namespace coatwright {
namespace {

// An operation's facts while they are gathered: of pieces, and of the edges that they have.
class Gathering {
 public:
  Gathering(const Draft& draft, const Operation& operation) : operation_(operation) {
    for (const Piece& p : draft.pieces) {
      if (names(operation.through, p.id)) through_.push_back(&p);
      if (names(operation.pieces, p.id)) pieces_.push_back(&p);
    }
  }

  void needs(State s) { of_pieces(out.needs, s, through_); }
  void gives(State s) { of_pieces(out.gives, s, through_); }
  void ends(State s) { of_pieces(out.ends, s, through_); }
  void pieces_need(State s) { of_pieces(out.needs, s, pieces_); }
  void pieces_give(State s) { of_pieces(out.gives, s, pieces_); }
  void pieces_end(State s) { of_pieces(out.ends, s, pieces_); }
  void edges_need(State s) { of_edges(out.needs, s); }
  void edges_give(State s) { of_edges(out.gives, s); }
  void edges_end(State s) { of_edges(out.ends, s); }

  // Of the layers of the parts that it is about.
  void parts(std::vector<StateOf>& list, State s) {
    for (const Piece* p : through_) {
      const bool own = names(operation_.pieces, p->id) ||
                       names(operation_.pieces, p->id.substr(0, p->id.rfind('.')));
      if (own) list.push_back({s, p->id});
    }
  }

  // As an option states it: of a piece, or of an edge of every piece that has it.
  void stated(const Draft& draft, const Fact& fact) {
    bool of_edge = false;
    for (const Piece& p : draft.pieces) {
      const Edge* e = find_edge(p, fact.of);
      if (e == nullptr) continue;
      out.needs.push_back({fact.state, p.id, e->id});
      of_edge = true;
    }
    if (!of_edge) out.needs.push_back({fact.state, fact.of});
  }

  Facts out;

 private:
  static void of_pieces(std::vector<StateOf>& list, State s, const std::vector<const Piece*>& all) {
    for (const Piece* p : all) list.push_back({s, p->id});
  }
  void of_edges(std::vector<StateOf>& list, State s) {
    for (const Piece* p : through_) {
      for (const Edge& e : p->edges) {
        if (names(operation_.edges, e.id)) list.push_back({s, p->id, e.id});
      }
    }
  }

  const Operation& operation_;
  std::vector<const Piece*> through_, pieces_;
};

// Edges are raw and lie flat, what is sewn to their ends is on, and then they are raw no longer.
void uses_raw_edges(Gathering& g) {
  for (const State s : {State::Raw, State::Darted, State::Held}) g.edges_need(s);
  g.edges_end(State::Raw);
}
// Layers by themselves; or as they were laid or turned.
void needs_layers(Gathering& g, const Operation& o) {
  if (o.together) {
    for (const State s : {State::Laid, State::Turned, State::MadeUp}) g.needs(s);
  } else {
    g.needs(State::Single);
  }
}
void needs_parts(Gathering& g) {
  g.pieces_need(State::MadeUp);
  g.pieces_need(State::Closed);
}

}  // namespace

Facts facts_of(const Draft& draft, const Operation& o) {
  Gathering g(draft, o);
  const bool cloth = o.deed == Deed::Wash || o.deed == Deed::Fuse;
  if (o.deed != Deed::Trial && o.deed != Deed::Cut && !cloth) {
    g.needs(State::Cut);
    g.pieces_need(State::Cut);
  }
  switch (o.deed) {
    case Deed::Trial:
    case Deed::Wash:
    case Deed::Fuse:
      g.pieces_need(State::Uncut);
      break;
    case Deed::Cut:
      g.pieces_give(State::Cut);
      g.pieces_end(State::Uncut);
      break;
    case Deed::Dart:
      g.needs(State::Single);
      g.edges_need(State::Raw);
      g.edges_give(State::Darted);
      break;
    case Deed::Join:
      needs_layers(g, o);
      needs_parts(g);
      uses_raw_edges(g);
      g.edges_give(State::Joined);
      break;
    case Deed::Face:
      g.needs(State::Single);
      g.gives(State::Faced);
      break;
    case Deed::Attach:
      needs_layers(g, o);
      needs_parts(g);
      break;
    case Deed::MakeUp:
      g.parts(g.out.needs, State::Laid);
      uses_raw_edges(g);
      g.parts(g.out.ends, State::Single);
      g.pieces_give(State::MadeUp);
      g.edges_give(State::Finished);
      break;
    case Deed::Baste:
      needs_parts(g);
      if (!o.edges.empty()) {
        g.needs(State::Laid);
        g.edges_need(State::Darted);
        g.edges_give(State::Held);
      } else {
        g.ends(State::Single);
        g.pieces_give(State::Laid);
      }
      break;
    case Deed::Enclose:
      g.needs(State::Laid);
      uses_raw_edges(g);
      g.ends(State::Single);
      g.gives(State::Enclosed);
      break;
    case Deed::Turn:
      g.needs(State::Enclosed);
      g.gives(State::Turned);
      break;
    case Deed::Roll:
      g.needs(State::Turned);
      g.gives(State::Rolled);
      break;
    case Deed::Close:
      g.needs(State::Turned);
      g.gives(State::Closed);
      g.pieces_give(State::Closed);
      break;
    case Deed::Fell:
      needs_layers(g, o);
      g.edges_need(State::Joined);
      g.edges_give(State::Felled);
      g.gives(State::Felled);
      break;
    case Deed::Edgestitch:
      g.needs(State::Turned);
      g.needs(State::Closed);
      g.edges_give(State::Finished);
      break;
    case Deed::Bind:
    case Deed::Hem:
      needs_layers(g, o);
      g.needs(State::Felled);
      uses_raw_edges(g);
      g.ends(State::Single);
      g.edges_give(State::Finished);
      break;
    case Deed::Slit:
      needs_layers(g, o);
      break;
    case Deed::Try:
      break;
  }
  for (const Fact& f : o.needs) g.stated(draft, f);
  return std::move(g.out);
}

}  // namespace coatwright
