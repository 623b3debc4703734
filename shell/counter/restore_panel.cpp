#include "shell/counter/restore_panel.h"

#include <algorithm>

#include "shell/desk/start.h"
#include "shell/kit/keypad.h"
#include "shell/kit/widgets.h"
#include "shell/words/ticket_words.h"

namespace coatwright::studio {
namespace {

// ---- the board -------------------------------------------------------------------------------

struct Row {
  std::string id, name, mine, theirs;
};

std::string or_nothing(const Frame& f, const std::string& text) {
  return text.empty() ? f.words("ui.differs-nothing") : text;
}

std::string readings_words(const Frame& f, const std::vector<std::string>& readings) {
  std::string out;
  for (const std::string& reading : readings) out += (out.empty() ? "" : ", ") + set_entry(reading);
  return or_nothing(f, out);
}

// What differs, and when each was changed; of what cannot be told in a few words, only that it does.
std::vector<Row> rows_of(const Frame& f, const Card& mine, const Card& theirs) {
  const Ticket &a = mine.ticket, &b = theirs.ticket;
  const TicketDifference d = difference_of(a, b);
  std::vector<Row> out = {{"changed", f.words("ui.differs-changed"),
                           date_words(mine.changed, f.words), date_words(theirs.changed, f.words)}};
  const auto text = [&](bool differs, const char* id, const std::string& x, const std::string& y) {
    if (!differs) return;
    out.push_back(
        {id, f.words(std::string("ui.differs-") + id), or_nothing(f, x), or_nothing(f, y)});
  };
  const std::string here = f.words("ui.differs-so"), other = f.words("ui.differs-otherwise");
  text(d.dog, "dog", a.dog, b.dog);
  text(d.name, "name", a.name, b.name);
  for (const Measure m : d.measures) {
    out.push_back({info(m).id, f.words(std::string("measure.") + info(m).id),
                   readings_words(f, a.of(m)), readings_words(f, b.of(m))});
  }
  const bool style = a.style != b.style;
  text(d.coat, "coat", style ? f.words("style." + a.style) : here,
       style ? f.words("style." + b.style) : other);
  text(d.notes, "notes", a.notes, b.notes);
  text(d.other, "other", here, other);
  return out;
}

constexpr float kLine = 26.0F;

// In one line where the board is wide, else the name above.
float row(Frame& f, const Box& box, const Row& r) {
  const bool wide = box.w > 640.0F;
  const float name = wide ? 0.28F * box.w : 0.0F, half = 0.5F * (box.w - name);
  const float top = wide ? box.y : box.y + kLine;
  f.paint.clipped_text({box.x, box.y + 0.5F * line_step(kBody)}, wide ? name - 12.0F : box.w,
                       r.name, kStrong, f.colours.ink);
  const float mine =
      f.paint.paragraph({box.x + name, top}, half - 14.0F, r.mine, kBody, f.colours.ink);
  const float theirs =
      f.paint.paragraph({box.x + name + half, top}, half - 6.0F, r.theirs, kBody, f.colours.ink);
  const float height = top - box.y + std::max({kLine, mine, theirs});
  f.ui.add({.id = "differs." + r.id,
            .role = ControlRole::Words,
            .name = f.words("ui.differs-row", {r.name, r.mine, r.theirs}),
            .box = {box.x, box.y, box.w, height}});
  f.paint.line({box.x, box.y + height + 6.0F}, {box.right(), box.y + height + 6.0F},
               f.colours.paper_line, 1.0F);
  return height + 14.0F;
}

float heads(Frame& f, const Box& box) {
  const float name = box.w > 640.0F ? 0.28F * box.w : 0.0F, half = 0.5F * (box.w - name);
  const float y = box.y + 12.0F;
  const std::string here = f.words("ui.differs-here"), backup = f.words("ui.differs-backup");
  f.paint.text({box.x + name, y}, here, kBody, f.colours.soft);
  f.paint.text({box.x + name + half, y}, backup, kBody, f.colours.soft);
  words_at(f, "differs.heads", {box.x, box.y, box.w, 24.0F}, here + ", " + backup);
  return 32.0F;
}

std::vector<std::string> take_words(const Frame& f) {
  return {f.words("ui.take-mine"), f.words("ui.take-theirs"), f.words("ui.keep-both")};
}

// Where a side sheet has less room.
std::vector<std::string> brief_take_words(const Frame& f) {
  return {f.words("ui.mine"), f.words("ui.theirs"), f.words("ui.both")};
}

float pair(Frame& f, const Box& box, const Card& theirs) {
  RestoreLook& look = f.view.restore;
  const Card* there = f.rack.card(theirs.id);
  const Card mine = there != nullptr ? *there : Card{};
  float y = box.y;
  const std::string title = title_of(mine.ticket, f.words);
  heading(f, "differs.ticket", {box.x, y + 14.0F}, title, kLarge);
  y += 40.0F;
  y += heads(f, {box.x, y, box.w, 0.0F});
  for (const Row& r : rows_of(f, mine, theirs)) y += row(f, {box.x, y, box.w, 0.0F}, r);
  y += 10.0F;
  TakeBack& answer = look.answers[look.at];
  const int chosen = options(f, "differs.take", {box.x, y, std::min(box.w, 620.0F), kTarget},
                             f.words("ui.differs-take"), take_words(f), static_cast<int>(answer));
  if (chosen >= 0) answer = static_cast<TakeBack>(chosen);
  return y + kTarget + 20.0F - box.y;
}

}  // namespace

void restore_board(Frame& f, const Box& box) {
  f.paint.fill(box, f.colours.paper, 14.0F);
  const std::vector<Card>& differing = f.restore->differing();
  f.view.restore.at = std::min(f.view.restore.at, differing.size() - 1);
  scrolled(f, "differs.pair", box, [&](const Box& inner) {
    return pair(f, inner.inset(f.layout.narrow ? 12.0F : 22.0F, 16.0F),
                differing[f.view.restore.at]) +
           32.0F;
  });
}

// ---- the side sheet --------------------------------------------------------------------------

namespace {

void step_through(Frame& f, const Box& row) {
  RestoreLook& look = f.view.restore;
  const size_t all = f.restore->differing().size();
  const Box before = row.column(0, 3, 8.0F), middle = row.column(1, 3, 8.0F),
            next = row.column(2, 3, 8.0F);
  const std::string at =
      f.words("ui.differs-at", {std::to_string(look.at + 1), std::to_string(all)});
  if (button(f, "differs.before", before, f.words("ui.differs-before"), {.enabled = look.at > 0})) {
    --look.at;
  }
  f.paint.clipped_text(middle.centre(), middle.w, at, kStrong, f.colours.ink, Align::Middle);
  words_at(f, "differs.at", middle, at);
  if (button(f, "differs.next", next, f.words("ui.differs-next"), {.enabled = look.at + 1 < all})) {
    ++look.at;
  }
}

float sheet(Frame& f, const Box& box) {
  Columns flow(box, box.w, kGap);
  RestoreLook& look = f.view.restore;
  const Box title = flow.next(30.0F);
  heading(f, "differs.title", {title.x, title.centre().y}, f.words("ui.differs"));
  paragraph(f, flow, "differs.how", f.words("ui.differs-how"));
  step_through(f, flow.next(kTarget));
  if (look.answers.size() > 1) {
    const bool same =
        std::equal(look.answers.begin() + 1, look.answers.end(), look.answers.begin());
    const std::string group = f.words("ui.differs-all");
    const Box named = flow.next(26.0F + kTarget);
    f.paint.text({named.x, named.y + 11.0F}, group, kBody, f.colours.ink);
    const int all = options(f, "differs.all", named.below(26.0F), group, brief_take_words(f),
                            same ? static_cast<int>(look.answers.front()) : -1);
    if (all >= 0) std::fill(look.answers.begin(), look.answers.end(), static_cast<TakeBack>(all));
  }
  const ButtonStyle main{.look = Look::Solid, .type = kLarge, .enabled = !f.keeping.follows};
  if (button(f, "differs.do", flow.next(54.0F), f.words("ui.differs-do"), main)) {
    f.rack_commands.push_back({.deed = RackDeed::TakeBack});
  }
  if (button(f, "differs.leave", flow.next(kTarget), f.words("ui.differs-leave"))) {
    f.rack_commands.push_back({.deed = RackDeed::LeaveBack});
  }
  return flow.height();
}

}  // namespace

void restore_sheet(Frame& f, const Box& box) {
  scrolled(f, "sheet.differs", box,
           [&](const Box& inner) { return sheet(f, sheet_content(f, inner)) + kSheetPad; });
}

}  // namespace coatwright::studio
