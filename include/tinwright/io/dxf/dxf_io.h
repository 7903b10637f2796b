// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/part/allowance/measured_bends.h>
#include <tinwright/part/model/part.h>

/// A part from a flat blank in DXF and its bends file (format "tinwright-bends/1": sheet, allowance, how each line is
/// bent). What is read of a drawing, by which layers, to which tolerances, and the bends file field by field:
/// src/io/DXF_FORMAT.md.
///
/// All issues of both files come at once where the one does not need the other. Safe on any bytes. What was guessed,
/// closed, merged or left out is in Part::warnings.
namespace tinwright {

inline constexpr std::string_view kBendsFormat = "tinwright-bends/1";

/// What goes with a drawing besides its bends file: what the command line says over it, and the shop's table for the
/// rule "measured". Layers by name, letters of either case, "*" at the end for any rest.
struct DxfOptions {
    std::optional<double> mm_per_unit;  ///< of the drawing, whatever its header says
    std::vector<std::string> cut_layers;
    std::vector<std::string> bend_layers;
    std::vector<std::string> ignored_layers;
    std::vector<std::string> bend_line_types;
    std::shared_ptr<const MeasuredBends> measured;
};

/// True for a name that ends in ".dxf", in letters of either case.
[[nodiscard]] bool isDxfPath(std::string_view path);

/// "tray.dxf" -> "tray.bends.json", beside it.
[[nodiscard]] std::string bendsPathFor(const std::string& dxf_path);

/// Reads a blank and its bends file. Codes start with "file.", "json.", "dxf." or "bends.".
[[nodiscard]] Result<Part> readDxfBlank(const std::string& dxf_path, const std::string& bends_path,
                                        const DxfOptions& options = {});

/// A text and the name it has in issues.
struct NamedText {
    std::string_view text;
    std::string file;
};

/// The same from memory.
[[nodiscard]] Result<Part> readDxfBlankText(const NamedText& dxf, const NamedText& bends,
                                            const DxfOptions& options = {});

}  // namespace tinwright
