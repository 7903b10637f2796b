// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <utility>
#include <vector>

#include <tinwright/geometry/planar.h>

namespace tinwright::report {

/// Line weights. Weight and dashes carry the meaning, so that a black and white print says all.
enum class Pen { kNone, kHeavy, kMedium, kOutline, kThin, kHidden, kChain, kGhost };
enum class Fill { kNone, kPaper, kSolid, kTint, kHatch, kCross };

/// An upright rectangle on paper; mm, y down.
struct Box {
    Vec2 least = Vec2::Zero();
    Vec2 most = Vec2::Zero();

    [[nodiscard]] bool overlaps(const Box& other) const;
    [[nodiscard]] bool holds(const Box& other) const;
    [[nodiscard]] Vec2 size() const { return most - least; }
};

/// Words that belong to a place; where they stand is settled when all lines are drawn.
struct LabelWish {
    std::string text;
    Vec2 at = Vec2::Zero();     ///< what is meant
    double least_gap_mm = 1.0;  ///< between the place and the words
    bool bold = false;
    bool ringed = false;          ///< in a circle or rounded box
    Vec2 towards = Vec2::Zero();  ///< preferred side; zero: any
};

/// Words that stand somewhere.
struct PlacedLabel {
    std::string text;
    Box box;
    bool bold = false;
    bool ringed = false;
    bool turned = false;     ///< read from the right: turned a quarter anticlockwise
    std::string attributes;  ///< XML attributes for who reads the drawing back, e.g. data-mm
};

/// A line drawing on paper, in mm with y down and the origin at the top left. What is drawn is cut at the frame, and
/// words are placed so that they overlap neither each other nor, where it can be helped, a line.
class Drawing {
public:
    Drawing(std::string title, double width_mm, double height_mm);

    /// What is drawn from now on is cut at this box instead of the frame.
    void clipTo(const Box& box) { clip_ = box; }
    void polygon(const std::vector<Vec2>& ring, Pen pen, Fill fill) { region({ring, {}}, pen, fill); }
    /// Outline and holes in one, filled between them.
    void region(const Region& region, Pen pen, Fill fill);
    void line(const Vec2& from, const Vec2& to, Pen pen, const std::string& attributes = {});
    /// Many lines as one element.
    void lines(const std::vector<std::pair<Vec2, Vec2>>& ends, Pen pen);
    void polyline(const std::vector<Vec2>& points, Pen pen);
    void circle(const Vec2& centre, double radius_mm, Pen pen, Fill fill = Fill::kNone);
    /// A filled arrow head with its tip here, pointing along `direction`.
    void arrowHead(const Vec2& tip, const Vec2& direction, double length_mm = 2.2);
    void arrow(const Vec2& from, const Vec2& to, Pen pen);

    /// Words at a settled place, their box's lower left corner given; shortened to stay inside the frame.
    void text(const std::string& text, const Vec2& lower_left, bool bold = false, const std::string& attributes = {});
    /// The same turned a quarter anticlockwise, the box's lower left corner given.
    void turnedText(const std::string& text, const Vec2& lower_left, const std::string& attributes = {});
    /// Words that find their place when the drawing is finished.
    void label(LabelWish wish) { wishes_.push_back(std::move(wish)); }
    void label(const std::string& words, const Vec2& at, const Vec2& towards, bool bold = false,
               double least_gap_mm = 1.0) {
        label({words, at, least_gap_mm, bold, false, towards});
    }
    /// Places all labels and cuts empty paper off at head and foot; nothing may be drawn after it. The frame grows
    /// downwards when there is no room left for a label.
    void finish();

    [[nodiscard]] const std::string& title() const { return title_; }
    [[nodiscard]] Vec2 size() const { return size_; }
    /// What is left after finish(): all that is drawn lies in it.
    [[nodiscard]] Box frame() const { return {Vec2(0, head_mm_), size_}; }
    [[nodiscard]] const std::vector<PlacedLabel>& labels() const { return labels_; }
    [[nodiscard]] bool empty() const { return body_.empty(); }
    /// Attributes of the whole drawing, e.g. its scale.
    void note(const std::string& attributes) { attributes_ += " " + attributes; }

    /// The drawing as an <svg> element. In a file of its own it also carries its style; in a page the page does.
    [[nodiscard]] std::string svg(bool own_file) const;

private:
    friend class LabelPlacing;
    struct Line {
        Vec2 from;
        Vec2 to;
    };
    void strokes(const std::vector<Vec2>& points, bool closed, Pen pen, const std::string& attributes);
    void keep(const Vec2& from, const Vec2& to);
    void hatch(const Region& region, double spacing_mm, bool crossed);
    void addLabel(PlacedLabel label);
    void cutEmptyPaper();

    std::string title_;
    Vec2 size_;
    double head_mm_ = 0;  ///< cut off
    Box clip_;
    std::string attributes_;
    std::string body_;
    std::vector<Line> lines_;  ///< what labels keep clear of
    std::vector<LabelWish> wishes_;
    std::vector<PlacedLabel> labels_;
};

/// Style of the classes that drawings use.
[[nodiscard]] const char* drawingStyle();

/// Room inside the ring of a ringed label, left and right.
inline constexpr double kRingRoom_mm = 0.8;

/// Height of a label's box.
[[nodiscard]] double labelHeight_mm();

}  // namespace tinwright::report
