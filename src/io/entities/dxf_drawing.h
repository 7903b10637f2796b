// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tinwright/base/result.h>

#include "entities/dxf_shape.h"

namespace tinwright {

/// A use of a block. In order: the block's base point to the origin, scale, turn, copies in rows and columns, insertion
/// point, and last a mirror image when it is drawn on the back of the plane.
struct DxfInsert {
    DxfTag tag;
    std::string block;
    Vec2 at = Vec2::Zero();
    Vec2 scale = Vec2::Ones();
    double turn_deg = 0;
    int columns = 1;
    int rows = 1;
    Vec2 spacing = Vec2::Zero();
    bool mirrored = false;
};

struct DxfText {
    DxfTag tag;
    Vec2 at = Vec2::Zero();
    std::string text;
};

struct DxfBlock {
    Vec2 base = Vec2::Zero();
    std::vector<DxfShape> shapes;
    std::vector<DxfInsert> inserts;
    std::vector<DxfText> texts;
};

struct DxfLayer {
    std::string line_type = "CONTINUOUS";
    bool hidden = false;  ///< off or frozen
};

/// A drawing as it stands in its file, in its own units.
struct DxfDrawing {
    DxfBlock model;
    std::map<std::string, DxfBlock> blocks;  ///< by name in capitals
    std::map<std::string, DxfLayer> layers;
    std::optional<int> insunits;  ///< the header's $INSUNITS
    std::map<std::string, std::size_t> left_out;
    std::size_t hidden = 0;
};

/// Reads any bytes. Issues: those of vetDxf(), "dxf.spline", "dxf.plane" (an entity out of the plane of the sheet).
[[nodiscard]] Result<DxfDrawing> readDrawing(std::string_view bytes, const std::string& file);

/// ASCII capitals, for names that DXF does not tell apart by case.
[[nodiscard]] std::string inCapitals(std::string_view text);

}  // namespace tinwright
