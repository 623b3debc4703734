#include "shell/desk/start.h"

#include <chrono>
#include <ctime>
#include <random>

#include "shell/words/studio_words.h"

namespace coatwright::studio {

Ticket demo_ticket() {
  const auto ticket = read_ticket(demo_text());
  return ticket ? *ticket : Ticket{};  // a test proves that it can be read
}

namespace {

UnixMs now() {
  using Ms = std::chrono::milliseconds;
  return std::chrono::duration_cast<Ms>(std::chrono::system_clock::now().time_since_epoch())
      .count();
}

std::string new_id() {
  std::random_device dice;
  SlipToken token;
  for (std::uint8_t& byte : token) byte = static_cast<std::uint8_t>(dice());
  return token_text(token);
}

}  // namespace

Outside outside() { return {now, new_id}; }

Today today() {
  const std::time_t seconds = std::time(nullptr);
  const std::tm* date = std::localtime(&seconds);
  if (date == nullptr) return {};
  char words[48];
  std::strftime(words, sizeof words, "%Y-%m-%d", date);
  return {{date->tm_year + 1900, date->tm_mon + 1}, words};
}

std::string date_words(UnixMs when, const Words& words) {
  const auto seconds = static_cast<std::time_t>(when / 1000);
  const std::tm* date = std::localtime(&seconds);
  if (date == nullptr) return {};
  return std::to_string(date->tm_mday) + " " +
         words("ui.month." + std::to_string(date->tm_mon + 1)) + " " +
         std::to_string(date->tm_year + 1900);
}

}  // namespace coatwright::studio
