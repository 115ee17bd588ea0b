#include "sim/output/setup_files.h"

#include <new>
#include <stdexcept>
#include <system_error>
#include <utility>

#include "sim/output/files_beside.h"

namespace firstoff {

namespace fs = std::filesystem;

namespace {

constexpr std::uintmax_t kLargestBytes = std::uintmax_t{1} << 20;

}  // namespace

ReadSetupFile setupFilesBeside(fs::path setupFile) {
    return [setupFile = std::move(setupFile)](std::string_view name) -> std::optional<std::string> {
        try {
            const fs::path file = besideSetup(setupFile, std::string(name));
            std::error_code error;
            if (fs::file_size(file, error) > kLargestBytes || error) return std::nullopt;
            return readNamedFile(file);
        } catch (const std::bad_alloc&) {
            throw;
        } catch (const std::exception&) {
            return std::nullopt;
        }
    };
}

}  // namespace firstoff
