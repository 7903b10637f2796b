// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/io/shop/shop_io.h>

#include <cmath>
#include <set>

#include <tinwright/io/json/json_reading.h>

#include "shop/shop_draft.h"
#include "shop/shop_files.h"
#include "shop/shop_process.h"

namespace tinwright {

namespace {

void readLimits(const JsonCursor& shop, Limits& limits) {
    const std::optional<JsonCursor> at = shop.get("limits");
    if (!at || !at->object({"bar_gap", "uncovered_end", "clamped_land", "leaf_land", "past_machine", "clearance",
                            "plus_side", "note"}))
        return;
    constexpr Range kLimit_mm{0, 200};
    limits.bar_gap_mm = lengthOr_mm(*at, "bar_gap", kLimit_mm, limits.bar_gap_mm);
    limits.uncovered_end_mm = lengthOr_mm(*at, "uncovered_end", kLimit_mm, limits.uncovered_end_mm);
    limits.clamped_land_mm = lengthOr_mm(*at, "clamped_land", kLimit_mm, limits.clamped_land_mm);
    limits.leaf_land_mm = lengthOr_mm(*at, "leaf_land", kLimit_mm, limits.leaf_land_mm);
    limits.past_machine_mm = lengthOr_mm(*at, "past_machine", kLimit_mm, limits.past_machine_mm);
    limits.clearance_mm = lengthOr_mm(*at, "clearance", kLimit_mm, limits.clearance_mm);
    limits.plus_side_mm = lengthOr_mm(*at, "plus_side", kLimit_mm, limits.plus_side_mm);
    static_cast<void>(textOr(*at, "note", ""));
}

void readTolerances(const JsonCursor& shop, Tolerances& tolerances) {
    const std::optional<JsonCursor> at = shop.get("tolerances");
    if (!at || !at->object({"thickness", "cutting", "bend_line", "bend_angle_deg", "note"})) return;
    constexpr Range kOff_mm{0, 5};
    if (const auto thickness = at->get("thickness")) tolerances.thickness_mm = thickness->length_mm(kOff_mm);
    if (const auto cutting = at->get("cutting")) tolerances.cutting_mm = cutting->length_mm(kOff_mm);
    tolerances.bend_line_mm = lengthOr_mm(*at, "bend_line", kOff_mm, tolerances.bend_line_mm);
    tolerances.bend_angle =
        Angle::degrees(numberOr(*at, "bend_angle_deg", {0, 10}, tolerances.bend_angle.deg(), "degrees"));
    static_cast<void>(textOr(*at, "note", ""));
}

void readTimes(const JsonCursor& shop, Times& times) {
    const std::optional<JsonCursor> at = shop.get("times");
    if (!at || !at->object({"fold_s", "hem_s", "gauge_s", "gauge_formed_s", "gauge_sight_s", "piece_s", "leaf_face_s",
                            "packing_s", "bar_packing_s", "bar_clamps_s", "tongs_s", "turn_s", "flip_s", "way_out_s",
                            "carry_s", "note"}))
        return;
    const auto read = [&](const char* key, long long& into_ms) {
        into_ms = std::llround(1000.0 * numberOr(*at, key, {0, 36'000}, static_cast<double>(into_ms) / 1000.0, "s"));
    };
    read("fold_s", times.fold_ms);
    read("hem_s", times.hem_ms);
    read("gauge_s", times.gauge_ms);
    read("gauge_formed_s", times.gauge_formed_ms);
    read("gauge_sight_s", times.gauge_sight_ms);
    read("piece_s", times.piece_ms);
    read("leaf_face_s", times.leaf_face_ms);
    read("packing_s", times.packing_ms);
    read("bar_packing_s", times.bar_packing_ms);
    read("bar_clamps_s", times.bar_clamps_ms);
    read("tongs_s", times.tongs_ms);
    read("turn_s", times.turn_ms);
    read("flip_s", times.flip_ms);
    read("way_out_s", times.way_out_ms);
    read("carry_s", times.carry_ms);
    static_cast<void>(textOr(*at, "note", ""));
}

std::vector<BrakeDraft> readBrakes(const JsonCursor& document, ShopFiles& files) {
    std::vector<BrakeDraft> drafts;
    const std::optional<JsonCursor> list = document.need("brakes", "a list of brakes");
    if (!list) return drafts;
    for (const JsonCursor& entry : list->items(1, 20)) drafts.push_back(readBrake(entry, files));
    return drafts;
}

void checkNames(const std::vector<BrakeDraft>& drafts) {
    std::set<std::string> names;
    for (const BrakeDraft& draft : drafts) {
        if (draft.given.good("name") && !names.insert(draft.brake.name).second) {
            draft.given.wrong("name", "repeated", "a name that no other brake of the shop has",
                              "give this entry a \"name\" of its own");
        }
    }
}

// Typed reading first, then what takes a whole brake to see.
Shop readDocument(const JsonCursor& document, ShopFiles& files) {
    Shop shop;
    if (!document.object({"format", "units", "name", "note", "brakes", "limits", "times", "tolerances", "overbend",
                          "measured_bends", "cutting"}))
        return shop;
    shop.name = textOr(document, "name", "");
    static_cast<void>(textOr(document, "note", ""));
    readLimits(document, shop.limits);
    readTimes(document, shop.times);
    readTolerances(document, shop.tolerances);
    if (const auto overbend = document.get("overbend")) shop.overbend = readOverbend(*overbend);
    shop.measured_bends = readMeasuredBends(document);
    shop.cutting = readCutting(document);
    const std::vector<BrakeDraft> drafts = readBrakes(document, files);
    for (const BrakeDraft& draft : drafts) {
        // An entry that is not even an object has been reported.
        if (draft.given.whole().json().is_object()) shop.brakes.push_back(finishBrake(draft));
    }
    checkNames(drafts);
    return shop;
}

Result<Shop> readShopAs(std::string_view text, const std::string& name, const std::string& key,
                        const OpenReference& open) {
    ShopFiles files(open);
    ShopFile* file = files.addShop(text, name, key);
    Shop shop;
    if (file != nullptr) shop = readDocument(file->cursor(), files);
    Issues issues = files.takeIssues();
    if (!issues.empty()) return issues;
    return shop;
}

}  // namespace

Result<Shop> readShopText(std::string_view text, const std::string& file, const OpenReference& open) {
    return readShopAs(text, file, file, open);
}

Result<Shop> readShop(const std::string& path, const ShopReadOptions& options) {
    const Result<std::string> text = readTextFile(path);
    if (!text) return text.issues();
    return readShopAs(text.value(), path, keyOnDisk(path), openOnDisk(path, options));
}

}  // namespace tinwright
