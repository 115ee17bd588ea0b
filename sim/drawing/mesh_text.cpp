#include "sim/drawing/mesh_text.h"

#include <fmt/format.h>

#include <bit>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <utility>

#include "sim/base/characters.h"
#include "sim/base/say.h"

namespace firstoff {

namespace {

constexpr double kLargestFigure = 1e9;  // far from where a float ends
constexpr std::size_t kStlHeader = 84, kStlTriangle = 50;

bool same(std::string_view a, std::string_view word) {
    if (a.size() != word.size()) return false;
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (lower(a[i]) != word[i]) return false;
    }
    return true;
}

DrawingFault damaged(std::string message, std::size_t line = 0) {
    return meshFault("mesh-not-readable", std::move(message),
                     tr("Save the body anew as STL from the program it was drawn in."), line);
}

DrawingFault badFigure(std::string_view file, std::string_view figure, std::size_t line) {
    return meshFault("mesh-bad-number",
                     say("{} has \"{}\" where a coordinate should stand.", file, figure.substr(0, 40)),
                     tr("Save the body anew as STL from the program it was drawn in."), line);
}

DrawingFault empty(std::string_view file) {
    return meshFault("mesh-empty", say("{} holds no triangles.", file),
                     tr("Save the body itself; a sketch, an empty layer or a hidden body gives such files."));
}

DrawingFault tooMany(std::string_view file, std::uint64_t count) {
    return meshFault("mesh-too-large", say("{} has {} triangles; up to {} are read.", file, count, kMostTriangles),
                     tr("Save it coarser, with a chord error of 0.1 mm or so, or leave small details such as threads "
                        "and writing out."));
}

bool isFigure(std::string_view text) {
    if (text.starts_with('+')) text.remove_prefix(1);
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc() && end == text.data() + text.size() && std::abs(value) < kLargestFigure;
}

// Words of a text, by blanks and line ends.
class Words {
public:
    explicit Words(std::string_view text) : text_(text) {}

    // Empty at the end of the text.
    std::string_view next() {
        while (at_ < text_.size() && isBlank(text_[at_])) step();
        const std::size_t from = at_;
        while (at_ < text_.size() && !isBlank(text_[at_])) ++at_;
        wordLine_ = line_;
        return text_.substr(from, at_ - from);
    }
    // Empty at the end of the line.
    std::string_view nextInLine() {
        while (at_ < text_.size() && isBlank(text_[at_]) && text_[at_] != '\n') ++at_;
        return at_ < text_.size() && text_[at_] == '\n' ? std::string_view() : next();
    }
    void skipLine() {
        while (at_ < text_.size() && text_[at_] != '\n') ++at_;
    }
    bool atEnd() const { return at_ >= text_.size(); }
    std::size_t line() const { return wordLine_; }

private:
    static bool isBlank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n' || c == '\v' || c == '\f'; }
    void step() {
        if (text_[at_++] == '\n') ++line_;
    }

    std::string_view text_;
    std::size_t at_ = 0, line_ = 1, wordLine_ = 1;
};

// solid NAME / facet normal x y z / outer loop / vertex x y z, three times / endloop / endfacet / … / endsolid NAME
class StlText {
public:
    StlText(std::string_view text, std::string_view file) : words_(text), file_(file) {}

    MeshText read() {
        MeshText text;
        text.fault = fault();
        text.triangles = count_;
        return text;
    }

private:
    std::optional<DrawingFault> fault() {
        std::string_view word = words_.next();
        while (!word.empty()) {
            if (!same(word, "solid")) return unexpected(word, "solid");
            words_.skipLine();
            if (auto wrong = facets()) return wrong;
            word = words_.next();
        }
        if (count_ == 0) return empty(file_);
        return std::nullopt;
    }

    std::optional<DrawingFault> facets() {
        for (;;) {
            const std::string_view word = words_.next();
            if (same(word, "endsolid")) {
                words_.skipLine();
                return std::nullopt;
            }
            if (!same(word, "facet")) return unexpected(word, "facet");
            if (++count_ > kMostTriangles) return tooMany(file_, count_);
            if (auto wrong = facet()) return wrong;
        }
    }

    std::optional<DrawingFault> facet() {
        if (auto wrong = expect("normal", 3)) return wrong;
        if (auto wrong = expect("outer", 0)) return wrong;
        if (auto wrong = expect("loop", 0)) return wrong;
        for (int corner = 0; corner < 3; ++corner) {
            if (auto wrong = expect("vertex", 3)) return wrong;
        }
        if (auto wrong = expect("endloop", 0)) return wrong;
        return expect("endfacet", 0);
    }

    std::optional<DrawingFault> expect(std::string_view keyword, int figures) {
        const std::string_view word = words_.next();
        if (!same(word, keyword)) return unexpected(word, keyword);
        for (int i = 0; i < figures; ++i) {
            const std::string_view figure = words_.next();
            if (figure.empty()) return unexpected(figure, tr("a coordinate"));
            if (!isFigure(figure)) return badFigure(file_, figure, words_.line());
        }
        return std::nullopt;
    }

    std::optional<DrawingFault> unexpected(std::string_view word, std::string_view wanted) const {
        if (word.empty()) return damaged(say("{} ends before its end.", file_), words_.line());
        return damaged(say("{} is no STL: \"{}\" stands where {} should.", file_, word.substr(0, 40), wanted),
                       words_.line());
    }

    Words words_;
    std::string_view file_;
    std::uint64_t count_ = 0;
};

std::uint32_t countIn(std::string_view bytes) {
    static_assert(std::endian::native == std::endian::little);
    std::uint32_t count = 0;
    std::memcpy(&count, bytes.data() + kStlHeader - 4, 4);
    return count;
}

// The number behind f, which may be v, v/t, v//n or v/t/n and count from the end; 0: no such corner.
std::uint64_t cornerOf(std::string_view word, std::uint64_t corners) {
    const std::string_view first = word.substr(0, word.find('/'));
    std::int64_t number = 0;
    const auto [end, error] = std::from_chars(first.data(), first.data() + first.size(), number);
    if (error != std::errc() || end != first.data() + first.size()) return 0;
    const auto all = static_cast<std::int64_t>(corners);
    if (number < 0) number += all + 1;
    return number >= 1 && number <= all ? static_cast<std::uint64_t>(number) : 0;
}

class ObjText {
public:
    ObjText(std::string_view text, std::string_view file) : words_(text), file_(file) {}

    MeshText read() {
        MeshText text;
        text.fault = lines();
        if (!text.fault && triangles_ == 0) text.fault = empty(file_);
        text.triangles = triangles_;
        if (!text.fault) text.rewritten = std::move(kept_);
        return text;
    }

private:
    std::optional<DrawingFault> lines() {
        for (std::string_view word = words_.next(); !word.empty(); word = words_.next()) {
            if (word == "v") {
                if (auto wrong = corner()) return wrong;
            } else if (word == "f") {
                if (auto wrong = face()) return wrong;
            } else if (!saysNothingOfTheShape(word)) {
                return damaged(say("{} has \"{}\", which is not read.", file_, word.substr(0, 40)), words_.line());
            }
            words_.skipLine();
        }
        return std::nullopt;
    }

    static bool saysNothingOfTheShape(std::string_view word) {
        for (const char* known : {"vn", "vt", "o", "g", "s", "mtllib", "usemtl", "l", "p"}) {
            if (word == known) return true;
        }
        return word.starts_with('#');
    }

    std::optional<DrawingFault> corner() {
        kept_ += 'v';
        for (int i = 0; i < 3; ++i) {
            const std::string_view figure = words_.nextInLine();
            if (!isFigure(figure)) return badFigure(file_, figure, words_.line());
            kept_ += ' ';
            kept_ += figure;
        }
        kept_ += '\n';
        ++corners_;
        return std::nullopt;
    }

    std::optional<DrawingFault> face() {
        std::uint64_t count = 0;
        kept_ += 'f';
        for (std::string_view word = words_.nextInLine(); !word.empty(); word = words_.nextInLine(), ++count) {
            const std::uint64_t number = cornerOf(word, corners_);
            if (number == 0) {
                return damaged(
                    say("{} has a face with the corner \"{}\", which is not there.", file_, word.substr(0, 40)),
                    words_.line());
            }
            fmt::format_to(std::back_inserter(kept_), " {}", number);
        }
        kept_ += '\n';
        if (count < 3) return damaged(say("{} has a face with less than three corners.", file_), words_.line());
        triangles_ += count - 2;
        if (triangles_ > kMostTriangles) return tooMany(file_, triangles_);
        return std::nullopt;
    }

    Words words_;
    std::string_view file_;
    std::string kept_;
    std::uint64_t corners_ = 0, triangles_ = 0;
};

}  // namespace

DrawingFault meshFault(const char* code, std::string message, std::string remedy, std::size_t line) {
    DrawingFault fault;
    fault.code = code;
    fault.line = line;
    fault.message = std::move(message);
    fault.remedy = std::move(remedy);
    return fault;
}

std::optional<MeshFormat> meshFormat(std::string_view fileName) {
    const auto endsIn = [&](std::string_view ending) {
        return fileName.size() > ending.size() && same(fileName.substr(fileName.size() - ending.size()), ending);
    };
    if (endsIn(".stl")) return MeshFormat::Stl;
    if (endsIn(".obj")) return MeshFormat::Obj;
    return std::nullopt;
}

MeshText lookThroughStl(std::string_view bytes, std::string_view fileName) {
    MeshText text;
    if (bytes.size() >= kStlHeader) {
        text.triangles = countIn(bytes);
        if (kStlHeader + kStlTriangle * text.triangles == bytes.size()) {
            if (text.triangles == 0) text.fault = empty(fileName);
            if (text.triangles > kMostTriangles) text.fault = tooMany(fileName, text.triangles);
            return text;
        }
    }
    if (same(Words(bytes).next(), "solid")) return StlText(bytes, fileName).read();
    text.fault = bytes.size() < kStlHeader
                     ? damaged(say("{} is no STL: it has {} bytes.", fileName, bytes.size()))
                     : damaged(say("{} is no STL, or is cut short: it says {} triangles, which take {} bytes, "
                                   "and has {} bytes.",
                                   fileName, text.triangles, kStlHeader + kStlTriangle * text.triangles, bytes.size()));
    return text;
}

MeshText lookThroughObj(std::string_view bytes, std::string_view fileName) {
    return ObjText(bytes, fileName).read();
}

}  // namespace firstoff
