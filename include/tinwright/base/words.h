// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

/// Numbers, names and lists as a person at the bench reads them.
namespace tinwright {

/// At most one decimal, and none of "-0" and ".0": "12.3", "60". Not finite: "?".
[[nodiscard]] std::string shortNumber(double value);

/// So many decimals at most, none of them idle, and no "-0".
[[nodiscard]] std::string trimmedNumber(double value, int decimals);

/// "1 bend", "3 bends".
[[nodiscard]] std::string counted(std::size_t count, const std::string& noun);

/// "a, b and c" of things already in words.
[[nodiscard]] std::string listed(const std::vector<std::string>& things);

/// What `name` makes of each, one after the other, `between` in between.
template <class Things, class Name>
[[nodiscard]] std::string joined(const Things& things, std::string_view between, Name name) {
    std::string text;
    bool first = true;
    for (const auto& thing : things) {
        if (!first) text += between;
        first = false;
        text += name(thing);
    }
    return text;
}

/// The same of texts.
template <class Things>
[[nodiscard]] std::string joined(const Things& things, std::string_view between) {
    return joined(things, between, [](const auto& thing) { return thing; });
}

/// A length in mm as shortNumber().
[[nodiscard]] std::string millimetres(double length_mm);

/// "87° included (93° turned)": a bend's angle between its sides, as the control of a press brake has it, and from
/// flat; at a right angle, where both are the same, "90°".
[[nodiscard]] std::string includedAndTurned(double turned_deg);

/// A name as files have it: 1 to 64 of the characters A-Z a-z 0-9 _ - . +, not starting with -.
[[nodiscard]] bool isName(std::string_view text);

/// The one of `words` that is nearest to `word` by letters changed, when near enough to be a slip; else empty.
[[nodiscard]] std::string nearestWord(std::string_view word, const std::vector<std::string>& words);

}  // namespace tinwright
