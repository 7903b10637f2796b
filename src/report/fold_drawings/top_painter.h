// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/report/data/bar_datum.h>

#include "paper/drawing.h"
#include "paper/paper_view.h"
#include "scene/fold_view.h"

namespace tinwright::report {

/// How a kind of brake is drawn from above.
struct TopStyle {
    double part_mm;         ///< of paper for the head and the part
    double over_part_mm;    ///< of it between the two
    const char* bend_line;  ///< what the line of the bend is called
    const char* held;       ///< goes before the name of the side that is held
    const char* moving;
    bool has_room;  ///< under the part for the letter of the cut to look for a place; else it has its own
};

/// Draws a fold as it is seen from above, the operator at the foot. What all kinds of brake share; the tools are drawn
/// by the kind.
class TopPainter {
public:
    /// `tools`: what each piece covers, in (x, y) of the fold. `foot_mm`: paper under the part.
    TopPainter(const FoldView& view, const std::string& title, const TopStyle& style, const std::vector<Box>& tools,
               double foot_mm, Angle at = {});

    /// The line of the bend, and ends of the machine that are near.
    void machine();
    void part();
    /// Where tools would have to stand.
    void room();
    /// Where it is tightest.
    void mark();
    /// Of both ends of each piece, from the datum edge, else from the bend's left end.
    void figures(const std::optional<BarDatum>& datum);
    /// Where figures begin.
    void nameZero(const std::optional<BarDatum>& datum);
    /// Where the section is taken, with arrows the way that it is looked at.
    void cut();
    /// A rectangle of the model: what a tool covers.
    void covers(const Box& box, Pen pen, Fill fill);
    Drawing done();

    Drawing& drawing() { return drawing_; }
    [[nodiscard]] const PaperView& paper() const { return paper_; }
    /// What is drawn, on paper.
    [[nodiscard]] const Box& drawn() const { return part_; }

private:
    void gatherPart();
    [[nodiscard]] Box window(const std::vector<Box>& tools);
    [[nodiscard]] Vec2 middleOf(PanelId panel) const;

    const FoldView& view_;
    const TopStyle& style_;
    std::vector<PartBody> bodies_;
    std::vector<Vec2> points_;
    Drawing drawing_;
    Box machine_;  ///< its ends, in x of the fold
    Box frame_;
    Box part_;
    PaperView paper_;
};

inline constexpr double kTopWidth_mm = 91;
inline constexpr double kTopHead_mm = 5;
inline constexpr double kTopFoot_mm = 22;  ///< of paper: figures of the tools, and the operator

/// What stands in the way of a fold, without the tools.
[[nodiscard]] Drawing paintContactFromAbove(const FoldView& view, const std::string& title, const TopStyle& style,
                                            const std::vector<Box>& tools);

}  // namespace tinwright::report
