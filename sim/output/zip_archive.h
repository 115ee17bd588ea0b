// A ZIP archive in memory (PKWARE APPNOTE 6.3.9; ISO/IEC 21320-1 as far as it goes), with the date of all members
// fixed, so that the same contents give the same bytes.
#pragma once

#include <string>
#include <string_view>

namespace firstoff {

class ZipArchive {
public:
    // Members keep their order. Throws std::runtime_error for contents of 4 GiB or more, which need another format.
    void add(std::string_view name, std::string_view contents);
    std::string finish();

private:
    std::string bytes_;
    std::string directory_;
    unsigned members_ = 0;
};

}  // namespace firstoff
