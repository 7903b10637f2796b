// SPDX-License-Identifier: GPL-3.0-or-later
#include "entities/dxf_drawing.h"

#include <dxflib/dl_creationadapter.h>
#include <dxflib/dl_dxf.h>

#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <sstream>

#include "entities/dxf_limits.h"
#include "entities/dxf_vet.h"

namespace tinwright {

namespace {

constexpr double kDegree_rad = std::numbers::pi / 180;
constexpr std::size_t kMostDrawingIssues = 20;

/// Takes what dxflib calls out, and keeps it.
class DrawingBuilder : public DL_CreationAdapter {
public:
    explicit DrawingBuilder(const std::string& file) : file_(file) {}

    void setVariableInt(const std::string& key, int value, int) override {
        if (key == "$INSUNITS") drawing.insunits = value;
    }
    void addLayer(const DL_LayerData& data) override;
    void addBlock(const DL_BlockData& data) override;
    void endBlock() override {
        endPolyline();
        block_ = &drawing.model;
    }
    void addLine(const DL_LineData& data) override;
    void addArc(const DL_ArcData& data) override {
        addCircular(data.cx, data.cy, data.radius, data.angle1, data.angle2);
    }
    void addCircle(const DL_CircleData& data) override { addCircular(data.cx, data.cy, data.radius, 0, 360); }
    void addEllipse(const DL_EllipseData& data) override;
    void addPolyline(const DL_PolylineData& data) override;
    void addVertex(const DL_VertexData& data) override {
        if (in_polyline_) vertices_.push_back({{data.x, data.y}, data.bulge});
    }
    void addSpline(const DL_SplineData& data) override;
    void addControlPoint(const DL_ControlPointData& data) override;
    void addKnot(const DL_KnotData& data) override { spline_.knots.push_back(data.k); }
    void addInsert(const DL_InsertData& data) override;
    void addText(const DL_TextData& data) override { addNote({data.ipx, data.ipy}, data.text); }
    void addMText(const DL_MTextData& data) override {
        addNote({data.ipx, data.ipy}, chunks_ + data.text);
        chunks_.clear();
    }
    void addMTextChunk(const std::string& text) override { chunks_ += text; }
    void endEntity() override;
    void endSequence() override { endPolyline(); }
    void finish() { endEntity(); }

    DxfDrawing drawing;
    Issues issues;

private:
    struct Vertex {
        Vec2 at;
        double bulge;
    };
    DxfTag tag() const;
    void report(const char* code, std::string found, std::string expected) {
        if (issues.size() < kMostDrawingIssues)
            issues.push_back(
                {code, file_, fmt::format("line {}", tag().line), std::move(found), std::move(expected), ""});
    }
    std::optional<Eigen::Affine2d> plane();
    void add(DxfShape shape, bool in_plane_of_entity);
    void addCircular(double x, double y, double radius, double from_deg, double to_deg);
    void addNote(const Vec2& at, const std::string& text);
    void endPolyline();
    void endSpline();
    bool isVisible() { return !getAttributes().isInPaperSpace(); }

    const std::string& file_;
    DxfBlock* block_ = &drawing.model;
    bool in_polyline_ = false;
    bool polyline_closed_ = false;
    DxfTag polyline_tag_;
    Eigen::Affine2d polyline_plane_ = Eigen::Affine2d::Identity();
    std::vector<Vertex> vertices_;
    bool in_spline_ = false;
    DxfShape spline_;
    std::string chunks_;
};

DxfTag DrawingBuilder::tag() const {
    // The base class has no const access to what it keeps for the entity at hand.
    const auto at = const_cast<DrawingBuilder*>(this)->getAttributes();
    DxfTag tag;
    tag.layer = at.getLayer().empty() ? "0" : at.getLayer();
    tag.line_type = at.getLinetype().empty() ? "BYLAYER" : inCapitals(at.getLinetype());
    tag.line = static_cast<std::size_t>(std::max(0, at.getHandle()));
    return tag;
}

void DrawingBuilder::addLayer(const DL_LayerData& data) {
    constexpr int kFrozen = 1;
    drawing.layers[data.name] = {inCapitals(getAttributes().getLinetype()),
                                 data.off || getAttributes().getColor() < 0 || (data.flags & kFrozen) != 0};
}

void DrawingBuilder::addBlock(const DL_BlockData& data) {
    endEntity();
    block_ = &drawing.blocks[inCapitals(data.name)];
    *block_ = {};
    block_->base = {data.bpx, data.bpy};
}

// Entities are drawn in a plane of their own, which must be the sheet's: seen from above, or from below and so
// mirrored.
std::optional<Eigen::Affine2d> DrawingBuilder::plane() {
    double d[3] = {0, 0, 1};
    getExtrusion()->getDirection(d);
    Eigen::Affine2d map = Eigen::Affine2d::Identity();
    const double length = std::sqrt(d[0] * d[0] + d[1] * d[1] + d[2] * d[2]);
    if (std::abs(d[0]) > 1e-6 * length || std::abs(d[1]) > 1e-6 * length || length == 0) {
        report("dxf.plane", fmt::format("an entity drawn in the plane square to ({}, {}, {})", d[0], d[1], d[2]),
               "a flat drawing in the plane of x and y");
        return std::nullopt;
    }
    if (d[2] < 0) map.linear()(0, 0) = -1;
    return map;
}

void DrawingBuilder::add(DxfShape shape, bool in_plane_of_entity) {
    if (!isVisible()) return;
    shape.tag = tag();
    if (in_plane_of_entity) {
        const auto map = plane();
        if (!map) return;
        shape = mapped(std::move(shape), *map);
    }
    block_->shapes.push_back(std::move(shape));
}

void DrawingBuilder::addLine(const DL_LineData& data) {
    endEntity();
    DxfShape shape;
    shape.points = {{data.x1, data.y1}, {data.x2, data.y2}};
    add(std::move(shape), false);
}

void DrawingBuilder::addCircular(double x, double y, double radius, double from_deg, double to_deg) {
    endEntity();
    if (!(radius > 0)) return report("dxf.radius", fmt::format("a radius of {}", radius), "a radius over 0");
    DxfShape shape;
    shape.kind = DxfShape::Kind::kArc;
    shape.points = {{x, y}, {radius, 0}, {0, radius}};
    double sweep_deg = std::fmod(to_deg - from_deg, 360.0);
    if (sweep_deg <= 0) sweep_deg += 360;
    shape.from_rad = std::fmod(from_deg, 360.0) * kDegree_rad;
    shape.to_rad = shape.from_rad + sweep_deg * kDegree_rad;
    add(std::move(shape), true);
}

void DrawingBuilder::addEllipse(const DL_EllipseData& data) {
    endEntity();
    const Vec2 a(data.mx, data.my);
    if (!(a.norm() > 0) || !(data.ratio > 0) || data.ratio > 1e3) {
        return report("dxf.radius",
                      fmt::format("an ellipse with a long axis of {} and a ratio of {}", a.norm(), data.ratio),
                      "axes over 0");
    }
    const auto map = plane();
    if (!map) return;
    DxfShape shape;
    shape.kind = DxfShape::Kind::kArc;
    // The short axis lies to the left of the long one as seen from the side that the entity is drawn on.
    const double side = map->linear()(0, 0);
    shape.points = {{data.cx, data.cy}, a, Vec2(-side * data.ratio * a.y(), side * data.ratio * a.x())};
    double sweep = std::fmod(data.angle2 - data.angle1, 2 * std::numbers::pi);
    if (sweep <= 1e-9) sweep += 2 * std::numbers::pi;
    shape.from_rad = std::fmod(data.angle1, 2 * std::numbers::pi);
    shape.to_rad = shape.from_rad + sweep;
    add(std::move(shape), false);
}

void DrawingBuilder::addPolyline(const DL_PolylineData& data) {
    endEntity();
    constexpr int kClosed = 1, kMeshes = 16 | 64;
    if (!isVisible()) return;
    if ((data.flags & kMeshes) != 0) {
        ++drawing.left_out["POLYLINE mesh"];
        return;
    }
    const auto map = plane();
    if (!map) return;
    in_polyline_ = true;
    polyline_closed_ = (data.flags & kClosed) != 0;
    polyline_tag_ = tag();
    polyline_plane_ = *map;
}

void DrawingBuilder::endPolyline() {
    if (!in_polyline_) return;
    in_polyline_ = false;
    const std::size_t count = vertices_.size();
    for (std::size_t i = 0; i + (polyline_closed_ ? 0 : 1) < count; ++i) {
        const Vertex& from = vertices_[i];
        const Vertex& to = vertices_[(i + 1) % count];
        if (from.at == to.at) continue;
        block_->shapes.push_back(mapped(bulgeShape(from.at, to.at, from.bulge, polyline_tag_), polyline_plane_));
    }
    vertices_.clear();
}

void DrawingBuilder::addSpline(const DL_SplineData& data) {
    endEntity();
    if (!isVisible()) return;
    in_spline_ = true;
    spline_ = {};
    spline_.kind = DxfShape::Kind::kSpline;
    spline_.tag = tag();
    spline_.degree = static_cast<int>(data.degree);
}

void DrawingBuilder::addControlPoint(const DL_ControlPointData& data) {
    spline_.points.push_back({data.x, data.y});
    spline_.weights.push_back(data.w);
}

void DrawingBuilder::endSpline() {
    if (!in_spline_) return;
    in_spline_ = false;
    if (const std::string complaint = splineComplaint(spline_); !complaint.empty()) {
        if (issues.size() < kMostDrawingIssues) {
            issues.push_back({"dxf.spline", file_, fmt::format("line {}", spline_.tag.line), complaint,
                              "a spline by control points and knots that fit one another", ""});
        }
        return;
    }
    block_->shapes.push_back(std::move(spline_));
}

void DrawingBuilder::addInsert(const DL_InsertData& data) {
    endEntity();
    if (!isVisible()) return;
    const auto map = plane();
    if (!map) return;
    DxfInsert insert;
    insert.tag = tag();
    insert.block = inCapitals(data.name);
    insert.at = {data.ipx, data.ipy};
    insert.scale = {data.sx, data.sy};
    insert.turn_deg = data.angle;
    insert.columns = std::max(1, data.cols);
    insert.rows = std::max(1, data.rows);
    insert.spacing = {data.colSp, data.rowSp};
    insert.mirrored = map->linear()(0, 0) < 0;
    block_->inserts.push_back(std::move(insert));
}

void DrawingBuilder::addNote(const Vec2& at, const std::string& text) {
    endEntity();
    if (isVisible()) block_->texts.push_back({tag(), at, text});
}

void DrawingBuilder::endEntity() {
    endPolyline();
    endSpline();
}

}  // namespace

std::string inCapitals(std::string_view text) {
    std::string out(text);
    for (char& c : out) {
        if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    }
    return out;
}

Result<DxfDrawing> readDrawing(std::string_view bytes, const std::string& file) {
    Result<VettedDxf> vetted = vetDxf(bytes, file);
    if (!vetted) return vetted.issues();
    DrawingBuilder builder(file);
    try {
        std::istringstream stream(vetted.value().text);
        DL_Dxf().in(stream, &builder);
        builder.finish();
    } catch (const std::exception& error) {
        return Issue{"dxf.unreadable", file, "", printable(error.what()), "a DXF file", ""};
    }
    if (!builder.issues.empty()) return std::move(builder.issues);
    for (const auto& [type, count] : vetted.value().left_out) builder.drawing.left_out[type] += count;
    builder.drawing.hidden = vetted.value().hidden;
    return std::move(builder.drawing);
}

}  // namespace tinwright
