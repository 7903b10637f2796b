// SPDX-License-Identifier: GPL-3.0-or-later
#include "paper/framed_view.h"

#include <fmt/format.h>

namespace tinwright::report {

PaperView framedView(Drawing& drawing, const Box& window, const Box& frame) {
    const double scale = usualScale(window.size(), frame.size() - Vec2(4, 4));
    drawing.clipTo(frame);
    drawing.note(fmt::format("data-scale=\"{:.6g}\"", scale));
    return centredView(window, frame, scale);
}

}  // namespace tinwright::report
