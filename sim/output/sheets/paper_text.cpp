#include "sim/output/sheets/paper_text.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <variant>

#include "sim/base/say.h"
#include "sim/output/finding_words.h"
#include "sim/output/sheets/sketch.h"

namespace firstoff {

namespace {

struct FreeFont {
    void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
};

struct SketchPen {
    const TypeCase& type;
    cairo_t* cr;

    void paint(LineKind line, Shade shade) const {
        if (shade != Shade::None) {
            const double grey = greyOf(shade);
            cairo_set_source_rgb(cr, grey, grey, grey);
            cairo_fill_preserve(cr);
        }
        if (line != LineKind::None) {
            const std::vector<double> dashes = dashesOf(line);
            cairo_set_dash(cr, dashes.data(), static_cast<int>(dashes.size()), 0);
            cairo_set_line_width(cr, widthOf(line));
            cairo_set_source_rgb(cr, 0, 0, 0);
            cairo_stroke_preserve(cr);
        }
        cairo_new_path(cr);
    }

    void operator()(const Stroke& stroke) const {
        cairo_new_path(cr);
        for (PaperPoint p : stroke.points) cairo_line_to(cr, p.x, p.y);
        if (stroke.closed) cairo_close_path(cr);
        paint(stroke.line, stroke.shade);
    }

    void operator()(const Ring& ring) const {
        cairo_new_path(cr);
        cairo_arc(cr, ring.centre.x, ring.centre.y, ring.radius, 0, 2 * std::acos(-1.0));
        cairo_close_path(cr);
        paint(ring.line, ring.shade);
    }

    void operator()(const Lettering& lettering) const {
        TypeStyle style;
        style.size = lettering.heightMm / kCapitalsPerSize * kPointsPerMm;
        style.bold = lettering.bold;
        const TypeCase::Layout layout = type.set(lettering.text, style);
        cairo_save(cr);
        cairo_translate(cr, lettering.at.x, lettering.at.y);
        cairo_scale(cr, 1 / kPointsPerMm, 1 / kPointsPerMm);
        if (lettering.upwards) cairo_rotate(cr, -std::acos(-1.0) / 2);
        const double share = lettering.anchor == Lettering::Anchor::Start    ? 0
                             : lettering.anchor == Lettering::Anchor::Middle ? 0.5
                                                                             : 1;
        cairo_move_to(cr, -share * widthOf(layout.get()),
                      -static_cast<double>(pango_layout_get_baseline(layout.get())) / PANGO_SCALE);
        cairo_set_source_rgb(cr, 0, 0, 0);
        pango_cairo_show_layout(cr, layout.get());
        cairo_restore(cr);
    }
};

}  // namespace

TypeCase::TypeCase(cairo_t* cr) : cr_(cr) {
    PangoFontMap* fonts = pango_cairo_font_map_get_default();
    context_.reset(pango_font_map_create_context(fonts));
    // A unit is a point, and letters stand where they fall: no grid of a screen.
    pango_cairo_context_set_resolution(context_.get(), 72);
    pango_context_set_round_glyph_positions(context_.get(), FALSE);
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(context_.get(), options);
    cairo_font_options_destroy(options);
    PangoFontFamily** families = nullptr;
    int count = 0;
    pango_font_map_list_families(fonts, &families, &count);
    g_free(families);
    if (count == 0)
        throw std::runtime_error(tr("no font is installed to write with; the package fonts-dejavu-core has one"));
}

TypeCase::Layout TypeCase::set(std::string_view text, const TypeStyle& style, double width) const {
    Layout layout(pango_layout_new(context_.get()));
    const std::unique_ptr<PangoFontDescription, FreeFont> font(pango_font_description_new());
    pango_font_description_set_family(font.get(), style.mono ? "DejaVu Sans Mono" : "DejaVu Sans");
    pango_font_description_set_weight(font.get(), style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(font.get(), style.size * PANGO_SCALE);
    pango_layout_set_font_description(layout.get(), font.get());
    const std::string plain = plainText(text);
    pango_layout_set_text(layout.get(), plain.data(), static_cast<int>(plain.size()));
    if (width > 0) {
        pango_layout_set_width(layout.get(), static_cast<int>(std::ceil(width * PANGO_SCALE)));
        pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
    }
    return layout;
}

double widthOf(PangoLayout* layout) {
    int width = 0;
    pango_layout_get_size(layout, &width, nullptr);
    return static_cast<double>(width) / PANGO_SCALE;
}

double heightOf(PangoLayout* layout) {
    int height = 0;
    pango_layout_get_size(layout, nullptr, &height);
    return static_cast<double>(height) / PANGO_SCALE;
}

double TypeCase::width(std::string_view text, const TypeStyle& style) const {
    return text.empty() ? 0 : widthOf(set(text, style).get());
}

double TypeCase::widestWord(std::string_view text, const TypeStyle& style) const {
    double widest = 0;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        widest = std::max(widest, width(text.substr(0, end), style));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return widest;
}

double TypeCase::height(std::string_view text, const TypeStyle& style, double width) const {
    return heightOf(set(text, style, width).get());
}

double TypeCase::draw(std::string_view text, const TypeStyle& style, double x, double y, double width) const {
    const Layout layout = set(text, style, width);
    cairo_move_to(cr_, x, y);
    cairo_set_source_rgb(cr_, style.grey, style.grey, style.grey);
    pango_cairo_show_layout(cr_, layout.get());
    return heightOf(layout.get());
}

void drawSketch(const TypeCase& type, const Sketch& sketch, double x, double y) {
    cairo_t* cr = type.cairo();
    cairo_save(cr);
    cairo_translate(cr, x, y);
    cairo_scale(cr, kPointsPerMm, kPointsPerMm);
    cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
    for (const SketchMark& mark : sketch.marks) std::visit(SketchPen{type, cr}, mark);
    cairo_restore(cr);
}

}  // namespace firstoff
