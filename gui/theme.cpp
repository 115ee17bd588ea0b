#include "gui/theme.h"

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <numbers>
#include <vector>

#include "gui/scene/lathe_scene.h"

namespace firstoff::gui {

namespace {

// Okabe and Ito.
constexpr Colour kOrange = hex(0xE69F00);
constexpr Colour kSkyBlue = hex(0x56B4E9);
constexpr Colour kBluishGreen = hex(0x009E73);
constexpr Colour kBlue = hex(0x0072B2);
constexpr Colour kReddishPurple = hex(0xCC79A7);

// Safety colours in the manner of ISO 3864-4, as near as a screen shows them.
constexpr Colour kSafetyRed = hex(0xC4252B);
constexpr Colour kSafetyYellow = hex(0xF5B400);
constexpr Colour kSafetyGreen = hex(0x16885A);

void fillHues(Palette& p) {
    // Words stand on the panel, on the current block and on a selection: the least kind of the three decides.
    const auto word = [&](Colour hue) {
        return legible(legible(legible(hue, p.panel, p.textContrast), p.current, p.textContrast), p.selection,
                       p.textContrast);
    };
    const auto mark = [&](Colour hue) { return legible(hue, p.panel, p.markContrast); };
    p.cutting = mark(mixed(kBluishGreen, p.panel, 0.2));  // fills most of a lane: calmer than pure
    p.rapid = mark(kOrange);
    p.waiting = mark(kReddishPurple);
    p.spindle = mark(kSkyBlue);
    // Caution stays yellow on light ground too, or it would not mean caution; its mark gets an outline there.
    p.severity = {mark(p.quiet), kSafetyYellow, mark(kSafetyRed)};
    p.safe = mark(kSafetyGreen);
    p.unproven = kSafetyYellow;
    p.wordMotion = word(p.text);
    p.wordAxis = word(p.dark ? kSkyBlue : kBlue);
    p.wordFeed = word(kBluishGreen);
    p.wordTool = word(kOrange);
    p.wordMisc = word(kReddishPurple);
    p.wordOther = word(p.quiet);
    p.comment = word(p.quiet);
}

Palette makeDark() {
    Palette p;
    p.dark = true;
    p.ground = hex(0x101316);
    p.panel = hex(0x181C21);
    p.raised = hex(0x252B33);
    p.hovered = hex(0x323B46);
    p.line = hex(0x39424D);
    p.text = hex(0xE9ECEF);
    p.quiet = hex(0xA4AFBA);
    p.accent = kSkyBlue;
    p.current = hex(0x1F3A4D);
    p.selection = hex(0x3A4350);
    fillHues(p);
    return p;
}

Palette makeLight() {
    Palette p;
    p.dark = false;
    p.ground = hex(0xDADDE0);
    p.panel = hex(0xF7F7F5);
    p.raised = hex(0xE6E8EA);
    p.hovered = hex(0xD3D9DF);
    p.line = hex(0xB5BCC4);
    p.text = hex(0x16191D);
    p.quiet = hex(0x50585F);
    p.accent = kBlue;
    p.current = hex(0xCFE5F5);
    p.selection = hex(0xD5D9DE);
    fillHues(p);
    return p;
}

Palette makeProjector(bool dark) {
    Palette p;
    p.dark = dark;
    p.projector = true;
    p.textContrast = 7;
    p.markContrast = 4.5;
    p.ground = hex(dark ? 0x000000 : 0xE4E7EA);
    p.panel = hex(dark ? 0x07090B : 0xFFFFFF);
    p.raised = hex(dark ? 0x1B2026 : 0xE9ECEF);
    p.hovered = hex(dark ? 0x2A323B : 0xD8DEE4);
    p.line = hex(dark ? 0x77828E : 0x7B858F);
    p.text = hex(dark ? 0xFFFFFF : 0x000000);
    p.quiet = hex(dark ? 0xD3DAE1 : 0x2B3136);
    p.accent = dark ? kSkyBlue : legible(kBlue, p.panel, p.markContrast);
    p.current = hex(dark ? 0x17324A : 0xC6E2F7);
    p.selection = hex(dark ? 0x2F3946 : 0xD3D9E0);
    fillHues(p);
    return p;
}

// Where Debian and its kin keep DejaVu.
constexpr const char* kFontFolders[] = {"/usr/share/fonts/truetype/dejavu", "/usr/share/fonts/TTF",
                                        "/usr/share/fonts/dejavu", "/usr/share/fonts/dejavu-sans-fonts"};

ImFont* loadFont(const char* file, float pixels, Fonts& fonts) {
    ImGuiIO& io = ImGui::GetIO();
    // Latin with its extensions, Greek, punctuation, arrows and the few signs we use.
    static const ImWchar kRanges[] = {0x0020, 0x017F, 0x0370, 0x03FF, 0x2000, 0x206F,
                                      0x2190, 0x21FF, 0x2200, 0x22FF, 0};
    std::vector<std::filesystem::path> folders(std::begin(kFontFolders), std::end(kFontFolders));
    if (const char* own = std::getenv("FIRSTOFF_FONTS"); own && *own) folders = {own};
    for (const std::filesystem::path& folder : folders) {
        const std::filesystem::path path = folder / file;
        std::error_code error;
        if (!std::filesystem::exists(path, error)) continue;
        ImFontConfig config;
        config.OversampleH = 1;  // letters stand on whole pixels, see drawTypePixelForPixel()
        config.OversampleV = 1;
        config.PixelSnapH = true;
        return io.Fonts->AddFontFromFileTTF(path.c_str(), std::round(pixels), &config, kRanges);
    }
    fonts.fallback = true;
    ImFontConfig config;
    config.SizePixels = std::round(pixels);
    return io.Fonts->AddFontDefault(&config);
}

struct MarkInk {
    ImU32 fill = 0;
    ImU32 outline = 0;  // 0: none needed
};

void drawPolygon(ImDrawList& list, ImVec2 centre, float radius, int corners, float turn, MarkInk with) {
    const auto path = [&] {
        for (int i = 0; i < corners; ++i) {
            const float angle =
                turn + 2 * std::numbers::pi_v<float> * static_cast<float>(i) / static_cast<float>(corners);
            list.PathLineTo({centre.x + radius * std::cos(angle), centre.y + radius * std::sin(angle)});
        }
    };
    path();
    list.PathFillConvex(with.fill);
    if (with.outline == 0) return;
    path();
    list.PathStroke(with.outline, ImDrawFlags_Closed, 1.0f);
}

}  // namespace

const Palette& darkPalette() {
    static const Palette palette = makeDark();
    return palette;
}

const Palette& lightPalette() {
    static const Palette palette = makeLight();
    return palette;
}

const Palette& projectorPalette(bool dark) {
    static const Palette light = makeProjector(false), night = makeProjector(true);
    return dark ? night : light;
}

const Palette& paletteFor(bool dark, bool projector) {
    if (projector) return projectorPalette(dark);
    return dark ? darkPalette() : lightPalette();
}

Colour toolHue(const Palette&, int station) {
    return hex(stationColour(station));
}

bool needsOutline(const Palette& palette, Colour mark) {
    return contrast(mark, palette.panel) < palette.markContrast;
}

Fonts loadFonts(float scale, bool projector) {
    ImGui::GetIO().Fonts->Clear();
    if (projector) scale *= kProjectorType;
    Fonts fonts;
    fonts.scale = scale;
    fonts.stroke = projector ? kProjectorLines / kProjectorType : 1.0f;
    fonts.text = loadFont("DejaVuSans.ttf", 14 * scale, fonts);
    fonts.strong = loadFont("DejaVuSans-Bold.ttf", 14 * scale, fonts);
    // From the last row of a classroom small type is none: nearly the size of the rest.
    fonts.small = loadFont("DejaVuSans.ttf", (projector ? 13.0f : 11.5f) * scale, fonts);
    fonts.mono = loadFont("DejaVuSansMono.ttf", 14 * scale, fonts);
    fonts.figures = loadFont("DejaVuSansMono.ttf", 21 * scale, fonts);
    return fonts;
}

void applyStyle(const Palette& p, float scale) {
    ImGuiStyle style;
    style.WindowRounding = 0;
    style.ChildRounding = 0;
    style.FrameRounding = 3;
    style.PopupRounding = 4;
    style.GrabRounding = 3;
    style.ScrollbarRounding = 3;
    style.ScrollbarSize = 12;
    style.WindowBorderSize = 0;
    style.ChildBorderSize = 0;
    style.PopupBorderSize = 1;
    style.WindowPadding = {8, 8};
    style.FramePadding = {7, 4};
    style.ItemSpacing = {7, 5};
    style.WindowMinSize = {16, 16};
    style.AntiAliasedLinesUseTex = false;  // needs the blending that drawTypePixelForPixel() gives up
    style.ScaleAllSizes(scale);
    const auto set = [&](int which, Colour colour, float alpha = 1.0f) { style.Colors[which] = tint(colour, alpha); };
    set(ImGuiCol_Text, p.text);
    set(ImGuiCol_TextDisabled, p.quiet);
    set(ImGuiCol_WindowBg, p.panel);
    set(ImGuiCol_ChildBg, p.panel, 0);
    set(ImGuiCol_PopupBg, p.panel);
    set(ImGuiCol_MenuBarBg, p.ground);
    set(ImGuiCol_Border, p.line);
    set(ImGuiCol_FrameBg, p.raised);
    set(ImGuiCol_FrameBgHovered, p.hovered);
    set(ImGuiCol_FrameBgActive, p.hovered);
    set(ImGuiCol_Button, p.raised);
    set(ImGuiCol_ButtonHovered, p.hovered);
    set(ImGuiCol_ButtonActive, p.line);
    set(ImGuiCol_Header, p.current);
    set(ImGuiCol_HeaderHovered, p.hovered);
    set(ImGuiCol_HeaderActive, p.line);
    set(ImGuiCol_TitleBg, p.raised);
    set(ImGuiCol_TitleBgActive, p.raised);
    set(ImGuiCol_ScrollbarBg, p.panel);
    set(ImGuiCol_ScrollbarGrab, p.line);
    set(ImGuiCol_ScrollbarGrabHovered, p.quiet);
    set(ImGuiCol_ScrollbarGrabActive, p.quiet);
    set(ImGuiCol_CheckMark, p.accent);
    set(ImGuiCol_SliderGrab, p.accent);
    set(ImGuiCol_SliderGrabActive, p.accent);
    set(ImGuiCol_PlotHistogram, p.accent);
    set(ImGuiCol_Separator, p.line);
    set(ImGuiCol_TableHeaderBg, p.raised);
    set(ImGuiCol_TableBorderStrong, p.line);
    set(ImGuiCol_TableBorderLight, p.line, 0.6f);
    set(ImGuiCol_TableRowBg, p.panel, 0);
    set(ImGuiCol_TableRowBgAlt, p.raised, 0.35f);
    set(ImGuiCol_TextSelectedBg, p.selection);
    set(ImGuiCol_ModalWindowDimBg, p.ground, 0.6f);
    ImGui::GetStyle() = style;
}

void drawSeverity(ImDrawList& list, ImVec2 centre, float size, const Palette& p, Severity severity, bool unproven) {
    const float half = 0.5f * size;
    const float eighth = std::numbers::pi_v<float> / 8;
    const bool asks = unproven && severity != Severity::Stop;
    const Colour fill = asks ? p.unproven : p.severity[static_cast<std::size_t>(severity)];
    const bool faint = contrast(fill, p.panel) < p.markContrast;
    const MarkInk with{ink(fill), faint ? ink(p.text) : 0};
    const char* letter = "n";
    float letterDown = 0;
    if (asks) {
        drawPolygon(list, centre, half * 1.15f, 4, 0, with);
        letter = "?";
    } else if (severity == Severity::Stop) {
        drawPolygon(list, centre, half * 1.08f, 8, eighth, with);
        letter = "S";
    } else if (severity == Severity::Warning) {
        drawPolygon(list, {centre.x, centre.y + half * 0.25f}, half * 1.25f, 3, -4 * eighth, with);
        letter = "!";
        letterDown = half * 0.3f;
    } else {
        list.AddCircleFilled(centre, half, ink(fill), 20);
    }
    const Colour on = inkOn(fill);
    ImFont* font = ImGui::GetFont();
    const float letterSize = size * 0.82f;
    const ImVec2 extent = font->CalcTextSizeA(letterSize, 1e9f, 0, letter);
    list.AddText(font, letterSize, {centre.x - 0.5f * extent.x, centre.y - 0.5f * extent.y + letterDown}, ink(on),
                 letter);
}

}  // namespace firstoff::gui
