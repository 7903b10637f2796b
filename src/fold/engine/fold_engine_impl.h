// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <tuple>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/fold/engine/fold_engine.h>

#include "contact/contact_cache.h"
#include "contact/stroke_scene.h"
#include "gauging/gauging.h"
#include "placing/placement.h"
#include "setup/bar_strings.h"

namespace tinwright {

class FoldEngine::Impl {
public:
    Impl(const Part& part, const Shop& shop, std::unique_ptr<const Machine> machine, Demand asked,
         const std::vector<double>& radii_mm)
        : folded(partOnBrake(part, shop, machine->brake())),
          table(folded, shop, std::move(machine), radii_mm),
          scenes(table),
          strings(table.machine().brake(), shop.limits),
          placer(table, strings),
          tolerances(table, shop.tolerancesFor(part)),
          gauging(table),
          closer(table, scenes, shop),
          sections(upperSections(table.machine())),
          demand(asked),
          tolerances_known(radii_mm.empty() && !hasHems(part)) {}

    /// Of the part as drawn, hems closed.
    [[nodiscard]] PlaceQuestion ask(const StrokeScene& scene, Certainty certainty,
                                    WaysTried ways = WaysTried::kPlanarToo) {
        return {.scene = scene, .certainty = certainty, .ways = ways, .hems = &closer};
    }
    /// What is in the way no less with more of the part: of the part as drawn, hems in their first fold alone.
    [[nodiscard]] static PlaceQuestion askGrowing(const StrokeScene& scene, WaysTried ways = WaysTried::kStraight) {
        return {.scene = scene, .certainty = Certainty::kInner, .ways = ways, .keep_points = false};
    }
    /// Of every part within the tolerances, where that is what is wanted of strokes.
    [[nodiscard]] PlaceQuestion askDemanded(const StrokeScene& scene, Certainty certainty) {
        PlaceQuestion question = ask(scene, certainty);
        if (demand == Demand::kHolds) question.tolerances = &tolerances;
        return question;
    }
    /// Whether the moving side passes the held side.
    struct PairAnswer {
        bool hit = false;
        bool unclear = false;
        bool near = false;
    };
    [[nodiscard]] PairAnswer pairs(const StrokeScene& scene);
    /// False when a moving and a held group stay further apart than `margin_mm` whatever they do: by x, or by the rings
    /// about the swing's centre in which they stay.
    [[nodiscard]] bool couldMeet(const GroupUse& moving, const GroupUse& held, double margin_mm) const;
    [[nodiscard]] bool joined(const StrokeScene& scene, const GroupUse& moving, const GroupUse& held) const {
        return strokeJoins(table, scene, moving, held);
    }
    /// False past what the leaf swings to, or past where the sheet would lie on the flanks of the V.
    [[nodiscard]] bool reachesAngle(const Stroke& stroke);
    /// How much further than the sheet what swings it must turn, at the least.
    [[nodiscard]] Angle leastLead(BendId bend, Side hold);
    /// Of a stroke that does not.
    [[nodiscard]] AngleLimit angleLimit(const Stroke& stroke) const;
    /// Bends of the stroke that the brake makes no hems of, whatever else is folded.
    [[nodiscard]] std::optional<BendId> noHem(const Stroke& stroke) const;
    [[nodiscard]] StrokeResult check(BendMask formed, const Stroke& stroke);
    /// Bends, none of the stroke's own, whose state settles how a group lies.
    [[nodiscard]] BendMask bendsOf(const StrokeScene& scene, const GroupUse& use) const;
    /// The scene with those groups alone that are settled by `known`.
    [[nodiscard]] StrokeScene settledBy(StrokeScene scene, BendMask known) const;
    /// The same for a stroke that has to hold over the tolerances.
    [[nodiscard]] StrokeResult checkHolding(BendMask formed, const Stroke& stroke);
    [[nodiscard]] StrokeResult checkPossible(BendMask formed, const Stroke& stroke) {
        return *checkWith(formed, stroke, WaysTried::kPlanarToo);
    }
    /// With straight ways alone: nothing where a planar search would be made.
    [[nodiscard]] std::optional<StrokeResult> checkWith(BendMask formed, const Stroke& stroke, WaysTried tried);
    /// FoldEngine::checkWithSetup with whatever places the stroke.
    template <class Place>
    [[nodiscard]] StrokeResult checkWhat(BendMask formed, const Stroke& stroke, bool tight_too, Place place);
    /// Over the tolerances, with the ways of the nominal part.
    [[nodiscard]] Holding judged(const StrokeScene& scene, const Placed& placed);
    /// What every reason for a stroke tells.
    [[nodiscard]] Reason reasonFor(ReasonCode code, BendMask formed, const Stroke& stroke) const;
    /// Why bends cannot be pressed together in a state, whatever stands; none when they can.
    [[nodiscard]] std::optional<Reason> whyNotOneStroke(BendMask formed, const Stroke& stroke);
    /// Why a stroke is not shown to hold that goes as drawn; none when it does not even go.
    [[nodiscard]] std::optional<Reason> whyNotHeld(BendMask formed, const Stroke& stroke);
    [[nodiscard]] StrokeResult resultOf(const Placed& placed, bool tight) const;
    [[nodiscard]] Placed placedOf(const StrokeResult& result) const;
    [[nodiscard]] BodyRef bodyOf(std::uint32_t record) const;
    /// FoldEngine::least of one bend.
    [[nodiscard]] StrokeLowerBound lowerBoundOf(BendMask formed, BendMask known, BendId bend, Side hold);
    [[nodiscard]] StrokeLowerBound findLowerBound(BendMask formed, BendMask known, BendId bend, Side hold);
    /// So much of a bend has to lie under bars at least.
    [[nodiscard]] Micron mustCover_um(BendId bend) const;
    /// False when a group is in the way of nothing.
    [[nodiscard]] bool matters(std::uint32_t record);

    const PartOnBrake folded;
    ContactCache table;
    SceneBuilder scenes;
    BarStrings strings;
    Placer placer;
    ToleranceCheck tolerances;
    Gauging gauging;
    HemCloser closer;
    const std::vector<std::size_t> sections;  // of upper tools: a family of each
    Demand demand;
    bool tolerances_known;  // neither of parts made on two machines nor of hems
    std::uint64_t checks = 0;
    std::map<std::vector<Micron>, StrokeLowerBound> lower_bounds;  // by the bend, how it is held and what is in its way
    std::map<std::pair<BendId, Side>, Angle> leads;
    std::map<std::tuple<BendMask, BendMask, Stroke>, StrokeLowerBound> lower_bounds_at;  // by state, what is
                                                                                         // known of it, bend and
                                                                                         // hold

private:
    [[nodiscard]] static std::vector<std::size_t> upperSections(const Machine& machine);

    static constexpr std::uint8_t kNotAsked = 2;
    std::vector<std::uint8_t> matters_;
};

[[nodiscard]] StrokeResult impossible(ReasonCode code);

}  // namespace tinwright
