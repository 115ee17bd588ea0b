#include "sim/output/zip_archive.h"

#include <cstdint>
#include <memory>
#include <new>
#include <stdexcept>

#include <zlib.h>

#include "sim/base/say.h"
#include "sim/output/little_endian.h"

namespace firstoff {

namespace {

constexpr std::uint32_t kMost = 0xfffffffeu;

std::string deflated(std::string_view contents) {
    z_stream stream{};
    constexpr int kRaw = -15, kMemory = 8, kLevel = 6;
    if (deflateInit2(&stream, kLevel, Z_DEFLATED, kRaw, kMemory, Z_DEFAULT_STRATEGY) != Z_OK) throw std::bad_alloc();
    const std::unique_ptr<z_stream, int (*)(z_stream*)> ending(&stream, deflateEnd);
    std::string result(deflateBound(&stream, static_cast<uLong>(contents.size())), '\0');
    // zlib takes the input as a pointer that it does not write through.
    stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(contents.data()));
    stream.avail_in = static_cast<uInt>(contents.size());
    stream.next_out = reinterpret_cast<Bytef*>(result.data());
    stream.avail_out = static_cast<uInt>(result.size());
    if (deflate(&stream, Z_FINISH) != Z_STREAM_END) throw std::runtime_error(tr("the contents cannot be packed"));
    result.resize(stream.total_out);
    return result;
}

// What local header and directory have in common, from "version needed" on.
std::string describe(std::string_view name, std::string_view contents, std::string_view packed) {
    const auto crc = crc32(0, reinterpret_cast<const Bytef*>(contents.data()), static_cast<uInt>(contents.size()));
    constexpr std::uint32_t kVersion = 20, kDeflated = 8, kFirstOfJanuary1980 = (1 << 5) | 1;
    std::string text;
    put16(text, kVersion);
    put16(text, 0);
    put16(text, kDeflated);
    put16(text, 0);
    put16(text, kFirstOfJanuary1980);
    put32(text, static_cast<std::uint32_t>(crc));
    put32(text, static_cast<std::uint32_t>(packed.size()));
    put32(text, static_cast<std::uint32_t>(contents.size()));
    put16(text, static_cast<std::uint32_t>(name.size()));
    put16(text, 0);
    return text;
}

}  // namespace

void ZipArchive::add(std::string_view name, std::string_view contents) {
    if (contents.size() > kMost) throw std::runtime_error(tr("more than 4 GiB do not fit into this kind of file"));
    const std::string packed = deflated(contents);
    const std::string description = describe(name, contents, packed);
    const auto offset = static_cast<std::uint32_t>(bytes_.size());
    put32(bytes_, 0x04034b50);
    bytes_.append(description).append(name).append(packed);
    if (bytes_.size() > kMost) throw std::runtime_error(tr("more than 4 GiB do not fit into this kind of file"));
    put32(directory_, 0x02014b50);
    put16(directory_, 20);
    directory_ += description;
    put16(directory_, 0);  // comment
    put16(directory_, 0);  // disk
    put16(directory_, 0);
    put32(directory_, 0);
    put32(directory_, offset);
    directory_ += name;
    ++members_;
}

std::string ZipArchive::finish() {
    const auto offset = static_cast<std::uint32_t>(bytes_.size());
    bytes_ += directory_;
    put32(bytes_, 0x06054b50);
    put32(bytes_, 0);
    put16(bytes_, members_);
    put16(bytes_, members_);
    put32(bytes_, static_cast<std::uint32_t>(directory_.size()));
    put32(bytes_, offset);
    put16(bytes_, 0);
    return std::move(bytes_);
}

}  // namespace firstoff
