// SPDX-License-Identifier: GPL-3.0-or-later
#include "gltf/glb_writer.h"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <numbers>

namespace tinwright::report {
namespace {

using nlohmann::json;

constexpr int kFloat = 5126;         // component type of the standard
constexpr int kArrayBuffer = 34962;  // target of vertex data
constexpr std::uint32_t kMagic = 0x46546C67;
constexpr std::uint32_t kJsonChunk = 0x4E4F534A;
constexpr std::uint32_t kBinaryChunk = 0x004E4942;

void appendWord(std::string& bytes, std::uint32_t word) {
    for (int shift = 0; shift < 32; shift += 8) bytes.push_back(static_cast<char>((word >> shift) & 0xFFU));
}

void pad(std::string& bytes, char with) {
    while (bytes.size() % 4 != 0) bytes.push_back(with);
}

void addPoint(std::vector<float>& values, const Vec3& p) {
    for (int i = 0; i < 3; ++i) values.push_back(static_cast<float>(p[i]));
}

void addFan(std::vector<float>& values, const std::vector<Vec3>& ring, bool reversed) {
    for (std::size_t i = 2; i < ring.size(); ++i) {
        addPoint(values, ring[0]);
        addPoint(values, ring[reversed ? i : i - 1]);
        addPoint(values, ring[reversed ? i - 1 : i]);
    }
}

/// Triangles of all faces of convex prisms.
std::vector<float> trianglesOf(const std::vector<Slab>& slabs) {
    std::vector<float> values;
    for (const Slab& slab : slabs) {
        addFan(values, slab.lower, true);
        addFan(values, slab.upper, false);
        const std::size_t n = slab.lower.size();
        for (std::size_t i = 0; i < n; ++i) {
            const std::size_t j = (i + 1) % n;
            addFan(values, {slab.lower[i], slab.lower[j], slab.upper[j], slab.upper[i]}, false);
        }
    }
    return values;
}

json numbers(const Vec3& v) { return json::array({v.x(), v.y(), v.z()}); }
json numbers(const Eigen::Quaterniond& q) { return json::array({q.x(), q.y(), q.z(), q.w()}); }

Eigen::Quaterniond turnOf(const Rigid& pose) { return Eigen::Quaterniond(pose.linear()).normalized(); }

}  // namespace

GlbWriter::GlbWriter(const std::string& name) {
    document_["asset"] = {{"version", "2.0"}, {"generator", "tinwright"}};
    document_["scene"] = 0;
    document_["scenes"] = json::array({{{"name", name}, {"nodes", {0}}}});
    // mm with z up to metres with y up.
    const Eigen::Quaterniond upright(Eigen::AngleAxisd(-0.5 * std::numbers::pi, Vec3::UnitX()));
    document_["nodes"] = json::array({{{"name", "bench"},
                                       {"rotation", numbers(upright)},
                                       {"scale", {0.001, 0.001, 0.001}},
                                       {"children", json::array()}}});
}

std::size_t GlbWriter::addMaterial(const std::string& name, const std::array<double, 3>& colour) {
    const json surface{
        {"baseColorFactor", {colour[0], colour[1], colour[2], 1.0}}, {"metallicFactor", 0.1}, {"roughnessFactor", 0.8}};
    document_["materials"].push_back({{"name", name}, {"pbrMetallicRoughness", surface}, {"doubleSided", true}});
    return document_["materials"].size() - 1;
}

std::size_t GlbWriter::addAccessor(const std::vector<float>& values, std::size_t width, bool vertices,
                                   bool with_bounds) {
    json view{{"buffer", 0}, {"byteOffset", bytes_.size()}, {"byteLength", values.size() * sizeof(float)}};
    if (vertices) view["target"] = kArrayBuffer;
    for (const float value : values) appendWord(bytes_, std::bit_cast<std::uint32_t>(value));
    document_["bufferViews"].push_back(view);
    const char* const types[] = {"", "SCALAR", "", "VEC3", "VEC4"};
    json accessor{{"bufferView", document_["bufferViews"].size() - 1},
                  {"componentType", kFloat},
                  {"count", values.size() / width},
                  {"type", types[width]}};
    for (std::size_t k = 0; with_bounds && k < width; ++k) {
        float least = values[k];
        float most = values[k];
        for (std::size_t i = k; i < values.size(); i += width) {
            least = std::min(least, values[i]);
            most = std::max(most, values[i]);
        }
        accessor["min"].push_back(least);
        accessor["max"].push_back(most);
    }
    document_["accessors"].push_back(accessor);
    return document_["accessors"].size() - 1;
}

std::size_t GlbWriter::addNode(const std::string& name, const std::vector<Slab>& slabs, std::size_t material,
                               const Rigid& pose, double scale) {
    json node{{"name", name},
              {"translation", numbers(Vec3(pose.translation()))},
              {"rotation", numbers(turnOf(pose))},
              {"scale", {scale, scale, scale}}};
    const std::vector<float> triangles = trianglesOf(slabs);
    if (!triangles.empty()) {
        const json primitive{{"attributes", {{"POSITION", addAccessor(triangles, 3, true, true)}}},
                             {"material", material}};
        document_["meshes"].push_back({{"name", name}, {"primitives", json::array({primitive})}});
        node["mesh"] = document_["meshes"].size() - 1;
    }
    document_["nodes"].push_back(node);
    const std::size_t index = document_["nodes"].size() - 1;
    document_["nodes"][0]["children"].push_back(index);
    return index;
}

void GlbWriter::addAnimation(const std::string& name, const std::vector<GlbTrack>& tracks) {
    json animation{{"name", name}, {"channels", json::array()}, {"samplers", json::array()}};
    const auto channel = [&](const GlbTrack& track, std::size_t times, const char* path,
                             const std::vector<float>& values, std::size_t width, const char* between) {
        animation["samplers"].push_back(
            {{"input", times}, {"output", addAccessor(values, width, false, false)}, {"interpolation", between}});
        animation["channels"].push_back(
            {{"sampler", animation["samplers"].size() - 1}, {"target", {{"node", track.node}, {"path", path}}}});
    };
    for (const GlbTrack& track : tracks) {
        const std::size_t times = addAccessor(track.times_s, 1, false, true);
        std::vector<float> places;
        std::vector<float> turns;
        Eigen::Quaterniond before = Eigen::Quaterniond::Identity();
        for (const Rigid& pose : track.poses) {
            addPoint(places, pose.translation());
            Eigen::Quaterniond turn = turnOf(pose);
            if (turn.dot(before) < 0) turn.coeffs() = -turn.coeffs();  // the short way from key to key
            before = turn;
            for (int i = 0; i < 4; ++i) turns.push_back(static_cast<float>(turn.coeffs()[i]));
        }
        if (!places.empty()) {
            channel(track, times, "translation", places, 3, "LINEAR");
            channel(track, times, "rotation", turns, 4, "LINEAR");
        }
        std::vector<float> scales;
        for (const double scale : track.scales) addPoint(scales, Vec3::Constant(scale));
        if (!scales.empty()) channel(track, times, "scale", scales, 3, "STEP");
    }
    document_["animations"].push_back(animation);
}

std::string GlbWriter::file() const {
    json document = document_;
    document["buffers"] = json::array({{{"byteLength", bytes_.size()}}});
    std::string text = document.dump(-1, ' ', false, json::error_handler_t::replace);
    pad(text, ' ');
    std::string file;
    appendWord(file, kMagic);
    appendWord(file, 2);
    appendWord(file, static_cast<std::uint32_t>(12 + 8 + text.size() + 8 + bytes_.size()));
    appendWord(file, static_cast<std::uint32_t>(text.size()));
    appendWord(file, kJsonChunk);
    file += text;
    appendWord(file, static_cast<std::uint32_t>(bytes_.size()));
    appendWord(file, kBinaryChunk);
    return file + bytes_;
}

}  // namespace tinwright::report
