// Words and figures as papers have them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace firstoff {

// Fixed decimals, point, no thousands mark, never "-0.00"; "–" for what is no number.
std::string figure(double value, int decimals);
// With the decimals that are needed, at most so many: feeds, pitches.
std::string shortFigure(double value, int mostDecimals);

// At most so many characters; a longer one ends in "…". Not through the middle of a character.
std::string shortened(std::string_view text, std::size_t characters);

// Cells of one column filled up with figure spaces (U+2007) and punctuation spaces (U+2008) behind, so that points
// stand above one another where the cells are set to the right. Cells that are no figures, or begin with other signs,
// keep what they are.
std::vector<std::string> onThePoint(const std::vector<std::string>& cells);

}  // namespace firstoff
