# Writes a C++ source that holds a compiled catalogue: cmake -DMO=… -DOUT=… -P language_catalogues.cmake
file(READ ${MO} bytes HEX)
string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${bytes}")
string(REGEX REPLACE "(................................................................................)" "\\1\n" bytes "${bytes}")
file(WRITE ${OUT} "// Written by CMake from assets/languages.
#include \"sim/base/language_catalogues.h\"

namespace firstoff {

std::span<const unsigned char> germanCatalogue() {
    alignas(8) static constexpr unsigned char bytes[] = {
${bytes}};
    return bytes;
}

}  // namespace firstoff
")
