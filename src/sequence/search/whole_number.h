// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace tinwright::search {

/// A whole number from 0 up, of any size: counts of orders pass 64 bits at 21 bends. Exact; only what counting needs.
class WholeNumber {
public:
    WholeNumber() = default;
    explicit WholeNumber(std::uint32_t value);
    [[nodiscard]] bool isZero() const { return digits_.empty(); }
    WholeNumber& operator+=(const WholeNumber& other);
    WholeNumber& operator*=(std::uint32_t factor);
    /// In decimal, without separators.
    [[nodiscard]] std::string text() const;

private:
    std::vector<std::uint32_t> digits_;  ///< base 10^9, least first, the last one not 0
};

}  // namespace tinwright::search
