// SPDX-License-Identifier: GPL-3.0-or-later
// The glTF file is built as the standard has it (Khronos glTF 2.0, sections 3.6 and 4), and at the end of each clip the
// nodes stand as the part does. The Khronos validator itself is run by hand (npm gltf-validator).
#include <catch2/catch.hpp>

#include <cstdint>
#include <cstring>
#include <map>

#include <nlohmann/json.hpp>

#include <tinwright/part/model/pose.h>
#include <tinwright/report/gltf/glb.h>

#include "sheet_cases.h"

using namespace tinwright;
using nlohmann::json;

namespace {

struct Glb {
    json document;
    std::string bytes;

    [[nodiscard]] std::vector<float> values(std::size_t accessor) const {
        const json& a = document["accessors"][accessor];
        const json& view = document["bufferViews"][a["bufferView"].get<std::size_t>()];
        const std::map<std::string, std::size_t> widths{{"SCALAR", 1}, {"VEC3", 3}, {"VEC4", 4}};
        const std::size_t count = a["count"].get<std::size_t>() * widths.at(a["type"]);
        const auto offset = view["byteOffset"].get<std::size_t>();
        REQUIRE(view["byteLength"].get<std::size_t>() == 4 * count);
        REQUIRE(offset % 4 == 0);
        REQUIRE(offset + 4 * count <= bytes.size());
        std::vector<float> floats(count);
        std::memcpy(floats.data(), bytes.data() + offset, 4 * count);
        return floats;
    }
};

std::uint32_t word(const std::string& bytes, std::size_t at) {
    std::uint32_t value = 0;
    for (std::size_t i = 4; i-- > 0;) value = value << 8 | static_cast<unsigned char>(bytes.at(at + i));
    return value;
}

Glb readGlb(const std::string& file) {
    REQUIRE(file.substr(0, 4) == "glTF");
    CHECK(word(file, 4) == 2);
    CHECK(word(file, 8) == file.size());
    const std::size_t text = word(file, 12);
    CHECK(text % 4 == 0);
    CHECK(word(file, 16) == 0x4E4F534AU);
    Glb glb{json::parse(file.substr(20, text)), file.substr(28 + text)};
    CHECK(word(file, 24 + text) == 0x004E4942U);
    CHECK(word(file, 20 + text) == glb.bytes.size());
    CHECK(glb.document["buffers"][0]["byteLength"] == glb.bytes.size());
    return glb;
}

/// Where a node stands when an animation has ended.
Rigid endPose(const Glb& glb, const json& animation, std::size_t node) {
    Rigid pose = Rigid::Identity();
    int found = 0;
    for (const json& channel : animation["channels"]) {
        if (channel["target"]["node"] != node) continue;
        const std::vector<float> v = glb.values(animation["samplers"][channel["sampler"].get<std::size_t>()]["output"]);
        const std::size_t n = v.size();
        if (channel["target"]["path"] == "translation") pose.translation() = Vec3(v[n - 3], v[n - 2], v[n - 1]);
        if (channel["target"]["path"] == "rotation")
            pose.linear() = Eigen::Quaterniond(v[n - 1], v[n - 4], v[n - 3], v[n - 2]).normalized().toRotationMatrix();
        ++found;
    }
    CHECK(found == 2);
    return pose;
}

std::size_t nodeNamed(const Glb& glb, const std::string& name) {
    for (std::size_t i = 0; i < glb.document["nodes"].size(); ++i) {
        if (glb.document["nodes"][i]["name"] == name) return i;
    }
    FAIL("no node " << name);
    return 0;
}

/// Panels stand to one another as the part's poses have it, whatever the frame.
void checkEndPoses(const Glb& glb, const json& animation, const Part& part, BendMask formed, double nose_radius_mm) {
    const std::vector<Rigid> expected = baseFromPanels(part, formed, nose_radius_mm);
    const Rigid base = endPose(glb, animation, nodeNamed(glb, part.panels[0].name));
    for (std::size_t i = 0; i < part.panels.size(); ++i) {
        const Rigid got = base.inverse() * endPose(glb, animation, nodeNamed(glb, part.panels[i].name));
        INFO(part.panels[i].name);
        for (const Vec2& p : part.panels[i].region.outline) {
            const Vec3 point(p.x(), p.y(), 0);
            CHECK((got * point - expected[i] * point).norm() < 0.005);  // single precision over a metre
        }
    }
}

/// Places of a node over an animation, in the frame of its parent.
std::vector<Rigid> posesOver(const Glb& glb, const json& animation, std::size_t node) {
    std::vector<Rigid> poses;
    for (const json& channel : animation["channels"]) {
        if (channel["target"]["node"] != node || channel["target"]["path"] == "scale") continue;
        const std::vector<float> v = glb.values(animation["samplers"][channel["sampler"].get<std::size_t>()]["output"]);
        const bool places = channel["target"]["path"] == "translation";
        const std::size_t width = places ? 3 : 4;
        poses.resize(v.size() / width, Rigid::Identity());
        for (std::size_t i = 0; i < poses.size(); ++i) {
            const float* at = &v[width * i];
            if (places) {
                poses[i].translation() = Vec3(at[0], at[1], at[2]);
            } else {
                poses[i].linear() = Eigen::Quaterniond(at[3], at[0], at[1], at[2]).normalized().toRotationMatrix();
            }
        }
    }
    return poses;
}

/// How far a pose is turned about x, the front going up.
double frontUp_rad(const Rigid& pose) { return std::atan2(pose.linear()(1, 2), pose.linear()(1, 1)); }

/// Slices of a formed bend join its two panels: the last one's far rim lies at the child's, chords apart.
void checkSlices(const Glb& glb, const json& animation, const Part& part, const Bend& bend, double nose_radius_mm) {
    const Rigid child = endPose(glb, animation, nodeNamed(glb, part.panel(bend.child).name));
    const Rigid last = endPose(glb, animation, nodeNamed(glb, "bend " + bend.name + " 8"));
    const Vec2 rim =
        bend.origin + bend.spans.front().from_mm * bend.along + 0.5 * bend.allowance_mm * bend.toward_child;
    const Vec3 point(rim.x(), rim.y(), 0.5 * part.thickness_mm);
    const double chord = bend.angle.rad() / 8 * (nose_radius_mm + part.thickness_mm);
    CHECK((child * point - last * point).norm() < chord);
}

}  // namespace

TEST_CASE("glb: accessors lie in the buffer, and clips end in the part's poses") {
    const Shop shop = sample::smallShop();
    for (unsigned seed = 1; seed <= 25; ++seed) {
        CAPTURE(seed);
        const Part part = sample::randomPart(seed);
        const PlanReport report = sample::reportOf(part, shop);
        const Glb glb = readGlb(planGlb(report, report.brakes[0]));
        for (std::size_t i = 0; i < glb.document["accessors"].size(); ++i) CHECK_FALSE(glb.values(i).empty());
        REQUIRE(glb.document["animations"].size() == part.bends.size());
        BendMask formed = 0;
        for (std::size_t f = 0; f < part.bends.size(); ++f) {
            formed |= bit(idAt<BendId>(f));
            checkEndPoses(glb, glb.document["animations"][f], part, formed,
                          sample::inUse(shop.brakes[0]).inside_radius_mm());
            checkSlices(glb, glb.document["animations"][f], part, part.bends[f],
                        sample::inUse(shop.brakes[0]).inside_radius_mm());
        }
    }
}

TEST_CASE("glb: times of a clip rise and begin at 0, turns are unit quaternions") {
    const Shop shop = sample::smallShop();
    const Part part = sample::randomPart(3);
    const PlanReport report = sample::reportOf(part, shop);
    const std::string file = planGlb(report, report.brakes[0]);
    CHECK(file == planGlb(report, report.brakes[0]));
    const Glb glb = readGlb(file);
    for (const json& animation : glb.document["animations"]) {
        for (const json& channel : animation["channels"]) {
            const json& sampler = animation["samplers"][channel["sampler"].get<std::size_t>()];
            const std::vector<float> times = glb.values(sampler["input"]);
            CHECK(times.front() == 0);
            CHECK(std::is_sorted(times.begin(), times.end()));
            if (channel["target"]["path"] != "rotation") continue;
            const std::vector<float> turns = glb.values(sampler["output"]);
            for (std::size_t i = 0; i < turns.size(); i += 4)
                CHECK(Eigen::Vector4f(&turns[i]).norm() == Approx(1).margin(1e-5));
        }
    }
}

TEST_CASE(
    "glb of a press brake: dies stand still, ram and punches come down together, and each side rises by half of the "
    "set angle") {
    const Shop shop = sample::pressShop();
    for (unsigned seed = 1; seed <= 15; ++seed) {
        CAPTURE(seed);
        const Part part = sample::randomPart(seed);
        const PlanReport report = sample::reportOf(part, shop);
        const Plan& plan = report.brakes[0].result.plans[0];
        const Glb glb = readGlb(planGlb(report, report.brakes[0]));
        for (const json& node : glb.document["nodes"]) {
            const std::string name = node["name"].get<std::string>();
            CHECK(name.find("leaf") == std::string::npos);
        }
        BendMask formed = 0;
        for (std::size_t f = 0; f < part.bends.size(); ++f) {
            const json& animation = glb.document["animations"][f];
            const Bend& bend = part.bends[f];
            const std::string fold = "fold " + std::to_string(f + 1);
            CHECK(posesOver(glb, animation, nodeNamed(glb, fold + " die V12-100")).empty());
            CHECK(posesOver(glb, animation, nodeNamed(glb, "bed")).size() == 1);
            const std::vector<Rigid> ram = posesOver(glb, animation, nodeNamed(glb, "ram"));
            const std::vector<Rigid> punch = posesOver(glb, animation, nodeNamed(glb, fold + " punch P100L"));
            REQUIRE(ram.size() == punch.size());
            std::size_t lowest = 0;
            for (std::size_t i = 0; i < punch.size(); ++i) {
                CHECK(ram[i].translation().z() == Approx(punch[i].translation().z()).margin(1e-4));
                if (punch[i].translation().z() < punch[lowest].translation().z()) lowest = i;
            }
            CHECK(punch.front().translation().z() == Approx(60));
            const std::vector<Rigid> parent = posesOver(glb, animation, nodeNamed(glb, part.panel(bend.parent).name));
            const std::vector<Rigid> child = posesOver(glb, animation, nodeNamed(glb, part.panel(bend.child).name));
            REQUIRE(parent.size() == punch.size());
            const double half = 0.5 * plan.folds[f].set_angle.rad();
            const bool parent_back = plan.folds[f].stroke.hold == Side::kParent;
            for (const auto& [side, sense] :
                 {std::pair(&parent, parent_back ? -1.0 : 1.0), std::pair(&child, parent_back ? 1.0 : -1.0)}) {
                Rigid turned = Rigid::Identity();
                turned.linear() = (*side)[lowest].linear() * side->front().linear().transpose();
                CHECK(frontUp_rad(turned) == Approx(sense * half).margin(1e-4));
            }
            const Rigid expected = parentFromChild(bend, part.thickness_mm, plan.folds[f].set_angle,
                                                   sample::inUse(shop.brakes[0]).inside_radius_mm());
            const Rigid got = parent[lowest].inverse() * child[lowest];
            for (const Vec2& p : part.panel(bend.child).region.outline)
                CHECK((got * Vec3(p.x(), p.y(), 0) - expected * Vec3(p.x(), p.y(), 0)).norm() < 0.005);
            formed |= bit(idAt<BendId>(f));
            checkEndPoses(glb, animation, part, formed, sample::inUse(shop.brakes[0]).inside_radius_mm());
            checkSlices(glb, animation, part, bend, sample::inUse(shop.brakes[0]).inside_radius_mm());
        }
    }
}
