// Chuck, jaws, tailstock, second spindle: all turned about the spindle axis, the jaws as the ring they sweep.
#include <algorithm>
#include <cmath>

#include "sim/base/say.h"
#include "sim/clearance/body_makers.h"

namespace firstoff {

namespace {

// The spindle end of a chuck, and what of the bar stands in it.
struct Grip {
    double barRadius = 0;
    double barBack = 0;  // z of its end, negative inside the chuck
    double boreRadius = 0;
};

Grip gripOf(const Setup& setup) {
    const Stock& stock = setup.stock;
    return {std::max(0.0, stock.outerRadius), stock.backZ, std::max(0.0, stock.boreRadius)};
}

bool isCollet(const Chuck& chuck) {
    return chuck.kind == Chuck::Kind::Collet;
}

// Behind the bar the spindle is open where the set-up gives its bore.
MachineBody chuckBody(const Chuck& chuck, const Grip& grip) {
    MachineBody body = bodyOf(BodyKind::ChuckBody, Carrier::Spindle,
                              isCollet(chuck) ? bodyName(later("the collet chuck")) : bodyName(later("the chuck")));
    body.pieces.push_back(cylinderPiece(-chuck.bodyLength, 0, chuck.bodyRadius));
    const double bore = chuck.throughBoreRadius.value_or(0);
    const double barEnd = std::clamp(grip.barBack, -chuck.bodyLength, 0.0);
    addSection(body, barEnd, 0, std::max(bore, grip.barRadius), chuck.bodyRadius);
    addSection(body, -chuck.bodyLength, barEnd, bore, chuck.bodyRadius);
    return body;
}

// Steps from the gripping face outwards; without any, one.
std::vector<Chuck::Step> stepsOf(const Chuck& chuck) {
    if (!chuck.steps.empty()) return chuck.steps;
    return {{chuck.jawOuterRadius, chuck.jawLength}};
}

// Gripping from outside the jaws are open where the bar is, and behind what soft jaws are bored to they are taken as
// solid to the axis. Gripping from inside the first step stands in the bore.
MachineBody jawsOf(const Chuck& chuck, const Grip& grip) {
    MachineBody body =
        bodyOf(BodyKind::Jaws, Carrier::Spindle,
               isCollet(chuck) ? bodyName(later("the nose of the collet")) : bodyName(later("the jaws")));
    const bool inside = chuck.grip == Chuck::Grip::Inside;
    std::vector<Chuck::Step> steps = stepsOf(chuck);
    if (inside) {
        Chuck::Step& first = steps.front();
        first.radius = grip.boreRadius > 0 ? std::min(first.radius, grip.boreRadius) : first.radius;
    }
    double inner = inside ? 0 : grip.barRadius;
    const double bored = chuck.jawLength - chuck.gripLength;  // z of the floor of soft jaws
    const bool hasFloor =
        !inside && chuck.jaw == Chuck::Jaw::Soft && chuck.gripLength > 0 && bored > 0 && grip.barBack >= bored - 1e-6;
    if (hasFloor) addSection(body, 0, bored, chuck.throughBoreRadius.value_or(0), grip.barRadius);
    for (const Chuck::Step& step : steps) {
        if (step.length <= 0 || step.radius <= inner) continue;
        body.pieces.push_back(cylinderPiece(0, step.length, step.radius));
        addSection(body, 0, step.length, inner, step.radius);
        inner = step.radius;
    }
    return body;
}

void addWorkholding(MachineBodies& all, const Chuck& chuck, const Grip& grip, const SourceSpan& span) {
    if (chuck.bodyRadius > 0 && chuck.bodyLength > 0) {
        all.bodies.push_back(chuckBody(chuck, grip));
    } else {
        all.notModelled.push_back(
            {tr("The set-up gives no size of the chuck, so nothing is kept clear of it."), true, 0, span});
    }
    MachineBody jaws = jawsOf(chuck, grip);
    if (!jaws.pieces.empty()) {
        all.bodies.push_back(std::move(jaws));
    } else if (chuck.jawLength > 0 && chuck.jawOuterRadius > 0) {
        all.notModelled.push_back(
            {tr("The jaws are not modelled: the bar is as large as the circle that the set-up gives for them."), true,
             0, span});
    } else {
        all.notModelled.push_back(
            {tr("The set-up gives no size of the jaws, so nothing is kept clear of them."), true, 0, span});
    }
}

// To the other side: z from the face away from the first spindle.
void faceAbout(MachineBody& body) {
    for (ConvexPiece& piece : body.pieces) {
        for (Point& p : piece.halfSection) p.z = -p.z;
    }
    for (std::vector<Point>& section : body.sections) {
        for (Point& p : section) p.z = -p.z;
        std::reverse(section.begin(), section.end());  // anticlockwise again
    }
}

bool movesByCode(const Setup& setup, MachineAction there, MachineAction back) {
    return std::any_of(setup.machineCodes.begin(), setup.machineCodes.end(),
                       [&](const MachineCode& code) { return code.action == there || code.action == back; });
}

}  // namespace

MachineBody bodyOf(BodyKind kind, Carrier carrier, BodyName name) {
    MachineBody body;
    body.kind = kind;
    body.carrier = carrier;
    body.name = std::move(name.told);
    body.englishName = std::move(name.english);
    return body;
}

void addSection(MachineBody& body, double zFrom, double zTo, double inner, double outer) {
    if (!(zTo > zFrom) || !(outer > inner)) return;
    body.sections.push_back({{zFrom, inner}, {zTo, inner}, {zTo, outer}, {zFrom, outer}});
}

void addRing(MachineBody& body, double zFrom, double zTo, double inner, double outer) {
    if (!(zTo > zFrom) || !(outer > inner)) return;
    body.pieces.push_back(cylinderPiece(zFrom, zTo, outer));
    addSection(body, zFrom, zTo, inner, outer);
}

void addChuck(MachineBodies& all, const Setup& setup) {
    addWorkholding(all, setup.chuck, gripOf(setup), {});
}

void addTailstock(MachineBodies& all, const Setup& setup) {
    if (!setup.tailstock) return;
    const Tailstock& tailstock = *setup.tailstock;
    MachineBody centre = bodyOf(BodyKind::Centre, Carrier::Tailstock, bodyName(later("the centre of the tailstock")));
    double cone = 0;
    if (tailstock.centreRadius > 0 && tailstock.centreAngle > 0) {
        cone = tailstock.centreRadius / std::tan(tailstock.centreAngle / 2);
        centre.pieces.push_back(turnedPiece({{0, 0}, {cone, tailstock.centreRadius}}));
        centre.sections.push_back({{0, 0}, {cone, 0}, {cone, tailstock.centreRadius}});
    }
    const double quillFrom = std::max(cone, tailstock.centreLength);
    addRing(centre, cone, quillFrom, 0, tailstock.centreRadius);
    if (tailstock.live && tailstock.housingRadius > 0) {
        // In front of the quill, or where that is not said right behind the point.
        const bool inFront = tailstock.centreLength > 0;
        const double from = inFront ? std::max(cone, quillFrom - tailstock.housingLength) : cone;
        addRing(centre, from, inFront ? quillFrom : cone + tailstock.housingLength, 0, tailstock.housingRadius);
    }
    if (!centre.pieces.empty()) all.bodies.push_back(std::move(centre));

    MachineBody quill = bodyOf(BodyKind::Quill, Carrier::Tailstock, bodyName(later("the quill of the tailstock")));
    const double quillTo = quillFrom + std::max(0.0, tailstock.quillLength);
    addRing(quill, quillFrom, quillTo, 0, tailstock.quillRadius);
    if (!quill.pieces.empty()) all.bodies.push_back(std::move(quill));

    const bool moves = movesByCode(setup, MachineAction::TailstockAdvance, MachineAction::TailstockRetract);
    MachineBody casting =
        bodyOf(BodyKind::TailstockCasting, Carrier::Tailstock, bodyName(later("the casting of the tailstock")));
    addRing(casting, quillTo, quillTo + tailstock.castingLength, 0, tailstock.castingRadius);
    if (!casting.pieces.empty()) {
        all.bodies.push_back(std::move(casting));
    } else {
        all.notModelled.push_back(
            {tr("The set-up does not say how large the casting behind the quill is, so nothing is kept clear of it."),
             moves, 0, tailstock.tipSpan});
    }
}

void addSecondSpindle(MachineBodies& all, const Setup& setup) {
    if (!setup.secondSpindle) return;
    const std::size_t first = all.bodies.size(), firstGap = all.notModelled.size();
    // What it will hold is not known beforehand: its jaws are taken as shut to the axis.
    addWorkholding(all, setup.secondSpindle->chuck, {}, setup.secondSpindle->span);
    for (std::size_t i = first; i < all.bodies.size(); ++i) {
        MachineBody& body = all.bodies[i];
        const bool jaws = body.kind == BodyKind::Jaws;
        body.kind = jaws ? BodyKind::SecondJaws : BodyKind::SecondChuckBody;
        body.carrier = Carrier::SecondSpindle;
        const BodyName where = bodyName(later(" of the second spindle"));
        body.name += where.told;
        body.englishName += where.english;
        faceAbout(body);
    }
    for (std::size_t i = firstGap; i < all.notModelled.size(); ++i) {
        all.notModelled[i].what = tr("On the second spindle: ") + all.notModelled[i].what;
    }
}

}  // namespace firstoff
