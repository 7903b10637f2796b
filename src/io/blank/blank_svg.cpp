// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include <tinwright/base/words.h>
#include <tinwright/io/blank/blank_io.h>

namespace tinwright {

namespace {

constexpr double kMargin_mm = 5;

// To the nanometre, without idle zeros.
std::string svgNumber(double value) { return trimmedNumber(value, 6); }

std::string escaped(const std::string& text) {
    std::string out;
    for (const char c : text) {
        if (c == '&')
            out += "&amp;";
        else if (c == '<')
            out += "&lt;";
        else if (c == '>')
            out += "&gt;";
        else if (static_cast<unsigned char>(c) < 0x20)
            out += ' ';
        else
            out += c;
    }
    return out;
}

struct Frame {
    Vec2 low = Vec2::Constant(1e300);
    Vec2 high = Vec2::Constant(-1e300);

    void take(const Vec2& p) {
        low = low.cwiseMin(p);
        high = high.cwiseMax(p);
    }
    // y points down in SVG.
    [[nodiscard]] std::string place(const Vec2& p) const {
        return svgNumber(p.x() - low.x()) + " " + svgNumber(high.y() - p.y());
    }
};

// An arc may bulge past its ends: the whole circle is taken in.
void takeArc(Frame& frame, const Vec2& from, const Vec2& to, double bulge) {
    const double radius = 0.25 * (to - from).norm() * std::abs(bulge + 1 / bulge);
    frame.take(from.cwiseMin(to) - Vec2::Constant(radius));
    frame.take(from.cwiseMax(to) + Vec2::Constant(radius));
}

Frame frameOf(const BlankDrawing& drawing) {
    Frame frame;
    for (const DrawnLoop& loop : drawing.cut) {
        if (loop.is_circle) {
            frame.take(loop.centre - Vec2::Constant(loop.radius_mm));
            frame.take(loop.centre + Vec2::Constant(loop.radius_mm));
        }
        for (std::size_t i = 0; i < loop.corners.size(); ++i) {
            frame.take(loop.corners[i].at);
            if (loop.corners[i].bulge != 0)
                takeArc(frame, loop.corners[i].at, loop.corners[(i + 1) % loop.corners.size()].at,
                        loop.corners[i].bulge);
        }
    }
    frame.low -= Vec2::Constant(kMargin_mm);
    frame.high += Vec2::Constant(kMargin_mm);
    return frame;
}

std::string pathOf(const DrawnLoop& loop, const Frame& frame) {
    std::string path = "M " + frame.place(loop.corners.front().at);
    for (std::size_t i = 0; i < loop.corners.size(); ++i) {
        const DrawnCorner& corner = loop.corners[i];
        const Vec2& to = loop.corners[(i + 1) % loop.corners.size()].at;
        if (corner.bulge == 0) {
            if (i + 1 < loop.corners.size()) path += " L " + frame.place(to);
            continue;
        }
        const double radius = 0.25 * (to - corner.at).norm() * std::abs(corner.bulge + 1 / corner.bulge);
        path += fmt::format(" A {0} {0} 0 {1} {2} {3}", svgNumber(radius), std::abs(corner.bulge) > 1 ? 1 : 0,
                            corner.bulge > 0 ? 0 : 1, frame.place(to));
    }
    return path + " Z";
}

std::string group(const char* layer, const char* style, const std::string& inside) {
    return fmt::format("  <g id=\"{}\" fill=\"none\" stroke=\"black\" {}>\n{}  </g>\n", layer, style, inside);
}

std::string linesOf(const std::vector<DrawnSegment>& segments, const Frame& frame) {
    std::string out;
    for (const DrawnSegment& line : segments)
        out += fmt::format("    <path d=\"M {} L {}\"/>\n", frame.place(line.from), frame.place(line.to));
    return out;
}

std::vector<DrawnSegment> crosses(const std::vector<Vec2>& centres) {
    constexpr double kHalf_mm = 1.5;
    std::vector<DrawnSegment> lines;
    for (const Vec2& at : centres) {
        lines.push_back({at - Vec2(kHalf_mm, 0), at + Vec2(kHalf_mm, 0)});
        lines.push_back({at - Vec2(0, kHalf_mm), at + Vec2(0, kHalf_mm)});
    }
    return lines;
}

}  // namespace

std::string blankSvg(const BlankDrawing& drawing) {
    const Frame frame = frameOf(drawing);
    const std::string width = svgNumber(frame.high.x() - frame.low.x()),
                      height = svgNumber(frame.high.y() - frame.low.y());
    std::string cut;
    for (const DrawnLoop& loop : drawing.cut) {
        if (loop.is_circle) {
            cut +=
                fmt::format("    <circle cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n", svgNumber(loop.centre.x() - frame.low.x()),
                            svgNumber(frame.high.y() - loop.centre.y()), svgNumber(loop.radius_mm));
        } else {
            cut += "    <path d=\"" + pathOf(loop, frame) + "\"/>\n";
        }
    }
    std::string text = fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" "
        "height=\"{1}mm\" viewBox=\"0 0 {0} {1}\">\n"
        "  <title>{2}</title>\n",
        width, height, escaped(drawing.name));
    if (!drawing.comments.empty())
        text += "  <desc>" + escaped(fmt::format("{}", fmt::join(drawing.comments, "\n"))) + "</desc>\n";
    text += group("CUT", "stroke-width=\"0.25\"", cut);
    text += group("DRILL", "stroke-width=\"0.25\"", linesOf(crosses(drawing.drill), frame));
    text += group("MARK", "stroke-width=\"0.25\"", linesOf(drawing.mark, frame));
    text += group("BEND_UP", "stroke-width=\"0.15\" stroke-dasharray=\"6 2\"", linesOf(drawing.bend_up, frame));
    text += group("BEND_DOWN", "stroke-width=\"0.15\" stroke-dasharray=\"6 2 1 2\"", linesOf(drawing.bend_down, frame));
    return text + "</svg>\n";
}

}  // namespace tinwright
