// SPDX-License-Identifier: GPL-3.0-or-later
// A shop file is a person's: only the list that changes is written anew, and the rest is left as they wrote it.
#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <tinwright/base/units.h>
#include <tinwright/io/shop/strips_io.h>

namespace tinwright {

namespace {

using Json = nlohmann::ordered_json;

constexpr const char* kList = "measured_bends";

double tidy(double value, double steps) { return std::round(value * steps) / steps + 0.0; }

struct Span {
    std::size_t from = 0, to = 0;
};

/// Past the string that starts at `at`.
std::size_t pastString(std::string_view text, std::size_t at) {
    for (++at; at < text.size() && text[at] != '"'; ++at) {
        if (text[at] == '\\') ++at;
    }
    return at + 1;
}

std::size_t pastSpace(std::string_view text, std::size_t at) {
    return std::min(text.find_first_not_of(" \t\r\n", at), text.size());
}

/// Past the value that starts at `at`.
std::size_t pastValue(std::string_view text, std::size_t at) {
    std::size_t depth = 0;
    while (at < text.size()) {
        const char c = text[at];
        if (c == '"') {
            at = pastString(text, at);
        } else {
            if (depth == 0 && (c == ',' || c == '}' || c == ']')) break;
            if (c == '[' || c == '{') ++depth;
            if (c == ']' || c == '}') --depth;
            ++at;
        }
        if (depth == 0 && (c == '"' || c == ']' || c == '}')) break;
    }
    return at;
}

/// Where the value of a member of the document stands. The text is valid JSON.
std::optional<Span> memberOf(std::string_view text, std::string_view key) {
    std::size_t at = pastSpace(text, pastSpace(text, 0) + 1);
    while (at < text.size() && text[at] == '"') {
        const std::size_t end = pastString(text, at);
        const bool found = text.substr(at + 1, end - at - 2) == key;
        const std::size_t value = pastSpace(text, pastSpace(text, end) + 1);
        const std::size_t past = pastValue(text, value);
        if (found) return Span{value, past};
        at = pastSpace(text, past);
        if (at < text.size() && text[at] == ',') at = pastSpace(text, at + 1);
    }
    return std::nullopt;
}

Json entryOf(const MeasuredBend& bend, double deduction_mm, double mm_per_unit) {
    const auto length = [&](double mm) { return tidy(mm / mm_per_unit, mm_per_unit == 1.0 ? 1e4 : 1e6); };
    Json entry;
    entry["material"] = bend.material;
    if (!bend.tool.empty()) entry["tool"] = bend.tool;
    entry["thickness"] = length(bend.thickness_mm);
    entry["inside_radius"] = length(bend.inside_radius_mm);
    entry["angle_deg"] = tidy(bend.angle.deg(), 100);
    entry["deduction"] = length(deduction_mm);
    if (bend.spread_mm) entry["spread"] = length(*bend.spread_mm);
    entry["strips"] = bend.strips;
    if (!bend.date.empty()) entry["date"] = bend.date;
    return entry;
}

bool isSame(const Json& entry, const MeasuredBend& bend, const MeasuredBends& names, double mm_per_unit) {
    const auto isLike = [&](const char* key, double mm) {
        return std::abs(entry.value(key, 0.0) * mm_per_unit - mm) <= kSameSize * mm + 1e-6;
    };
    return names.isSameMaterial(entry.value("material", ""), bend.material) && entry.value("tool", "") == bend.tool &&
           isLike("thickness", bend.thickness_mm) && isLike("inside_radius", bend.inside_radius_mm) &&
           std::abs(entry.value("angle_deg", 0.0) - bend.angle.deg()) <= kSameAngle_deg + 1e-9;
}

// In place of the first old one like it; any others like it go. New ones never take each other's place.
Json listWith(const Json& old, const std::vector<Calibration>& calibrations, const MeasuredBends& names,
              double mm_per_unit) {
    const auto entryFor = [&](const Calibration& calibration) {
        return entryOf(calibration.bend, calibration.deduction_mm.median, mm_per_unit);
    };
    Json list = Json::array();
    std::vector<bool> placed(calibrations.size(), false);
    for (const Json& entry : old) {
        bool replaced = false;
        for (std::size_t i = 0; i < calibrations.size(); ++i) {
            if (!isSame(entry, calibrations[i].bend, names, mm_per_unit)) continue;
            if (!placed[i]) list.push_back(entryFor(calibrations[i]));
            placed[i] = replaced = true;
        }
        if (!replaced) list.push_back(entry);
    }
    for (std::size_t i = 0; i < calibrations.size(); ++i) {
        if (!placed[i]) list.push_back(entryFor(calibrations[i]));
    }
    return list;
}

/// Why a calibration is not for a shop file.
std::optional<Issue> whyNotWritten(const Calibration& calibration, const std::string& file, bool accept_spread) {
    const MeasuredBend& bend = calibration.bend;
    if (calibration.is_vague) {
        return Issue{"calibrate.angle",
                     file,
                     "/measured_bends",
                     fmt::format("strips bent by {:.4g} degrees, too little to tell a k-factor", bend.angle.deg()),
                     "strips bent by 90 degrees or so",
                     "nothing was written"};
    }
    if (bend.k < 0 || bend.k > 1) {
        return Issue{"calibrate.k",     file,
                     "/measured_bends", fmt::format("a k-factor of {:.3f}", bend.k),
                     "0 to 1",          "measure the strips again: nothing was written"};
    }
    if (calibration.disagrees && !accept_spread) {
        return Issue{"calibrate.spread",
                     file,
                     "/measured_bends",
                     fmt::format("strips of {}, {:.4g} mm, radius {:.4g} mm, whose deductions go from {:.2f} to {:.2f} "
                                 "mm, and too few agree",
                                 bend.material, bend.thickness_mm, bend.inside_radius_mm,
                                 calibration.deduction_mm.least, calibration.deduction_mm.most),
                     "most strips within what measuring explains",
                     fmt::format("measure again or bend more strips; --accept-spread writes the median, {:.2f} mm: "
                                 "nothing was written",
                                 calibration.deduction_mm.median)};
    }
    return std::nullopt;
}

/// An entry a line.
std::string listText(const Json& list) {
    std::string text = "[";
    for (std::size_t i = 0; i < list.size(); ++i)
        text += fmt::format("{}\n    {}", i == 0 ? "" : ",", list[i].dump(-1));
    return text + "\n  ]";
}

std::string spliced(std::string_view text, const std::string& list) {
    std::string result(text);
    if (const auto span = memberOf(text, kList)) return result.replace(span->from, span->to - span->from, list);
    const std::size_t end = text.find_last_of('}');
    const std::size_t last = text.find_last_not_of(" \t\r\n", end - 1);
    const bool first = text[last] == '{';
    return result.replace(last + 1, end - last - 1, fmt::format("{}\n  \"{}\": {}\n", first ? "" : ",", kList, list));
}

}  // namespace

Result<std::string> shopTextWith(std::string_view text, const std::string& file,
                                 const std::vector<Calibration>& calibrations, const MeasuredBends& names,
                                 bool accept_spread) {
    for (const Calibration& calibration : calibrations) {
        if (const auto issue = whyNotWritten(calibration, file, accept_spread)) return *issue;
    }
    try {
        Json document = Json::parse(text);
        const double mm_per_unit = document.value("units", "mm") == "in" ? kMmPerInch : 1.0;
        const Json list = listWith(document.value(kList, Json::array()), calibrations, names, mm_per_unit);
        document[kList] = list;
        std::string result = spliced(text, listText(list));
        // A key written with escapes is the same to a parser and another one to a search in the text.
        if (Json::parse(result, nullptr, false) != document) result = document.dump(2) + "\n";
        return result;
    } catch (const Json::exception&) {
        return Issue{"shop.edit", file, "", "no shop file", "a shop file that tinwright reads", ""};
    }
}

}  // namespace tinwright
