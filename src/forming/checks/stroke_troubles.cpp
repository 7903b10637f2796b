// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/forming/checks/stroke_troubles.h>

#include <algorithm>

#include "checks/checks.h"

namespace tinwright {

using namespace forming;

StrokeTroubles::StrokeTroubles(const Part& drawn, const Shop& shop, const BrakeInSetup& brake, const Material* material)
    : part_(partOnBrake(drawn, shop, brake)),
      shop_(shop),
      brake_(brake),
      material_(material),
      least_(2 * drawn.bends.size()) {
    if (!std::holds_alternative<LeafBrake>(brake->kind)) return;
    faces_ = brake->leaf().leaf_faces.size();
    web_.resize(2 * drawn.bends.size() * faces_);
}

StrokeTrouble StrokeTroubles::of(const FoldStep& step, BendMask formed) {
    const FoldAsked asked{part_.part(), material_, shop_, brake_, step, formed};
    StrokeTrouble trouble;
    if (faces_ == 0) {
        trouble.spoils = forceSpoils(asked);
        trouble.care.in_tongs = comesNearHands(asked);
        return trouble;
    }
    for (const BendId bend : bendsIn(step.stroke.bends))
        trouble.spoils += web(bend, heldSide(asked, bend), faceNamed(step.leaf_face));
    trouble.care = holdingCare(asked);
    return trouble;
}

Spoils StrokeTroubles::least(BendId bend, Side held) {
    std::optional<Spoils>& known = least_[slotOf(bend, held)];
    if (!known) known = leastOf(bend, held);
    return *known;
}

Spoils StrokeTroubles::leastOf(BendId bend, Side held) {
    if (faces_ == 0) return leastForceSpoils(part_.part(), bend, brake_, material_);
    Spoils least = web(bend, held, 0);
    for (std::size_t face = 1; face < faces_; ++face) least = std::min(least, web(bend, held, face));
    return least;
}

Spoils StrokeTroubles::web(BendId bend, Side held, std::size_t face) {
    if (part_.part().cut_outs.empty()) return {};
    std::optional<Spoils>& known = web_[slotOf(bend, held) * faces_ + face];
    if (!known) {
        const WebTools tools = leafOf(shop_, brake_, brake_->leaf().leaf_faces[face]);
        known = webSpoils(part_.part(), material_, tools, bend, opposite(held));
    }
    return *known;
}

std::size_t StrokeTroubles::faceNamed(const std::string& name) const {
    const std::vector<LeafFace>& faces = brake_->leaf().leaf_faces;
    const auto face = std::find_if(faces.begin(), faces.end(), [&](const LeafFace& one) { return one.name == name; });
    return face == faces.end() ? 0 : static_cast<std::size_t>(face - faces.begin());
}

}  // namespace tinwright
