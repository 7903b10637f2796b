// SPDX-License-Identifier: GPL-3.0-or-later
#include "dxf/dxf_bends.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include <tinwright/io/json/json_reading.h>

#include "dxf/dxf_note.h"
#include "entities/dxf_vet.h"

namespace tinwright {

namespace {

constexpr double kNearEntry_mm = 5;
constexpr double kNearText_mm = 10;
// Two bends whose distances differ by less are equally near.
constexpr double kSameDistance_mm = 0.1;

double distanceTo(const DrawnLine& line, const Vec2& point) {
    const Vec2 d = line.to - line.from;
    const double share = d.squaredNorm() > 0 ? std::clamp(d.dot(point - line.from) / d.squaredNorm(), 0.0, 1.0) : 0;
    return (line.from + share * d - point).norm();
}

// A joint lies where an entry's lines are when the middle of one of its stretches does.
double distance_mm(const FlatJoint& joint, const BendEntry& entry) {
    if (entry.at) return joint.distance_mm(*entry.at);
    double least = std::numeric_limits<double>::infinity();
    for (const StripSpan& span : joint.spans) {
        for (const DrawnLine& line : entry.lines)
            least = std::min(least, distanceTo(line, joint.at(0.5 * (span.from_mm + span.to_mm))));
    }
    return least;
}

class Sayer {
public:
    Sayer(const std::vector<FlatJoint>& joints, const BendSources& sources)
        : joints_(joints), sources_(sources), entry_(joints.size(), nullptr), note_(joints.size()) {}
    Result<SaidBends> run();

private:
    void matchEntries();
    void matchTexts();
    std::optional<bool> layerSays(const FlatJoint& joint) const;
    void add(std::size_t joint);
    BendSaid said(std::size_t joint);

    const std::vector<FlatJoint>& joints_;
    const BendSources& sources_;
    std::vector<const BendEntry*> entry_;
    std::vector<std::optional<BendSaid>> note_;
    SaidBends out_;
    Issues issues_;
};

void Sayer::matchEntries() {
    for (const BendEntry& entry : sources_.file.bends) {
        std::vector<std::pair<double, std::size_t>> near;
        for (std::size_t i = 0; i < joints_.size(); ++i) near.push_back({distance_mm(joints_[i], entry), i});
        std::sort(near.begin(), near.end());
        const std::string place = pointerTo(entry.place, entry.at ? "at" : "lines");
        if (near.empty() || near[0].first > kNearEntry_mm) {
            issues_.push_back(
                {"bends.at", sources_.file.file, place,
                 near.empty() ? "an entry, and no bend in the drawing"
                              : fmt::format("a place {:.2f} mm from the nearest bend line", near[0].first),
                 fmt::format("a place within {} mm of a bend line of {}", kNearEntry_mm, sources_.drawing), ""});
        } else if (near.size() > 1 && near[1].first < near[0].first + kSameDistance_mm) {
            issues_.push_back({"bends.at", sources_.file.file, place, "a place as near to one bend line as to another",
                               "a place on the bend line that is meant", ""});
        } else if (entry_[near[0].second] != nullptr) {
            issues_.push_back({"bends.twice", sources_.file.file, entry.place,
                               "a second entry for the bend of " + entry_[near[0].second]->place,
                               "one entry for each bend", ""});
        } else {
            entry_[near[0].second] = &entry;
        }
    }
}

// Every note to its nearest bend; of several at one bend the nearest counts.
void Sayer::matchTexts() {
    std::vector<double> nearest(joints_.size(), kNearText_mm);
    for (const DxfText& text : sources_.texts) {
        const auto said = bendNote(text.text, sources_.mm_per_unit);
        if (!said || joints_.empty()) continue;
        const auto joint = std::min_element(
            joints_.begin(), joints_.end(),
            [&](const FlatJoint& a, const FlatJoint& b) { return a.distance_mm(text.at) < b.distance_mm(text.at); });
        const auto i = static_cast<std::size_t>(joint - joints_.begin());
        const double distance = joint->distance_mm(text.at);
        if (distance >= nearest[i]) continue;
        nearest[i] = distance;
        note_[i] = said;
    }
}

// "UP" or "DOWN" in the layer's name, when all lines on the joint agree.
std::optional<bool> Sayer::layerSays(const FlatJoint& joint) const {
    bool up = false, down = false;
    for (const DxfCurve& curve : sources_.lines) {
        const Vec2 middle = 0.5 * (curve.points.front() + curve.points.back());
        const DrawnLine line{curve.points.front(), curve.points.back()};
        const bool on_joint =
            joint.distance_mm(middle) < FlatTolerance::kSameLine_mm ||
            std::any_of(joint.spans.begin(), joint.spans.end(), [&](const StripSpan& span) {
                return distanceTo(line, joint.at(0.5 * (span.from_mm + span.to_mm))) < FlatTolerance::kSameLine_mm;
            });
        if (!on_joint) continue;
        const std::string name = inCapitals(curve.tag.layer);
        up |= name.find("UP") != std::string::npos;
        down |= name.find("DOWN") != std::string::npos;
    }
    return up != down ? std::optional(up) : std::nullopt;
}

BendSaid Sayer::said(std::size_t i) {
    BendSaid said = entry_[i] != nullptr ? entry_[i]->said : BendSaid{};
    const auto fill = [&](const BendSaid& from) {
        if (!said.angle_deg) said.angle_deg = from.angle_deg;
        if (!said.up) said.up = from.up;
        if (!said.inside_radius_mm) said.inside_radius_mm = from.inside_radius_mm;
        if (!said.allowance_mm) said.allowance_mm = from.allowance_mm;
    };
    const BendSaid from_entry = said;
    if (note_[i]) fill(*note_[i]);
    if (!said.up) said.up = layerSays(joints_[i]);
    const bool guessed_up = said.up && !from_entry.up;
    const std::string where = joints_[i].place;
    if (guessed_up || (note_[i] && ((note_[i]->angle_deg && !from_entry.angle_deg) ||
                                    (note_[i]->inside_radius_mm && !from_entry.inside_radius_mm)))) {
        out_.notices.push_back(fmt::format("drawing: {} is bent {}{}{}, by {} of the drawing", where,
                                           said.up.value_or(true) ? "up" : "down",
                                           said.angle_deg ? fmt::format(" {}°", *said.angle_deg) : "",
                                           said.inside_radius_mm ? fmt::format(" R{} mm", *said.inside_radius_mm) : "",
                                           note_[i] ? "a text" : "a layer's name"));
    }
    fill(sources_.file.standard);
    return said;
}

void Sayer::add(std::size_t i) {
    const BendSaid all = said(i);
    const std::string place = entry_[i] != nullptr ? entry_[i]->place : "/inside_radius";
    if (!all.angle_deg || !all.up) {
        issues_.push_back(
            {"dxf.bend.unsaid", sources_.drawing, joints_[i].place,
             std::string("a bend of which nothing says the ") + (all.angle_deg ? "direction" : "angle"),
             "an entry in " + sources_.file.file + ", a text beside the line such as \"UP 90\", or a default", ""});
        return;
    }
    FlatBend bend;
    bend.name = entry_[i] != nullptr ? entry_[i]->name : "";
    bend.angle = Angle::degrees(*all.angle_deg);
    bend.up = *all.up;
    bend.inside_radius_mm = *all.inside_radius_mm;
    const auto allowance = allowanceFor(sources_.file.allowance, bend.angle, bend.inside_radius_mm,
                                        sources_.file.sheet.thickness_mm, place, sources_.file.sheet.material);
    if (!allowance && !all.allowance_mm) {
        for (Issue issue : allowance.issues()) {
            issue.file = sources_.file.file;
            issues_.push_back(std::move(issue));
        }
        return;
    }
    bend.allowance_mm = all.allowance_mm ? *all.allowance_mm : allowance.value().allowance_mm;
    if (all.allowance_mm) {
        bend.rule = AllowanceRule::kKFactor;
        bend.rule_value = (neutralRadius_mm(bend.angle, bend.allowance_mm) - bend.inside_radius_mm) /
                          sources_.file.sheet.thickness_mm;
    } else {
        bend.rule = allowance.value().rule;
        bend.rule_value = allowance.value().rule_value;
        bend.rule_source = allowance.value().rule_source;
        if (!allowance.value().warning.empty())
            out_.notices.push_back(joints_[i].place + ": " + allowance.value().warning);
    }
    out_.joints.push_back(joints_[i]);
    out_.bends.push_back(std::move(bend));
}

Result<SaidBends> Sayer::run() {
    matchEntries();
    matchTexts();
    for (const BendEntry& entry : sources_.file.bends) {
        const auto of_entry = std::find(entry_.begin(), entry_.end(), &entry);
        if (of_entry != entry_.end()) add(static_cast<std::size_t>(of_entry - entry_.begin()));
    }
    for (std::size_t i = 0; i < joints_.size(); ++i) {
        if (entry_[i] == nullptr) add(i);
    }
    if (!issues_.empty()) return std::move(issues_);
    return std::move(out_);
}

}  // namespace

Result<SaidBends> sayBends(const std::vector<FlatJoint>& joints, const BendSources& sources) {
    return Sayer(joints, sources).run();
}

}  // namespace tinwright
