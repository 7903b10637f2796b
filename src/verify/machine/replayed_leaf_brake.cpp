// SPDX-License-Identifier: GPL-3.0-or-later
// A leaf brake as it is replayed: bars clamp the held side, a leaf swings the other up.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "machine/leaf_motion.h"
#include "machine/leaf_tools.h"
#include "machine/replayed_kinds.h"

namespace tinwright::replay {

namespace {

class ReplayedLeafBrake final : public ReplayedMachine {
public:
    ReplayedLeafBrake(const LeafBrake& leaf, const BrakeInSetup& brake, const FoldStep& step, const Bending& stroke)
        : ReplayedMachine(brake, step, stroke),
          leaf_(leaf),
          hinge_(hingeOf(leaf, step, stroke.thickness_mm)),
          face_(faceOf(leaf, step)) {}

    [[nodiscard]] const char* name() const override { return "a leaf brake"; }

    void checkSetAngle(std::vector<std::string>& wrong) const override {
        constexpr double kSameAngle_deg = 1e-6;
        const double set_deg = std::max(step().set_angle.deg(), step().leaf_angle.deg());
        const double most_deg = leaf_.max_leaf_angle.deg();
        if (set_deg > most_deg + kSameAngle_deg)
            wrong.push_back(fmt::format("the set angle {:.3f}° is more than the leaf's {:.3f}°", set_deg, most_deg));
        checkPressing(wrong);
    }

    // A setback under the sheet's thickness presses the leaf into it, deeper than one of that thickness does.
    void checkPressing(std::vector<std::string>& wrong) const {
        constexpr double kTouching_mm = 0.05;
        const double usual_mm = stroke().thickness_mm + leafPackedBy_mm(step());
        if (hinge_.setback_mm >= usual_mm) return;
        const auto pressed_mm = [&](double setback_mm) {
            return leafBack_mm(stroke(), {setback_mm, hinge_.height_mm, hinge_.over_leaf_mm}, kMotions[0],
                               stroke().set_rad);
        };
        const double deep_mm = pressed_mm(hinge_.setback_mm);
        if (deep_mm > std::max(pressed_mm(usual_mm), leaf_.hinge_gives_mm) + kTouching_mm)
            wrong.push_back(fmt::format("the leaf presses {:.3f} mm into the sheet", deep_mm));
    }

    [[nodiscard]] bool checkTools(std::vector<std::string>& wrong) const override {
        if (face_ == nullptr) wrong.push_back(fmt::format("the leaf has no face named \"{}\"", step().leaf_face));
        checkPacking(wrong);
        return face_ != nullptr;
    }

    // Offcuts of the sheet, no more than four, and the setback that goes with them.
    void checkPacking(std::vector<std::string>& wrong) const {
        if (!step().packing) return;
        constexpr double kSame_mm = 1e-6;
        const double strips = step().packing->height_mm / stroke().thickness_mm;
        if (std::abs(strips - std::round(strips)) > kSame_mm || strips < 0.5 || strips > 4.5)
            wrong.push_back(fmt::format("packing of {:.3f} mm is no stack of offcuts", step().packing->height_mm));
        if (std::abs(step().packing->setback_mm - hinge_.setback_mm) > kSame_mm)
            wrong.push_back(fmt::format("the setback is {:.3f} mm, the step says {:.3f} mm", hinge_.setback_mm,
                                        step().packing->setback_mm));
        if (step().closing) wrong.emplace_back("a hem is not closed on packing");
    }

    [[nodiscard]] const std::vector<CoveringRow>& rows() const override {
        static const std::vector<CoveringRow> kRows{{ToolRow::kUpper, "bar", "between two bars", "at an end"}};
        return kRows;
    }

    // The clamped sheet must reach back from the bend to the wanted depth behind the nose line.
    [[nodiscard]] std::vector<FlatLand> flatLands(const Limits& limits, const Steps& /*steps*/) const override {
        const double strip_front = stroke().inside_radius_mm - stroke().allowance_mm;
        const double on_leaf = std::max(0.0, leafBeginsPastStrip(stroke(), hinge_).most_mm) + limits.leaf_land_mm;
        return {{false, stroke().inside_radius_mm + 1e-6, limits.clamped_land_mm,
                 fmt::format("have {:.3f} mm of clamped land", limits.clamped_land_mm)},
                {true, strip_front - on_leaf, strip_front - 1e-6,
                 fmt::format("reach {:.3f} mm onto the leaf", limits.leaf_land_mm)}};
    }

    [[nodiscard]] std::optional<PackedStretch> packedStretch(const Limits& limits) const override {
        if (!step().packing) return std::nullopt;
        const double back = std::max(limits.clamped_land_mm, stroke().inside_radius_mm);
        const double front = leafPackedBy_mm(step()) - hinge_.setback_mm;
        if (!step().packing->on_leaf) return PackedStretch{front, back, front, front};
        const LeafBegins begins = leafBeginsPastStrip(stroke(), hinge_);
        const double wide_mm = std::max(0.0, begins.most_mm) + limits.leaf_land_mm - begins.least_mm;
        const double leaf_from = stroke().inside_radius_mm - stroke().allowance_mm - begins.most_mm;
        return PackedStretch{leaf_from - wide_mm, back, leaf_from, front};
    }

    [[nodiscard]] bool liesOverLeaf(const Body& part_body) const override {
        return hangsNoLower(part_body, leafPackedBy_mm(step()));
    }

    [[nodiscard]] double lowerRise_mm(const Motion& /*motion*/, double /*angle_rad*/) const override { return 0; }

    [[nodiscard]] bool touchesByIntention(const Body& part_body, const Body& tool, bool moves) const override {
        const bool in_plane = part_body.lie == Lie::kInPlane;
        if (tool.kind == BodyKind::kBed && !moves && hangsNoLower(part_body, packedBy_mm(step())))
            return true;  // as near as the sheet is thick
        switch (tool.kind) {
            case BodyKind::kBar: return in_plane || (part_body.lie == Lie::kLeavesDownward && !moves);
            case BodyKind::kBed: return in_plane || part_body.lie == Lie::kLeavesUpward;
            case BodyKind::kFrame: return true;  // how close a part may come to a frame is the overhang's matter
            default: return false;
        }
    }

    [[nodiscard]] WayRules wayRules() const override { return {true, true, !onBeam() || leaf_.pieces_out_in_place}; }

    [[nodiscard]] std::vector<std::string> liftFaults(double lift_mm, double /*rise_mm*/) const override {
        std::vector<std::string> faults;
        if (lift_mm < 0 || (!onBeam() && lift_mm != 0))
            faults.push_back("bars that lie loose are not lifted by a beam");
        if (onBeam() && lift_mm > leaf_.opening_mm + 1e-9)
            faults.push_back(
                fmt::format("the beam is to rise by {:.3f} mm, it opens {:.3f} mm", lift_mm, leaf_.opening_mm));
        return faults;
    }

protected:
    [[nodiscard]] MachineBodies ownBodies() const override {
        const double thickness_mm = stroke().thickness_mm;
        MachineBodies bodies{pieceBodies(step(), thickness_mm),
                             {bedBody(brake(), step(), hinge_)},
                             SwungLeaf(brake(), step(), stroke(), *face_)};
        if (leaf_.beam.has_value()) bodies.standing.push_back(beamBody(brake(), step(), thickness_mm));
        return bodies;
    }

private:
    [[nodiscard]] bool onBeam() const { return leaf_.clamp == ClampKind::kOnBeam; }

    const LeafBrake& leaf_;
    Hinge hinge_;
    const LeafFace* face_;
};

}  // namespace

std::shared_ptr<const ReplayedMachine> replayedKind(const LeafBrake& leaf, const BrakeInSetup& brake,
                                                    const FoldStep& step, const Bending& stroke) {
    return std::make_shared<const ReplayedLeafBrake>(leaf, brake, step, stroke);
}

}  // namespace tinwright::replay
