#include "sim/output/body_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <list>
#include <memory>
#include <mutex>
#include <new>
#include <string>
#include <utility>

#include "sim/base/say.h"
#include "sim/drawing/mesh_file.h"
#include "sim/output/files_beside.h"

namespace firstoff {

namespace {

// What else stands there has been said by whoever read the set-up.
DrawingUnit unitOf(const ExtraBody& body) {
    if (body.unit == "cm") return DrawingUnit::Centimetre;
    if (body.unit == "m") return DrawingUnit::Metre;
    if (body.unit == "inch") return DrawingUnit::Inch;
    return DrawingUnit::Millimetre;
}

// Meshes read lately, by their bytes: an edit of the program tries it anew with the same bodies, and reading and
// checking a large one takes longer than all the rest.
class MeshesRead {
public:
    std::shared_ptr<const Mesh> read(const std::string& bytes, const std::string& name, DrawingUnit unit) {
        const Key key{fingerprint(bytes), bytes.size(), name, unit};
        {
            const std::lock_guard lock(mutex_);
            for (const auto& [known, mesh] : meshes_) {
                if (known == key) return mesh;
            }
        }
        auto mesh = std::make_shared<const Mesh>(readMesh(bytes, name, unit));
        const std::lock_guard lock(mutex_);
        meshes_.emplace_front(key, mesh);
        std::size_t triangles = 0, kept = 0;
        for (const auto& [known, other] : meshes_) {
            triangles += other->triangles.size();
            if (triangles > kMostTriangles || kept == kMostKept) break;
            ++kept;
        }
        meshes_.resize(kept);
        return mesh;
    }

private:
    static constexpr std::size_t kMostKept = 32;

    struct Key {
        std::array<std::uint64_t, 2> print;
        std::size_t size;
        std::string name;
        DrawingUnit unit;
        friend bool operator==(const Key&, const Key&) = default;
    };

    // Two sums in the manner of Fowler, Noll and Vo, of eight bytes at a time; no two files that differ by accident
    // have both alike.
    static std::array<std::uint64_t, 2> fingerprint(const std::string& bytes) {
        std::array<std::uint64_t, 2> print{0xcbf29ce484222325u, 0x9e3779b97f4a7c15u};
        for (std::size_t i = 0; i < bytes.size(); i += 8) {
            std::uint64_t eight = 0;
            std::memcpy(&eight, bytes.data() + i, std::min<std::size_t>(8, bytes.size() - i));
            print[0] = (print[0] ^ eight) * 0x100000001b3u;
            print[0] ^= print[0] >> 29;
            print[1] = (print[1] + eight) * 0xd6e8feb86659fd93u;
            print[1] ^= print[1] >> 32;
        }
        return print;
    }

    std::mutex mutex_;
    std::list<std::pair<Key, std::shared_ptr<const Mesh>>> meshes_;
};

class InPlace {
public:
    explicit InPlace(const ExtraBody& body)
        : body_(body), scale_(millimetresIn(unitOf(body))), cos_(std::cos(body.turnZ)), sin_(std::sin(body.turnZ)) {}

    std::array<float, 9> operator()(const MeshFacet& triangle) const {
        std::array<float, 9> placed{};
        for (std::size_t i = 0; i < 9; i += 3) {
            const double x = scale_ * triangle[i], y = scale_ * triangle[i + 1], z = scale_ * triangle[i + 2];
            placed[i] = static_cast<float>(body_.atZ + z);
            placed[i + 1] = static_cast<float>(body_.atR + cos_ * x - sin_ * y);
            placed[i + 2] = static_cast<float>(body_.atY + sin_ * x + cos_ * y);
        }
        return placed;
    }

private:
    const ExtraBody& body_;
    double scale_, cos_, sin_;
};

void tell(Setup& setup, const ExtraBody& body, std::string code, std::string message, std::string remedy) {
    Finding finding;
    finding.severity = Severity::Stop;
    finding.code = std::move(code);
    finding.unproven = true;
    finding.span = body.span;
    finding.span.file = SourceSpan::File::Setup;
    finding.message = say("The body \"{}\" is missing in this trial. {}", body.name, message);
    finding.remedy = std::move(remedy);
    setup.findings.push_back(std::move(finding));
}

void read(Setup& setup, ExtraBody& body, const std::filesystem::path& setupFile) {
    static MeshesRead meshesRead;
    std::shared_ptr<const Mesh> mesh;
    try {
        mesh = meshesRead.read(readNamedFile(besideSetup(setupFile, body.file)), body.file, unitOf(body));
    } catch (const std::bad_alloc&) {
        throw;
    } catch (const std::exception& failure) {
        return tell(setup, body, "setup-body-not-usable", std::string(failure.what()) + '.',
                    tr("Put the file beside the set-up, or correct its name."));
    }
    for (const DrawingFault& fault : mesh->faults) {
        const std::string line = fault.line > 0 ? say(" (line {})", fault.line) : std::string();
        tell(setup, body, fault.code, fault.message + line, fault.remedy);
    }
    body.triangles.resize(mesh->triangles.size());
    std::transform(mesh->triangles.begin(), mesh->triangles.end(), body.triangles.begin(), InPlace(body));
}

}  // namespace

Setup withBodies(Setup setup, const std::filesystem::path& setupFile) {
    for (std::size_t i = 0; i < setup.extraBodies.size(); ++i) {
        ExtraBody& body = setup.extraBodies[i];
        body.triangles.clear();
        if (!body.file.empty()) read(setup, body, setupFile);
    }
    return setup;
}

}  // namespace firstoff
