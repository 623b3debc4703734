#include "shell/pages/made_coat.h"

#include <utility>

#include "core/lay/hand_lay.h"
#include "core/ticket/pattern_of.h"
#include "shell/words/say.h"
#include "shell/words/ticket_words.h"

namespace coatwright {
namespace {

std::variant<MadeCoat, std::string> made_coat(const CoatText& coat, bool named,
                                              const Words& words) {
  LengthStyle lengths;
  std::string name = coat.id;
  const auto refused = [&](const Problem& why) {
    const std::string sentence = say(why, words, lengths);
    return named ? words("form.coat-refused", {name, sentence}) : sentence;
  };
  const Result<Ticket> ticket = read_ticket(coat.ticket);
  if (!ticket) return refused(ticket.problem());
  lengths.unit = ticket->unit;
  name = title_of(*ticket, words);
  const Result<Tape> tape = tape_of(*ticket);
  if (!tape) return refused(tape.problem());
  Checked<Pattern> made = pattern_of(*ticket, *tape);
  if (!made.result) return refused(made.result.problem());
  return MadeCoat{coat.id, *ticket, *tape, std::move(made.result.value())};
}

}  // namespace

std::variant<std::vector<MadeCoat>, std::string> made_coats(const std::vector<CoatText>& coats,
                                                            const Words& words) {
  std::vector<MadeCoat> out;
  for (const CoatText& coat : coats) {
    auto made = made_coat(coat, coats.size() > 1, words);
    if (auto* why = std::get_if<std::string>(&made)) return std::move(*why);
    out.push_back(std::get<MadeCoat>(std::move(made)));
  }
  return out;
}

LaidCoats laid_coats(const std::vector<MadeCoat>& coats) {
  LaidCoats out;
  for (const MadeCoat& one : coats) out.push_back({one.key, &one.ticket, &one.pattern.draft});
  return out;
}

std::vector<LayCoat> lay_coats(const std::vector<MadeCoat>& coats) {
  std::vector<LayCoat> out;
  for (const MadeCoat& one : coats) out.push_back({one.key, &one.pattern.cut});
  return out;
}

std::string lay_key(ClothUse use, bool laminated) {
  return std::string(cloth_use_id(use)) + (laminated ? "-laminated" : "");
}

std::vector<HandedLay> handed_lays(const std::vector<MadeCoat>& coats) {
  const Ticket& ticket = coats.front().ticket;
  std::vector<HandedLay> out;
  for (LayOrder& order : lay_orders(lay_coats(coats), ticket.of(ClothUse::Trial).has_value())) {
    HandedLay& one = out.emplace_back(HandedLay{std::move(order)});
    const HandLay* hand = hand_lay(ticket.hand_lays, one.order.use, one.order.laminated);
    if (hand == nullptr) continue;
    if (auto lay = lay_of(*hand, one.order, cloth_of(ticket, one.order.use))) {
      lay->by_hand = false;  // whoever has laid it, it came as places
      one.laid = LaidCloth{.lay = std::move(*lay)};
    }
  }
  std::vector<LaidCloth*> all;
  for (HandedLay& one : out) {
    if (one.laid) all.push_back(&*one.laid);
  }
  place_on_rests(all);
  return out;
}

}  // namespace coatwright
