// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/forming/rules/finding.h>

#include <algorithm>
#include <array>
#include <string_view>

namespace tinwright {

namespace {

/// Warnings that mean a spoilt part when they come true, and that another hold, tool or order may keep clear of.
constexpr std::array<std::string_view, 3> kMaySpoil{"web.bows", "web.folds", "web.land"};
constexpr std::array<std::string_view, 3> kWantsCare{"hold.hands", "hold.lifts", "hold.pack"};

template <std::size_t N>
bool isOneOf(const std::array<std::string_view, N>& ids, std::string_view id) {
    return std::find(ids.begin(), ids.end(), id) != ids.end();
}

}  // namespace

const char* toText(Consequence consequence) {
    switch (consequence) {
        case Consequence::kNote: break;
        case Consequence::kNeedsCare: return "needs care";
        case Consequence::kSpoils: return "spoils";
    }
    return "note";
}

Consequence consequenceOf(const Finding& finding) {
    if (finding.severity >= Severity::kFault) return Consequence::kSpoils;
    if (finding.severity == Severity::kNote) return Consequence::kNote;
    if (isOneOf(kMaySpoil, finding.id)) return Consequence::kSpoils;
    return isOneOf(kWantsCare, finding.id) ? Consequence::kNeedsCare : Consequence::kNote;
}

Spoils spoilsOf(const Finding& finding) {
    if (consequenceOf(finding) != Consequence::kSpoils) return {};
    const int count = std::max(1, static_cast<int>(finding.bends.size()));
    return finding.severity >= Severity::kFault ? Spoils{count, 0} : Spoils{0, count};
}

}  // namespace tinwright
