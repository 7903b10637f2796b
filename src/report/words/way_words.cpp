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

/// One straight move of a piece, across or along the machine.
std::string oneMove(const ExitMove::Point& from, const ExitMove::Point& to) {
    const auto by = [](double mm) { return millimetres(std::abs(mm)); };
    if (std::abs(to.x_mm - from.x_mm) > kNone_mm)
        return fmt::format("slide {} mm to the {}", by(to.x_mm - from.x_mm), side(to.x_mm - from.x_mm));
    if (std::abs(to.y_mm - from.y_mm) > kNone_mm)
        return fmt::format("{} {} mm", to.y_mm > from.y_mm ? "draw back" : "draw forward", by(to.y_mm - from.y_mm));
    return fmt::format("{} {} mm", to.z_mm > from.z_mm ? "lift" : "lower", by(to.z_mm - from.z_mm));
}

std::string roundOut(const ExitMove& move) {
    std::string words;
    ExitMove::Point from;
    for (std::size_t i = 0; i + 1 < move.path.size(); ++i) {
        words += oneMove(from, move.path[i]) + ", ";
        from = move.path[i];
    }
    return words + (move.path.back().z_mm > from.z_mm + kNone_mm ? "lift out" : "draw out to the back");
}

/// The same told backwards.
std::string roundIn(const ExitMove& move) {
    const std::size_t last = move.path.size() - 1;
    const ExitMove::Point start;
    std::string words;
    const auto before = [&](std::size_t i) -> const ExitMove::Point& { return i == 0 ? start : move.path[i - 1]; };
    const ExitMove::Point& down = before(last);
    words = move.path[last].z_mm > down.z_mm + kNone_mm ? setDown(down.x_mm, down.y_mm) : "push it in from the back";
    words = words.substr(0, words.find(", then"));
    for (std::size_t i = last; i-- > 0;) words += ", " + oneMove(move.path[i], before(i));
    return words;
}

bool tilts(const ExitMove& move) {
    return std::any_of(move.path.begin(), move.path.end(),
                       [](const ExitMove::Point& point) { return point.tilt_deg != 0; });
}

std::string tiltedOut(const ExitMove& move) {
    double least_mm = 0;
    double most_mm = 0;
    for (const ExitMove::Point& point : move.path) {
        least_mm = std::min(least_mm, point.ram_mm);
        most_mm = std::max(most_mm, point.ram_mm);
    }
    const std::string ram = least_mm < -kNone_mm ? ", the ram coming down over it"
                            : most_mm > kNone_mm ? ", while the ram goes up"
                                                 : "";
    return (tilts(move) ? "lift and tilt the part to draw it out"
                        : "lift the part a little, then draw it out forward") +
           ram;
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
        case ExitMove::Kind::kPartTilted: return tiltedOut(move);
        case ExitMove::Kind::kPieceRound: return roundOut(move);
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
        case ExitMove::Kind::kPieceRound: return roundIn(move);
        case ExitMove::Kind::kPieceUp:
        case ExitMove::Kind::kPieceAlong:
        case ExitMove::Kind::kPieceBack: break;
    }
    return pieceIn(last);
}

}  // namespace tinwright::report
