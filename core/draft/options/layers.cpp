#include "core/draft/options/layers.h"

#include <algorithm>
#include <numbers>

#include "core/draft/options/ease.h"
#include "core/draft/options/finish.h"
#include "core/draft/seams.h"

namespace coatwright {
namespace {

enum Linings { kUnlined, kWholeLining };
enum Insulations { kUninsulated, kOneLayer };
enum Laminates { kUnlaminated, kShellLaminated };
constexpr auto kLinings = named<Linings>({{kUnlined, "none"}, {kWholeLining, "whole"}});
constexpr auto kInsulations = named<Insulations>({{kUninsulated, "none"}, {kOneLayer, "layer"}});
constexpr auto kLaminates = named<Laminates>({{kUnlaminated, "none"}, {kShellLaminated, "shell"}});

bool is_insulated(const Chosen& c) { return c.option(kInsulation) == kOneLayer; }

}  // namespace

const ChoiceInfo kLining = {.id = "lining", .options = kLinings, .usual = kWholeLining};
const ChoiceInfo kInsulation = {.id = "insulation", .options = kInsulations};
const ChoiceInfo kLaminate = {.id = "laminate", .options = kLaminates};

bool is_lined(const Chosen& chosen) { return chosen.option(kLining) == kWholeLining; }

namespace {

// Soft halves of closures and ends that are sewn on lie on the inside: their places are marked there too,
// since a lining may be cut after an outline of its own.
bool lies_inside(const Mark& m) {
  if (m.kind == MarkKind::HookLoop) return !m.label.starts_with("mark.extension-loop");
  return m.label.ends_with("-attach") || m.label.starts_with("mark.extension-sewn") ||
         m.label.starts_with("mark.leg-loop");
}

// A layer below the shell is the shell again, with only the marks that it needs.
Piece below(const Piece& shell, Layer layer) {
  Piece p = shell;
  p.id = shell.id + "." + layer_id(layer);
  p.layer = layer;
  p.laminated = false;
  std::erase_if(p.marks, [&](const Mark& m) {
    if (layer == Layer::Lining && lies_inside(m)) return false;
    return m.kind != MarkKind::GirthLine && m.kind != MarkKind::Opening && m.kind != MarkKind::Dart;
  });
  return p;
}

// On a girth that lies outside it, a layer of thickness t takes 2·π·t: the difference of two
// circles round one centre.
void look_at_ease(const Chosen& c, Findings& findings) {
  const double taken = 2.0 * std::numbers::pi * c.of(kLayersThickness);
  const double ease = c.of(kChestEase);
  if (taken < 0.5 * ease) return;
  findings.push_back({Level::Note, {Code::Advice, kChestEase.id, {ease, taken}, "ease-taken"}});
}

std::optional<Problem> add_layers(Draft& d, const Body&, Findings& findings) {
  const bool lined = is_lined(d.chosen), insulated = is_insulated(d.chosen);
  const bool laminated = d.chosen.option(kLaminate) == kShellLaminated;
  std::vector<Piece> all;
  for (Piece& shell : d.pieces) {
    // What is made up by itself stays soft, so that it can be turned; it has its lining always.
    const bool layered = of_coat(shell);
    shell.laminated = laminated && layered;
    all.push_back(shell);
    if (insulated && layered) all.push_back(below(shell, Layer::Insulation));
    if (shell.made_up && !shell.single) all.push_back(below(shell, Layer::Lining));
    if (lined && layered) all.push_back(below(shell, Layer::Lining));
  }
  d.pieces = std::move(all);
  if (insulated) {
    look_at_ease(d.chosen, findings);
    if (!lined) {
      findings.push_back({Level::Note, {Code::Advice, kInsulation.id, {}, "insulation-open"}});
    }
  }
  return std::nullopt;
}

// Insulation goes in when all that is sewn to the shell alone is on it, and its own seams and darts
// are sewn: nothing is stitched through it that would press it flat.
void sew_layers(const Draft& d, Operations& out) {
  Operation fuse{Deed::Fuse, Stage::Prepare, "laminate-shell",
                 ids_of(d, [](const Piece& p) { return p.laminated; })};
  fuse.how = {{"laminate-shell"}};
  if (!fuse.pieces.empty()) out.push_back(std::move(fuse));
  if (!is_insulated(d.chosen)) return;
  Operation baste{Deed::Baste, Stage::Join, "baste-insulation",
                  ids_of(d, [](const Piece& p) { return p.layer == Layer::Insulation; })};
  for (const Piece& p : d.pieces) {
    if (p.layer == Layer::Insulation || (p.layer == Layer::Shell && of_coat(p))) {
      baste.through.push_back(p.id);
    }
  }
  baste.how = {{"baste-insulation"}};
  if (!is_lined(d.chosen) && !is_bound(d.chosen)) {
    baste.how.push_back({"trim-insulation-hem", {kHemWidth}});
  }
  // A shell that is faced has its opening already; that of the insulation is cut out round it.
  for (const Operation& o : out) {
    if (o.deed != Deed::Face) continue;
    baste.marks = {o.marks.front()};
    baste.how.push_back(
        {o.pieces.empty() ? "window-in-seam" : "window-in-insulation", {kTrimOuter}});
    if (!is_lined(d.chosen)) baste.how.push_back({"hold-window"});
  }
  out.push_back(std::move(baste));
}

const ChoiceInfo* const kChoices[] = {&kLining, &kInsulation, &kLaminate};

}  // namespace

const OptionInfo kLayers = {
    .id = "layers", .choices = kChoices, .apply = add_layers, .sew = sew_layers};

}  // namespace coatwright
