// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Random parts, shops and states for tests. Everything follows from a seed, on every machine: a failing case is told by
// its numbers and made again with randomCase(seed) and randomState(...).

#include <cstdint>
#include <optional>
#include <random>

#include <tinwright/base/stroke.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/part/model/part.h>

namespace tinwright::random_states {

/// Numbers that do not depend on the standard library's distributions.
class Dice {
public:
    explicit Dice(std::uint64_t seed) : engine_(seed * 0x9e3779b97f4a7c15ULL + 1) {}
    double between(double lo, double hi) { return lo + (hi - lo) * static_cast<double>(engine_() >> 11) * 0x1p-53; }
    int below(int count) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(count)); }
    bool chance(double share) { return between(0, 1) < share; }

private:
    std::mt19937_64 engine_;
};

struct Case {
    Part part;
    Shop shop;               ///< one brake
    std::optional<Vee> vee;  ///< of a press brake: what it is used with,
    double radius_mm = 0;    ///< and the inside radius that bends get there
    [[nodiscard]] BrakeInSetup brake() const {
        return vee ? inVee(shop.brakes[0], *vee, radius_mm) : inSetup(shop.brakes[0], part.thickness_mm);
    }
};

/// A tree of panels with 1 to 5 bends (skewed edges, mitred and partial flanges, cut-outs, bends up and down, 20° to
/// 135°, sheet of 0.8 to 3 mm) and a brake with bars of one section. Panels may lie over one another in the blank:
/// to the kernel that is a contact like any other.
[[nodiscard]] Case randomCase(std::uint64_t seed);
/// The same on a press brake in one V (inVee), 6 to 12 thicknesses wide, with punches of one or two sections (straight
/// ones, goosenecks either way round, heights, horns at either end) and dies of one or two.
[[nodiscard]] Case randomPressCase(std::uint64_t seed);

/// One bend of a random part made a hem: its child, which carries no other bend, is cut down to a return. None when
/// nothing in one piece is left of that.
[[nodiscard]] std::optional<BendId> makeHem(Part& part, Dice& dice);

/// A leaf brake that may close hems in whatever sheet: rated for it, its leaf goes far enough for the first fold, and
/// over loose bars stands no beam.
void letCloseHems(Brake& brake);

/// One bend about to be folded.
struct State {
    BendMask formed = 0;
    BendId bend;
    Side hold = Side::kParent;
};
[[nodiscard]] State randomState(const Part& part, Dice& dice);

}  // namespace tinwright::random_states
