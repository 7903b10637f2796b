// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/gltf/glb.h>

#include <optional>

#include <fmt/format.h>

#include <tinwright/base/contract.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>

#include "data/fold_place.h"
#include "gltf/glb_part.h"
#include "gltf/glb_press.h"
#include "gltf/glb_writer.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright {
namespace {

using namespace report;

constexpr int kKeys = 24;  // of a swing
constexpr double kSwing_s = 2.0;
constexpr double kSpringBack_s = 0.4;
constexpr double kReturn_s = 1.0;  // the leaf goes back to rest

/// The leaf about its hinge, front edge up.
Rigid leafPose(const Vec2& hinge, Angle angle) {
    Rigid pose = Rigid::Identity();
    pose.linear() = frontUp(angle);
    pose.translation() = Vec3(0, hinge.x(), hinge.y());
    return pose;
}

class PlanScene {
public:
    PlanScene(const PlanReport& report, const BrakeReport& brake_report)
        : report_(report),
          brake_(brake_report.result.brake),
          folded_(partOnBrake(report.part, report.shop, brake_)),
          part_(folded_.part()),
          plan_(brake_report.result.plans.front()),
          shapes_(folded_),
          tools_(brake_),
          part_nodes_(shapes_, brake_),
          writer_(printable(report.part.name)) {}

    std::string run() {
        const std::size_t sheet = writer_.addMaterial("sheet", {0.55, 0.60, 0.65});
        const std::size_t machine = writer_.addMaterial("machine", {0.25, 0.25, 0.25});
        const std::size_t bars = writer_.addMaterial("bars", {0.80, 0.40, 0.0});
        const std::vector<FoldScene> scenes = foldScenes();
        if (brake_->isPress()) {
            press_.emplace(plan_, tools_);
            press_->addMachine(writer_, machine, scenes.front());
            for (std::size_t f = 0; f < scenes.size(); ++f) press_->addPieces(writer_, bars, scenes[f], f);
        } else {
            addMachine(machine);
            addBars(bars);
        }
        part_nodes_.addNodes(
            writer_, sheet,
            part_nodes_.posesOf(scenes.front(), plan_.folds.front().part_x_mm, scenes.front().at(Angle()), 0, 0));
        for (std::size_t f = 0; f < scenes.size(); ++f) {
            const std::vector<GlbTrack> tracks =
                press_ ? press_->tracks(part_nodes_, scenes[f], f) : leafTracks(scenes[f], f);
            writer_.addAnimation(fmt::format("fold {}: {}", f + 1, printable(strokeName(part_, plan_.folds[f].bends))),
                                 tracks);
        }
        return writer_.file();
    }

private:
    [[nodiscard]] std::vector<FoldScene> foldScenes() const {
        std::vector<FoldScene> scenes;
        for (const FoldPlace& place : foldPlaces(plan_.folds, report_.formed)) {
            const FoldStep& step = plan_.folds[place.number - 1];
            scenes.emplace_back(shapes_, brake_, FoldCase{place.formed_before, step.bends, step.hold, step.set_angle});
        }
        return scenes;
    }

    void addMachine(std::size_t colour) {
        const double setback = brake_.setback_mm();
        hinge_ = Vec2(-setback, brake_->leaf().hinge_height_mm);
        writer_.addNode("bed", extruded(tools_.bed_pieces, Vec2(-setback, 0), 0, brake_->length_mm), colour,
                        Rigid::Identity());
        if (brake_->leaf().beam.has_value()) {
            const double under = brake_->leaf().beam->height_mm + part_.thickness_mm;
            const double front = brake_->leaf().beam->front_y_mm;
            const Polygon section{
                {front, under}, {front + 120, under}, {front + 120, under + 120}, {front, under + 120}};
            writer_.addNode("beam", {extruded(section, 0, brake_->length_mm)}, colour, Rigid::Identity());
        }
        for (const LeafFace& face : brake_->leaf().leaf_faces) {
            const double top = -hinge_.y();
            const Polygon section{{-face.reach_mm, top - face.thickness_mm},
                                  {0, top - face.thickness_mm},
                                  {0, top},
                                  {-face.reach_mm, top}};
            const bool stands = plan_.folds.front().leaf_face == face.name;
            leaves_.push_back(writer_.addNode("leaf " + printable(face.name), {extruded(section, 0, brake_->length_mm)},
                                              colour, leafPose(hinge_, Angle()), stands ? 1 : 0));
        }
    }

    void addBars(std::size_t colour) {
        for (std::size_t f = 0; f < plan_.folds.size(); ++f) {
            const FoldStep& step = plan_.folds[f];
            for (const PlacedBar& bar : step.bars) {
                const std::string name = fmt::format("fold {} bar {}", f + 1, printable(brake_->tool(bar.bar).id));
                const auto slabs =
                    extruded(tools_.bar_pieces[bar.bar.index()], Vec2(0, part_.thickness_mm), bar.from_mm, bar.to_mm);
                bars_.push_back(
                    {writer_.addNode(name, slabs, colour, alongMachine(step.part_x_mm), f == 0 ? 1 : 0), f});
            }
        }
    }

    [[nodiscard]] std::vector<GlbTrack> leafTracks(const FoldScene& scene, std::size_t fold) const {
        const FoldStep& step = plan_.folds[fold];
        const double set = step.set_angle.rad();
        std::vector<std::vector<Rigid>> moments;
        GlbTrack leaf;
        for (int i = 0; i <= kKeys; ++i) {
            const double share = static_cast<double>(i) / kKeys;
            moments.push_back(
                part_nodes_.posesOf(scene, step.part_x_mm, scene.at(Angle::radians(set * share)), set * share, share));
            leaf.times_s.push_back(static_cast<float>(kSwing_s * share));
            leaf.poses.push_back(leafPose(hinge_, Angle::radians(set * share)));
        }
        std::vector<float> sheet_times_s = leaf.times_s;
        sheet_times_s.push_back(static_cast<float>(kSwing_s + kSpringBack_s));
        moments.push_back(part_nodes_.posesOf(scene, step.part_x_mm, scene.after(), step.angle.rad(), 1));
        leaf.times_s.push_back(static_cast<float>(kSwing_s + kReturn_s));
        leaf.poses.push_back(leafPose(hinge_, Angle()));
        std::vector<GlbTrack> tracks;
        for (std::size_t i = 0; i < brake_->leaf().leaf_faces.size(); ++i) {
            leaf.node = leaves_[i];
            leaf.scales.assign(leaf.times_s.size(), brake_->leaf().leaf_faces[i].name == step.leaf_face ? 1 : 0);
            tracks.push_back(leaf);
        }
        part_nodes_.addTracks(tracks, sheet_times_s, moments);
        for (const auto& [node, its_fold] : bars_) tracks.push_back({node, {0.0F}, {}, {its_fold == fold ? 1.0 : 0.0}});
        return tracks;
    }

    const PlanReport& report_;
    const BrakeInSetup& brake_;
    const PartOnBrake folded_;
    const Part& part_;
    const Plan& plan_;
    PartShapes shapes_;
    ToolShapes tools_;
    GlbPart part_nodes_;
    GlbWriter writer_;
    Vec2 hinge_ = Vec2::Zero();
    std::vector<std::size_t> leaves_;
    std::vector<std::pair<std::size_t, std::size_t>> bars_;  ///< node, fold
    std::optional<GlbPress> press_;
};

}  // namespace

std::string planGlb(const PlanReport& report, const BrakeReport& brake) {
    TINWRIGHT_REQUIRE(!brake.result.plans.empty() && !brake.result.plans.front().folds.empty(),
                      "there is a plan to show");
    return PlanScene(report, brake).run();
}

}  // namespace tinwright
