// SPDX-License-Identifier: GPL-3.0-or-later
// The fields of a brake, one over the other: what its tooling file says, then what the entry itself says.
#include <tinwright/io/json/json_reading.h>

#include "shop/shop_press.h"
#include "shop/shop_process.h"
#include "shop/shop_tools.h"

namespace tinwright {

namespace {

void takeRatings(const JsonCursor& object, BrakeDraft& draft) {
    takeField(object, "ratings", draft.given, draft.brake.ratings, [](const JsonCursor& at) {
        std::vector<Rating> ratings;
        for (const JsonCursor& item : at.items(0, 100)) {
            if (!item.object({"material", "thickness", "length"})) continue;
            ratings.push_back({needName(item, "material"), needLength_mm(item, "thickness", kSize_mm),
                               needLength_mm(item, "length", kSize_mm)});
        }
        return std::optional(std::move(ratings));
    });
}

void takeLeafFaces(const JsonCursor& object, BrakeDraft& draft) {
    takeField(object, "leaf_faces", draft.given, draft.leaf.leaf_faces, [](const JsonCursor& at) {
        std::vector<LeafFace> faces;
        for (const JsonCursor& item : at.items(1, 10)) {
            if (!item.object({"name", "reach", "thickness"})) continue;
            LeafFace face{needName(item, "name"), needLength_mm(item, "reach", kSize_mm),
                          needLength_mm(item, "thickness", kSize_mm)};
            for (const LeafFace& other : faces) {
                if (other.name == face.name && !face.name.empty())
                    item.wrong("repeated", "a name that no other face has");
            }
            faces.push_back(std::move(face));
        }
        return faces.empty() ? std::nullopt : std::optional(std::move(faces));
    });
}

void takeSetback(const JsonCursor& object, BrakeDraft& draft) {
    const auto setTo = [&](const JsonCursor& at) -> std::optional<double> {
        draft.leaf.setback_least_mm = LeafBrake{}.setback_least_mm;
        draft.leaf.setback_most_mm = LeafBrake{}.setback_most_mm;
        if (at.json().is_string()) return at.choice({"sheet-thickness"}) ? std::optional(-1.0) : std::nullopt;
        if (!at.json().is_object()) return at.length_mm(kSizeOrNone_mm);
        if (!at.object({"least", "most"})) return std::nullopt;
        const double least_mm = needLength_mm(at, "least", kSizeOrNone_mm);
        const double most_mm = needLength_mm(at, "most", kSizeOrNone_mm);
        if (most_mm < least_mm) at.wrong("range", "no less at the most than at the least");
        draft.leaf.setback_least_mm = least_mm;
        draft.leaf.setback_most_mm = std::max(least_mm, most_mm);
        return -1.0;
    };
    takeField(object, "setback", draft.given, draft.leaf.setback_mm, setTo);
    takeField(object, "hinge_gives", draft.given, draft.leaf.hinge_gives_mm,
              [](const JsonCursor& at) { return at.length_mm(kSizeOrNone_mm); });
}

void takeAbove(const JsonCursor& object, BrakeDraft& draft) {
    const std::optional<JsonCursor> above = object.get("above");
    if (!above) return;
    const std::size_t before = above->context().issues.size();
    if (above->json().is_string()) {
        draft.leaf.beam.reset();
        static_cast<void>(above->choice({"nothing"}));
    } else if (above->object({"beam_height", "beam_front"})) {
        Beam& beam = draft.leaf.beam.emplace();
        beam.height_mm = needLength_mm(*above, "beam_height", kSize_mm);
        beam.front_y_mm = needLength_mm(*above, "beam_front", kPlace_mm);
    }
    draft.given.give("above", *above, above->context().issues.size() == before);
}

void takeOverhang(const JsonCursor& object, BrakeDraft& draft) {
    takeField(object, "overhang", draft.given, draft.brake.overhang_left,
              [&](const JsonCursor& at) -> std::optional<bool> {
                  const std::optional<std::size_t> ends = at.choice({"none", "left", "right", "both"});
                  if (!ends) return std::nullopt;
                  draft.brake.overhang_right = *ends >= 2;
                  return *ends == 1 || *ends == 3;
              });
}

void takeClamp(const JsonCursor& object, BrakeDraft& draft) {
    takeField(object, "clamp", draft.given, draft.leaf.clamp, [](const JsonCursor& at) -> std::optional<ClampKind> {
        const std::optional<std::size_t> kind = at.choice({"loose-bars", "on-beam"});
        if (!kind) return std::nullopt;
        return *kind == 0 ? ClampKind::kLooseBars : ClampKind::kOnBeam;
    });
}

// An entry may leave it to its tooling file to say, but not say otherwise.
void takeMachine(const JsonCursor& object, BrakeDraft& draft) {
    const bool from_tooling = object.has("tooling") && draft.given.good("tooling");
    takeField(object, "machine", draft.given, draft.is_press, [&](const JsonCursor& at) -> std::optional<bool> {
        const std::optional<std::size_t> kind = at.choice({"leaf-brake", "press-brake"});
        if (!kind) return std::nullopt;
        const bool is_press = *kind == 1;
        if (!from_tooling || is_press == draft.is_press) return is_press;
        at.wrong("machine", draft.is_press ? "\"press-brake\"" : "\"leaf-brake\"", "its tooling file describes one");
        return std::nullopt;
    });
}

void takeLeafFields(const JsonCursor& object, ShopFiles& files, BrakeDraft& draft) {
    LeafBrake& leaf = draft.leaf;
    takeField(object, "max_leaf_angle_deg", draft.given, leaf.max_leaf_angle,
              [](const JsonCursor& at) -> std::optional<Angle> {
                  const std::optional<double> deg = at.number({0, 179, true, false}, "degrees");
                  return deg ? std::optional(Angle::degrees(*deg)) : std::nullopt;
              });
    takeLeafFaces(object, draft);
    takeLength(object, "nose_radius", draft.given, kSizeOrNone_mm, leaf.nose_radius_mm);
    takeSetback(object, draft);
    takeLength(object, "hinge_height", draft.given, kPlace_mm, leaf.hinge_height_mm);
    takeAbove(object, draft);
    takeClamp(object, draft);
    takeLength(object, "opening", draft.given, kSizeOrNone_mm, leaf.opening_mm);
    takeFlag(object, "pieces_out_in_place", draft.given, leaf.pieces_out_in_place);
    takeLength(object, "hem_thickness", draft.given, kSizeOrNone_mm, leaf.hem_thickness_mm);
    takeTools(barKind(), object, files, draft.given, draft.bars);
}

void takeOwnFields(const JsonCursor& object, ShopFiles& files, BrakeDraft& draft) {
    draft.given.setWhole(object);
    Brake& brake = draft.brake;
    takeMachine(object, draft);
    takeField(object, "name", draft.given, brake.name, [](const JsonCursor& at) { return at.name(); });
    takeField(object, "description", draft.given, brake.description, [](const JsonCursor& at) { return at.text(500); });
    takeLength(object, "length", draft.given, kSize_mm, brake.length_mm);
    takeRatings(object, draft);
    takeField(object, "bed", draft.given, draft.bed, readPolygon);
    takeField(object, "overbend", draft.given, brake.overbend,
              [](const JsonCursor& at) { return std::optional(std::optional(readOverbend(at))); });
    takeOverhang(object, draft);
    takeLeafFields(object, files, draft);
    takePressFields(object, files, draft);
    draft.given.readUncertain(object);
    static_cast<void>(textOr(object, "note", ""));
}

void takeTooling(const JsonCursor& object, ShopFiles& files, BrakeDraft& draft);

std::vector<std::string_view> fieldsOf(std::vector<std::string_view> more) {
    more.insert(more.end(), {"tooling", "machine", "name", "description", "note", "uncertain", "length", "ratings",
                             "bed", "overbend", "overhang"});
    more.insert(more.end(),
                {"max_leaf_angle_deg", "leaf_faces", "nose_radius", "setback", "hinge_gives", "hinge_height", "above",
                 "clamp", "opening", "pieces_out_in_place", "hem_thickness", "each_bar", "bars"});
    more.insert(more.end(), {"force_kn", "bending", "bottoming_factor", "open_height", "stroke", "frames", "ram",
                             "adapter", "back_gauge", "each_punch", "punches", "each_die", "dies"});
    return more;
}

// `document`: a whole tooling file, else an entry of "brakes".
void takeBrake(const JsonCursor& object, bool document, ShopFiles& files, BrakeDraft& draft) {
    draft.given.setWhole(object);
    const bool readable = document ? object.object(fieldsOf({"format", "units", "kind"})) : object.object(fieldsOf({}));
    if (!readable) return;
    takeTooling(object, files, draft);
    takeOwnFields(object, files, draft);
}

void takeTooling(const JsonCursor& object, ShopFiles& files, BrakeDraft& draft) {
    const std::optional<JsonCursor> reference = object.get("tooling");
    if (!reference) return;
    ShopFile* file = files.enter(*reference, "brake");
    draft.given.give("tooling", *reference, file != nullptr);
    if (file == nullptr) return;
    takeBrake(file->cursor(), true, files, draft);
    files.leave();
}

}  // namespace

BrakeDraft readBrake(const JsonCursor& entry, ShopFiles& files) {
    BrakeDraft draft;
    // Not said: no part hangs past an end, and no piece comes out in place. The other way round a fold that collides
    // might be called possible.
    draft.brake.overhang_left = draft.brake.overhang_right = false;
    draft.leaf.pieces_out_in_place = false;
    takeBrake(entry, false, files, draft);
    return draft;
}

}  // namespace tinwright
