#include "shell/pages/class_page.h"

#include <algorithm>
#include <set>
#include <utility>

#include "core/sheet/page_blocks.h"
#include "shell/pages/make_page.h"
#include "shell/pages/measuring_page.h"
#include "shell/pages/recipe_page.h"
#include "shell/pages/sizes_page.h"
#include "shell/words/ticket_words.h"

namespace coatwright {
namespace {

// The coat without whose it is: as a sample, or a size.
Ticket anonymous(const Ticket& ticket, const std::string& size) {
  Ticket out = to_measure_again(ticket);
  out.carried = {};
  out.dog = size;
  out.name.clear();
  out.notes.clear();
  return out;
}

struct Sample {
  std::string name;  // of a size; empty: it is no size
  const MadeCoat* coat;
};
// Those whose lengths the recipe tells, or the one that the sheets are drawn of.
std::vector<Sample> samples_of(const std::vector<MadeCoat>& coats) {
  std::vector<Sample> out;
  for (size_t i = 1; i < coats.size(); ++i) out.push_back({coats[i].ticket.dog, &coats[i]});
  if (out.empty()) out.push_back({"", &coats.front()});
  return out;
}

Document front_page(const std::vector<Sample>& samples, const FormSource& s) {
  const Words& words = s.words;
  const Ticket& ticket = samples.front().coat->ticket;
  const std::string title = handout_title(ticket, words);
  Document page(title);
  page.heading(1, title);
  if (!s.choices.studio.empty()) page.paragraph(s.choices.studio);
  if (!s.choices.day.empty()) page.paragraph(s.choices.day);
  page.paragraph(words("style." + ticket.style + ".use"));
  page.open_list(ListKind::Numbered);
  page.item(words("handout.measuring"));
  page.item(words(samples.front().name.empty() ? "handout.recipe-blank" : "handout.recipe-sizes"));
  const std::string& name = samples.front().name;
  page.item(words("handout.make",
                  {name.empty() ? words("handout.of-sample") : words("handout.of-size", {name})}));
  page.heading(2, words("handout.measures"));
  std::vector<SizedPattern> sizes;
  for (const Sample& one : samples) {
    sizes.push_back({one.name.empty() ? words("handout.sample") : one.name, one.coat->pattern});
  }
  write_size_table(page, ticket, sizes, words);
  page.heading(2, words("cover.cautions"));
  page.open_list(ListKind::Plain);
  for (const char* key : kCautions) page.item(words(key));
  return page;
}

Chapter titled(Chapter chapter, std::string title) {
  chapter.title = std::move(title);
  return chapter;
}

}  // namespace

std::string handout_title(const Ticket& ticket, const Words& words) {
  return words("handout.title", {words("style." + ticket.style)});
}

Chapters handout(const std::vector<MadeCoat>& coats, const FormSource& s) {
  const std::vector<Sample> samples = samples_of(coats);
  const MadeCoat& base = coats.front();
  const std::string& day = s.choices.day;
  Chapters out;
  const auto add = [&](const Document& document, const std::string& title) {
    out.push_back(titled(document_chapter(base.ticket, document, s), title));
  };
  const Document front = front_page(samples, s);
  add(front, front.title());
  const Document measuring = measuring_sheet(base.ticket, s.words, "");
  add(measuring, measuring.title());
  for (const Sample& one : samples) {
    const bool blank = one.name.empty();
    const Ticket ticket = anonymous(one.coat->ticket, one.name);
    add(blank ? blank_recipe(ticket, one.coat->pattern, s.words, day)
              : recipe_sheet(ticket, one.coat->pattern, s.words, day),
        s.words("form.recipe", {title_of(ticket, s.words)}));
  }
  const Ticket ticket = anonymous(samples.front().coat->ticket, samples.front().name);
  add(make_sheet(ticket, samples.front().coat->pattern, s.words, day),
      s.words("form.make", {title_of(ticket, s.words)}));
  return out;
}

Result<Chapters> class_packet(const FormSource& s) {
  Chapters out;
  std::set<std::string> styles;
  for (const MadeCoat& coat : s.coats) {
    if (!styles.insert(coat.ticket.style).second) continue;
    for (Chapter& chapter : handout({coat}, s)) out.push_back(std::move(chapter));
  }
  for (const MadeCoat& coat : s.coats) {
    const Result<SheetPlan> plan = sheets_of(coat, s);
    if (!plan) return plan.problem();
    out.push_back(sheets_chapter(coat, *plan, s));
  }
  return out;
}

}  // namespace coatwright
