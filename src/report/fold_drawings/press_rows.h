// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include <tinwright/report/data/bar_datum.h>

#include "paper/drawing.h"
#include "paper/paper_view.h"
#include "scene/fold_view.h"

namespace tinwright::report {

/// The two rows of a press brake as seen from the front, punches over dies with the sheet between them: widths and
/// places are to scale, heights are not. Figures are those of both ends of each piece, from the datum edge (else from
/// the bend's left end); of punches over their row, unless dies have the same ends.
class PressRows {
public:
    PressRows(const FoldView& view, const std::optional<BarDatum>& datum);

    /// Paper that they need, figures included.
    [[nodiscard]] double height_mm() const;
    /// Draws them between these heights of the paper, under what is seen from above.
    void draw(Drawing& drawing, const PaperView& paper, const Box& seen, double top_mm) const;

private:
    [[nodiscard]] std::vector<double> ends(ToolRow row) const;
    [[nodiscard]] double figuresOver_mm() const;
    void row(Drawing& drawing, const PaperView& paper, ToolRow row, double top_mm) const;
    static void name(Drawing& drawing, const std::string& id, const std::vector<Vec2>& ring);
    void figures(Drawing& drawing, const PaperView& paper, const std::vector<double>& ends, bool over,
                 const Box& around) const;

    const FoldView& view_;
    std::optional<BarDatum> datum_;
    double zero_mm_;
    bool same_ends_;
};

}  // namespace tinwright::report
