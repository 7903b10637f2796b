// SPDX-License-Identifier: GPL-3.0-or-later
// The readers of shop, tooling and materials files on any bytes. The input is cut at NUL bytes (which JSON cannot
// hold): first a shop file, then the files that the references "a", "b", "c", ... (or any name that begins with that
// letter) lead to. Seeds with tooling: printf '%s\0%s' "$(cat shop.json)" "$(cat tooling.json)" with the references
// renamed.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

#include <tinwright/io/shop/materials_io.h>
#include <tinwright/io/shop/shop_io.h>

using namespace tinwright;

namespace {

std::vector<std::string_view> cutAtNul(std::string_view bytes) {
    std::vector<std::string_view> pieces;
    for (std::size_t from = 0; from <= bytes.size();) {
        const std::size_t to = std::min(bytes.find('\0', from), bytes.size());
        pieces.push_back(bytes.substr(from, to - from));
        from = to + 1;
    }
    return pieces;
}

void need(bool holds) {
    if (!holds) std::abort();
}

void checkIssues(const Issues& issues) {
    for (const Issue& issue : issues)
        need(!issue.code.empty() && !issue.file.empty() && !issue.expected.empty() && !toText(issue).empty());
}

void checkLeafBrake(const LeafBrake& leaf) {
    need(!leaf.leaf_faces.empty() && leaf.beam.has_value() == (leaf.clamp == ClampKind::kOnBeam));
    need(isValid(Region{leaf.bed, {}}) && signedArea_mm2(leaf.bed) > 0 && leaf.nose_radius_mm >= 0);
    for (const Bar& bar : leaf.bars) need(bar.clamp_depth_mm > 0 && 2 * bar.end_relief_mm < bar.width_mm);
}

void checkPressBrake(const PressBrake& press) {
    need(isValid(Region{press.ram, {}}) && signedArea_mm2(press.ram) > 0);
    need(isValid(Region{press.bed, {}}) && signedArea_mm2(press.bed) > 0);
    need(press.open_height_mm > 0 && press.stroke_mm > 0 && press.force_kn > 0 && press.throat_mm >= 0);
    need(press.throat_mm == 0 || press.frames_left_mm < press.frames_right_mm);
    need(!press.punches.empty() && !press.dies.empty());
    for (const Punch& punch : press.punches)
        need(!punch.horn || (punch.horn->reach_mm < punch.width_mm && punch.horn->height_mm < punch.height_mm));
}

// What a shop that was accepted promises to those who use it.
void checkShop(const Shop& shop) {
    need(!shop.brakes.empty());
    for (const Brake& brake : shop.brakes) {
        need(!brake.name.empty() && brake.length_mm > 0 && brake.toolCount() > 0);
        for (std::size_t i = 0; i < brake.toolCount(); ++i) {
            const Tool& tool = brake.tool(idAt<ToolId>(i));
            need(!tool.id.empty() && tool.width_mm > 0 && tool.width_mm <= brake.length_mm && tool.count >= 1 &&
                 tool.height_mm > 0);
            need(isValid(Region{tool.profile, {}}) && signedArea_mm2(tool.profile) > 0);
        }
        brake.isPress() ? checkPressBrake(brake.press()) : checkLeafBrake(brake.leaf());
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::vector<std::string_view> pieces = cutAtNul({reinterpret_cast<const char*>(data), size});
    const OpenReference open = [&](const ReferringFile&, const std::string& reference) -> Result<ReferencedFile> {
        const auto piece = static_cast<std::size_t>(reference.front() - 'a') + 1;
        if (reference.front() < 'a' || piece >= pieces.size())
            return Issue{"", "", "", "no such file", "a file that is there", ""};
        return ReferencedFile{reference, std::string(1, reference.front()), std::string(pieces[piece])};
    };
    const Result<Shop> shop = readShopText(pieces[0], "shop", open);
    shop ? checkShop(shop.value()) : checkIssues(shop.issues());
    if (pieces[0].find("\"materials\"") != std::string_view::npos) {  // else it would only halve the speed
        const Result<Materials> materials = readMaterialsText(pieces[0], "materials");
        if (!materials) checkIssues(materials.issues());
    }
    return 0;
}
