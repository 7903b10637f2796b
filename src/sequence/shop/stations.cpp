// SPDX-License-Identifier: GPL-3.0-or-later
#include "shop/stations.h"

#include <algorithm>
#include <limits>
#include <map>

#include <tinwright/brake/machines/brake.h>

namespace tinwright {

namespace {

constexpr std::size_t kMostStations = 4;
constexpr Micron kApart_um = 20'000;  // stations nearer than this are one

Interval hullOf(const Setup& setup) {
    Interval hull{std::numeric_limits<Micron>::max(), std::numeric_limits<Micron>::min()};
    for (const SetupPiece& piece : setup.pieces)
        hull = {std::min(hull.lo, piece.at.lo), std::max(hull.hi, piece.at.hi)};
    return hull;
}

bool contains(const Setup& all, const Setup& some) {
    return all.face == some.face && std::all_of(some.pieces.begin(), some.pieces.end(), [&](const SetupPiece& piece) {
               return std::find(all.pieces.begin(), all.pieces.end(), piece) != all.pieces.end();
           });
}

bool enoughPieces(const Brake& brake, const Setup& setup) {
    std::map<std::size_t, int> used;
    for (const SetupPiece& piece : setup.pieces) ++used[piece.tool.index()];
    return std::all_of(used.begin(), used.end(),
                       [&](const auto& of) { return of.second <= brake.tool(idAt<ToolId>(of.first)).count; });
}

// From left to right in the order given, in the middle of the machine; no pieces: they do not fit.
Setup besideOneAnother(const Brake& brake, const std::vector<Setup>& stations, Micron room_um) {
    const Micron length = micronFloor(brake.length_mm);
    Micron tools = 0;
    for (const Setup& station : stations) tools += hullOf(station).length();
    const Micron between = std::min(room_um, (length - tools) / static_cast<Micron>(stations.size() - 1));
    if (between < kApart_um) return {};
    Micron at = (length - tools - between * static_cast<Micron>(stations.size() - 1)) / 2;
    Setup all{stations.front().face, {}};
    for (const Setup& station : stations) {
        const Interval hull = hullOf(station);
        for (SetupPiece piece : station.pieces) {
            piece.at = {piece.at.lo + at - hull.lo, piece.at.hi + at - hull.lo};
            all.pieces.push_back(piece);
        }
        at += hull.length() + between;
    }
    std::stable_sort(all.pieces.begin(), all.pieces.end(),
                     [](const SetupPiece& a, const SetupPiece& b) { return a.at.lo < b.at.lo; });
    return enoughPieces(brake, all) ? all : Setup{};
}

// Of different set-ups the first few, without those that stand in another.
std::vector<Setup> distinct(const std::vector<Setup>& setups) {
    std::vector<Setup> kept;
    for (const Setup& setup : setups) {
        if (setup.pieces.empty() ||
            std::any_of(kept.begin(), kept.end(), [&](const Setup& other) { return contains(other, setup); }))
            continue;
        std::erase_if(kept, [&](const Setup& other) { return contains(setup, other); });
        kept.push_back(setup);
    }
    if (kept.size() > kMostStations) kept.resize(kMostStations);
    return kept;
}

}  // namespace

std::vector<Setup> stationsOf(const Brake& brake, const std::vector<Setup>& setups, Micron room_um) {
    const std::vector<Setup> stations = distinct(setups);
    std::vector<Setup> found;
    const auto take = [&](const std::vector<Setup>& some) {
        const bool one_ram =
            std::all_of(some.begin(), some.end(), [&](const Setup& setup) { return setup.face == some.front().face; });
        Setup all = one_ram ? besideOneAnother(brake, some, room_um) : Setup{};
        if (!all.pieces.empty()) found.push_back(std::move(all));
    };
    if (stations.size() > 2) take(stations);
    for (std::size_t i = 0; i < stations.size(); ++i) {
        for (std::size_t k = i + 1; k < stations.size(); ++k) take({stations[i], stations[k]});
    }
    return found;
}

}  // namespace tinwright
