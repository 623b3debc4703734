// The rack in a folder, for the native window: one file a ticket, its card in the first line and
// its history below. A change writes the whole file under another name and puts that in its place,
// so that after a crash either the old file is there or the new one.
#pragma once

#include <filesystem>
#include <string>

#include "shell/rack/keep.h"
#include "shell/rack/keeping.h"

namespace coatwright::studio {

class FolderStore {
 public:
  // Made if it is not there.
  explicit FolderStore(std::filesystem::path folder);

  [[nodiscard]] Stored read() const;
  [[nodiscard]] std::string history(const std::string& id) const;
  // ForGood; or why it could not be kept: what was there is there still. Lost: the folder was taken
  // away. It is made again, but holds nothing, and what was to be kept is not in it.
  [[nodiscard]] Kept keep(const Keep& keep);

  // Small texts beside the rack: "mark" and "half" of Stored. Kept as well as can be.
  void keep_beside(const std::string& name, const std::string& text) const;

 private:
  [[nodiscard]] std::filesystem::path file(const std::string& id) const;

  std::filesystem::path folder_;  // of the user: holds what earlier versions kept
  std::filesystem::path rack_;
};

// Whole files; an unreadable one is empty. What is written is on the disk when it is answered: 0, or
// the system's error (errno).
[[nodiscard]] std::string read_file(const std::filesystem::path& path);
[[nodiscard]] int write_file(const std::filesystem::path& path, const std::string& bytes);

}  // namespace coatwright::studio
