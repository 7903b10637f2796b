// SPDX-License-Identifier: GPL-3.0-or-later
#include "paper/drawing.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/base/words.h>

#include "paper/clipping.h"
#include "paper/label_placing.h"
#include "words/text_width.h"

namespace tinwright::report {
namespace {

constexpr double kEdge_mm = 0.6;  // of paper round what is drawn
constexpr double kHatch_mm = 1.3;
constexpr double kDescent_mm = 0.25 * kLetter_mm;  // of the box under the base line

const char* penClass(Pen pen) {
    switch (pen) {
        case Pen::kNone: return "n";
        case Pen::kHeavy: return "h";
        case Pen::kMedium: return "m";
        case Pen::kOutline: return "o";
        case Pen::kThin: return "t";
        case Pen::kHidden: return "d";
        case Pen::kChain: return "c";
        case Pen::kGhost: return "g";
    }
    return "n";
}

/// Hundredths of a millimetre are below what a printer shows.
std::string number(double value) { return trimmedNumber(value, 2); }

std::string pathData(const std::vector<Vec2>& points, bool closed) {
    std::string data;
    for (const Vec2& point : points) data += (data.empty() ? "M" : "L") + number(point.x()) + " " + number(point.y());
    return closed ? data + "Z" : data;
}

std::string labelElement(const PlacedLabel& label) {
    const double x =
        label.turned ? label.box.most.x() - kDescent_mm : label.box.least.x() + (label.ringed ? kRingRoom_mm : 0.0);
    const double y = label.turned ? label.box.most.y() : label.box.most.y() - kDescent_mm;
    const std::string turn = label.turned ? fmt::format(" transform=\"rotate(-90 {} {})\"", number(x), number(y)) : "";
    return fmt::format("<text class=\"l{}\"{}{} x=\"{}\" y=\"{}\"{}>{}</text>\n", label.bold ? " b" : "",
                       label.attributes.empty() ? "" : " ", label.attributes, number(x), number(y), turn,
                       xmlText(label.text));
}

}  // namespace

bool Box::overlaps(const Box& other) const {
    return least.x() < other.most.x() && other.least.x() < most.x() && least.y() < other.most.y() &&
           other.least.y() < most.y();
}

bool Box::holds(const Box& other) const {
    constexpr double kRounding_mm = 1e-9;
    return other.least.x() >= least.x() - kRounding_mm && other.least.y() >= least.y() - kRounding_mm &&
           other.most.x() <= most.x() + kRounding_mm && other.most.y() <= most.y() + kRounding_mm;
}

double labelHeight_mm() { return 1.2 * kLetter_mm; }

const char* drawingStyle() {
    // Blue is #0072B2 of a set chosen for colour-blind readers (Okabe and Ito 2008); it repeats what weight and dashes
    // say.
    return ".n{stroke:none;fill:none}.h,.m,.o,.t,.d,.c,.g{fill:none;stroke:#000;stroke-linejoin:round;stroke-linecap:"
           "round}"
           ".h{stroke-width:.7}.m{stroke-width:.5}.o{stroke-width:.3}.t{stroke-width:.15}"
           ".d{stroke-width:.2;stroke-dasharray:1.4 .9}.c{stroke-width:.25;stroke-dasharray:4 1 .6 1}"
           ".g{stroke-width:.22;stroke-dasharray:.5 .9;stroke:#0072b2}"
           ".paper{fill:#fff;stroke:#fff;stroke-width:.1}.solid{fill:#000}.tint{fill:#d9d9d9}"
           ".l{font:3.5px Helvetica,Arial,'Liberation Sans','DejaVu "
           "Sans',sans-serif;fill:#000;stroke:#fff;stroke-width:.7;"
           "paint-order:stroke;stroke-linejoin:round;white-space:pre}.b{font-weight:bold}";
}

Drawing::Drawing(std::string title, double width_mm, double height_mm)
    : title_(std::move(title)), size_(width_mm, height_mm), clip_{Vec2::Zero(), Vec2(width_mm, height_mm)} {}

void Drawing::keep(const Vec2& from, const Vec2& to) { lines_.push_back({from, to}); }

void Drawing::strokes(const std::vector<Vec2>& points, bool closed, Pen pen, const std::string& attributes) {
    if (pen == Pen::kNone) return;
    std::string data;
    for (const std::vector<Vec2>& run : clippedRuns(points, closed, clip_)) {
        data += pathData(run, false);
        for (std::size_t i = 1; i < run.size(); ++i) keep(run[i - 1], run[i]);
    }
    if (data.empty()) return;
    body_ += fmt::format("<path class=\"{}\"{}{} d=\"{}\"/>\n", penClass(pen), attributes.empty() ? "" : " ",
                         attributes, data);
}

void Drawing::region(const Region& region, Pen pen, Fill fill) {
    if (fill != Fill::kNone) {
        std::string data = pathData(clippedPolygon(region.outline, clip_), true);
        for (const Polygon& hole : region.holes) {
            const std::vector<Vec2> cut = clippedPolygon(hole, clip_);
            if (!cut.empty()) data += pathData(cut, true);
        }
        const char* name = fill == Fill::kSolid ? "solid" : fill == Fill::kTint ? "tint" : "paper";
        if (data.size() > 1) body_ += fmt::format("<path class=\"{}\" fill-rule=\"evenodd\" d=\"{}\"/>\n", name, data);
        if (fill == Fill::kHatch || fill == Fill::kCross) hatch(region, kHatch_mm, fill == Fill::kCross);
    }
    strokes(region.outline, true, pen, {});
    for (const Polygon& hole : region.holes) strokes(hole, true, pen, {});
}

void Drawing::hatch(const Region& region, double spacing_mm, bool crossed) {
    std::string data;
    for (const double slope : {1.0, -1.0}) {
        if (slope < 0 && !crossed) break;
        for (const auto& [from, to] : hatchLines(region, spacing_mm, slope, clip_)) data += pathData({from, to}, false);
    }
    if (!data.empty()) body_ += fmt::format("<path class=\"t\" d=\"{}\"/>\n", data);
}

void Drawing::line(const Vec2& from, const Vec2& to, Pen pen, const std::string& attributes) {
    strokes({from, to}, false, pen, attributes);
}

void Drawing::lines(const std::vector<std::pair<Vec2, Vec2>>& ends, Pen pen) {
    std::string data;
    for (const auto& [from, to] : ends) {
        for (const std::vector<Vec2>& run : clippedRuns({from, to}, false, clip_)) {
            data += pathData(run, false);
            keep(run.front(), run.back());
        }
    }
    if (!data.empty()) body_ += fmt::format("<path class=\"{}\" d=\"{}\"/>\n", penClass(pen), data);
}

void Drawing::polyline(const std::vector<Vec2>& points, Pen pen) { strokes(points, false, pen, {}); }

void Drawing::circle(const Vec2& centre, double radius_mm, Pen pen, Fill fill) {
    constexpr int kCorners = 24;
    Polygon ring;
    for (int i = 0; i < kCorners; ++i) {
        const double turn = 2 * 3.14159265358979 * i / kCorners;
        ring.push_back(centre + radius_mm * Vec2(std::cos(turn), std::sin(turn)));
    }
    polygon(ring, pen, fill);
}

void Drawing::arrowHead(const Vec2& tip, const Vec2& direction, double length_mm) {
    if (direction.norm() <= 0) return;
    const Vec2 along = direction.normalized();
    const Vec2 across(-along.y(), along.x());
    const Vec2 base = tip - length_mm * along;
    polygon({tip, base + 0.22 * length_mm * across, base - 0.22 * length_mm * across}, Pen::kNone, Fill::kSolid);
    keep(tip, base);
}

void Drawing::arrow(const Vec2& from, const Vec2& to, Pen pen) {
    line(from, to, pen);
    arrowHead(to, to - from);
}

void Drawing::text(const std::string& text, const Vec2& lower_left, bool bold, const std::string& attributes) {
    const std::string shown = fitted(text, (size_.x() - lower_left.x()) / boldness(bold));
    const Vec2 size(textWidth_mm(shown) * boldness(bold), labelHeight_mm());
    addLabel({shown, {lower_left - Vec2(0, size.y()), lower_left + Vec2(size.x(), 0)}, bold, false, false, attributes});
}

void Drawing::turnedText(const std::string& text, const Vec2& lower_left, const std::string& attributes) {
    const std::string shown = fitted(text, lower_left.y());
    const Vec2 size(labelHeight_mm(), textWidth_mm(shown));
    addLabel({shown, {lower_left - Vec2(0, size.y()), lower_left + Vec2(size.x(), 0)}, false, false, true, attributes});
}

void Drawing::addLabel(PlacedLabel label) { labels_.push_back(std::move(label)); }

void Drawing::finish() {
    LabelPlacing(*this).run();
    cutEmptyPaper();
}

void Drawing::cutEmptyPaper() {
    double least = size_.y();
    double most = 0;
    const auto see = [&](double y) {
        least = std::min(least, y);
        most = std::max(most, y);
    };
    for (const Line& stroke : lines_) {
        see(stroke.from.y());
        see(stroke.to.y());
    }
    for (const PlacedLabel& label : labels_) {
        see(label.box.least.y());
        see(label.box.most.y());
    }
    if (least > most) return;
    head_mm_ = std::max(0.0, least - kEdge_mm);
    size_.y() = std::min(size_.y(), most + kEdge_mm);
}

std::string Drawing::svg(bool own_file) const {
    std::string text = fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 {2} {0} "
        "{1}\"{3}>\n"
        "<title>{4}</title>\n",
        number(size_.x()), number(size_.y() - head_mm_), number(head_mm_), attributes_, xmlText(title_));
    if (own_file)
        text += fmt::format("<style>{}</style>\n<rect class=\"paper\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n",
                            drawingStyle(), number(head_mm_), number(size_.x()), number(size_.y() - head_mm_));
    text += body_;
    for (const PlacedLabel& label : labels_) text += labelElement(label);
    return text + "</svg>\n";
}

}  // namespace tinwright::report
