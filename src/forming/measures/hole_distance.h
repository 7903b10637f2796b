// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "measures/leg.h"

/// How near cut-outs lie to bends, held against one rule or another.
namespace tinwright::forming {

/// Both sides of every bend, made once: with many cut-outs they are the dear part.
using Legs = std::vector<std::array<Leg, 2>>;
[[nodiscard]] Legs legsOf(const Part& part);

/// Distance from the start of the bend that a cut-out wants, by the length of its edge along the bend and the leg it is
/// on.
using WantedDistance = std::function<double(const NamedCutOut& cut_out, double edge_mm, const Leg& leg)>;

struct Nearness {
    double distance_mm = 0;  ///< from the start of the bend; under 0: it lies in the bend
    double wanted_mm = 0;
    Box box;                   ///< of the cut-out, in the leg's frame
    Vec2 away = Vec2::Zero();  ///< on the blank, from the bend

    [[nodiscard]] double fromLine_mm() const { return box.min().y(); }
    [[nodiscard]] double wantedFromLine_mm() const { return fromLine_mm() - distance_mm + wanted_mm; }
    [[nodiscard]] bool isInBend() const;
    [[nodiscard]] bool isNear() const;
};

/// The side on which the cut-out lies nearest to a bend; none when it lies beside it on neither.
[[nodiscard]] std::optional<Nearness> nearness(const Part& part, const std::array<Leg, 2>& legs, std::size_t cut_out,
                                               const WantedDistance& wanted);

/// "move it 1.2 mm away from the bend", when no bend has it too near then, and it keeps a thickness of sheet to the
/// edge.
[[nodiscard]] std::optional<std::string> moveAway(const Part& part, const Legs& legs, std::size_t cut_out,
                                                  const Nearness& near, const WantedDistance& wanted);

}  // namespace tinwright::forming
