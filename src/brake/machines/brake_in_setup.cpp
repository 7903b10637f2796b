// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/machines/brake_in_setup.h>

#include <algorithm>
#include <limits>

namespace tinwright {

namespace {

double stripBackOn_mm(const LeafBrake&, const BrakeInSetup& brake, double /*allowance_mm*/) {
    return brake.inside_radius_mm();
}
double stripBackOn_mm(const PressBrake&, const BrakeInSetup& /*brake*/, double allowance_mm) {
    return 0.5 * allowance_mm;
}

}  // namespace

double BrakeInSetup::stripBack_mm(double allowance_mm) const {
    return std::visit([&](const auto& kind) { return stripBackOn_mm(kind, *this, allowance_mm); }, brake_->kind);
}

std::vector<ToolId> BrakeInSetup::tools(ToolRow row) const {
    std::vector<ToolId> some;
    std::copy_if(tools_.begin(), tools_.end(), std::back_inserter(some),
                 [&](ToolId id) { return brake_->rowOf(id) == row; });
    return some;
}

bool BrakeInSetup::uses(ToolId tool) const { return std::binary_search(tools_.begin(), tools_.end(), tool); }

BrakeInSetup BrakeInSetup::with(const Brake& changed) const {
    if (vee_) return inVee(changed, *vee_, inside_radius_mm_);
    BrakeInSetup other = inSetup(changed, 0);
    other.setback_mm_ = setback_mm_;
    return other;
}

namespace {

double setbackFor_mm(const LeafBrake& leaf, double thickness_mm) {
    return leaf.setback_mm >= 0 ? leaf.setback_mm
                                : std::clamp(thickness_mm, leaf.setback_least_mm, leaf.setback_most_mm);
}

}  // namespace

BrakeInSetup BrakeInSetup::packed(double packing_mm, bool on_leaf, double thickness_mm) const {
    BrakeInSetup other = *this;
    other.packing_mm_ = packing_mm;
    other.leaf_packing_mm_ = on_leaf ? packing_mm : 0;
    other.setback_mm_ = setbackFor_mm(brake_->leaf(), thickness_mm + other.leaf_packing_mm_);
    return other;
}

BrakeInSetup inSetup(const Brake& brake, double thickness_mm) {
    const LeafBrake& leaf = brake.leaf();
    BrakeInSetup setup;
    setup.brake_ = std::make_shared<const Brake>(brake);
    setup.inside_radius_mm_ = leaf.nose_radius_mm;
    setup.setback_mm_ = setbackFor_mm(leaf, thickness_mm);
    for (std::size_t i = 0; i < leaf.bars.size(); ++i) {
        if (leaf.bars[i].count > 0) setup.tools_.push_back(idAt<ToolId>(i));
    }
    return setup;
}

BrakeInSetup inVee(const Brake& brake, const Vee& vee, double radius_mm) {
    const PressBrake& press = brake.press();
    double sharpest_mm = std::numeric_limits<double>::infinity();
    for (const Punch& punch : press.punches) sharpest_mm = std::min(sharpest_mm, punch.tip_radius_mm);
    BrakeInSetup setup;
    setup.brake_ = std::make_shared<const Brake>(brake);
    setup.inside_radius_mm_ = std::max(radius_mm, sharpest_mm);
    setup.vee_ = vee;
    for (std::size_t i = 0; i < brake.toolCount(); ++i) {
        const auto id = idAt<ToolId>(i);
        const Die* die = brake.die(id);
        const bool of_use =
            die != nullptr ? die->vee == vee : brake.punch(id)->tip_radius_mm <= setup.inside_radius_mm_;
        if (of_use && brake.tool(id).count > 0) setup.tools_.push_back(id);
    }
    return setup;
}

}  // namespace tinwright
