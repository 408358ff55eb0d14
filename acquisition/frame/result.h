#pragma once

#include <cassert>
#include <utility>
#include <variant>

#include "acquisition/frame/problem.h"

namespace footing {

/// A value, or the problem that prevented it. Ask ok() before value() or problem().
template <typename T>
class [[nodiscard]] Result {
  public:
    Result(T value) : content_(std::in_place_index<0>, std::move(value)) {}
    Result(Problem problem) : content_(std::in_place_index<1>, std::move(problem)) {}

    [[nodiscard]] bool ok() const { return content_.index() == 0; }
    explicit operator bool() const { return ok(); }

    [[nodiscard]] T& value() & {
        assert(ok());
        return *std::get_if<0>(&content_);
    }
    [[nodiscard]] const T& value() const& {
        assert(ok());
        return *std::get_if<0>(&content_);
    }
    [[nodiscard]] T value() && {
        assert(ok());
        return std::move(*std::get_if<0>(&content_));
    }
    [[nodiscard]] const Problem& problem() const {
        assert(!ok());
        return *std::get_if<1>(&content_);
    }

  private:
    std::variant<T, Problem> content_;
};

/// For work that gives nothing back but may fail.
struct Done {};
using Outcome = Result<Done>;

}  // namespace footing
