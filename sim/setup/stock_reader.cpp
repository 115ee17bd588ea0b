#include "sim/setup/stock_reader.h"

#include <fmt/format.h>

#include "sim/base/say.h"
#include "sim/setup/blank_check.h"
#include "sim/setup/table_reading.h"

namespace firstoff {

namespace {

class StockReading {
public:
    StockReading(const SetupTable& table, std::vector<Finding>& findings) : t_(table), findings_(findings) {}

    Stock run(double jawFaceZ) {
        s_.material = text("material");
        s_.shape = shapeOf(text("shape"));
        s_.sizeSpan = sizeSpan();
        s_.placeSpan = spanOf("stick_out_mm");
        const double front = jawFaceZ + numberIn(t_, "stick_out_mm");
        switch (s_.shape) {
            case Stock::Shape::Round:
                return rolled("diameter_mm", front);
            case Stock::Shape::Hexagon:
            case Stock::Shape::Square:
                return rolled("across_flats_mm", front);
            case Stock::Shape::CrossSection:
            case Stock::Shape::HalfSection:
                return drawn(front);
            case Stock::Shape::Previous:
                return leftOver(front);
        }
        return s_;
    }

private:
    static Stock::Shape shapeOf(const std::string& word) {
        if (word == "hexagon") return Stock::Shape::Hexagon;
        if (word == "square") return Stock::Shape::Square;
        if (word == "cross-section") return Stock::Shape::CrossSection;
        if (word == "half-section") return Stock::Shape::HalfSection;
        if (word == "previous") return Stock::Shape::Previous;
        return Stock::Shape::Round;
    }

    std::string text(std::string_view key) const {
        const SetupEntry* entry = t_.usable(key);
        return entry ? entry->value.text : std::string();
    }

    bool flag(std::string_view key) const {
        const SetupEntry* entry = t_.usable(key);
        return entry && entry->value.flag;
    }

    SourceSpan spanOf(std::string_view key) const {
        const SetupEntry* entry = t_.find(key);
        return entry ? entry->value.span : t_.span;
    }

    SourceSpan sizeSpan() const {
        for (std::string_view key : {"diameter_mm", "across_flats_mm", "drawing", "after_program"}) {
            if (t_.find(key)) return spanOf(key);
        }
        return t_.span;
    }

    void stop(std::string_view code, SourceSpan span, std::string message, std::string remedy) {
        findings_.push_back(setupStop(code, span, std::move(message), std::move(remedy)));
    }

    // Bars as they come from the mill. Where no usable bar is given, everything is left zero and nothing is cut, rather
    // than a bar nobody has.
    Stock rolled(std::string_view sizeKey, double front) {
        const double size = numberIn(t_, sizeKey);
        const double length = numberIn(t_, "length_mm");
        if (size <= 0 || length <= 0) return s_;
        if (s_.shape != Stock::Shape::Round) s_.acrossFlats = size;
        s_.boreRadius = boreDiameter(sizeKey, size) / 2;
        s_.eccentricity = numberIn(t_, "eccentricity_mm");
        s_.outerRadius = circleRound(s_, size / 2);
        s_.frontZ = front;
        s_.backZ = front - length;
        return s_;
    }

    double boreDiameter(std::string_view sizeKey, double size) {
        const double bore = numberIn(t_, "bore_mm");
        const bool round = s_.shape == Stock::Shape::Round;
        const bool tube = text("shape") == "tube";
        if (tube && bore <= 0) {
            stop("setup-missing-key", spanOf("shape"), tr("A tube needs bore_mm."),
                 tr("Add bore_mm, or write shape = \"bar\"."));
        }
        if (round && !tube && bore > 0) {
            stop("setup-stock-contradiction", spanOf("bore_mm"), tr("A bar has no bore, yet bore_mm is given."),
                 tr("Write shape = \"tube\", or take bore_mm out."));
            return 0;
        }
        if (bore < size) return bore;
        stop("setup-stock-contradiction", spanOf("bore_mm"),
             say("The bore ({:g} mm) is not smaller than the outside ({:g} mm).", bore, size),
             say("Correct {} or bore_mm.", sizeKey));
        return 0;
    }

    Stock drawn(double front) {
        s_.drawingFile = text("drawing");
        s_.drawingLayer = text("drawing_layer");
        s_.drawingUnit = t_.usable("drawing_unit") ? text("drawing_unit") : std::string();
        s_.turnedRound = flag("turned_round");
        s_.piece = static_cast<int>(numberIn(t_, "piece"));
        s_.frontZ = s_.backZ = front;
        const bool all = s_.shape == Stock::Shape::CrossSection;
        if (all) s_.backZ = front - numberIn(t_, "length_mm");
        if (t_.find("drawing") && s_.drawingFile.empty()) noName("drawing");
        return s_;
    }

    Stock leftOver(double front) {
        s_.previousProgram = text("after_program");
        s_.previousSetup = text("after_setup");
        s_.turnedRound = flag("turned_round");
        s_.piece = static_cast<int>(numberIn(t_, "piece"));
        s_.eccentricity = numberIn(t_, "eccentricity_mm");
        s_.frontZ = s_.backZ = front;
        if (t_.find("after_program") && s_.previousProgram.empty()) noName("after_program");
        return s_;
    }

    void noName(std::string_view key) {
        const SetupEntry* entry = t_.find(key);
        if (!entry->usable) return;  // said already
        stop("setup-stock-contradiction", entry->value.span, say("{} names no file.", key),
             tr("Write the name of a file beside the set-up."));
    }

    const SetupTable& t_;
    std::vector<Finding>& findings_;
    Stock s_;
};

}  // namespace

Stock readStock(const SetupTable& table, double jawFaceZ, std::vector<Finding>& findings) {
    return StockReading(table, findings).run(jawFaceZ);
}

}  // namespace firstoff
