// SPDX-License-Identifier: GPL-3.0-or-later
// The bars of a leaf brake.
#include <fmt/format.h>

#include <cmath>

#include <tinwright/brake/tooling/bar_profile.h>
#include <tinwright/io/json/json_reading.h>

#include "shop/shop_tools.h"

namespace tinwright {

namespace {

void takeRelief(const JsonCursor& object, ToolDraft& draft) {
    const std::optional<JsonCursor> relief = object.get("end_relief");
    if (!relief) return;
    const std::size_t before = relief->context().issues.size();
    if (relief->object({"length", "height"})) {
        draft.end_relief_mm = needLength_mm(*relief, "length", kSizeOrNone_mm);
        draft.end_relief_height_mm = needLength_mm(*relief, "height", kSizeOrNone_mm);
    }
    draft.given.give("end_relief", *relief, relief->context().issues.size() == before);
}

// A section is told in one way: point by point, or by its nose.
void takeBarSection(const JsonCursor& object, ToolDraft& draft) {
    const bool has_nose = object.has("nose_angle_deg") || object.has("toe_height") || object.has("shank_front");
    if (object.has("profile") && has_nose) {
        object.get("profile")->wrong("section",
                                     "either a profile or a nose angle (with toe height and shank front), not both");
    } else if (object.has("profile")) {
        for (const char* field : {"nose_angle_deg", "toe_height", "shank_front"}) draft.given.drop(field);
    } else if (has_nose) {
        draft.given.drop("profile");
    }
    takeField(object, "profile", draft.given, draft.tool.profile, readPolygon);
    takeField(object, "nose_angle_deg", draft.given, draft.nose_angle_deg, [](const JsonCursor& at) {
        return at.number({1, 90}, "degrees");
    });
    takeLength(object, "nose_radius", draft.given, kSizeOrNone_mm, draft.nose_radius_mm);
    takeLength(object, "toe_height", draft.given, kSize_mm, draft.toe_height_mm);
    takeLength(object, "shank_front", draft.given, kSize_mm, draft.shank_front_mm);
}

void takeBar(const JsonCursor& object, ToolDraft& draft) {
    takeCommon(object, draft);
    takeLength(object, "clamp_depth", draft.given, kSize_mm, draft.clamp_depth_mm);
    takeBarSection(object, draft);
    takeRelief(object, draft);
    draft.given.readUncertain(object);
}

void finishBarProfile(const ToolDraft& draft, double nose_radius_mm, Bar& bar) {
    const std::string why = whyNoBar(draft.tool.profile, nose_radius_mm);
    if (!why.empty()) return draft.given.wrong("profile", "bar.profile", why);
    bar.clamp_depth_mm = clampDepth_mm(bar.profile);
    bar.height_mm = height_mm(bar.profile);
    checkAgrees(draft, "clamp_depth", draft.clamp_depth_mm, bar.clamp_depth_mm, "the depth of the profile's underside");
    checkAgrees(draft, "height", draft.tool.height_mm, bar.height_mm, "the profile's height");
}

void finishNose(const ToolDraft& draft, double nose_radius_mm, Bar& bar) {
    if (!needToolFields(barKind(), draft,
                        {{"nose_angle_deg", "the nose angle in degrees, or a \"profile\""},
                         {"clamp_depth", "the depth from nose to back"},
                         {"height", "the height over the sheet"}})) {
        return;
    }
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

void checkRelief(const ToolDraft& draft, const Bar& bar) {
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

const ToolKind& barKind() {
    static const ToolKind kind{
        "bars",
        "each_bar",
        "bar",
        {"clamp_depth", "height", "nose_angle_deg", "nose_radius", "toe_height", "shank_front", "profile", "end_relief",
         "count", "uncertain", "note"},
        {"id", "width"},
        takeBar,
        [](const JsonCursor& item, const ToolDraft& each) { return readOneTool(barKind(), item, each); }};
    return kind;
}

Bar finishBar(const ToolDraft& draft, const BrakeDraft& of) {
    Bar bar{draft.tool, draft.clamp_depth_mm, draft.end_relief_mm, draft.end_relief_height_mm};
    checkIdAndWidth(barKind(), draft, of);
    const bool radius_known = of.given.good("nose_radius");
    if (radius_known && draft.given.good("nose_radius") &&
        std::abs(draft.nose_radius_mm - of.leaf.nose_radius_mm) > 1e-6) {
        draft.given.wrong("nose_radius", "bar.nose-radius",
                          fmt::format("the brake's nose radius, {:g} mm", of.leaf.nose_radius_mm),
                          "list bars with another radius under a brake entry of their own: they make other bends");
        return bar;
    }
    if (hasBadField(draft, {"profile", "nose_angle_deg", "nose_radius", "toe_height", "shank_front", "clamp_depth",
                            "height"}) ||
        !radius_known)
        return bar;
    if (draft.given.has("profile")) {
        finishBarProfile(draft, of.leaf.nose_radius_mm, bar);
    } else {
        finishNose(draft, of.leaf.nose_radius_mm, bar);
    }
    checkRelief(draft, bar);
    return bar;
}

}  // namespace tinwright
