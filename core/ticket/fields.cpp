#include "core/ticket/fields.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/base/utf8.h"

namespace coatwright {

Problem at(std::string_view path, Code code, std::string_view other) {
  return {.code = code, .subject = std::string(path), .other = cleaned(other, 40)};
}

// One step further in a JSON pointer. A hostile file's key is shown clean and short.
std::string step(std::string_view path, std::string_view key) {
  std::string out = std::string(path) + "/";
  for (const char c : cleaned(key, 40)) {
    if (c == '~') {
      out += "~0";
    } else if (c == '/') {
      out += "~1";
    } else {
      out += c;
    }
  }
  return out;
}
std::string step(std::string_view path, size_t index) {
  return std::string(path) + "/" + std::to_string(index);
}

namespace {

// ---- the gate: what must hold before the file is built into a tree ---------------------------

// Walks the tokens once: is it JSON at all, not too deep, no key twice in one object.
class Gate final : public nlohmann::json_sax<Json> {
 public:
  explicit Gate(size_t most_depth) : most_depth_(most_depth) {}
  Wrong wrong;

  bool null() override { return true; }
  bool boolean(bool) override { return true; }
  bool number_integer(number_integer_t) override { return true; }
  bool number_unsigned(number_unsigned_t) override { return true; }
  bool number_float(number_float_t, const string_t&) override { return true; }
  bool string(string_t&) override { return true; }
  bool binary(binary_t&) override { return true; }
  bool start_object(size_t) override { return enter(); }
  bool start_array(size_t) override { return enter(); }
  bool end_object() override { return leave(); }
  bool end_array() override { return leave(); }
  bool key(string_t& key) override {
    if (open_.back().keys.insert(key).second) {
      open_.back().last = key;
      return true;
    }
    wrong = at(step(path(), key), Code::TicketFieldTwice);
    return false;
  }
  bool parse_error(size_t position, const std::string&,
                   const nlohmann::detail::exception& e) override {
    constexpr int kNumberOverflow = 406;  // 1e999: JSON, but no number
    wrong = e.id == kNumberOverflow
                ? at(here(), Code::TicketFieldType, "number")
                : Problem{.code = Code::TicketNotJson, .values = {static_cast<double>(position)}};
    return false;
  }

 private:
  struct Open {
    std::set<std::string> keys;
    std::string last;
  };
  // The pointer of the innermost open object; places in lists are left out, none of ours is deep.
  [[nodiscard]] std::string path() const {
    std::string out;
    for (size_t i = 0; i + 1 < open_.size(); ++i) {
      if (!open_[i].last.empty()) out = step(out, open_[i].last);
    }
    return out;
  }
  [[nodiscard]] std::string here() const {
    return open_.empty() || open_.back().last.empty() ? path() : step(path(), open_.back().last);
  }
  bool enter() {
    open_.emplace_back();
    if (open_.size() <= most_depth_) return true;
    wrong = at(path(), Code::TicketTooDeep);
    return false;
  }
  bool leave() {
    open_.pop_back();
    return true;
  }
  size_t most_depth_;
  std::vector<Open> open_;
};

Wrong broken_characters(std::string_view text) {
  for (size_t i = 0; i < text.size();) {
    const Character c = character_at(text, i);
    if (c.point == kNoCharacter) return at("", Code::TicketTextUnclean);
    i += c.bytes;
  }
  return std::nullopt;
}

}  // namespace

Result<Json> parse_json(std::string_view text, size_t most_depth) {
  if (Wrong wrong = broken_characters(text)) return *wrong;
  Gate gate(most_depth);
  if (!Json::sax_parse(text.begin(), text.end(), &gate)) return *gate.wrong;
  return Json::parse(text.begin(), text.end(), nullptr, false);
}

// ---- fields ------------------------------------------------------------------------------------

Wrong read_fields(const Json& json, const std::string& path, const std::vector<Field>& fields) {
  if (!json.is_object()) return at(path, Code::TicketFieldType, "object");
  for (const auto& [key, value] : json.items()) {
    const std::string& name = key;
    const auto field =
        std::find_if(fields.begin(), fields.end(), [&](const Field& f) { return f.key == name; });
    if (field == fields.end()) return at(step(path, key), Code::TicketFieldUnknown);
    if (Wrong wrong = field->read(value, step(path, key))) return wrong;
  }
  for (const Field& field : fields) {
    if (field.required && !json.contains(field.key)) {
      return at(step(path, field.key), Code::TicketFieldMissing);
    }
  }
  return std::nullopt;
}

Wrong read_text(const Json& json, const std::string& path, size_t most, bool lines,
                std::string& out) {
  if (!json.is_string()) return at(path, Code::TicketFieldType, "text");
  const std::string& text = json.get_ref<const std::string&>();
  const size_t characters = count_characters(text);
  if (characters > most) {
    return Problem{.code = Code::TicketTextTooLong,
                   .subject = path,
                   .values = {static_cast<double>(characters), static_cast<double>(most)}};
  }
  if (!is_clean(text, lines)) return at(path, Code::TicketTextUnclean);
  out = text;
  return std::nullopt;
}

Wrong read_number(const Json& json, const std::string& path, double lowest, double highest,
                  double& out) {
  if (!json.is_number()) return at(path, Code::TicketFieldType, "number");
  const double number = json.get<double>();
  if (!(number >= lowest && number <= highest)) {
    return Problem{
        .code = Code::NumberOutOfRange, .subject = path, .values = {number, lowest, highest}};
  }
  out = number;
  return std::nullopt;
}

Wrong read_count(const Json& json, const std::string& path, int lowest, int highest, int& out) {
  double count = 0.0;
  if (Wrong wrong = read_number(json, path, lowest, highest, count)) return wrong;
  if (count != std::floor(count)) return at(path, Code::TicketFieldType, "count");
  out = static_cast<int>(count);
  return std::nullopt;
}

Wrong read_ticket_id(const Json& json, const std::string& path, std::string& out) {
  if (!json.is_string()) return at(path, Code::TicketFieldType, "text");
  out = json.get_ref<const std::string&>();
  if (is_ticket_id(out)) return std::nullopt;
  return at(path, Code::TicketChoiceUnknown, out);
}

bool is_piece_id(const std::string& text) {
  constexpr size_t kMost = 32;
  constexpr std::string_view kSigns = "abcdefghijklmnopqrstuvwxyz0123456789.-";
  return !text.empty() && text.size() <= kMost &&
         text.find_first_not_of(kSigns) == std::string::npos;
}

Wrong read_piece_id(const Json& json, const std::string& path, std::string& out) {
  if (!json.is_string()) return at(path, Code::TicketFieldType, "text");
  out = json.get_ref<const std::string&>();
  if (is_piece_id(out)) return std::nullopt;
  return at(path, Code::TicketFieldType, "id");
}

Wrong read_flag(const Json& json, const std::string& path, bool& out) {
  if (!json.is_boolean()) return at(path, Code::TicketFieldType, "flag");
  out = json.get<bool>();
  return std::nullopt;
}

}  // namespace coatwright
