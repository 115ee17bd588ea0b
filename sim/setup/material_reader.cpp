#include "sim/setup/material_reader.h"

#include "sim/base/say.h"
#include "sim/base/units.h"
#include "sim/setup/material_table.h"
#include "sim/setup/table_reading.h"

namespace firstoff {

namespace {

constexpr const char* kFromSetup = later("given in the set-up");

// Both figures of the law or neither: one of them with the other of a table would be a material nobody has.
void takeForce(const TableReading& from, Material& material) {
    const bool kc11 = from.says("kc11_n_per_mm2"), mc = from.says("mc");
    if (!kc11 && !mc) return;
    if (kc11 != mc) {
        from.stop("setup-missing-key", kc11 ? "kc11_n_per_mm2" : "mc",
                  tr("[material] gives one of the two figures that a cutting force needs."),
                  tr("Write both kc11_n_per_mm2 and mc, or neither."));
        return;
    }
    material.kc11 = from.number("kc11_n_per_mm2");
    material.mc = from.number("mc");
    material.rakeAngle = 0;
    material.source = from.says("source") ? std::string(from.text("source")) : std::string(tr(kFromSetup));
}

}  // namespace

Material readMaterial(std::string_view named, SourceSpan namedSpan, const SetupTable& table,
                      std::vector<Finding>& findings) {
    const TableReading from{table, findings};
    const std::string_view name = named.empty() ? from.text("name") : named;
    Material material;
    if (const MaterialRow* row = findMaterial(name)) {
        material = row->material;
        material.source = sourceInWords(*row);
    } else {
        material.name = name;
    }
    if (from.says("name")) material.name = from.text("name");
    material.span = named.empty() && !table.entries.empty() ? table.span : namedSpan;
    if (from.says("group")) material.group = from.text("group");
    takeForce(from, material);
    if (from.says("rake_angle_deg")) material.rakeAngle = radians(from.number("rake_angle_deg"));
    const std::string source = from.says("source") ? std::string(from.text("source")) : std::string(tr(kFromSetup));
    if (from.says("youngs_modulus_gpa")) {
        material.youngGPa = from.number("youngs_modulus_gpa");
        material.youngSource = source;
    }
    if (from.says("density_kg_per_dm3")) material.densityKgPerDm3 = from.number("density_kg_per_dm3");
    return material;
}

}  // namespace firstoff
