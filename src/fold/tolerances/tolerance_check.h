// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "contact/stroke_scene.h"
#include "exits/way_out.h"
#include "tolerances/tolerance_table.h"

namespace tinwright {

/// The ways of the parts within tolerances, made when they are first asked for: they serve all the strings tried for
/// one scene.
struct TolerantWays {
    std::optional<RestShadows> before;
    std::optional<RestShadows> after;
};

/// Whether a stroke holds over the tolerance box, with bars given or to be chosen.
class ToleranceCheck {
public:
    ToleranceCheck(ContactCache& table, const ToleranceBox& box) : table_(table, box), groups_(table.machine()) {}

    [[nodiscard]] const ToleranceBox& box() const { return table_.box(); }

    /// Adds where along x (fold frame) machine-length bodies and bars must not be.
    void addObstacles(const StrokeScene& scene, std::size_t face, Obstacles& obstacles);
    [[nodiscard]] bool familyFits(const StrokeScene& scene, std::size_t family, std::size_t face);
    [[nodiscard]] bool drivenClearsBeam(const StrokeScene& scene, std::size_t face);
    /// What does not depend on where bars stand: the part's members keep apart, but for those drawn too near for it.
    [[nodiscard]] bool membersHold(const StrokeScene& scene);
    /// A way in or out for all of them. Loose bars may go another way than is told for the nominal part; a beam rises
    /// as told. `plain` is set to false when it is no plain way.
    [[nodiscard]] bool wayHolds(const StrokeScene& scene, Phase phase, const Placed& placed, TolerantWays& ways,
                                bool straight_only, const WayOut& told, bool& plain);
    /// What to tell: the nominal way where the same moves serve all of them, else theirs.
    [[nodiscard]] WayOut toldWay(const StrokeScene& scene, Phase phase, const Placed& placed, WayOut nominal);

    /// All of it for bars as they stand, with the ways that are told.
    [[nodiscard]] Holding judge(const StrokeScene& scene, const Placed& placed, const WayOut& way_in,
                                const WayOut& way_out);

private:
    struct Worst {
        double lack_mm = 0;
        std::array<BodyRef, 2> between;
        void take(double lack, BodyRef a, BodyRef b);
    };
    [[nodiscard]] bool servesAll(const StrokeScene& scene, Phase phase, const Placed& placed, const WayOut& told);
    /// `plainly`: for ways on which bars only rise and the part only rises or goes forward.
    [[nodiscard]] RestShadows atRest(const StrokeScene& scene, Phase phase, bool plainly = false);
    [[nodiscard]] bool linesAgree(const StrokeScene& scene) const;
    void takeBody(const GroupUse& use, std::size_t body, Interval at, BodyRef what, Worst& worst);
    void takeBodies(const StrokeScene& scene, const Placed& placed, Worst& worst);
    void takeMembers(const StrokeScene& scene, Worst& worst, std::vector<std::array<BodyRef, 2>>& may_touch);
    [[nodiscard]] bool toolsFit(const StrokeScene& scene, const Placed& placed, Worst& worst);
    [[nodiscard]] BodyRef bodyOf(std::uint32_t record);

    [[nodiscard]] Holding computeHolding(const StrokeScene& scene, const Placed& placed, const WayOut& way_in,
                                         const WayOut& way_out);

    ToleranceTable table_;
    std::map<std::vector<Micron>, Holding> judged_;  // several plans have the same fold
    GroupShadows groups_;
    EscapeMemo escapes_;
};

/// Groups that the stroke's own strips join.
[[nodiscard]] bool strokeJoins(const ContactCache& table, const StrokeScene& scene, const GroupUse& moving,
                               const GroupUse& held);

}  // namespace tinwright
