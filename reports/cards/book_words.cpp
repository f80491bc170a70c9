#include "reports/cards/book_words.h"

#include <fmt/format.h>

#include "reports/cards/card_words.h"
#include "reports/origin.h"

namespace farwater::reports {

DocumentFacts facts_of_book(const CardBook& book, const std::string& title) {
    const std::string date = book.data_date();
    return {
        .title = title + ", " + name_words(book.district().name),
        .author = std::string(recorded(book.record, "program")),
        .subject = "District file " + std::string(recorded(book.record, "district_file_sha256")),
        .creator = std::string(recorded(book.record, "program")),
        .date = (date.empty() ? "2000-01-01" : date) + "T00:00:00Z"};
}

}  // namespace farwater::reports
