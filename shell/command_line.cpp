#include <cstdio>
#include <string_view>

#include "core/base/version.h"

int main(int argc, char** argv) {
  if (argc == 2 && std::string_view(argv[1]) == "--version") {
    std::printf("coatwright %s\n", coatwright::version());
    return 0;
  }
  std::fputs("usage: coatwright --version\n", stderr);
  return 1;
}
