#include "core/rack/backup.h"

#include <algorithm>

#include "core/fit/photograph.h"
#include "core/rack/card_fields.h"

namespace coatwright {

namespace {

constexpr std::string_view kVersionKey = "coatwright-rack";
constexpr std::string_view kTicketsKey = "tickets";
constexpr std::string_view kSavedKey = "saved";
constexpr std::string_view kShelfKey = "shelf";
constexpr std::string_view kPrintersKey = "printers";
constexpr std::string_view kUsualKey = "usual";
constexpr std::string_view kSizesKey = "sizes";
constexpr std::string_view kPhotosKey = "photographs";
constexpr std::string_view kBlanks = " \t\r\n";
constexpr size_t kHeadBytes = 64;  // the version key stands at the head of every backup
// A card as somebody's editor may have laid it out anew; more than any photograph's line.
constexpr size_t kMostSpan = 4 * kMostCardBytes;
// Of a file with more of them than this, nothing more is tried.
constexpr size_t kMostDamaged = 1000;
constexpr auto kNowhere = std::string_view::npos;

Wrong read_version(const Json& json, const std::string& path) {
  double version = 0.0;
  if (Wrong wrong = read_number(json, path, 1.0, 1e9, version)) return wrong;
  if (version == kBackupVersion) return std::nullopt;
  return Problem{Code::RackFromFuture, path, {version, static_cast<double>(kBackupVersion)}};
}

Wrong read_jpeg(const Json& json, const std::string& path, std::string& out) {
  constexpr std::string_view kSigns =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/=";
  if (!json.is_string()) return at(path, Code::TicketFieldType, "text");
  out = json.get_ref<const std::string&>();
  const bool sound = !out.empty() && out.size() <= kMostPhotoText && out.size() % 4 == 0 &&
                     out.find_first_not_of(kSigns) == std::string::npos;
  return sound ? Wrong() : at(path, Code::TicketFieldType, "photograph");
}

Wrong read_photo(const Json& json, const std::string& path, KeptPhoto& out) {
  using P = const std::string&;
  return read_fields(
      json, path,
      {
          {"ticket", [&](const Json& v, P p) { return read_ticket_id(v, p, out.ticket); }, true},
          {"id", [&](const Json& v, P p) { return read_ticket_id(v, p, out.id); }, true},
          {"jpeg", [&](const Json& v, P p) { return read_jpeg(v, p, out.jpeg); }, true},
      });
}

std::string photo_line(const KeptPhoto& photo) {
  return "\n{\"ticket\": \"" + photo.ticket + "\", \"id\": \"" + photo.id + "\", \"jpeg\": \"" +
         photo.jpeg + "\"}";
}

// Where the string that begins at `at` ends: behind its quote.
size_t end_of_string(std::string_view text, size_t at) {
  for (size_t i = at + 1; i < text.size(); ++i) {
    if (text[i] == '\\') {
      ++i;
    } else if (text[i] == '"') {
      return i + 1;
    }
  }
  return kNowhere;
}

// Where the value that begins at `at` ends, if it is JSON; what lies in it is the parser's affair.
// Nowhere, if the text ends before.
size_t end_of_value(std::string_view text, size_t at) {
  if (at >= text.size()) return kNowhere;
  if (text[at] == '"') return end_of_string(text, at);
  if (text[at] != '{' && text[at] != '[') return text.find_first_of(",]}\t\r\n ", at);
  size_t open = 0;
  for (size_t i = at; i < text.size();) {
    const char c = text[i];
    if (c == '"') {
      i = end_of_string(text, i);
      continue;
    }
    if (c == '{' || c == '[') ++open;
    if ((c == '}' || c == ']') && --open == 0) return i + 1;
    ++i;
  }
  return kNowhere;
}

}  // namespace

// ---- writing -----------------------------------------------------------------------------------

BackupWriter::BackupWriter(UnixMs now, const RackNotes& notes, size_t most_bytes)
    : head_("{\"" + std::string(kVersionKey) + "\": " + std::to_string(kBackupVersion) + ", \"" +
            std::string(kSavedKey) + "\": " + std::to_string(now) + ", \"" +
            std::string(kTicketsKey) + "\": ["),
      most_bytes_(most_bytes) {
  const auto add_beside = [this](std::string_view key, const OrderedJson& json) {
    tail_ += ", \"" + std::string(key) +
             "\": " + json.dump(-1, ' ', false, OrderedJson::error_handler_t::replace);
  };
  if (!notes.shelf.empty()) add_beside(kShelfKey, shelf_json(notes.shelf));
  if (!notes.printers.empty()) add_beside(kPrintersKey, printers_json(notes.printers));
  if (notes.usual) add_beside(kUsualKey, usual_json(*notes.usual));
  if (notes.sizes != SizesWanted{}) add_beside(kSizesKey, sizes_json(notes.sizes));
  tail_ += "}\n";
  begin();
}

void BackupWriter::begin() {
  files_.push_back(head_);
  empty_ = true;
}

void BackupWriter::end() {
  files_.back() += "\n]";
  if (!photos_.empty()) {
    files_.back() += ", \"" + std::string(kPhotosKey) + "\": [" + photos_ + "\n]";
  }
  photos_.clear();
  files_.back() += tail_;
}

void BackupWriter::add(const Card& card, const std::vector<KeptPhoto>& photos) {
  const std::string line = write_card(card);
  std::string more;
  for (const KeptPhoto& photo : photos) more += (more.empty() ? "" : ",") + photo_line(photo);
  constexpr size_t kBetween = 64;  // commas, line ends, and the photographs' brackets
  const size_t together = files_.back().size() + photos_.size() + tail_.size() + kBetween;
  if (!empty_ && together + line.size() + more.size() > most_bytes_) {
    end();
    begin();
  }
  files_.back() += empty_ ? "\n" : ",\n";
  files_.back() += line;
  if (!more.empty()) photos_ += (photos_.empty() ? "" : ",") + more;
  empty_ = false;
}

std::vector<std::string> BackupWriter::finish() && {
  end();
  return std::move(files_);
}

std::vector<std::string> write_backup(const std::vector<Card>& cards, UnixMs now,
                                      const RackNotes& notes) {
  BackupWriter writer(now, notes);
  for (const Card& card : cards) writer.add(card);
  return std::move(writer).finish();
}

// ---- reading -----------------------------------------------------------------------------------

bool looks_like_backup(std::string_view json) {
  const std::string key = "\"" + std::string(kVersionKey) + "\"";
  return json.substr(0, kHeadBytes).find(key) != std::string_view::npos;
}

BackupReader::BackupReader(std::string json) : text_(std::move(json)) {}

double BackupReader::part() const {
  return text_.empty() ? 1.0 : static_cast<double>(at_) / static_cast<double>(text_.size());
}

bool BackupReader::fail(Problem problem) {
  problem_ = std::move(problem);
  where_ = Where::End;
  return false;
}

bool BackupReader::leave_out(Problem problem) {
  ++backup_.unreadable;
  if (!backup_.why) backup_.why = std::move(problem);
  return true;
}

bool BackupReader::cut_short() {
  backup_.cut_short = true;
  where_ = Where::End;
  return false;
}

void BackupReader::skip_blanks() {
  at_ = std::min(text_.find_first_not_of(kBlanks, at_), text_.size());
}

bool BackupReader::skip(char sign) {
  skip_blanks();
  if (at_ >= text_.size() || text_[at_] != sign) return false;
  ++at_;
  return true;
}

bool BackupReader::knows(std::string_view key) const {
  return std::find(keys_.begin(), keys_.end(), key) != keys_.end();
}

bool BackupReader::read_on() {
  switch (where_) {
    case Where::Start:
      if (text_.size() > kMostBackupBytes) {
        return fail(
            {.code = Code::RackTooLarge,
             .values = {static_cast<double>(text_.size()), static_cast<double>(kMostBackupBytes)}});
      }
      if (text_.find_first_not_of(kBlanks) == std::string::npos) {
        return fail({.code = Code::TicketNotJson, .values = {0.0}});
      }
      if (!skip('{')) return fail(at("", Code::RackNotRack));
      where_ = Where::Members;
      return true;
    case Where::Members:
      return read_member();
    case Where::Tickets:
    case Where::Photos:
      return read_item_here();
    case Where::End:
      return false;
  }
  return false;
}

// A key and its value, or the end of it all.
bool BackupReader::read_member() {
  const auto broken = [&] {
    // What stands before the tickets is needed to read them; behind them, they are had already.
    if (knows(kTicketsKey)) return cut_short();
    return fail({.code = Code::TicketNotJson, .values = {static_cast<double>(at_)}});
  };
  if (skip('}')) {
    skip_blanks();
    if (at_ < text_.size()) return broken();
    where_ = Where::End;
    for (const std::string_view key : {kVersionKey, kSavedKey, kTicketsKey}) {
      if (knows(key)) continue;
      return fail(key == kVersionKey ? at("", Code::RackNotRack)
                                     : at(step("", key), Code::TicketFieldMissing));
    }
    return false;
  }
  if (!keys_.empty() && !skip(',')) return broken();
  skip_blanks();
  if (at_ >= text_.size() || text_[at_] != '"') return broken();
  const std::string_view text = text_;
  const size_t end = end_of_string(text, at_);
  if (end == kNowhere) return broken();
  const Result<Json> key = parse_json(text.substr(at_, end - at_), 1);
  if (!key) return fail(key.problem());
  const std::string& name = key->get_ref<const std::string&>();
  at_ = end;
  if (!skip(':')) return broken();
  skip_blanks();
  if (knows(name)) return fail(at(step("", name), Code::TicketFieldTwice));
  // First the version: a later one may have fields that this one lacks.
  if (name != kVersionKey && !knows(kVersionKey)) return fail(at("", Code::RackNotRack));
  keys_.push_back(name);
  if (name == kTicketsKey || name == kPhotosKey) {
    if (!skip('[')) return fail(at(step("", name), Code::TicketFieldType, "list"));
    where_ = name == kTicketsKey ? Where::Tickets : Where::Photos;
    items_ = 0;
    damaged_at_ = kNowhere;
    return true;
  }
  const size_t behind = end_of_value(text, at_);
  const size_t from = std::exchange(at_, std::min(behind, text.size()));
  if (behind == kNowhere && knows(kTicketsKey)) return cut_short();
  return read_value(name, text.substr(from, at_ - from));
}

bool BackupReader::read_value(const std::string& key, std::string_view value) {
  const std::string path = step("", key);
  const Result<Json> json = parse_json(value, kMostCardDepth);
  // The tickets can be had without it.
  const auto beside = [&]<class T>(Wrong (*read)(const Json&, const std::string&, T&), auto& into) {
    T one;
    if (const Wrong wrong = read(*json, path, one)) return leave_out(*wrong);
    into = std::move(one);
    return true;
  };
  Wrong wrong;
  if (!json) {
    wrong = json.problem();
  } else if (key == kVersionKey) {
    wrong = read_version(*json, path);
  } else if (key == kSavedKey) {
    wrong = read_time(*json, path, backup_.saved);
  } else if (key == kShelfKey) {
    return beside(read_shelf, backup_.shelf);
  } else if (key == kPrintersKey) {
    return beside(read_printers, backup_.printers);
  } else if (key == kUsualKey) {
    return beside(read_usual, backup_.usual);
  } else if (key == kSizesKey) {
    return beside(read_sizes, backup_.sizes);
  } else {
    wrong = at(path, Code::TicketFieldUnknown);
  }
  return wrong ? fail(*wrong) : true;
}

// Nobody would ever see one that no ticket of the file has.
void BackupReader::check_photos() {
  std::vector<std::string> known;
  for (const Card& card : backup_.cards) {
    for (const std::string& id : photographs_of(card.ticket.fittings))
      known.push_back(card.id + id);
  }
  std::sort(known.begin(), known.end());
  const auto strange = [&](const KeptPhoto& p) {
    return !std::binary_search(known.begin(), known.end(), p.ticket + p.id);
  };
  for (size_t left = std::erase_if(backup_.photos, strange); left > 0; --left) {
    (void)leave_out(at(step("", kPhotosKey), Code::TicketFieldUnknown));
  }
}

// One of the tickets or photographs, or the end of their list.
bool BackupReader::read_item_here() {
  const std::string_view list = where_ == Where::Tickets ? kTicketsKey : kPhotosKey;
  const bool alone = items_ == 0 || damaged_at_ == at_;  // no comma before it
  if (skip(']')) {
    where_ = Where::Members;
    return true;
  }
  const std::string_view text = text_;
  const size_t line = at_;  // where to look for the next one, if this is none
  const bool sound = alone || skip(',');
  skip_blanks();
  if (at_ >= text.size()) return cut_short();
  const std::string path = step(step("", list), items_++);
  const size_t length = end_of_value(text.substr(at_, kMostSpan), 0);
  if (sound && length != kNowhere && length > 0) {
    const Result<Json> json = parse_json(text.substr(at_, length), kMostCardDepth);
    if (json) {
      at_ += length;
      if (list == kPhotosKey) {
        KeptPhoto photo;
        if (const Wrong wrong = read_photo(*json, path, photo)) return leave_out(*wrong);
        backup_.photos.push_back(std::move(photo));
        return true;
      }
      Result<Card> card = read_card(*json, path);
      if (!card) return leave_out(card.problem());
      backup_.cards.push_back(std::move(card.value()));
      return true;
    }
    // Sound JSON that no item may have; of anything else nobody knows where it ends.
    const std::string_view span = text.substr(at_, length);
    if (Json::accept(span.begin(), span.end())) {
      at_ += length;
      Problem why = json.problem();
      why.subject = path + why.subject;
      return leave_out(std::move(why));
    }
  }
  // No JSON: the ticket is lost, but not those on the lines behind it.
  const size_t end = text.find('\n', at_);
  if (end == kNowhere || ++damaged_ > kMostDamaged) return cut_short();
  at_ = damaged_at_ = end + 1;
  return leave_out(
      {.code = Code::TicketNotJson, .subject = path, .values = {static_cast<double>(line)}});
}

Result<Backup> BackupReader::result() && {
  if (problem_) return *problem_;
  check_photos();
  return std::move(backup_);
}

Result<Backup> read_backup(std::string_view json) {
  BackupReader reader{std::string(json)};
  while (reader.read_on()) {
  }
  return std::move(reader).result();
}

// ---- putting back ------------------------------------------------------------------------------

namespace {

// The card with the slips of another that it does not know; nothing if it knows them all.
std::optional<Card> with_slips_of(const Card& card, const Card& other) {
  std::optional<Card> out;
  for (const MadeSlip& slip : other.slips) {
    if (slip_of(out ? *out : card, slip.token) == nullptr) out = with_slip(out ? *out : card, slip);
  }
  return out;
}

}  // namespace

PutBack put_back(const Rail& rail, const Ticket& example, const Card& card) {
  const Card* mine = rail.find(card.id);
  const Card* twin =
      mine != nullptr && mine->ticket == card.ticket ? mine : rail.alike(card.ticket);
  if (twin != nullptr) {
    if (twin->place != Place::Bin || card.place == Place::Bin) {
      return {Fate::There, with_slips_of(*twin, card)};
    }
    Card back = *twin;
    back.place = card.place;
    return {Fate::Hung, std::move(back)};
  }
  if (mine == nullptr || mine->ticket == example) return {Fate::Hung, card};
  if (card.ticket == example) return {Fate::Example, std::nullopt};
  return {Fate::Differs, std::nullopt};
}

TicketDifference difference_of(const Ticket& a, const Ticket& b) {
  TicketDifference out;
  out.dog = a.dog != b.dog;
  out.name = a.name != b.name;
  out.notes = a.notes != b.notes;
  for (const MeasureInfo& measure : measure_table()) {
    if (a.of(measure.measure) != b.of(measure.measure)) out.measures.push_back(measure.measure);
  }
  out.coat = a.style != b.style || a.choices != b.choices;
  Ticket rest = a;
  rest.dog = b.dog;
  rest.name = b.name;
  rest.notes = b.notes;
  rest.readings = b.readings;
  rest.style = b.style;
  rest.choices = b.choices;
  out.other = rest != b;
  return out;
}

}  // namespace coatwright
