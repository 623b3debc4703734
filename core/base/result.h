// A value, or the Problem that kept it from being made. Written so that a later move to
// std::expected is a small edit.
#pragma once

#include <cstdlib>
#include <utility>
#include <variant>

#include "core/base/problem.h"

namespace coatwright {

template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_(std::move(value)) {}            // NOLINT: implicit on purpose
  Result(Problem problem) : state_(std::move(problem)) {}  // NOLINT: implicit on purpose

  [[nodiscard]] bool ok() const { return std::holds_alternative<T>(state_); }
  explicit operator bool() const { return ok(); }

  // Calling the wrong one is a programmer's error and stops the program.
  [[nodiscard]] const T& value() const { return ok() ? *std::get_if<T>(&state_) : fail<T>(); }
  [[nodiscard]] T& value() { return ok() ? *std::get_if<T>(&state_) : const_cast<T&>(fail<T>()); }
  [[nodiscard]] const Problem& problem() const {
    return ok() ? fail<Problem>() : *std::get_if<Problem>(&state_);
  }
  const T* operator->() const { return &value(); }
  const T& operator*() const { return value(); }

  bool operator==(const Result&) const = default;

 private:
  template <class U>
  [[noreturn]] static const U& fail() {
    std::abort();
  }
  std::variant<T, Problem> state_;
};

// A stage that can find several things: its result, and what should be looked at, in a stable
// order.
template <class T>
struct Checked {
  Result<T> result;
  Findings findings;
};

}  // namespace coatwright
