// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <tinwright/brake/machines/brake.h>
#include <tinwright/brake/tooling/die_profile.h>
#include <tinwright/brake/tooling/punch_profile.h>
#include <tinwright/io/json/json_cursor.h>

#include "shop/shop_files.h"

/// A brake or a tool comes together from several places: a tooling file, what it refers to, and what the shop file says
/// instead. A draft takes them one over the other and remembers where each field was said last, so that what
/// does not fit together is reported where it can be put right.
namespace tinwright {

/// Bounds of what a reader takes for a length on a machine.
inline constexpr Range kSize_mm{0, 20'000, true, false};  // greater than 0
inline constexpr Range kSizeOrNone_mm{0, 20'000};
inline constexpr Range kPlace_mm{-20'000, 20'000};
inline constexpr Range kForce{0, 1'000'000, true, false};  // kN or kN/m

/// The fields that were given, each with the place where it was given last.
class GivenFields {
public:
    void give(std::string_view field, const JsonCursor& at, bool good);
    void drop(std::string_view field) { fields_.erase(std::string(field)); }
    [[nodiscard]] bool has(std::string_view field) const { return fields_.count(std::string(field)) != 0; }
    /// Given, and a value could be read.
    [[nodiscard]] bool good(std::string_view field) const;
    /// Reports at the field, or at the whole when it was not given.
    void wrong(std::string_view field, std::string_view what, std::string expected, std::string hint = {}) const;
    void setWhole(const JsonCursor& whole) { whole_ = whole; }
    [[nodiscard]] const JsonCursor& whole() const { return *whole_; }

    /// Reads "uncertain" of `object`: pointers to fields of the same object. What was uncertain about a field that is
    /// given anew is forgotten; call this after give().
    void readUncertain(const JsonCursor& object);
    [[nodiscard]] const std::vector<std::string>& uncertain() const { return uncertain_; }

private:
    struct Given {
        JsonCursor at;
        bool good;
    };
    std::map<std::string, Given> fields_;
    std::optional<JsonCursor> whole_;
    std::vector<std::string> uncertain_;
};

/// Reads a member into `into` when it is there and remembers that it was given.
template <class T, class Read>
void takeField(const JsonCursor& object, std::string_view field, GivenFields& given, T& into, Read read) {
    const std::optional<JsonCursor> at = object.get(field);
    if (!at) return;
    auto value = read(*at);
    given.give(field, *at, value.has_value());
    if (value) into = std::move(*value);
}

void takeLength(const JsonCursor& object, std::string_view field, GivenFields& given, Range range_mm, double& into);
void takeNumber(const JsonCursor& object, std::string_view field, GivenFields& given, Range range,
                std::string_view unit, double& into);
void takeFlag(const JsonCursor& object, std::string_view field, GivenFields& given, bool& into);

/// A polygon of 3 to 200 points [y, z], turned counter-clockwise; nothing when it was reported.
[[nodiscard]] std::optional<Polygon> readPolygon(const JsonCursor& at);

/// A bar, punch or die, and what is said of its section.
struct ToolDraft {
    GivenFields given;
    Tool tool;                  // what all kinds have
    double clamp_depth_mm = 0;  // bars
    double end_relief_mm = 0;
    double end_relief_height_mm = 0;
    double nose_angle_deg = 0;
    double nose_radius_mm = 0;
    double toe_height_mm = 0;
    double shank_front_mm = 0;
    double body_width_mm = 0;  // punches and dies
    double max_kn_per_m = 0;
    double tip_radius_mm = 0;  // punches
    double tip_angle_deg = 0;
    std::optional<Horn> horn;
    std::optional<PunchThroat> throat;
    VeeCut cut;  // dies
    std::optional<Jaw> jaw;
    std::vector<VeeCut> others_in_block;
    bool block_good = true;  // the others could be read
};

/// What only a press brake has.
struct PressDraft {
    PressBrake press;             // without what follows
    double frame_left_in_mm = 0;  // inside faces of the side frames, in from the ends of the bed
    double frame_right_in_mm = 0;
    double adapter_height_mm = 0;
    Polygon adapter;  // empty: as wide as the ram's seat
    std::vector<ToolDraft> punches;
    std::vector<ToolDraft> dies;
};

struct BrakeDraft {
    GivenFields given;
    Brake brake;  // without what its kind has
    Polygon bed;
    LeafBrake leaf;
    std::vector<ToolDraft> bars;
    bool is_press = false;
    PressDraft press;
};

/// Reads one entry of "brakes", with the tooling it refers to.
[[nodiscard]] BrakeDraft readBrake(const JsonCursor& entry, ShopFiles& files);

/// Reports which of these fields (with what each should say) no entry and no tooling file says.
void needFields(const BrakeDraft& draft, std::initializer_list<std::pair<const char*, const char*>> needed);

/// Checks that all of it fits together and makes the brake. Reports what does not; the value is of use only when
/// nothing was reported.
[[nodiscard]] Brake finishBrake(const BrakeDraft& draft);

}  // namespace tinwright
