// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/press_tools.h"

#include <algorithm>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/geometry/polygons.h>

#include "scene/machine_bodies.h"

namespace tinwright::report {
namespace {

constexpr double kFrameThick_mm = 40;  // of what is shown of a side frame
constexpr double kFrameDeep_mm = 400;
constexpr double kFrameHigh_mm = 600;

class Gathering {
public:
    Gathering(const FoldView& view, double down_mm)
        : view_(view),
          brake_(view.scene.brake()),
          tip_mm_(tipHeight_mm(view.scene, down_mm)),
          left_mm_(view.left_mm()),
          right_mm_(view.right_mm()) {}

    std::vector<PressTool> run() {
        bed();
        frames();
        ram();
        for (const ToolRow row : {ToolRow::kLower, ToolRow::kUpper}) {
            for (const PlacedTool& piece : view_.bars) {
                if (brake_->rowOf(piece.tool) == row) add(piece);
            }
        }
        return std::move(tools_);
    }

private:
    void bed() {
        const Tool* die = firstOf(*brake_, view_.bars, ToolRow::kLower);
        if (brake_->press().bed.empty()) return;
        const Vec2 by(0, die == nullptr ? 0 : -die->height_mm);
        tools_.push_back({BodyRef::Kind::kBed, shifted(brake_->press().bed, by), left_mm_, right_mm_,
                          extruded(view_.tools.bodyPieces(BodyRef::Kind::kBed), by, left_mm_, right_mm_)});
    }

    void ram() {
        const Tool* punch = firstOf(*brake_, view_.bars, ToolRow::kUpper);
        if (brake_->press().ram.empty()) return;
        const Vec2 by(0, tip_mm_ + (punch == nullptr ? 0 : punch->height_mm));
        tools_.push_back({BodyRef::Kind::kRam, shifted(brake_->press().ram, by), left_mm_, right_mm_,
                          extruded(view_.tools.bodyPieces(BodyRef::Kind::kRam), by, left_mm_, right_mm_)});
    }

    void frames() {
        const PressBrake& press = brake_->press();
        if (press.throat_mm <= 0 || !view_.place_known) return;
        const double back = press.throat_mm + kFrameDeep_mm;
        const Polygon section{Vec2(press.throat_mm, -kFrameHigh_mm), Vec2(back, -kFrameHigh_mm),
                              Vec2(back, kFrameHigh_mm), Vec2(press.throat_mm, kFrameHigh_mm)};
        const double left = press.frames_left_mm - view_.part_x_mm;
        const double right = press.frames_right_mm - view_.part_x_mm;
        for (const auto& [from, to] :
             {std::pair(left - kFrameThick_mm, left), std::pair(right, right + kFrameThick_mm)}) {
            tools_.push_back({BodyRef::Kind::kFrame, section, from, to, {extruded(section, from, to)}});
        }
    }

    void add(const PlacedTool& piece) {
        const Tool& bar = brake_->tool(piece.tool);
        const bool is_die = brake_->rowOf(piece.tool) == ToolRow::kLower;
        const Vec2 by(0, is_die ? 0 : tip_mm_);
        tools_.push_back({BodyRef(is_die ? BodyRef::Kind::kDie : BodyRef::Kind::kPunch, piece.tool),
                          shifted(bar.profile, by), piece.from_mm, piece.to_mm,
                          view_.tools.piece(piece.tool, by, piece.from_mm, piece.to_mm)});
    }

    const FoldView& view_;
    const BrakeInSetup& brake_;
    double tip_mm_;
    double left_mm_;
    double right_mm_;
    std::vector<PressTool> tools_;
};

/// The widest piece of a section: that of `like`, else that which comes first in the shop.
std::optional<ToolId> widestLike(const BrakeInSetup& brake, ToolRow row, std::optional<ToolId> like) {
    std::optional<ToolId> widest = like;
    for (const ToolId tool : brake.tools(row)) {
        const bool wider =
            widest && sameSection(*brake, tool, *widest) && brake->tool(tool).width_mm > brake->tool(*widest).width_mm;
        if (!widest || wider) widest = tool;
    }
    return widest;
}

class PressBodies final : public MachineBodies {
public:
    [[nodiscard]] std::vector<BodySection> sections(const Brake& brake) const override {
        return {{BodyRef::Kind::kBed, brake.press().bed}, {BodyRef::Kind::kRam, brake.press().ram}};
    }

    [[nodiscard]] std::vector<Slab> slabsOf(const FoldView& view, BodyRef body, Angle angle) const override {
        std::vector<Slab> slabs;
        for (const PressTool& tool : pressTools(view, view.scene.punchDown_mm(angle))) {
            if (isMeant(tool.body, body)) slabs.insert(slabs.end(), tool.slabs.begin(), tool.slabs.end());
        }
        return slabs;
    }

    /// Of the sections that the contact is told for; a row of which nothing is told has the shop's first section.
    [[nodiscard]] std::vector<PlacedTool> likelyPieces(const FoldScene& scene, const Reason& reason) const override {
        const BrakeInSetup& brake = scene.brake();
        std::vector<ToolId> told = reason.heights_of;
        if (reason.tool) told.insert(told.begin(), *reason.tool);
        std::vector<PlacedTool> pieces;
        for (const ToolRow row : {ToolRow::kLower, ToolRow::kUpper}) {
            const auto one =
                std::find_if(told.begin(), told.end(), [&](ToolId tool) { return brake->rowOf(tool) == row; });
            const std::optional<ToolId> kind =
                widestLike(brake, row, one == told.end() ? std::nullopt : std::optional<ToolId>(*one));
            if (kind) pieces.push_back(overTheMiddle(scene, *kind));
        }
        return pieces;
    }
};

}  // namespace

const MachineBodies& bodiesOfKind(const PressBrake& /*kind*/) {
    static const PressBodies kBodies;
    return kBodies;
}

double tipHeight_mm(const FoldScene& scene, double down_mm) { return scene.thickness_mm() - down_mm; }

const Tool* firstOf(const Brake& brake, const std::vector<PlacedTool>& pieces, ToolRow row) {
    const auto piece = std::find_if(pieces.begin(), pieces.end(),
                                    [&](const PlacedTool& placed) { return brake.rowOf(placed.tool) == row; });
    return piece == pieces.end() ? nullptr : &brake.tool(piece->tool);
}

std::vector<PressTool> pressTools(const FoldView& view, double down_mm) { return Gathering(view, down_mm).run(); }

}  // namespace tinwright::report
