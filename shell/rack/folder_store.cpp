#include "shell/rack/folder_store.h"

#include <algorithm>
#include <fstream>
#include <iterator>

#include "core/slip/slip.h"

namespace coatwright::studio {

namespace fs = std::filesystem;

namespace {

constexpr char kEnding[] = ".ticket";
constexpr char kNotes[] = "notes.json";
constexpr char kBefore[] = "journal.txt";  // of the version that kept one ticket

// Puts the bytes in the place of a file, all of them or none.
bool replace_file(const fs::path& path, const std::string& bytes) {
  fs::path fresh = path;
  fresh += ".new";
  std::error_code error;
  if (!write_file(fresh, bytes)) {
    fs::remove(fresh, error);
    return false;
  }
  fs::rename(fresh, path, error);
  return !error;
}

// A name in the folder that nothing has yet.
fs::path free_name(const fs::path& folder, const std::string& stem) {
  for (int n = 1;; ++n) {
    fs::path path = folder / (stem + "-" + std::to_string(n) + ".txt");
    if (!fs::exists(path)) return path;
  }
}

}  // namespace

std::string read_file(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

bool write_file(const fs::path& path, const std::string& bytes) {
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file << bytes;
  file.close();
  return static_cast<bool>(file);
}

FolderStore::FolderStore(fs::path folder) : folder_(std::move(folder)), rack_(folder_ / "rack") {
  std::error_code error;
  fs::create_directories(rack_, error);
}

fs::path FolderStore::file(const std::string& id) const { return rack_ / (id + kEnding); }

Stored FolderStore::read() const {
  Stored out{
      .notes = read_file(rack_ / kNotes), .cards = {}, .before = read_file(folder_ / kBefore)};
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(rack_, error)) {
    if (entry.path().extension() != kEnding) continue;
    const std::string text = read_file(entry.path());
    out.cards.push_back(text.substr(0, text.find('\n')));
  }
  std::sort(out.cards.begin(), out.cards.end());
  return out;
}

std::string FolderStore::history(const std::string& id) const {
  const std::string text = read_file(file(id));
  const size_t head = text.find('\n');
  return head == std::string::npos ? std::string() : text.substr(head + 1);
}

bool FolderStore::keep(const Keep& keep) {
  if (keep.id.empty()) return replace_file(rack_ / kNotes, keep.card);
  if (!token_from_text(keep.id)) return false;  // an id is a file's name here
  std::error_code error;
  if (keep.card.empty()) return fs::remove(file(keep.id), error), !error;
  if (!keep.aside.empty() && !write_file(free_name(rack_, "aside-" + keep.id), keep.aside))
    return false;
  std::string text = keep.card + "\n" + (keep.anew ? "" : history(keep.id));
  for (const std::string& line : keep.lines) text += line + "\n";
  if (!replace_file(file(keep.id), text)) return false;
  if (keep.moved) fs::rename(folder_ / kBefore, free_name(folder_, "journal-moved"), error);
  return true;
}

}  // namespace coatwright::studio
