// SPDX-License-Identifier: GPL-3.0-or-later
#include "entities/dxf_curves.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include <tinwright/base/angle.h>

#include "entities/dxf_limits.h"
#include "entities/dxf_vet.h"

namespace tinwright {

namespace {

using Affine = Eigen::Affine2d;

Affine insertMap(const DxfInsert& insert, const Vec2& base, int column, int row) {
    const SinCos turn = sinCos(Angle::degrees(insert.turn_deg));
    Affine scale = Affine::Identity(), rotate = Affine::Identity(), mirror = Affine::Identity();
    scale.linear() = insert.scale.asDiagonal();
    rotate.linear() << turn.cos, -turn.sin, turn.sin, turn.cos;
    if (insert.mirrored) mirror.linear()(0, 0) = -1;
    const Vec2 copy(column * insert.spacing.x(), row * insert.spacing.y());
    return mirror * Eigen::Translation2d(insert.at) * rotate * Eigen::Translation2d(copy) * scale *
           Eigen::Translation2d(-base);
}

class Placer {
public:
    Placer(const DxfDrawing& drawing, const std::string& file) : drawing_(drawing), file_(file) {}
    void placeBlock(const DxfBlock& block, const Affine& map, const DxfTag& outer, std::vector<std::string>& inside);

    DxfCurves placed;
    Issues issues;

private:
    void report(const char* code, std::size_t line, std::string found, std::string expected) {
        issues.push_back({code, file_, fmt::format("line {}", line), std::move(found), std::move(expected), ""});
    }
    DxfTag settled(const DxfTag& tag, const DxfTag& outer) const;
    bool isHidden(const DxfTag& tag) const;
    void placeShape(const DxfShape& shape, const Affine& map, const DxfTag& outer);
    void placeInsert(const DxfInsert& insert, const Affine& map, const DxfTag& outer, std::vector<std::string>& inside);

    const DxfDrawing& drawing_;
    const std::string& file_;
    std::size_t curves_ = 0;
    std::size_t points_ = 0;
};

// In a block, layer 0 and line type BYBLOCK mean those of its insert.
DxfTag Placer::settled(const DxfTag& tag, const DxfTag& outer) const {
    DxfTag out = tag;
    if (tag.layer == "0") out.layer = outer.layer;
    if (tag.line_type == "BYBLOCK") out.line_type = outer.line_type;
    if (tag.line_type == "BYLAYER") {
        const auto layer = drawing_.layers.find(out.layer);
        out.line_type = layer == drawing_.layers.end() ? "CONTINUOUS" : layer->second.line_type;
    }
    return out;
}

bool Placer::isHidden(const DxfTag& tag) const {
    const auto layer = drawing_.layers.find(tag.layer);
    return layer != drawing_.layers.end() && layer->second.hidden;
}

void Placer::placeShape(const DxfShape& shape, const Affine& map, const DxfTag& outer) {
    DxfCurve curve;
    curve.tag = settled(shape.tag, outer);
    if (isHidden(curve.tag)) {
        ++placed.hidden;
        return;
    }
    if (++curves_ > DxfLimits::kCurves || points_ > DxfLimits::kPoints) {
        return report("dxf.too-many", shape.tag.line,
                      fmt::format("more than {} curves or {} points once blocks are inserted", DxfLimits::kCurves,
                                  DxfLimits::kPoints),
                      "a smaller drawing");
    }
    const DxfShape in_place = mapped(shape, map);
    const bool far = std::any_of(in_place.points.begin(), in_place.points.end(),
                                 [](const Vec2& p) { return !(p.cwiseAbs().maxCoeff() < DxfLimits::kFarthest_mm); });
    if (far)
        return report("dxf.far", shape.tag.line, "a point more than 100 m from the origin",
                      "a drawing near its origin, in the right units");
    curve.points = flattened(in_place);
    curve.straight = shape.kind == DxfShape::Kind::kLine;
    points_ += curve.points.size();
    if (curve.points.size() >= 2) placed.curves.push_back(std::move(curve));
}

void Placer::placeInsert(const DxfInsert& insert, const Affine& map, const DxfTag& outer,
                         std::vector<std::string>& inside) {
    const auto block = drawing_.blocks.find(insert.block);
    const std::string name = printable(insert.block);
    if (block == drawing_.blocks.end())
        return report("dxf.block", insert.tag.line, "an insert of block \"" + name + "\", which is not in the drawing",
                      "a block of the drawing");
    if (std::find(inside.begin(), inside.end(), insert.block) != inside.end())
        return report("dxf.block", insert.tag.line, "block \"" + name + "\" inserted in itself", "blocks that end");
    if (inside.size() >= DxfLimits::kDepth)
        return report("dxf.block", insert.tag.line,
                      fmt::format("blocks more than {} deep in one another", DxfLimits::kDepth), "fewer levels");
    inside.push_back(insert.block);
    for (int row = 0; row < insert.rows; ++row) {
        for (int column = 0; column < insert.columns && issues.empty(); ++column) {
            if (++curves_ > DxfLimits::kCurves) {  // an insert of nothing costs time too
                report("dxf.too-many", insert.tag.line,
                       fmt::format("more than {} curves and inserts", DxfLimits::kCurves), "a smaller drawing");
                break;
            }
            placeBlock(block->second, map * insertMap(insert, block->second.base, column, row),
                       settled(insert.tag, outer), inside);
        }
        if (!issues.empty()) break;
    }
    inside.pop_back();
}

void Placer::placeBlock(const DxfBlock& block, const Affine& map, const DxfTag& outer,
                        std::vector<std::string>& inside) {
    for (const DxfShape& shape : block.shapes) {
        if (!issues.empty()) return;
        placeShape(shape, map, outer);
    }
    for (const DxfText& text : block.texts) {
        const DxfTag tag = settled(text.tag, outer);
        if (!isHidden(tag) && placed.texts.size() < DxfLimits::kCurves)
            placed.texts.push_back({tag, map * text.at, text.text});
    }
    for (const DxfInsert& insert : block.inserts) {
        if (!issues.empty()) return;
        placeInsert(insert, map, outer, inside);
    }
}

// Start and direction in which a curve was drawn mean nothing: one way round for all.
void drawOneWay(DxfCurve& curve) {
    const auto less = [](const Vec2& a, const Vec2& b) { return std::tuple(a.x(), a.y()) < std::tuple(b.x(), b.y()); };
    std::vector<Vec2>& points = curve.points;
    if (curve.closed()) {
        points.pop_back();
        std::rotate(points.begin(), std::min_element(points.begin(), points.end(), less), points.end());
        if (signedArea_mm2(points) < 0) std::reverse(points.begin() + 1, points.end());
        points.push_back(points.front());
    } else if (less(points.back(), points.front())) {
        std::reverse(points.begin(), points.end());
    }
}

bool isBefore(const DxfCurve& a, const DxfCurve& b) {
    const auto less = [](const Vec2& p, const Vec2& q) { return std::tuple(p.x(), p.y()) < std::tuple(q.x(), q.y()); };
    if (std::lexicographical_compare(a.points.begin(), a.points.end(), b.points.begin(), b.points.end(), less))
        return true;
    if (std::lexicographical_compare(b.points.begin(), b.points.end(), a.points.begin(), a.points.end(), less))
        return false;
    return std::tie(a.tag.layer, a.tag.line_type, a.tag.line) < std::tie(b.tag.layer, b.tag.line_type, b.tag.line);
}

}  // namespace

Result<DxfCurves> placeCurves(const DxfDrawing& drawing, double mm_per_unit, const std::string& file) {
    Placer placer(drawing, file);
    std::vector<std::string> inside;
    placer.placeBlock(drawing.model, Affine(Eigen::Scaling(mm_per_unit)), {"0", "CONTINUOUS", 0}, inside);
    if (!placer.issues.empty()) return std::move(placer.issues);
    for (DxfCurve& curve : placer.placed.curves) drawOneWay(curve);
    std::sort(placer.placed.curves.begin(), placer.placed.curves.end(), isBefore);
    return std::move(placer.placed);
}

}  // namespace tinwright
