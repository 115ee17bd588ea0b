#include "sim/output/sheets/sheet_pdf.h"

#include <algorithm>
#include <memory>
#include <stdexcept>

#include <cairo-pdf.h>

#include "sim/base/say.h"
#include "sim/output/finding_words.h"
#include "sim/output/sheets/paper_pages.h"
#include "sim/output/sheets/paper_parts.h"

namespace firstoff {

namespace {

struct EndSurface {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct EndContext {
    void operator()(cairo_t* cr) const { cairo_destroy(cr); }
};

cairo_status_t keep(void* closure, const unsigned char* bytes, unsigned int length) {
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(bytes), length);
    return CAIRO_STATUS_SUCCESS;
}

void titleBlock(PaperPages& pages, const Sheet& sheet) {
    const TypeCase& type = pages.type();
    constexpr double kInside = 6;
    const double from = pages.y(), width = kBodyPt - 2 * kInside;
    pages.advance(kInside);
    pages.advance(type.draw(sheet.title, {16, true, false, 0}, pages.left() + kInside, pages.y(), width) + 1);
    if (!sheet.subject.empty()) {
        pages.advance(type.draw(sheet.subject, {10, false, false, 0}, pages.left() + kInside, pages.y(), width) + 3);
    }
    pages.advance(drawFacts(type, sheet.made, pages.left() + kInside, pages.y(), width) + kInside);
    cairo_t* cr = type.cairo();
    cairo_set_source_rgb(cr, 0, 0, 0);
    cairo_set_line_width(cr, 1);
    cairo_rectangle(cr, pages.left(), from, kBodyPt, pages.y() - from);
    cairo_stroke(cr);
    pages.advance(8);
}

void section(PaperPages& pages, const SheetSection& section) {
    constexpr TypeStyle kHeading{11.5, true, false, 0};
    constexpr double kAbove = 8, kBelow = 4;
    const TypeCase& type = pages.type();
    const double height = type.height(section.heading, kHeading, kBodyPt);
    // A heading stays with what it heads.
    const double first = section.parts.empty() ? 0 : leastHeight(type, section.parts.front());
    if (section.newPage && !pages.isEmpty()) pages.nextPage();
    const double above = pages.isEmpty() ? 0 : kAbove;
    pages.need(above + height + kBelow + std::min(first, pages.wholeRoom() - height - kBelow));
    if (!pages.isEmpty()) pages.space(kAbove);
    pages.advance(type.draw(section.heading, kHeading, pages.left(), pages.y(), kBodyPt) + 1);
    cairo_t* cr = type.cairo();
    cairo_set_source_rgb(cr, 0, 0, 0);
    cairo_set_line_width(cr, 1);
    cairo_move_to(cr, pages.left(), pages.y());
    cairo_line_to(cr, pages.left() + kBodyPt, pages.y());
    cairo_stroke(cr);
    pages.advance(kBelow);
    for (std::size_t i = 0; i < section.parts.size(); ++i) {
        // Small print belongs to what it stands below.
        const bool more = i + 1 < section.parts.size();
        const auto* next = more ? std::get_if<SheetParagraph>(&section.parts[i + 1]) : nullptr;
        const bool stays = next != nullptr && next->kind == SheetParagraph::Kind::Minor;
        drawPart(pages, section.parts[i], stays ? leastHeight(type, section.parts[i + 1]) + kBelow : 0);
    }
}

// How a sheet came out.
struct Outcome {
    int pages = 0;
    double lastFill = 0;
};

Outcome draw(cairo_t* cr, const Sheet& sheet, const PaperPages::Filling& filling) {
    const TypeCase type(cr);
    PaperPages paper(type, sheet.running, sheet.cautions, filling);
    titleBlock(paper, sheet);
    for (const SheetSection& s : sheet.sections) section(paper, s);
    Outcome outcome;
    outcome.pages = paper.finish(outcome.lastFill);
    return outcome;
}

// A document of its own; `bytes` gets the file.
Outcome document(const Sheet& sheet, const PaperPages::Filling& filling, std::string& bytes) {
    bytes.clear();
    const std::unique_ptr<cairo_surface_t, EndSurface> surface(
        cairo_pdf_surface_create_for_stream(keep, &bytes, kPageWidthPt, kPageHeightPt));
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, plainText(sheet.title).c_str());
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "firstoff");
    // The day on which it is drawn says nothing about the job.
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, "");
    Outcome outcome;
    {
        const std::unique_ptr<cairo_t, EndContext> cr(cairo_create(surface.get()));
        outcome = draw(cr.get(), sheet, filling);
        if (cairo_status(cr.get()) != CAIRO_STATUS_SUCCESS) {
            throw std::runtime_error(
                say("the PDF cannot be drawn: {}", cairo_status_to_string(cairo_status(cr.get()))));
        }
    }
    cairo_surface_finish(surface.get());
    return outcome;
}

// A last page with next to nothing on it is a page too many: with closer gaps it may go; else more is left to it.
PaperPages::Filling fillingFor(const Sheet& sheet, std::string& bytes) {
    constexpr double kLeastFill = 0.2, kCloser = 0.55, kStepPt = 20;
    PaperPages::Filling filling;
    const Outcome plain = document(sheet, filling, bytes);
    filling.pages = plain.pages;
    if (plain.pages == 1 || plain.lastFill >= kLeastFill) return filling;
    PaperPages::Filling closer = filling;
    closer.gaps = kCloser;
    closer.pages = document(sheet, closer, bytes).pages;
    if (closer.pages < plain.pages) return closer;
    PaperPages::Filling balanced = filling;
    for (balanced.lessPt = kStepPt; balanced.lessPt < kPageHeightPt / 2; balanced.lessPt += kStepPt) {
        const Outcome outcome = document(sheet, balanced, bytes);
        if (outcome.pages != plain.pages) break;
        if (outcome.lastFill >= kLeastFill) return balanced;
    }
    return filling;  // what stands there cannot be parted
}

}  // namespace

std::string sheetPdf(const Sheet& sheet) {
    // Several times to know how the pages are to be filled, once with their number said on each.
    std::string bytes;
    document(sheet, fillingFor(sheet, bytes), bytes);
    return bytes;
}

}  // namespace firstoff
