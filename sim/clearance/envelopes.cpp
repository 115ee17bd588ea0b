#include "sim/clearance/envelopes.h"

#include <algorithm>
#include <cmath>

namespace firstoff {

namespace {

void addBox(std::vector<Envelope>& envelopes, Body body, double zMin, double zMax, double rMin, double rMax) {
    if (!(zMax > zMin) || !(rMax > rMin)) return;
    envelopes.push_back({body, {{zMin, rMin}, {zMax, rMin}, {zMax, rMax}, {zMin, rMax}}});
}

void addRing(std::vector<Envelope>& envelopes, Body body, double zMin, double zMax, double inner, double outer) {
    addBox(envelopes, body, zMin, zMax, inner, outer);
    addBox(envelopes, body, zMin, zMax, -outer, -inner);
}

void addChuck(std::vector<Envelope>& envelopes, const Setup& setup) {
    const Chuck& chuck = setup.chuck;
    const double bar = std::max(0.0, setup.stock.outerRadius);
    const double barEnd = std::clamp(setup.stock.backZ, -std::max(0.0, chuck.bodyLength), 0.0);
    addRing(envelopes, Body::ChuckBody, barEnd, 0, bar, chuck.bodyRadius);
    addBox(envelopes, Body::ChuckBody, -chuck.bodyLength, barEnd, -chuck.bodyRadius, chuck.bodyRadius);
    addRing(envelopes, Body::Jaws, 0, chuck.jawLength, bar, chuck.jawOuterRadius);
}

void addTailstock(std::vector<Envelope>& envelopes, const Tailstock& tailstock) {
    const double tip = tailstock.tipZ;
    double behindPoint = tip;
    if (tailstock.centreRadius > 0 && tailstock.centreAngle > 0) {
        behindPoint = tip + tailstock.centreRadius / std::tan(tailstock.centreAngle / 2);
        envelopes.push_back(
            {Body::TailstockCentre,
             {{tip, 0}, {behindPoint, -tailstock.centreRadius}, {behindPoint, tailstock.centreRadius}}});
    }
    addBox(envelopes, Body::TailstockQuill, behindPoint, behindPoint + tailstock.quillLength, -tailstock.quillRadius,
           tailstock.quillRadius);
}

}  // namespace

std::vector<Envelope> envelopesOf(const Setup& setup) {
    std::vector<Envelope> envelopes;
    addChuck(envelopes, setup);
    if (setup.tailstock) addTailstock(envelopes, *setup.tailstock);
    return envelopes;
}

}  // namespace firstoff
