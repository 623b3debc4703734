#include "shell/tool/report.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

#include "core/ticket/ids.h"
#include "shell/words/say.h"
#include "shell/words/step_words.h"

namespace coatwright {

namespace {

using Json = nlohmann::ordered_json;

// To a micrometre; -0 is 0.
Json number(double v) { return std::round(v * 1000.0) / 1000.0 + 0.0; }

Json point(Point p) { return Json::array({number(p.x), number(p.y)}); }

Json polyline(const Polyline& points) {
  Json out = Json::array();
  for (const Point p : points) out.push_back(point(p));
  return out;
}

const char* kind_id(MarkKind kind) {
  switch (kind) {
    case MarkKind::CentreFront:
      return "centre-front";
    case MarkKind::HookLoop:
      return "hook-and-loop";
    case MarkKind::BandPlace:
      return "band-place";
    case MarkKind::TurningGap:
      return "turning-gap";
    case MarkKind::GirthLine:
      return "girth-line";
    case MarkKind::Placement:
      return "placement";
    case MarkKind::Opening:
      return "opening";
    case MarkKind::Dart:
      return "dart";
  }
  return "";
}

// A word key without its heading: "front-closure" of "mark.front-closure".
std::string after_dot(const std::string& key) { return key.substr(key.find('.') + 1); }

// What each is and what it is for; of several lengths for one place, the second and those behind it
// are numbered.
std::vector<std::string> ids_of(const std::vector<Notion>& notions) {
  std::vector<std::string> ids;
  std::map<std::string, int> met;
  for (const Notion& n : notions) {
    std::string id = std::string(notion_id(n.kind)) + "." + after_dot(n.place);
    const int count = ++met[id];
    ids.push_back(count == 1 ? id : id + "." + std::to_string(count));
  }
  return ids;
}

// Lists of numbers on one line: a point is [12.5, 40.0], not four lines.
std::string with_short_lists(const std::string& json) {
  std::string out;
  for (size_t i = 0; i < json.size(); ++i) {
    out += json[i];
    if (json[i] != '[') continue;
    const size_t end = json.find_first_of("[]{\"", i + 1);
    if (end == std::string::npos || json[end] != ']') continue;
    for (size_t k = i + 1; k < end; ++k) {
      const bool blank = json[k] == '\n' || json[k] == ' ';
      if (!blank) out += json[k];
      if (json[k] == ',') out += ' ';
    }
    i = end - 1;
  }
  return out;
}

class Report {
 public:
  Report(const Ticket& ticket, const Words& words)
      : words_(words), style_{.unit = ticket.unit, .steps_per_inch = 16} {
    root["ticket"] = {{"name", ticket.name}, {"dog", ticket.dog}};
  }

  Json root;

  void findings(const Findings& findings) {
    Json& out = root["findings"] = Json::array();
    for (const Finding& f : findings) {
      Json values = Json::array();
      const auto& all = f.what.values;  // the fourth only where there is one
      for (size_t i = 0; i < all.size() && (i < 3 || all[i] != 0.0); ++i) {
        values.push_back(number(all[i]));
      }
      out.push_back({{"level", id_of(f.level)},
                     {"code", code_name(f.what.code)},
                     {"subject", f.what.subject},
                     {"other", f.what.other},
                     {"values", values},
                     {"words", say(f.what, words_, style_)}});
    }
  }

  void values(const Body& body) {
    Json& out = root["values"] = Json::array();
    for (const MeasureInfo& measure : measure_table()) {
      const Value& v = body.of(measure.measure);
      const std::string unit = measure.is_weight ? "_kg" : "_mm";
      Json row = {{"id", measure.id},
                  {"name", name_of(measure.id, words_)},
                  {"value" + unit, number(v.value)},
                  {"spread" + unit, number(v.spread)},
                  {"readings", v.readings},
                  {"estimated", v.estimated()}};
      if (v.estimated()) row["rule"] = v.rule;
      out.push_back(row);
    }
  }

  void choices(const Chosen& chosen) {
    Json& out = root["choices"] = Json::object();
    for (const ChoiceInfo* choice : choice_table()) {
      if (!chosen.has(*choice)) continue;
      out[choice->id] = choice->named()
                            ? Json(choice->options[static_cast<size_t>(chosen.option(*choice))])
                            : number(chosen.of(*choice));
    }
  }

  void piece(const CutPiece& cut) {
    const Piece& piece = cut.piece;
    Json edges = Json::array();
    for (const CutEdge& e : cut.edges) {
      edges.push_back({{"id", e.id},
                       {"seam", e.seam},
                       {"allowance_mm", number(e.allowance_mm)},
                       {"length_mm", number(e.length_mm)}});
    }
    Json notches = Json::array();
    for (const CutNotch& n : cut.notches) {
      notches.push_back({{"name", n.name},
                         {"edge", n.edge},
                         {"on_net", point(n.on_net)},
                         {"on_cut", point(n.on_cut)}});
    }
    Json marks = Json::array();
    for (const Mark& m : piece.marks) {
      marks.push_back({{"id", after_dot(m.label)},
                       {"kind", kind_id(m.kind)},
                       {"label", words_(m.label)},
                       {"closed", m.closed},
                       {"line", polyline(m.line)}});
    }
    Json fold = nullptr;
    if (piece.on_fold && !cut.edges.empty() && !cut.edges.front().net.empty()) {
      fold =
          Json::array({point(cut.edges.front().net.front()), point(cut.edges.front().net.back())});
    }
    root["pieces"].push_back(
        {{"id", piece.id},
         {"name", name_of(piece.id, words_)},
         {"layer", layer_id(piece.layer)},
         {"laminated", piece.laminated},
         {"cut_count", piece.cut},
         {"mirrored_pair", piece.mirrored_pair},
         {"on_fold", piece.on_fold},
         {"net", polyline(cut.net)},
         {"cut", polyline(cut.cut)},
         {"edges", edges},
         {"notches", notches},
         {"grain", Json::array({point(piece.grain_from), point(piece.grain_to)})},
         {"fold", fold},
         {"marks", marks}});
  }

  void invariants(const std::vector<Invariant>& invariants) {
    Json& out = root["invariants"] = Json::array();
    for (const Invariant& i : invariants) {
      out.push_back({{"id", i.id},
                     {"relation", i.at_least ? "at-least" : "equal"},
                     {"wanted_mm", number(i.wanted_mm)},
                     {"got_mm", number(i.got_mm)}});
    }
  }

  void notions(const std::vector<Notion>& notions) {
    Json& out = root["notions"] = Json::array();
    const std::vector<std::string> ids = ids_of(notions);
    for (size_t i = 0; i < notions.size(); ++i) {
      const Notion& n = notions[i];
      out.push_back({{"id", ids[i]},
                     {"kind", notion_id(n.kind)},
                     {"for", words_(n.place)},
                     {"count", n.count},
                     {"length_mm", number(n.length_mm)},
                     {"width_mm", number(n.width_mm)}});
      if (n.kind == NotionKind::Binding) out.back()["from_cloth"] = n.from_cloth;
    }
  }

  void steps(const Operations& steps, const std::vector<Notion>& notions) {
    Json& out = root["steps"] = Json::array();
    const std::vector<std::string> ids = ids_of(notions);
    for (const Operation& s : steps) {
      Json marks = Json::array(), used = Json::array();
      for (const std::string& label : s.marks) marks.push_back(after_dot(label));
      for (size_t i = 0; i < notions.size(); ++i) {
        if (notions[i].step == s.id) used.push_back(ids[i]);
      }
      out.push_back({{"id", s.id},
                     {"stage", stage_id(s.stage)},
                     {"words", how_of(s, style_, words_)},
                     {"why", why_of(s, words_)},
                     {"pieces", s.pieces},
                     {"edges", s.edges},
                     {"marks", marks},
                     {"notions", used}});
    }
  }

  void trace(const std::vector<TraceStep>& steps) {
    Json& out = root["trace"] = Json::array();
    for (const TraceStep& s : steps) {
      Json numbers = Json::array();
      for (const double n : s.numbers) numbers.push_back(number(n));
      out.push_back({{"name", s.name},
                     {"rule", s.rule},
                     {"at", point(s.at)},
                     {"numbers", numbers},
                     {"edge", s.edge},
                     {"words", say(s, words_, style_)}});
    }
  }

  void rows(const std::vector<SlipRow>& rows) {
    Json& out = root["rows"] = Json::array();
    for (const SlipRow& r : rows) {
      const MeasureInfo& measure = info(r.measure);
      const std::string unit = measure.is_weight ? "_kg" : "_mm";
      Json row = {{"id", measure.id},
                  {"name", name_of(measure.id, words_)},
                  {"before", r.before},
                  {"sent", r.sent}};
      if (r.before_value) row["before" + unit] = number(*r.before_value);
      if (r.sent_value) row["sent" + unit] = number(*r.sent_value);
      if (r.before_value && r.sent_value) row["difference" + unit] = number(r.difference);
      row["differs"] = r.differs;
      out.push_back(row);
    }
  }

  void coats(const LaidCoats& coats) {
    Json& out = root["coats"] = Json::array();
    for (const LaidCoat& c : coats)
      out.push_back({{"name", c.ticket->name}, {"dog", c.ticket->dog}});
  }

  // The number in root["coats"] of the coat with this key.
  static int number_of(const LaidCoats& coats, const std::string& key) {
    const auto coat =
        std::find_if(coats.begin(), coats.end(), [&](const LaidCoat& c) { return c.key == key; });
    return static_cast<int>(coat - coats.begin());
  }

  void lays(const LaidCoats& coats, const std::vector<LaidCloth>& cloths) {
    Json& out = root["lays"] = Json::array();
    for (const LaidCloth& laid : cloths) {
      const Lay& lay = laid.lay;
      Json placements = Json::array();
      for (const LaidPiece& p : lay.pieces) {
        placements.push_back({{"coat", number_of(coats, p.coat)},
                              {"piece", p.id},
                              {"mirrored", p.face_down},
                              {"rotation_deg", number(p.turned_deg)},
                              {"x", number(p.at.x)},
                              {"y", number(p.at.y)}});
      }
      Json left = Json::array();
      for (const Rect& r : laid.left_over) {
        left.push_back(Json::array({number(r.x0), number(r.y0), number(r.x1), number(r.y1)}));
      }
      Json entry = {{"cloth", cloth_use_id(lay.cloth.use)},
                    {"laminated", lay.laminated},
                    {"by_hand", lay.by_hand},
                    {"width_mm", number(lay.cloth.width_mm)},
                    {"selvage_mm", number(lay.cloth.selvage_mm)},
                    {"one_way", lay.cloth.one_way},
                    {"rest_mm", number(lay.cloth.rest_mm)},
                    {"length_mm", number(lay.length_mm)},
                    {"efficiency", number(lay.efficiency())},
                    {"steps", laid.steps},
                    {"placements", placements},
                    {"left_over", left}};
      if (lay.cloth.repeat_mm > 0.0) {
        entry["stripes_along"] = stripes(lay.first_stripe_mm, lay.cloth.repeat_mm);
      }
      if (lay.cloth.repeat_across_mm > 0.0) {
        entry["stripes_across"] = stripes(lay.cloth.first_stripe_mm, lay.cloth.repeat_across_mm);
      }
      if (laid.lamination) entry["lamination"] = lamination(*laid.lamination);
      out.push_back(std::move(entry));
    }
  }

  static Json stripes(double first_mm, double repeat_mm) {
    return {{"first_mm", number(first_mm)}, {"repeat_mm", number(repeat_mm)}};
  }

  static Json lamination(const Lamination& plan) {
    Json blanks = Json::array();
    for (const LaminateBlank& blank : plan.blanks) {
      Json strips = Json::array();
      for (const LaminateStrip& s : blank.strips) {
        strips.push_back({{"y0", number(s.y0)}, {"y1", number(s.y1)}, {"order", s.order}});
      }
      const Rect& r = blank.area;
      blanks.push_back(
          {{"placement", blank.piece},
           {"area", Json::array({number(r.x0), number(r.y0), number(r.x1), number(r.y1)})},
           {"strips", strips},
           {"strip_mm", number(blank.strip_mm())}});
    }
    return {{"blanks", blanks}, {"roll_mm", number(plan.roll_mm)}};
  }

  // Cloth, notions, thread.
  void to_buy(const std::vector<LaidCloth>& cloths, const LaidCoats& coats, Unit unit) {
    Json& out = root["to_buy"] = Json::array();
    for (const ClothLine& line : cloth_to_buy(cloths, unit)) {
      std::vector<double> parts(coats.size(), 0.0);
      for (const CoatShare& share : line.shares) {
        parts[static_cast<size_t>(number_of(coats, share.coat))] = share.part();
      }
      Json shares = Json::array();
      for (const double part : parts) shares.push_back(number(part));
      out.push_back({{"ware", cloth_use_id(line.cloth.use)},
                     {"width_mm", number(line.cloth.width_mm)},
                     {"needed_mm", number(line.needed_mm)},
                     {"to_buy_mm", number(line.to_buy_mm)},
                     {"lacks_mm", number(line.lacks_mm)},
                     {"shares", shares}});
    }
    for (const ShoppingLine& line : shopping_list(drafts_of(coats), unit)) {
      Json places = Json::array();
      for (const std::string& place : line.places) places.push_back(words_(place));
      Json entry = {{"ware", notion_id(line.kind)},
                    {"width_mm", number(line.width_mm)},
                    {"needed_mm", number(line.length_mm)},
                    {"to_buy_mm", number(line.to_buy_mm)},
                    {"count", line.count},
                    {"for", places}};
      if (line.kind == NotionKind::Binding) {
        entry["from_cloth"] = line.from_cloth;
        Json& strips = entry["strips"] = Json::array();
        for (const BiasStrips& s : line.strips) {
          strips.push_back({{"count", s.count},
                            {"width_mm", number(s.width_mm)},
                            {"length_mm", number(s.length_mm)}});
        }
      }
      out.push_back(std::move(entry));
    }
    root["thread_mm"] = number(thread_length(drafts_of(coats)));
  }

  [[nodiscard]] std::string text() const {
    return with_short_lists(root.dump(1, ' ', false, Json::error_handler_t::replace)) + "\n";
  }

 private:
  const Words& words_;
  LengthStyle style_;
};

}  // namespace

std::string check_json(const Ticket& ticket, const Body* body, const Findings& findings,
                       const Words& words) {
  Report report(ticket, words);
  if (body) {
    report.values(*body);
  } else {
    report.root["values"] = Json::array();
  }
  report.findings(findings);
  return report.text();
}

std::string draft_json(const Ticket& ticket, const Pattern& pattern, const Findings& findings,
                       bool opened_pieces, const Words& words) {
  Report report(ticket, words);
  report.root["style"] = ticket.style;
  report.root["unit"] = "mm";
  report.choices(pattern.draft.chosen);
  report.root["pieces"] = Json::array();
  for (const CutPiece& piece : pattern.cut.pieces) {
    report.piece(opened_pieces ? opened(piece) : piece);
  }
  report.invariants(pattern.draft.invariants);
  report.notions(pattern.draft.notions);
  report.steps(plan_of(ticket, pattern.draft).operations, pattern.draft.notions);
  report.findings(findings);
  report.trace(pattern.draft.trace);
  return report.text();
}

std::string answer_json(const Ticket& ticket, const SlipAnswer& answer,
                        const SlipComparison& comparison, const Words& words) {
  Report report(ticket, words);
  report.root["token"] = token_text(answer.token);
  report.root["unit"] = id_of(answer.unit);
  report.root["note"] = answer.note;
  report.rows(comparison.rows);
  report.findings(comparison.findings);
  return report.text();
}

std::string lay_json(const LaidCoats& coats, const std::vector<LaidCloth>& cloths,
                     const Words& words) {
  const Ticket& ticket = *coats.front().ticket;
  Report report(ticket, words);
  report.coats(coats);
  report.lays(coats, cloths);
  report.to_buy(cloths, coats, ticket.unit);
  return report.text();
}

}  // namespace coatwright
