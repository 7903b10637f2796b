// SPDX-License-Identifier: GPL-3.0-or-later
// A press brake as it is replayed: punches stand still, dies come up and push both sides of the sheet round their tips.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "machine/press_motion.h"
#include "machine/press_tools.h"
#include "machine/replayed_kinds.h"
#include "machine/tools.h"

namespace tinwright::replay {

namespace {

constexpr double kSameHeight_mm = 1e-6;

// Where the sheet bears on a shoulder during the stroke, told as far from the middle of the strip as it is in the flat
// sheet.
struct Bearing {
    double nearest_mm = std::numeric_limits<double>::infinity();
    double furthest_mm = 0;
};

// What of it is over its own sheet alone, on one side of the strip: it cannot come to what the sheet lies on, see the
// machine model.
bool overOwnSheet(const Body& body, double half_strip_mm) {
    const Box box = boxOf(body);
    return standsOnSheet(body) && (box.max().y() <= -half_strip_mm || box.min().y() >= half_strip_mm);
}

Bending bothSidesMoving(Bending stroke) {
    stroke.both_sides_move = true;
    return stroke;
}

class ReplayedPressBrake final : public ReplayedMachine {
public:
    ReplayedPressBrake(const PressBrake& press, const BrakeInSetup& brake, const FoldStep& step, const Bending& stroke)
        : ReplayedMachine(brake, step, bothSidesMoving(stroke)),
          press_(press),
          punches_(piecesOf(brake, step, ToolRow::kUpper)),
          dies_(piecesOf(brake, step, ToolRow::kLower)),
          heights_(heightsOf(brake, step)) {}

    [[nodiscard]] const char* name() const override { return "a press brake"; }

    void checkSetAngle(std::vector<std::string>& /*wrong*/) const override {}  // the V limits it

    [[nodiscard]] bool checkTools(std::vector<std::string>& wrong) const override {
        if (punches_.empty()) wrong.push_back("no punch stands over the sheet");
        if (dies_.empty()) wrong.push_back("no die lies under the sheet");
        if (punches_.empty() || dies_.empty()) return false;
        checkHeights(punches_, "punch", wrong);
        checkHeights(dies_, "die", wrong);
        checkTips(wrong);
        checkVee(wrong);
        checkStrokeEnd(wrong);
        return true;
    }

    [[nodiscard]] const std::vector<CoveringRow>& rows() const override {
        static const std::vector<CoveringRow> kRows{
            {ToolRow::kLower, "die", "between two dies", "at an end of the dies"},
            {ToolRow::kUpper, "punch", "between two punches", "at an end of the punches"}};
        return kRows;
    }

    // The sheet must lie on both shoulders of the V to the end of the stroke.
    [[nodiscard]] std::vector<FlatLand> flatLands(const Limits& /*limits*/, const Steps& steps) const override {
        const Bearing bearing = bearingIn(steps);
        const auto told = [&](const char* shoulder) {
            return fmt::format("lie on the {} shoulder of the V, {:.3f} mm from the bend line", shoulder,
                               bearing.furthest_mm);
        };
        return {{true, -bearing.furthest_mm, -bearing.nearest_mm, told("front")},
                {false, bearing.nearest_mm, bearing.furthest_mm, told("back")}};
    }

    [[nodiscard]] double lowerRise_mm(const Motion& motion, double angle_rad) const override {
        return dieRise_mm(stroke(), vee(), motion, angle_rad);
    }

    [[nodiscard]] bool touchesByIntention(const Body& part_body, const Body& tool, bool /*moves*/) const override {
        switch (tool.kind) {
            case BodyKind::kBar: return part_body.lie == Lie::kInPlane;
            case BodyKind::kDie: return overOwnSheet(part_body, 0.5 * stroke().allowance_mm - 1e-3);
            case BodyKind::kFrame: return true;  // how close a part may come to a frame is the overhang's matter
            default: return false;
        }
    }

    // Nobody stands behind it.
    [[nodiscard]] WayRules wayRules() const override { return {false, false, false, true}; }

    // The ram opens until the seats of punches and dies are `open_height` apart.
    [[nodiscard]] std::vector<std::string> liftFaults(double lift_mm, double rise_mm) const override {
        constexpr double kSame_mm = 1e-3;
        std::vector<std::string> faults;
        const double seats_mm = stroke().thickness_mm + heights_.punch_mm + heights_.die_mm - rise_mm + lift_mm;
        if (lift_mm < 0) faults.push_back("the ram is to rise by less than nothing");
        if (seats_mm > press_.open_height_mm + kSame_mm)
            faults.push_back(
                fmt::format("the ram is to rise until the seats are {:.3f} mm apart, it opens to {:.3f} mm", seats_mm,
                            press_.open_height_mm));
        return faults;
    }

protected:
    [[nodiscard]] MachineBodies ownBodies() const override {
        const double thickness_mm = stroke().thickness_mm;
        MachineBodies bodies{pieceBodies(step(), thickness_mm), sideFrameBodies(brake(), step()), std::nullopt};
        bodies.standing.push_back(pressBedBody(brake(), step(), heights_.die_mm));
        bodies.standing.push_back(ramBody(brake(), step(), thickness_mm + heights_.punch_mm));
        return bodies;
    }

private:
    // That of the step's dies, of which there are some.
    [[nodiscard]] const Vee& vee() const { return brake()->die(dies_.front().tool)->vee; }

    // All pieces of a row have one height.
    void checkHeights(const std::vector<PlacedTool>& pieces, const char* row, std::vector<std::string>& wrong) const {
        const Tool& first = brake()->tool(pieces.front().tool);
        for (const PlacedTool& placed : pieces) {
            const Tool& piece = brake()->tool(placed.tool);
            if (std::abs(piece.height_mm - first.height_mm) > kSameHeight_mm) {
                wrong.push_back(fmt::format("{} {} is {:.3f} mm high, {} beside it {:.3f} mm", row, piece.id,
                                            piece.height_mm, first.id, first.height_mm));
            }
        }
    }

    void checkTips(std::vector<std::string>& wrong) const {
        const double bend_mm = brake().inside_radius_mm();
        for (const PlacedTool& placed : punches_) {
            const Punch& punch = *brake()->punch(placed.tool);
            if (punch.tip_radius_mm > bend_mm + kSameHeight_mm) {
                wrong.push_back(fmt::format("the tip of punch {} has a radius of {:.3f} mm, the bend one of {:.3f} mm",
                                            punch.id, punch.tip_radius_mm, bend_mm));
            }
        }
    }

    // As steep as the sheet or steeper: the flanks then never meet it.
    void checkVee(std::vector<std::string>& wrong) const {
        constexpr double kSameAngle_deg = 1e-6;
        for (const PlacedTool& placed : dies_) {
            const Die& die = *brake()->die(placed.tool);
            if (die.vee != vee())
                wrong.push_back(
                    fmt::format("die {} has another V than {}", die.id, brake()->tool(dies_.front().tool).id));
        }
        const double set_deg = step().set_angle.deg();
        if (set_deg > 180.0 - vee().angle.deg() + kSameAngle_deg) {
            wrong.push_back(fmt::format("a V of {:.3f}° does not take a bend by {:.3f}°", vee().angle.deg(), set_deg));
        }
    }

    // The ram is lowest at the end of the stroke.
    void checkStrokeEnd(std::vector<std::string>& wrong) const {
        const double seats_mm =
            stroke().thickness_mm + heights_.punch_mm + heights_.die_mm - lowerRise_mm(kMotions[0], stroke().set_rad);
        const double least_mm = press_.open_height_mm - press_.stroke_mm;
        if (seats_mm < least_mm - kSameHeight_mm) {
            wrong.push_back(fmt::format("the seats are to come as near as {:.3f} mm, the ram brings them to {:.3f} mm",
                                        seats_mm, least_mm));
        }
    }

    [[nodiscard]] Bearing bearingIn(const Steps& steps) const {
        Bearing bearing;
        for (const Motion& motion : kMotions) {
            for (std::size_t i = 0; i <= steps.last; ++i) {
                const double place = bearingPlace_mm(stroke(), vee(), motion, steps.rad(i));
                bearing.nearest_mm = std::min(bearing.nearest_mm, place);
                bearing.furthest_mm = std::max(bearing.furthest_mm, place);
            }
        }
        return bearing;
    }

    const PressBrake& press_;
    std::vector<PlacedTool> punches_;
    std::vector<PlacedTool> dies_;
    PressHeights heights_;
};

}  // namespace

std::shared_ptr<const ReplayedMachine> replayedKind(const PressBrake& press, const BrakeInSetup& brake,
                                                    const FoldStep& step, const Bending& stroke) {
    return std::make_shared<const ReplayedPressBrake>(press, brake, step, stroke);
}

}  // namespace tinwright::replay
