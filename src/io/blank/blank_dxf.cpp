// SPDX-License-Identifier: GPL-3.0-or-later
// Release 12 (AC1009) of the format, which every reader takes: POLYLINE with bulges, CIRCLE, LINE, and $INSUNITS
// besides, which older readers pass over.
#include <fmt/format.h>

#include <cmath>

#include <tinwright/base/words.h>
#include <tinwright/io/blank/blank_io.h>

namespace tinwright {

namespace {

constexpr double kCross_mm = 1.5;  // half the width of a cross

// Blanks lie on a grid of 1e-7 mm.
std::string dxfNumber(double value) {
    const std::string text = trimmedNumber(value, 7);
    return text.find('.') == std::string::npos ? text + ".0" : text;
}

// Group 999 is a comment, which readers pass over. They may not stand before the header for all of them.
constexpr int kComment = 999;
constexpr std::size_t kLongestLine = 255;

std::string oneLine(std::string text) {
    for (char& c : text) {
        if (static_cast<unsigned char>(c) < 0x20 || static_cast<unsigned char>(c) > 0x7e) c = '?';
    }
    return text.substr(0, kLongestLine);
}

class DxfWriter {
public:
    void put(int code, std::string_view value) {
        fmt::format_to(std::back_inserter(text_), "{:>3}\n{}\n", code, value);
    }
    void put(int code, int value) { put(code, std::to_string(value)); }
    void put(int code, double value) { put(code, dxfNumber(value)); }
    void entity(std::string_view type, std::string_view layer) {
        put(0, type);
        put(8, layer);
    }
    void point(int code, const Vec2& at) {
        put(code, at.x());
        put(code + 10, at.y());
    }
    void segment(std::string_view layer, const DrawnSegment& segment) {
        entity("LINE", layer);
        point(10, segment.from);
        point(11, segment.to);
    }
    void loop(std::string_view layer, const DrawnLoop& loop);
    void centreMark(std::string_view layer, const Vec2& at);
    void header(const Vec2& low, const Vec2& high);
    void layers();
    [[nodiscard]] std::string text() && { return std::move(text_); }

private:
    std::string text_;
};

void DxfWriter::loop(std::string_view layer, const DrawnLoop& loop) {
    if (loop.is_circle) {
        entity("CIRCLE", layer);
        point(10, loop.centre);
        return put(40, loop.radius_mm);
    }
    entity("POLYLINE", layer);
    put(66, 1);
    point(10, Vec2::Zero());
    put(70, 1);
    for (const DrawnCorner& corner : loop.corners) {
        entity("VERTEX", layer);
        point(10, corner.at);
        // More digits would be the noise of the grid.
        if (corner.bulge != 0) put(42, fmt::format("{:.6f}", corner.bulge));
    }
    entity("SEQEND", layer);
}

// A point for the table's software, a cross for eyes.
void DxfWriter::centreMark(std::string_view layer, const Vec2& at) {
    entity("POINT", layer);
    point(10, at);
    segment(layer, {at - Vec2(kCross_mm, 0), at + Vec2(kCross_mm, 0)});
    segment(layer, {at - Vec2(0, kCross_mm), at + Vec2(0, kCross_mm)});
}

void DxfWriter::header(const Vec2& low, const Vec2& high) {
    put(0, "SECTION");
    put(2, "HEADER");
    put(9, "$ACADVER");
    put(1, "AC1009");
    put(9, "$INSUNITS");
    put(70, 4);  // mm
    put(9, "$MEASUREMENT");
    put(70, 1);  // metric
    put(9, "$EXTMIN");
    point(10, low);
    put(9, "$EXTMAX");
    point(10, high);
    put(0, "ENDSEC");
}

// Black and plain throughout; the table's software tells layers apart by name.
void DxfWriter::layers() {
    constexpr const char* kLayers[] = {"CUT", "DRILL", "MARK", "BEND_UP", "BEND_DOWN"};
    put(0, "SECTION");
    put(2, "TABLES");
    put(0, "TABLE");
    put(2, "LTYPE");
    put(70, 1);
    put(0, "LTYPE");
    put(2, "CONTINUOUS");
    put(70, 0);
    put(3, "Solid line");
    put(72, 65);
    put(73, 0);
    put(40, 0.0);
    put(0, "ENDTAB");
    put(0, "TABLE");
    put(2, "LAYER");
    put(70, static_cast<int>(std::size(kLayers)));
    for (const char* layer : kLayers) {
        put(0, "LAYER");
        put(2, layer);
        put(70, 0);
        put(62, 7);
        put(6, "CONTINUOUS");
    }
    put(0, "ENDTAB");
    put(0, "ENDSEC");
}

}  // namespace

std::string blankDxf(const BlankDrawing& drawing) {
    Vec2 low(0, 0), high(0, 0);
    bool first = true;
    for (const DrawnLoop& loop : drawing.cut) {
        for (const DrawnCorner& corner : loop.corners) {
            low = first ? corner.at : Vec2(low.cwiseMin(corner.at));
            high = first ? corner.at : Vec2(high.cwiseMax(corner.at));
            first = false;
        }
    }
    DxfWriter writer;
    writer.header(low, high);
    writer.layers();
    writer.put(0, "SECTION");
    writer.put(2, "ENTITIES");
    for (const std::string& comment : drawing.comments) writer.put(kComment, oneLine(comment));
    for (const DrawnLoop& loop : drawing.cut) writer.loop("CUT", loop);
    for (const Vec2& centre : drawing.drill) writer.centreMark("DRILL", centre);
    for (const DrawnSegment& nick : drawing.mark) writer.segment("MARK", nick);
    for (const DrawnSegment& line : drawing.bend_up) writer.segment("BEND_UP", line);
    for (const DrawnSegment& line : drawing.bend_down) writer.segment("BEND_DOWN", line);
    writer.put(0, "ENDSEC");
    writer.put(0, "EOF");
    return std::move(writer).text();
}

}  // namespace tinwright
