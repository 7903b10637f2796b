// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <tuple>
#include <vector>

#include <tinwright/brake/plan/reason.h>
#include <tinwright/fold/setup/stroke.h>

#include "contact/contact_cache.h"

namespace tinwright {

/// A group of the part in a stroke: its record, which is in the frame of one of the stroke's bends, and the shift from
/// there to the frame of the fold.
struct GroupUse {
    std::uint32_t record = 0;
    Micron shift_um = 0;
    bool moving = false;
};

/// A bend of a stroke.
struct StrokeBend {
    BendId bend;
    Side hold = Side::kParent;
    Micron shift_um = 0;  ///< bend frame to fold frame
};

/// A stroke in one state, laid out along the machine. x is fold x.
struct StrokeScene {
    BendMask formed = 0;  ///< before it
    std::vector<StrokeBend> bends;
    std::vector<GroupUse> uses;
    std::vector<Interval> needs;  ///< stretches of bend, ascending
    IntervalSet clamped;          ///< where the held side gives enough to be clamped
    IntervalSet swung;            ///< where the moving side gives enough to what swings it
    Interval extent;              ///< of the whole part
};

/// Finds what strokes a state has and lays them out.
class SceneBuilder {
public:
    explicit SceneBuilder(ContactCache& table) : table_(table) {}

    [[nodiscard]] std::vector<BendMask> lines(BendMask formed);
    [[nodiscard]] std::vector<ListedStroke> strokes(BendMask formed, bool& all);
    /// Kept for a while: check, clearance and description of a stroke ask for the same scene.
    [[nodiscard]] std::shared_ptr<const StrokeScene> scene(BendMask formed, const Stroke& stroke);

    /// The same with those groups alone whose place `known` and the stroke's own bends settle.
    [[nodiscard]] StrokeScene settledScene(BendMask formed, const Stroke& stroke, BendMask known) {
        return layOut(formed, stroke, known);
    }

    [[nodiscard]] bool mayShareStroke(BendId a, BendId b);
    /// As FoldEngine::holdOf.
    [[nodiscard]] Side holdOf(BendMask formed, const Stroke& stroke, BendId bend);
    /// Bends whose state decides how these lie to one another.
    [[nodiscard]] BendMask between(BendMask bends) const;
    /// Bends that cannot be pressed together in a state.
    struct Apart {
        KeptApart why;
        BendMask by = 0;  ///< whose state sees to it
    };
    /// Nothing when they can.
    [[nodiscard]] std::optional<Apart> keptApart(BendMask formed, const Stroke& stroke);

    static constexpr std::size_t kAllSubsetsUpTo = 6;
    static constexpr int kPathsUpTo = 10;

private:
    static constexpr std::size_t kKeptScenes = 1024;
    struct KeptScene {
        BendMask formed = 0;
        Stroke stroke;
        std::shared_ptr<const StrokeScene> scene;
    };
    [[nodiscard]] StrokeScene layOut(BendMask formed, const Stroke& stroke, BendMask known);
    struct Relation {
        bool on_line = false;
        Side hold = Side::kParent;  // of the other bend
        double shift_mm = 0;        // the other bend's frame to this one's
    };
    Relation relation(BendId bend, Side hold, BendId other, BendMask formed);
    [[nodiscard]] std::vector<BendMask> subsets(BendMask line, BendMask formed, bool& all);
    [[nodiscard]] std::vector<int> components(BendMask without) const;
    /// The bends with their holds and shifts; empty when some component would have to be held and moved at once.
    [[nodiscard]] std::vector<StrokeBend> arrange(BendMask formed, const Stroke& stroke);
    /// Each bend of the stroke where the line of the first runs; empty when one is not on it.
    [[nodiscard]] std::vector<StrokeBend> alongLine(BendMask formed, const Stroke& stroke);
    /// The first two bends of which one holds what the other moves.
    [[nodiscard]] std::optional<KeptApart> heldAndMoved(const std::vector<StrokeBend>& bends, BendMask pressed) const;

    ContactCache& table_;
    std::vector<KeptScene> kept_ = std::vector<KeptScene>(kKeptScenes);  // by hash; a newer one takes an older one's
                                                                         // place
    std::map<std::tuple<BendId, Side, BendId, BendMask>, Relation> relations_;
};

}  // namespace tinwright
