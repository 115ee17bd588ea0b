// Figures as bytes, the least first, whatever the machine.
#pragma once

#include <bit>
#include <cstdint>
#include <string>

namespace firstoff {

inline void putByte(std::string& bytes, std::uint32_t value) {
    bytes.push_back(static_cast<char>(value & 0xffu));
}
inline void put16(std::string& bytes, std::uint32_t value) {
    putByte(bytes, value);
    putByte(bytes, value >> 8);
}
inline void put32(std::string& bytes, std::uint32_t value) {
    put16(bytes, value);
    put16(bytes, value >> 16);
}
inline void putFloat(std::string& bytes, float value) {
    put32(bytes, std::bit_cast<std::uint32_t>(value));
}

}  // namespace firstoff
