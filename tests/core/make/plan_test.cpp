// Plans of sewing: in an order in which every operation has what it needs, and sound for every style
// with every pair of its options; and a checker that sees each kind of fault when it is planted.
#include "core/make/plan.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <map>
#include <set>

#include "core/draft/seams.h"
#include "core/geometry/polygon.h"
#include "core/make/check.h"
#include "core/make/facts.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::told;

// Cloths that shrink, and whose needle holes stay.
const Cloth kCloths[] = {{.use = ClothUse::Shell, .shrinkage = 0.03, .keeps_holes = true},
                         {.use = ClothUse::Lining, .shrinkage = 0.05}};

struct Coat {
  Draft draft;
  std::string told;
};
// Every style with every pair of its options, drafted once.
const std::vector<Coat>& coats() {
  static const std::vector<Coat> all = [] {
    std::vector<Coat> out;
    const std::vector<Tape> dogs = test::population(60, 5);
    size_t next = 0;
    for (const StyleInfo* style : styles()) {
      for (const Choices& choices : test::all_combinations(*style)) {
        auto made = make_pattern(assess(dogs[next++ % dogs.size()]), choices, *style);
        if (made.result) out.push_back({std::move(made.result->draft), told(*style, choices)});
      }
    }
    return out;
  }();
  return all;
}

std::string told(const std::vector<Breach>& breaches) {
  std::string out;
  for (const Breach& b : breaches) {
    out += std::string(rule_id(b.rule)) + " at " + b.operation + ": " + b.subject + "\n";
  }
  return out;
}
bool has(const std::vector<Breach>& breaches, Rule rule) {
  return std::any_of(breaches.begin(), breaches.end(),
                     [&](const Breach& b) { return b.rule == rule; });
}

const Sentence* said(const Operation& o, std::string_view id) {
  for (const Sentence& s : o.how) {
    if (s.id == id) return &s;
  }
  return nullptr;
}
size_t place_of(const Plan& plan, std::string_view id) {
  for (size_t i = 0; i < plan.operations.size(); ++i) {
    if (plan.operations[i].id == id) return i;
  }
  return plan.operations.size();
}

TEST(Plan, CanBeSewnForEveryStyleAndPairOfOptions) {
  for (const Coat& coat : coats()) {
    const auto breaches = check_plan(coat.draft, make_plan(coat.draft, kCloths));
    EXPECT_EQ(told(breaches), "") << coat.told;
  }
  EXPECT_GT(coats().size(), 100u);
}

// ---- the order -----------------------------------------------------------------------------------

TEST(Plan, HoldsEveryOperationOnceAndItsStagesNeverGoBack) {
  for (const Coat& coat : coats()) {
    const Plan plan = make_plan(coat.draft);
    ASSERT_EQ(plan.operations.size(), coat.draft.operations.size()) << coat.told;
    for (size_t i = 1; i < plan.operations.size(); ++i) {
      EXPECT_LE(plan.operations[i - 1].stage, plan.operations[i].stage)
          << plan.operations[i].id << ' ' << coat.told;
    }
    EXPECT_EQ(plan.operations.front().id, "trial-coat");
  }
}

// What is given has come before what needs it, and what needs it before what ends it.
TEST(Plan, GivesEveryOperationWhatItNeeds) {
  int met = 0;
  for (const Coat& coat : coats()) {
    const Plan plan = make_plan(coat.draft, kCloths);
    std::map<StateOf, size_t> given_last, needed_first, needed_last, ended_first;
    for (size_t i = 0; i < plan.operations.size(); ++i) {
      const Facts facts = facts_of(coat.draft, plan.operations[i]);
      for (const StateOf& f : facts.gives) given_last[f] = i;
      for (const StateOf& f : facts.needs) needed_first.emplace(f, i);
      for (const StateOf& f : facts.needs) needed_last[f] = i;
      for (const StateOf& f : facts.ends) ended_first.emplace(f, i);
    }
    for (const auto& [fact, at] : needed_first) {
      const auto given = given_last.find(fact);
      if (given == given_last.end()) continue;
      ++met;
      EXPECT_LT(given->second, at)
          << plan.operations[at].id << ' ' << fact.piece << ' ' << fact.edge << ' ' << coat.told;
    }
    for (const auto& [fact, at] : needed_last) {
      const auto ended = ended_first.find(fact);
      if (ended == ended_first.end()) continue;
      ++met;
      EXPECT_LE(at, ended->second)
          << plan.operations[at].id << ' ' << fact.piece << ' ' << fact.edge << ' ' << coat.told;
    }
  }
  EXPECT_GT(met, 10000);
}

// The picture of needs in DEVELOPERS.md.
TEST(Plan, OfAnUnderpanelCoatIsAsItIsDrawn) {
  Choices choices;
  for (const auto& [id, option] :
       std::vector<std::pair<const char*, double>>{{"lining", 1.0},
                                                   {"insulation", 1.0},
                                                   {"collar", 1.0},
                                                   {"shaping", 1.0},
                                                   {"pocket", 1.0},
                                                   {"pocket-width", 40.0},
                                                   {"reflective", 1.0},
                                                   {"leg-loops", 1.0},
                                                   {"lining-favour", 1.0}}) {
    choices.set(*choice_by_id(id), option);
  }
  const auto made =
      make_pattern(assess(test::hard_dog("ordinary")), choices, *style_by_id("underpanel"));
  ASSERT_TRUE(made.result);
  Draft d = made.result->draft;
  for (int turn = 0; turn < 2; ++turn) {
    std::reverse(d.operations.begin(), d.operations.end());
    const Plan plan = make_plan(d, kCloths);
    const auto comes = [&](std::initializer_list<const char*> ids) {
      const char* before = nullptr;
      for (const char* id : ids) {
        ASSERT_LT(place_of(plan, id), plan.operations.size()) << id;
        EXPECT_TRUE(before == nullptr || place_of(plan, before) < place_of(plan, id)) << id;
        before = id;
      }
    };
    for (const char* single :
         {"sew-darts", "sew-hook-and-loop", "make-pocket", "make-stand", "sew-reflective-panel"}) {
      comes({"wash-cloth", "cut-pieces", single, "sew-panel", "baste-insulation"});
    }
    comes({"sew-hook-and-loop", "make-stand", "baste-collar"});
    comes({"make-pocket", "sew-pocket", "baste-insulation", "baste-collar", "sew-round",
           "turn-coat", "sew-sides", "close-sides", "edgestitch", "sew-elastic-loops", "try-coat"});
    comes({"turn-coat", "roll-lining", "edgestitch"});
  }
}

// Whether the coat's own sides are sewn with its panel or after it is turned.
TEST(Plan, SewsTheSidesOfEveryTrialCoatWithAPanelOnce) {
  int panels = 0;
  for (const Coat& coat : coats()) {
    int sides = 0;
    for (const Operation& o : make_plan(coat.draft).trial) {
      sides += said(o, "trial-sides") != nullptr ? 1 : 0;
    }
    const bool panel = find_piece(coat.draft, "panel") != nullptr;
    EXPECT_EQ(sides, panel ? 1 : 0) << coat.told;
    panels += panel ? 1 : 0;
  }
  EXPECT_GT(panels, 30);
}

TEST(Plan, IsSoundInWhateverOrderOptionsGiveTheirOperations) {
  for (const Coat& coat : coats()) {
    Draft d = coat.draft;
    std::reverse(d.operations.begin(), d.operations.end());
    EXPECT_EQ(told(check_plan(d, make_plan(d, kCloths))), "") << coat.told;
  }
}

// ---- what is told of how each is done -----------------------------------------------------------

TEST(Plan, FoldsInTheEndThatWasLeftOpenWhereItIsSewnOn) {
  int folded = 0;
  for (const Coat& coat : coats()) {
    for (const Operation& o : coat.draft.operations) {
      if (o.id != "sew-band" && !o.id.starts_with("sew-extension") && o.id != "sew-pocket")
        continue;
      const bool fold = said(o, "fold-open-end") != nullptr || said(o, "fold-gap") != nullptr;
      EXPECT_EQ(fold, !o.open.empty()) << o.id << ' ' << coat.told;
      folded += fold ? 1 : 0;
    }
    const bool turned = std::any_of(coat.draft.operations.begin(), coat.draft.operations.end(),
                                    [](const Operation& o) { return o.id == "turn-band"; });
    for (const Operation& o : coat.draft.operations) {
      EXPECT_TRUE(o.id != "sew-band" || turned == !o.open.empty()) << coat.told;
    }
  }
  EXPECT_GT(folded, 50);
}

// A felled seam lies to one side, and tape that seals it goes over the fold.
TEST(Plan, PressesASeamOpenWhereALiningCoversItAndSealsItOnce) {
  int felled = 0, pressed = 0, sealed = 0;
  for (const Coat& coat : coats()) {
    std::map<std::string, int> seals;
    for (const Operation& o : make_plan(coat.draft).operations) {
      if (o.id == "fell-seams") ++felled;
      const bool open = said(o, "press-open") != nullptr || said(o, "press-spine") != nullptr;
      pressed += open ? 1 : 0;
      EXPECT_TRUE(!open || find_piece(coat.draft, "body.lining") != nullptr) << coat.told;
      if (said(o, "seal-seam") == nullptr) continue;
      for (const std::string& e : o.edges) {
        if (o.deed == Deed::Join || o.deed == Deed::Fell) ++seals[e];
      }
    }
    for (const auto& [edge, times] : seals) EXPECT_EQ(times, 1) << edge << ' ' << coat.told;
    sealed += static_cast<int>(seals.size());
  }
  EXPECT_GT(felled, 0);
  EXPECT_GT(pressed, 0);
  EXPECT_GT(sealed, 0);
}

// A binding has ends that are joined where it is a ring, and folded under where it meets a seam.
TEST(Plan, SaysWhereEveryBindingBeginsAndEnds) {
  int rings = 0, ends = 0;
  for (const Coat& coat : coats()) {
    for (const Operation& o : coat.draft.operations) {
      if (o.deed == Deed::Slit && find_piece(coat.draft, "hood") == nullptr) {
        const bool as_edges = coat.draft.chosen.option(*choice_by_id("finish")) == 1;
        EXPECT_EQ(said(o, "fold-strip") == nullptr, as_edges) << coat.told;
      }
      if (!o.id.starts_with("bind-edges")) continue;
      const bool ring = names(o.edges, "body.neckline");
      EXPECT_EQ(said(o, "bind-ring") != nullptr, ring) << coat.told;
      EXPECT_EQ(said(o, "bind-ends") != nullptr, !ring) << coat.told;
      (ring ? rings : ends) += 1;
    }
  }
  EXPECT_GT(rings, 0);
  EXPECT_GT(ends, 0);
}

// A collar's fall has none.
TEST(Plan, PressesFromTheLiningSideWhereThereIsALining) {
  std::set<std::string> from_lining, through_cloth;
  for (const Coat& coat : coats()) {
    for (const Operation& o : make_plan(coat.draft, kCloths).operations) {
      const bool lined = std::any_of(o.through.begin(), o.through.end(), [&](const auto& id) {
        return find_piece(coat.draft, id)->layer == Layer::Lining;
      });
      if (said(o, "press-coated") != nullptr) from_lining.insert(o.id);
      if (said(o, "press-through") != nullptr) through_cloth.insert(o.id);
      EXPECT_TRUE(said(o, "press-coated") == nullptr || lined) << o.id << ' ' << coat.told;
      EXPECT_TRUE(said(o, "press-through") == nullptr || !lined) << o.id << ' ' << coat.told;
    }
  }
  EXPECT_GT(from_lining.size(), 5u);
  EXPECT_EQ(through_cloth, std::set<std::string>{"make-fall"});
}

TEST(Plan, TrimsNoAllowanceToMoreThanItIs) {
  const Tape dog = test::hard_dog("giant");
  int flaps = 0;
  for (const double allowance : {3.0, 5.0, 6.35, 12.0}) {
    for (const StyleInfo* style : styles()) {
      for (const char* lining : {"whole", "none"}) {
        Choices choices;
        choices.set(*choice_by_id("seam-allowance"), allowance);
        choices.set(*choice_by_id("collar"), 2.0);
        choices.set(*choice_by_id("pocket"), 2.0);
        choices.set(*choice_by_id("lining"), lining[0] == 'w' ? 1.0 : 0.0);
        const auto made = make_pattern(assess(dog), choices, *style);
        ASSERT_TRUE(made.result) << style->id;
        for (const Operation& o : made.result->draft.operations) {
          for (const char* id : {"trim-edges", "trim-allowances", "trim-neckline", "trim-flap"}) {
            const Sentence* s = said(o, id);
            EXPECT_TRUE(s == nullptr || s->mm[0] <= allowance + 1e-9) << o.id << ' ' << allowance;
          }
          flaps += o.id == "sew-flap" ? 1 : 0;
        }
      }
    }
  }
  EXPECT_GT(flaps, 0);
}

// The raw edges lie in the binding, and what is cut for it goes round them.
TEST(Plan, CoversTheTrimmedAllowancesOfTheNeckline) {
  const Tape dog = test::population(60, 5).front();
  int wrapped = 0, french = 0, cut_down = 0;
  for (const char* finish : {"none", "cloth", "french", "bought"}) {
    for (const double allowance : {3.0, 6.35, 12.0}) {
      for (const double width : {3.0, 4.5, 6.0, 9.0, 12.5, 16.0}) {
        Choices choices;
        choices.set(*choice_by_id("collar"), 1.0);
        choices.set(*choice_by_id("lining"), 0.0);
        choices.set(*choice_by_id("finish"), finish[0] == 'n' ? 0.0 : 1.0);
        choices.set(*choice_by_id("binding-fold"), finish[0] == 'f' ? 1.0 : 0.0);
        choices.set(*choice_by_id("binding-from"), finish[0] == 'b' ? 1.0 : 0.0);
        choices.set(*choice_by_id("seam-allowance"), allowance);
        choices.set(*choice_by_id("binding-width"), width);
        const auto made = make_pattern(assess(dog), choices, *style_by_id("wrap"));
        ASSERT_TRUE(made.result);
        const Draft& d = made.result->draft;
        const Plan plan = make_plan(d);
        const Operation& bind = plan.operations[place_of(plan, "bind-neckline")];
        const auto strip = std::find_if(d.notions.begin(), d.notions.end(),
                                        [](const Notion& n) { return n.step == "bind-neckline"; });
        ASSERT_NE(strip, d.notions.end());
        const Sentence *trim = said(bind, "trim-neckline"), *how = said(bind, "bind-neckline");
        const double left = trim == nullptr ? allowance : trim->mm[0];
        const std::string told = std::string(finish) + ' ' + std::to_string(width);
        EXPECT_GT(left, 1.5) << told << " holds no stitching";
        if (how == nullptr) {
          EXPECT_NE(said(bind, "bind-neckline-french"), nullptr);
          EXPECT_LE(left, width) << told;  // sewn as far from its edge as it is wide
          ++french;
          continue;
        }
        EXPECT_LT(left, how->mm[0]) << told;
        if (!strip->from_cloth) {
          EXPECT_EQ(how->mm[0], strip->width_mm);
          continue;
        }
        const Sentence* const down = said(bind, "trim-strip");
        const double cut = down == nullptr ? strip->width_mm : down->mm[0];
        EXPECT_GE(cut, 4.0 * how->mm[0] - 1e-9) << told;
        EXPECT_LE(cut, strip->width_mm + 1e-9) << told;
        cut_down += down == nullptr ? 0 : 1;
        ++wrapped;
      }
    }
  }
  EXPECT_GT(wrapped, 30);
  EXPECT_EQ(french, 18);
  EXPECT_GT(cut_down, 5);
}

TEST(Plan, TrimsTheInsulationOfWhateverItIsSewnInto) {
  std::map<std::string, int> trimmed;
  for (const Coat& coat : coats()) {
    for (const Operation& o : coat.draft.operations) {
      const bool warm = std::any_of(o.through.begin(), o.through.end(), [&](const auto& id) {
        return find_piece(coat.draft, id)->layer == Layer::Insulation;
      });
      const bool turned = o.deed == Deed::MakeUp || o.deed == Deed::Turn || o.id == "sew-sides";
      if (!turned) continue;
      EXPECT_EQ(said(o, "trim-insulation") != nullptr, warm) << o.id << ' ' << coat.told;
      if (warm) ++trimmed[o.id];
    }
  }
  EXPECT_EQ(trimmed.size(), 3u) << "band, coat, and the sides of a coat with a panel";
}

// An opening in a felled seam: the felling stops there. Where no lining is sewn to its edge, what warms
// the coat is held there by hand.
TEST(Plan, SaysWhatBecomesOfAnUnlinedCoatsOpening) {
  int felled = 0, held = 0;
  for (const Coat& coat : coats()) {
    const bool lined = find_piece(coat.draft, "body.lining") != nullptr;
    for (const Operation& o : coat.draft.operations) {
      const bool stops = said(o, "fell-to-opening") != nullptr;
      EXPECT_EQ(stops, o.id == "fell-seams" && opens_in_seam(coat.draft)) << coat.told;
      // A facing is held by a lining, by insulation that is sewn to it, or by hand.
      const bool faced = o.id == "face-opening" && !o.pieces.empty();
      const bool warm = find_piece(coat.draft, "body.insulation") != nullptr;
      EXPECT_EQ(said(o, "hold-facing") != nullptr, faced && !lined && !warm) << coat.told;
      const bool by_hand = said(o, "hold-window") != nullptr;
      EXPECT_EQ(by_hand, o.id == "baste-insulation" && !lined && !o.marks.empty()) << coat.told;
      felled += stops ? 1 : 0;
      held += by_hand ? 1 : 0;
    }
  }
  EXPECT_GT(felled + held, 0);
  // Pairs of options leave out what takes three.
  Choices choices;
  choices.set(*choice_by_id("lining"), 0.0);
  choices.set(*choice_by_id("insulation"), 1.0);
  choices.set(*choice_by_id("shaping"), 2.0);
  choices.set(*choice_by_id("opening"), 1.0);
  const auto made = make_pattern(assess(test::population(60, 5).front()), choices);
  ASSERT_TRUE(made.result);
  const Plan plan = make_plan(made.result->draft);
  EXPECT_NE(said(plan.operations[place_of(plan, "fell-seams")], "fell-to-opening"), nullptr);
  EXPECT_NE(said(plan.operations[place_of(plan, "baste-insulation")], "hold-window"), nullptr);
}

// Over a dart a tape runs on: it is sewn when the dart is closed, which hides some of its mark.
TEST(Plan, SewsTapesOverClosedDartsAndSaysSo) {
  int over = 0;
  for (const Coat& coat : coats()) {
    const Plan plan = make_plan(coat.draft);
    const size_t tapes =
        std::min(place_of(plan, "sew-reflective"), place_of(plan, "sew-reflective-panel"));
    if (tapes == plan.operations.size()) continue;
    bool meets = false;
    const std::vector<Mark>& marks = find_piece(coat.draft, "body")->marks;
    for (const Mark& tape : marks) {
      for (const Mark& dart : marks) {
        meets =
            meets || (tape.label.starts_with("mark.reflective") && dart.kind == MarkKind::Dart &&
                      meet(bounds(tape.line), bounds(dart.line)));
      }
    }
    EXPECT_EQ(said(plan.operations[tapes], "tape-over-dart") != nullptr, meets) << coat.told;
    EXPECT_TRUE(!meets || place_of(plan, "sew-darts") < tapes) << coat.told;
    over += meets ? 1 : 0;
  }
  EXPECT_GT(over, 0);
}

TEST(Plan, PutsCollarAndHarnessOnTheDogBeforeTheCoat) {
  int looked = 0;
  for (const Coat& coat : coats()) {
    const Plan plan = make_plan(coat.draft);
    const size_t coat_on = place_of(plan, kTryStep);
    for (const char* id : {"check-leash-opening", "check-harness-opening"}) {
      const size_t at = place_of(plan, id);
      if (at == plan.operations.size()) continue;
      ++looked;
      EXPECT_LT(at, coat_on) << coat.told;
    }
  }
  EXPECT_GT(looked, 10);
}

// A lining that shows is cut after an outline of its own, where the shell's marks are not seen.
TEST(Plan, FindsOnTheLiningTheMarkOfWhatLiesOnTheInside) {
  int found = 0;
  for (const Coat& coat : coats()) {
    for (const Operation& o : make_plan(coat.draft).operations) {
      const bool ends = o.stage == Stage::Close && o.deed == Deed::Attach;
      if (!ends && o.id != "sew-hook-and-loop") continue;
      for (const Piece& shell : coat.draft.pieces) {
        const Piece* lining = find_piece(coat.draft, shell.id + ".lining");
        if (lining == nullptr || !names(o.through, lining->id)) continue;
        for (const Mark& m : shell.marks) {
          const bool hooks_alone = m.kind == MarkKind::BandPlace && !m.label.ends_with("-attach");
          if (!names(o.marks, m.label) || hooks_alone) continue;
          if (m.label.starts_with("mark.extension-loop")) continue;
          ++found;
          EXPECT_TRUE(std::any_of(lining->marks.begin(), lining->marks.end(),
                                  [&](const Mark& n) { return n.label == m.label; }))
              << m.label << ' ' << o.id << ' ' << coat.told;
        }
      }
    }
  }
  EXPECT_GT(found, 100);
}

// ---- the checker: each rule sees the faults that it is there for ---------------------------------

Operation* find(Plan& plan, std::string_view id) {
  for (Operation& o : plan.operations) {
    if (o.id == id) return &o;
  }
  return nullptr;
}
size_t place(const Plan& plan, std::string_view id) {
  for (size_t i = 0; i < plan.operations.size(); ++i) {
    if (plan.operations[i].id == id) return i;
  }
  return plan.operations.size();
}
bool drop(Plan& plan, std::string_view id) {
  return std::erase_if(plan.operations, [&](const Operation& o) { return o.id == id; }) > 0;
}
// Takes the operation behind another; whether both are there.
bool behind(Plan& plan, std::string_view id, std::string_view other) {
  if (find(plan, id) == nullptr || find(plan, other) == nullptr) return false;
  const Operation moved = *find(plan, id);
  drop(plan, id);
  plan.operations.insert(
      plan.operations.begin() + static_cast<std::ptrdiff_t>(place(plan, other)) + 1, moved);
  return true;
}
bool take_out(std::vector<std::string>& list, std::string_view id) {
  return std::erase(list, std::string(id)) > 0;
}
bool twice(Plan& plan, std::string_view id) {
  if (find(plan, id) == nullptr) return false;
  Operation again = *find(plan, id);
  again.id += "-again";
  plan.operations.insert(plan.operations.begin() + static_cast<std::ptrdiff_t>(place(plan, id)) + 1,
                         again);
  return true;
}
bool is_lined(const Draft& d) { return find_piece(d, "body.lining") != nullptr; }

// Both halves of its tape lie on the body.
bool closes_on_itself(const Draft& d) {
  const std::vector<Mark>& marks = find_piece(d, "body")->marks;
  return std::any_of(marks.begin(), marks.end(), [](const Mark& m) {
    return m.label == "mark.front-closure" || m.label == "mark.back-closure";
  });
}

struct Fault {
  const char* what;
  Rule rule;
  // Spoils the plan, or the draft; whether this coat has what it takes.
  std::function<bool(Draft&, Plan&)> plant;
};
const std::vector<Fault>& faults() {
  static const std::vector<Fault> all = {
      {"an unlined coat's edges are folded with a lining", Rule::Known,
       [](Draft& d, Plan& p) {
         Operation* fold = is_lined(d) ? nullptr : find(p, "fold-edges");
         if (fold != nullptr) fold->through.emplace_back("body.lining");
         return fold != nullptr;
       }},
      {"an edge is named that no piece has", Rule::Known,
       [](Draft&, Plan& p) {
         p.operations.back().edges.emplace_back("body.sail");
         return true;
       }},
      {"a step stands twice", Rule::Known,
       [](Draft&, Plan& p) {
         p.operations.push_back(p.operations.back());
         return true;
       }},
      {"darts are sewn before the cloth is cut", Rule::CutFirst,
       [](Draft&, Plan& p) { return behind(p, "cut-pieces", "sew-darts"); }},
      {"a piece is never cut", Rule::CutFirst,
       [](Draft&, Plan& p) { return take_out(find(p, "cut-pieces")->pieces, "body"); }},
      {"the strap is sewn before its webbing is cut", Rule::CutFirst,
       [](Draft&, Plan& p) { return behind(p, "cut-pieces", "make-strap"); }},
      {"the strap's webbing is never cut", Rule::CutFirst,
       [](Draft&, Plan& p) { return take_out(find(p, "cut-pieces")->pieces, "strap"); }},
      {"cloth is washed when it is cut", Rule::ClothFirst,
       [](Draft&, Plan& p) { return behind(p, "wash-cloth", "cut-pieces"); }},
      {"laminate is fused to cut pieces", Rule::ClothFirst,
       [](Draft&, Plan& p) { return behind(p, "laminate-shell", "cut-pieces"); }},
      {"a shell is to be laminated and is not", Rule::ClothFirst,
       [](Draft&, Plan& p) { return drop(p, "laminate-shell"); }},
      {"the pocket is sewn to the turned coat", Rule::InReach,
       [](Draft&, Plan& p) { return behind(p, "sew-pocket", "turn-coat"); }},
      {"hook-and-loop is sewn between shell and lining", Rule::InReach,
       [](Draft&, Plan& p) { return behind(p, "sew-hook-and-loop", "sew-round"); }},
      {"the band is edged when it is sewn on", Rule::PartMade,
       [](Draft&, Plan& p) { return behind(p, "finish-band", "sew-band"); }},
      {"darts are sewn with the insulation below", Rule::NothingBelow,
       [](Draft&, Plan& p) { return behind(p, "sew-darts", "baste-insulation"); }},
      {"tapes are sewn on with the insulation below", Rule::NothingBelow,
       [](Draft&, Plan& p) {
         return behind(p, "sew-reflective", "baste-insulation") ||
                behind(p, "sew-reflective-panel", "baste-insulation");
       }},
      {"the pocket is sewn to basted layers", Rule::NothingBelow,
       [](Draft&, Plan& p) { return behind(p, "sew-pocket", "baste-layers"); }},
      {"the opening is bound before the layers are basted", Rule::LayersThere,
       [](Draft&, Plan& p) { return behind(p, "baste-layers", "bind-opening"); }},
      {"the lining is sewn to the opening before it is sewn to the coat", Rule::LayersThere,
       [](Draft&, Plan& p) { return behind(p, "fell-opening", "face-opening"); }},
      {"the insulation is basted in when it is sewn up", Rule::InReach,
       [](Draft&, Plan& p) { return behind(p, "baste-insulation", "sew-round"); }},
      {"seams are felled under the insulation", Rule::InReach,
       [](Draft&, Plan& p) {
         Operation* o = find(p, "fell-seams");
         if (o == nullptr) return false;
         o->together = true;
         return behind(p, "fell-seams", "baste-insulation");
       }},
      {"a tape is sewn across a seam that is to be felled", Rule::InReach,
       [](Draft&, Plan& p) {
         const Operation* tapes = find(p, "sew-reflective");
         const bool on_loin = tapes != nullptr && names(tapes->marks, "mark.reflective-loin");
         return on_loin && find(p, "sew-spine") != nullptr &&
                behind(p, "fell-seams", "sew-reflective");
       }},
      {"a dart is closed when a tape lies over it", Rule::InReach,
       [](Draft&, Plan& p) {
         const char* const id =
             find(p, "sew-reflective") != nullptr ? "sew-reflective" : "sew-reflective-panel";
         const Operation* tapes = find(p, id);
         return tapes != nullptr && said(*tapes, "tape-over-dart") != nullptr &&
                behind(p, "sew-darts", id);
       }},
      {"the spine is never joined", Rule::SeamOnce,
       [](Draft&, Plan& p) { return drop(p, "sew-spine"); }},
      {"the panel is sewn in twice", Rule::SeamOnce,
       [](Draft&, Plan& p) { return twice(p, "sew-panel"); }},
      {"a lining stays in two halves", Rule::SeamOnce,
       [](Draft&, Plan& p) {
         Operation* o = find(p, "sew-spine");
         return o != nullptr && take_out(o->through, "body.lining");
       }},
      {"one side of a seam is sewn to nothing", Rule::SeamOnce,
       [](Draft&, Plan& p) {
         Operation* o = find(p, "sew-panel");
         return o != nullptr && take_out(o->edges, "panel.breast");
       }},
      {"a collar stays basted, as nothing is turned", Rule::SeamOnce,
       [](Draft&, Plan& p) {
         return (drop(p, "sew-collar") || drop(p, "sew-hood")) && drop(p, "bind-neckline");
       }},
      {"the trial coat keeps its sides open", Rule::SeamOnce,
       [](Draft&, Plan& p) {
         return std::erase_if(p.trial, [](const Operation& o) {
                  return o.id == "sew-sides" || o.id == "sew-spine";
                }) > 0;
       }},
      {"edges are bound twice", Rule::EdgeOnce,
       [](Draft&, Plan& p) { return twice(p, "bind-edges") || twice(p, "fold-edges"); }},
      {"a joined neckline is bound as if it were free", Rule::EdgeOnce,
       [](Draft&, Plan& p) {
         Operation* o = find(p, "bind-edges");
         if (o == nullptr || find(p, "bind-neckline") == nullptr) return false;
         o->edges.emplace_back("body.neckline");
         return true;
       }},
      {"the hem stays raw", Rule::EdgeFinished,
       [](Draft&, Plan& p) {
         for (const char* id : {"sew-round", "bind-edges", "bind-edges-french", "fold-edges"}) {
           Operation* o = find(p, id);
           if (o != nullptr) return take_out(o->edges, "body.hem");
         }
         return false;
       }},
      {"a facing's edge stays raw", Rule::EdgeFinished,
       [](Draft& d, Plan& p) {
         Operation* o = find(p, "face-opening");
         if (o == nullptr || find_piece(d, "opening.facing") == nullptr) return false;
         o->edges.clear();
         return true;
       }},
      {"the seams of an unlined coat are left raw", Rule::AllowanceKept,
       [](Draft&, Plan& p) { return drop(p, "fell-seams"); }},
      {"the neckline's allowance is left raw", Rule::AllowanceKept,
       [](Draft& d, Plan& p) { return !is_lined(d) && drop(p, "bind-neckline"); }},
      {"the collar is basted on before it is made", Rule::PartMade,
       [](Draft&, Plan& p) {
         return behind(p, "make-stand", "baste-collar") || behind(p, "make-stand", "sew-collar");
       }},
      {"the hood is caught without being basted on", Rule::PartMade,
       [](Draft&, Plan& p) { return drop(p, "baste-hood"); }},
      {"the snood's ends stay open", Rule::PartMade,
       [](Draft&, Plan& p) { return drop(p, "close-snood"); }},
      {"the flap is hung before it is turned", Rule::PartMade,
       [](Draft&, Plan& p) { return behind(p, "make-flap", "sew-flap"); }},
      {"hook-and-loop goes through shell and lining", Rule::TapeApart,
       [](Draft& d, Plan& p) {
         if (!is_lined(d)) return false;
         find(p, "sew-hook-and-loop")->together = true;
         return behind(p, "sew-hook-and-loop", "edgestitch") ||
                behind(p, "sew-hook-and-loop", "baste-layers");
       }},
      {"an unlined coat's tape is sewn on before its insulation covers it", Rule::TapeBare,
       [](Draft& d, Plan& p) {
         return !is_lined(d) && closes_on_itself(d) && find(p, "baste-insulation") != nullptr &&
                behind(p, "sew-tape-last", "cut-pieces");
       }},
      {"an unlined coat's tape is sewn on before its hems are folded", Rule::TapeBare,
       [](Draft& d, Plan& p) {
         if (find(p, "fold-edges") == nullptr || !closes_on_itself(d)) return false;
         for (Edge& e : find_piece(d, "body")->edges) {
           if (e.finish == Finish::Turned) e.allowance_mm = 2.0 * kHemWidth;
         }
         return find(p, "baste-insulation") == nullptr && behind(p, "sew-tape-last", "cut-pieces");
       }},
      {"the opening is cut through the shell alone", Rule::SlitAll,
       [](Draft&, Plan& p) {
         Operation* o = find(p, "bind-opening");
         return o != nullptr && take_out(o->through, "body.lining");
       }},
      {"the lining's opening is never cut", Rule::SlitAll,
       [](Draft&, Plan& p) { return drop(p, "fell-opening"); }},
      {"the insulation's window is never cut", Rule::SlitAll,
       [](Draft&, Plan& p) {
         Operation* o = find(p, "baste-insulation");
         if (o == nullptr || o->marks.empty()) return false;
         o->marks.clear();
         return true;
       }},
      {"an underpanel coat is sewn round with its sides closed", Rule::Turnable,
       [](Draft&, Plan& p) {
         Operation *panel = find(p, "sew-panel"), *round = find(p, "sew-round");
         if (panel == nullptr || round == nullptr) return false;
         panel->edges.insert(panel->edges.end(), {"body.side", "panel.side"});
         round->open.clear();
         return drop(p, "sew-sides") && drop(p, "close-sides");
       }},
      {"an underpanel coat is sewn round with its sides closed, a gap in each ring", Rule::Turnable,
       [](Draft&, Plan& p) {
         Operation *panel = find(p, "sew-panel"), *round = find(p, "sew-round");
         if (panel == nullptr || round == nullptr) return false;
         panel->edges.insert(panel->edges.end(), {"body.side", "panel.side"});
         round->open = {"panel.hem", "body.leg"};
         return drop(p, "sew-sides") && drop(p, "close-sides");
       }},
      {"nothing is left open to turn through", Rule::Turnable,
       [](Draft&, Plan& p) {
         Operation* round = find(p, "sew-round");
         return round != nullptr && take_out(round->open, "mark.turning-gap");
       }},
      {"a hood is sewn round its neck too", Rule::Turnable,
       [](Draft&, Plan& p) {
         Operation* hood = find(p, "make-hood");
         if (hood == nullptr || !take_out(hood->open, "hood.neck")) return false;
         hood->edges.emplace_back("hood.neck");
         return true;
       }},
      {"the gap goes round a corner", Rule::GapGentle,
       [](Draft& d, Plan& p) {
         if (find(p, "close-gap") == nullptr) return false;
         for (Mark& m : find_piece(d, "body.lining")->marks) {
           if (m.kind == MarkKind::TurningGap) {
             m.line.push_back(m.line.back() + Vec{-40.0, 10.0});
           }
         }
         return true;
       }},
      {"the gap stays open", Rule::GapClosed, [](Draft&, Plan& p) { return drop(p, "close-gap"); }},
      {"the gap is closed after the edgestitch", Rule::GapClosed,
       [](Draft&, Plan& p) { return behind(p, "close-gap", "edgestitch"); }},
      {"the lining stays open at the sides", Rule::GapClosed,
       [](Draft&, Plan& p) { return drop(p, "close-sides"); }},
      {"the snood's ends are closed before its elastic is in", Rule::ElasticIn,
       [](Draft&, Plan& p) {
         Operation* o = find(p, "make-snood");
         if (o == nullptr) return false;
         take_out(o->open, "collar.end");
         o->edges.emplace_back("collar.end");
         return drop(p, "close-snood");
       }},
      {"the lining is rolled after the edgestitch", Rule::RolledFirst,
       [](Draft&, Plan& p) { return behind(p, "roll-lining", "edgestitch"); }},
      {"a mark is not used", Rule::MarkOnce,
       [](Draft&, Plan& p) {
         Operation* o = find(p, "sew-pocket");
         if (o == nullptr) return false;
         o->marks.clear();
         return true;
       }},
      {"a mark is used twice", Rule::MarkOnce,
       [](Draft&, Plan& p) { return twice(p, "sew-elastic-loops"); }},
      {"a notion is used at a step that is not there", Rule::NotionOnce,
       [](Draft& d, Plan&) {
         if (d.notions.empty()) return false;
         d.notions.front().step = "sew-nothing";
         return true;
       }},
      {"a notion is used at a step about something else", Rule::NotionOnce,
       [](Draft& d, Plan&) {
         if (d.notions.empty()) return false;
         d.notions.front().step = "try-coat";
         return true;
       }},
  };
  return all;
}

TEST(PlanChecker, SeesEveryPlantedFault) {
  std::set<Rule> ruled;
  for (const Fault& fault : faults()) {
    int planted = 0;
    for (const Coat& coat : coats()) {
      Draft d = coat.draft;
      Plan plan = make_plan(d, kCloths);
      if (!fault.plant(d, plan)) continue;
      EXPECT_TRUE(has(check_plan(d, plan), fault.rule))
          << fault.what << ' ' << coat.told << ": " << told(check_plan(d, plan));
      if (++planted == 12) break;
    }
    EXPECT_GT(planted, 0) << fault.what;
    ruled.insert(fault.rule);
  }
  EXPECT_EQ(ruled.size(), static_cast<size_t>(kRules)) << "a rule without a fault may be blind";
}

}  // namespace
}  // namespace coatwright
