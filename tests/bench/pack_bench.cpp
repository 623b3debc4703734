// pack_bench INSTANCE STEPS SEED LAYOUT   packs with a budget of steps, writes the layout, and
// prints the processor time in seconds, and in milliseconds what 99 of 100 steps take at most. The
// same program natively and under Node.js: tests/bench/pack_wasm.sh compares them.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>
#include <vector>

#include "core/pack/instance.h"
#include "core/pack/packer.h"

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
  std::clock_t before = std::clock();
  std::vector<std::clock_t> steps;
  for (int left = std::atoi(argv[2]); left > 0; --left) {
    search.value().step(1);
    const std::clock_t now = std::clock();
    steps.push_back(now - before);
    before = now;
  }
  const double seconds = static_cast<double>(before - from) / CLOCKS_PER_SEC;
  std::sort(steps.begin(), steps.end());
  const std::clock_t most = steps.empty() ? 0 : steps[steps.size() * 99 / 100];
  const std::string layout =
      write_layout(*instance, search->best(), static_cast<long long>(search->steps_done()));
  std::FILE* file = std::fopen(argv[4], "wb");
  if (!file) return 2;
  const bool written = std::fwrite(layout.data(), 1, layout.size(), file) == layout.size();
  if (std::fclose(file) != 0 || !written) return 2;
  std::printf("%.3f %.2f\n", seconds, 1000.0 * static_cast<double>(most) / CLOCKS_PER_SEC);
  return 0;
}
