// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>
#include <string_view>

#include <tinwright/base/result.h>

namespace tinwright {

/// A drawing cut down to what is read from it, in a form that dxflib takes without harm: only known entities with known
/// groups, counts that are true, numbers that are numbers. The library itself trusts lengths and counts of the file.
struct VettedDxf {
    std::string text;  ///< DXF again; the handle (group 5) of an entity is its line number in the file
    std::map<std::string, std::size_t> left_out;  ///< entity types that are not read, how many of each
    std::size_t hidden = 0;                       ///< entities of paper space, or marked invisible
};

/// Issues: "dxf.binary", "dxf.not-dxf", "dxf.too-large", "dxf.line" (a line too long or a file cut short), "dxf.group"
/// (no group code), "dxf.number", "dxf.cut-short", "dxf.too-many" (entities), each with its line.
[[nodiscard]] Result<VettedDxf> vetDxf(std::string_view bytes, const std::string& file);

/// Any bytes as printable ASCII for a message, at most 60 characters.
[[nodiscard]] std::string printable(std::string_view bytes);

}  // namespace tinwright
