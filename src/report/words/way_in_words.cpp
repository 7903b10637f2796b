// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/way_in_words.h"

#include <cmath>

#include <fmt/format.h>

#include "words/words.h"

namespace tinwright::report {
namespace {

constexpr double kNone_mm = 0.05;

const char* side(double x_mm) { return x_mm < 0 ? "left" : "right"; }

/// A piece that comes out upwards at a place beside or behind its own.
std::string setDown(double along_mm, double back_mm) {
    const bool beside = std::abs(along_mm) > kNone_mm;
    const bool behind = back_mm > kNone_mm;
    if (!beside && !behind) return "set it down";
    std::string place;
    if (behind) place = fmt::format("{} mm behind", millimetres(back_mm));
    if (beside)
        place += fmt::format("{}{} mm {} of", behind ? " and " : "", millimetres(std::abs(along_mm)), side(along_mm));
    std::string then = behind ? "draw it forward" : "";
    if (beside) then += fmt::format("{}slide it to the {}", behind ? ", then " : "", side(-along_mm));
    return fmt::format("set it down {} its place, then {}", place, then);
}

std::string pieceIn(const ExitMove::Point& last) {
    if (last.y_mm < -kNone_mm) {
        const std::string slide = std::abs(last.x_mm) > kNone_mm
                                      ? fmt::format("{} mm {} of its place, slide it to the {}",
                                                    millimetres(std::abs(last.x_mm)), side(last.x_mm), side(-last.x_mm))
                                      : "";
        return "put it in from the front" + (slide.empty() ? "" : " " + slide) + " and fasten it";
    }
    if (last.z_mm > kNone_mm) return setDown(last.x_mm, last.y_mm);
    return last.y_mm > kNone_mm ? std::string("push it in from the back")
                                : fmt::format("slide it in from the {}", side(last.x_mm));
}

}  // namespace

std::string wayInWords(const ExitMove& move) {
    if (move.path.empty()) return move.words;
    const ExitMove::Point& last = move.path.back();
    switch (move.kind) {
        case ExitMove::Kind::kPartUp: return "lower it into its place";
        case ExitMove::Kind::kPartForward: return "slide it in from the front";
        case ExitMove::Kind::kPartAlong:
            return fmt::format("slide it in along the machine from the {}", side(last.x_mm));
        case ExitMove::Kind::kPartTilted: return "bring it in from the front, the reverse of: " + move.words;
        case ExitMove::Kind::kPieceUp:
        case ExitMove::Kind::kPieceAlong:
        case ExitMove::Kind::kPieceBack: return pieceIn(last);
    }
    return move.words;
}

}  // namespace tinwright::report
