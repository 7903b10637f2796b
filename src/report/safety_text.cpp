// SPDX-License-Identifier: GPL-3.0-or-later
#include "safety_text.h"

#include <algorithm>

#include "wrap.h"

namespace tinwright::report {

// The cautions are those of shop practice for hand brakes and magnetic folders: common practice, nothing here
// replaces a machine's own manual.
std::vector<std::string> cautions(const std::vector<ClampKind>& kinds) {
    const auto has = [&](ClampKind kind) { return std::find(kinds.begin(), kinds.end(), kind) != kinds.end(); };
    std::vector<std::string> list;
    list.emplace_back(
        "Keep hands clear of the clamp and of the leaf as it swings; both pinch. Watch counterweights and bystanders.");
    list.emplace_back("Cut edges are sharp: gloves for handling, eye protection, two people for large sheets.");
    list.emplace_back("Stay under the brake's rated thickness for this material and length. No rod, wire or spring steel.");
    if (has(ClampKind::kLooseBars)) {
        list.emplace_back(
            "Magnetic folder: never place or move a bar over an energised bed. Keep away with a pacemaker. Check "
            "the switches; isolate the machine when they are faulty.");
    }
    if (has(ClampKind::kOnBeam)) {
        list.emplace_back(
            "Fingers or a bar on a beam: seat and tighten every piece before clamping; support it before it is "
            "loosened.");
    }
    list.emplace_back(
        "Geometry and rules of thumb only: try the motions without force first, fold the first piece from scrap. "
        "The machine's manual, local rules and licensed practice come first.");
    return list;
}

std::string safetyText(const std::vector<ClampKind>& kinds) {
    std::string text = "Safety\n";
    for (const std::string& caution : cautions(kinds)) text += bullet(caution);
    return text;
}

}  // namespace tinwright::report
