// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/made_text.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/base/words.h>
#include <tinwright/part/model/bend_frame.h>

#include "words/words.h"

namespace tinwright::report {
namespace {

// Callipers read to the hundredth.
constexpr double kTold_mm = 0.005;
constexpr double kSameAngle_deg = 0.005;

std::string hundredths(double length_mm) { return trimmedNumber(length_mm, 2); }

/// "0.8 mm towards left"
std::string movedWords(const Part& part, BendId bend, double toward_child_mm) {
    const Side side = toward_child_mm > 0 ? Side::kChild : Side::kParent;
    return hundredths(std::abs(toward_child_mm)) + " mm towards " + part.panel(panelAt(part.bend(bend), side)).name;
}

/// "between the outsides of left and right", "from the outside of base to edge left.far"
std::string extentWords(const Part& part, const FinishedSize& size) {
    const std::string& beside = part.panel(panelAt(part.bend(size.bend), opposite(size.side))).name;
    return size.end.bend ? "between the outsides of " + beside + " and " + part.panel(size.end.beyond).name
                         : "from the outside of " + beside + " to edge " + size.end.edge;
}

/// "88° instead of 90°"
std::string turnedWords(const MadeReport& made, const MadeBend& bend) {
    return fmt::format("{}° instead of {}°", trimmedNumber(bend.angle->deg(), 2),
                       trimmedNumber(made.drawn.bend(bend.bend).angle.deg(), 2));
}

/// "35.2 mm measured to edge left.far instead of 36 mm": as the part is folded now, flat bends passed over.
std::string sizeMeasuredWords(const MadeReport& made, const MadeBend& bend, BendMask formed) {
    const Part& drawn = made.drawn;
    std::string text = hundredths(*bend.outside_mm) + " mm measured";
    const std::optional<LegEnd> end = legEnd(drawn, bend.bend, Side::kChild, formed);
    if (!end) return text;
    const double drawn_mm = legSize_mm(drawn, bend.bend, *end, Face::kOutside, made.inside_radius_mm);
    return text + " to " + (end->bend ? "the outside of " + drawn.panel(end->beyond).name : "edge " + end->edge) +
           " instead of " + hundredths(drawn_mm) + " mm";
}

std::string measuredWords(const MadeReport& made, const Part& now, const MadeBend& bend, BendMask formed) {
    const Bend& drawn = made.drawn.bend(bend.bend);
    std::string text = drawn.name + ": ";
    if (bend.outside_mm) text += sizeMeasuredWords(made, bend, formed);
    if (bend.angle) {
        text += (bend.outside_mm ? ", turned by " : "turned by ") + turnedWords(made, bend);
        const auto out_mm = leansOut_mm(made.drawn, now, bend.bend, formed, made.inside_radius_mm);
        if (out_mm && std::abs(*out_mm) >= kTold_mm)
            text += fmt::format(" (its end stands {} mm farther {})", hundredths(std::abs(*out_mm)),
                                *out_mm > 0 ? "out" : "in");
    }
    if (!bend.outside_mm) return text;
    const double moved_mm = lineMoved_mm(made, now, bend.bend);
    return text + (std::abs(moved_mm) < kTold_mm
                       ? "; its bend line lies where it is drawn"
                       : "; its bend line lies " + movedWords(now, bend.bend, moved_mm) + " from where it is drawn");
}

/// "base 80.8 instead of 80 mm"
std::string shortWords(const Part& part, const SizeChange& change) {
    return fmt::format("{} {} instead of {} mm", part.panel(change.now.panel).name, hundredths(change.now.outside_mm),
                       hundredths(change.drawn.outside_mm));
}

bool isAngleOff(const MadeReport& made, const MadeBend& bend) {
    return bend.angle && std::abs(bend.angle->deg() - made.drawn.bend(bend.bend).angle.deg()) >= kSameAngle_deg;
}

/// Told already, since it was so before the line was moved.
bool isKnown(const MadeReport& made, const SizeChange& change) {
    return std::any_of(made.changes.begin(), made.changes.end(), [&](const SizeChange& known) {
        return known.now.panel == change.now.panel && known.now.bend == change.now.bend &&
               std::abs(known.now.outside_mm - change.now.outside_mm) < kTold_mm;
    });
}

std::string lineWords(const Part& now, const MadeReport& made, const TriedLine& line) {
    std::vector<std::string> right, left;
    for (const std::size_t change : line.move.puts_right) {
        const FinishedSize& drawn = made.changes[change].drawn;
        right.push_back(now.panel(drawn.panel).name + " " + hundredths(drawn.outside_mm) + " mm");
    }
    for (const SizeChange& change : line.move.left) {
        if (std::abs(change.by_mm()) >= kTold_mm && !isKnown(made, change)) left.push_back(shortWords(now, change));
    }
    const std::string order =
        joined(line.order, ", ", [&](const std::vector<BendId>& stroke) { return strokeName(now, stroke); });
    return fmt::format("move the bend line of {} by {}: then {} as drawn{}; planned with it moved, on {}: {}",
                       now.bend(line.move.bend).name, movedWords(now, line.move.bend, line.move.toward_child_mm),
                       listed(right), left.empty() ? "" : ", but " + listed(left), line.brake, order);
}

}  // namespace

double lineMoved_mm(const MadeReport& made, const Part& now, BendId bend) {
    const Bend& drawn = made.drawn.bend(bend);
    return drawn.toward_child.dot(now.bend(bend).origin - drawn.origin);
}

std::string sizeChangeWords(const Part& part, const SizeChange& change) {
    std::string text = fmt::format("{} comes out {} mm instead of {} mm {}", part.panel(change.now.panel).name,
                                   hundredths(change.now.outside_mm), hundredths(change.drawn.outside_mm),
                                   extentWords(part, change.now));
    if (change.now.end.bend)
        text += fmt::format(" ({} instead of {} mm inside)", hundredths(change.now.inside_mm),
                            hundredths(change.drawn.inside_mm));
    return text;
}

std::vector<std::string> madeLines(const Part& now, const MadeReport& made, BendMask formed) {
    std::vector<std::string> lines{"this is the part as it is now, on the blank as it was cut"};
    if (made.inside_radius_mm >= 0)
        lines.front() += ", sizes with the inside radius of " + hundredths(made.inside_radius_mm) + " mm as folded";
    for (const MadeBend& bend : made.made) lines.push_back(measuredWords(made, now, bend, formed));
    for (const SizeChange& change : made.changes) lines.push_back(sizeChangeWords(now, change));
    if (made.changes.empty()) lines.emplace_back("no size of the finished part changes");
    return lines;
}

std::vector<std::string> madeCures(const Part& now, const MadeReport& made) {
    std::vector<std::string> lines;
    std::vector<bool> right(made.changes.size(), false);
    for (const TriedLine& line : made.lines) {
        if (!goes(line.verdict)) continue;
        lines.push_back(lineWords(now, made, line) + (line.verdict == Verdict::kWithTrouble ? ", with trouble" : ""));
        for (const std::size_t change : line.move.puts_right) right[change] = true;
    }
    std::vector<std::string> left;
    for (const MadeBend& bend : made.made) {
        if (isAngleOff(made, bend)) left.push_back(now.bend(bend.bend).name + " " + turnedWords(made, bend));
    }
    for (std::size_t i = 0; i < right.size(); ++i) {
        if (!right[i] && isWorthMoving(made.changes[i])) left.push_back(shortWords(now, made.changes[i]));
    }
    if (!left.empty()) lines.push_back("no line of a bend that is still flat puts right: " + listed(left));
    if (!lines.empty()) lines.emplace_back("or accept it as it comes out, or remake the part");
    return lines;
}

}  // namespace tinwright::report
