// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/base/words.h>

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace tinwright {
namespace {

std::size_t editDistance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t change = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
            diagonal = row[j];
            row[j] = std::min({row[j] + 1, row[j - 1] + 1, change});
        }
    }
    return row.back();
}

bool isNameByte(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-' ||
           c == '.' || c == '+';
}

}  // namespace

std::string shortNumber(double value) {
    if (!std::isfinite(value)) return "?";
    std::string text = fmt::format("{:.1f}", value);
    if (text.ends_with(".0")) text.resize(text.size() - 2);
    return text == "-0" ? "0" : text;
}

std::string trimmedNumber(double value, int decimals) {
    std::string text = fmt::format("{:.{}f}", value, decimals);
    if (decimals > 0) text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text == "-0" ? "0" : text;
}

std::string counted(std::size_t count, const std::string& noun) {
    return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

std::string listed(const std::vector<std::string>& things) {
    std::string text;
    for (std::size_t i = 0; i < things.size(); ++i) {
        if (i > 0) text += i + 1 == things.size() ? " and " : ", ";
        text += things[i];
    }
    return text;
}

std::string millimetres(double length_mm) { return shortNumber(length_mm); }

std::string includedAndTurned(double turned_deg) {
    constexpr double kSquare_deg = 0.05;  // told as 90 either way
    if (std::abs(turned_deg - 90) < kSquare_deg) return "90°";
    return fmt::format("{}° included ({}° turned)", shortNumber(180 - turned_deg), shortNumber(turned_deg));
}

bool isName(std::string_view text) {
    return !text.empty() && text.size() <= 64 && text.front() != '-' &&
           std::all_of(text.begin(), text.end(), isNameByte);
}

std::string nearestWord(std::string_view word, const std::vector<std::string>& words) {
    if (word.size() > 64) return {};
    std::string best;
    std::size_t best_distance = 1 + std::max<std::size_t>(1, word.size() / 3);
    for (const std::string& candidate : words) {
        const std::size_t distance = editDistance(word, candidate);
        if (distance < best_distance) {
            best = candidate;
            best_distance = distance;
        }
    }
    return best;
}

}  // namespace tinwright
