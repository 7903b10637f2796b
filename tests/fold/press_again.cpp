// SPDX-License-Identifier: GPL-3.0-or-later
#include "press_again.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "solids/inset.h"

namespace tinwright::oracle {

namespace {

constexpr double kSliver_mm = 2e-3;  // fold x is rounded to micrometres
constexpr double kFar_mm = 3000;

struct Standing {
    std::string name;
    Section section;  // shrunk
    double x0, x1;
    bool rises;
    enum class Kind { kPunch, kDie, kOther } kind;
};

Section shrunk(const std::vector<Region>& regions) {
    Section section;
    for (const Region& region : regions) {
        for (Polygon& piece : fitted(region, Fit::kShrunk)) section.push_back(std::move(piece));
    }
    return section;
}

class Tools {
public:
    explicit Tools(const PressAgain& again)
        : again_(again),
          machine_x_mm_(again.stroke.leastStrip_mm() - toMm(again.result.part_x_um)),
          thickness_mm_(again.part.thickness_mm) {
        for (const SetupPiece& piece : again.result.setup.pieces) {
            addPiece(piece.tool, toMm(piece.at.lo) + machine_x_mm_, toMm(piece.at.hi) + machine_x_mm_);
        }
        addMachine();
    }

    [[nodiscard]] const std::vector<Standing>& all() const { return all_; }
    [[nodiscard]] const std::string& fault() const { return fault_; }

private:
    void add(const char* name, Standing::Kind kind, const std::vector<Region>& regions, double x0, double x1) {
        const bool rises = kind == Standing::Kind::kDie || std::string(name) == "bed";
        all_.push_back({name, shrunk(regions), x0 + kSliver_mm, x1 - kSliver_mm, rises, kind});
    }

    void addPiece(ToolId id, double x0, double x1) {
        const tinwright::Tool& bar = again_.brake->tool(id);
        const Punch* punch = again_.brake->punch(id);
        double& height_mm = punch == nullptr ? die_mm_ : punch_mm_;
        if (height_mm >= 0 && std::abs(height_mm - bar.height_mm) > 0.02) fault_ = "tools of two heights in a row";
        height_mm = bar.height_mm;
        if (punch == nullptr) return add("die", Standing::Kind::kDie, {movedBy(bar.profile, Vec2::Zero())}, x0, x1);
        Region region = barSectionOf(bar, thickness_mm_);
        if (again_.pretend == Pretend::kNoHollows) region.outline = replay::hull(region.outline);
        if (!punch->horn || again_.pretend == Pretend::kNoHorns)
            return add("punch", Standing::Kind::kPunch, {region}, x0, x1);
        const double level = thickness_mm_ + punch->horn->height_mm;
        add("punch's tip", Standing::Kind::kPunch, cut(region, -kFar_mm, level), x0, x1);
        (punch->horn->at_left ? x0 : x1) += punch->horn->at_left ? punch->horn->reach_mm : -punch->horn->reach_mm;
        add("punch's body", Standing::Kind::kPunch, cut(region, level, kFar_mm), x0, x1);
    }

    void addMachine() {
        const BrakeInSetup& brake = again_.brake;
        const double end = machine_x_mm_ + brake->length_mm;
        add("ram", Standing::Kind::kOther, {ramSectionOf(brake, thickness_mm_, punch_mm_)}, machine_x_mm_, end);
        add("bed", Standing::Kind::kOther, {pressBedSectionOf(brake, die_mm_)}, machine_x_mm_, end);
        if (brake->press().throat_mm <= 0) return;
        add("left frame", Standing::Kind::kOther, {frameSectionOf(brake)}, machine_x_mm_ - kFar_mm,
            machine_x_mm_ + brake->press().frames_left_mm);
        add("right frame", Standing::Kind::kOther, {frameSectionOf(brake)},
            machine_x_mm_ + brake->press().frames_right_mm, end + kFar_mm);
    }

    const PressAgain& again_;
    double machine_x_mm_;  // x = 0 of the machine in the frame of the bend
    double thickness_mm_;
    double punch_mm_ = -1;
    double die_mm_ = -1;
    std::vector<Standing> all_;
    std::string fault_;
};

// Tools with one another: side by side in their row, and punches over dies.
std::string hitOfTools(const PressAgain& again, const std::vector<Standing>& tools) {
    for (const Standing& one : tools) {
        for (const Standing& other : tools) {
            if (&one == &other || one.x0 >= other.x1 || other.x0 >= one.x1) continue;
            if (one.kind == Standing::Kind::kPunch && other.kind == Standing::Kind::kDie &&
                again.stroke.punchMeetsDie(one.section, other.section)) {
                return "punch meets die";
            }
            const bool parts_of_one = one.name != other.name && one.kind == Standing::Kind::kPunch;  // tip and body are
                                                                                                     // cut from one
                                                                                                     // another
            if (one.kind != Standing::Kind::kOther && one.kind == other.kind && !parts_of_one)
                return one.name + " in " + other.name;
        }
    }
    return {};
}

std::string hitOfTool(const PressAgain& again, const Standing& tool) {
    const auto& pieces = again.stroke.pieces();
    if (again.stroke.stripMeets(tool.section, tool.rises, tool.x0, tool.x1)) return "own strip hits " + tool.name;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        for (const Forming forming : again.formings) {
            const double at =
                again.stroke.meets(pieces[i], tool.section, tool.rises, tool.x0, tool.x1, forming, again.step_rad);
            if (at >= 0)
                return fmt::format("group {} hits {}, uniform share {}, half angle {:.4f}", i, tool.name,
                                   forming.uniform_share, at);
        }
    }
    return {};
}

std::string hitOfPart(const PressAgain& again) {
    const auto& pieces = again.stroke.pieces();
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        if (again.stroke.stripMeets(pieces[i])) return fmt::format("own strip hits group {}", i);
        for (std::size_t k = 0; k < pieces.size(); ++k) {
            if (!pieces[i].moving || pieces[k].moving) continue;
            for (const Forming forming : again.formings) {
                if (again.stroke.meetsBack(pieces[i], true, pieces[k], forming, again.step_rad) >= 0)
                    return fmt::format("group {} hits group {}", i, k);
            }
        }
    }
    return {};
}

}  // namespace

std::string firstHit(const PressAgain& again) {
    const Tools tools(again);
    if (!tools.fault().empty()) return tools.fault();
    if (!again.stroke.veeTakesIt()) return "the V does not take the bend";
    std::string hit = hitOfTools(again, tools.all());
    for (const Standing& tool : tools.all()) {
        if (hit.empty()) hit = hitOfTool(again, tool);
    }
    return hit.empty() ? hitOfPart(again) : hit;
}

}  // namespace tinwright::oracle
