// SPDX-License-Identifier: GPL-3.0-or-later
#include "dxf/dxf_note.h"

#include <charconv>
#include <string>
#include <vector>

#include "entities/dxf_drawing.h"

namespace tinwright {

namespace {

// Codes of multi-line text ("\A1;", "\P", braces) and of signs ("%%d") become blanks.
std::string plain(std::string_view text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (c == '\\' && i + 1 < text.size()) {
            const char code = text[++i];
            if (code != 'P' && code != '~' && code != '\\') i = std::min(text.find(';', i), text.size());
            out += ' ';
        } else if (c == '%' && text.substr(i, 2) == "%%") {
            i += 2;
            out += ' ';
        } else {
            const bool is_letter =
                (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '.';
            out += is_letter ? c : ' ';
        }
    }
    return inCapitals(out);
}

std::vector<std::string> wordsOf(const std::string& text) {
    std::vector<std::string> words;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t from = text.find_first_not_of(' ', at);
        if (from == std::string::npos) break;
        at = std::min(text.find(' ', from), text.size());
        words.push_back(text.substr(from, at - from));
    }
    return words;
}

std::optional<double> numberOf(std::string_view word) {
    double value = 0;
    const auto [rest, error] = std::from_chars(word.data(), word.data() + word.size(), value, std::chars_format::fixed);
    if (error != std::errc{} || rest != word.data() + word.size()) return std::nullopt;
    return value;
}

}  // namespace

std::optional<BendSaid> bendNote(std::string_view text, double mm_per_unit) {
    const std::vector<std::string> words = wordsOf(plain(text.substr(0, 200)));
    BendSaid said;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string& word = words[i];
        if (word == "UP" || word == "DOWN") {
            said.up = word == "UP";
        } else if (word.front() == 'R') {
            const auto radius = word.size() > 1        ? numberOf(std::string_view(word).substr(1))
                                : i + 1 < words.size() ? numberOf(words[i + 1])
                                                       : std::nullopt;
            if (radius && *radius * mm_per_unit <= RecipeLimits::kLargestRadius_mm)
                said.inside_radius_mm = *radius * mm_per_unit;
            if (radius && word.size() == 1) ++i;
        } else if (const auto angle = numberOf(word); angle && *angle >= 0.1 && *angle <= 179.9 && !said.angle_deg) {
            said.angle_deg = *angle;
        }
    }
    return said.up ? std::optional(said) : std::nullopt;
}

}  // namespace tinwright
