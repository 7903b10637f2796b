// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/corner_words.h"

#include <algorithm>

#include <fmt/format.h>

#include "words/words.h"

namespace tinwright::report {
namespace {

bool isAt(const OpenedCorner& corner, const Part& part, const MeetingFlanges& meeting) {
    const PanelId flange = part.bend(corner.bend).child;
    return (flange == meeting.one && corner.beside == meeting.other) ||
           (flange == meeting.other && corner.beside == meeting.one);
}

}  // namespace

std::string openedWords(const FoldContext& on, const Reason& reason) {
    const auto meeting = meetingFlanges(on.part, reason);
    if (!meeting || on.remedies == nullptr) return {};
    std::string text;
    bool with_others = false;
    for (const Remedy& remedy : *on.remedies) {
        if (remedy.kind != RemedyKind::kOpenCorners) continue;
        const auto corner = std::find_if(remedy.corners.begin(), remedy.corners.end(),
                                         [&](const OpenedCorner& one) { return isAt(one, on.part, *meeting); });
        if (corner == remedy.corners.end()) continue;
        const std::string& flange = on.part.panel(on.part.bend(corner->bend).child).name;
        text += (text.empty() ? "" : ", or ") +
                (corner->by_mm > 0 ? fmt::format("{} mm off the end of {}", millimetres(corner->by_mm), flange)
                                   : fmt::format("a slant of {:.1f}° at the end of {}", corner->slant_deg, flange));
        with_others = with_others || remedy.corners.size() > 1;
    }
    if (text.empty()) return {};
    return text + (with_others ? ", and as much at the other ends that are told below, and it goes" : ", and it goes");
}

}  // namespace tinwright::report
