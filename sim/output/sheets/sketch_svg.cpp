#include <fmt/format.h>

#include <iterator>

#include "sim/output/finding_words.h"
#include "sim/output/sheets/sheet_html.h"
#include "sim/output/xml_text.h"

namespace firstoff {

namespace {

// A hundredth of a millimetre of paper is finer than any printer.
void append(std::string& text, double value) {
    std::string figure = fmt::format("{:.2f}", value);
    while (figure.back() == '0') figure.pop_back();
    if (figure.back() == '.') figure.pop_back();
    text += figure == "-0" ? "0" : figure;
}

void append(std::string& text, PaperPoint p) {
    append(text, p.x);
    text += ' ';
    append(text, p.y);
}

std::string fillOf(Shade shade) {
    if (shade == Shade::None) return "none";
    const auto level = static_cast<int>(greyOf(shade) * 255 + 0.5);
    return fmt::format("#{0:02x}{0:02x}{0:02x}", level);
}

// Named in the style of the sheet: see sheet_html.cpp.
const char* classOf(LineKind kind) {
    switch (kind) {
        case LineKind::None:
            return "n";
        case LineKind::Wide:
            return "w";
        case LineKind::Narrow:
            return "t";
        case LineKind::Hidden:
            return "h";
        case LineKind::Centre:
            return "c";
        case LineKind::Phantom:
            return "p";
        case LineKind::Broken:
            return "b";
        case LineKind::Fine:
            return "f";
    }
    return "n";
}

struct Writer {
    std::string& text;

    void operator()(const Stroke& stroke) const {
        text += fmt::format("<path class=\"{}\"", classOf(stroke.line));
        if (stroke.shade != Shade::None) text += fmt::format(" style=\"fill:{}\"", fillOf(stroke.shade));
        text += " d=\"";
        char command = 'M';
        for (PaperPoint p : stroke.points) {
            text += command;
            append(text, p);
            command = 'L';
        }
        text += stroke.closed ? "Z\"/>" : "\"/>";
    }

    void operator()(const Ring& ring) const {
        text += fmt::format("<circle class=\"{}\" style=\"fill:{}\" cx=\"", classOf(ring.line), fillOf(ring.shade));
        append(text, ring.centre.x);
        text += "\" cy=\"";
        append(text, ring.centre.y);
        text += "\" r=\"";
        append(text, ring.radius);
        text += "\"/>";
    }

    void operator()(const Lettering& lettering) const {
        text += "<text ";
        if (lettering.upwards) {
            text += "transform=\"translate(";
            append(text, lettering.at);
            text += ") rotate(-90)\"";
        } else {
            text += "x=\"";
            append(text, lettering.at.x);
            text += "\" y=\"";
            append(text, lettering.at.y);
            text += '"';
        }
        text += " font-size=\"";
        append(text, lettering.heightMm / kCapitalsPerSize);
        text += '"';
        if (lettering.anchor != Lettering::Anchor::Start) {
            text += lettering.anchor == Lettering::Anchor::Middle ? " text-anchor=\"middle\"" : " text-anchor=\"end\"";
        }
        if (lettering.bold) text += " font-weight=\"bold\"";
        text += '>' + xmlText(plainText(lettering.text)) + "</text>";
    }
};

}  // namespace

std::string sketchSvg(const Sketch& sketch) {
    std::string text = "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" viewBox=\"0 0 ";
    append(text, sketch.width);
    text += ' ';
    append(text, sketch.height);
    text += "\" style=\"width:";
    append(text, sketch.width);
    text += "mm\"><title>" + xmlText(plainText(sketch.title)) + "</title>";
    for (const SketchMark& mark : sketch.marks) {
        std::visit(Writer{text}, mark);
        text += '\n';
    }
    text += "</svg>";
    return text;
}

}  // namespace firstoff
