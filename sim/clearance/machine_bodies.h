// Everything solid in the machine, from the set-up: one list, from which clearances are measured and the picture drawn.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim/clearance/convex_piece.h"
#include "sim/setup/setup.h"

namespace firstoff {

// What a body is fixed to, and so how it moves.
enum class Carrier : std::uint8_t {
    Bed,            // lathe frame
    Spindle,        // lathe frame; turns about the spindle axis, and is given as what it sweeps
    TurretSlide,    // frame of the turret; moves with the slides, does not index
    Turret,         // the same, and indexes: as it stands with station 1 in working position
    Tailstock,      // z from the point of the centre
    SecondSpindle,  // z from the face of its chuck, away from the first spindle; given as what it sweeps
};

enum class BodyKind : std::uint8_t {
    Billet,
    ChuckBody,
    Jaws,    // or the nose of a collet
    Centre,  // point, shank and bearing housing
    Quill,
    TailstockCasting,
    SecondChuckBody,
    SecondJaws,
    SteadyRest,
    TurretHead,
    TurretDisc,  // or gang plate
    Block,
    Holder,  // shank, bar or the body of a drill, behind what cuts
    Edge,    // what cuts, with all of the insert or blade
    Guard,
    Door,
    Other,
};

struct MachineBody {
    BodyKind kind = BodyKind::Other;
    Carrier carrier = Carrier::Bed;
    int station = 0;          // of blocks, holders, edges and what a station carries; 0: none
    int toolIndex = -1;       // into Setup::tools, likewise
    std::string name;         // as messages say it: "the jaws", "the block of station 5", "the guard \"left door\""
    std::string englishName;  // the same in English, for what programs read
    // The solid is their union. None: the billet, which changes and is asked for at each instant.
    std::vector<ConvexPiece> pieces;
    // Of what is turned about the spindle axis, as the tool in use meets it in the turning half-plane, z as above:
    // convex polygons, anticlockwise, r >= 0 (they count on the other side of the axis as well). Unlike the pieces,
    // which are solid to the axis, they are open where the bar is, and in a bore that is given. Empty: not turned.
    std::vector<std::vector<Point>> sections;
    // From a mesh file: each piece is a triangle of its surface, and the inside is not made of pieces.
    bool isMesh = false;
    // No point of the true body, as the set-up gives it, lies further outside the pieces than this; mm.
    double errorMm = 0;
};

struct MachineBodies {
    // The first is the billet. Order is fixed by the set-up alone.
    std::vector<MachineBody> bodies;
    // What the set-up leaves open, in plain sentences, and whether it moves: then nothing is proven about it.
    struct Gap {
        std::string what;
        bool moves = false;
        int station = 0;
        SourceSpan span;
    };
    std::vector<Gap> notModelled;
    // Where the axis of the disc lies from the turret reference, r; 0 and no stations for a gang plate.
    double turretAxisR = 0;
    int stations = 0;

    // Turn of the disc, rad, that brings a station into working position. A gang plate never turns.
    double turnOf(int station) const;
};

// Without [turret] nothing indexes: the tools of all stations then stand in working position, and only that of the
// station in use is where its body says. Whatever is added to round off a shape (sectors of a ring, corners of a sweep)
// lies outside the true body.
MachineBodies machineBodies(const Setup& setup);

// "billet", "chuck body", "jaws" … : as reports name them; English, for tr().
const char* name(BodyKind kind);

}  // namespace firstoff
