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
    double radius = 0;    // at which they bear
};

// Jaws bear where the metal is thickest, gripping inside where the bore is narrowest; of a bar that is not round the
// circle round it counts.
JawHold holdOf(const Billet& billet, Range grip, Chuck::Grip way);

// Foremost place with metal, lathe frame; that of the grid's end where there is none.
double frontOf(const Billet& billet);

}  // namespace firstoff
