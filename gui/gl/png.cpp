#include "gui/gl/png.h"

#include "sim/base/say.h"

#include <stb_image.h>
#include <stb_image_write.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <stdexcept>
#include <string>

namespace firstoff::gui {

namespace {

void append(void* context, void* data, int size) {
    static_cast<std::string*>(context)->append(static_cast<const char*>(data), static_cast<std::size_t>(size));
}

[[noreturn]] void refuse(const std::filesystem::path& path, const std::string& why) {
    throw std::runtime_error(say("The picture {} could not be written: {}.", path.string(), why));
}

}  // namespace

void savePng(const std::filesystem::path& path, const Image& image) {
    std::string bytes;
    if (!stbi_write_png_to_func(append, &bytes, image.width, image.height, 3, image.rgb.data(), 3 * image.width)) {
        refuse(path, tr("it could not be packed"));
    }
    std::filesystem::path part = path;
    part += ".part";
    std::ofstream file(part, std::ios::binary);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    file.close();
    if (!file) {
        const std::string why = std::strerror(errno);
        std::error_code ignored;
        std::filesystem::remove(part, ignored);
        refuse(path, why);
    }
    std::error_code failed;
    std::filesystem::rename(part, path, failed);
    if (failed) {
        std::error_code ignored;
        std::filesystem::remove(part, ignored);
        refuse(path, failed.message());
    }
}

Image loadPng(const std::filesystem::path& path) {
    Image image;
    int channels = 0;
    stbi_uc* pixels = stbi_load(path.c_str(), &image.width, &image.height, &channels, 3);
    if (!pixels)
        throw std::runtime_error(say("The picture {} could not be read: {}.", path.string(), stbi_failure_reason()));
    const std::size_t size = 3 * static_cast<std::size_t>(image.width) * static_cast<std::size_t>(image.height);
    image.rgb.assign(pixels, pixels + size);
    stbi_image_free(pixels);
    return image;
}

}  // namespace firstoff::gui
