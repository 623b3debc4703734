#include "shell/tool/files.h"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

#include "core/base/utf8.h"
#include "shell/words/say.h"
#include "shell/words/ticket_words.h"
#include "shell/words/words_table.h"

namespace coatwright {
namespace {

bool write_file(const std::filesystem::path& path, const std::string& text) {
  std::FILE* file = std::fopen(path.c_str(), "wb");
  if (!file) return false;
  const bool written = std::fwrite(text.data(), 1, text.size(), file) == text.size();
  const int error = errno;
  const bool closed = std::fclose(file) == 0;
  if (!written) errno = error;
  return written && closed;
}

}  // namespace

std::string shown(std::string_view text) { return cleaned(text, 200); }

int refuse(const std::string& sentence) {
  std::fprintf(stderr, "%s\n", sentence.c_str());
  return kRefused;
}

std::string sentence(const char* key, std::string_view path, std::string_view reason) {
  return word_table()(key, {shown(path), shown(reason)});
}

int refuse(const Problem& problem, const LengthStyle& style) {
  return refuse(say(problem, word_table(), style));
}

LengthStyle lengths_of(const Ticket& ticket) { return drawing_choices(ticket).lengths; }

bool read_file(const std::string& path, size_t most, std::string& out) {
  std::FILE* file = std::fopen(path.c_str(), "rb");
  if (!file) return false;
  out.resize(most + 1);
  out.resize(std::fread(out.data(), 1, out.size(), file));
  const bool failed = std::ferror(file) != 0;
  const int error = errno;
  std::fclose(file);
  errno = error;
  return !failed;
}

int write_all(const std::string& folder, const std::vector<NamedText>& files) {
  namespace fs = std::filesystem;
  const fs::path into(folder);
  std::error_code error;
  fs::create_directories(into, error);
  if (!fs::is_directory(into)) {
    return refuse(sentence("tool.no-folder", folder, error ? error.message() : "Not a directory"));
  }
  const auto beside = [&](const NamedText& f) {
    return into / (std::string(".") + f.name + ".part");
  };
  const auto give_up = [&](const NamedText& f, const std::string& reason) {
    for (const NamedText& each : files) fs::remove(beside(each), error);
    return refuse(sentence("tool.no-writing", (into / f.name).string(), reason));
  };
  for (const NamedText& f : files) {
    if (!write_file(beside(f), f.text)) return give_up(f, std::strerror(errno));
  }
  for (const NamedText& f : files) {
    if (fs::is_directory(into / f.name)) return give_up(f, "Is a directory");
  }
  for (const NamedText& f : files) {
    fs::rename(beside(f), into / f.name, error);
    if (error) return give_up(f, error.message());
  }
  return kDone;
}

int write_out(const std::string& text) {
  const bool written =
      std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0;
  return written ? kDone : refuse(sentence("tool.no-writing", "stdout", std::strerror(errno)));
}

}  // namespace coatwright
