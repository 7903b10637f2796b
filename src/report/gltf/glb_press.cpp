// SPDX-License-Identifier: GPL-3.0-or-later
#include <optional>

#include <fmt/format.h>

#include "gltf/glb_machine.h"
#include "scene/press_tools.h"
#include "scene/way_poses.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright::report {
namespace {

constexpr double kClose_s = 1.0;  // the ram comes down on the sheet
constexpr double kStroke_s = 2.0;
constexpr double kSpringBack_s = 0.4;
constexpr double kOpen_s = 1.0;
constexpr double kLeave_s = 0.5;  // of each stretch of the part's way out

bool isPiece(const PressTool& tool) {
    return tool.body.kind == BodyRef::Kind::kPunch || tool.body.kind == BodyRef::Kind::kDie;
}

/// A press brake in a glTF file: dies and bed stand still, ram and punches come down.
class GlbPress final : public GlbMachine {
public:
    GlbPress(const Plan& plan, const ToolShapes& tools) : plan_(plan), brake_(tools.brake), tools_(tools) {}

    /// Ram, bed and side frames as the tools of the first fold have them, whose scene that is; what comes down as it
    /// stands when the punch touches the flat sheet.
    void addMachine(GlbWriter& writer, std::size_t colour, const FoldScene& first) override;
    void addPieces(GlbWriter& writer, std::size_t colour, const FoldScene& scene, std::size_t fold) override;

    /// The ram comes down, bends, goes up as far as the sheet springs back, and opens; then the part leaves by its way.
    [[nodiscard]] std::vector<GlbTrack> tracks(const GlbPart& part, const FoldScene& scene,
                                               std::size_t fold) const override;

private:
    struct Moments {
        std::vector<float> times_s;
        std::vector<double> punches_mm;  ///< over where they touch the flat sheet
        std::vector<std::vector<Rigid>> sheets;

        void add(double after_s, double punch_mm, std::vector<Rigid> sheet);
    };
    struct PieceNode {
        std::size_t node;
        std::size_t fold;
        bool comes_down;  ///< with the ram
    };
    [[nodiscard]] std::vector<PressTool> toolsOf(const FoldScene& scene, const FoldStep& step) const;
    [[nodiscard]] double heightOf(const FoldStep& step, ToolRow row) const;
    [[nodiscard]] Moments momentsOf(const GlbPart& part, const FoldScene& scene, const FoldStep& step) const;

    const Plan& plan_;
    const BrakeInSetup& brake_;
    const ToolShapes& tools_;
    std::optional<std::size_t> ram_;
    std::optional<std::size_t> bed_;
    std::vector<PieceNode> pieces_;
};

std::vector<PressTool> GlbPress::toolsOf(const FoldScene& scene, const FoldStep& step) const {
    const FoldView view{.scene = scene,
                        .tools = tools_,
                        .bars = step.tools,
                        .part_x_mm = step.part_x_mm,
                        .place_known = true,
                        .leaf_face = {},
                        .tight_at = {},
                        .tight_between = {},
                        .tight = {},
                        .room_mm = {},
                        .gauge = {}};
    return pressTools(view, 0);
}

double GlbPress::heightOf(const FoldStep& step, ToolRow row) const {
    const Tool* const bar = firstOf(*brake_, step.tools, row);
    return bar == nullptr ? 0.0 : bar->height_mm;
}

void GlbPress::addMachine(GlbWriter& writer, std::size_t colour, const FoldScene& first) {
    const FoldStep& step = plan_.folds.front();
    for (const PressTool& tool : toolsOf(first, step)) {
        if (isPiece(tool)) continue;
        const char* const side = tool.body.kind != BodyRef::Kind::kFrame                   ? ""
                                 : tool.from_mm + step.part_x_mm < 0.5 * brake_->length_mm ? "left "
                                                                                           : "right ";
        const std::size_t node = writer.addNode(side + bodyName(first.part(), brake_, tool.body), tool.slabs, colour,
                                                alongMachine(step.part_x_mm));
        if (tool.body.kind == BodyRef::Kind::kRam) ram_ = node;
        if (tool.body.kind == BodyRef::Kind::kBed) bed_ = node;
    }
}

void GlbPress::addPieces(GlbWriter& writer, std::size_t colour, const FoldScene& scene, std::size_t fold) {
    const FoldStep& step = plan_.folds[fold];
    for (const PressTool& tool : toolsOf(scene, step)) {
        if (!isPiece(tool)) continue;
        const std::string name =
            fmt::format("fold {} {}", fold + 1, printable(bodyName(scene.part(), brake_, tool.body)));
        pieces_.push_back({writer.addNode(name, tool.slabs, colour, alongMachine(step.part_x_mm), fold == 0 ? 1 : 0),
                           fold, tool.comesDown()});
    }
}

void GlbPress::Moments::add(double after_s, double punch_mm, std::vector<Rigid> sheet) {
    times_s.push_back(times_s.empty() ? 0.0F : times_s.back() + static_cast<float>(after_s));
    punches_mm.push_back(punch_mm);
    sheets.push_back(std::move(sheet));
}

GlbPress::Moments GlbPress::momentsOf(const GlbPart& part, const FoldScene& scene, const FoldStep& step) const {
    const double set = step.set_angle.rad();
    const auto sheetAt = [&](double share) {
        return part.posesOf(scene, step.part_x_mm, scene.at(Angle::radians(set * share)), set * share, share);
    };
    Moments moments;
    moments.add(0, step.lift_in_mm, sheetAt(0));
    moments.add(kClose_s, 0, sheetAt(0));
    for (int i = 1; i <= kStrokeKeys; ++i) {
        const double share = static_cast<double>(i) / kStrokeKeys;
        moments.add(kStroke_s / kStrokeKeys, -scene.punchDown_mm(Angle::radians(set * share)), sheetAt(share));
    }
    const double sprung = -scene.punchDownAfter_mm();
    const std::vector<Rigid> bent = part.posesOf(scene, step.part_x_mm, scene.after(), step.angle.rad(), 1);
    moments.add(kSpringBack_s, sprung, bent);
    moments.add(kOpen_s, sprung + step.lift_out_mm, bent);
    // The way is told in the frame where the punch stood still.
    const Rigid model = alongMachine(step.part_x_mm) * upward(sprung);
    for (const WayPose& on_way : posesOnWayOut(step)) {
        std::vector<Rigid> moved;
        for (const Rigid& pose : bent) moved.push_back(model * on_way.part * model.inverse() * pose);
        moments.add(kLeave_s, sprung + step.lift_out_mm + on_way.ram_mm, std::move(moved));
    }
    return moments;
}

std::vector<GlbTrack> GlbPress::tracks(const GlbPart& part, const FoldScene& scene, std::size_t fold) const {
    const FoldStep& step = plan_.folds[fold];
    const FoldStep& first = plan_.folds.front();
    const Moments moments = momentsOf(part, scene, step);
    const auto comingDown = [&](std::size_t node, double x_mm, double over_mm) {
        GlbTrack track{node, moments.times_s, {}, {}};
        for (const double punch_mm : moments.punches_mm)
            track.poses.push_back(alongMachine(x_mm) * upward(punch_mm + over_mm));
        return track;
    };
    std::vector<GlbTrack> tracks;
    // Other tools may be higher than those of the first fold.
    if (ram_)
        tracks.push_back(
            comingDown(*ram_, first.part_x_mm, heightOf(step, ToolRow::kUpper) - heightOf(first, ToolRow::kUpper)));
    if (bed_)
        tracks.push_back({*bed_,
                          {0.0F},
                          {alongMachine(first.part_x_mm) *
                           upward(heightOf(first, ToolRow::kLower) - heightOf(step, ToolRow::kLower))},
                          {}});
    part.addTracks(tracks, moments.times_s, moments.sheets);
    for (const PieceNode& piece : pieces_) {
        GlbTrack track{piece.node, {0.0F}, {}, {}};
        if (piece.fold == fold && piece.comes_down) track = comingDown(piece.node, step.part_x_mm, 0);
        track.scales.assign(track.times_s.size(), piece.fold == fold ? 1.0 : 0.0);
        tracks.push_back(std::move(track));
    }
    return tracks;
}

}  // namespace

std::unique_ptr<GlbMachine> glbOfKind(const PressBrake& /*kind*/, const Plan& plan, const ToolShapes& tools) {
    return std::make_unique<GlbPress>(plan, tools);
}

}  // namespace tinwright::report
