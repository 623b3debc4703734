// pack_bench INSTANCE STEPS SEED LAYOUT   packs with a budget of steps, writes the layout, and
// prints the processor time in seconds. The same program natively and under Node.js:
// tests/bench/pack_wasm.sh compares them.
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>

#include "core/lay/instance.h"
#include "core/lay/packer.h"

namespace {

std::string read(const char* path) {
  std::string text;
  std::FILE* file = std::fopen(path, "rb");
  if (!file) return text;
  char some[4096];
  for (size_t n = 0; (n = std::fread(some, 1, sizeof some, file)) > 0;) text.append(some, n);
  std::fclose(file);
  return text;
}

}  // namespace

int main(int argc, char** argv) {
  using namespace coatwright;
  if (argc != 5) return 1;
  Result<PackInstance> instance = read_instance(read(argv[1]));
  if (!instance) return 2;
  instance.value().task.seed = static_cast<std::uint32_t>(std::strtoul(argv[3], nullptr, 10));
  const std::clock_t from = std::clock();
  Result<PackSearch> search = PackSearch::begin(instance->task);
  if (!search) return 2;
  search.value().step(std::atoi(argv[2]));
  const double seconds = static_cast<double>(std::clock() - from) / CLOCKS_PER_SEC;
  const std::string layout =
      write_layout(*instance, search->best(), static_cast<long long>(search->steps_done()));
  std::FILE* file = std::fopen(argv[4], "wb");
  if (!file) return 2;
  const bool written = std::fwrite(layout.data(), 1, layout.size(), file) == layout.size();
  if (std::fclose(file) != 0 || !written) return 2;
  std::printf("%.3f\n", seconds);
  return 0;
}
