// What the jaws of a chuck, or a collet, get hold of.
#pragma once

#include "sim/setup/setup.h"
#include "sim/stock/billet_columns.h"

namespace firstoff {

// Where along z a chuck grips, lathe frame: the first one as it stands, the second with its face at `faceZ`.
Range gripRange(const Chuck& chuck);
Range gripRangeOfSecond(const Chuck& chuck, double faceZ);

struct JawHold {
    double lengthMm = 0;  // along z, of the metal on which they bear; 0: they hold nothing
    double radius = 0;    // at which they bear, of a bar that is not round that of the circle round it
    // Nearest to the axis that what they bear on comes: where the bar is not round, that of its flats.
    double flatRadius = 0;
};

// Jaws bear where the metal is thickest, gripping inside where the bore is narrowest.
JawHold holdOf(const Billet& billet, Range grip, Chuck::Grip way);

// Whether the jaws, evenly round the axis, all stand on flats of the blank; true of a round one, and of a collet, which
// has the shape of its bar.
bool standsOnFlats(const Chuck& chuck, const Stock& stock);

// Foremost place with metal, lathe frame; that of the grid's end where there is none.
double frontOf(const Billet& billet);

}  // namespace firstoff
