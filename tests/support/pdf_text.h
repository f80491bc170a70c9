// The text of a PDF, for looking for words on paper.
#pragma once

#include <string>
#include <vector>

namespace farwater::support {

enum class PdfOrder { as_seen, as_written };

// By pdftotext; throws where it refuses the bytes. As written: texts in the order in which they
// were drawn, so that a cell of a table stays together.
std::string text_of_pdf(const std::string& pdf, PdfOrder order = PdfOrder::as_seen);

// Texts of the HTML's elements that are not on the paper, blanks apart: a line may break anywhere.
// `paper` is text as written.
std::vector<std::string> missing_on_paper(const std::string& html, const std::string& paper);

}  // namespace farwater::support
