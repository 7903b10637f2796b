// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/way_words.h"

#include <algorithm>
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

/// A piece that leaves in front was loosened on its beam; one that does not rise goes out to the back.
std::string pieceOut(const ExitMove& move) {
    const ExitMove::Point& last = move.path.back();
    const bool back = move.drawn_back_mm > 0;
    if (move.kind == ExitMove::Kind::kPieceAlong) {
        if (last.y_mm < 0)
            return last.x_mm == 0 ? "loosen and take out to the front"
                                  : "loosen, slide along and take out to the front";
        const double by_mm = std::abs(last.x_mm);
        const std::string then =
            back ? fmt::format(", draw back {:.0f} mm and lift out", move.drawn_back_mm) : ", then lift out";
        return fmt::format("slide {:.{}f} mm to the {}{}", by_mm, by_mm < 1 ? 1 : 0, side(last.x_mm), then);
    }
    if (move.kind == ExitMove::Kind::kPieceUp) return "lift out";
    return back ? fmt::format("draw back {:.0f} mm, then lift out", move.drawn_back_mm) : "draw out to the back";
}

bool tilts(const ExitMove& move) {
    return std::any_of(move.path.begin(), move.path.end(),
                       [](const ExitMove::Point& point) { return point.tilt_deg != 0; });
}

}  // namespace

std::string wayOutWords(const ExitMove& move) {
    if (move.path.empty()) return {};
    switch (move.kind) {
        case ExitMove::Kind::kPartUp: return "lift the part off";
        case ExitMove::Kind::kPartForward:
            return move.out_of_vee_mm > 0 ? "lift the part out of the V and draw it out forward"
                                          : "draw the part out forward";
        case ExitMove::Kind::kPartAlong:
            return fmt::format("slide the part off the {} end", side(move.path.back().x_mm));
        case ExitMove::Kind::kPartTilted:
            return tilts(move) ? "lift and tilt the part to draw it out"
                               : "lift the part a little, then draw it out forward";
        case ExitMove::Kind::kPieceUp:
        case ExitMove::Kind::kPieceAlong:
        case ExitMove::Kind::kPieceBack: break;
    }
    return pieceOut(move);
}

std::string wayInWords(const ExitMove& move) {
    if (move.path.empty()) return {};
    const ExitMove::Point& last = move.path.back();
    switch (move.kind) {
        case ExitMove::Kind::kPartUp: return "lower it into its place";
        case ExitMove::Kind::kPartForward: return "slide it in from the front";
        case ExitMove::Kind::kPartAlong:
            return fmt::format("slide it in along the machine from the {}", side(last.x_mm));
        case ExitMove::Kind::kPartTilted: return "bring it in from the front, the reverse of: " + wayOutWords(move);
        case ExitMove::Kind::kPieceUp:
        case ExitMove::Kind::kPieceAlong:
        case ExitMove::Kind::kPieceBack: break;
    }
    return pieceIn(last);
}

}  // namespace tinwright::report
