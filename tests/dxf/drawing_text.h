// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include <tinwright/io/dxf/dxf_io.h>

namespace tinwright::test {

/// A drawing put together entity by entity.
class DrawingText {
public:
    explicit DrawingText(int insunits = 4) : insunits_(insunits) {}
    DrawingText& line(const std::string& layer, Vec2 a, Vec2 b) {
        return entity(
            fmt::format("0\nLINE\n8\n{}\n10\n{}\n20\n{}\n11\n{}\n21\n{}\n", layer, a.x(), a.y(), b.x(), b.y()));
    }
    DrawingText& circle(const std::string& layer, Vec2 c, double r) {
        return entity(fmt::format("0\nCIRCLE\n8\n{}\n10\n{}\n20\n{}\n40\n{}\n", layer, c.x(), c.y(), r));
    }
    DrawingText& arc(const std::string& layer, Vec2 c, double r, double from_deg, double to_deg) {
        return entity(fmt::format("0\nARC\n8\n{}\n10\n{}\n20\n{}\n40\n{}\n50\n{}\n51\n{}\n", layer, c.x(), c.y(), r,
                                  from_deg, to_deg));
    }
    DrawingText& text(const std::string& layer, Vec2 at, const std::string& words) {
        return entity(fmt::format("0\nTEXT\n8\n{}\n10\n{}\n20\n{}\n40\n3\n1\n{}\n", layer, at.x(), at.y(), words));
    }
    DrawingText& ring(const std::string& layer, const std::vector<Vec2>& corners) {
        for (std::size_t i = 0; i < corners.size(); ++i) line(layer, corners[i], corners[(i + 1) % corners.size()]);
        return *this;
    }
    DrawingText& rectangle(const std::string& layer, Vec2 low, Vec2 high) {
        return ring(layer, {low, {high.x(), low.y()}, high, {low.x(), high.y()}});
    }
    DrawingText& entity(std::string text) {
        entities.push_back(std::move(text));
        return *this;
    }
    [[nodiscard]] std::string text() const {
        std::string all = fmt::format(
            "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n{}\n0\nENDSEC\n0\nSECTION\n2\nTABLES\n{}"
            "0\nENDSEC\n0\nSECTION\n2\nBLOCKS\n{}0\nENDSEC\n0\nSECTION\n2\nENTITIES\n",
            insunits_, tables, blocks);
        for (const std::string& entity : entities) all += entity;
        return all + "0\nENDSEC\n0\nEOF\n";
    }

    std::vector<std::string> entities;
    std::string tables;
    std::string blocks;

private:
    int insunits_;
};

/// Bends file of 1.5 mm sheet, radius 1.5, bends up by 90° unless said otherwise; `more` are further fields (", ...").
inline std::string bendsText(const std::string& more = {},
                             const std::string& standard = R"("angle": 90, "direction": "up")") {
    return R"({"format": "tinwright-bends/1", "units": "mm", "sheet": {"material": "mild-steel", "thickness": 1.5},
        "allowance": {"rule": "k-factor", "k": 0.44}, "inside_radius": 1.5, "default": {)" +
           standard + "}" + more + "}";
}

inline Result<Part> readDrawn(const DrawingText& drawing, const std::string& bends = bendsText(),
                              const DxfOptions& options = {}) {
    return readDxfBlankText({drawing.text(), "drawn.dxf"}, {bends, "drawn.bends.json"}, options);
}

inline std::string textOf(const Issues& issues) {
    std::string text;
    for (const Issue& issue : issues) text += toText(issue) + "\n";
    return text;
}

inline bool warns(const Part& part, std::string_view words) {
    for (const std::string& warning : part.warnings) {
        if (warning.find(words) != std::string::npos) return true;
    }
    return false;
}

inline double perimeter_mm(const Polygon& ring) {
    double sum = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) sum += (ring[(i + 1) % ring.size()] - ring[i]).norm();
    return sum;
}

inline Vec2 centreOf(const Polygon& ring) {
    Vec2 sum = Vec2::Zero();
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2& a = ring[i];
        const Vec2& b = ring[(i + 1) % ring.size()];
        sum += (a.x() * b.y() - a.y() * b.x()) * (a + b);
    }
    return sum / (6 * signedArea_mm2(ring));
}

inline double bendLength_mm(const Bend& bend) {
    double sum = 0;
    for (const StripSpan& span : bend.spans) sum += span.to_mm - span.from_mm;
    return sum;
}

}  // namespace tinwright::test
