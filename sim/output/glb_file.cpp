// Layout of the binary buffer, per body: places, normals (3 floats each), colours (4 bytes, linear, normalised),
// indices (unsigned 32 bit). Then the container: header, JSON padded with blanks, buffer padded with zeros.
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>

#include <nlohmann/json.hpp>

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/output/little_endian.h"
#include "sim/output/mesh_shading.h"
#include "sim/output/solid_files.h"

namespace firstoff {

namespace {

using Json = nlohmann::ordered_json;

constexpr double kMetresPerMm = 0.001;
constexpr int kFloat = 5126, kUnsignedByte = 5121, kUnsignedInt = 5125;
constexpr int kVertices = 34962, kIndices = 34963;

// IEC 61966-2-1; colours at corners are linear in glTF.
std::uint32_t linear(std::uint32_t srgb) {
    const double c = (srgb & 0xffu) / 255.0;
    const double light = c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    return static_cast<std::uint32_t>(std::lround(255 * light));
}

class GlbWriter {
public:
    void add(const std::string& name, const ShadedMesh& mesh) {
        const Json primitive = {
            {"attributes",
             {{"POSITION", addPlaces(mesh)}, {"NORMAL", addNormals(mesh)}, {"COLOR_0", addColours(mesh)}}},
            {"indices", addIndices(mesh)},
            {"material", 0}};
        nodes_.push_back({{"name", name}, {"mesh", meshes_.size()}});
        meshes_.push_back({{"name", name}, {"primitives", Json::array({primitive})}});
    }

    std::string finish() {
        Json roots = Json::array();
        for (std::size_t i = 0; i < nodes_.size(); ++i) roots.push_back(i);
        const Json metal = {{"name", "metal"},
                            {"pbrMetallicRoughness", {{"metallicFactor", 0.6}, {"roughnessFactor", 0.45}}}};
        const Json root = {{"asset", {{"version", "2.0"}, {"generator", "firstoff"}}},
                           {"scene", 0},
                           {"scenes", Json::array({{{"nodes", roots}}})},
                           {"nodes", nodes_},
                           {"meshes", meshes_},
                           {"materials", Json::array({metal})},
                           {"accessors", accessors_},
                           {"bufferViews", views_},
                           {"buffers", Json::array({{{"byteLength", buffer_.size()}}})}};
        std::string text = root.dump();
        text.resize((text.size() + 3) / 4 * 4, ' ');
        const std::size_t total = 12 + 8 + text.size() + 8 + buffer_.size();
        if (total > std::numeric_limits<std::uint32_t>::max()) {
            throw std::runtime_error(tr("more than 4 GiB do not fit into this kind of file"));
        }
        std::string bytes;
        bytes.reserve(total);
        put32(bytes, 0x46546c67);  // "glTF"
        put32(bytes, 2);
        put32(bytes, static_cast<std::uint32_t>(total));
        appendChunk(bytes, 0x4e4f534a, text);     // "JSON"
        appendChunk(bytes, 0x004e4942, buffer_);  // "BIN"
        return bytes;
    }

private:
    static void appendChunk(std::string& bytes, std::uint32_t kind, const std::string& contents) {
        put32(bytes, static_cast<std::uint32_t>(contents.size()));
        put32(bytes, kind);
        bytes += contents;
    }

    // All parts of the buffer are multiples of four bytes long, as the container wants it.
    std::size_t accessor(std::size_t from, int target, int component, std::size_t count, const char* type) {
        views_.push_back(
            {{"buffer", 0}, {"byteOffset", from}, {"byteLength", buffer_.size() - from}, {"target", target}});
        accessors_.push_back(
            {{"bufferView", views_.size() - 1}, {"componentType", component}, {"count", count}, {"type", type}});
        return accessors_.size() - 1;
    }

    std::size_t addPlaces(const ShadedMesh& mesh) {
        const std::size_t from = buffer_.size();
        constexpr float kFar = std::numeric_limits<float>::infinity();
        std::array<float, 3> least{kFar, kFar, kFar}, most{-kFar, -kFar, -kFar};
        for (const ShadedMesh::Corner& corner : mesh.corners) {
            const std::array<double, 3> mm{corner.place.x, corner.place.y, corner.place.z};
            for (std::size_t i = 0; i < 3; ++i) {
                const auto metres = static_cast<float>(kMetresPerMm * mm[i]);
                least[i] = std::min(least[i], metres);
                most[i] = std::max(most[i], metres);
                putFloat(buffer_, metres);
            }
        }
        const std::size_t index = accessor(from, kVertices, kFloat, mesh.corners.size(), "VEC3");
        accessors_[index]["min"] = least;
        accessors_[index]["max"] = most;
        return index;
    }

    std::size_t addNormals(const ShadedMesh& mesh) {
        const std::size_t from = buffer_.size();
        for (const ShadedMesh::Corner& corner : mesh.corners) {
            for (double value : {corner.normal.x, corner.normal.y, corner.normal.z}) {
                putFloat(buffer_, static_cast<float>(value));
            }
        }
        return accessor(from, kVertices, kFloat, mesh.corners.size(), "VEC3");
    }

    std::size_t addColours(const ShadedMesh& mesh) {
        const std::size_t from = buffer_.size();
        for (const ShadedMesh::Corner& corner : mesh.corners) {
            for (int shift : {16, 8, 0}) putByte(buffer_, linear(corner.colour >> shift));
            putByte(buffer_, 255);
        }
        const std::size_t index = accessor(from, kVertices, kUnsignedByte, mesh.corners.size(), "VEC4");
        accessors_[index]["normalized"] = true;
        return index;
    }

    std::size_t addIndices(const ShadedMesh& mesh) {
        const std::size_t from = buffer_.size();
        for (const auto& triangle : mesh.triangles) {
            for (std::uint32_t corner : triangle) put32(buffer_, corner);
        }
        return accessor(from, kIndices, kUnsignedInt, 3 * mesh.triangles.size(), "SCALAR");
    }

    std::string buffer_;
    Json views_ = Json::array(), accessors_ = Json::array(), meshes_ = Json::array(), nodes_ = Json::array();
};

}  // namespace

std::string glbFile(const std::vector<SolidBody>& bodies, const std::function<std::uint32_t(CutId)>& colour) {
    constexpr double kSharp = 30;  // degrees
    GlbWriter writer;
    for (const SolidBody& body : bodies) writer.add(body.name, shaded(body.mesh, radians(kSharp), colour));
    return writer.finish();
}

}  // namespace firstoff
