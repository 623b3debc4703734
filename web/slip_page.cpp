// The slip page's program: reads the link, judges readings by the studio's own rules and words, and
// writes what goes back. The page (slip.js) holds no rule, no number and no word of its own.
//
// A call reads the text that the page put at slip_input(bytes) and leaves its answer at
// slip_output(): records that end with U+001E, of fields that end with U+001F. Both are control characters, which
// no text of a slip has. The first record of an answer is "ok", or "problem" and a sentence.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/words.h"
#include "core/body/assess.h"
#include "core/body/estimates.h"
#include "core/body/side_view.h"
#include "core/draft/styles/style.h"
#include "core/slip/code.h"
#include "core/slip/other_unit.h"
#include "core/slip/slip.h"
#include "core/units/unbroken.h"
#include "shell/kit/qr.h"
#include "shell/words/say.h"
#include "web/slip_words.h"

namespace coatwright {

// A slip has no choices of a coat, so that the whole drafting behind them stays out of its program:
// this takes the place of core/draft/styles/style.cpp.
const ChoiceInfo* choice_by_id(std::string_view) { return nullptr; }

namespace {

constexpr char kEndOfField = '\x1F';
constexpr char kEndOfRecord = '\x1E';

struct Page {
  Words words = Words::parse(slip_words_text());
  SlipRequest request;
  std::string input, output;
};
Page& page() {
  static Page the_page;
  return the_page;
}

// ---- records -----------------------------------------------------------------------------------

using Record = std::vector<std::string>;

void put(const Record& fields) {
  for (const std::string& field : fields) page().output += field + kEndOfField;
  page().output += kEndOfRecord;
}

std::string_view cut_off(std::string_view& text, char end) {
  const size_t at = std::min(text.find(end), text.size());
  const std::string_view part = text.substr(0, at);
  text.remove_prefix(std::min(at + 1, text.size()));
  return part;
}

std::vector<Record> records(std::string_view text) {
  std::vector<Record> out;
  while (!text.empty()) {
    std::string_view line = cut_off(text, kEndOfRecord);
    Record record;
    while (!line.empty()) record.emplace_back(cut_off(line, kEndOfField));
    if (!record.empty()) out.push_back(std::move(record));
  }
  return out;
}

// To a sixteenth: the middle of two readings that are an eighth apart.
LengthStyle style(Unit unit) { return {.unit = unit, .steps_per_inch = 16}; }

std::string sentence(const Problem& problem, Unit unit) {
  return unbroken(say(problem, page().words, style(unit)));
}

void refuse(const Problem& problem, Unit unit = Unit::Inch, const std::string& further = "") {
  page().output.clear();
  put({"problem", sentence(problem, unit) + further});
}

const char* unit_id(Unit unit) { return unit == Unit::Inch ? "in" : "cm"; }
const char* way_id(SlipWay way) {
  return way == SlipWay::Mail ? "mail" : way == SlipWay::Phone ? "phone" : "any";
}

// ---- readings ----------------------------------------------------------------------------------

// What the page sends: "unit" id, "note" text, and for each measure its id and what was typed,
// empty fields among it.
SlipAnswer answer_in(const std::vector<Record>& sent) {
  SlipAnswer answer;
  answer.token = page().request.token;
  for (const Record& record : sent) {
    if (record.size() < 2) continue;
    if (record[0] == "unit") answer.unit = record[1] == "cm" ? Unit::Centimetre : Unit::Inch;
    if (record[0] == "note") answer.note = record[1];
    const auto measure = measure_by_id(record[0]);
    if (!measure) continue;
    for (size_t i = 1; i < record.size(); ++i) {
      if (!record[i].empty()) answer.of(*measure).push_back(record[i]);
    }
  }
  return answer;
}

std::vector<std::string> as_typed(const SlipAnswer& answer, const MeasureInfo& m) {
  std::vector<std::string> record = {m.id};
  record.insert(record.end(), answer.of(m.measure).begin(), answer.of(m.measure).end());
  return record;
}

bool can_be_read(const SlipAnswer& answer) {
  for (const MeasureInfo& m : measure_table()) {
    for (const std::string& typed : answer.of(m.measure)) {
      if (!reading_value(typed, m.measure, answer.unit)) return false;
    }
  }
  return true;
}

void note(std::string_view measure, const char* level, const std::string& words) {
  put({"note", std::string(measure), level, words});
}

// What can be read.
Tape tape_in(const SlipAnswer& answer) {
  Tape tape;
  tape.build = page().request.build;
  for (const MeasureInfo& m : measure_table()) {
    for (const std::string& typed : answer.of(m.measure)) {
      const Result<double> value = reading_value(typed, m.measure, answer.unit);
      if (value) tape.of(m.measure).push_back(*value);
    }
  }
  return tape;
}

// Each reading by itself.
void note_readings(const SlipAnswer& answer) {
  for (const MeasureInfo& m : measure_table()) {
    for (const std::string& typed : answer.of(m.measure)) {
      const Result<double> value = reading_value(typed, m.measure, answer.unit);
      if (!value) {
        note(m.id, "wrong", sentence(value.problem(), answer.unit));
      } else if (*value < m.lowest || *value > m.highest) {
        note(m.id, "wrong",
             sentence({Code::ReadingOutOfRange, m.id, {*value, m.lowest, m.highest}, {}},
                      answer.unit));
      }
    }
  }
}

// Said of both measures that do not go together.
void note_finding(const Problem& what, const char* level, Unit unit) {
  const std::string words = sentence(what, unit);
  note(what.subject, level, words);
  if (measure_by_id(what.other)) note(what.other, level, words);
}

void note_plausibility(const Tape& tape, Unit unit) {
  const Checked<Body> body = assess(tape);
  for (const Finding& finding : body.findings) {
    if (finding.level != Level::Note) note_finding(finding.what, "check", unit);
  }
  if (!body.result && body.result.problem().code != Code::ReadingMissing) {
    note_finding(body.result.problem(), "wrong", unit);
  }
}

// What is well: once measured, or twice and near enough.
void note_progress(const Tape& tape, Unit unit) {
  for (const MeasureInfo& m : measure_table()) {
    const size_t count = tape.of(m.measure).size();
    if (count == 0) continue;
    const double value = value_of(tape.of(m.measure)).value;
    const std::string text = unbroken(m.is_weight ? format_weight(value, unit)
                                                  : format_length(Length::mm(value), style(unit)));
    put({"value", m.id, text});
    if (count == 1) note(m.id, "once", page().words("slip.once"));
    if (count > 1) note(m.id, "good", page().words("slip.good", {text}));
  }
}

// ---- what goes back ----------------------------------------------------------------------------

// For people: one line a measure, as typed.
std::string lines_of(const SlipAnswer& answer) {
  const Words& words = page().words;
  const std::string& dog = page().request.dog;
  std::string out = dog.empty() ? words("slip.message") : words("slip.message-dog", {dog});
  for (const MeasureInfo& m : measure_table()) {
    if (answer.of(m.measure).empty()) continue;
    std::string readings;
    for (const std::string& typed : answer.of(m.measure)) {
      if (!readings.empty()) readings += "; ";
      readings += reading_with_unit(typed, m.measure, answer.unit);
    }
    out += "\n" + words("slip.message-line", {name_of(m.id, words), readings});
  }
  if (!answer.note.empty()) out += "\n" + answer.note;
  return out;
}

// ---- the drawing -------------------------------------------------------------------------------

void append_point(std::string& out, Point p) {
  out += std::to_string(std::lround(p.x)) + " " + std::to_string(std::lround(p.y)) + " ";
}

std::string path_text(const Path& path, bool closed) {
  if (path.empty()) return "";
  std::string out = "M";
  append_point(out, path.front());
  for (const Cubic& c : path.cubics) {
    out += "C";
    for (const Point p : {c.p1, c.p2, c.p3}) append_point(out, p);
  }
  if (closed) out += "Z";
  return out;
}

const char* part_id(SidePart part) {
  switch (part) {
    case SidePart::FarLegs:
      return "far";
    case SidePart::Tail:
    case SidePart::Body:
      return "body";
    case SidePart::Crease:
      return "crease";
    case SidePart::Ear:
      return "ear";
    case SidePart::Eye:
    case SidePart::Nose:
      return "dark";
    case SidePart::Glint:
      return "glint";
  }
  return "";
}

// The weight has no tape: a scale under the feet shows what is meant.
void put_scale(const Rect& bounds) {
  const double middle = 0.5 * (bounds.x0 + bounds.x1);
  const double half = 0.42 * bounds.width();
  const Path scale = {{straight({middle - half, 12.0}, {middle + half, 12.0})}};
  put({"tape", info(Measure::Weight).id, path_text(scale, false)});
}

}  // namespace
}  // namespace coatwright

using namespace coatwright;

extern "C" {

// Room for exactly `size` bytes. Null for more than any message has, and the sentence that says so
// is at slip_output().
__attribute__((export_name("slip_input"))) char* slip_input(int size) {
  if (size < 0 || static_cast<size_t>(size) > kMostMessageBytes) {
    page().input.clear();
    refuse({.code = Code::SlipTooLarge,
            .values = {static_cast<double>(size), static_cast<double>(kMostMessageBytes)}});
    return nullptr;
  }
  page().input.assign(static_cast<size_t>(size), '\0');
  return page().input.data();
}
__attribute__((export_name("slip_output"))) const char* slip_output() {
  return page().output.data();
}
__attribute__((export_name("slip_output_size"))) int slip_output_size() {
  return static_cast<int>(page().output.size());
}

// The page's own words: key and words.
__attribute__((export_name("slip_words"))) void slip_words() {
  page().output.clear();
  put({"ok"});
  for (const std::string& key : page().words.keys()) {
    const std::string group = key.substr(0, key.find('.'));
    if (group == "slip" || group == "caution") put({key, page().words(key)});
  }
}

// What the page's fields may hold: characters of the
// note, characters of a reading, readings of a measure.
__attribute__((export_name("slip_limits"))) void slip_limits() {
  page().output.clear();
  put({"ok"});
  put({"note", std::to_string(kMostAnswerNote)});
  put({"reading", std::to_string(kMostSlipReading)});
  put({"readings", std::to_string(kMostReadings)});
}

// A text with a request: unit, studio, dog, note, way, address, token; then the measures in order.
__attribute__((export_name("slip_open"))) void slip_open() {
  const Result<SlipRequest> read = read_request(page().input);
  if (!read) return refuse(read.problem());
  page().request = *read;
  page().output.clear();
  const Words& words = page().words;
  put({"ok", unit_id(read->unit), read->studio, read->dog, read->note, way_id(read->back.way),
       read->back.address, token_text(read->token)});
  for (const MeasureInfo& m : measure_table()) {
    if (!read->asked[static_cast<size_t>(m.measure)]) continue;
    const std::string key = "measure." + std::string(m.id);
    put({"measure", m.id, words(key), words(key + ".tape"), m.is_weight ? "weight" : "length"});
  }
}

// Readings in, notes out: measure, level (wrong, check, once, good), words; and the value.
__attribute__((export_name("slip_look"))) void slip_look() {
  const SlipAnswer answer = answer_in(records(page().input));
  page().output.clear();
  put({"ok"});
  note_readings(answer);
  const Tape tape = tape_in(answer);
  note_plausibility(tape, answer.unit);
  note_progress(tape, answer.unit);
}

// Readings in, each with its unit out: before another unit is chosen.
__attribute__((export_name("slip_settle"))) void slip_settle() {
  const std::vector<Record> sent = records(page().input);
  const Unit unit = answer_in(sent).unit;
  page().output.clear();
  put({"ok"});
  for (Record record : sent) {
    const auto measure = measure_by_id(record[0]);
    if (!measure) continue;
    for (size_t i = 1; i < record.size(); ++i) {
      record[i] = reading_with_unit(record[i], *measure, unit);
    }
    put(record);
  }
}

// Readings in. Out come, if no dog has them and in the other unit they fit, that unit and the
// readings as they are meant in it; and what the dog weighs by its chest, if nobody weighed it.
__attribute__((export_name("slip_other_unit"))) void slip_other_unit() {
  const SlipAnswer answer = answer_in(records(page().input));
  page().output.clear();
  put({"ok"});
  Tape beside;
  beside.build = page().request.build;
  if (const auto other = in_other_unit(answer, beside)) {
    put({"unit", unit_id(other->unit)});
    for (const MeasureInfo& m : measure_table()) {
      if (!other->of(m.measure).empty()) put(as_typed(*other, m));
    }
  }
  const Tape tape = tape_in(answer);
  if (tape.of(Measure::Chest).empty() || !tape.of(Measure::Weight).empty()) return;
  const double chest = value_of(tape.of(Measure::Chest)).value;
  put({"weighs", unbroken(format_weight(weight_for_chest(chest), answer.unit))});
}

// Readings in, the code and the lines for people out.
__attribute__((export_name("slip_answer"))) void slip_answer() {
  const SlipAnswer answer = answer_in(records(page().input));
  const Result<std::string> code = write_answer(answer);
  if (!code) {
    const bool waits = !can_be_read(answer);
    return refuse(code.problem(), answer.unit, waits ? " " + page().words("slip.waits") : "");
  }
  page().output.clear();
  put({"ok", *code, lines_of(answer)});
}

// Shapes and tapes as SVG path data, mm; the first record has the box.
__attribute__((export_name("slip_drawing"))) void slip_drawing() {
  const Checked<Body> body = assess(ordinary_tape(page().request.build));
  if (!body.result) return refuse(body.result.problem());
  const SideView view = draw_side_view(*body.result);
  page().output.clear();
  const auto whole = [](double v) { return std::to_string(std::lround(v)); };
  put({"ok", whole(view.bounds.x0), whole(view.bounds.y0), whole(view.bounds.width()),
       whole(view.bounds.height())});
  for (const SideShape& shape : view.shapes) {
    put({"shape", part_id(shape.part), path_text(shape.path, shape.closed)});
  }
  for (const SideTape& tape : view.tapes) {
    put({"tape", info(tape.measure).id, path_text(tape.line, false)});
  }
  put_scale(view.bounds);
}

// A text as a QR code: modules a side, and one field of 0 and 1 for each row.
__attribute__((export_name("slip_qr"))) void slip_qr() {
  page().output.clear();
  const auto qr = qr_of(page().input);
  if (!qr) return put({"problem", page().words("slip.no-qr")});
  Record record = {"ok", std::to_string(qr->side)};
  for (int y = 0; y < qr->side; ++y) {
    std::string row;
    for (int x = 0; x < qr->side; ++x) row += qr->at(x, y) ? '1' : '0';
    record.push_back(row);
  }
  put(record);
}
}
