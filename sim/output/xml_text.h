// Text as it may stand in an XML file.
#pragma once

#include <string>
#include <string_view>

namespace firstoff {

// With &, < and > escaped. Bytes that are no UTF-8, or that XML 1.0 does not allow, become question marks: programs hold
// anything.
std::string xmlText(std::string_view text);

}  // namespace firstoff
