// SPDX-License-Identifier: GPL-3.0-or-later
// Parts started from random components, developed and folded: what mates is component and gaps, by planes of the folded
// part.
#include <catch2/catch.hpp>

#include <cmath>
#include <random>

#include <tinwright/io/recipe/recipe_io.h>
#include <tinwright/io/start/start_part.h>
#include <tinwright/part/model/pose.h>

using namespace tinwright;

namespace {

constexpr double kTolerance_mm = 1e-9;
constexpr StartShape kShapes[] = {StartShape::kHousing, StartShape::kTray,    StartShape::kChannel,
                                  StartShape::kHat,     StartShape::kBracket, StartShape::kWindowFace};
constexpr const char* kSides[] = {"bottom", "top", "front", "back", "left", "right"};
constexpr std::size_t kAxisOf[] = {2, 2, 1, 1, 0, 0};

std::string textOf(const Issues& issues) {
    std::string text;
    for (const Issue& issue : issues) text += toText(issue) + "\n";
    return text;
}

class Chance {
public:
    explicit Chance(unsigned seed) : random_(seed) {}
    double in(double least, double most) { return std::uniform_real_distribution<double>(least, most)(random_); }
    bool one(int of) { return std::uniform_int_distribution<int>(1, of)(random_) == 1; }
    int below(int count) { return std::uniform_int_distribution<int>(0, count - 1)(random_); }

private:
    std::mt19937 random_;
};

ComponentSide opposite(ComponentSide side) { return static_cast<ComponentSide>(static_cast<int>(side) ^ 1); }
bool isBoxShape(StartShape shape) {
    return shape == StartShape::kHousing || shape == StartShape::kTray || shape == StartShape::kWindowFace;
}

/// Sides that have a wall in the part of a choice.
std::vector<ComponentSide> walled(const StartChoice& choice) {
    using enum ComponentSide;
    if (choice.shape == StartShape::kBracket) return {kBack};
    if (!isBoxShape(choice.shape)) return {kLeft, kRight};
    std::vector<ComponentSide> sides;
    for (int side = 0; side < 6; ++side) {
        if (const auto s = static_cast<ComponentSide>(side); s != *choice.open && s != opposite(*choice.open))
            sides.push_back(s);
    }
    return sides;
}

ComponentSide baseSide(const StartChoice& choice) {
    if (choice.shape == StartShape::kHat) return ComponentSide::kTop;
    return isBoxShape(choice.shape) ? opposite(*choice.open) : ComponentSide::kBottom;
}

std::string panelAt(const StartChoice& choice, ComponentSide side) {
    if (choice.shape == StartShape::kBracket) return "upright";
    return (isBoxShape(choice.shape) ? "wall_" : "leg_") + std::string(toText(side));
}

StartChoice randomChoice(Chance& chance) {
    StartChoice choice;
    choice.shape = kShapes[chance.below(6)];
    choice.inches = chance.one(3);
    choice.component_mm = {chance.in(60, 300), chance.in(60, 300), chance.in(60, 300)};
    if (!isBoxShape(choice.shape)) choice.component_mm[2] = chance.in(3, 60);
    choice.gap_mm = {chance.in(0, 3), chance.in(0, 3), chance.in(0, 3)};
    choice.thickness_mm = chance.in(0.4, 3);
    choice.inside_radius_mm = chance.in(0.2, 2) * *choice.thickness_mm;
    choice.k = chance.in(0.3, 0.5);
    if (isBoxShape(choice.shape)) choice.open = static_cast<ComponentSide>(chance.below(6));
    // A box is not so deep that its leaning walls come to a point.
    if (isBoxShape(choice.shape))
        choice.component_mm[kAxisOf[static_cast<std::size_t>(*choice.open)]] = chance.in(3, 150);
    const std::size_t up = isBoxShape(choice.shape) ? kAxisOf[static_cast<std::size_t>(*choice.open)] : 2;
    if (choice.shape != StartShape::kBracket && chance.one(2))
        choice.inside_height_mm = choice.component_mm[up] + choice.gap_mm[up] + chance.in(20, 40);
    if (choice.shape == StartShape::kChannel && chance.one(2))
        choice.lip_mm = *choice.inside_radius_mm + *choice.thickness_mm + chance.in(0, 2);
    if (choice.shape == StartShape::kHat && chance.one(2)) choice.fixings = 1 + chance.below(4);
    if (choice.shape == StartShape::kHousing && chance.one(2)) choice.fix = {walled(choice)[1], walled(choice)[2]};
    if (chance.one(2) || choice.shape == StartShape::kWindowFace)
        choice.window =
            StartWindow{chance.in(5, 20), chance.in(5, 20), FacePoint{chance.in(12, 25), chance.in(12, 25)}};
    return choice;
}

/// A part and its panels folded.
struct Folded {
    Part part;
    std::vector<Rigid> poses;

    [[nodiscard]] std::size_t index(const std::string& panel) const {
        for (std::size_t i = 0; i < part.panels.size(); ++i) {
            if (part.panels[i].name == panel) return i;
        }
        FAIL("no panel " << panel);
        return 0;
    }
    [[nodiscard]] Vec3 normal(std::size_t panel) const { return poses[panel].linear().col(2); }
    /// Where the drawn face lies along its own normal, which points inwards.
    [[nodiscard]] double face(std::size_t panel) const {
        const Vec2 at = part.panels[panel].region.outline.front();
        return normal(panel).dot(poses[panel] * Vec3(at.x(), at.y(), part.thickness_mm));
    }
};

Folded foldedPart(const StartChoice& choice) {
    const Result<std::string> text = startPart(choice);
    INFO(textOf(text.issues()));
    REQUIRE(text.ok());
    const Result<Recipe> recipe = readRecipe(text.value(), "started");
    INFO(textOf(recipe.issues()));
    REQUIRE(recipe.ok());
    Result<Part> part = develop(recipe.value());
    INFO(textOf(part.issues()));
    REQUIRE(part.ok());
    std::vector<Rigid> poses = baseFromPanels(part.value(), allFormed(part.value()));
    return {std::move(part).value(), std::move(poses)};
}

void checkInside(const StartChoice& choice, const Folded& folded) {
    for (const ComponentSide side : walled(choice)) {
        const std::size_t axis = kAxisOf[static_cast<std::size_t>(side)];
        if (choice.shape == StartShape::kBracket || static_cast<int>(side) % 2 != 0) continue;
        const std::size_t a = folded.index(panelAt(choice, side)), b = folded.index(panelAt(choice, opposite(side)));
        CHECK((folded.normal(a) + folded.normal(b)).norm() < 1e-12);
        CHECK(std::abs(-folded.face(a) - folded.face(b) - choice.component_mm[axis] - 2 * choice.gap_mm[axis]) <
              kTolerance_mm);
    }
    if (choice.shape != StartShape::kBracket) return;
    double front = 1e300;
    for (const Vec2& p : folded.part.panels[0].region.outline) front = std::min(front, p.y());
    CHECK(std::abs(-folded.face(folded.index("upright")) - front - choice.component_mm[1] - choice.gap_mm[1]) <
          kTolerance_mm);
}

// From the drawn face of the base to the plane in which the part ends: tabs and feet with the sheet, lips without it.
void checkHeight(const StartChoice& choice, const Folded& folded) {
    const std::size_t axis = kAxisOf[static_cast<std::size_t>(baseSide(choice))];
    double top = -1e300;
    for (std::size_t i = 1; i < folded.part.panels.size(); ++i) {
        const std::string& name = folded.part.panels[i].name;
        const bool lip = name.starts_with("lip_");
        for (const Vec2& p : folded.part.panels[i].region.outline) {
            for (const double z : {0.0, folded.part.thickness_mm}) {
                if (!lip || z > 0) top = std::max(top, (folded.poses[i] * Vec3(p.x(), p.y(), z)).z());
            }
        }
    }
    const double inside = top - folded.part.thickness_mm;
    if (choice.shape == StartShape::kBracket) return;
    CHECK(inside >= choice.component_mm[axis] + choice.gap_mm[axis] - kTolerance_mm);
    if (choice.inside_height_mm) CHECK(std::abs(inside - *choice.inside_height_mm) < kTolerance_mm);
}

// Left, front and bottom in the folded part are a right-handed frame, as they are on the component: the part is not its
// mirror image.
void checkHanded(const StartChoice& choice, const Folded& folded) {
    if (!isBoxShape(choice.shape)) return;
    const auto inward = [&](ComponentSide side) -> Vec3 {
        if (side == baseSide(choice)) return folded.normal(0);
        if (opposite(side) == baseSide(choice)) return -folded.normal(0);
        return folded.normal(folded.index(panelAt(choice, side)));
    };
    CHECK(inward(ComponentSide::kLeft).cross(inward(ComponentSide::kFront)).dot(inward(ComponentSide::kBottom)) ==
          Approx(1));
}

// The window's left and lower sides from the walls there, by where left and lower are for a person who looks from
// outside.
void checkWindow(const StartChoice& choice, const Folded& folded) {
    using enum ComponentSide;
    if (!choice.window || !isBoxShape(choice.shape)) return;
    constexpr ComponentSide kLeftOf[] = {kLeft, kLeft, kLeft, kRight, kBack, kFront};
    constexpr ComponentSide kLowerOf[] = {kFront, kFront, kBottom, kBottom, kBottom, kBottom};
    const std::size_t base = static_cast<std::size_t>(baseSide(choice));
    const auto& holes = folded.part.panels[0].region.holes;
    REQUIRE(holes.size() == 1);
    const auto checkFrom = [&](ComponentSide side, double distance_mm) {
        const std::size_t wall = folded.index(panelAt(choice, side));
        double least = 1e300;
        for (const Vec2& p : holes[0])
            least = std::min(least, folded.normal(wall).dot(Vec3(p.x(), p.y(), 0)) - folded.face(wall));
        CHECK(std::abs(least - distance_mm - choice.gap_mm[kAxisOf[static_cast<std::size_t>(side)]]) <
              1e-5);  // the
                      // blank's
                      // outlines
                      // are on
                      // a grid
    };
    checkFrom(kLeftOf[base], choice.window->at->from_left_mm);
    checkFrom(kLowerOf[base], choice.window->at->from_lower_mm);
}

}  // namespace

TEST_CASE("parts started from random components develop and hold them: insides, heights, windows, the right hand") {
    const unsigned seed = 20261125;
    Chance chance(seed);
    int by_shape[6] = {};
    for (int i = 0; i < 600; ++i) {
        const StartChoice choice = randomChoice(chance);
        INFO("seed " << seed << " case " << i << ": " << toText(choice.shape) << ", open "
                     << (choice.open ? kSides[static_cast<std::size_t>(*choice.open)] : "-"));
        ++by_shape[static_cast<std::size_t>(choice.shape)];
        const Folded folded = foldedPart(choice);
        checkInside(choice, folded);
        checkHeight(choice, folded);
        checkHanded(choice, folded);
        checkWindow(choice, folded);
    }
    for (const int count : by_shape) CHECK(count > 50);
}

TEST_CASE("what mates is locked, what is left to the bench is named and not locked") {
    StartChoice choice;
    choice.shape = StartShape::kHousing;
    choice.component_mm = {60, 40, 25};
    choice.window = StartWindow{20, 10, {}};
    Recipe recipe = readRecipe(startPart(choice).value(), "housing").value();
    for (const char* name :
         {"inside_width", "inside_depth", "window_width", "window_height", "window_from_left", "window_from_lower"}) {
        INFO(name);
        REQUIRE(findDimension(recipe, name) != nullptr);
        CHECK(findDimension(recipe, name)->locked);
    }
    for (const char* name : {"wall_height", "tab_length", "tab_width", "corner_gap", "screw_hole"}) {
        INFO(name);
        REQUIRE(findDimension(recipe, name) != nullptr);
        CHECK_FALSE(findDimension(recipe, name)->locked);
    }
    CHECK(findDimension(recipe, "inside_width")->value_mm == 61);
    CHECK(findDimension(recipe, "wall_height")->value_mm == 27);
    // The tab of the example pod, by the rules for holes: 1.5 t + r to the bend.
    CHECK(findDimension(recipe, "tab_length")->value_mm == 14);
}
