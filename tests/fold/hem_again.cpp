// SPDX-License-Identifier: GPL-3.0-or-later
#include "hem_again.h"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/part/model/pose.h>

#include "oracle_meeting.h"
#include "oracle_model.h"
#include "oracle_press.h"
#include "solids/inset.h"

namespace tinwright::oracle {

namespace {

using Eigen::Isometry3d;
using Eigen::Vector3d;

constexpr double kFar_mm = 3000;
constexpr int kAngles = 60;

// A tool where it is told, in the brake's own (y, z), and on which stretch of the machine.
struct Tool {
    std::string name;
    Region section;
    double x0 = -kFar_mm;
    double x1 = kFar_mm;
    double closed_z = 0;  // moved so when the hem is closed
    double open_z = 0;    // and when it is open
    bool gone = false;    // by the time the part leaves
};

class Closing {
public:
    Closing(const Part& folded, const Outlines& outlines, const BrakeInSetup& brake, BendMask formed,
            const FoldStep& step)
        : part_(folded),
          brake_(brake),
          step_(step),
          closing_(*step.closing),
          id_(step.stroke.first()),
          bend_(folded.bend(id_)),
          made_(finished(bend_)),
          at_rest_{&folded, formed, id_, Side::kChild, brake.inside_radius_mm()} {
        const double t = part_.thickness_mm;
        const double crest_y = closing_.front_mm + closing_.inserted_mm;
        const double line_y = crest_y - 0.5 * bend_.hem->gap_mm - t + 0.5 * bend_.hem->allowance_mm;
        frame_ = at_rest_.frame(bend_.origin, line_y);
        pieces_ = at_rest_.pieces(outlines, frame_);
        const double least = at_rest_.leastStrip_mm(frame_);
        along_x_ = closing_.part_x_mm - least;  // machine x of the frame's zero
    }

    std::string run() {
        const double height_mm = 2 * part_.thickness_mm + bend_.hem->gap_mm;
        if (std::abs(height_mm - closing_.height_mm) > 1e-6) return "another height";
        brake_->isPress() ? jawTools() : clampTools();
        for (std::size_t i = 0; i < pieces_.size(); ++i) {
            if (i == bend_.child.index() || i == part_.panels.size() + id_.index()) continue;
            for (const Tool& tool : tools_) {
                if (meets(pieces_[i], tool)) return fmt::format("{} meets {}", nameOf(i), tool.name);
            }
            if (i == bend_.parent.index()) continue;
            if (returnMeets(pieces_[i])) return fmt::format("the return meets {}", nameOf(i));
        }
        return {};
    }

private:
    [[nodiscard]] std::string nameOf(std::size_t i) const {
        return i < part_.panels.size() ? part_.panels[i].name : "bend " + part_.bends[i - part_.panels.size()].name;
    }

    void clampTools() {
        const double up = closing_.height_mm - part_.thickness_mm;  // over where it lies on one sheet
        const bool loose = brake_->leaf().clamp == ClampKind::kLooseBars;
        const double open = loose ? kFar_mm : brake_->leaf().opening_mm;
        tools_.push_back({"bed", bedSectionOf(brake_), -along_x_, brake_->length_mm - along_x_, 0, 0, false});
        const double s = brake_.setback_mm();
        for (const LeafFace& face : brake_->leaf().leaf_faces) {
            if (face.name != step_.leaf_face) continue;
            tools_.push_back({"leaf",
                              {{Vec2(-s - face.reach_mm, -face.thickness_mm), Vec2(-s, -face.thickness_mm), Vec2(-s, 0),
                                Vec2(-s - face.reach_mm, 0)},
                               {}},
                              -along_x_,
                              brake_->length_mm - along_x_,
                              0,
                              0,
                              false});
        }
        if (brake_->leaf().beam)
            tools_.push_back({"beam", beamSectionOf(brake_, part_.thickness_mm), -along_x_,
                              brake_->length_mm - along_x_, up, open, loose});
        for (const PlacedTool& placed : step_.tools) {
            const Bar& bar = *brake_->bar(placed.tool);
            const Region section = barSectionOf(bar, part_.thickness_mm);
            const double relief = bar.end_relief_height_mm > 0 ? bar.end_relief_mm : 0;
            const double cut_z = part_.thickness_mm + bar.end_relief_height_mm;
            addPieces("bar " + bar.id, relief > 0 ? cut(section, cut_z, kFar_mm) : std::vector<Region>{section}, placed,
                      0, 0, up, open, loose);
            if (relief > 0)
                addPieces("bar " + bar.id, cut(section, -kFar_mm, cut_z), placed, relief, relief, up, open, loose);
        }
    }

    // z = 0 at the floor of the jaw; the die's top so much over it when it is open.
    void jawTools() {
        double punch_mm = 0;
        const Die* die = nullptr;
        for (const PlacedTool& placed : step_.tools) {
            if (const Punch* punch = brake_->punch(placed.tool)) punch_mm = punch->height_mm;
            if (const Die* lower = brake_->die(placed.tool)) die = lower;
        }
        const Jaw& jaw = *die->jaw;
        const double top = die->height_mm - jaw.floor_mm;
        const double sinks = jaw.opening_mm - closing_.height_mm;
        const double tip_closed = top - sinks - 0.5 * die->vee.opening_mm / std::tan(0.5 * die->vee.angle.rad());
        const double tip_open = brake_->press().open_height_mm - 1 - punch_mm - jaw.floor_mm;
        for (const PlacedTool& placed : step_.tools) {
            const tinwright::Tool& bar = brake_->tool(placed.tool);
            const Punch* punch = brake_->punch(placed.tool);
            if (punch == nullptr) {
                const Region section = movedBy(bar.profile, Vec2(0, top));
                addPieces("die " + bar.id, cut(section, jaw.opening_mm, kFar_mm), placed, 0, 0, -sinks, 0, false);
                addPieces("die " + bar.id, cut(section, -kFar_mm, 0), placed, 0, 0, 0, 0, false);
                const double back = closing_.front_mm + jaw.depth_mm;
                addPieces("die " + bar.id,
                          intersection(section, {Vec2(back, 0), Vec2(kFar_mm, 0), Vec2(kFar_mm, jaw.opening_mm),
                                                 Vec2(back, jaw.opening_mm)}),
                          placed, 0, 0, 0, 0, false);
                continue;
            }
            const Region section{bar.profile, {}};
            if (!punch->horn) {
                addPieces("punch " + bar.id, {section}, placed, 0, 0, tip_closed, tip_open, false);
                continue;
            }
            addPieces("punch " + bar.id, cut(section, -kFar_mm, punch->horn->height_mm), placed, 0, 0, tip_closed,
                      tip_open, false);
            addPieces("punch " + bar.id, cut(section, punch->horn->height_mm, kFar_mm), placed,
                      punch->horn->at_left ? punch->horn->reach_mm : 0,
                      punch->horn->at_left ? 0 : punch->horn->reach_mm, tip_closed, tip_open, false);
        }
        tools_.push_back({"ram", movedBy(brake_->press().ram, Vec2(0, punch_mm)), -along_x_,
                          brake_->length_mm - along_x_, tip_closed, tip_open, false});
        tools_.push_back({"bed", movedBy(brake_->press().bed, Vec2(0, -jaw.floor_mm)), -along_x_,
                          brake_->length_mm - along_x_, 0, 0, false});
        if (brake_->press().throat_mm > 0) {
            tools_.push_back({"side frame", frameSectionOf(brake_), -kFar_mm, brake_->press().frames_left_mm - along_x_,
                              0, 0, false});
            tools_.push_back({"side frame", frameSectionOf(brake_), brake_->press().frames_right_mm - along_x_, kFar_mm,
                              0, 0, false});
        }
    }

    // As they stand for the fold, told from the part as it lies now.
    void addPieces(const std::string& name, const std::vector<Region>& sections, const PlacedTool& placed,
                   double less_left, double less_right, double closed_z, double open_z, bool gone) {
        for (const Region& section : sections) {
            tools_.push_back({name, section, placed.from_mm + step_.part_x_mm - along_x_ + less_left,
                              placed.to_mm + step_.part_x_mm - along_x_ - less_right, closed_z, open_z, gone});
        }
    }

    [[nodiscard]] bool meets(const SheetPiece& piece, const Tool& tool) const {
        if (tool.x1 <= tool.x0) return false;
        std::vector<std::pair<Vec2, Vec2>> ways{{Vec2(0, tool.closed_z), Vec2(0, tool.open_z)}};
        if (!tool.gone)
            ways.emplace_back(Vec2(0, tool.open_z),
                              Vec2(closing_.lifted_out ? Vec2(0, -kFar_mm) : Vec2(kFar_mm, tool.open_z)));
        for (const auto& [from, to] : ways) {
            for (const Polygon& section : fitted(tool.section, Fit::kPlain)) {
                std::vector<Vec2> corners;
                for (const Vec2& p : section) {
                    corners.push_back(p + from);
                    corners.push_back(p + to);
                }
                if (anyMeet(piece.shrunk, {fclPrism(replay::hull(corners), tool.x0, tool.x1, fclAlongX())}))
                    return true;
            }
        }
        return false;
    }

    // Down by angles, its near edge where it begins, halfway, and where it ends.
    [[nodiscard]] bool returnMeets(const SheetPiece& other) const {
        const Isometry3d first =
            frame_ * parentFromChild(bend_, part_.thickness_mm, bend_.angle, bend_.inside_radius_mm);
        const Isometry3d closed =
            frame_ * parentFromChild(made_, part_.thickness_mm, made_.angle, made_.inside_radius_mm);
        const Vec2 edge = bend_.origin + 0.5 * bend_.allowance_mm * bend_.toward_child;
        const Vector3d near(edge.x(), edge.y(), bend_.up ? part_.thickness_mm : 0);
        const LocalPiece local = panelPiece(part_, Outlines(part_), bend_.child);
        for (int i = 0; i <= kAngles; ++i) {
            const double angle = bend_.angle.rad() + (std::numbers::pi - bend_.angle.rad()) * i / kAngles;
            const Isometry3d turned =
                frame_ * parentFromChild(bend_, part_.thickness_mm, Angle::radians(angle), bend_.inside_radius_mm);
            for (const double share : {0.0, 0.5, 1.0}) {
                Isometry3d pose = turned;
                pose.pretranslate((1 - share) * (first * near) + share * (closed * near) - turned * near);
                std::vector<ConvexPoints> bodies;
                for (const ConvexPoints& points : local.shrunk) bodies.push_back(fclMoved(points, pose));
                if (anyMeet(bodies, other.whole)) return true;
            }
        }
        return false;
    }

    const Part& part_;
    BrakeInSetup brake_;
    const FoldStep& step_;
    const HemClosing& closing_;
    BendId id_;
    const Bend& bend_;
    const Bend made_;
    AtRest at_rest_;
    Isometry3d frame_ = Isometry3d::Identity();
    double along_x_ = 0;
    std::vector<SheetPiece> pieces_;
    std::vector<Tool> tools_;
};

}  // namespace

std::string hitOnClosing(const Part& folded, const Outlines& outlines, const BrakeInSetup& brake, BendMask formed,
                         const FoldStep& step) {
    return Closing(folded, outlines, brake, formed, step).run();
}

}  // namespace tinwright::oracle
