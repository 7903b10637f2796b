// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include <tinwright/brake/plan/reason.h>

#include "machine/machine.h"
#include "setup/placed.h"

namespace tinwright {

/// A body of the machine on its way, as seen from a part that lies still: straight lines between shifts from where the
/// body is told.
struct ToolMove {
    std::size_t body = 0;
    std::vector<std::pair<Vec2, Vec2>> sweeps;
};

/// A hem to be closed, along y and z.
struct HemSize {
    double depth_mm = 0;   ///< outside of the closed fold to the far edge of the return
    double stands_mm = 0;  ///< over the parent's lower face after the first fold
    double height_mm = 0;  ///< closed
    double crest_mm = 0;   ///< y of the outside of the closed fold, where the part is told
};

/// The tools that close a hem, and where they go (NOTES.md, "Hems").
class HemTools {
public:
    /// None when the pieces do not close it, whatever else there is of the part; `why` then tells it.
    [[nodiscard]] static std::optional<HemTools> of(const Machine& machine, const Placed& placed, const HemSize& hem,
                                                    ClosingTrouble& why);

    [[nodiscard]] double front_mm() const { return front_mm_; }
    [[nodiscard]] double inserted_mm() const { return inserted_mm_; }
    /// Bodies as long as the machine, and those of a family of pieces. `up`: the part leaves upwards, else forward.
    [[nodiscard]] std::vector<ToolMove> longMoves(bool up) const;
    [[nodiscard]] std::vector<ToolMove> high(std::size_t family, bool up) const;
    /// Of what end relief or horn shortens.
    [[nodiscard]] std::vector<ToolMove> low(std::size_t family) const;
    /// Of side frames.
    [[nodiscard]] ToolMove frames() const;
    /// True when the tools above are lifted away by hand.
    [[nodiscard]] bool loose() const { return loose_; }

private:
    struct Lift {  // of what is above: shift in z
        double closed_mm = 0;
        double open_mm = 0;
    };
    HemTools(const Machine& machine, std::size_t face) : machine_(&machine), face_(face) {}
    [[nodiscard]] bool takeFlats(const Placed& placed, const HemSize& hem, ClosingTrouble& why);
    void takeClamp(const HemSize& hem);
    [[nodiscard]] bool takeJaw(const Placed& placed, const HemSize& hem, ClosingTrouble& why);
    [[nodiscard]] ToolMove above(std::size_t body, const Lift& lift) const;
    [[nodiscard]] ToolMove below(std::size_t body, double shift_mm, bool up) const;

    const Machine* machine_;
    std::size_t face_;
    bool loose_ = false;
    double front_mm_ = 0;
    double inserted_mm_ = 0;
    double shift_y_mm_ = 0;  // of all tools, to where the part is told
    Lift upper_;             // bars and beam, or punches and ram
    Lift roof_;              // of the jaw
    double bed_mm_ = 0;
};

}  // namespace tinwright
