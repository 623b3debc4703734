// Replays a folder of inputs through a fuzz target, so that the corpus is part of every ordinary
// test run.

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

int main(int argc, char** argv) {
  if (argc != 2) {
    std::fputs("usage: NAME_replay FOLDER\n", stderr);
    return 1;
  }
  const std::filesystem::path folder(argv[1]);
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) files.push_back(entry);
  std::sort(files.begin(), files.end());
  for (const auto& file : files) {
    // Named before it runs: the last name printed is the one that stopped the program.
    std::printf("replaying %s\n", file.filename().c_str());
    std::fflush(stdout);
    std::ifstream stream(file, std::ios::binary);
    const std::vector<char> bytes{std::istreambuf_iterator<char>(stream), {}};
    LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
  }
  if (files.empty()) {
    std::printf("FAIL %s holds no inputs\n", folder.c_str());
    return 1;
  }
  std::printf("ok replay of %s: %zu inputs\n", folder.filename().c_str(), files.size());
  return 0;
}
