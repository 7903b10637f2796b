// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/edges/kerf.h>

#include <algorithm>

#include <fmt/format.h>

#include <tinwright/geometry/box.h>
#include <tinwright/part/model/round_hole.h>

namespace tinwright {

namespace {

// Less is rounding.
constexpr double kLeftOver_mm2 = 0.01;

std::string blankPlaceText(const Vec2& at) { return fmt::format("({:.1f}, {:.1f}) mm of the blank", at.x(), at.y()); }

Vec2 middleOf(const Polygon& polygon) { return boxOf(polygon).center(); }

void sortPlaces(std::vector<Vec2>& places) {
    std::sort(places.begin(), places.end(),
              [](const Vec2& a, const Vec2& b) { return a.x() < b.x() || (a.x() == b.x() && a.y() < b.y()); });
}

/// What the cut, as wide as the kerf, does not reach from inside. `paths` are those of its middle. Corners lose a
/// little of that, round ones more than mitres.
std::vector<Vec2> missed(const Polygon& hole, const std::vector<Region>& paths, double kerf_mm) {
    constexpr double kCorner = 0.1;  // of the kerf squared
    std::vector<Polygon> reached;
    for (const Region& path : paths) {
        for (const Region& cut : grown(path, 0.5 * kerf_mm)) reached.push_back(cut.outline);
    }
    std::vector<Vec2> places;
    for (const Region& left : difference({hole, {}}, reached)) {
        if (area_mm2(left) > std::max(kLeftOver_mm2, kCorner * kerf_mm * kerf_mm))
            places.push_back(middleOf(left.outline));
    }
    sortPlaces(places);
    return places;
}

class PathMaker {
public:
    PathMaker(const Region& blank, double kerf_mm) : blank_(blank), half_mm_(0.5 * kerf_mm) {}
    Result<KerfPath> run();

private:
    void outline();
    void hole(const Polygon& hole);
    void lost(const Polygon& hole) {
        issues_.push_back({"kerf.hole", "", blankPlaceText(middleOf(hole)),
                           fmt::format("a hole that is nowhere wider than the kerf of {:.4g} mm", 2 * half_mm_),
                           "holes wider than the kerf",
                           "drill it: with a \"cutting\" in the shop file it goes on the drill list"});
    }

    const Region& blank_;
    double half_mm_;
    KerfPath out_;
    Issues issues_;
};

void PathMaker::outline() {
    const std::vector<Region> grown_outline = grown({blank_.outline, {}}, half_mm_);
    if (grown_outline.size() != 1) {
        issues_.push_back({"kerf.crossing", "", "the outline", "an outline that falls apart when moved by half a kerf",
                           "a simple outline", ""});
        return;
    }
    out_.path.outline = grown_outline.front().outline;
    for (const Vec2& gap : gapsNarrowerThan(blank_.outline, 2 * half_mm_)) {
        out_.notes.push_back(
            fmt::format("a gap of the outline at {} is narrower than the kerf and is not cut: saw it by hand",
                        blankPlaceText(gap)));
    }
}

// Shrinking the chords of a circle would make it smaller than the circle shrunk, by the chord's error.
void PathMaker::hole(const Polygon& hole) {
    if (const auto round = roundHole(hole)) {
        const double radius = 0.5 * round->diameter_mm;
        if (radius <= half_mm_) return lost(hole);
        Polygon smaller;
        for (const Vec2& p : hole)
            smaller.push_back(round->centre + (radius - half_mm_) / radius * (p - round->centre));
        out_.path.holes.push_back(std::move(smaller));
        return;
    }
    std::vector<Region> pieces = grown({hole, {}}, -half_mm_);
    if (pieces.empty()) return lost(hole);
    for (const Vec2& neck : missed(hole, pieces, 2 * half_mm_)) {
        out_.notes.push_back(
            fmt::format("a place of the hole at {} is narrower than the kerf and is not cut: saw it by hand",
                        blankPlaceText(neck)));
    }
    for (Region& piece : pieces) out_.path.holes.push_back(std::move(piece.outline));
}

Result<KerfPath> PathMaker::run() {
    outline();
    for (const Polygon& each : blank_.holes) hole(each);
    std::string why;
    if (issues_.empty() && !isValid(out_.path, &why))
        issues_.push_back(
            {"kerf.crossing", "", "the path", why, "cuts that stay apart", "draw the cuts farther apart"});
    if (!issues_.empty()) return std::move(issues_);
    return std::move(out_);
}

}  // namespace

std::vector<Vec2> necksNarrowerThan(const Polygon& hole, double kerf_mm) {
    return missed(hole, grown({hole, {}}, -0.5 * kerf_mm), kerf_mm);
}

std::vector<Vec2> gapsNarrowerThan(const Polygon& outline, double kerf_mm) {
    std::vector<Vec2> places;
    for (const Region& wide : grown({outline, {}}, 0.5 * kerf_mm)) {
        for (const Region& closed : grown(wide, -0.5 * kerf_mm)) {
            for (const Region& gap : difference(closed, {outline})) {
                if (area_mm2(gap) > kLeftOver_mm2) places.push_back(middleOf(gap.outline));
            }
        }
    }
    sortPlaces(places);
    return places;
}

Result<KerfPath> kerfPath(const Region& blank, double kerf_mm) {
    TINWRIGHT_REQUIRE(kerf_mm > 0, "a kerf is a width over 0");
    return PathMaker(blank, kerf_mm).run();
}

}  // namespace tinwright
