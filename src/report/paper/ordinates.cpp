// SPDX-License-Identifier: GPL-3.0-or-later
#include "paper/ordinates.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "words/text_width.h"
#include "words/words.h"

namespace tinwright::report {
namespace {

constexpr double kSame_mm = 0.05;  // in the model: written alike
constexpr double kStub_mm = 2.0;   // straight out of the drawn thing
constexpr double kJog_mm = 5.0;    // over which lines jog to their figures
constexpr double kFiguresApart_mm = 0.4;
constexpr double kBefore_mm = 1.2;  // between a line and its figure

std::string written(const Ordinate& ordinate) { return millimetres(ordinate.value_mm) + ordinate.note; }

bool isUpright(RowSide side) { return side == RowSide::kLeft || side == RowSide::kRight; }

/// One of two alike goes, the one that says less.
void mergeAlike(std::vector<Ordinate>& row) {
    std::stable_sort(row.begin(), row.end(),
                     [](const Ordinate& a, const Ordinate& b) { return a.value_mm < b.value_mm; });
    std::vector<Ordinate> kept;
    for (Ordinate& next : row) {
        const bool alike = !kept.empty() && next.value_mm - kept.back().value_mm < kSame_mm;
        if (!alike) {
            kept.push_back(std::move(next));
            continue;
        }
        if (kept.back().note.find(next.note) == std::string::npos) kept.back().note += next.note;
        kept.back().weight = std::max(kept.back().weight, next.weight);
    }
    row = std::move(kept);
}

std::size_t dropLightest(std::vector<Ordinate>& row, std::size_t most) {
    std::size_t dropped = 0;
    for (; row.size() > most; ++dropped) {
        row.erase(std::min_element(row.begin(), row.end(),
                                   [](const Ordinate& a, const Ordinate& b) { return a.weight < b.weight; }));
    }
    return dropped;
}

/// A row in coordinates of its own: `along` it, and `out` from the drawn thing.
struct RowFrame {
    RowSide side;
    Box around;

    [[nodiscard]] double along(const Vec2& p) const { return isUpright(side) ? p.y() : p.x(); }
    [[nodiscard]] Vec2 at(double along, double out) const {
        switch (side) {
            case RowSide::kLeft: return {around.least.x() - out, along};
            case RowSide::kRight: return {around.most.x() + out, along};
            case RowSide::kTop: return {along, around.least.y() - out};
            case RowSide::kBottom: return {along, around.most.y() + out};
        }
        return {};
    }
};

void write(Drawing& drawing, const RowFrame& frame, double place, const std::string& text,
           const std::string& attributes) {
    const double out = kStub_mm + kJog_mm + kBefore_mm;
    const double half = 0.5 * labelHeight_mm();
    const double width = textWidth_mm(text);
    switch (frame.side) {
        case RowSide::kLeft: drawing.text(text, frame.at(place + half, out + width), false, attributes); break;
        case RowSide::kRight: drawing.text(text, frame.at(place + half, out), false, attributes); break;
        case RowSide::kTop: drawing.turnedText(text, frame.at(place - half, out), attributes); break;
        case RowSide::kBottom: drawing.turnedText(text, frame.at(place - half, out + width), attributes); break;
    }
}

}  // namespace

std::vector<double> spreadOut(const std::vector<double>& wanted, double apart, double least, double most) {
    struct Pool {
        double sum;
        std::size_t count;
        [[nodiscard]] double mean() const { return sum / static_cast<double>(count); }
    };
    std::vector<Pool> pools;  // of wanted - i * apart, which must not fall
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        pools.push_back({wanted[i] - static_cast<double>(i) * apart, 1});
        while (pools.size() > 1 && pools[pools.size() - 2].mean() > pools.back().mean()) {
            const Pool last = pools.back();
            pools.pop_back();
            pools.back().sum += last.sum;
            pools.back().count += last.count;
        }
    }
    const double last = most - apart * (static_cast<double>(wanted.size()) - 1);
    std::vector<double> places;
    for (const Pool& pool : pools) {
        const double mean = std::max(least, std::min(pool.mean(), last));
        for (std::size_t i = 0; i < pool.count; ++i)
            places.push_back(mean + apart * static_cast<double>(places.size()));
    }
    return places;
}

double ordinateDepth_mm(const std::vector<Ordinate>& row) {
    double widest = 0;
    for (const Ordinate& ordinate : row) widest = std::max(widest, textWidth_mm(written(ordinate) + " (00)"));
    return kStub_mm + kJog_mm + kBefore_mm + widest + kFiguresApart_mm;
}

std::size_t drawOrdinates(Drawing& drawing, std::vector<Ordinate> row, RowSide side, const Box& around,
                          double before_mm, double after_mm) {
    mergeAlike(row);
    const RowFrame frame{side, around};
    const double apart = labelHeight_mm() + kFiguresApart_mm;
    const double half = 0.5 * labelHeight_mm();
    const double length = isUpright(side) ? drawing.size().y() : drawing.size().x();
    const double least = std::max(half, frame.along(around.least) - before_mm);
    const double most = std::min(length - half, frame.along(around.most) + after_mm);
    const std::size_t dropped =
        dropLightest(row, static_cast<std::size_t>(std::max(1.0, std::floor((most - least) / apart) + 1)));
    std::stable_sort(row.begin(), row.end(),
                     [&](const Ordinate& a, const Ordinate& b) { return frame.along(a.at) < frame.along(b.at); });
    std::vector<double> wanted;
    for (const Ordinate& ordinate : row) wanted.push_back(frame.along(ordinate.at));
    const std::vector<double> places = spreadOut(wanted, apart, least, most);
    for (std::size_t i = 0; i < row.size(); ++i) {
        const std::string attributes =
            fmt::format("data-ordinate=\"{}\" data-mm=\"{:.3f}\"", isUpright(side) ? "y" : "x", row[i].value_mm);
        drawing.line(frame.at(wanted[i], 0.4), frame.at(wanted[i], kStub_mm), Pen::kThin, attributes);
        drawing.polyline({frame.at(wanted[i], kStub_mm), frame.at(places[i], kStub_mm + kJog_mm)}, Pen::kThin);
        write(drawing, frame, places[i], written(row[i]), attributes);
    }
    return dropped;
}

}  // namespace tinwright::report
