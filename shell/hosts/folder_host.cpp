#include "shell/hosts/folder_host.h"

#include "shell/desk/start.h"
#include "shell/words/studio_words.h"

namespace coatwright::studio {

FolderHost::FolderHost(const std::filesystem::path& folder, Today today)
    : store_(folder), pen_(folder / "rack") {
  Rack rack(outside(), demo_ticket());
  const Stored stored = store_.read();
  rack.hang(stored);
  app_ = std::make_unique<App>(studio_words(), std::move(rack), std::move(today), false);
  app_->know({.kept = Kept::ForGood});
  (void)pen_.changed();
  if (pen_.held()) {
    app_->resume(read_half(stored.half));
    store_.keep_beside("half", {});
  } else {
    app_->follow();
  }
}

// A folder that was taken away gets everything again, once.
void FolderHost::keep(const std::vector<Keep>& keeps, bool again) {
  if (keeps.empty()) return;
  Kept worst = Kept::ForGood;
  bool gone = false;
  for (const Keep& keep : keeps) {
    const Kept kept = store_.keep(keep);
    if (kept == Kept::ForGood) continue;
    app_->keep_failed(keep.id);
    gone = gone || kept == Kept::Lost;
    worst = kept;
  }
  if (gone && !again) {
    app_->join(store_.read());
    return keep(app_->take_keeps(), true);
  }
  store_.keep_beside("mark", app_->rack().mark());
  kept_ = worst;
  app_->know({.kept = worst});
}

void FolderHost::read_wanted() {
  if (const auto id = app_->take_wanted()) app_->history_read(*id, store_.history(*id));
}

void FolderHost::settle() {
  if (pen_.held()) keep(app_->take_keeps());
  read_wanted();
}

void FolderHost::look() {
  constexpr int kTryAgain = 10;  // looks
  const FolderPen::News news = pen_.look();
  if (news == FolderPen::News::Asked) {
    keep(app_->take_keeps(true));
    pen_.give();
    app_->follow();
  } else if (news == FolderPen::News::Gained || (!pen_.held() && pen_.changed())) {
    app_->hang(store_.read(), !pen_.held());
    read_wanted();
  }
  if (pen_.held() && in_memory_only(kept_) && ++looks_ >= kTryAgain) {
    looks_ = 0;
    app_->keep_again();
  }
}

void FolderHost::leave() {
  if (!pen_.held()) return;
  keep(app_->take_keeps(true));
  store_.keep_beside("half", app_->half_typed());
}

}  // namespace coatwright::studio
