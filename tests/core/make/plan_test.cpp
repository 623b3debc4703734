// Plans of sewing: in an order in which every operation has what it needs, and sound for every style
// with every pair of its options; and a checker that sees each kind of fault when it is planted.
#include "core/make/plan.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <map>
#include <set>

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

TEST(Plan, IsSoundInWhateverOrderOptionsGiveTheirOperations) {
  for (const Coat& coat : coats()) {
    Draft d = coat.draft;
    std::reverse(d.operations.begin(), d.operations.end());
    EXPECT_EQ(told(check_plan(d, make_plan(d, kCloths))), "") << coat.told;
  }
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
      {"the insulation is basted in when it is sewn up", Rule::InReach,
       [](Draft&, Plan& p) { return behind(p, "baste-insulation", "sew-round"); }},
      {"seams are felled under the insulation", Rule::InReach,
       [](Draft&, Plan& p) {
         Operation* o = find(p, "fell-seams");
         if (o == nullptr) return false;
         o->together = true;
         return behind(p, "fell-seams", "baste-insulation");
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
