// SPDX-License-Identifier: GPL-3.0-or-later
#include "closing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include <tinwright/brake/hemming.h>

#include "allowed.h"
#include "closing_tools.h"
#include "track.h"

namespace tinwright::replay {

namespace {

constexpr double kFarOff_mm = 3000;
constexpr double kSame_mm = 1e-3;
constexpr double kWithin_mm = 1.0;      // the return within the flats, and the fold before their end
constexpr double kOverReturn_mm = 0.5;
constexpr int kAngles = 90;

// The fold told as one that holds the returns, with its pieces where they stand: so the part lies when it is closed, but for how far it is pushed in.
FoldStep asClosed(const Part& part, const FoldStep& step) {
    FoldStep closed = step;
    closed.hold = Hold::kChild;
    closed.held.clear();
    for (const BendId id : step.bends) closed.held.push_back(part.bend(id).child);
    closed.part_x_mm = step.closing->part_x_mm;
    for (PlacedBar& bar : closed.bars) {
        bar.from_mm += step.part_x_mm - closed.part_x_mm;
        bar.to_mm += step.part_x_mm - closed.part_x_mm;
    }
    closed.covered_share = 0;
    return closed;
}

Rigid shift(double y_mm, double z_mm) { return Rigid(Eigen::Translation3d(0, y_mm, z_mm)); }

// Where the near edge of a return's inside face is, in (y, z).
struct NearEdge {
    Vec2 flat;
    Vec2 first;
    Vec2 closed;
};

class Closing {
public:
    Closing(const Scene& scene, const Shop& shop, const std::vector<Shape>& panels, std::vector<std::string>& wrong)
        : scene_(scene), shop_(shop), sheet_(*scene.sheet), part_(scene.sheet->part()), brake_(*scene.brake), told_(*scene.step->closing), panels_(panels), wrong_(wrong),
          step_(asClosed(part_, *scene.step)), bend_(part_.bend(scene.step->bends.front())), made_(finished(bend_)) {}

    void run() {
        std::vector<std::string> of_the_fold;
        if (!setUp(sheet_, shop_, brake_, step_, setting_, of_the_fold)) return say("the part cannot be laid as it is to be closed");
        layPart();
        checkFigures();
        checkCover();
        for (const ClosingTool& tool : closingTools(brake_, step_, setting_, told_)) passes(tool);
        for (const BendId id : step_.bends) comesDown(id);
    }

private:
    void say(const std::string& what) { wrong_.push_back("closing: " + what); }

    [[nodiscard]] double lineAt_mm() const { return (brake_.isPress() ? 0.5 * bend_.allowance_mm : brake_.nose_radius_mm) - 0.5 * bend_.allowance_mm; }
    [[nodiscard]] double outer_mm() const { return 0.5 * bend_.hem->gap_mm + part_.thickness_mm; }
    /// From where the part is told as a fold to where it is pushed in.
    [[nodiscard]] double pushed_mm() const { return told_.front_mm + told_.inserted_mm - (lineAt_mm() - 0.5 * made_.allowance_mm + outer_mm()); }

    [[nodiscard]] bool isReturn(std::size_t member) const {
        return std::any_of(step_.bends.begin(), step_.bends.end(), [&](BendId id) { return part_.bend(id).child.index() == member; });
    }

    void layPart() {
        PartBodies bodies = partBodies(sheet_, panels_, step_, setting_);
        for (auto* side : {&bodies.held, &bodies.moving}) {
            for (Body& body : *side) {
                if (isReturn(body.member)) continue;
                Body pushed = makeBody(body.name, body.kind, moved(body.shape, shift(pushed_mm(), 0)));
                pushed.member = body.member;
                others_.push_back(std::move(pushed));
            }
        }
    }

    [[nodiscard]] NearEdge nearEdge(const Bend& bend) const {
        const double t = part_.thickness_mm;
        const double y = lineAt_mm() + pushed_mm();
        const double a = bend.angle.rad();
        const double r = brake_.nose_radius_mm;
        const Vec2 centre(y - 0.5 * bend.allowance_mm, t + r);
        return {Vec2(y + 0.5 * bend.allowance_mm, t), centre + r * Vec2(std::sin(a), -std::cos(a)), Vec2(y - 0.5 * bend.allowance_mm, t + bend.hem->gap_mm)};
    }

    // How high the return stands after its first fold.
    [[nodiscard]] double stands_mm(BendId id) const {
        const Bend& bend = part_.bend(id);
        const NearEdge edge = nearEdge(bend);
        const double a = bend.angle.rad();
        double high = 0;
        for (const Vec2& point : part_.panel(bend.child).region.outline) {
            const double out = (point - bend.origin).dot(bend.toward_child) - 0.5 * bend.allowance_mm;
            high = std::max(high, edge.first.y() + out * std::sin(a) + part_.thickness_mm * std::max(0.0, -std::cos(a)));
        }
        return high;
    }

    void same(const char* what, double told, double found) {
        if (std::abs(told - found) > kSame_mm) say(fmt::format("{} is {:.3f} mm, the step says {:.3f} mm", what, found, told));
    }

    void checkFigures() {
        double depth = 0;
        double stands = 0;
        for (const BendId id : step_.bends) {
            const Bend& bend = part_.bend(id);
            if (const std::string why = whyNoHem(part_, shop_, brake_, id); !why.empty()) say(bend.name + " " + why);
            if (!bend.hem || bend.hem->gap_mm != bend_.hem->gap_mm) return say("hems of different gaps are not closed together");
            for (const Vec2& point : part_.panel(bend.child).region.outline) {
                depth = std::max(depth, (point - bend.origin).dot(bend.toward_child) - 0.5 * made_.allowance_mm + outer_mm());
            }
            stands = std::max(stands, stands_mm(id));
        }
        same("how far it is pushed in", told_.inserted_mm, depth + kWithin_mm);
        same("how high the return stands", told_.stands_mm, stands);
        same("the height of the closed hem", told_.height_mm, 2 * part_.thickness_mm + bend_.hem->gap_mm);
        if (told_.turned != (scene_.step->hold == Hold::kParent)) say("whether the part is turned is told the wrong way");
        const FlatsTold flats = flatsOf(brake_, step_, part_.thickness_mm);
        same("where the flats begin", told_.front_mm, flats.front_mm);
        if (told_.front_mm + told_.inserted_mm + kWithin_mm > flats.back_mm + kSame_mm) say(fmt::format("the flats end {:.3f} mm back, too early for the fold", flats.back_mm));
        if (stands + kOverReturn_mm > flats.opens_mm + kSame_mm) say(fmt::format("the return stands {:.3f} mm high, the flats open to {:.3f} mm", stands, flats.opens_mm));
    }

    void checkCover() {
        Scene closed = scene_;
        closed.step = &step_;
        closed.setting = setting_;
        std::vector<std::string> found;
        checkRowsCover(closed, shop_.limits, found);
        for (const std::string& words : found) say(words);
    }

    // Straight ways of a tool, as seen from the part.
    void passes(const ClosingTool& tool) {
        std::vector<std::pair<Vec2, Vec2>> ways{{Vec2(0, tool.closed_z_mm), Vec2(0, tool.open_z_mm)}};
        const Vec2 open(0, tool.open_z_mm);
        if (!tool.lifted_away) ways.emplace_back(open, told_.lifted_out ? Vec2(0, -kFarOff_mm) : Vec2(kFarOff_mm, tool.open_z_mm));
        for (const auto& [from, to] : ways) {
            const double count = std::max(1.0, std::ceil((to - from).norm() / scene_.options.path_step_mm));
            Track track{{}, 0, 0, 0, (to - from).norm() / count};
            for (double i = 0; i <= count; ++i) {
                const Vec2 at = from + (to - from) * (i / count);
                track.poses.push_back(shift(at.x(), at.y()));
            }
            for (const Body& body : others_) {
                if (meetsBody(tool.body.shrunk, track, body)) return say(fmt::format("{} meets {}", tool.body.name, body.name));
            }
        }
    }

    [[nodiscard]] static bool meetsBody(const std::vector<Solid>& solids, const Track& track, const Body& body) {
        const Track rests = still();
        return std::any_of(solids.begin(), solids.end(), [&](const Solid& one) {
            return std::any_of(body.whole.begin(), body.whole.end(), [&](const Solid& other) { return firstMeeting(one, track, other, rests, track.poses.size() - 1).has_value(); });
        });
    }

    // The return, by angles, with its near edge where it begins, halfway and where it ends.
    void comesDown(BendId id) {
        const Bend& bend = part_.bend(id);
        const NearEdge edge = nearEdge(bend);
        const Rigid flat = shift(pushed_mm(), 0) * setting_.fold_from_space * sheet_.spaceFromBlank(bend.child);
        const Body lies = makeBody(part_.panel(bend.child).name, BodyKind::kPanel, moved(panels_[bend.child.index()], flat));
        for (const double share : {0.0, 0.5, 1.0}) {
            const Vec2 at = edge.first + share * (edge.closed - edge.first);
            Track track{{}, edge.flat.x(), edge.flat.y(), (std::numbers::pi - bend.angle.rad()) / kAngles, 0};
            for (int i = 0; i <= kAngles; ++i) {
                const double angle = bend.angle.rad() + (std::numbers::pi - bend.angle.rad()) * i / kAngles;
                Rigid pose = Rigid::Identity();
                pose.translate(Vec3(0, at.x(), at.y()));
                pose.rotate(Eigen::AngleAxisd(angle, Vec3::UnitX()));  // y towards z
                pose.translate(Vec3(0, -edge.flat.x(), -edge.flat.y()));
                track.poses.push_back(pose);
            }
            for (const Body& body : others_) {
                if (body.member == bend.parent.index()) continue;
                if (meetsBody(lies.shrunk, track, body)) return say(fmt::format("{} meets {} on its way down", lies.name, body.name));
            }
        }
    }

    const Scene& scene_;
    const Shop& shop_;
    const Sheet& sheet_;
    const Part& part_;
    const Brake& brake_;
    const HemClosing& told_;
    const std::vector<Shape>& panels_;
    std::vector<std::string>& wrong_;
    FoldStep step_;
    const Bend& bend_;
    const Bend made_;
    Setting setting_;
    std::vector<Body> others_;
};

}  // namespace

void checkClosing(const Scene& scene, const Shop& shop, const std::vector<Shape>& panels, std::vector<std::string>& wrong) {
    const Part& part = scene.sheet->part();
    const bool folds_hems = part.bend(scene.step->bends.front()).hem.has_value();
    if (folds_hems != scene.step->closing.has_value()) {
        wrong.push_back(folds_hems ? "the hem is never closed" : "something is to be closed that is no hem");
        return;
    }
    if (folds_hems) Closing(scene, shop, panels, wrong).run();
}

}  // namespace tinwright::replay
