#include "shell/rack/folder_store.h"

#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <fstream>
#include <iterator>

#include "core/slip/slip.h"

namespace coatwright::studio {

namespace fs = std::filesystem;

namespace {

constexpr char kEnding[] = ".ticket";
constexpr char kNotes[] = "notes.json";
constexpr char kBefore[] = "journal.txt";  // of the version that kept one ticket

// Puts the bytes in the place of a file, all of them or none; 0, or the system's error.
int replace_file(const fs::path& path, const std::string& bytes) {
  fs::path fresh = path;
  fresh += ".new";
  std::error_code error;
  if (const int fault = write_file(fresh, bytes); fault != 0) {
    fs::remove(fresh, error);
    return fault;
  }
  fs::rename(fresh, path, error);
  return error.value();
}

Kept kept_with(int fault) {
  if (fault == 0) return Kept::ForGood;
  return fault == ENOSPC || fault == EDQUOT ? Kept::Full : Kept::Failed;
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

int write_file(const fs::path& path, const std::string& bytes) {
  errno = 0;
  std::FILE* file = std::fopen(path.c_str(), "wb");
  if (file == nullptr) return errno;
  // A full disk may tell only when the bytes leave the program, or when they reach the disk.
  const bool written = std::fwrite(bytes.data(), 1, bytes.size(), file) == bytes.size() &&
                       std::fflush(file) == 0 && fsync(fileno(file)) == 0;
  const int fault = written ? 0 : errno;
  const bool closed = std::fclose(file) == 0;
  if (written && !closed) return errno;
  return written || fault != 0 ? fault : EIO;
}

FolderStore::FolderStore(fs::path folder) : folder_(std::move(folder)), rack_(folder_ / "rack") {
  std::error_code error;
  fs::create_directories(rack_, error);
}

fs::path FolderStore::file(const std::string& id) const { return rack_ / (id + kEnding); }

Stored FolderStore::read() const {
  Stored out{.notes = read_file(rack_ / kNotes),
             .cards = {},
             .before = read_file(folder_ / kBefore),
             .asides = {},
             .mark = read_file(folder_ / "mark.txt"),
             .half = read_file(folder_ / "half.txt")};
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(rack_, error)) {
    const std::string text = read_file(entry.path());
    if (entry.path().filename().string().starts_with("aside-")) out.asides.push_back(text);
    if (entry.path().extension() == kEnding) out.cards.push_back(text.substr(0, text.find('\n')));
  }
  std::sort(out.cards.begin(), out.cards.end());
  std::sort(out.asides.begin(), out.asides.end());
  return out;
}

std::string FolderStore::history(const std::string& id) const {
  const std::string text = read_file(file(id));
  const size_t head = text.find('\n');
  return head == std::string::npos ? std::string() : text.substr(head + 1);
}

Kept FolderStore::keep(const Keep& keep) {
  std::error_code error;
  if (!fs::exists(rack_, error)) {
    fs::create_directories(rack_, error);
    return Kept::Lost;
  }
  if (!keep.aside.empty()) {
    const std::string name = "aside-" + (keep.id.empty() ? "notes" : keep.id);
    const int fault = write_file(free_name(rack_, name), keep.aside);
    if (fault != 0) return kept_with(fault);
  }
  if (keep.id.empty()) return kept_with(replace_file(rack_ / kNotes, keep.card));
  if (!token_from_text(keep.id)) return Kept::Failed;  // an id is a file's name here
  // What is there and cannot be read is not written over.
  if (fs::exists(file(keep.id), error) && !std::ifstream(file(keep.id))) return Kept::Failed;
  if (keep.card.empty()) return fs::remove(file(keep.id), error), kept_with(error.value());
  std::string text = keep.card + "\n" + (keep.anew ? "" : history(keep.id));
  for (const std::string& line : keep.lines) text += line + "\n";
  const Kept kept = kept_with(replace_file(file(keep.id), text));
  if (kept == Kept::ForGood && keep.moved) {
    fs::rename(folder_ / kBefore, free_name(folder_, "journal-moved"), error);
  }
  return kept;
}

void FolderStore::keep_beside(const std::string& name, const std::string& text) const {
  std::error_code error;
  const fs::path path = folder_ / (name + ".txt");
  if (text.empty()) {
    fs::remove(path, error);
  } else {
    (void)replace_file(path, text);
  }
}

}  // namespace coatwright::studio
