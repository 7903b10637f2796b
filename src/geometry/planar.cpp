// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/geometry/planar.h>

#include <geos_c.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <tuple>
#include <utility>

#include <tinwright/geometry/cross.h>

namespace tinwright {

namespace {

// One GEOS context a call: contexts are not to be shared between threads, and making one is cheap.
class Geos {
public:
    Geos() : context_(GEOS_init_r()) {
        GEOSContext_setErrorMessageHandler_r(
            context_, [](const char*, void*) {}, nullptr);
        GEOSContext_setNoticeMessageHandler_r(
            context_, [](const char*, void*) {}, nullptr);
    }
    ~Geos() { GEOS_finish_r(context_); }
    Geos(const Geos&) = delete;
    Geos& operator=(const Geos&) = delete;
    operator GEOSContextHandle_t() const { return context_; }  // NOLINT: used in every call

private:
    GEOSContextHandle_t context_;
};

struct GeometryDeleter {
    GEOSContextHandle_t context = nullptr;
    void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(context, geometry); }
};
using Geometry = std::unique_ptr<GEOSGeometry, GeometryDeleter>;

Geometry own(const Geos& geos, GEOSGeometry* geometry) { return Geometry(geometry, GeometryDeleter{geos}); }

GEOSGeometry* makeRing(const Geos& geos, const Polygon& polygon) {
    const auto count = static_cast<unsigned>(polygon.size());
    if (count < 3) return nullptr;
    GEOSCoordSequence* points = GEOSCoordSeq_create_r(geos, count + 1, 2);
    for (unsigned i = 0; i <= count; ++i) {
        const Vec2& point = polygon[i % count];
        GEOSCoordSeq_setXY_r(geos, points, i, point.x(), point.y());
    }
    return GEOSGeom_createLinearRing_r(geos, points);  // takes the sequence
}

Geometry makePolygon(const Geos& geos, const Region& region) {
    GEOSGeometry* shell = makeRing(geos, region.outline);
    if (shell == nullptr) return own(geos, nullptr);
    std::vector<GEOSGeometry*> holes;
    for (const Polygon& hole : region.holes) {
        if (GEOSGeometry* ring = makeRing(geos, hole)) holes.push_back(ring);
    }
    return own(geos, GEOSGeom_createPolygon_r(geos, shell, holes.data(), static_cast<unsigned>(holes.size())));
}

Polygon readRing(const Geos& geos, const GEOSGeometry* ring) {
    const GEOSCoordSequence* points = GEOSGeom_getCoordSeq_r(geos, ring);
    unsigned count = 0;
    GEOSCoordSeq_getSize_r(geos, points, &count);
    Polygon polygon;
    for (unsigned i = 0; i + 1 < count; ++i) {
        Vec2 point;
        GEOSCoordSeq_getXY_r(geos, points, i, &point.x(), &point.y());
        polygon.push_back(point);
    }
    if (signedArea_mm2(polygon) < 0) std::reverse(polygon.begin(), polygon.end());
    return polygon;
}

std::vector<Region> readRegions(const Geos& geos, const GEOSGeometry* geometry) {
    std::vector<Region> regions;
    const int count = GEOSGetNumGeometries_r(geos, geometry);
    for (int i = 0; i < count; ++i) {
        const GEOSGeometry* item = GEOSGetGeometryN_r(geos, geometry, i);
        if (GEOSGeomTypeId_r(geos, item) != GEOS_POLYGON || GEOSisEmpty_r(geos, item) != 0) continue;
        Region region{readRing(geos, GEOSGetExteriorRing_r(geos, item)), {}};
        const int holes = GEOSGetNumInteriorRings_r(geos, item);
        for (int h = 0; h < holes; ++h) region.holes.push_back(readRing(geos, GEOSGetInteriorRingN_r(geos, item, h)));
        regions.push_back(std::move(region));
    }
    return regions;
}

bool isConvex(const Polygon& polygon) {
    const std::size_t n = polygon.size();
    for (std::size_t i = 0; i < n; ++i) {
        const Vec2 in = polygon[(i + 1) % n] - polygon[i];
        const Vec2 out = polygon[(i + 2) % n] - polygon[(i + 1) % n];
        if (cross(in, out) < -1e-12 * in.norm() * out.norm()) return false;
    }
    return true;
}

void dropStraightCorners(Polygon& polygon) {
    for (std::size_t i = 0; i < polygon.size() && polygon.size() > 3;) {
        const Vec2& before = polygon[(i + polygon.size() - 1) % polygon.size()];
        const Vec2 in = polygon[i] - before;
        const Vec2 out = polygon[(i + 1) % polygon.size()] - polygon[i];
        if (std::abs(cross(in, out)) <= 1e-12 * in.norm() * out.norm()) {
            polygon.erase(polygon.begin() + static_cast<std::ptrdiff_t>(i));
        } else {
            ++i;
        }
    }
}

// Edge j of b is edge i of a backwards: the polygon round both.
Polygon joinOver(const Polygon& a, std::size_t i, const Polygon& b, std::size_t j) {
    Polygon joined;
    for (std::size_t k = 1; k <= a.size(); ++k) joined.push_back(a[(i + k) % a.size()]);
    for (std::size_t k = 2; k < b.size(); ++k) joined.push_back(b[(j + k) % b.size()]);
    return joined;
}

using PointKey = std::pair<double, double>;
PointKey keyOf(const Vec2& point) { return {point.x(), point.y()}; }

using EdgeKey = std::pair<PointKey, PointKey>;

std::size_t rootOf(std::vector<std::size_t>& parent, std::size_t piece) {
    while (parent[piece] != piece) piece = parent[piece] = parent[parent[piece]];
    return piece;
}

// Where a polygon's edge with these ends starts.
std::size_t findEdge(const Polygon& polygon, const EdgeKey& key) {
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        if (keyOf(polygon[i]) == key.first && keyOf(polygon[(i + 1) % polygon.size()]) == key.second) return i;
    }
    return polygon.size();
}

// Hertel-Mehlhorn: every shared edge is taken out when what is left stays convex. Once is enough for each: an edge that
// is needed stays needed, since taking out others only widens the corners at its ends.
void mergeConvex(std::vector<Polygon>& pieces) {
    std::map<EdgeKey, std::size_t> edges;
    for (std::size_t p = 0; p < pieces.size(); ++p) {
        for (std::size_t i = 0; i < pieces[p].size(); ++i)
            edges[{keyOf(pieces[p][i]), keyOf(pieces[p][(i + 1) % pieces[p].size()])}] = p;
    }
    std::vector<std::size_t> parent(pieces.size());
    for (std::size_t p = 0; p < pieces.size(); ++p) parent[p] = p;
    for (const auto& [ends, piece] : edges) {
        const EdgeKey reversed{ends.second, ends.first};
        const auto twin = edges.find(reversed);
        if (ends > reversed || twin == edges.end()) continue;
        const std::size_t a = rootOf(parent, piece), b = rootOf(parent, twin->second);
        if (a == b) continue;
        const std::size_t i = findEdge(pieces[a], ends), j = findEdge(pieces[b], reversed);
        if (i == pieces[a].size() || j == pieces[b].size()) continue;
        Polygon joined = joinOver(pieces[a], i, pieces[b], j);
        if (!isConvex(joined)) continue;
        pieces[a] = std::move(joined);
        pieces[b].clear();
        parent[b] = a;
    }
    pieces.erase(std::remove_if(pieces.begin(), pieces.end(), [](const Polygon& piece) { return piece.empty(); }),
                 pieces.end());
}

}  // namespace

double signedArea_mm2(const Polygon& polygon) {
    double twice = 0;
    for (std::size_t i = 0; i < polygon.size(); ++i) twice += cross(polygon[i], polygon[(i + 1) % polygon.size()]);
    return 0.5 * twice;
}

double area_mm2(const Region& region) {
    double area = signedArea_mm2(region.outline);
    for (const Polygon& hole : region.holes) area -= std::abs(signedArea_mm2(hole));
    return area;
}

std::vector<Polygon> convexPieces(const Region& region) {
    if (region.holes.empty() && region.outline.size() >= 3 && isConvex(region.outline)) {
        Polygon whole = region.outline;
        dropStraightCorners(whole);
        return {whole};
    }
    const Geos geos;
    const Geometry polygon = makePolygon(geos, region);
    if (!polygon || GEOSisValid_r(geos, polygon.get()) != 1) return {};
    const Geometry triangles = own(geos, GEOSConstrainedDelaunayTriangulation_r(geos, polygon.get()));
    if (!triangles) return {};
    std::vector<Polygon> pieces;
    for (Region& triangle : readRegions(geos, triangles.get())) {
        if (signedArea_mm2(triangle.outline) > 1e-9) pieces.push_back(std::move(triangle.outline));
    }
    std::sort(pieces.begin(), pieces.end(), [](const Polygon& a, const Polygon& b) {
        return std::tuple(keyOf(a[0]), keyOf(a[1]), keyOf(a[2])) < std::tuple(keyOf(b[0]), keyOf(b[1]), keyOf(b[2]));
    });
    mergeConvex(pieces);
    for (Polygon& piece : pieces) dropStraightCorners(piece);
    return pieces;
}

std::vector<Region> difference(const Region& a, const std::vector<Polygon>& b) {
    const Geos geos;
    Geometry left = makePolygon(geos, a);
    for (const Polygon& cut : b) {
        const Geometry tool = makePolygon(geos, Region{cut, {}});
        if (!left || !tool) return {};
        left = own(geos, GEOSDifference_r(geos, left.get(), tool.get()));
    }
    return left ? readRegions(geos, left.get()) : std::vector<Region>{};
}

std::vector<Region> outside(const Region& a, const Region& b) {
    const Geos geos;
    const Geometry whole = makePolygon(geos, a);
    const Geometry tool = makePolygon(geos, b);
    const bool valid = whole && tool && GEOSisValid_r(geos, tool.get()) == 1;
    const Geometry left = own(geos, valid ? GEOSDifference_r(geos, whole.get(), tool.get()) : nullptr);
    return left ? readRegions(geos, left.get()) : std::vector<Region>{a};
}

std::vector<Region> intersection(const Region& a, const Polygon& window) {
    const Geos geos;
    const Geometry whole = makePolygon(geos, a);
    const Geometry part = makePolygon(geos, Region{window, {}});
    if (!whole || !part) return {};
    const Geometry common = own(geos, GEOSIntersection_r(geos, whole.get(), part.get()));
    return common ? readRegions(geos, common.get()) : std::vector<Region>{};
}

std::vector<Region> unite(const std::vector<Region>& regions) {
    constexpr double kGrid_mm = 1e-7;
    const Geos geos;
    std::vector<GEOSGeometry*> parts;
    for (const Region& region : regions) {
        if (Geometry polygon = makePolygon(geos, region)) parts.push_back(polygon.release());
    }
    const Geometry all = own(
        geos, GEOSGeom_createCollection_r(geos, GEOS_MULTIPOLYGON, parts.data(), static_cast<unsigned>(parts.size())));
    if (!all) return {};
    const Geometry united = own(geos, GEOSUnaryUnionPrec_r(geos, all.get(), kGrid_mm));
    return united ? readRegions(geos, united.get()) : std::vector<Region>{};
}

std::vector<Region> grown(const Region& region, double by_mm) {
    constexpr double kMitreLimit = 5.0;
    constexpr int kQuarterChords = 16;  // not used by mitred corners, but asked for
    const Geos geos;
    const Geometry whole = makePolygon(geos, region);
    if (!whole) return {};
    const Geometry result = own(geos, GEOSBufferWithStyle_r(geos, whole.get(), by_mm, kQuarterChords, GEOSBUF_CAP_FLAT,
                                                            GEOSBUF_JOIN_MITRE, kMitreLimit));
    return result ? readRegions(geos, result.get()) : std::vector<Region>{};
}

double distance_mm(const Polygon& a, const Polygon& b) {
    const Geos geos;
    const Geometry first = own(geos, makeRing(geos, a));
    const Geometry second = own(geos, makeRing(geos, b));
    double distance = 0;
    if (first && second) GEOSDistanceIndexed_r(geos, first.get(), second.get(), &distance);
    return distance;
}

bool isValid(const Region& region, std::string* why) {
    const Geos geos;
    const Geometry polygon = makePolygon(geos, region);
    if (polygon && GEOSisValid_r(geos, polygon.get()) == 1) return true;
    if (why != nullptr) {
        char* reason = polygon ? GEOSisValidReason_r(geos, polygon.get()) : nullptr;
        *why = reason != nullptr ? reason : "fewer than three corners";
        if (reason != nullptr) GEOSFree_r(geos, reason);
    }
    return false;
}

}  // namespace tinwright
