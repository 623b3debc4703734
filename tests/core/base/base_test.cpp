#include <gtest/gtest.h>

#include <algorithm>
#include <string_view>

#include "core/base/version.h"

namespace coatwright {
namespace {

TEST(Base, VersionHasThreeNumbers) {
  const std::string_view text = version();
  EXPECT_EQ(std::count(text.begin(), text.end(), '.'), 2);
  EXPECT_EQ(text.find_first_not_of("0123456789."), std::string_view::npos);
}

}  // namespace
}  // namespace coatwright
