// Two windows on one folder: one writes, the other follows.
#include "shell/hosts/folder_host.h"

#include <gtest/gtest.h>
#include <imgui.h>

#include <algorithm>
#include <fstream>
#include <thread>

#include "shell/kit/painter.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

namespace fs = std::filesystem;

class FolderHosts : public testing::Test {
 protected:
  void SetUp() override {
#ifdef __EMSCRIPTEN__
    GTEST_SKIP() << "no windows there, and no locks";
#endif
    folder_ =
        fs::temp_directory_path() /
        ("coatwright-hosts-" + std::to_string(testing::UnitTest::GetInstance()->random_seed()) +
         testing::UnitTest::GetInstance()->current_test_info()->name());
    fs::remove_all(folder_);
    ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;
    ImGui::GetIO().DisplaySize = {1180.0F, 820.0F};
    ImGui::GetIO().DeltaTime = 1.0F / 60.0F;
    load_type(1.0F);
  }
  void TearDown() override {
    if (ImGui::GetCurrentContext() != nullptr) ImGui::DestroyContext();
    fs::remove_all(folder_);
  }

  // Frames until the window wants no more, and its look at the folder.
  static void turn(FolderHost& host) {
    for (int n = 0; n < 200 && host.app().wants_frame(); ++n) {
      now_ms_ += 16.0;
      ImGui::NewFrame();
      (void)host.app().frame(now_ms_);
      ImGui::Render();
      host.settle();
      for (const Effect& effect : host.app().take_effects()) {
        if (std::holds_alternative<TakePen>(effect)) host.take_pen();
      }
    }
  }
  static void look(FolderHost& host) {
    std::this_thread::sleep_for(std::chrono::milliseconds(2));  // a tick of the file system's clock
    host.look();
    turn(host);
  }
  static void call_dog(FolderHost& host, const std::string& name) {
    host.app().enter("dog", name);
    turn(host);
  }
  static bool follows(FolderHost& host) {
    return host.app().ui().control("note.follows") != nullptr;
  }
  [[nodiscard]] FolderHost window() const {
    return FolderHost(folder_, Today{{2026, 11}, "2026-11-24"});
  }

  fs::path folder_;
  static inline double now_ms_ = 1000.0;
};

TEST_F(FolderHosts, TheSecondWindowFollowsTheFirstAndWritesWhenItIsAskedTo) {
  FolderHost first = window();
  FolderHost second = window();
  turn(first), turn(second);
  EXPECT_FALSE(follows(first));
  EXPECT_TRUE(follows(second));
  call_dog(first, "Hawser");
  look(second);
  EXPECT_EQ(second.app().ticket().dog, "Hawser");
  call_dog(second, "Capstan");
  EXPECT_EQ(second.app().ticket().dog, "Hawser") << "it may not write";
  look(first);
  EXPECT_EQ(first.app().ticket().dog, "Hawser");

  second.app().act("note.follows.action");
  turn(second);
  look(second);
  EXPECT_TRUE(follows(second)) << "the other one has not answered yet";
  first.app().enter("dog", "Bollard");  // typed, and on its way to the folder when it is asked
  turn(first);
  look(first);
  look(second);
  EXPECT_TRUE(follows(first));
  EXPECT_FALSE(follows(second));
  EXPECT_EQ(second.app().ticket().dog, "Bollard");
  call_dog(second, "Capstan");
  look(first);
  EXPECT_EQ(first.app().ticket().dog, "Capstan");
}

TEST_F(FolderHosts, AWindowThatIsGoneLeavesThePenToTheOneThatFollowed) {
  auto first = std::make_unique<FolderHost>(folder_, Today{{2026, 11}, "2026-11-24"});
  FolderHost second = window();
  turn(*first), turn(second);
  call_dog(*first, "Hawser");
  first.reset();  // killed: it leaves nothing behind
  look(second);
  EXPECT_FALSE(follows(second));
  call_dog(second, "Capstan");
  FolderHost third = window();
  turn(third);
  EXPECT_TRUE(follows(third));
  EXPECT_EQ(third.app().ticket().dog, "Capstan");
}

TEST_F(FolderHosts, AQuestionThatNobodyAnswersOrTakesBackHoldsNobodyUp) {
  FolderHost first = window();
  turn(first);
  const fs::path asked = folder_ / "rack" / "pen.asked";
  std::ofstream(asked) << "";
  fs::last_write_time(asked, fs::file_time_type::clock::now() - std::chrono::minutes(1));
  look(first);
  EXPECT_FALSE(follows(first)) << "who asked is long gone";
  EXPECT_TRUE(first.app().rack().whole());
}

}  // namespace
}  // namespace coatwright::studio
