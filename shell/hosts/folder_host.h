// The studio over a rack in a folder, without a screen: what its window keeps and reads there, and
// what other windows on the same folder do.
#pragma once

#include <filesystem>
#include <memory>

#include "shell/app/app.h"
#include "shell/rack/folder_pen.h"
#include "shell/rack/folder_store.h"

namespace coatwright::studio {

class FolderHost {
 public:
  FolderHost(const std::filesystem::path& folder, Today today);

  [[nodiscard]] App& app() { return *app_; }
  // After each frame: keeps what is to be kept, and reads the history that is wanted.
  void settle();
  // Every kLookMs, also at rest: takes its turn or gives it, shows what another window has changed,
  // and tries again what could not be kept.
  void look();
  void take_pen() { pen_.ask(); }
  // Everything that was typed is answered: keeps it before the window closes.
  void leave();

  static constexpr int kLookMs = 500;

 private:
  void keep(const std::vector<Keep>& keeps, bool again = false);
  void read_wanted();

  FolderStore store_;
  FolderPen pen_;
  std::unique_ptr<App> app_;
  Kept kept_ = Kept::ForGood;
  int looks_ = 0;  // since it was tried again
};

}  // namespace coatwright::studio
