// The loops over columns once more, for any processor and without optimisation (see CMakeLists.txt), as a second
// opinion for kernels_test.cpp.
#define FIRSTOFF_PLAIN_KERNELS
#define kernel plain_kernel
#include "sim/stock/column_kernels.cpp"
