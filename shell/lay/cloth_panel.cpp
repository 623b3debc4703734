#include "shell/lay/cloth_panel.h"

#include <algorithm>
#include <cmath>

#include "core/draw/number.h"
#include "core/ticket/ids.h"
#include "shell/kit/plain_number.h"
#include "shell/kit/status.h"
#include "shell/lay/heat.h"
#include "shell/lay/panel.h"

namespace coatwright::studio {
namespace {

// The uses whose cloths this coat is cut from, then the laminate and the trial cloth.
std::vector<ClothUse> uses_of(const Frame& f) {
  std::vector<ClothUse> uses;
  const auto add = [&](ClothUse use) {
    if (std::find(uses.begin(), uses.end(), use) == uses.end()) uses.push_back(use);
  };
  for (const LayJob& job : f.lay.jobs()) add(job.order.use);
  for (const LayJob& job : f.lay.jobs()) {
    if (job.order.laminated) add(ClothUse::Laminate);
  }
  if (!uses.empty()) {
    uses.erase(std::remove(uses.begin(), uses.end(), ClothUse::Trial), uses.end());
    uses.push_back(ClothUse::Trial);
  }
  return uses;
}

void change(Frame& f, const std::string& id, const Cloth& cloth) {
  f.view.lay.faults.erase(id);
  if (const auto fault = fault_of(cloth)) {
    f.view.lay.faults[id] = *fault;
    return;
  }
  f.commands.push_back(SetCloth{cloth.use, cloth});
}

std::string plain(double value) {
  std::string text;
  append_number(text, value);
  return text;
}

bool is_share(const ClothNumber& n) {
  return n.number == &Cloth::shrinkage || n.number == &Cloth::fusing;
}

std::string shown(const Frame& f, const Cloth& cloth, const ClothNumber& n) {
  const double value = cloth.*n.number;
  if (n.number == &Cloth::iron_c) return value > 0.0 ? shown_heat(value, f.ticket.unit) : "";
  if (!n.is_length) return is_share(n) ? plain(100.0 * value) : value > 0.0 ? plain(value) : "";
  if (value == 0.0 && n.number != &Cloth::selvage_mm && n.number != &Cloth::gap_mm) return "";
  LengthStyle style = f.lengths();
  style.steps_per_inch = 32;
  style.decimals_cm = 2;
  return format_length(Length::mm(value), style);
}

Result<double> read(const Frame& f, const ClothNumber& n, const std::string& text) {
  if (text.find_first_not_of(' ') == std::string::npos) return 0.0;
  if (n.is_length) {
    if (plain_number(text) == 0.0) return 0.0;
    const Result<Length> length = parse_length(text, f.ticket.unit);
    if (length) return length->mm();
    Problem problem = length.problem();
    problem.subject = n.field;
    return problem;
  }
  const bool heat = n.number == &Cloth::iron_c;
  const std::optional<double> value =
      heat ? typed_celsius(text, f.ticket.unit) : plain_number(text);
  if (!value) return Problem{.code = Code::NumberUnreadable, .subject = n.field, .other = text};
  return is_share(n) ? *value / 100.0 : *value;
}

void number_field(Frame& f, Columns& flow, const Cloth& cloth, const ClothNumber& n) {
  const std::string id = std::string("cloth.") + n.field;
  const std::string name = f.words(std::string("ui.") + n.field);
  const auto entered = text_field(f, id, flow.next(kTarget), name, shown(f, cloth, n));
  if (entered) {
    const Result<double> value = read(f, n, *entered);
    if (value) {
      Cloth next = cloth;
      next.*n.number = *value;
      change(f, id, next);
    } else {
      f.view.lay.faults[id] = value.problem();
    }
  }
  const auto fault = f.view.lay.faults.find(id);
  if (fault == f.view.lay.faults.end()) return;
  const std::string words = sentence_of(f, fault->second);
  sentence(f, flow, id + ".fault", words, true);
}

template <class T>
void one_of(Frame& f, Columns& flow, const Cloth& cloth, const std::string& prefix,
            T Cloth::*field) {
  const std::string key = prefix.substr(0, prefix.size() - 1);
  std::vector<std::string> names;
  int chosen = 0;
  for (const T value : all_of<T>()) {
    if (cloth.*field == value) chosen = static_cast<int>(names.size());
    names.push_back(f.words(prefix + id_of(value)));
  }
  const std::string group = f.words("ui.cloth-" + key);
  const Box box = flow.next(26.0F + kTarget);
  f.paint.text({box.x, box.y + 11.0F}, group, kBody, f.colours.ink);
  const int picked = options(f, "cloth." + key, box.below(26.0F), group, names, chosen);
  if (picked < 0) return;
  Cloth next = cloth;
  next.*field = all_of<T>()[static_cast<size_t>(picked)];
  change(f, "cloth." + key, next);
}

// One of two, the second when the flag is up.
void either(Frame& f, Columns& flow, const Cloth& cloth, const std::string& key, const char* first,
            const char* second, bool Cloth::*flag) {
  const std::string group = f.words("ui.cloth-" + key);
  const Box box = flow.next(26.0F + kTarget);
  f.paint.text({box.x, box.y + 11.0F}, group, kBody, f.colours.ink);
  const int picked = options(f, "cloth." + key, box.below(26.0F), group,
                             {f.words(first), f.words(second)}, cloth.*flag ? 1 : 0);
  if (picked < 0) return;
  Cloth next = cloth;
  next.*flag = picked == 1;
  change(f, "cloth." + key, next);
}

// Its width; of a rest its length too.
std::string size_of(const Frame& f, const Cloth& cloth) {
  const std::string width = f.length(cloth.width_mm);
  return cloth.rest_mm > 0.0 ? f.length(cloth.rest_mm) + " × " + width : width;
}

// The cloths of this use that lie on the shelf, to be taken for the ticket; and what may be done
// with the ticket's own.
void shelf(Frame& f, Columns& flow, const Cloth& cloth) {
  const Shelf& all = f.rack.notes().shelf;
  bool lies_there = false;
  for (size_t i = 0; i < all.size(); ++i) {
    if (all[i].use != cloth.use) continue;
    lies_there = lies_there || all[i] == cloth;
    const RowOption row{.id = "shelf." + std::to_string(i),
                        .group = f.words("ui.shelf"),
                        .name = all[i].name,
                        .value = size_of(f, all[i]),
                        .chosen = all[i] == cloth};
    if (row_option(f, flow.next(kTarget), row)) f.commands.push_back(SetCloth{cloth.use, all[i]});
  }
  if (!f.ticket.of(cloth.use)) return;
  const Box row = flow.across(kTarget);
  const bool named = std::any_of(all.begin(), all.end(), [&](const Cloth& c) {
    return c.use == cloth.use && c.name == cloth.name;
  });
  if (button(f, "shelf.put", row.column(0, 2, 8.0F), f.words("ui.shelf-put"),
             {.enabled = !lies_there})) {
    f.rack_commands.push_back({.deed = RackDeed::Shelve, .cloth = cloth});
  }
  if (button(f, "shelf.take", row.column(1, 2, 8.0F), f.words("ui.shelf-take"),
             {.enabled = named})) {
    f.rack_commands.push_back({.deed = RackDeed::Unshelve, .cloth = cloth});
  }
}

}  // namespace

void cloth_controls(Frame& f, Columns& flow) {
  const auto uses = uses_of(f);
  if (uses.empty()) return;
  std::vector<std::string> names;
  for (const ClothUse use : uses) {
    names.push_back(f.words(std::string("ui.cloth-of-") + cloth_use_id(use)));
  }
  auto& shown_use = f.view.lay.use;
  const auto at = std::find(uses.begin(), uses.end(), shown_use);
  const auto chosen = at == uses.end() ? 0 : at - uses.begin();
  const int picked = options(f, "cloth.use", flow.across(options_height(names, flow.width())),
                             f.words("ui.cloth-uses"), names, static_cast<int>(chosen));
  if (picked >= 0) {
    shown_use = uses[static_cast<size_t>(picked)];
    f.view.lay.faults.clear();
    f.again = true;
  }
  const Cloth cloth = cloth_of(f.ticket, uses[static_cast<size_t>(picked >= 0 ? picked : chosen)]);
  const bool no_trial = cloth.use == ClothUse::Trial && !f.ticket.of(cloth.use);
  if (!f.ticket.of(cloth.use)) {
    aside(f, flow, "cloth.usual", f.words(no_trial ? "ui.cloth-no-trial" : "ui.cloth-usual"));
  }
  shelf(f, flow, cloth);
  if (no_trial) {
    if (button(f, "cloth.trial", flow.across(kTarget), f.words("ui.cloth-trial"))) {
      f.commands.push_back(SetCloth{cloth.use, cloth});
    }
    return;
  }
  if (const auto name =
          text_field(f, "cloth.name", flow.next(kTarget), f.words("ui.cloth-name"), cloth.name)) {
    Cloth next = cloth;
    next.name = *name;
    f.commands.push_back(SetCloth{next.use, next});
  }
  for (const ClothNumber& n : cloth_numbers()) {
    if (n.number == &Cloth::piece_mm && cloth.priced_by != PricedBy::Piece &&
        !f.view.lay.faults.contains("cloth.priced-by")) {
      continue;
    }
    if (n.number == &Cloth::fuse_s && cloth.use != ClothUse::Laminate) continue;
    if (n.number == &Cloth::first_stripe_mm && cloth.repeat_across_mm <= 0.0) continue;
    number_field(f, flow, cloth, n);
  }
  one_of(f, flow, cloth, "priced-by.", &Cloth::priced_by);
  if (const auto fault = f.view.lay.faults.find("cloth.priced-by");
      fault != f.view.lay.faults.end()) {
    const std::string words = sentence_of(f, fault->second);
    sentence(f, flow, "cloth.priced-by.fault", words, true);
  }
  either(f, flow, cloth, "nap", "ui.cloth-two-way", "ui.cloth-one-way", &Cloth::one_way);
  if (cloth.use == ClothUse::Shell || cloth.use == ClothUse::Lining) {
    either(f, flow, cloth, "holes", "ui.cloth-holes-close", "ui.cloth-holes-stay",
           &Cloth::keeps_holes);
  }
  one_of(f, flow, cloth, "stretch.", &Cloth::stretch);
  if (f.ticket.of(cloth.use) &&
      button(f, "cloth.reset", flow.across(kTarget),
             f.words(cloth.use == ClothUse::Trial ? "ui.cloth-trial-leave" : "ui.cloth-reset"))) {
    f.view.lay.faults.clear();
    f.commands.push_back(SetCloth{cloth.use, std::nullopt});
  }
}

}  // namespace coatwright::studio
