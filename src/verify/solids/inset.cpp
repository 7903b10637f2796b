// SPDX-License-Identifier: GPL-3.0-or-later
#include "solids/inset.h"

#include <geos_c.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>
#include <tuple>

namespace tinwright::replay {

namespace {

// One context a call; everything made in it is freed before it.
class Overlay {
public:
    Overlay() : context_(GEOS_init_r()) {}
    ~Overlay() { GEOS_finish_r(context_); }
    Overlay(const Overlay&) = delete;
    Overlay& operator=(const Overlay&) = delete;

    struct Free {
        GEOSContextHandle_t context;
        void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(context, geometry); }
    };
    using Geometry = std::unique_ptr<GEOSGeometry, Free>;

    [[nodiscard]] Geometry own(GEOSGeometry* geometry) const { return Geometry(geometry, Free{context_}); }

    [[nodiscard]] GEOSGeometry* ring(const Polygon& polygon) const {
        const auto count = static_cast<unsigned>(polygon.size());
        GEOSCoordSequence* points = GEOSCoordSeq_create_r(context_, count + 1, 2);
        for (unsigned i = 0; i <= count; ++i) {
            GEOSCoordSeq_setXY_r(context_, points, i, polygon[i % count].x(), polygon[i % count].y());
        }
        return GEOSGeom_createLinearRing_r(context_, points);
    }

    [[nodiscard]] Geometry polygon(const Region& region) const {
        std::vector<GEOSGeometry*> holes;
        for (const Polygon& hole : region.holes) holes.push_back(ring(hole));
        return own(GEOSGeom_createPolygon_r(context_, ring(region.outline), holes.data(),
                                            static_cast<unsigned>(holes.size())));
    }

    [[nodiscard]] Geometry buffer(const Geometry& of, double by_mm) const {
        return own(GEOSBufferWithStyle_r(context_, of.get(), by_mm, 4, GEOSBUF_CAP_FLAT, GEOSBUF_JOIN_MITRE, 1.5));
    }

    [[nodiscard]] Polygon points(const GEOSGeometry* of_ring) const {
        const GEOSCoordSequence* sequence = GEOSGeom_getCoordSeq_r(context_, of_ring);
        unsigned count = 0;
        GEOSCoordSeq_getSize_r(context_, sequence, &count);
        Polygon polygon(count > 0 ? count - 1 : 0);
        for (unsigned i = 0; i + 1 < count; ++i) {
            GEOSCoordSeq_getXY_r(context_, sequence, i, &polygon[i].x(), &polygon[i].y());
        }
        if (signedArea_mm2(polygon) < 0) std::reverse(polygon.begin(), polygon.end());
        return polygon;
    }

    [[nodiscard]] std::vector<Region> regions(const Geometry& of) const {
        std::vector<Region> result;
        for (int i = 0; i < GEOSGetNumGeometries_r(context_, of.get()); ++i) {
            const GEOSGeometry* item = GEOSGetGeometryN_r(context_, of.get(), i);
            if (GEOSGeomTypeId_r(context_, item) != GEOS_POLYGON || GEOSisEmpty_r(context_, item) != 0) continue;
            Region region{points(GEOSGetExteriorRing_r(context_, item)), {}};
            for (int h = 0; h < GEOSGetNumInteriorRings_r(context_, item); ++h) {
                region.holes.push_back(points(GEOSGetInteriorRingN_r(context_, item, h)));
            }
            result.push_back(std::move(region));
        }
        return result;
    }

private:
    GEOSContextHandle_t context_;
};

}  // namespace

std::vector<Polygon> shrunkPieces(const Region& region, double by_mm) {
    const Overlay overlay;
    const Overlay::Geometry whole = overlay.polygon(region);
    if (!whole) return {};
    const Overlay::Geometry less = overlay.buffer(whole, -by_mm);
    if (!less) return {};
    std::vector<Polygon> pieces;
    for (const Region& rest : overlay.regions(less)) {
        for (Polygon& piece : convexPieces(rest)) pieces.push_back(std::move(piece));
    }
    return pieces;
}

Polygon hull(std::vector<Vec2> points) {
    std::sort(points.begin(), points.end(),
              [](const Vec2& a, const Vec2& b) { return std::tuple(a.x(), a.y()) < std::tuple(b.x(), b.y()); });
    const auto turnsLeft = [](const Vec2& a, const Vec2& b, const Vec2& c) {
        return (b.x() - a.x()) * (c.y() - a.y()) - (b.y() - a.y()) * (c.x() - a.x()) > 0;
    };
    Polygon chain;
    for (int pass = 0; pass < 2; ++pass) {
        const std::size_t base = chain.size();
        for (const Vec2& point : points) {
            while (chain.size() >= base + 2 && !turnsLeft(chain[chain.size() - 2], chain.back(), point))
                chain.pop_back();
            chain.push_back(point);
        }
        chain.pop_back();  // it is the first of the other pass
        std::reverse(points.begin(), points.end());
    }
    return chain;
}

Polygon grown(const Polygon& convex, double by_mm) {
    constexpr int kDirections = 16;  // inside the circle: falls short of it by at most 2 %
    std::vector<Vec2> points;
    for (const Vec2& corner : convex) {
        for (int i = 0; i < kDirections; ++i) {
            const double turn = 2.0 * std::numbers::pi * i / kDirections;
            points.push_back(corner + by_mm * Vec2(std::cos(turn), std::sin(turn)));
        }
    }
    return hull(std::move(points));
}

}  // namespace tinwright::replay
