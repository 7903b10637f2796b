// SPDX-License-Identifier: GPL-3.0-or-later
// The bars of a brake: "each_bar" holds what all bars of a list have in common, a bar what is its own, and an item
// with "set" brings in the list of a tooling file.
#include <fmt/format.h>

#include <algorithm>

#include <tinwright/brake/bar_profile.h>
#include <tinwright/io/json_reading.h>

#include "shop_draft.h"

namespace tinwright {

namespace {

constexpr std::size_t kMaxBarKinds = 200;
constexpr int kMaxCount = 100;

void takeRelief(const JsonCursor& object, BarDraft& draft) {
    const std::optional<JsonCursor> relief = object.get("end_relief");
    if (!relief) return;
    const std::size_t before = relief->context().issues.size();
    if (relief->object({"length", "height"})) {
        draft.bar.end_relief_mm = needLength_mm(*relief, "length", kSizeOrNone_mm);
        draft.bar.end_relief_height_mm = needLength_mm(*relief, "height", kSizeOrNone_mm);
    }
    draft.given.give("end_relief", *relief, relief->context().issues.size() == before);
}

// A section is told in one way: point by point, or by its nose.
void takeSection(const JsonCursor& object, BarDraft& draft) {
    const bool has_nose = object.has("nose_angle_deg") || object.has("toe_height") || object.has("shank_front");
    if (object.has("profile") && has_nose) {
        object.get("profile")->wrong("section",
                                     "either a profile or a nose angle (with toe height and shank front), not both");
    } else if (object.has("profile")) {
        for (const char* field : {"nose_angle_deg", "toe_height", "shank_front"}) draft.given.drop(field);
    } else if (has_nose) {
        draft.given.drop("profile");
    }
    takeField(object, "profile", draft.given, draft.bar.profile, readPolygon);
    takeField(object, "nose_angle_deg", draft.given, draft.nose_angle_deg, [](const JsonCursor& at) {
        return at.number({1, 90}, "degrees");
    });
    takeLength(object, "nose_radius", draft.given, kSizeOrNone_mm, draft.nose_radius_mm);
    takeLength(object, "toe_height", draft.given, kSize_mm, draft.toe_height_mm);
    takeLength(object, "shank_front", draft.given, kSize_mm, draft.shank_front_mm);
}

void takeBar(const JsonCursor& object, BarDraft& draft) {
    draft.given.setWhole(object);
    takeField(object, "id", draft.given, draft.bar.id, [](const JsonCursor& at) { return at.name(); });
    takeLength(object, "width", draft.given, kSize_mm, draft.bar.width_mm);
    takeLength(object, "clamp_depth", draft.given, kSize_mm, draft.bar.clamp_depth_mm);
    takeLength(object, "height", draft.given, kSize_mm, draft.bar.height_mm);
    takeField(object, "count", draft.given, draft.bar.count,
              [](const JsonCursor& at) { return at.integer(1, kMaxCount); });
    takeSection(object, draft);
    takeRelief(object, draft);
    draft.given.readUncertain(object);
}

// Items of "only": ids of the set that are meant, the rest is left out.
void keepOnly(const JsonCursor& item, std::vector<BarDraft>& bars) {
    const std::optional<JsonCursor> only = item.get("only");
    if (!only) return;
    std::vector<BarDraft> kept;
    for (const JsonCursor& wanted : only->items(1, kMaxBarKinds)) {
        const std::optional<std::string> id = wanted.name();
        if (!id) continue;
        const auto found =
            std::find_if(bars.begin(), bars.end(), [&](const BarDraft& bar) { return bar.bar.id == *id; });
        if (found != bars.end()) {
            kept.push_back(*found);
            continue;
        }
        std::vector<std::string> ids;
        for (const BarDraft& bar : bars) ids.push_back(bar.bar.id);
        const std::string near = nearestWord(*id, ids);
        wanted.wrong("only", "the id of a bar of that set", near.empty() ? "" : "perhaps \"" + near + "\"");
    }
    bars = std::move(kept);
}

std::vector<BarDraft> readSet(const JsonCursor& item, ShopFiles& files) {
    if (!item.object({"set", "only", "note"})) return {};
    static_cast<void>(textOr(item, "note", ""));
    ShopFile* file = files.enter(*item.get("set"), "bars");
    if (file == nullptr) return {};
    const JsonCursor set = file->cursor();
    std::vector<BarDraft> bars;
    if (set.object({"format", "units", "kind", "name", "note", "each_bar", "bars"})) {
        static_cast<void>(textOr(set, "note", ""));
        static_cast<void>(textOr(set, "name", ""));
        static_cast<void>(set.need("bars", "a list of bars"));
        bars = readBars(set, files);
    }
    files.leave();
    keepOnly(item, bars);
    return bars;
}

bool hasBad(const BarDraft& draft) {
    for (const char* field :
         {"profile", "nose_angle_deg", "nose_radius", "toe_height", "shank_front", "clamp_depth", "height"}) {
        if (draft.given.has(field) && !draft.given.good(field)) return true;
    }
    return false;
}

void finishProfile(const BarDraft& draft, double nose_radius_mm, Bar& bar) {
    const std::string why = whyNoBar(draft.bar.profile, nose_radius_mm);
    if (!why.empty()) return draft.given.wrong("profile", "bar.profile", why);
    constexpr double kMeasured_mm = 0.02;
    bar.clamp_depth_mm = clampDepth_mm(bar.profile);
    bar.height_mm = height_mm(bar.profile);
    if (draft.given.has("clamp_depth") && std::abs(bar.clamp_depth_mm - draft.bar.clamp_depth_mm) > kMeasured_mm) {
        draft.given.wrong("clamp_depth", "bar.profile",
                          fmt::format("the depth of the profile's underside, {:g} mm", bar.clamp_depth_mm));
    }
    if (draft.given.has("height") && std::abs(bar.height_mm - draft.bar.height_mm) > kMeasured_mm) {
        draft.given.wrong("height", "bar.profile", fmt::format("the profile's height, {:g} mm", bar.height_mm));
    }
}

void finishNose(const BarDraft& draft, double nose_radius_mm, Bar& bar) {
    bool complete = true;
    const auto need = [&](const char* field, const char* expected) {
        if (draft.given.has(field)) return;
        draft.given.wrong(field, "missing", expected, "or say it for all bars in \"each_bar\"");
        complete = false;
    };
    need("nose_angle_deg", "the nose angle in degrees, or a \"profile\"");
    need("clamp_depth", "the depth from nose to back");
    need("height", "the height over the sheet");
    if (!complete) return;
    NoseSection nose{Angle::degrees(draft.nose_angle_deg), nose_radius_mm, bar.clamp_depth_mm, bar.height_mm, {}, {}};
    if (draft.given.has("toe_height")) nose.toe_height_mm = draft.toe_height_mm;
    if (draft.given.has("shank_front")) nose.shank_front_mm = draft.shank_front_mm;
    const std::string why = whyNoSection(nose);
    if (why.empty()) {
        bar.profile = barSection(nose);
    } else {
        draft.given.wrong(draft.given.has("shank_front")  ? "shank_front"
                          : draft.given.has("toe_height") ? "toe_height"
                                                          : "height",
                          "bar.section", why);
    }
}

void checkRelief(const BarDraft& draft, const Bar& bar) {
    if (!draft.given.good("end_relief")) return;
    if (draft.given.good("width") && 2 * bar.end_relief_mm >= bar.width_mm) {
        draft.given.wrong("end_relief", "bar.end-relief",
                          fmt::format("a length of less than half the width, {:g} mm", bar.width_mm / 2));
    }
    if (bar.height_mm > 0 && bar.end_relief_height_mm > bar.height_mm) {
        draft.given.wrong("end_relief", "bar.end-relief",
                          fmt::format("a height no greater than the bar's, {:g} mm", bar.height_mm));
    }
}

}  // namespace

std::vector<BarDraft> readBars(const JsonCursor& object, ShopFiles& files) {
    BarDraft each;
    if (const std::optional<JsonCursor> common = object.get("each_bar")) {
        if (common->object({"clamp_depth", "height", "nose_angle_deg", "nose_radius", "toe_height", "shank_front",
                            "profile", "end_relief", "count", "uncertain", "note"})) {
            static_cast<void>(textOr(*common, "note", ""));
            takeBar(*common, each);
        }
    }
    std::vector<BarDraft> bars;
    const std::optional<JsonCursor> list = object.get("bars");
    if (!list) return bars;
    for (const JsonCursor& item : list->items(1, kMaxBarKinds)) {
        if (item.has("set")) {
            for (BarDraft& bar : readSet(item, files)) bars.push_back(std::move(bar));
        } else if (item.object({"id", "width", "clamp_depth", "height", "nose_angle_deg", "nose_radius", "toe_height",
                                "shank_front", "profile", "end_relief", "count", "uncertain", "note"})) {
            static_cast<void>(textOr(item, "note", ""));
            bars.push_back(each);
            takeBar(item, bars.back());
        }
        if (bars.size() > kMaxBarKinds) {
            list->wrong("count", fmt::format("at most {} kinds of bars, with those of the sets", kMaxBarKinds));
            bars.resize(kMaxBarKinds);
            break;
        }
    }
    return bars;
}

Bar finishBar(const BarDraft& draft, const BrakeDraft& of) {
    Bar bar = draft.bar;
    if (!draft.given.has("id")) draft.given.wrong("id", "missing", "a name for the bar, like \"B30\"");
    if (!draft.given.has("width")) draft.given.wrong("width", "missing", "the bar's width along the machine");
    if (draft.given.good("width") && of.given.good("length") && bar.width_mm > of.brake.length_mm) {
        draft.given.wrong("width", "bar.width",
                          fmt::format("no more than the brake's length, {:g} mm", of.brake.length_mm));
    }
    const bool radius_known = of.given.good("nose_radius");
    if (radius_known && draft.given.good("nose_radius") &&
        std::abs(draft.nose_radius_mm - of.brake.nose_radius_mm) > 1e-6) {
        draft.given.wrong("nose_radius", "bar.nose-radius",
                          fmt::format("the brake's nose radius, {:g} mm", of.brake.nose_radius_mm),
                          "list bars with another radius under a brake entry of their own: they make other bends");
        return bar;
    }
    if (hasBad(draft) || !radius_known) return bar;
    if (draft.given.has("profile")) {
        finishProfile(draft, of.brake.nose_radius_mm, bar);
    } else {
        finishNose(draft, of.brake.nose_radius_mm, bar);
    }
    checkRelief(draft, bar);
    return bar;
}

}  // namespace tinwright
