// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <utility>

#include <tinwright/base/contract.h>
#include <tinwright/base/issue.h>

namespace tinwright {

/// Either a value or the list of everything that is wrong with the input it was to be made from.
/// Never both, never neither.
template <class T>
class [[nodiscard]] Result {
public:
    Result(T value) : value_(std::move(value)) {}         // NOLINT: implicit on purpose
    Result(Issues issues) : issues_(std::move(issues)) {  // NOLINT
        TINWRIGHT_REQUIRE(!issues_.empty(), "a failed Result says what is wrong");
    }
    Result(Issue issue) : Result(Issues{std::move(issue)}) {}  // NOLINT

    [[nodiscard]] bool ok() const { return value_.has_value(); }
    explicit operator bool() const { return ok(); }
    [[nodiscard]] const T& value() const& { return check(), *value_; }
    [[nodiscard]] T& value() & { return check(), *value_; }
    [[nodiscard]] T&& value() && { return check(), std::move(*value_); }
    [[nodiscard]] const Issues& issues() const { return issues_; }

private:
    void check() const { TINWRIGHT_REQUIRE(ok(), "value() asked of a failed Result"); }
    std::optional<T> value_;
    Issues issues_;
};

}  // namespace tinwright
