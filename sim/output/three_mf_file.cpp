#include <cstddef>

#include <fmt/format.h>

#include "sim/output/solid_files.h"
#include "sim/output/table_figures.h"
#include "sim/output/zip_archive.h"

namespace firstoff {

namespace {

constexpr const char* kTypes =
    R"(<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
</Types>
)";

constexpr const char* kRelations =
    R"(<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
<Relationship Target="/3D/3dmodel.model" Id="part" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>
</Relationships>
)";

void appendVertex(std::string& text, const MeshPoint& p) {
    text += "<vertex x=\"";
    appendTableFigure(text, p.x);
    text += "\" y=\"";
    appendTableFigure(text, p.y);
    text += "\" z=\"";
    appendTableFigure(text, p.z);
    text += "\"/>\n";
}

void appendObject(std::string& text, const SolidBody& body, std::size_t id) {
    text += fmt::format("<object id=\"{}\" type=\"model\" name=\"{}\">\n<mesh>\n<vertices>\n", id, body.name);
    for (const MeshPoint& p : body.mesh.points) appendVertex(text, p);
    text += "</vertices>\n<triangles>\n";
    for (const MeshTriangle& t : body.mesh.triangles) {
        text += fmt::format("<triangle v1=\"{}\" v2=\"{}\" v3=\"{}\"/>\n", t.corners[0], t.corners[1], t.corners[2]);
    }
    text += "</triangles>\n</mesh>\n</object>\n";
}

}  // namespace

std::string threeMfFile(const std::vector<SolidBody>& bodies) {
    std::string model = R"(<?xml version="1.0" encoding="UTF-8"?>
<model unit="millimeter" xml:lang="en" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">
<metadata name="Application">firstoff</metadata>
<resources>
)";
    for (std::size_t i = 0; i < bodies.size(); ++i) appendObject(model, bodies[i], i + 1);
    model += "</resources>\n<build>\n";
    for (std::size_t i = 0; i < bodies.size(); ++i) model += fmt::format("<item objectid=\"{}\"/>\n", i + 1);
    model += "</build>\n</model>\n";
    ZipArchive archive;
    archive.add("[Content_Types].xml", kTypes);
    archive.add("_rels/.rels", kRelations);
    archive.add("3D/3dmodel.model", model);
    return archive.finish();
}

}  // namespace firstoff
