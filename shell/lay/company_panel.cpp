#include "shell/lay/company_panel.h"

#include <algorithm>

#include "shell/kit/card_list.h"
#include "shell/kit/status.h"
#include "shell/words/ticket_words.h"

namespace coatwright::studio {
namespace {

void set(Frame& f, std::vector<std::string> ids) {
  f.view.lay.touched = -1;
  f.view.lay.grip.reset();
  f.view.board().fitted = true;
  f.commands.push_back(SetLaidWith{std::move(ids)});
}

// The hue of a coat's pieces on the board, and what it is called there.
void coat_row(Frame& f, const Box& row, int tint, const std::string& name) {
  const Box chip{row.x, row.centre().y - 11.0F, 22.0F, 22.0F};
  f.paint.fill(chip, coat_hue(f.colours, tint, f.colours.cloth), 5.0F);
  f.paint.outline(chip, f.colours.ink, 1.4F, 5.0F);
  f.paint.clipped_text({row.x + 32.0F, row.centre().y}, row.w - 32.0F, name, kStrong,
                       f.colours.ink);
}

std::string title_of(const Frame& f, const Companion& one) {
  const bool unknown = one.gone && one.ticket == Ticket{};
  return unknown ? f.words("ui.lay-unknown") : coatwright::title_of(one.ticket, f.words);
}

void companion(Frame& f, Columns& flow, const Companion& one, int tint) {
  const std::string title = title_of(f, one);
  const Box row = flow.across(kTarget);
  const std::string words = f.words("ui.lay-take-out");
  const float wide = text_width(words, kStrong) + 36.0F;
  const Box key{row.right() - wide, row.y, wide, row.h};
  coat_row(f, {row.x, row.y, row.w - wide - 12.0F, row.h}, one.laid() ? tint : 0, title);
  f.ui.add({.id = "company." + one.id,
            .role = ControlRole::Words,
            .name = f.words("ui.lay-with", {title}),
            .box = {row.x, row.y, row.w - wide - 12.0F, row.h}});
  if (button(f, "company.out." + one.id, key, words,
             {.enabled = !f.keeping.follows, .name = words + ": " + title})) {
    std::vector<std::string> ids = f.ticket.laid_with;
    std::erase(ids, one.id);
    set(f, std::move(ids));
  }
  if (one.gone) {
    sentence(f, flow, "company.gone." + one.id, f.words("ui.lay-gone", {title}), true);
  } else if (one.refusal) {
    sentence(f, flow, "company.refused." + one.id,
             f.words("ui.lay-without", {title, sentence_of(f, *one.refusal)}), true);
  }
}

void choose(Frame& f, Columns& flow) {
  const auto& with = f.ticket.laid_with;
  const CardList list{.id = "company",
                      .search_words = "ui.lay-search",
                      .searched = &f.view.lay.company_search,
                      .leaves_out = [&with](const Card& card) {
                        return std::find(with.begin(), with.end(), card.id) != with.end();
                      }};
  for (const Card* card : cards_to_choose(f, flow, list)) {
    const std::string title = coatwright::title_of(card->ticket, f.words);
    if (button(f, "company.add." + card->id, flow.next(kTarget), title,
               {.enabled = !f.keeping.follows, .name = f.words("ui.lay-add", {title})})) {
      std::vector<std::string> ids = f.ticket.laid_with;
      ids.push_back(card->id);
      set(f, std::move(ids));
    }
  }
}

}  // namespace

std::vector<LeftOut> left_out_of(const Frame& f) {
  std::vector<LeftOut> out;
  for (const Companion& one : f.lay.company()) {
    if (one.laid()) continue;
    out.push_back({title_of(f, one), one.refusal && !one.gone ? sentence_of(f, *one.refusal)
                                                              : f.words("lay.left-out-gone")});
  }
  return out;
}

LaidCoats coats_of(const Frame& f) {
  LaidCoats coats = {{.key = {}, .ticket = &f.ticket, .draft = &f.derived.pattern->draft}};
  for (const Companion& one : f.lay.company()) {
    if (one.laid()) coats.push_back({one.id, &one.ticket, &one.pattern->draft});
  }
  return coats;
}

void company_controls(Frame& f, Columns& flow) {
  const auto& company = f.lay.company();
  if (!company.empty()) {
    const Box title = flow.across(30.0F);
    heading(f, "company.title", {title.x, title.centre().y}, f.words("ui.lay-together"), kLarge);
    const Box own = flow.across(34.0F);
    coat_row(f, own, 0, coatwright::title_of(f.ticket, f.words));
    int tint = 0;
    for (const Companion& one : company) companion(f, flow, one, one.laid() ? ++tint : 0);
    aside(f, flow, "company.cloths", f.words("ui.lay-cloths-of-first"));
  }
  if (f.ticket.laid_with.size() >= kMostLaidWith) return;
  const bool adding = f.view.lay.adding;
  const std::string words = f.words(adding ? "ui.lay-add-done" : "ui.lay-add-other");
  if (button(f, "company.adding", flow.across(kTarget), words)) f.view.lay.adding = !adding;
  if (adding) choose(f, flow);
}

}  // namespace coatwright::studio
