// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "paper/drawing.h"
#include "paper/ink_map.h"

namespace tinwright::report {

/// Finds places for the labels of a drawing, one after the other in the order they were wished for. Every label tries
/// places round what it means, in rings that grow; a place is allowed when it lies in the frame and meets no other
/// label, and the best is the one that covers the fewest lines, then the nearest. Far from what it means it gets a
/// leader line. When no place is allowed the frame grows at its foot, so that this never fails.
class LabelPlacing {
public:
    explicit LabelPlacing(Drawing& drawing);
    void run();

private:
    struct Candidate {
        Box box;
        double cost = 0;
        bool found = false;
    };
    void place(const LabelWish& wish);
    [[nodiscard]] Candidate best(const LabelWish& wish, const Vec2& size) const;
    [[nodiscard]] Box atFoot(const Vec2& at, const Vec2& size);
    [[nodiscard]] bool allowed(const Box& box, const Vec2& at) const;
    void settle(const LabelWish& wish, const std::string& text, const Box& box);

    Drawing& drawing_;
    InkMap ink_;
    std::vector<Drawing::Line> leaders_;
};

}  // namespace tinwright::report
