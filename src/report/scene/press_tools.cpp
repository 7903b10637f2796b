// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/press_tools.h"

#include <algorithm>

namespace tinwright::report {
namespace {

constexpr double kNoEnd_mm = 1e4;      // stands for a machine's length where the part's place on it is not known
constexpr double kFrameThick_mm = 40;  // of what is shown of a side frame
constexpr double kFrameDeep_mm = 400;
constexpr double kFrameHigh_mm = 600;

Polygon moved(Polygon section, const Vec2& by) {
    for (Vec2& point : section) point += by;
    return section;
}

class Gathering {
public:
    Gathering(const FoldView& view, double down_mm)
        : view_(view),
          brake_(view.scene.brake()),
          tip_mm_(tipHeight_mm(view.scene, down_mm)),
          left_mm_(view.place_known ? -view.part_x_mm : -kNoEnd_mm),
          right_mm_(view.place_known ? brake_.length_mm - view.part_x_mm : kNoEnd_mm) {}

    std::vector<PressTool> run() {
        bed();
        frames();
        ram();
        for (const ToolRow row : {ToolRow::kDie, ToolRow::kUpper}) {
            for (const PlacedBar& piece : view_.bars) {
                if (brake_.bars[piece.bar.index()].row == row) add(piece);
            }
        }
        return std::move(tools_);
    }

private:
    void bed() {
        const Bar* die = firstOf(brake_, view_.bars, ToolRow::kDie);
        if (brake_.bed.empty()) return;
        const Vec2 by(0, die == nullptr ? 0 : -die->height_mm);
        tools_.push_back({PressTool::Kind::kBed, "bed", moved(brake_.bed, by), left_mm_, right_mm_,
                          extruded(view_.tools.bed_pieces, by, left_mm_, right_mm_)});
    }

    void ram() {
        const Bar* punch = firstOf(brake_, view_.bars, ToolRow::kUpper);
        if (brake_.press->ram.empty()) return;
        const Vec2 by(0, tip_mm_ + (punch == nullptr ? 0 : punch->height_mm));
        tools_.push_back({PressTool::Kind::kRam, "ram", moved(brake_.press->ram, by), left_mm_, right_mm_,
                          extruded(view_.tools.ram_pieces, by, left_mm_, right_mm_)});
    }

    void frames() {
        const Press& press = *brake_.press;
        if (press.throat_mm <= 0 || !view_.place_known) return;
        const double back = press.throat_mm + kFrameDeep_mm;
        const Polygon section{Vec2(press.throat_mm, -kFrameHigh_mm), Vec2(back, -kFrameHigh_mm),
                              Vec2(back, kFrameHigh_mm), Vec2(press.throat_mm, kFrameHigh_mm)};
        const double left = press.frames_left_mm - view_.part_x_mm;
        const double right = press.frames_right_mm - view_.part_x_mm;
        for (const auto& [from, to] :
             {std::pair(left - kFrameThick_mm, left), std::pair(right, right + kFrameThick_mm)}) {
            tools_.push_back({PressTool::Kind::kFrame, "side frame", section, from, to, {extruded(section, from, to)}});
        }
    }

    void add(const PlacedBar& piece) {
        const Bar& bar = brake_.bars[piece.bar.index()];
        const bool is_die = bar.row == ToolRow::kDie;
        const Vec2 by(0, is_die ? 0 : tip_mm_);
        tools_.push_back({is_die ? PressTool::Kind::kDie : PressTool::Kind::kPunch,
                          (is_die ? "die " : "punch ") + bar.id, moved(bar.profile, by), piece.from_mm, piece.to_mm,
                          view_.tools.piece(piece.bar, by, piece.from_mm, piece.to_mm)});
    }

    const FoldView& view_;
    const Brake& brake_;
    double tip_mm_;
    double left_mm_;
    double right_mm_;
    std::vector<PressTool> tools_;
};

/// The section that comes first in the shop, as wide as there is.
std::optional<BarId> firstWidest(const std::vector<Bar>& kinds, ToolRow row) {
    std::optional<BarId> widest;
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        if (kinds[i].row != row || kinds[i].count <= 0) continue;
        const bool wider = widest && sameSection(kinds[i], kinds[widest->index()]) &&
                           kinds[i].width_mm > kinds[widest->index()].width_mm;
        if (!widest || wider) widest = idAt<BarId>(i);
    }
    return widest;
}

}  // namespace

double tipHeight_mm(const FoldScene& scene, double down_mm) { return scene.thickness_mm() - down_mm; }

const Bar* firstOf(const Brake& brake, const std::vector<PlacedBar>& pieces, ToolRow row) {
    const auto piece = std::find_if(pieces.begin(), pieces.end(),
                                    [&](const PlacedBar& placed) { return brake.bars[placed.bar.index()].row == row; });
    return piece == pieces.end() ? nullptr : &brake.bars[piece->bar.index()];
}

std::vector<PressTool> pressTools(const FoldView& view, double down_mm) { return Gathering(view, down_mm).run(); }

std::vector<PlacedBar> likelyPieces(const FoldScene& scene, std::optional<BarId> met) {
    const std::vector<Bar>& kinds = scene.brake().bars;
    std::vector<PlacedBar> pieces;
    for (const ToolRow row : {ToolRow::kDie, ToolRow::kUpper}) {
        const std::optional<BarId> kind = met && kinds[met->index()].row == row ? met : firstWidest(kinds, row);
        if (!kind) continue;
        const double middle = 0.5 * scene.length_mm();
        const double half = 0.5 * std::min(kinds[kind->index()].width_mm, std::max(1.0, scene.length_mm()));
        pieces.push_back({*kind, middle - half, middle + half});
    }
    return pieces;
}

}  // namespace tinwright::report
