// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <tinwright/part/model/bend_frame.h>

#include "gltf/glb_machine.h"
#include "scene/leaf_tools.h"
#include "words/wrap.h"

namespace tinwright::report {
namespace {

constexpr double kSwing_s = 2.0;
constexpr double kLeafSpringBack_s = 0.4;
constexpr double kReturn_s = 1.0;  // the leaf goes back to rest
constexpr double kBeamDeep_mm = 120;

/// The leaf about its hinge, front edge up.
Rigid leafPose(const Vec2& hinge, Angle angle) {
    Rigid pose = Rigid::Identity();
    pose.linear() = frontUp(angle);
    pose.translation() = Vec3(0, hinge.x(), hinge.y());
    return pose;
}

/// The leaf swings, the part with it, and goes back to rest; all else stands still.
class GlbLeaf final : public GlbMachine {
public:
    GlbLeaf(const Plan& plan, const ToolShapes& tools)
        : plan_(plan), brake_(tools.brake), tools_(tools), hinge_(hingeFor(brake_)) {}

    void addMachine(GlbWriter& writer, std::size_t colour, const FoldScene& first) override {
        const double length_mm = brake_->length_mm;
        bed_ = writer.addNode(
            "bed", extruded(tools_.bodyPieces(BodyRef::Kind::kBed), Vec2(-brake_.setback_mm(), 0), 0, length_mm),
            colour, Rigid::Identity());
        if (brake_->leaf().beam.has_value())
            writer.addNode("beam", {extruded(beamSection(first, kBeamDeep_mm), 0, length_mm)}, colour,
                           Rigid::Identity());
        for (const LeafFace& face : brake_->leaf().leaf_faces) {
            const double top = -hinge_.y();
            const Polygon section{{-face.reach_mm, top - face.thickness_mm},
                                  {0, top - face.thickness_mm},
                                  {0, top},
                                  {-face.reach_mm, top}};
            const bool stands = plan_.folds.front().leaf_face == face.name;
            leaves_.push_back(writer.addNode("leaf " + printable(face.name), {extruded(section, 0, length_mm)}, colour,
                                             leafPose(hinge_, Angle()), stands ? 1 : 0));
        }
    }

    void addPieces(GlbWriter& writer, std::size_t colour, const FoldScene& scene, std::size_t fold) override {
        const FoldStep& step = plan_.folds[fold];
        addPacking(writer, colour, scene, fold);
        for (const PlacedTool& bar : step.tools) {
            const std::string name = fmt::format("fold {} bar {}", fold + 1, printable(brake_->tool(bar.tool).id));
            const auto slabs =
                extruded(tools_.bar_pieces[bar.tool.index()], Vec2(0, scene.thickness_mm()), bar.from_mm, bar.to_mm);
            bars_.push_back(
                {writer.addNode(name, slabs, colour, alongMachine(step.part_x_mm), fold == 0 ? 1 : 0), fold});
        }
    }

    [[nodiscard]] std::vector<GlbTrack> tracks(const GlbPart& part, const FoldScene& scene,
                                               std::size_t fold) const override {
        const FoldStep& step = plan_.folds[fold];
        const double set = step.set_angle.rad();
        const Vec2 hinge = hingeFor(step.on(brake_, scene.thickness_mm()));
        std::vector<std::vector<Rigid>> moments;
        GlbTrack leaf;
        for (int i = 0; i <= kStrokeKeys; ++i) {
            const double share = static_cast<double>(i) / kStrokeKeys;
            moments.push_back(
                part.posesOf(scene, step.part_x_mm, scene.at(Angle::radians(set * share)), set * share, share));
            leaf.times_s.push_back(static_cast<float>(kSwing_s * share));
            leaf.poses.push_back(leafPose(hinge, Angle::radians(set * share)));
        }
        std::vector<float> sheet_times_s = leaf.times_s;
        sheet_times_s.push_back(static_cast<float>(kSwing_s + kLeafSpringBack_s));
        moments.push_back(part.posesOf(scene, step.part_x_mm, scene.after(), step.angle.rad(), 1));
        leaf.times_s.push_back(static_cast<float>(kSwing_s + kReturn_s));
        leaf.poses.push_back(leafPose(hinge, Angle()));
        std::vector<GlbTrack> tracks;
        addPackingTracks(tracks, leaf, hinge, fold);
        for (std::size_t i = 0; i < leaves_.size(); ++i) {
            leaf.node = leaves_[i];
            leaf.scales.assign(leaf.times_s.size(), brake_->leaf().leaf_faces[i].name == step.leaf_face ? 1 : 0);
            tracks.push_back(leaf);
        }
        part.addTracks(tracks, sheet_times_s, moments);
        for (const auto& [node, its_fold] : bars_) tracks.push_back({node, {0.0F}, {}, {its_fold == fold ? 1.0 : 0.0}});
        return tracks;
    }

private:
    static Vec2 hingeFor(const BrakeInSetup& brake) { return {-brake.setback_mm(), brake.hinge_height_mm()}; }

    /// Strips under the sheet of a fold that is packed up; bed and leaf are lower for it.
    void addPacking(GlbWriter& writer, std::size_t colour, const FoldScene& scene, std::size_t fold) {
        const FoldStep& step = plan_.folds[fold];
        if (!step.packing) return;
        const FoldView view = viewOf(scene, tools_, step);
        const double from_mm = step.part_x_mm;
        const double to_mm = from_mm + scene.length_mm();
        const double visible = fold == 0 ? 1 : 0;
        Polygon on_leaf = packingOnLeaf(view, Angle());
        for (Vec2& corner : on_leaf) corner -= hingeFor(scene.brake());
        packing_.push_back(
            {writer.addNode(fmt::format("fold {} packing on the bed", fold + 1),
                            {extruded(packingOnBed(view), from_mm, to_mm)}, colour, Rigid::Identity(), visible),
             writer.addNode(fmt::format("fold {} packing on the leaf", fold + 1), {extruded(on_leaf, from_mm, to_mm)},
                            colour, leafPose(hingeFor(scene.brake()), Angle()), visible),
             fold});
    }

    void addPackingTracks(std::vector<GlbTrack>& tracks, const GlbTrack& leaf, const Vec2& hinge,
                          std::size_t fold) const {
        if (packing_.empty()) return;
        const Vec2 off = hinge - hinge_;
        Rigid bed = Rigid::Identity();
        bed.translation() = Vec3(0, off.x(), off.y());
        tracks.push_back({bed_, {0.0F}, {bed}, {}});
        for (const PackingNodes& nodes : packing_) {
            const double visible = nodes.fold == fold ? 1 : 0;
            tracks.push_back({nodes.on_bed, {0.0F}, {}, {visible}});
            tracks.push_back(leaf);
            tracks.back().node = nodes.on_leaf;
            tracks.back().scales.assign(leaf.times_s.size(), visible);
        }
    }

    struct PackingNodes {
        std::size_t on_bed = 0;
        std::size_t on_leaf = 0;
        std::size_t fold = 0;
    };
    const Plan& plan_;
    const BrakeInSetup& brake_;
    const ToolShapes& tools_;
    Vec2 hinge_;  ///< not packed up
    std::size_t bed_ = 0;
    std::vector<PackingNodes> packing_;
    std::vector<std::size_t> leaves_;                        ///< nodes by face
    std::vector<std::pair<std::size_t, std::size_t>> bars_;  ///< node, fold
};

}  // namespace

std::unique_ptr<GlbMachine> glbOfKind(const LeafBrake& /*kind*/, const Plan& plan, const ToolShapes& tools) {
    return std::make_unique<GlbLeaf>(plan, tools);
}

}  // namespace tinwright::report
