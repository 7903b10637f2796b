// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/glb.h>

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/base/contract.h>

#include "glb_writer.h"
#include "press_tools.h"
#include "way_poses.h"
#include "words.h"
#include "wrap.h"

namespace tinwright {
namespace {

using namespace report;

constexpr int kSlices = 8;           // of every strip: each a flat slab that turns with its share of the bend
constexpr int kKeys = 24;            // of a swing
constexpr double kSwing_s = 2.0;
constexpr double kSpringBack_s = 0.4;
constexpr double kReturn_s = 1.0;    // the leaf goes back to rest, the ram opens
constexpr double kClose_s = 1.0;     // the ram comes down on the sheet
constexpr double kLeave_s = 0.5;     // of each stretch of the part's way out

Slab box(const Vec2& start, const Vec2& u, const Vec2& along, const StripSpan& span, double u0, double u1, double thickness_mm) {
    Slab slab;
    for (const Vec2& p : {Vec2(start + span.from_mm * along + u0 * u), Vec2(start + span.to_mm * along + u0 * u),
                          Vec2(start + span.to_mm * along + u1 * u), Vec2(start + span.from_mm * along + u1 * u)}) {
        slab.lower.emplace_back(p.x(), p.y(), 0);
        slab.upper.emplace_back(p.x(), p.y(), thickness_mm);
    }
    return slab;
}

Rigid along(double x_mm) { return Rigid(Eigen::Translation3d(x_mm, 0, 0)); }
Rigid up(double z_mm) { return Rigid(Eigen::Translation3d(0, 0, z_mm)); }

/// The leaf about its hinge, front edge up.
Rigid leafPose(const Vec2& hinge, Angle angle) {
    Rigid pose = Rigid::Identity();
    pose.linear() = frontUp(angle);
    pose.translation() = Vec3(0, hinge.x(), hinge.y());
    return pose;
}

/// How a slice of a strip lies in the frame of the sheet where the strip's arc starts (see parentFromChild): at a tangent line, or on a press brake
/// in the middle, `from_middle_mm` along from it.
Rigid slicePose(const Bend& bend, double thickness_mm, double radius_mm, bool from_parent, double from_middle_mm, double u_mm, Angle angle) {
    Bend rolled = bend;
    rolled.toward_child = from_parent ? bend.toward_child : Vec2(-bend.toward_child);
    const Vec2 start = bend.origin + from_middle_mm * rolled.toward_child;
    rolled.allowance_mm = u_mm;
    rolled.origin = start + 0.5 * u_mm * rolled.toward_child;
    return parentFromChild(rolled, thickness_mm, angle, radius_mm);
}

class PlanScene {
public:
    PlanScene(const PlanReport& report, const BrakeReport& brake_report)
        : report_(report), part_(report.part), brake_(report.shop.brakes[brake_report.brake]), plan_(brake_report.result.plans.front()),
          shapes_(report.part), tools_(brake_), writer_(printable(report.part.name)) {}

    std::string run() {
        part_colour_ = writer_.addMaterial("sheet", {0.55, 0.60, 0.65});
        const std::size_t machine = writer_.addMaterial("machine", {0.25, 0.25, 0.25});
        bar_colour_ = writer_.addMaterial("bars", {0.80, 0.40, 0.0});
        if (brake_.isPress()) {
            addPressMachine(machine);
        } else {
            addMachine(machine);
            addBars();
        }
        BendMask formed = report_.formed;
        for (std::size_t f = 0; f < plan_.folds.size(); ++f) {
            const FoldStep& step = plan_.folds[f];
            const FoldScene scene(shapes_, brake_, {formed, step.bends, step.hold, step.set_angle});
            if (f == 0) addPart(scene, step);
            if (brake_.isPress()) {
                animatePress(scene, step, f);
            } else {
                animate(scene, step, f);
            }
            formed |= maskOf(step.bends);
        }
        return writer_.file();
    }

private:
    void addMachine(std::size_t colour) {
        const double setback = brake_.setbackFor_mm(part_.thickness_mm);
        hinge_ = Vec2(-setback, brake_.hinge_height_mm);
        writer_.addNode("bed", extruded(tools_.bed_pieces, Vec2(-setback, 0), 0, brake_.length_mm), colour, Rigid::Identity());
        if (brake_.has_beam) {
            const double under = brake_.beam.height_mm + part_.thickness_mm;
            const double front = brake_.beam.front_y_mm;
            const Polygon section{{front, under}, {front + 120, under}, {front + 120, under + 120}, {front, under + 120}};
            writer_.addNode("beam", {extruded(section, 0, brake_.length_mm)}, colour, Rigid::Identity());
        }
        for (const LeafFace& face : brake_.leaf_faces) {
            const double top = -hinge_.y();
            const Polygon section{{-face.reach_mm, top - face.thickness_mm}, {0, top - face.thickness_mm}, {0, top}, {-face.reach_mm, top}};
            const bool stands = plan_.folds.front().leaf_face == face.name;
            leaves_.push_back(writer_.addNode("leaf " + printable(face.name), {extruded(section, 0, brake_.length_mm)}, colour, leafPose(hinge_, Angle()), stands ? 1 : 0));
        }
    }

    void addPressMachine(std::size_t colour) {
        BendMask formed = report_.formed;
        for (std::size_t f = 0; f < plan_.folds.size(); ++f) {
            const FoldStep& step = plan_.folds[f];
            const FoldScene scene(shapes_, brake_, {formed, step.bends, step.hold, step.set_angle});
            if (f == 0) addPress(scene, colour);
            addPressPieces(scene, step, f);
            formed |= maskOf(step.bends);
        }
    }

    /// Ram and bed where the tools of the first fold have them; what comes down as it stands when the punch touches the flat sheet.
    void addPress(const FoldScene& scene, std::size_t colour) {
        const FoldStep& first = plan_.folds.front();
        for (const PressTool& tool : toolsOf(scene, first)) {
            if (tool.kind == PressTool::Kind::kPunch || tool.kind == PressTool::Kind::kDie) continue;
            const char* const side = tool.kind != PressTool::Kind::kFrame ? "" : tool.from_mm + first.part_x_mm < 0.5 * brake_.length_mm ? "left " : "right ";
            const std::size_t node = writer_.addNode(side + tool.name, tool.slabs, colour, along(first.part_x_mm));
            if (tool.kind == PressTool::Kind::kRam) ram_ = node;
            if (tool.kind == PressTool::Kind::kBed) bed_ = node;
        }
    }

    [[nodiscard]] std::vector<PressTool> toolsOf(const FoldScene& scene, const FoldStep& step) const {
        return pressTools({scene, tools_, step.bars, step.part_x_mm, true, nullptr, 0, {}, {}, {}, {}, 0}, 0);
    }

    void addPressPieces(const FoldScene& scene, const FoldStep& step, std::size_t fold) {
        for (const PressTool& tool : toolsOf(scene, step)) {
            if (tool.kind != PressTool::Kind::kPunch && tool.kind != PressTool::Kind::kDie) continue;
            const std::string name = fmt::format("fold {} {}", fold + 1, printable(tool.name));
            bars_.push_back({writer_.addNode(name, tool.slabs, bar_colour_, along(step.part_x_mm), fold == 0 ? 1 : 0), fold, tool.comesDown()});
        }
    }

    [[nodiscard]] double heightOf(const FoldStep& step, ToolRow row) const {
        const Bar* const bar = firstOf(brake_, step.bars, row);
        return bar == nullptr ? 0.0 : bar->height_mm;
    }

    void addBars() {
        for (std::size_t f = 0; f < plan_.folds.size(); ++f) {
            const FoldStep& step = plan_.folds[f];
            for (const PlacedBar& bar : step.bars) {
                const std::string name = fmt::format("fold {} bar {}", f + 1, printable(brake_.bars[bar.bar.index()].id));
                const auto slabs = extruded(tools_.bar_pieces[bar.bar.index()], Vec2(0, part_.thickness_mm), bar.from_mm, bar.to_mm);
                bars_.push_back({writer_.addNode(name, slabs, bar_colour_, along(step.part_x_mm), f == 0 ? 1 : 0), f, false});
            }
        }
    }

    void addPart(const FoldScene& scene, const FoldStep& step) {
        const std::vector<Rigid> poses = posesOf(scene, step, scene.at(Angle()), 0, 0);
        for (std::size_t i = 0; i < part_.panels.size(); ++i) {
            std::vector<Slab> slabs;
            for (const Polygon& piece : shapes_.panel_pieces[i]) {
                Slab slab;
                for (const Vec2& p : piece) {
                    slab.lower.emplace_back(p.x(), p.y(), 0);
                    slab.upper.emplace_back(p.x(), p.y(), part_.thickness_mm);
                }
                slabs.push_back(std::move(slab));
            }
            const std::size_t node = writer_.addNode(printable(part_.panels[i].name), slabs, part_colour_, poses[i]);
            if (i == 0) first_ = node;
        }
        for (std::size_t b = 0; b < part_.bends.size(); ++b) addStrip(b, poses);
    }

    void addStrip(std::size_t index, const std::vector<Rigid>& poses) {
        const Bend& bend = part_.bends[index];
        const Vec2 start = bend.origin - 0.5 * bend.allowance_mm * bend.toward_child;
        for (int k = 0; k < kSlices; ++k) {
            std::vector<Slab> slabs;
            for (const StripSpan& span : bend.spans) {
                slabs.push_back(box(start, bend.toward_child, bend.along, span, bend.allowance_mm * k / kSlices, bend.allowance_mm * (k + 1) / kSlices, part_.thickness_mm));
            }
            const std::size_t at = part_.panels.size() + index * kSlices + static_cast<std::size_t>(k);
            writer_.addNode(fmt::format("bend {} {}", printable(bend.name), k + 1), slabs, part_colour_, poses[at]);
        }
    }

    /// Of all panels, then of all slices of all bends, in the frame of the machine. `angle` and `share` are those of the new strips.
    [[nodiscard]] std::vector<Rigid> posesOf(const FoldScene& scene, const FoldStep& step, const std::vector<PartBody>& bodies, double angle_rad, double share) const {
        std::vector<Rigid> poses;
        for (const PartBody& body : bodies) {
            const Rigid pose = along(step.part_x_mm) * body.pose;
            if (!body.is_strip) {
                poses.push_back(pose);
                continue;
            }
            const Bend& bend = part_.bend(body.bend);
            const bool from_parent = body.panel == bend.parent;
            const bool formed = contains(scene.fold().formed, body.bend);
            const double full = body.is_new ? angle_rad : formed ? bend.angle.rad() : 0.0;
            const double rolled = bend.allowance_mm * (body.is_new ? share : formed ? 1.0 : 0.0);
            for (int k = 0; k < kSlices; ++k) {
                if (body.is_new && brake_.isPress()) {
                    poses.push_back(pose * sliceFromMiddle(bend, k, 0.5 * angle_rad, 0.5 * rolled));
                    continue;
                }
                const double from_start = from_parent ? k + 0.5 : kSlices - k - 0.5;
                const double u = std::min(bend.allowance_mm * from_start / kSlices, rolled);
                const Angle turn = Angle::radians(rolled > 0 ? full * u / rolled : 0.0);
                poses.push_back(pose * slicePose(bend, part_.thickness_mm, brake_.nose_radius_mm, from_parent, -0.5 * bend.allowance_mm, u, turn));
            }
        }
        return poses;
    }

    /// Of a strip that is being bent by a punch in its middle; half of what is bent.
    [[nodiscard]] Rigid sliceFromMiddle(const Bend& bend, int slice, double half_angle_rad, double half_rolled_mm) const {
        const double at_mm = bend.allowance_mm * ((slice + 0.5) / kSlices - 0.5);
        const double u = std::min(std::abs(at_mm), half_rolled_mm);
        const Angle turn = Angle::radians(half_rolled_mm > 0 ? half_angle_rad * u / half_rolled_mm : 0.0);
        return slicePose(bend, part_.thickness_mm, brake_.nose_radius_mm, at_mm > 0, 0, u, turn);
    }

    /// The ram comes down, bends, goes up as far as the sheet springs back, and opens; then the part leaves.
    void animatePress(const FoldScene& scene, const FoldStep& step, std::size_t fold) {
        const double set = step.set_angle.rad();
        const auto sheetAt = [&](double share) { return posesOf(scene, step, scene.at(Angle::radians(set * share)), set * share, share); };
        PressMoments moments;
        moments.add(0, step.lift_in_mm, sheetAt(0));
        moments.add(kClose_s, 0, sheetAt(0));
        for (int i = 1; i <= kKeys; ++i) {
            const double share = static_cast<double>(i) / kKeys;
            moments.add(kSwing_s / kKeys, -scene.punchDown_mm(Angle::radians(set * share)), sheetAt(share));
        }
        const double sprung = -scene.punchDownAfter_mm();
        const std::vector<Rigid> bent = posesOf(scene, step, scene.after(), step.angle.rad(), 1);
        moments.add(kSpringBack_s, sprung, bent);
        moments.add(kReturn_s, sprung + step.lift_out_mm, bent);
        // The way is told in the frame where the punch stood still.
        const Rigid model = along(step.part_x_mm) * up(sprung);
        for (const Rigid& on_way : posesOnWayOut(step)) {
            std::vector<Rigid> moved;
            for (const Rigid& pose : bent) moved.push_back(model * on_way * model.inverse() * pose);
            moments.add(kLeave_s, sprung + step.lift_out_mm, std::move(moved));
        }
        addPressTracks(moments, step, fold);
    }

    struct PressMoments {
        std::vector<float> times_s;
        std::vector<double> punches_mm;  ///< over where they touch the flat sheet
        std::vector<std::vector<Rigid>> sheets;

        void add(double after_s, double punch_mm, std::vector<Rigid> sheet) {
            times_s.push_back(times_s.empty() ? 0.0F : times_s.back() + static_cast<float>(after_s));
            punches_mm.push_back(punch_mm);
            sheets.push_back(std::move(sheet));
        }
    };

    void addPressTracks(const PressMoments& moments, const FoldStep& step, std::size_t fold) {
        const FoldStep& first = plan_.folds.front();
        const auto comingDown = [&](std::size_t node, double x_mm, double over_mm) {
            GlbTrack track{node, moments.times_s, {}, {}};
            for (const double punch_mm : moments.punches_mm) track.poses.push_back(along(x_mm) * up(punch_mm + over_mm));
            return track;
        };
        std::vector<GlbTrack> tracks{comingDown(ram_, first.part_x_mm, heightOf(step, ToolRow::kUpper) - heightOf(first, ToolRow::kUpper))};
        tracks.push_back({bed_, {0.0F}, {along(first.part_x_mm) * up(heightOf(first, ToolRow::kDie) - heightOf(step, ToolRow::kDie))}, {}});
        for (std::size_t i = 0; i < moments.sheets.front().size(); ++i) {
            GlbTrack track{first_ + i, moments.times_s, {}, {}};
            for (const std::vector<Rigid>& sheet : moments.sheets) track.poses.push_back(sheet[i]);
            tracks.push_back(std::move(track));
        }
        for (const PieceNode& piece : bars_) {
            GlbTrack track{piece.node, {0.0F}, {}, {}};
            if (piece.fold == fold && piece.comes_down) track = comingDown(piece.node, step.part_x_mm, 0);
            track.scales.assign(track.times_s.size(), piece.fold == fold ? 1.0 : 0.0);
            tracks.push_back(std::move(track));
        }
        writer_.addAnimation(fmt::format("fold {}: {}", fold + 1, printable(strokeName(part_, step.bends))), tracks);
    }

    void animate(const FoldScene& scene, const FoldStep& step, std::size_t fold) {
        const double set = step.set_angle.rad();
        std::vector<std::vector<Rigid>> moments;
        GlbTrack leaf;
        for (int i = 0; i <= kKeys; ++i) {
            const double share = static_cast<double>(i) / kKeys;
            moments.push_back(posesOf(scene, step, scene.at(Angle::radians(set * share)), set * share, share));
            leaf.times_s.push_back(static_cast<float>(kSwing_s * share));
            leaf.poses.push_back(leafPose(hinge_, Angle::radians(set * share)));
        }
        GlbTrack sheet;
        sheet.times_s = leaf.times_s;
        sheet.times_s.push_back(static_cast<float>(kSwing_s + kSpringBack_s));
        moments.push_back(posesOf(scene, step, scene.after(), step.angle.rad(), 1));
        leaf.times_s.push_back(static_cast<float>(kSwing_s + kReturn_s));
        leaf.poses.push_back(leafPose(hinge_, Angle()));
        std::vector<GlbTrack> tracks;
        for (std::size_t i = 0; i < brake_.leaf_faces.size(); ++i) {
            leaf.node = leaves_[i];
            leaf.scales.assign(leaf.times_s.size(), brake_.leaf_faces[i].name == step.leaf_face ? 1 : 0);
            tracks.push_back(leaf);
        }
        for (std::size_t i = 0; i < moments.front().size(); ++i) {
            sheet.node = first_ + i;
            sheet.poses.clear();
            for (const std::vector<Rigid>& moment : moments) sheet.poses.push_back(moment[i]);
            tracks.push_back(sheet);
        }
        for (const PieceNode& bar : bars_) tracks.push_back({bar.node, {0.0F}, {}, {bar.fold == fold ? 1.0 : 0.0}});
        writer_.addAnimation(fmt::format("fold {}: {}", fold + 1, printable(strokeName(part_, step.bends))), tracks);
    }

    const PlanReport& report_;
    const Part& part_;
    const Brake& brake_;
    const Plan& plan_;
    PartShapes shapes_;
    ToolShapes tools_;
    GlbWriter writer_;
    Vec2 hinge_ = Vec2::Zero();
    std::size_t part_colour_ = 0;
    std::size_t bar_colour_ = 0;
    std::size_t first_ = 0;  ///< node of the first panel; the others and the slices follow
    std::vector<std::size_t> leaves_;
    std::size_t ram_ = 0;    ///< of a press brake
    std::size_t bed_ = 0;
    struct PieceNode {
        std::size_t node;
        std::size_t fold;
        bool comes_down;  ///< with the ram
    };
    std::vector<PieceNode> bars_;
};

}  // namespace

std::string planGlb(const PlanReport& report, const BrakeReport& brake) {
    TINWRIGHT_REQUIRE(!brake.result.plans.empty() && !brake.result.plans.front().folds.empty(), "there is a plan to show");
    return PlanScene(report, brake).run();
}

}  // namespace tinwright
