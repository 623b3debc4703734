#include "shell/rack/folder_pen.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <utility>

namespace coatwright::studio {

namespace fs = std::filesystem;
using namespace std::chrono_literals;

namespace {

constexpr char kLock[] = "pen", kAsked[] = "pen.asked";
// Who does not answer for so long is not there, or hangs.
constexpr auto kPatience = 10s;
// Two changes may fall into one tick of the file system's clock.
constexpr auto kTick = 100ms;

}  // namespace

FolderPen::FolderPen(fs::path folder) : folder_(std::move(folder)) { held_ = lock(); }

FolderPen::~FolderPen() {
  std::error_code error;
  if (asks_) fs::remove(folder_ / kAsked, error);
  if (file_ >= 0) close(file_);
}

bool FolderPen::lock() {
  if (file_ < 0) file_ = open((folder_ / kLock).c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0644);
  if (file_ < 0) return true;
  return flock(file_, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK;
}

bool FolderPen::another_asks() const {
  std::error_code error;
  const auto written = fs::last_write_time(folder_ / kAsked, error);
  return !error && !asks_ && Clock::now() - written < kPatience;
}

FolderPen::News FolderPen::look() {
  std::error_code error;
  if (held_) {
    if (!fs::exists(folder_ / kLock, error) && file_ >= 0) {  // the folder was taken away
      close(file_);
      file_ = -1;
      held_ = lock();
    }
    return another_asks() ? News::Asked : News::None;
  }
  if (another_asks()) return News::None;
  held_ = lock();
  if (asks_ && (held_ || Clock::now() - asked_ > kPatience)) {
    asks_ = false;
    fs::remove(folder_ / kAsked, error);
  }
  return held_ ? News::Gained : News::None;
}

void FolderPen::ask() {
  if (held_) return;
  asks_ = true;
  asked_ = Clock::now();
  std::ofstream(folder_ / kAsked) << "";
}

void FolderPen::give() {
  if (file_ >= 0) flock(file_, LOCK_UN);
  held_ = false;
}

bool FolderPen::changed() {
  std::error_code error;
  const auto now = fs::last_write_time(folder_, error);
  if (error) return false;
  const bool news = seen_ != now;
  if (Clock::now() - now > kTick) {
    seen_ = now;
  } else {
    seen_.reset();
  }
  return news;
}

}  // namespace coatwright::studio
