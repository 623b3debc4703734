// Which of several windows on one folder writes there. One holds the pen, a lock on a file of the
// folder that ends with its program whatever happens to it; the others follow, and the next one gets
// it when it is free, or when it asks.
#pragma once

#include <chrono>
#include <filesystem>
#include <optional>

namespace coatwright::studio {

class FolderPen {
 public:
  // Takes it if it is free. Where there can be no lock, this window writes, as if it were alone.
  explicit FolderPen(std::filesystem::path folder);
  ~FolderPen();
  FolderPen(const FolderPen&) = delete;
  FolderPen& operator=(const FolderPen&) = delete;

  [[nodiscard]] bool held() const { return held_; }
  enum class News {
    None,
    Gained,  // it has come to this window
    Asked,   // another window asks for it: give() it once everything is kept
  };
  [[nodiscard]] News look();
  void ask();
  void give();
  // Whether the folder was changed since this was asked last.
  [[nodiscard]] bool changed();

 private:
  using Clock = std::filesystem::file_time_type::clock;
  [[nodiscard]] bool lock();
  [[nodiscard]] bool another_asks() const;

  std::filesystem::path folder_;
  int file_ = -1;
  bool held_ = false, asks_ = false;
  Clock::time_point asked_{};
  std::optional<std::filesystem::file_time_type> seen_;
};

}  // namespace coatwright::studio
