// SPDX-License-Identifier: GPL-3.0-or-later
#include "search/whole_number.h"

#include <fmt/format.h>

#include <algorithm>

namespace tinwright::search {

namespace {
constexpr std::uint64_t kBase = 1'000'000'000;
}  // namespace

WholeNumber::WholeNumber(std::uint32_t value) {
    for (std::uint64_t rest = value; rest != 0; rest /= kBase)
        digits_.push_back(static_cast<std::uint32_t>(rest % kBase));
}

WholeNumber& WholeNumber::operator+=(const WholeNumber& other) {
    digits_.resize(std::max(digits_.size(), other.digits_.size()));
    std::uint64_t carry = 0;
    for (std::size_t i = 0; i < digits_.size(); ++i) {
        carry += digits_[i];
        if (i < other.digits_.size()) carry += other.digits_[i];
        digits_[i] = static_cast<std::uint32_t>(carry % kBase);
        carry /= kBase;
    }
    if (carry != 0) digits_.push_back(static_cast<std::uint32_t>(carry));
    return *this;
}

WholeNumber& WholeNumber::operator*=(std::uint32_t factor) {
    std::uint64_t carry = 0;
    for (std::uint32_t& digit : digits_) {
        carry += std::uint64_t{digit} * factor;
        digit = static_cast<std::uint32_t>(carry % kBase);
        carry /= kBase;
    }
    for (; carry != 0; carry /= kBase) digits_.push_back(static_cast<std::uint32_t>(carry % kBase));
    while (!digits_.empty() && digits_.back() == 0) digits_.pop_back();  // times 0
    return *this;
}

std::string WholeNumber::text() const {
    if (digits_.empty()) return "0";
    std::string text = fmt::format("{}", digits_.back());
    for (std::size_t i = digits_.size() - 1; i > 0; --i) text += fmt::format("{:09}", digits_[i - 1]);
    return text;
}

}  // namespace tinwright::search
