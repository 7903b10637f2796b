// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>

#include "gltf/glb_part.h"
#include "scene/press_tools.h"

namespace tinwright::report {

/// A press brake in a glTF file: dies and bed stand still, ram and punches come down.
class GlbPress {
public:
    GlbPress(const Plan& plan, const ToolShapes& tools) : plan_(plan), brake_(tools.brake), tools_(tools) {}

    /// Ram, bed and side frames as the tools of the first fold have them, whose scene that is; what comes down as it
    /// stands when the punch touches the flat sheet.
    void addMachine(GlbWriter& writer, std::size_t colour, const FoldScene& first);
    /// Punches and dies of a fold; those of the first are seen.
    void addPieces(GlbWriter& writer, std::size_t colour, const FoldScene& scene, std::size_t fold);

    /// What moves over a fold, all of the part included: the ram comes down, bends, goes up as far as the sheet springs
    /// back, and opens; then the part leaves by its way.
    [[nodiscard]] std::vector<GlbTrack> tracks(const GlbPart& part, const FoldScene& scene, std::size_t fold) const;

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

}  // namespace tinwright::report
