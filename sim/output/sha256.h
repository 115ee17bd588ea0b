// SHA-256 (FIPS 180-4), so that a paper can say which text it was made from: `sha256sum FILE` gives the same.
#pragma once

#include <string>
#include <string_view>

namespace firstoff {

// 64 hexadecimal digits.
std::string sha256(std::string_view bytes);

}  // namespace firstoff
