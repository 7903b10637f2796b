// SPDX-License-Identifier: GPL-3.0-or-later
// Whether the fields of a brake fit together.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "shop_draft.h"

namespace tinwright {

namespace {

constexpr double kMeasured_mm = 0.02;

void needFields(const BrakeDraft& draft) {
    const GivenFields& given = draft.given;
    // When its tooling file could not be read, what is missing here is not the user's slip.
    if (given.has("tooling") && !given.good("tooling")) return;
    const std::pair<const char*, const char*> needed[] = {
        {"name", "a name for the brake"},
        {"length", "the length of bed and leaf"},
        {"max_leaf_angle_deg", "the largest angle the leaf swings to"},
        {"leaf_faces", "a list of at least one face of the leaf"},
        {"nose_radius", "the radius of the bars' nose"},
        {"bed", "the bed's section as a list of points [y, z]"},
        {"clamp", "\"loose-bars\" or \"on-beam\""},
        {"bars", "a list of bars"},
    };
    for (const auto& [field, expected] : needed) {
        if (!given.has(field)) given.wrong(field, "missing", expected, "or a \"tooling\" file that says it");
    }
}

void checkBed(const BrakeDraft& draft) {
    if (!draft.given.good("bed")) return;
    std::string why;
    const Polygon& bed = draft.brake.bed;
    if (!isValid(Region{bed, {}}, &why))
        return draft.given.wrong("bed", "bed", "a polygon that does not cross itself (" + why + ")");
    double top_mm = bed[0].y();
    for (const Vec2& point : bed) top_mm = std::max(top_mm, point.y());
    double front_mm = HUGE_VAL;
    double back_mm = -HUGE_VAL;
    for (const Vec2& point : bed) {
        if (point.y() < top_mm - kMeasured_mm) continue;
        front_mm = std::min(front_mm, point.x());
        back_mm = std::max(back_mm, point.x());
    }
    if (std::abs(top_mm) > kMeasured_mm || std::abs(front_mm) > kMeasured_mm || back_mm < 1) {
        draft.given.wrong("bed", "bed",
                          "a section whose top is at z = 0 and begins at y = 0 (the hinge line), going back",
                          fmt::format("its top is at z = {:g} mm from y = {:g} to {:g} mm", top_mm, front_mm, back_mm));
    }
}

void checkClamp(const BrakeDraft& draft) {
    const GivenFields& given = draft.given;
    if (!given.good("clamp") || (given.has("above") && !given.good("above"))) return;
    const Brake& brake = draft.brake;
    if (brake.clamp == ClampKind::kLooseBars) {
        if (brake.has_beam)
            given.wrong("above", "clamp", "\"nothing\" above bars that lift off freely",
                        "\"clamp\" says \"loose-bars\"");
        if (given.good("opening") && brake.opening_mm > 0)
            given.wrong("opening", "clamp", "no opening with \"loose-bars\": they lift off freely");
        return;
    }
    if (!brake.has_beam)
        given.wrong("above", "clamp", "the beam that the pieces hang on", "\"clamp\" says \"on-beam\"");
    if (!given.has("opening")) given.wrong("opening", "missing", "how far the beam lifts");
    if (given.good("opening") && brake.opening_mm <= 0) given.wrong("opening", "clamp", "a lift greater than 0");
}

// What hangs on a beam ends under it.
void checkHeights(const BrakeDraft& draft, const std::vector<Bar>& bars) {
    if (!draft.brake.has_beam || !draft.given.good("above")) return;
    for (std::size_t i = 0; i < bars.size(); ++i) {
        if (bars[i].height_mm <= draft.brake.beam.height_mm + kMeasured_mm) continue;
        draft.bars[i].given.wrong(
            draft.bars[i].given.has("height") ? "height" : "profile", "bar.height",
            fmt::format("a height that ends under the beam, {:g} mm", draft.brake.beam.height_mm));
    }
}

void checkBarIds(const BrakeDraft& draft) {
    std::set<std::string> ids;
    for (const BarDraft& bar : draft.bars) {
        if (!bar.given.good("id") || ids.insert(bar.bar.id).second) continue;
        bar.given.wrong("id", "repeated", "an id that no other bar of the brake has",
                        "say how many there are with \"count\"");
    }
}

// Said of every bar it is said once.
std::vector<std::string> uncertainOf(const BrakeDraft& draft) {
    std::vector<std::string> all;
    for (const std::string& pointer : draft.given.uncertain()) all.push_back(pointer);
    std::vector<std::string> of_all;
    for (const BarDraft& bar : draft.bars) {
        for (const std::string& pointer : bar.given.uncertain()) {
            const bool everywhere = std::all_of(draft.bars.begin(), draft.bars.end(), [&](const BarDraft& other) {
                const auto& list = other.given.uncertain();
                return std::find(list.begin(), list.end(), pointer) != list.end();
            });
            const std::string text = everywhere ? "/bars/*" + pointer : "/bars/" + bar.bar.id + pointer;
            if (std::find(of_all.begin(), of_all.end(), text) == of_all.end()) of_all.push_back(text);
        }
    }
    all.insert(all.end(), of_all.begin(), of_all.end());
    return all;
}

}  // namespace

Brake finishBrake(const BrakeDraft& draft) {
    needFields(draft);
    checkBed(draft);
    checkClamp(draft);
    checkBarIds(draft);
    Brake brake = draft.brake;
    if (brake.clamp == ClampKind::kLooseBars) brake.pieces_out_in_place = true;  // each is laid on by hand
    for (const BarDraft& bar : draft.bars) brake.bars.push_back(finishBar(bar, draft));
    checkHeights(draft, brake.bars);
    brake.uncertain = uncertainOf(draft);
    return brake;
}

}  // namespace tinwright
