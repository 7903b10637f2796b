// SPDX-License-Identifier: GPL-3.0-or-later
// What the engine says is possible, with bars where it puts them, swung again by the oracle: nothing may hit.

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <numbers>

#include <tinwright/fold/fold_engine.h>

#include "oracle_model.h"
#include "random_states.h"

using namespace tinwright;

namespace {

constexpr double kStep_rad = 0.5 * std::numbers::pi / 180.0;
constexpr double kSliver_mm = 2e-3;  // fold x is rounded to micrometres

struct Standing {
    oracle::Section section;
    double x0, x1;
};

oracle::Section shrunk(const std::vector<Region>& regions) {
    oracle::Section section;
    for (const Region& region : regions) {
        for (Polygon& piece : oracle::fitted(region, oracle::Fit::kShrunk)) section.push_back(std::move(piece));
    }
    return section;
}

// Everything that stands still, in the frame of the bend.
std::vector<Standing> standing(const random_states::Case& what, const StrokeResult& result, double bend_x_mm) {
    const LeafBrake& brake = what.brake();
    const double t = what.part.thickness_mm;
    const double end = brake.length_mm + bend_x_mm;
    std::vector<Standing> bodies{{shrunk({oracle::bedSectionOf(brake, t)}), bend_x_mm, end}};
    if (brake.has_beam) bodies.push_back({shrunk({oracle::beamSectionOf(brake, t)}), bend_x_mm, end});
    for (const SetupPiece& piece : result.setup.pieces) {
        const Bar& bar = brake.bars[piece.bar.index()];
        const Region region = oracle::barSectionOf(bar, t);
        const double cut = t + (bar.end_relief_mm > 0 ? bar.end_relief_height_mm : -1000.0);
        const double x0 = toMm(piece.at.lo) + bend_x_mm;
        const double x1 = toMm(piece.at.hi) + bend_x_mm;
        bodies.push_back({shrunk(oracle::cut(region, cut, 1000)), x0, x1});
        if (bar.end_relief_mm <= 0) continue;
        bodies.push_back({shrunk(oracle::cut(region, -1000, cut)), x0 + bar.end_relief_mm, x1 - bar.end_relief_mm});
    }
    return bodies;
}

std::string firstHit(const random_states::Case& what, const oracle::Stroke& stroke, const StrokeResult& result) {
    const double bend_x_mm = stroke.leastStrip_mm() - toMm(result.part_x_um);  // machine x = 0 in the frame of the bend
    const std::vector<Standing> bodies = standing(what, result, bend_x_mm);
    const LeafFace& face = what.brake().leaf_faces[result.setup.leaf_face];
    const auto& pieces = stroke.pieces();
    for (const oracle::Forming forming : {oracle::Forming{0}, oracle::Forming{1}, oracle::Forming{0.5}}) {
        for (std::size_t g = 0; g < pieces.size(); ++g) {
            for (std::size_t b = 0; b < bodies.size(); ++b) {
                if (stroke.meetsStill(pieces[g], false, bodies[b].section, bodies[b].x0 + kSliver_mm, bodies[b].x1 - kSliver_mm, forming, kStep_rad) >= 0) {
                    return fmt::format("group {} hits body {}, uniform share {}", g, b, forming.uniform_share);
                }
            }
            const double x0 = bend_x_mm + kSliver_mm;
            if (stroke.meetsLeaf(pieces[g], face, oracle::Fit::kShrunk, x0, x0 + what.brake().length_mm - 2 * kSliver_mm, forming, kStep_rad) >= 0) {
                return fmt::format("group {} hits the leaf, uniform share {}", g, forming.uniform_share);
            }
            for (std::size_t h = 0; h < pieces.size(); ++h) {
                if (!pieces[g].moving || pieces[h].moving) continue;
                if (stroke.meetsHeld(pieces[g], true, pieces[h], forming, kStep_rad) >= 0) return fmt::format("group {} hits group {}", g, h);
            }
        }
    }
    return {};
}

bool apart(const std::vector<SetupPiece>& pieces) {
    for (std::size_t i = 1; i < pieces.size(); ++i) {
        if (pieces[i].at.lo < pieces[i - 1].at.hi) return false;
    }
    return true;
}

}  // namespace

TEST_CASE("What the engine calls possible is swung again by libfcl without a hit") {
    int possible = 0, impossible = 0, undecided = 0;
    for (std::uint64_t seed = 500'000; seed < 500'300; ++seed) {
        const random_states::Case what = random_states::randomCase(seed);
        FoldEngine engine(what.part, what.shop, what.brake());
        const oracle::Outlines outlines(what.part);
        random_states::Dice dice(seed);
        for (int i = 0; i < 3; ++i) {
            const random_states::State state = random_states::randomState(what.part, dice);
            INFO(fmt::format("randomCase({}), formed {:#x}, bend {}, hold {}", seed, state.formed, state.bend.value, state.hold));
            const StrokeResult result = engine.check(state.formed, {{state.bend}, state.hold, true});
            if (result.answer == StrokeAnswer::kUndecided) ++undecided;
            if (result.answer == StrokeAnswer::kImpossible) ++impossible;
            if (result.answer != StrokeAnswer::kPossible) continue;
            ++possible;
            CHECK(apart(result.setup.pieces));
            const oracle::Stroke stroke(what.part, outlines, what.brake(), what.shop.overbendFor_deg(what.part.material), state.formed, state.bend,
                                        state.hold);
            CHECK(firstHit(what, stroke, result) == "");
        }
    }
    INFO(possible << " possible, " << impossible << " impossible, " << undecided << " undecided");
    if (std::getenv("TINWRIGHT_TALLY") != nullptr) WARN(possible << " possible, " << impossible << " impossible, " << undecided << " undecided");
    CHECK(possible > 250);
    CHECK(impossible > 50);
}
