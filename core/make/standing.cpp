#include "core/make/standing.h"

#include <algorithm>
#include <map>
#include <set>

#include "core/draft/seams.h"
#include "core/make/course.h"
#include "core/make/facts.h"

namespace coatwright {
namespace {

void add_once(std::vector<std::string>& list, std::string_view id) {
  if (!names(list, id)) list.emplace_back(id);
}

// Said once, of all that it is true of.
void say(std::vector<Said>& list, const char* id, std::string_view of = {}) {
  auto at = std::find_if(list.begin(), list.end(), [&](const Said& s) { return s.id == id; });
  if (at == list.end()) at = list.insert(list.end(), {id});
  if (!of.empty()) add_once(at->of, of);
}

// What is made already has finished edges.
void say_once(std::vector<Said>& before) {
  const auto of = [&](const char* id) {
    return std::find_if(before.begin(), before.end(), [&](const Said& s) { return s.id == id; });
  };
  const auto made = of("made"), finished = of("finished");
  if (made == before.end() || finished == before.end()) return;
  std::erase_if(finished->of, [&](const std::string& id) { return names(made->of, id); });
  if (finished->of.empty()) before.erase(finished);
}

class Course {
 public:
  Course(const Draft& draft, const Operations& operations) : draft_(draft), all_(operations) {
    layered_ = std::any_of(draft.pieces.begin(), draft.pieces.end(), [](const Piece& p) {
      return of_coat(p) && (p.layer == Layer::Lining || p.layer == Layer::Insulation);
    });
  }

  std::vector<Standing> walk() {
    std::vector<Standing> out;
    bool single_before = false;
    std::set<StateOf> leant_on;  // by the step just before
    for (size_t i = 0; i < all_.size(); ++i) {
      const Facts facts = facts_of(draft_, all_[i]);
      Standing now;
      const bool single = needs_single(all_[i], facts);
      if (single && !single_before && layered_) say(now.before, "single");
      single_before = single;
      for (const StateOf& f : facts.needs) {
        if (!leant_on.contains(f)) before(now.before, f, i);
      }
      leant_on = {facts.needs.begin(), facts.needs.end()};
      say_once(now.before);
      after(now.after, facts, i);
      for (const StateOf& f : facts.gives) giver_.insert_or_assign(f, i);
      out.push_back(std::move(now));
    }
    return out;
  }

 private:
  static bool needs_single(const Operation& o, const Facts& facts) {
    const bool sews = o.deed == Deed::Attach || o.deed == Deed::Face || o.deed == Deed::Dart ||
                      o.deed == Deed::Join;
    return sews && std::any_of(facts.needs.begin(), facts.needs.end(),
                               [](const StateOf& f) { return f.state == State::Single; });
  }

  void before(std::vector<Said>& out, const StateOf& f, size_t i) const {
    const auto at = giver_.find(f);
    if (at == giver_.end() || at->second + 1 == i) return;
    const std::string_view piece = outside_of(draft_, f.piece);
    // How layers lie is of use where edges are closed over them that were not turned.
    const bool lies = all_[i].deed == Deed::Bind || all_[i].deed == Deed::Hem ||
                      all_[i].deed == Deed::Enclose || all_[i].deed == Deed::MakeUp;
    switch (f.state) {
      case State::Darted:
        return say(out, "darted", f.edge);
      case State::Joined:
        return say(out, "joined", f.edge);
      case State::Felled:
        return say(out, "felled");
      case State::MadeUp:
        return say(out, "made", piece);
      case State::Laid:
        return lies ? say(out, "laid", f.piece) : void();
      case State::Held:
        return say(out, "held", f.edge);
      case State::Turned:
        return say(out, "turned");
      case State::Rolled:
        return say(out, "rolled");
      case State::Closed:
        return is_part(f.piece) ? say(out, "made", piece) : say(out, "closed");
      case State::Finished:
        return say(out, "finished", piece);
      case State::Faced:
        return say(out, "faced");
      case State::Uncut:
      case State::Cut:
      case State::Single:
      case State::Raw:
      case State::Enclosed:
        return;
    }
  }

  [[nodiscard]] bool is_part(std::string_view id) const {
    const Piece* p = find_piece(draft_, id);
    return p != nullptr && !of_coat(*p);
  }

  void after(std::vector<Said>& out, const Facts& facts, size_t i) const {
    const Operation& o = all_[i];
    switch (o.deed) {
      case Deed::Cut:
        out.push_back({"cut", {}, copies(o)});
        break;
      case Deed::Dart:
        for (const StateOf& f : facts.gives) say(out, "darted", outside_of(draft_, f.piece));
        break;
      case Deed::Join:
        joined(out, o);
        break;
      case Deed::Face:
        say(out, later(i, Deed::Fell, o.marks) ? "faced-first" : "faced");
        break;
      case Deed::MakeUp:
        made(out, o);
        break;
      case Deed::Baste:
        if (o.edges.empty()) {
          say(out, "laid");
        } else {
          say(out, "held");
        }
        break;
      case Deed::Enclose:
        for (const std::string& id : o.open) say(out, "enclosed", id);
        break;
      case Deed::Turn:
        for (const std::string& id : o.open) say(out, "turned", id);
        break;
      case Deed::Close:
        for (const std::string& id : o.open) say(out, "closed", id);
        break;
      case Deed::Fell:
        say(out, o.marks.empty() ? "felled" : "faced");
        break;
      case Deed::Bind:
      case Deed::Hem:
        for (const StateOf& f : facts.gives) say(out, "finished", outside_of(draft_, f.piece));
        break;
      default:
        break;
    }
  }

  void joined(std::vector<Said>& out, const Operation& o) const {
    std::vector<std::string> pieces;
    for (const Piece& p : draft_.pieces) {
      const bool here = names(o.through, p.id) || names(o.pieces, p.id);
      if (here) add_once(pieces, outside_of(draft_, p.id));
    }
    for (const std::string& id : pieces) say(out, pieces.size() > 1 ? "joined" : "halves", id);
  }

  // What of a part is raw still: the edges that it is sewn on by.
  void made(std::vector<Said>& out, const Operation& o) const {
    for (const Piece& p : draft_.pieces) {
      if (!names(o.pieces, p.id)) continue;
      for (const Edge& e : p.edges) {
        const bool done = names(o.edges, e.id) && !names(o.open, e.id);
        const bool selvage = p.layer == Layer::Webbing && e.allowance_mm == 0.0;
        if (e.finish == Finish::Fold || selvage || done) continue;
        say(out, "made", e.id);
      }
    }
    if (out.empty()) say(out, "made-whole");
  }

  [[nodiscard]] int copies(const Operation& o) const {
    int sum = 0;
    for (const Piece& p : draft_.pieces) {
      if (names(o.pieces, p.id)) sum += p.cut;
    }
    return sum;
  }

  [[nodiscard]] bool later(size_t i, Deed deed, const std::vector<std::string>& marks) const {
    return std::any_of(
        all_.begin() + static_cast<std::ptrdiff_t>(i), all_.end(), [&](const Operation& o) {
          return o.deed == deed && std::any_of(marks.begin(), marks.end(),
                                               [&](const auto& m) { return names(o.marks, m); });
        });
  }

  const Draft& draft_;
  const Operations& all_;
  bool layered_ = false;
  std::map<StateOf, size_t> giver_;
};

}  // namespace

std::vector<Standing> standings(const Draft& draft, const Operations& operations) {
  return Course(draft, operations).walk();
}

}  // namespace coatwright
