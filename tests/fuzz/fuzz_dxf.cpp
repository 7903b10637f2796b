// SPDX-License-Identifier: GPL-3.0-or-later
// The reader of blanks on any bytes. The input is cut at the first NUL byte (which neither format can hold): the
// drawing, then its bends file; without one a usual bends file stands in, with every layer taken by guess. What is read
// can be written and read again.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include <tinwright/base/contract.h>
#include <tinwright/io/blank/blank_io.h>
#include <tinwright/io/dxf/dxf_io.h>
#include <tinwright/part/model/pose.h>

using namespace tinwright;

namespace {

constexpr std::string_view kUsualBends =
    R"({"format": "tinwright-bends/1", "units": "mm", "drawing_units": "mm", "sheet": {"material": "mild-steel", "thickness": 1},
        "allowance": {"rule": "k-factor", "k": 0.44}, "inside_radius": 1, "default": {"angle": 90, "direction": "up"}})";

void checkIssues(const Issues& issues) {
    for (const Issue& issue : issues)
        TINWRIGHT_REQUIRE(
            !issue.code.empty() && !issue.file.empty() && !issue.expected.empty() && !toText(issue).empty(),
            "issues say something");
}

// What a part that was read promises to those who use it.
void checkPart(const Part& part) {
    TINWRIGHT_REQUIRE(isValid(part.blank) && area_mm2(part.blank) > 0, "a blank is simple and has an area");
    TINWRIGHT_REQUIRE(part.panels.size() == part.bends.size() + 1 && part.bends.size() <= kMaxBends,
                      "panels hang on one another as a tree");
    for (const Panel& panel : part.panels) TINWRIGHT_REQUIRE(isValid(panel.region), "panels are simple");
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const Bend& bend = part.bends[i];
        TINWRIGHT_REQUIRE(bend.parent < bend.child && bend.child.index() == i + 1, "parents come before children");
        TINWRIGHT_REQUIRE(!bend.spans.empty() && bend.allowance_mm > 0 && std::abs(bend.along.norm() - 1) < 1e-9,
                          "bends have sheet and a direction");
    }
    for (const Rigid& pose : baseFromPanels(part, allFormed(part)))
        TINWRIGHT_REQUIRE(pose.matrix().allFinite(), "poses are finite");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view bytes(reinterpret_cast<const char*>(data), size);
    const std::size_t cut = bytes.find('\0');
    const std::string_view bends = cut == std::string_view::npos ? kUsualBends : bytes.substr(cut + 1);
    const Result<Part> part = readDxfBlankText({bytes.substr(0, cut), "fuzz.dxf"}, {bends, "fuzz.bends.json"});
    if (!part) {
        checkIssues(part.issues());
        return 0;
    }
    checkPart(part.value());
    const BlankDrawing drawing = drawBlank(part.value(), {bendLineMarks(part.value()), true});
    TINWRIGHT_REQUIRE(!blankSvg(drawing).empty(), "a drawing can be written");
    const std::string written = blankDxf(drawing), with = bendsJson(part.value());
    const Result<Part> again = readDxfBlankText({written, "again.dxf"}, {with, "again.bends.json"});
    if (!again) checkIssues(again.issues());
    return 0;
}
