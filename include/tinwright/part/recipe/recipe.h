// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tinwright/base/issue.h>
#include <tinwright/part/allowance/allowance.h>

/// A part as a person says it: dimensions of the folded part. Values only; develop() makes the blank from it.
/// `place` in every struct is where it stands in the recipe file (JSON pointer), empty when made in code.
namespace tinwright {

/// How a length is measured at an end that carries a bend; at an end without one it always runs to the edge.
enum class Measured {
    kUnsaid,   ///< as the panel says, else as the recipe says
    kInside,   ///< to the inside face of the flange there: setback_mm(Face::kInside, ...) past the start of the bend
    kOutside,  ///< to its outside face
    kFlat,     ///< to the start of the bend: a length of flat sheet
};

/// A length that may have a name, be locked against tweaks, or be told by another one's name.
struct Dimension {
    double value_mm = 0;  ///< for a reference: filled in by resolveDimensions
    bool given = false;   ///< false: the recipe does not say it
    std::string name;     ///< may be empty
    bool locked = false;  ///< a tweak must leave it alone
    Measured measured = Measured::kUnsaid;
    std::string is;      ///< name of the dimension it equals; empty: it has its own value
    double plus_mm = 0;  ///< added to that one
    std::string place;

    static Dimension of(double value_mm) {
        Dimension dimension;
        dimension.value_mm = value_mm;
        dimension.given = true;
        return dimension;
    }
};

struct Sheet {
    std::string material;  ///< id in the materials file
    double thickness_mm = 0;
    std::string place;
    std::optional<double> grain_deg;  ///< rolling direction on the blank, counter-clockwise from its x axis; none: not
                                      ///< said
    Film film = Film::kUnsaid;
};

/// A corner of an outline; the edge that starts there may have a name (default "e<index>").
struct OutlinePoint {
    Dimension x;
    Dimension y;
    std::string edge;
    std::string place;
};

/// The panel that is the root of the tree. Either a rectangle with edges "front" (low y), "right", "back", "left", or a
/// polygon, counter-clockwise, whose edges are each moved to the start of the bend they carry.
struct BasePanel {
    std::string name = "base";
    Measured measured = Measured::kUnsaid;
    bool is_rectangle = true;
    Dimension width;  ///< along x
    Dimension depth;  ///< along y
    std::vector<OutlinePoint> outline;
    std::string place;
};

/// A panel folded from an edge of another one; flange, lip and tab alike. Its bend has its name. Seen on the drawn face
/// with the parent below: edges "left", "far", "right".
struct Flange {
    std::string name;
    std::string on;    ///< "panel.edge"
    Dimension length;  ///< from the bend's mould line to the far edge (or the mould line of a bend there)
    Measured measured = Measured::kUnsaid;
    double angle_deg = 90;             ///< turned from flat, over 0 and under 180
    bool up = true;                    ///< towards the drawn face of the blank
    double inside_radius_mm = -1;      ///< negative: the recipe's
    std::optional<double> hem_gap_mm;  ///< the flange is the return of a hem, closed to this gap: then angle and inside
                                       ///< radius mean nothing
    /// Where along the edge. Without any: the whole edge (or up to its corner). from_left and from_right are taken off
    /// the ends; a width with one of them starts there; a width alone is centred. Offsets count from the end of the
    /// parent's flat edge, or, when they say inside or outside, from that face of the flange at that end.
    Dimension from_left;
    Dimension from_right;
    Dimension width;
    double left_mitre_deg = 0;  ///< how far that side leans in from square (negative: out), |a| <= 75
    double right_mitre_deg = 0;
    std::string place;
};

enum class CornerType {
    kButt,     ///< both end at the other's inside face, edge to edge
    kOverlap,  ///< `over` runs on to the other's outside face, the other ends at its inside face
    kOpen,     ///< as butt, drawn back so that `gap_mm` stays between the two
};
enum class ReliefShape { kNone, kSquare, kRound };

/// Where two flanges on edges that follow one another meet. Without one each ends at the corner of their parent.
struct Corner {
    std::string flange[2];
    CornerType type = CornerType::kOpen;
    std::string over;  ///< kOverlap: the one that laps the other
    Dimension gap;     ///< clear distance; kOpen: over 0
    ReliefShape relief = ReliefShape::kNone;
    Dimension relief_size;  ///< side or diameter, centred where the two bends start
    std::string place;
};

/// What a cut-out's place is measured from.
enum class Datum {
    kInside,   ///< the inside face of the flange at that edge (or of the parent, at edge "near")
    kOutside,  ///< its outside face
    kEdge,     ///< the free edge of the folded part
    kBlank,    ///< the farthest edge of the flat blank out over that edge
};
enum class To { kCentre, kNearSide, kFarSide };  ///< which of the cut-out's sides, seen from the datum

struct CutOutPlace {
    std::string edge;  ///< an edge of the panel, or "near": the bend of a flange
    Datum datum = Datum::kEdge;
    Dimension distance;
    To to = To::kCentre;
    std::string place;
};

enum class CutOutShape { kRectangle, kCircle, kSlot, kPolygon };

/// A hole or window. Its size runs along the panel's own axes: x and y on the base, along and square to its bend on a
/// flange.
struct CutOut {
    std::string name;
    std::string on;  ///< panel
    CutOutShape shape = CutOutShape::kCircle;
    Dimension width;                   ///< rectangle; slot: over its round ends
    Dimension height;                  ///< rectangle; slot: its width
    Dimension diameter;                ///< circle
    std::vector<OutlinePoint> points;  ///< polygon, about its own centre (0, 0)
    double turn_deg = 0;               ///< counter-clockwise on the drawn face
    CutOutPlace at[2];                 ///< from two edges that are not parallel
    bool notch = false;                ///< it is meant to run out over a free edge
    std::string place;
};

struct Recipe {
    std::string file;  ///< for issues
    std::string name;
    Sheet sheet;
    AllowanceChoice allowance;
    double inside_radius_mm = 0;  ///< of every bend that does not say its own
    Measured measured = Measured::kUnsaid;
    BasePanel base;
    std::vector<Flange> flanges;
    std::vector<Corner> corners;
    std::vector<CutOut> cut_outs;
};

/// Bounds that every recipe keeps, from file or from code.
struct RecipeLimits {
    static constexpr double kLongest_mm = 20'000;
    static constexpr double kThinnest_mm = 0.05;
    static constexpr double kThickest_mm = 25;
    static constexpr double kLargestRadius_mm = 500;
    static constexpr double kLargestHemGap_mm = 20;
    static constexpr std::size_t kFlanges = 64;
    static constexpr std::size_t kOutlinePoints = 500;
    static constexpr std::size_t kCutOuts = 200;
    static constexpr std::size_t kCutOutPoints = 100;
    static constexpr std::size_t kCutOutPointsTogether = 4000;
};

/// Calls `visit` for every dimension that is given, in the order of the file's fields.
void forEachDimension(Recipe& recipe, const std::function<void(Dimension&)>& visit);
void forEachDimension(const Recipe& recipe, const std::function<void(const Dimension&)>& visit);

/// Fills in every reference. Issues: "recipe.dimension.duplicate", ".unknown", ".cycle", ".range".
[[nodiscard]] Issues resolveDimensions(Recipe& recipe);

/// The named dimension; nullptr when there is none. To tweak: set value_mm of one that has no `is`, then develop again.
[[nodiscard]] Dimension* findDimension(Recipe& recipe, std::string_view name);

/// Everything that can be said without geometry: names, references between panels, edges and corners, ranges.
[[nodiscard]] Issues checkRecipe(const Recipe& recipe);

}  // namespace tinwright
