#include "shell/print/several_panel.h"

#include <algorithm>

#include "core/ticket/leaving.h"
#include "shell/kit/board_words.h"
#include "shell/kit/card_list.h"
#include "shell/kit/form_keys.h"
#include "shell/kit/status.h"
#include "shell/words/ticket_words.h"

namespace coatwright::studio {
namespace {

constexpr float kApart = 8.0F;

void part_title(Frame& f, Columns& flow, const char* id, const char* words) {
  const Box title = flow.across(34.0F);
  heading(f, id, {title.x, title.centre().y}, f.words(words), kStrong);
}

// ---- a class ----------------------------------------------------------------------------------------

// The open ticket is one of them.
constexpr size_t kMostTicked = kMostFormCoats - 1;

// Those of the rack that were ticked, shown or not.
std::vector<const Card*> ticked_cards(const Frame& f) {
  std::vector<const Card*> out;
  for (const Card& card : f.rack.cards()) {
    const bool ticked = f.view.several.job.contains(card.id) && card.place != Place::Bin;
    if (ticked && card.id != f.rack.open_id() && out.size() < kMostTicked) out.push_back(&card);
  }
  return out;
}

std::vector<CoatText> job_of(const Frame& f) {
  std::vector<CoatText> out = {{f.rack.open_id(), write_leaving(f.ticket)}};
  for (const Card* card : ticked_cards(f)) out.push_back({card->id, write_leaving(card->ticket)});
  return out;
}

void choose_coats(Frame& f, Columns& flow) {
  SeveralLook& look = f.view.several;
  const size_t count = ticked_cards(f).size();
  part_title(f, flow, "several.coats", "ui.several-coats");
  paragraph(f, flow, "job.own",
            f.words("ui.several-open", {title_of(f.ticket, f.words), std::to_string(count),
                                        std::to_string(kMostTicked)}));
  const CardList list{.id = "job", .search_words = "ui.lay-search", .searched = &look.search};
  for (const Card* card : cards_to_choose(f, flow, list)) {
    const bool ticked = look.job.contains(card->id);
    if (!tick_box(f, "job." + card->id, flow.next(kTarget), title_of(card->ticket, f.words),
                  ticked)) {
      continue;
    }
    f.again = true;  // the sentence above counts them
    if (ticked) {
      look.job.erase(card->id);
    } else if (count < kMostTicked) {
      look.job.insert(card->id);
    }
  }
}

void for_class(Frame& f, Columns& flow) {
  const Coats job = [&f] { return job_of(f); };
  form_key(f, flow.next(58.0F),
           {"save.class",
            Form::ClassPdf,
            "ui.save-class",
            FormUse::Save,
            {.look = Look::Solid, .type = kLarge}},
           job);
  paragraph(f, flow, "several.hint", f.words("ui.several-hint"), true);
  const Box row = flow.next(kTarget);
  form_key(f, row.column(0, 2, kApart), {"save.job-sheets", Form::SheetsPdf, "ui.save-job-sheets"},
           job);
  form_key(f, row.column(1, 2, kApart), {"save.job-make", Form::MakePdf, "ui.save-job-make"}, job);
  choose_coats(f, flow);
  part_title(f, flow, "several.style", "ui.several-style");
  form_key(f, flow.next(kTarget), {"save.handout", Form::HandoutPdf, "ui.save-handout"});
  form_keys(f, flow.next(kTarget),
            {.id = "print.measuring",
             .form = Form::MeasuringHtml,
             .words = "ui.print-measuring",
             .use = FormUse::Print,
             .of_no_coat = true},
            {.id = "save.measuring",
             .form = Form::MeasuringPdf,
             .words = "ui.save-measuring",
             .of_no_coat = true});
}

// ---- sizes ------------------------------------------------------------------------------------------

std::vector<CoatText> texts_of(const std::vector<Ticket>& tickets) {
  std::vector<CoatText> out;
  for (const Ticket& one : tickets) out.push_back({one.dog, write_leaving(one)});
  return out;
}

void size_row(Frame& f, Columns& flow, const SizeRun::Size& size, SizesWanted& wanted) {
  const std::string& name = size.ticket.dog;
  const std::vector<std::string>& chest = size.ticket.of(Measure::Chest);
  const std::string words = chest.empty() ? name : f.words("ui.size", {name, chest.front()});
  if (size.refusal) {
    const std::string why = f.words("sizes.refused", {name, sentence_of(f, *size.refusal)});
    sentence(f, "size.refused." + name, flow.next(sentence_height(why, flow.column_width())), why,
             true);
    return;
  }
  if (!tick_box(f, "size." + name, flow.next(kTarget), words, size.wanted)) return;
  if (size.wanted) {
    wanted.left.push_back(name);
  } else {
    std::erase(wanted.left, name);
  }
}

void size_keys(Frame& f, Columns& flow, const SizeRun& run) {
  const std::vector<Ticket> wanted = run.wanted();
  const ButtonStyle some{.enabled = !wanted.empty()};
  const Coats sizes = [&] { return texts_of(wanted); };
  const Coats with_own = [&] {
    std::vector<CoatText> out = texts_of(wanted);
    out.insert(out.begin(), {"", write_leaving(f.ticket)});
    return out;
  };
  form_key(f, flow.next(kTarget),
           {"save.sizes", Form::SizesPdf, "ui.save-sizes", FormUse::Save, some}, with_own);
  const Box row = flow.next(kTarget);
  form_key(f, row.column(0, 2, kApart),
           {"save.size-sheets", Form::SheetsPdf, "ui.save-size-sheets", FormUse::Save, some},
           sizes);
  form_key(f, row.column(1, 2, kApart),
           {"save.nest", Form::NestPdf, "ui.save-nest", FormUse::Save, some}, with_own);
  form_key(f, flow.next(kTarget),
           {"save.size-handout", Form::HandoutPdf, "ui.save-size-handout", FormUse::Save, some},
           with_own);
  if (button(f, "sizes.hang", flow.next(kTarget), f.words("ui.sizes-hang"),
             {.enabled = some.enabled && !f.keeping.follows})) {
    f.rack_commands.push_back({.deed = RackDeed::Hang, .tickets = wanted});
  }
  paragraph(f, flow, "sizes.hang-hint", f.words("ui.sizes-hang-hint"), true);
}

void sizes_wanted(Frame& f, Columns& flow, SizesWanted& wanted) {
  part_title(f, flow, "several.sizes", "ui.sizes");
  const std::vector<std::string> ways = {f.words("ui.sizes-chest"), f.words("ui.sizes-weight"),
                                         f.words("ui.sizes-table")};
  const auto by = static_cast<size_t>(wanted.by);
  const int picked = options(f, "sizes.by", flow.next(options_height(ways, flow.column_width())),
                             f.words("ui.sizes-by"), ways, static_cast<int>(by));
  if (picked >= 0) {
    wanted.by = static_cast<SizesBy>(picked);
    wanted.left.clear();
  }
  const auto typed = text_field(f, "sizes.typed." + std::to_string(by), flow.next(kTarget),
                                ways[by], wanted.typed[by]);
  if (typed) {
    wanted.typed[by] = *typed;
    wanted.left.clear();
    f.view.board().fitted = true;
  }
  constexpr const char* kHow[] = {"ui.sizes-chest-how", "ui.sizes-weight-how",
                                  "ui.sizes-table-how"};
  paragraph(f, flow, "sizes.how", f.words(kHow[by]), true);
  const SizeRun& run = f.sizes.update(f.ticket, f.rack.notes().sizes);
  if (run.problem) {
    const std::string why = sentence_of(f, *run.problem);
    sentence(f, "sizes.problem", flow.next(sentence_height(why, flow.column_width())), why, true);
  }
  if (run.sizes.empty()) return;
  for (const SizeRun::Size& size : run.sizes) size_row(f, flow, size, wanted);
  size_keys(f, flow, run);
}

void in_sizes(Frame& f, Columns& flow) {
  const SizesWanted& kept = f.rack.notes().sizes;
  SizesWanted wanted = kept;
  sizes_wanted(f, flow, wanted);
  if (wanted != kept) f.rack_commands.push_back({.deed = RackDeed::KeepSizes, .sizes = wanted});
}

}  // namespace

void for_several(Frame& f, Columns& flow) {
  for_class(f, flow);
  in_sizes(f, flow);
}

bool nest_board(Frame& f, const Box& box) {
  const Drawing& nest = f.sizes.update(f.ticket, f.rack.notes().sizes).nest;
  if (nest.items.empty()) return false;
  const BoardMap map = board(f, box, nest.bounds, f.words("ui.board-nest"), false);
  f.paint.push_clip(box);
  draw_items(f, map, nest, 1.0F);
  f.paint.pop_clip();
  tell_drawing(f, map, nest, true);
  return true;
}

}  // namespace coatwright::studio
