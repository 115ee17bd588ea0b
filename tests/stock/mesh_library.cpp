#include "tests/stock/mesh_library.h"

#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/connected_components.h>
#include <CGAL/Polygon_mesh_processing/measure.h>
#include <CGAL/Polygon_mesh_processing/orientation.h>
#include <CGAL/Polygon_mesh_processing/polygon_soup_to_polygon_mesh.h>
#include <CGAL/Polygon_mesh_processing/self_intersections.h>
#include <CGAL/Surface_mesh.h>

#include <array>
#include <vector>

namespace firstoff::shop {

LibraryVerdict askLibrary(const PartMesh& mesh) {
    using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
    using Surface = CGAL::Surface_mesh<Kernel::Point_3>;
    namespace pmp = CGAL::Polygon_mesh_processing;

    std::vector<Kernel::Point_3> points;
    for (const MeshPoint& p : mesh.points) points.emplace_back(p.x, p.y, p.z);
    std::vector<std::array<std::size_t, 3>> triangles;
    for (const MeshTriangle& t : mesh.triangles) triangles.push_back({t.corners[0], t.corners[1], t.corners[2]});

    LibraryVerdict verdict;
    verdict.isMesh = pmp::is_polygon_soup_a_polygon_mesh(triangles);
    if (!verdict.isMesh) return verdict;
    Surface surface;
    pmp::polygon_soup_to_polygon_mesh(points, triangles, surface);
    verdict.closed = CGAL::is_closed(surface);
    if (!verdict.closed) return verdict;
    verdict.selfIntersects = pmp::does_self_intersect(surface);
    verdict.boundsVolume =
        !verdict.selfIntersects && pmp::does_bound_a_volume(surface) && pmp::is_outward_oriented(surface);
    verdict.volumeMm3 = CGAL::to_double(pmp::volume(surface));
    const auto bodies = surface.add_property_map<Surface::Face_index, std::size_t>("f:body", 0).first;
    verdict.bodies = static_cast<int>(pmp::connected_components(surface, bodies));
    return verdict;
}

}  // namespace firstoff::shop
