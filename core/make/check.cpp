#include "core/make/check.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "core/draft/options/finish.h"
#include "core/draft/seams.h"
#include "core/geometry/polygon.h"
#include "core/make/surface.h"

namespace coatwright {
namespace {

// What has become of an edge's raw cut.
enum class End { Raw, Joined, Sewn, Enclosed, Bound, Hemmed };
struct EdgeNow {
  const Edge* edge = nullptr;
  End end = End::Raw;
  int joined = 0;
  bool felled = false, held = false, left_open = false;
  bool crossed = false;  // something is sewn across it that keeps its allowances from being felled
};

struct PieceNow {
  const Piece* piece = nullptr;
  std::vector<EdgeNow> edges;
  std::vector<int> marks;  // how often each was used
  bool cut = false, fused = false, laid = false;
  bool sewn_up = false, turned = false, edgestitched = false;
  size_t stack = 0;  // pieces of one number lie on each other, held together
};

// Of the edge's line as it is drawn: more than the draft's own bound, whose edge need not begin quite
// square to the fold. Radians.
constexpr double kGentle = kGapTurn + 0.1;

class Work {
 public:
  Work(const Draft& draft, bool trial) : draft_(draft), trial_(trial) {
    for (const Piece& p : draft.pieces) {
      PieceNow now;
      now.piece = &p;
      now.stack = now_.size();
      now.marks.assign(p.marks.size(), 0);
      for (const Edge& e : p.edges) now.edges.push_back({&e});
      now_.push_back(std::move(now));
    }
  }

  void all(const Operations& operations) {
    std::set<std::string_view> ids;
    for (const Operation& o : operations) {
      operation_ = &o;
      if (!ids.insert(o.id).second) told(Rule::Known, o.id);
      one(o);
    }
    operation_ = nullptr;
  }

  // What is left undone of a coat; `notions` are used at these operations.
  void whole(const Operations& operations) {
    for (const PieceNow& n : now_) {
      if (!n.cut) told(Rule::CutFirst, n.piece->id);
      if (n.piece->laminated && !n.fused) told(Rule::ClothFirst, n.piece->id);
      for (const EdgeNow& e : n.edges) edge_left(n, e);
      for (size_t i = 0; i < n.marks.size(); ++i) mark_left(n, n.piece->marks[i], n.marks[i]);
    }
    if (gap_open_) told(Rule::GapClosed, "mark.turning-gap");
    for (const Notion& notion : draft_.notions) notion_used(operations, notion);
  }
  // Of a trial coat: its seams.
  void trial() {
    for (const PieceNow& n : now_) {
      if (!n.cut || n.piece->layer != Layer::Shell) continue;
      for (const EdgeNow& e : n.edges) {
        if (joins_own_layer(draft_, *n.piece, *e.edge) && e.joined != 1) {
          told(Rule::SeamOnce, e.edge->id);
        }
      }
    }
  }

  std::vector<Breach> out;

 private:
  void told(Rule rule, std::string_view subject) {
    out.push_back({rule, operation_ == nullptr ? "" : operation_->id, std::string(subject)});
  }

  // ---- what an operation is done to ------------------------------------------------------------

  std::vector<PieceNow*> named(const std::vector<std::string>& ids) {
    std::vector<PieceNow*> found;
    for (PieceNow& n : now_) {
      if (names(ids, n.piece->id)) found.push_back(&n);
    }
    return found;
  }
  template <class F>
  void each_edge(const std::vector<PieceNow*>& pieces, const std::vector<std::string>& ids, F&& f) {
    for (PieceNow* n : pieces) {
      for (EdgeNow& e : n->edges) {
        if (names(ids, e.edge->id)) f(*n, e);
      }
    }
  }
  [[nodiscard]] bool has_edge(std::string_view id) const {
    return std::any_of(draft_.pieces.begin(), draft_.pieces.end(),
                       [&](const Piece& p) { return find_edge(p, id) != nullptr; });
  }
  [[nodiscard]] bool has_mark(std::string_view label) const {
    for (const Piece& p : draft_.pieces) {
      for (const Mark& m : p.marks) {
        if (m.label == label) return true;
      }
    }
    return false;
  }
  [[nodiscard]] static std::string_view outside(const Piece& p) {
    const std::string_view id = p.id;
    const bool below = p.layer == Layer::Insulation || p.layer == Layer::Lining;
    return below ? id.substr(0, id.rfind('.')) : id;
  }
  [[nodiscard]] bool own_seam(const PieceNow& n, const EdgeNow& e) const {
    return joins_own_layer(draft_, *n.piece, *e.edge);
  }

  void known(const Operation& o) {
    for (const auto* list : {&o.pieces, &o.through}) {
      for (const std::string& id : *list) {
        if (find_piece(draft_, id) == nullptr) told(Rule::Known, id);
      }
    }
    for (const std::string& id : o.edges) {
      if (!has_edge(id)) told(Rule::Known, id);
    }
    for (const std::string& id : o.marks) {
      if (!has_mark(id)) told(Rule::Known, id);
    }
    for (const std::string& id : o.open) {
      if (!has_edge(id) && !has_mark(id)) told(Rule::Known, id);
    }
  }

  // A mark is used on the piece that has it and on the layers that lie under it.
  void use_marks(const Operation& o) {
    const std::vector<PieceNow*> through = named(o.through);
    for (PieceNow& n : now_) {
      const bool here = names(o.pieces, n.piece->id) ||
                        std::any_of(through.begin(), through.end(), [&](const PieceNow* t) {
                          return (t == &n && o.deed != Deed::Baste) ||
                                 (n.piece->layer == Layer::Shell && o.deed == Deed::Attach &&
                                  outside(*t->piece) == n.piece->id);
                        });
      for (size_t i = 0; here && i < n.marks.size(); ++i) {
        if (names(o.marks, n.piece->marks[i].label)) ++n.marks[i];
      }
    }
  }

  // ---- whether the needle comes there ----------------------------------------------------------

  void reach(const Operation& o) {
    const std::vector<PieceNow*> through = named(o.through);
    for (const PieceNow* n : through) {
      if (n->sewn_up) told(Rule::InReach, n->piece->id);
      if (n->turned && !o.together) told(Rule::InReach, n->piece->id);
      for (const PieceNow& below : now_) {
        if (&below == n || below.stack != n->stack) continue;
        // Side seams of a turned coat are sewn layer by layer from its open end.
        const bool from_open_end = o.deed == Deed::Join && n->turned;
        const bool felled_on = (o.deed == Deed::Fell || o.deed == Deed::Close) && n->laid;
        if (from_open_end || felled_on) continue;
        if (!o.together || !names(o.through, below.piece->id)) {
          told(Rule::NothingBelow, below.piece->id);
        }
      }
      for (const PieceNow* other : through) {
        const bool same = o.together && outside(*n->piece) == outside(*other->piece);
        if (same && n->stack != other->stack) told(Rule::LayersThere, other->piece->id);
      }
    }
  }

  [[nodiscard]] bool lies_on_another(const PieceNow& n) const {
    return std::any_of(now_.begin(), now_.end(), [&](const PieceNow& other) {
      return &other != &n && other.stack == n.stack;
    });
  }

  void lay_together(const std::vector<PieceNow*>& pieces) {
    for (PieceNow* a : pieces) {
      for (PieceNow* b : pieces) {
        if (outside(*a->piece) != outside(*b->piece)) continue;
        const size_t from = b->stack;
        for (PieceNow& n : now_) {
          if (n.stack == from) n.stack = a->stack;
        }
      }
    }
  }

  // Parts are finished but for the edges that are sewn on here.
  void parts_made(const Operation& o) {
    if (trial_) return;
    for (const std::string& id : o.pieces) {
      for (const PieceNow& n : now_) {
        if (outside(*n.piece) != id) continue;
        for (const EdgeNow& e : n.edges) {
          const bool here = names(o.edges, e.edge->id) || names(o.open, e.edge->id);
          if (e.end == End::Raw && !here && !is_given(n, e)) told(Rule::PartMade, e.edge->id);
          if (e.left_open && !here) told(Rule::PartMade, e.edge->id);
        }
      }
    }
  }
  // A fold, or a selvage of webbing, has no raw edge.
  [[nodiscard]] static bool is_given(const PieceNow& n, const EdgeNow& e) {
    return e.edge->finish == Finish::Fold ||
           (n.piece->layer == Layer::Webbing && e.edge->allowance_mm == 0.0);
  }

  // ---- what becomes of edges -------------------------------------------------------------------

  void finish(EdgeNow& e, End end) {
    if (e.end != End::Raw) told(Rule::EdgeOnce, e.edge->id);
    e.end = end;
  }
  void join(EdgeNow& e, End end) {
    if (++e.joined > 1) told(Rule::SeamOnce, e.edge->id);
    if (e.end != End::Raw && e.joined == 1) told(Rule::InReach, e.edge->id);
    e.end = end;
    e.left_open = false;
  }

  // All edges of a seam in one layer at once.
  void joined_alone(const Operation& o) {
    each_edge(named(o.through), o.edges, [&](PieceNow& n, EdgeNow& e) {
      for (const PieceNow& other : now_) {
        if (other.piece->layer != n.piece->layer || !of_coat(*other.piece)) continue;
        for (const EdgeNow& partner : other.edges) {
          const bool here = names(o.edges, partner.edge->id) && names(o.through, other.piece->id);
          if (partner.edge->seam == e.edge->seam && !here) told(Rule::SeamOnce, partner.edge->id);
        }
      }
    });
  }

  void look_whether_it_turns(const Operation& o, const std::vector<PieceNow*>& pieces) {
    std::vector<const Piece*> surface;
    for (const PieceNow* n : pieces) {
      if (n->piece->layer == Layer::Shell) surface.push_back(n->piece);
    }
    const auto now = [&](const Piece& p, const Edge& e) -> const EdgeNow& {
      const PieceNow& n = now_[static_cast<size_t>(&p - draft_.pieces.data())];
      return n.edges[static_cast<size_t>(&e - p.edges.data())];
    };
    const bool gap = std::any_of(o.open.begin(), o.open.end(),
                                 [](const std::string& id) { return id.starts_with("mark."); });
    const SewnRings rings = sewn_rings(
        surface,
        [&](const Piece& p, const Edge& e) {
          return now(p, e).joined > 0 && joins_own_layer(draft_, p, e);
        },
        [&](const Piece&, const Edge& e) { return names(o.edges, e.id); },
        [&](const Piece&, const Edge& e) { return gap || names(o.open, e.id); });
    if (!turns_right_side_out(rings)) told(Rule::Turnable, surface.empty() ? "" : surface[0]->id);
  }

  void leave_open(const Operation& o, const std::vector<PieceNow*>& pieces) {
    each_edge(pieces, o.open, [](PieceNow&, EdgeNow& e) { e.left_open = true; });
    for (const PieceNow* n : pieces) {
      for (const Mark& m : n->piece->marks) {
        if (m.kind != MarkKind::TurningGap || !names(o.open, m.label)) continue;
        gap_open_ = true;
        if (!is_gentle(m.line)) told(Rule::GapGentle, m.label);
      }
    }
  }
  // It goes on in the other half: it begins square to the fold, and turns little.
  static bool is_gentle(const Polyline& line) {
    for (size_t i = 1; i < line.size(); ++i) {
      const Vec along = line[i] - line[i - 1];
      if (std::abs(std::atan2(along.x, std::abs(along.y))) > kGentle) return false;
    }
    return line.size() > 1;
  }

  void close(const Operation& o) {
    each_edge(named(o.through), o.open, [&](PieceNow& n, EdgeNow& e) {
      if (own_seam(n, e)) {
        join(e, End::Enclosed);
      } else {
        if (e.end == End::Raw) e.end = End::Enclosed;
      }
      e.left_open = false;
    });
    for (const std::string& id : o.open) {
      if (has_mark(id)) gap_open_ = false;
    }
  }

  // ---- one operation ---------------------------------------------------------------------------

  void one(const Operation& o) {
    known(o);
    const std::vector<PieceNow*> through = named(o.through);
    if (o.deed > Deed::Cut && o.deed != Deed::Try) {
      for (const PieceNow* n : through) {
        if (!n->cut) told(Rule::CutFirst, n->piece->id);
      }
      use_marks(o);
    }
    switch (o.deed) {
      case Deed::Trial:
      case Deed::Try:
        break;
      case Deed::Wash:
      case Deed::Fuse:
        for (PieceNow* n : named(o.pieces)) {
          if (n->cut || n->fused) told(Rule::ClothFirst, n->piece->id);
          n->fused = n->fused || o.deed == Deed::Fuse;
        }
        break;
      case Deed::Cut:
        for (PieceNow* n : named(o.pieces)) {
          if (n->cut) told(Rule::CutFirst, n->piece->id);
          n->cut = true;
        }
        break;
      case Deed::Dart:
        reach(o);
        each_edge(through, o.edges, [&](PieceNow&, EdgeNow& e) {
          if (e.end != End::Raw || e.held) told(Rule::InReach, e.edge->id);
        });
        for (const PieceNow* n : through) look_what_lies_over_darts(o, *n);
        break;
      case Deed::Join:
        reach(o);
        parts_made(o);
        each_edge(through, o.edges, [&](PieceNow&, EdgeNow& e) { join(e, End::Joined); });
        joined_alone(o);
        break;
      case Deed::Face:
        reach(o);
        each_edge(named(o.pieces), o.edges, [&](PieceNow&, EdgeNow& e) { finish(e, End::Hemmed); });
        break;
      case Deed::Attach:
        attach(o, through);
        break;
      case Deed::MakeUp:
        make_up(o, through);
        break;
      case Deed::Baste:
        baste(o, through);
        break;
      case Deed::Enclose:
        enclose(o, through);
        break;
      case Deed::Turn:
        for (PieceNow* n : through) {
          if (!n->sewn_up) told(Rule::Turnable, n->piece->id);
          n->sewn_up = false;
          n->turned = true;
          for (EdgeNow& e : n->edges) {
            if (e.end == End::Sewn) e.end = End::Enclosed;
          }
        }
        break;
      case Deed::Roll:
        reach(o);
        for (const PieceNow* n : through) {
          if (!n->turned || n->edgestitched) told(Rule::RolledFirst, n->piece->id);
        }
        break;
      case Deed::Close:
        reach(o);
        close(o);
        break;
      case Deed::Fell:
        reach(o);
        each_edge(through, o.edges, [&](PieceNow& n, EdgeNow& e) {
          if (e.joined == 0) told(Rule::InReach, e.edge->id);
          // Between two layers that were laid on each other nobody reaches it.
          if (own_seam(n, e) && (e.crossed || lies_on_another(n))) told(Rule::InReach, e.edge->id);
          e.felled = true;
        });
        // Round an opening a layer is sewn to the one that it lies on: laid there, or turned with it. Sewn
        // together before, the two would be held by another ring.
        for (const PieceNow* n : through) {
          if (!o.marks.empty() && !lies_on_another(*n)) told(Rule::LayersThere, n->piece->id);
        }
        break;
      case Deed::Edgestitch:
        reach(o);
        for (PieceNow* n : through) {
          if (!n->turned) told(Rule::InReach, n->piece->id);
          n->edgestitched = true;
          for (const EdgeNow& e : n->edges) {
            if (e.left_open && n->piece->layer == Layer::Lining) told(Rule::GapClosed, e.edge->id);
          }
        }
        if (gap_open_) told(Rule::GapClosed, "mark.turning-gap");
        break;
      case Deed::Bind:
      case Deed::Hem:
        reach(o);
        each_edge(through, o.edges, [&](PieceNow& n, EdgeNow& e) {
          finish(e, o.deed == Deed::Bind ? End::Bound : End::Hemmed);
          if (o.deed == Deed::Hem) look_at_tape_under(n, e);
        });
        break;
      case Deed::Slit:
        reach(o);
        break;
    }
  }

  void attach(const Operation& o, const std::vector<PieceNow*>& through) {
    reach(o);
    parts_made(o);
    for (const PieceNow& n : now_) {
      if (n.piece->layer == Layer::Webbing) continue;
      for (const Mark& m : n.piece->marks) {
        if (m.kind != MarkKind::HookLoop || !names(o.marks, m.label)) continue;
        for (const PieceNow* t : through) {
          const bool own = outside(*t->piece) == n.piece->id;
          if (own && is_lined(n) && (o.together || lies_on_another(*t))) {
            told(Rule::TapeApart, m.label);
          }
        }
      }
    }
    close_parts(o);
    for (PieceNow* n : through) look_what_is_crossed(o, *n);
  }
  // Of what is sewn on marks that reach to a joined edge.
  void look_what_is_crossed(const Operation& o, PieceNow& n) {
    for (EdgeNow& e : n.edges) {
      if (!own_seam(n, e) || e.joined == 0 || e.felled) continue;
      const Polyline edge = flatten(e.edge->path, 0.05);
      for (const Mark& m : n.piece->marks) {
        const bool here = names(o.marks, m.label);
        e.crossed = e.crossed || (here && std::any_of(m.line.begin(), m.line.end(), [&](Point p) {
                                    return distance_to_polyline(edge, p) < 1.0;
                                  }));
      }
    }
  }
  // What is sewn on over a dart keeps it from being folded.
  void look_what_lies_over_darts(const Operation& o, const PieceNow& n) {
    for (const Mark& dart : n.piece->marks) {
      if (!names(o.marks, dart.label)) continue;
      for (size_t i = 0; i < n.marks.size(); ++i) {
        const Mark& m = n.piece->marks[i];
        const bool on = m.kind == MarkKind::Placement && n.marks[i] > 0;
        if (on && meet(bounds(m.line), bounds(dart.line))) told(Rule::InReach, m.label);
      }
    }
  }
  [[nodiscard]] bool is_lined(const PieceNow& shell) const {
    return find_piece(draft_, shell.piece->id + ".lining") != nullptr;
  }
  // Tape whose soft half lies on the inside of a shell without a lining; the hooks alone lie outside.
  template <class F>
  void each_bare_tape(const PieceNow& n, F&& f) {
    if (n.piece->layer != Layer::Shell || is_lined(n)) return;
    for (size_t i = 0; i < n.marks.size(); ++i) {
      const Mark& m = n.piece->marks[i];
      const bool outside_only = m.label.starts_with("mark.extension-loop");
      if (m.kind == MarkKind::HookLoop && n.marks[i] > 0 && !outside_only) f(m);
    }
  }
  // A hem is folded to the inside, as wide as its allowance.
  void look_at_tape_under(const PieceNow& n, const EdgeNow& e) {
    const Polyline edge = flatten(e.edge->path, 0.05);
    each_bare_tape(n, [&](const Mark& m) {
      double nearest = std::numeric_limits<double>::infinity();
      for (const Point p : m.line) nearest = std::min(nearest, distance_to_polyline(edge, p));
      if (nearest < e.edge->allowance_mm.value_or(0.0)) told(Rule::TapeBare, m.label);
    });
  }
  // The stitching that holds a part on closes what was left open of it.
  void close_parts(const Operation& o) {
    for (PieceNow& n : now_) {
      if (!names(o.pieces, std::string(outside(*n.piece)))) continue;
      for (EdgeNow& e : n.edges) {
        if (!names(o.open, e.edge->id)) continue;
        e.left_open = false;
        if (e.end == End::Raw) e.end = End::Enclosed;
      }
    }
  }

  void make_up(const Operation& o, const std::vector<PieceNow*>& through) {
    std::vector<PieceNow*> own;
    for (PieceNow* n : through) {
      if (n->turned || n->sewn_up) told(Rule::InReach, n->piece->id);
      if (names(o.pieces, n->piece->id) || names(o.pieces, std::string(outside(*n->piece)))) {
        own.push_back(n);
      }
    }
    each_edge(through, o.edges, [&](PieceNow&, EdgeNow& e) {
      if (e.edge->finish == Finish::Seam) {
        join(e, End::Enclosed);
      } else {
        finish(e, End::Enclosed);
      }
      e.left_open = false;
    });
    leave_open(o, own);
    if (own.size() > 1) look_whether_it_turns(o, own);
    lay_together(own);
    for (PieceNow* n : own) n->laid = true;
    for (const Notion& notion : draft_.notions) {
      if (notion.kind != NotionKind::Elastic || notion.step != o.id) continue;
      const bool end = std::any_of(own.begin(), own.end(), [](const PieceNow* n) {
        return std::any_of(n->edges.begin(), n->edges.end(), [](const EdgeNow& e) {
          return e.left_open && e.edge->finish != Finish::Seam;
        });
      });
      if (!end) told(Rule::ElasticIn, notion.place);
    }
  }

  void baste(const Operation& o, const std::vector<PieceNow*>& through) {
    parts_made_of(o);
    if (!o.edges.empty()) {
      each_edge(through, o.edges, [&](PieceNow&, EdgeNow& e) {
        if (e.end != End::Raw) told(Rule::InReach, e.edge->id);
        e.held = true;
      });
      return;
    }
    for (const PieceNow* n : through) {
      if (n->turned || n->sewn_up) told(Rule::InReach, n->piece->id);
    }
    for (const PieceNow* n : through) {
      each_bare_tape(*n, [&](const Mark& m) { told(Rule::TapeBare, m.label); });
    }
    lay_together(through);
    for (PieceNow* n : through) n->laid = true;
  }
  void parts_made_of(const Operation& o) {
    if (!o.edges.empty()) parts_made(o);
  }

  void enclose(const Operation& o, const std::vector<PieceNow*>& through) {
    for (PieceNow* n : through) {
      if (n->turned || n->sewn_up) told(Rule::InReach, n->piece->id);
      if (n->piece->layer == Layer::Insulation && !n->laid) {
        told(Rule::LayersThere, n->piece->id);
      }
      for (const EdgeNow& e : n->edges) {
        const bool open = names(o.open, e.edge->id);
        if (own_seam(*n, e) && !open && e.joined == 0) told(Rule::SeamOnce, e.edge->id);
      }
    }
    each_edge(through, o.edges, [&](PieceNow& n, EdgeNow& e) {
      if (e.edge->finish == Finish::Seam) {
        // A part is caught where it was basted.
        const bool shell = n.piece->layer == Layer::Shell;
        if (shell && !e.held) told(Rule::PartMade, e.edge->id);
        join(e, End::Sewn);
        if (shell) catch_part(e);
      } else {
        finish(e, End::Sewn);
      }
    });
    leave_open(o, through);
    look_whether_it_turns(o, through);
    lay_together(through);
    for (PieceNow* n : through) n->sewn_up = n->laid = true;
  }
  void catch_part(const EdgeNow& on_coat) {
    for (PieceNow& n : now_) {
      for (EdgeNow& e : n.edges) {
        if (of_coat(*n.piece) || e.edge->seam != on_coat.edge->seam) continue;
        join(e, End::Enclosed);
      }
    }
  }

  // ---- at the end ------------------------------------------------------------------------------

  [[nodiscard]] bool covered(const PieceNow& n) const {
    return std::any_of(now_.begin(), now_.end(), [&](const PieceNow& other) {
      return &other != &n && other.stack == n.stack &&
             (other.piece->layer == Layer::Lining || n.piece->layer == Layer::Lining);
    });
  }

  void edge_left(const PieceNow& n, const EdgeNow& e) {
    if (is_given(n, e)) return;
    if (e.left_open) told(Rule::GapClosed, e.edge->id);
    const bool seam = e.edge->finish == Finish::Seam && !e.edge->seam.empty();
    if (seam && n.piece->id != "flap" && outside(*n.piece) != "flap") {
      if (e.joined != 1) told(Rule::SeamOnce, e.edge->id);
      const bool kept = e.end == End::Enclosed || e.felled || covered(n) || !of_coat(*n.piece);
      if (e.joined > 0 && !kept) told(Rule::AllowanceKept, e.edge->id);
      return;
    }
    if (e.end == End::Raw || e.end == End::Sewn) told(Rule::EdgeFinished, e.edge->id);
  }

  void mark_left(const PieceNow& n, const Mark& m, int used) {
    if (m.kind == MarkKind::CentreFront || m.kind == MarkKind::GirthLine || used == 1) return;
    told(m.kind == MarkKind::Opening ? Rule::SlitAll : Rule::MarkOnce, m.label);
    static_cast<void>(n);
  }

  void notion_used(const Operations& operations, const Notion& notion) {
    const auto at = std::find_if(operations.begin(), operations.end(),
                                 [&](const Operation& o) { return o.id == notion.step; });
    const std::string_view place = notion.place;
    const auto about = [&](const Operation& o) {
      if (place.starts_with("mark.")) return names(o.marks, place);
      if (place.starts_with("edge.")) return names(o.edges, place.substr(5));
      if (!place.starts_with("piece.")) return !o.marks.empty();
      return names(o.pieces, place.substr(6)) || names(o.through, place.substr(6));
    };
    if (at == operations.end() || !about(*at)) told(Rule::NotionOnce, place);
  }

  const Draft& draft_;
  const bool trial_;  // a coat of one layer, whose edges stay raw
  std::vector<PieceNow> now_;
  const Operation* operation_ = nullptr;
  bool gap_open_ = false;
};

}  // namespace

const char* rule_id(Rule rule) {
  static constexpr const char* kIds[kRules] = {
      "known",        "cut-first",  "cloth-first", "in-reach",      "nothing-below",
      "layers-there", "seam-once",  "edge-once",   "edge-finished", "allowance-kept",
      "part-made",    "tape-apart", "tape-bare",   "slit-all",      "turnable",
      "gap-gentle",   "gap-closed", "elastic-in",  "rolled-first",  "mark-once",
      "notion-once"};
  return kIds[static_cast<size_t>(rule)];
}

std::vector<Breach> check_plan(const Draft& draft, const Plan& plan) {
  Work coat(draft, false);
  coat.all(plan.operations);
  coat.whole(plan.operations);
  Work trial(draft, true);
  trial.all(plan.trial);
  trial.trial();
  coat.out.insert(coat.out.end(), trial.out.begin(), trial.out.end());
  return std::move(coat.out);
}

}  // namespace coatwright
