// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <tinwright/part/edges/seams.h>

#include "paper/html.h"
#include "sheet/sheet_parts.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

std::string gapText(const Seam& seam, double bridged_mm) {
    if (seam.most_gap_mm < 0.05) return "closed";
    const bool is_even = seam.most_gap_mm - seam.least_gap_mm < 0.1;
    const std::string text = (is_even ? "" : millimetres(seam.least_gap_mm) + " to ") + millimetres(seam.most_gap_mm);
    return seam.most_gap_mm > bridged_mm ? text + ", wide" : text;
}

std::string kindText(const Part& part, const Seam& seam) {
    switch (seam.kind) {
        case SeamKind::kButt: return "butt, in one plane";
        case SeamKind::kOpenCorner: return fmt::format("open corner, {} inside", degrees(seam.angle_deg));
        case SeamKind::kLappedCorner:
            return fmt::format("closed corner, {} inside, {} laps over", degrees(seam.angle_deg),
                               part.panel(seam.a).name);
        case SeamKind::kPartLapped:
            return fmt::format("corner, {} inside, {} laps over a part of the edge", degrees(seam.angle_deg),
                               part.panel(seam.a).name);
        case SeamKind::kLap: return part.panel(seam.a).name + " lies on " + part.panel(seam.b).name;
        case SeamKind::kOnFace: return "edge on the face of " + part.panel(seam.b).name;
    }
    return {};
}

}  // namespace

std::string weldSection(const SheetWork& work) {
    const std::vector<Seam> seams = weldSeams(work.part());
    if (seams.empty()) return {};
    std::string head;
    for (const char* name : {"Seam", "Edges that meet", "Length mm", "Gap mm", "How they meet"})
        head += element("th", name);
    std::string rows = wrap("tr", head);
    const double bridged_mm = bridgedGap_mm(work.part().thickness_mm);
    double length_mm = 0;
    std::size_t number = 0;
    for (const Seam& seam : seams) {
        rows += row("W" + std::to_string(++number), {listed(seam.edges), millimetres(seam.length_mm),
                                                     gapText(seam, bridged_mm), kindText(work.part(), seam)});
        length_mm += seam.length_mm;
    }
    std::string text = element("h3", "Seams after folding, if they are welded");
    text += wrap("div", wrap("table", rows), "scroll");
    text += element(
        "p",
        fmt::format(
            "{} mm in all, as the part is drawn, gaps as after overbend has sprung back. Over {} mm is wide to bridge: "
            "draw the corner closer or fit a strip. Tack both ends and check that it is square before "
            "you weld; clean off film, oil and zinc first. What the weld must carry is for someone qualified to say.",
            millimetres(length_mm), millimetres(bridged_mm)));
    return wrap("div", text, "keep");
}

}  // namespace tinwright::report
