// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/safety_text.h"

#include <algorithm>

#include "words/wrap.h"

namespace tinwright::report {

// The cautions are those of shop practice for hand brakes, magnetic folders and press brakes: common practice, nothing
// here replaces a machine's own manual.
std::vector<std::string> cautions(const std::vector<MachineKind>& kinds) {
    const auto has = [&](MachineKind kind) { return std::find(kinds.begin(), kinds.end(), kind) != kinds.end(); };
    const bool folders =
        has(MachineKind::kLooseBarFolder) || has(MachineKind::kBeamFolder) || !has(MachineKind::kPressBrake);
    std::vector<std::string> list;
    if (folders)
        list.emplace_back(
            "Keep hands clear of the clamp and of the leaf as it swings; both pinch. Watch counterweights and "
            "bystanders.");
    if (has(MachineKind::kPressBrake)) {
        list.emplace_back(
            "Press brake: work with its guards; where they cannot be used, only by a written procedure and with "
            "training. Keep hands out of the space between "
            "punch and die, and fingers off the back gauge as it moves.");
        list.emplace_back(
            "The sheet whips up in front and pinches against the ram: support it from below, keep face and fingers out "
            "of its way. Never hold a small part by "
            "hand near the punch: use a tool, or bend it oversize and trim.");
        list.emplace_back(
            "Foot off the pedal while you load, gauge or change tools; isolate or block the ram before you reach "
            "between the tools.");
        list.emplace_back(
            "Seat and clamp every punch and die before the ram moves. Stay under the force of the press and under the "
            "force per length of each tool; mind the open "
            "height with tall ones.");
    }
    list.emplace_back("Cut edges are sharp: gloves for handling, eye protection, two people for large sheets.");
    if (folders)
        list.emplace_back(
            "Stay under the brake's rated thickness for this material and length. No rod, wire or spring steel.");
    if (has(MachineKind::kLooseBarFolder)) {
        list.emplace_back(
            "Magnetic folder: never place or move a bar over an energised bed. Keep away with a pacemaker. Check "
            "the switches; isolate the machine when they are faulty.");
    }
    if (has(MachineKind::kBeamFolder)) {
        list.emplace_back(
            "Fingers or a bar on a beam: seat and tighten every piece before clamping; support it before it is "
            "loosened.");
    }
    list.emplace_back(
        "Geometry and rules of thumb only: try the motions without force first, fold the first piece from scrap. "
        "The machine's manual, local rules and licensed practice come first.");
    return list;
}

std::string safetyText(const std::vector<MachineKind>& kinds) {
    std::string text = "Safety\n";
    for (const std::string& caution : cautions(kinds)) text += bullet(caution);
    return text;
}

}  // namespace tinwright::report
