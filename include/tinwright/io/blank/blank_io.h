// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/part/model/part.h>

/// The blank as a drawing for the cutting table: DXF or SVG, in mm, and the bends file that makes the drawing a part
/// again. Layers and what they mean: src/io/DXF_FORMAT.md.
namespace tinwright {

/// A straight line across a bend, parallel to it, whose ends are marked.
struct MarkLine {
    BendId bend;
    double toward_child_mm = 0;  ///< from the bend line
};

/// The bend lines themselves.
[[nodiscard]] std::vector<MarkLine> bendLineMarks(const Part& part);

struct BlankDrawingOptions {
    std::vector<MarkLine> marks;
    bool bend_lines = false;         ///< whole lines, each on the layer of the face that is its inside
    std::optional<Region> cut = {};  ///< what is cut instead of the part's blank: without drilled holes, or moved by
                                     ///< half a kerf
    std::vector<Vec2> drill = {};    ///< centres of holes to drill
    std::vector<std::string> comments = {};  ///< lines of plain text that readers pass over
};

/// A place of an outline and what follows it: an arc by its bulge (tangent of a quarter of its angle, positive
/// counter-clockwise), straight when 0.
struct DrawnCorner {
    Vec2 at = Vec2::Zero();
    double bulge = 0;
};

/// A closed cut line: a circle, or corners.
struct DrawnLoop {
    bool is_circle = false;
    Vec2 centre = Vec2::Zero();
    double radius_mm = 0;
    std::vector<DrawnCorner> corners;
};

struct DrawnSegment {
    Vec2 from = Vec2::Zero();
    Vec2 to = Vec2::Zero();
};

/// What is drawn, by layer.
struct BlankDrawing {
    std::string name;
    std::vector<DrawnLoop> cut;  ///< outline first
    std::vector<Vec2> drill;     ///< centres, each a point with a cross
    std::vector<std::string> comments;
    std::vector<DrawnSegment> mark;       ///< nicks, from the edge into the sheet
    std::size_t unmarked = 0;             ///< ends of lines that lie within the sheet, where a nick would be a slit
    std::vector<DrawnSegment> bend_up;    ///< inside on the drawn face
    std::vector<DrawnSegment> bend_down;  ///< inside on the other face
};

/// Runs of equal chords are drawn as the arcs they stand for.
[[nodiscard]] BlankDrawing drawBlank(const Part& part, const BlankDrawingOptions& options);

[[nodiscard]] std::string blankDxf(const BlankDrawing& drawing);
[[nodiscard]] std::string blankSvg(const BlankDrawing& drawing);

/// The bends file (format "tinwright-bends/1") that goes with blankDxf() of the part, with the bend lines in it.
[[nodiscard]] std::string bendsJson(const Part& part);

}  // namespace tinwright
