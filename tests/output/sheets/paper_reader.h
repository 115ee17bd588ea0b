// Papers read back by programs of others: poppler for PDF, libxml2 for HTML and SVG.
#pragma once

#include <string>

namespace firstoff::shop {

// Text of a PDF in its layout, pages parted by form feeds. Fails the test if it cannot be read.
std::string pdfText(const std::string& pdf);
int pdfPages(const std::string& pdf);
// What a reader of XML complains about; empty for a well-formed text.
std::string xmlComplaints(const std::string& text);

}  // namespace firstoff::shop
