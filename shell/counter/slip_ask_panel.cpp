#include "shell/counter/slip_ask_panel.h"

#include <algorithm>
#include <cmath>

#include "shell/desk/slip_letter.h"
#include "shell/desk/start.h"
#include "shell/kit/board.h"
#include "shell/kit/keeping_notes.h"
#include "shell/kit/qr.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"
#include "shell/words/ticket_words.h"

namespace coatwright::studio {
namespace {

// The slip as it would go now.
Result<Letter> letter_of(const Frame& f) {
  const Result<SlipRequest> request = slip_request(f.ticket, f.view.slip);
  if (!request) return request.problem();
  return slip_letter(*request, f.site, f.words);
}

// Modules are whole device pixels and stand on the screen's grid; the code has its quiet zone on
// white, whatever the palette.
void draw_qr(Frame& f, const Box& room, const QrCode& qr) {
  const float ratio = f.paint.device_ratio();
  const int modules = qr.side + 2 * kQrQuiet;
  const float side = std::min(room.w, room.h);
  const float module =
      std::max(1.0F, std::floor(side * ratio / static_cast<float>(modules))) / ratio;
  const float whole = module * static_cast<float>(modules);
  const auto on_grid = [&](float v) { return std::round(v * ratio) / ratio; };
  const Box box{on_grid(room.centre().x - 0.5F * whole), on_grid(room.centre().y - 0.5F * whole),
                whole, whole};
  f.paint.fill(box, rgb(0xFFFFFF));
  for (int y = 0; y < qr.side; ++y) {
    for (int x = 0; x < qr.side;) {
      int end = x;
      while (end < qr.side && qr.at(end, y)) ++end;
      if (end > x) {
        f.paint.fill({box.x + module * static_cast<float>(x + kQrQuiet),
                      box.y + module * static_cast<float>(y + kQrQuiet),
                      module * static_cast<float>(end - x), module},
                     rgb(0x000000));
      }
      x = std::max(end, x + 1);
    }
  }
}

void keep_studio(Frame& f) {
  const SlipView& view = f.view.slip;
  const Result<SlipBack> back = slip_back(view.address);
  if (!back) return;
  f.slip_commands.push_back({.deed = SlipDeed::Studio, .text = view.studio, .back = *back});
}

void fields(Frame& f, Columns& flow) {
  SlipView& view = f.view.slip;
  if (const auto studio = text_field(f, "slip.studio", flow.next(kTarget),
                                     f.words("ui.slip-studio"), view.studio)) {
    view.studio = *studio;
    keep_studio(f);
  }
  if (const auto address = text_field(f, "slip.address", flow.next(kTarget),
                                      f.words("ui.slip-address"), view.address)) {
    view.address = *address;
    keep_studio(f);
  }
  if (const auto note =
          text_field(f, "slip.note", flow.next(kTarget), f.words("ui.slip-note"), view.note)) {
    view.note = *note;
  }
}

void ways_out(Frame& f, Columns& flow, const Result<Letter>& letter) {
  const bool whole = letter.ok();
  const ButtonStyle main{.look = Look::Solid, .type = kLarge, .enabled = whole};
  if (f.site.shares && button(f, "slip.share", flow.next(54.0F), f.words("ui.share"), main)) {
    f.effects.emplace_back(ShareText{letter->subject, letter->text});
  }
  const Box row = flow.next(kTarget);
  if (button(f, "slip.copy", row.column(0, 2, 8.0F), f.words("ui.copy-link"), {.enabled = whole})) {
    f.effects.emplace_back(CopyText{letter->link});
  }
  if (button(f, "slip.mail", row.column(1, 2, 8.0F), f.words("ui.by-mail"), {.enabled = whole})) {
    f.effects.emplace_back(MailText{letter->subject, letter->text});
  }
}

void asked_measures(Frame& f, Columns& flow) {
  const Box title = flow.next(28.0F);
  heading(f, "slip.asked", {title.x, title.centre().y}, f.words("ui.slip-asks"), kLarge);
  for (const Measure m : measures_of(style_of(f.ticket), f.ticket.choices)) {
    const std::string id = info(m).id;
    bool& asked = f.view.slip.asked[static_cast<size_t>(m)];
    if (tick_box(f, "ask." + id, flow.next(kTarget), f.words("measure." + id), asked)) {
      asked = !asked;
    }
  }
}

float sheet(Frame& f, const Box& box) {
  const Result<Letter> letter = letter_of(f);
  Columns flow(box, 300.0F, kGap);
  const Box title = flow.across(30.0F);
  heading(f, "slip.title", {title.x, title.centre().y}, f.words("ui.slip"));
  if (f.site.address.empty()) {
    const std::string words = f.words("ui.slip-no-site");
    sentence(f, flow, "slip.problem", words, true);
  } else if (!letter) {
    const std::string words = sentence_of(f, letter.problem());
    sentence(f, flow, "slip.problem", words, true);
  } else {
    ways_out(f, flow, letter);
  }
  fields(f, flow);
  paragraph(f, flow, "slip.carries", f.words("ui.slip-carries"), true);
  asked_measures(f, flow);
  if (button(f, "slip.close", flow.next(kTarget), f.words("ui.slip-close"))) {
    f.view.slip.shows = SlipShows::Nothing;
  }
  return flow.height();
}

}  // namespace

void ask_the_client(Frame& f) {
  f.view.slip = {.shows = SlipShows::Ask,
                 .asked = measures_to_ask(f.ticket),
                 .studio = f.rack.notes().studio,
                 .address = f.rack.notes().back.address};
  f.slip_commands.push_back({.deed = SlipDeed::Make});
  f.view.focus_on = kSheetPart;
}

void slip_ask_sheet(Frame& f, const Box& box) {
  scrolled(f, "sheet.slip", box,
           [&](const Box& inner) { return sheet(f, sheet_content(f, inner)) + kSheetPad; });
}

void slip_ask_board(Frame& f, const Box& box) {
  f.paint.fill(box, f.colours.card, 14.0F);
  notice(f, box);
  keeping_notes(f, box);
  const Result<Letter> letter = letter_of(f);
  // Without a remembered slip (another window writes) an answer would find no ticket.
  if (letter && f.view.slip.token && !f.site.address.empty()) {
    const auto qr = qr_of(letter->link);
    const Box inner = box.inset(20.0F, 16.0F);
    const std::string words = f.words("ui.slip-scan", {title_of(f.ticket, f.words)});
    const float height = paragraph_height(words, inner.w, kLarge);
    f.paint.paragraph({inner.x, inner.y}, inner.w, words, kLarge, f.colours.ink);
    words_at(f, "slip.scan", inner.top(height), words);
    // No camera reads a code with a note lying on it.
    const Box below = inner.below(height + 12.0F);
    const Box room = below.top(below.h - (notes_on_sheet(f) ? 0.0F : f.view.next_note_height));
    if (qr) {
      draw_qr(f, room, *qr);
      f.ui.add({.id = "slip.qr",
                .role = ControlRole::Picture,
                .name = f.words("ui.slip-qr"),
                .value = letter->link,
                .box = room});
    }
  }
}

}  // namespace coatwright::studio
