// SPDX-License-Identifier: GPL-3.0-or-later
// Outlines of blanks as they go to the cutting table: nothing in them is too short to be cut.
#include <catch2/catch.hpp>

#include <cmath>
#include <random>

#include <fmt/format.h>

#include <tinwright/io/blank/blank_io.h>
#include <tinwright/io/recipe/recipe_io.h>

using namespace tinwright;

namespace {

constexpr double kShortest_mm = 0.2;

/// Straight or round pieces of the drawn outline that are shorter; circles have none.
std::vector<std::string> shortPieces(const Part& part) {
    std::vector<std::string> pieces;
    for (const DrawnLoop& loop : drawBlank(part, {}).cut) {
        for (std::size_t i = 0; i < loop.corners.size(); ++i) {
            const Vec2 from = loop.corners[i].at, to = loop.corners[(i + 1) % loop.corners.size()].at;
            if ((to - from).norm() >= kShortest_mm) continue;
            pieces.push_back(fmt::format("{:.4f} mm at {:.3f}, {:.3f}", (to - from).norm(), from.x(), from.y()));
        }
    }
    return pieces;
}

std::string allOf(const std::vector<std::string>& pieces) {
    std::string text;
    for (const std::string& piece : pieces) text += piece + "\n";
    return text;
}

/// Sizes as people give them: in steps of a tenth or half a millimetre, so that sums of them come near one another.
class RandomBox {
public:
    explicit RandomBox(unsigned seed) : random_(seed) {}

    std::string recipe() {
        const double t = pick({0.8, 1, 1.2, 1.5, 2, 3}), r = pick({0.5, 0.8, 1, 1.2, 1.5, 1.6, 1.92, 2, 2.5, 3});
        const bool lips = chance(0.4), reliefs = chance(0.5);
        std::string flanges, corners;
        for (int i = 0; i < 4; ++i) flanges += wall(i, lips);
        for (int i = 0; i < 4; ++i) corners += cornerOf(i, t, reliefs);
        return fmt::format(
            R"({{"format":"tinwright-part/1","units":"mm","name":"box","sheet":{{"material":"mild-steel","thickness":{}}},)"
            R"("allowance":{{"rule":"k-factor","k":{}}},"inside_radius":{},"measured":"{}",)"
            R"("base":{{"name":"base","width":{},"depth":{}}},"flanges":[{}],"corners":[{}]}})",
            t, pick({0.33, 0.4, 0.42, 0.44, 0.5}), r, chance(0.5) ? "inside" : "outside", 80 + half(80), 60 + half(60),
            flanges.substr(1), corners.substr(1));
    }

private:
    double pick(std::initializer_list<double> values) {
        return *(values.begin() + static_cast<std::ptrdiff_t>(random_() % values.size()));
    }
    bool chance(double share) { return std::uniform_real_distribution<>(0, 1)(random_) < share; }
    double half(double most) { return 0.5 * static_cast<double>(random_() % static_cast<unsigned>(2 * most)); }
    double tenth(double most) { return 0.1 * static_cast<double>(random_() % static_cast<unsigned>(10 * most)); }

    std::string wall(int i, bool lips) {
        static const char* const sides[] = {"front", "right", "back", "left"};
        std::string text = fmt::format(R"(,{{"name":"w{}","on":"base.{}","length":{},"angle":{}}})", i, sides[i],
                                       20 + half(15), pick({90, 90, 90, 60, 45}));
        if (lips)
            text += fmt::format(R"(,{{"name":"l{0}","on":"w{0}.far","length":{1},"from_left":{2},"from_right":{2}}})",
                                i, 8 + half(4), 14 + half(4));
        return text;
    }

    std::string cornerOf(int i, double t, bool reliefs) {
        const int kind = static_cast<int>(random_() % 3);
        std::string text = fmt::format(R"(,{{"between":["w{}","w{}"],)", i, (i + 1) % 4);
        if (kind == 0) text += fmt::format(R"("type":"open","gap":{})", 0.4 + tenth(3));
        if (kind == 1) text += R"("type":"butt")";
        if (kind == 2) text += fmt::format(R"("type":"overlap","over":"w{}","gap":{})", i, 0.2 + tenth(2));
        if (reliefs)
            text += fmt::format(R"(,"relief":{{"shape":"{}","size":{}}})", chance(0.5) ? "square" : "round",
                                2 * t + tenth(6));
        return text + "}";
    }

    std::mt19937 random_;
};

}  // namespace

// Worked by hand: radius 1 and an open gap of 1.2 mm let each wall reach 1 - 1.2 / sqrt 2 = 0.151 mm past the corner of
// the floor, radius 0.8 and sheet of 1.5 end it 0.049 mm before it. Each was a step of that length in the outline.
TEST_CASE("A corner leaves no step that is shorter than can be cut") {
    for (const auto& [radius_mm, gap_mm] : {std::pair{1.0, 1.2}, std::pair{0.8, 1.2}, std::pair{1.5, 2.2}}) {
        CAPTURE(radius_mm, gap_mm);
        std::string flanges, corners;
        const char* const sides[] = {"front", "right", "back", "left"};
        for (int i = 0; i < 4; ++i) {
            flanges += fmt::format(R"({}{{"name":"w{}","on":"base.{}","length":25}})", i > 0 ? "," : "", i, sides[i]);
            corners += fmt::format(R"({}{{"between":["w{}","w{}"],"type":"open","gap":{}}})", i > 0 ? "," : "", i,
                                   (i + 1) % 4, gap_mm);
        }
        const auto recipe = readRecipe(
            fmt::format(
                R"({{"format":"tinwright-part/1","units":"mm","name":"tray","sheet":{{"material":"mild-steel","thickness":1.5}},)"
                R"("allowance":{{"rule":"k-factor","k":0.44}},"inside_radius":{},"measured":"inside",)"
                R"("base":{{"name":"base","width":74,"depth":59}},"flanges":[{}],"corners":[{}]}})",
                radius_mm, flanges, corners),
            "tray");
        REQUIRE(recipe);
        const Result<Part> part = develop(recipe.value());
        REQUIRE(part);
        const auto pieces = shortPieces(part.value());
        INFO(allOf(pieces));
        CHECK(pieces.empty());
        // The wall is as wide as the gap leaves it: it ends gap / sqrt 2 short of the other's inside face, r past the
        // corner.
        const auto flange = [&](const char* name) {
            for (const Panel& panel : part.value().panels) {
                if (panel.name == name) return panel.region.outline;
            }
            return Polygon{};
        };
        double right_mm = -1e9;
        for (const Vec2& point : flange("w0")) right_mm = std::max(right_mm, point.x());
        CHECK(right_mm == Approx(74 - 2 * radius_mm + radius_mm - gap_mm / std::sqrt(2.0)));
    }
}

TEST_CASE("No edge of a random box's blank is shorter than can be cut") {
    const unsigned seed = 22021;
    INFO("seed " << seed);
    int developed = 0;
    for (unsigned i = 0; i < 600; ++i) {
        const std::string text = RandomBox(seed + i).recipe();
        const auto recipe = readRecipe(text, "box");
        INFO(text);
        REQUIRE(recipe);
        const Result<Part> part = develop(recipe.value());
        if (!part) continue;  // walls that run into one another, lips that are too long
        ++developed;
        const auto pieces = shortPieces(part.value());
        INFO(allOf(pieces));
        CHECK(pieces.empty());
    }
    CHECK(developed > 250);
}
