#!/usr/bin/env python3
"""A second method for DXF: writes and reads drawings with the package python3-ezdxf and prints their edges.

    dxf_library.py write SEED VERSION UNIT FILE   a drawing of every entity that is understood, some seen from behind
    dxf_library.py read FILE                      audits it first; any complaint ends with exit code 1

Edges are printed in mm, one a line: x y of the start, of the middle, of the end.
"""
import math
import random
import sys

import ezdxf
from ezdxf.math import OCS, Vec3

MM = {0: 1.0, 1: 25.4, 4: 1.0, 5: 10.0, 6: 1000.0}


def edges_of(entity):
    kind = entity.dxftype()
    if kind == "LINE":
        start, end = entity.dxf.start, entity.dxf.end
        yield start, (start + end) / 2, end
    elif kind == "ARC":
        first, last = entity.dxf.start_angle, entity.dxf.end_angle
        sweep = (last - first) % 360 or 360
        # A whole turn, and arcs of more than half a turn, are two edges each.
        parts = 2 if sweep > 180 else 1
        for part in range(parts):
            at = [first + sweep * (part + half / 2) / parts for half in range(3)]
            yield tuple(entity.vertices(at))
    elif kind == "CIRCLE":
        for first in (0, 180):
            yield tuple(entity.vertices([first, first + 90, first + 180]))
    elif kind in ("LWPOLYLINE", "POLYLINE"):
        ocs = OCS(entity.dxf.extrusion)
        if kind == "LWPOLYLINE":
            corners = [(Vec3(x, y), bulge) for x, y, bulge in entity.get_points("xyb")]
            closed = entity.closed
        else:
            corners = [(v.dxf.location, v.dxf.get("bulge", 0)) for v in entity.vertices]
            closed = entity.is_closed
        count = len(corners) if closed else len(corners) - 1
        for i in range(count):
            (a, bulge), b = corners[i], corners[(i + 1) % len(corners)][0]
            # Half way along, the arc stands off its chord, to the right of it, by the bulge times half the chord.
            chord = b - a
            middle = (a + b) / 2 + Vec3(chord.y, -chord.x) * (bulge / 2)
            yield tuple(ocs.to_wcs(Vec3(p.x, p.y)) for p in (a, middle, b))
    else:
        raise SystemExit("unexpected entity " + kind)


def print_edges(doc):
    mm = MM[doc.units]
    for entity in doc.modelspace():
        for edge in edges_of(entity):
            print(" ".join(f"{mm * p.x!r} {mm * p.y!r}" for p in edge))


def write(seed, version, unit, name):
    rng = random.Random(seed)
    doc = ezdxf.new(version)
    doc.units = unit
    msp = doc.modelspace()
    size = 100 / MM[unit]

    def point():
        return (rng.uniform(-size, size), rng.uniform(-size, size))

    def extrusion():
        return {"extrusion": (0, 0, rng.choice((1, -1)))}

    def corners(count):
        return [(*point(), rng.choice((0, 0, 1, -1, rng.uniform(-3, 3)))) for _ in range(count)]

    for i in range(40):
        layer = {"layer": f"L{i % 3}"}
        msp.add_line(point(), point(), dxfattribs=layer)
        radius = rng.uniform(0.01, 1) * size
        angles = rng.choice(((rng.uniform(-360, 720), rng.uniform(-360, 720)), (0, 90), (90, 270), (300, 30), (0, 180)))
        msp.add_arc(point(), radius, *angles, dxfattribs={**layer, **extrusion()})
        msp.add_circle(point(), radius, dxfattribs={**layer, **extrusion()})
        closed = rng.random() < 0.5
        if version != "R12":
            msp.add_lwpolyline(corners(rng.randint(2, 9)), format="xyb", close=closed,
                               dxfattribs={**layer, **extrusion(), "elevation": 5})
        msp.add_polyline2d(corners(rng.randint(2, 9)), format="xyb", close=closed,
                           dxfattribs={**layer, **extrusion()})
    doc.saveas(name)
    # Read again, so that what is printed is what stands in the file.
    print_edges(ezdxf.readfile(name))


def read(name):
    doc = ezdxf.readfile(name)
    auditor = doc.audit()
    if auditor.has_errors or auditor.has_fixes:
        for complaint in auditor.errors + auditor.fixes:
            print(complaint.code, complaint.message, file=sys.stderr)
        raise SystemExit(1)
    print_edges(doc)


if __name__ == "__main__":
    if sys.argv[1] == "write":
        write(int(sys.argv[2]), sys.argv[3], int(sys.argv[4]), sys.argv[5])
    else:
        read(sys.argv[2])
