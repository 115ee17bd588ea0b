#include "sim/plain_words/wrapped_lines.h"

namespace firstoff {

std::string wrappedLines(std::string_view text, std::size_t wide, std::size_t indent) {
    std::string lines;
    while (text.size() > wide) {
        const std::size_t at = text.rfind(' ', wide);
        if (at == std::string_view::npos || at == 0) break;
        lines += text.substr(0, at);
        lines += '\n';
        lines.append(indent, ' ');
        text = text.substr(at + 1);
    }
    lines += text;
    return lines;
}

}  // namespace firstoff
