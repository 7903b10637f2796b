// SPDX-License-Identifier: GPL-3.0-or-later
// From bend lines as drawn to joints: collinear lines together, then stretches from edge to edge, then those between
// the same two panels.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <tuple>

#include <tinwright/part/flat/flat_blank.h>

#include <tinwright/geometry/cross.h>

#include "flat/flat_split.h"

namespace tinwright {

namespace {

constexpr double kNothing_mm = 1e-6;
// Two bends that share no more than this at an end, at the corner of a notch, do not cross.
constexpr double kCorner_mm = 0.01;
// A bend line this near to an edge that runs along it is drawn on the edge.
constexpr double kBeside_mm = 0.01;
// Half the width of the cut that shows which panels a line parts.
constexpr double kThin_mm = 1e-3;

/// All drawn lines on one straight line.
struct Course {
    Vec2 origin = Vec2::Zero();
    Vec2 along = Vec2::UnitX();
    std::vector<StripSpan> drawn;  ///< ascending, apart
    std::string place;
};

std::string placeText(const Vec2& point) { return fmt::format("({:.3f}, {:.3f})", point.x(), point.y()); }

FlatLine pointingRight(FlatLine line) {
    const Vec2 d = line.to - line.from;
    if (d.x() < 0 || (d.x() == 0 && d.y() < 0)) std::swap(line.from, line.to);
    return line;
}

bool liesOn(const Course& course, const FlatLine& line) {
    const auto off = [&](const Vec2& point) { return std::abs(cross(course.along, point - course.origin)); };
    return off(line.from) < FlatTolerance::kSameLine_mm && off(line.to) < FlatTolerance::kSameLine_mm;
}

void mergeDrawn(std::vector<StripSpan>& drawn) {
    std::sort(drawn.begin(), drawn.end(), [](const StripSpan& a, const StripSpan& b) {
        return std::tuple(a.from_mm, a.to_mm) < std::tuple(b.from_mm, b.to_mm);
    });
    std::vector<StripSpan> merged;
    for (const StripSpan& span : drawn) {
        if (!merged.empty() && span.from_mm <= merged.back().to_mm + FlatTolerance::kSameLine_mm) {
            merged.back().to_mm = std::max(merged.back().to_mm, span.to_mm);
        } else {
            merged.push_back(span);
        }
    }
    drawn = std::move(merged);
}

// The longest line of a course gives it its direction; ties by place, so that the order of the lines does not matter.
std::vector<Course> coursesOf(const std::vector<FlatLine>& given) {
    std::vector<FlatLine> lines;
    for (const FlatLine& line : given) {
        if ((line.to - line.from).norm() > kNothing_mm) lines.push_back(pointingRight(line));
    }
    std::sort(lines.begin(), lines.end(), [](const FlatLine& a, const FlatLine& b) {
        const auto key = [](const FlatLine& l) {
            return std::tuple(-(l.to - l.from).norm(), l.from.x(), l.from.y(), l.to.x(), l.to.y());
        };
        return key(a) < key(b);
    });
    std::vector<Course> courses;
    for (const FlatLine& line : lines) {
        auto course = std::find_if(courses.begin(), courses.end(), [&](const Course& c) { return liesOn(c, line); });
        if (course == courses.end())
            course =
                courses.insert(courses.end(), Course{line.from, (line.to - line.from).normalized(), {}, line.place});
        const double from = course->along.dot(line.from - course->origin),
                     to = course->along.dot(line.to - course->origin);
        course->drawn.push_back({std::min(from, to), std::max(from, to)});
    }
    for (Course& course : courses) mergeDrawn(course.drawn);
    return courses;
}

void addCrossings(const Course& course, double left_mm, const Polygon& ring, std::vector<double>& at) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2& p = ring[i];
        const Vec2& q = ring[(i + 1) % ring.size()];
        const double dp = cross(course.along, p - course.origin) - left_mm,
                     dq = cross(course.along, q - course.origin) - left_mm;
        if ((dp > 0) == (dq > 0)) continue;
        at.push_back(course.along.dot(p + dp / (dp - dq) * (q - p) - course.origin));
    }
}

/// Where a line beside the course, `left_mm` to its left, has sheet; ascending.
std::vector<StripSpan> sheetBeside(const Region& sheet, const Course& course, double left_mm) {
    std::vector<double> at;
    addCrossings(course, left_mm, sheet.outline, at);
    for (const Polygon& hole : sheet.holes) addCrossings(course, left_mm, hole, at);
    std::sort(at.begin(), at.end());
    std::vector<StripSpan> spans;
    for (std::size_t i = 0; i + 1 < at.size(); i += 2) {
        if (at[i + 1] - at[i] > kNothing_mm) spans.push_back({at[i], at[i + 1]});
    }
    return spans;
}

std::vector<StripSpan> common(const std::vector<StripSpan>& a, const std::vector<StripSpan>& b) {
    std::vector<StripSpan> both;
    for (std::size_t i = 0, j = 0; i < a.size() && j < b.size();) {
        const StripSpan span{std::max(a[i].from_mm, b[j].from_mm), std::min(a[i].to_mm, b[j].to_mm)};
        if (span.length_mm() > kNothing_mm) both.push_back(span);
        a[i].to_mm < b[j].to_mm ? ++i : ++j;
    }
    return both;
}

// Beside a slanting edge the line itself ends a little elsewhere than those to its left and right.
void takeEnd(double& end, const std::vector<StripSpan>& on_line) {
    for (const StripSpan& span : on_line) {
        for (const double other : {span.from_mm, span.to_mm}) {
            if (std::abs(other - end) < FlatTolerance::kSameLine_mm) end = other;
        }
    }
}

/// Where the course has sheet on both sides, ascending. Along an edge of the sheet, as at the corner of a cross whose
/// notches end where the bends meet, there is none.
std::vector<StripSpan> sheetAlong(const Region& sheet, const Course& course) {
    const std::vector<StripSpan> on_line = sheetBeside(sheet, course, 0);
    std::vector<StripSpan> spans =
        common(common(sheetBeside(sheet, course, kBeside_mm), sheetBeside(sheet, course, -kBeside_mm)), on_line);
    for (StripSpan& span : spans) {
        takeEnd(span.from_mm, on_line);
        takeEnd(span.to_mm, on_line);
    }
    return spans;
}

double shared_mm(const StripSpan& a, const StripSpan& b) {
    return std::min(a.to_mm, b.to_mm) - std::max(a.from_mm, b.from_mm);
}

class JointFinder {
public:
    JointFinder(const Region& sheet, const std::vector<FlatLine>& lines) : sheet_(sheet), courses_(coursesOf(lines)) {}
    Result<std::vector<FlatJoint>> run();

private:
    void addStrips(const Course& course);
    void checkReach(const Course& course, const StripSpan& sheet);
    void checkCrossings();
    std::vector<FlatJoint> joined(const FlatSplit& split) const;
    void report(const char* code, const std::string& place, std::string found, std::string expected,
                std::string hint = {}) {
        issues_.push_back({code, "", place, std::move(found), std::move(expected), std::move(hint)});
    }

    const Region& sheet_;
    std::vector<Course> courses_;
    std::vector<FlatStrip> strips_;  // FlatStrip::joint: course
    Issues issues_;
};

void JointFinder::checkReach(const Course& course, const StripSpan& sheet) {
    double at = sheet.from_mm;
    const auto gap = [&](double from, double to) {
        if (to - from <= FlatTolerance::kReach_mm) return;
        const bool starts_at_edge = from == sheet.from_mm;
        const double end = starts_at_edge ? to : from;
        report("bend.short", course.place,
               fmt::format("a bend line that ends inside the sheet at {}, {:.2f} mm short",
                           placeText(course.origin + end * course.along), to - from),
               fmt::format("a line that crosses the sheet from edge to edge, within {} mm", FlatTolerance::kReach_mm),
               "draw it on to the edge, or cut a relief where it ends");
    };
    for (const StripSpan& drawn : course.drawn) {
        if (shared_mm(drawn, sheet) <= 0) continue;
        gap(at, std::max(at, drawn.from_mm));
        at = std::max(at, std::min(drawn.to_mm, sheet.to_mm));
    }
    gap(at, sheet.to_mm);
}

void JointFinder::addStrips(const Course& course) {
    const std::vector<StripSpan> sheet = sheetAlong(sheet_, course);
    for (const StripSpan& drawn : course.drawn) {
        const bool on_sheet =
            std::any_of(sheet.begin(), sheet.end(), [&](const StripSpan& span) { return shared_mm(drawn, span) > 0; });
        if (!on_sheet)
            report(
                "bend.off-sheet", course.place,
                "a bend line that lies off the sheet, from " + placeText(course.origin + drawn.from_mm * course.along),
                "a line across the sheet");
    }
    for (const StripSpan& span : sheet) {
        double covered = 0;
        for (const StripSpan& drawn : course.drawn) covered += std::max(0.0, shared_mm(drawn, span));
        if (covered <= std::min(FlatTolerance::kReach_mm, 0.5 * span.length_mm())) continue;
        checkReach(course, span);
        strips_.push_back({course.origin, course.along, span, kThin_mm,
                           static_cast<std::size_t>(&course - courses_.data()), course.place});
    }
}

void JointFinder::checkCrossings() {
    for (std::size_t i = 0; i < strips_.size(); ++i) {
        for (std::size_t j = i + 1; j < strips_.size(); ++j) {
            const FlatStrip& a = strips_[i];
            const FlatStrip& b = strips_[j];
            const double sine = cross(a.along, b.along);
            if (a.joint == b.joint || std::abs(sine) < 1e-9) continue;
            const double on_a = cross(b.origin - a.origin, b.along) / sine,
                         on_b = cross(b.origin - a.origin, a.along) / sine;
            const auto inside = [](const FlatStrip& s, double at) {
                return at > s.span.from_mm + kCorner_mm && at < s.span.to_mm - kCorner_mm;
            };
            if (!inside(a, on_a) || !inside(b, on_b)) continue;
            report("bend.crossing", a.place,
                   "bend lines that cross at " + placeText(a.origin + on_a * a.along) + ", the other at " + b.place,
                   "bends that do not cross: flat sheet cannot be bent both ways at one point");
        }
    }
}

// Same course and same two panels: one bend.
std::vector<FlatJoint> JointFinder::joined(const FlatSplit& split) const {
    std::map<std::tuple<std::size_t, std::size_t, std::size_t>, FlatJoint> joints;
    for (std::size_t i = 0; i < strips_.size(); ++i) {
        const FlatStrip& strip = strips_[i];
        FlatJoint& joint = joints[{strip.joint, split.sides[i].left, split.sides[i].right}];
        if (joint.spans.empty()) joint = {strip.origin, strip.along, {}, strip.place};
        joint.spans.push_back(strip.span);
    }
    std::vector<FlatJoint> list;
    for (auto& [key, joint] : joints) list.push_back(std::move(joint));
    std::sort(list.begin(), list.end(), [](const FlatJoint& a, const FlatJoint& b) {
        const auto key = [](const FlatJoint& j) {
            const Vec2 middle = j.at(0.5 * (j.spans.front().from_mm + j.spans.back().to_mm));
            return std::tuple(middle.x(), middle.y(), j.along.x(), j.along.y());
        };
        return key(a) < key(b);
    });
    return list;
}

Result<std::vector<FlatJoint>> JointFinder::run() {
    for (const Course& course : courses_) addStrips(course);
    if (issues_.empty()) checkCrossings();
    if (!issues_.empty()) return std::move(issues_);
    const FlatSplit split = splitSheet(sheet_, strips_, issues_);
    if (!issues_.empty()) return std::move(issues_);
    std::vector<FlatJoint> joints = joined(split);
    if (joints.size() > kMaxBends) {
        return Issue{"bend.count",
                     "",
                     "",
                     fmt::format("{} bends", joints.size()),
                     fmt::format("at most {} bends", kMaxBends),
                     ""};
    }
    return joints;
}

}  // namespace

double FlatJoint::distance_mm(const Vec2& point) const {
    double least = std::numeric_limits<double>::infinity();
    for (const StripSpan& span : spans) {
        const double nearest = std::clamp(along.dot(point - origin), span.from_mm, span.to_mm);
        least = std::min(least, (at(nearest) - point).norm());
    }
    return least;
}

Result<std::vector<FlatJoint>> jointsOf(const Region& sheet, const std::vector<FlatLine>& lines) {
    if (lines.size() > FlatTolerance::kLines) {
        return Issue{"bend.count",
                     "",
                     "",
                     fmt::format("{} bend lines", lines.size()),
                     fmt::format("at most {}", FlatTolerance::kLines),
                     "is the right layer named for the bends?"};
    }
    return JointFinder(sheet, lines).run();
}

}  // namespace tinwright
