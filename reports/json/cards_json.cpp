#include "reports/cards/card_book.h"
#include "reports/json/json_cells.h"

namespace farwater::reports {

std::string cards_json(const CardBook& book) {
    return dumped({{"schema_version", json_schema_version},
                   {"cards", book.sites.size()},
                   {"dump_sites_without_card", sites_left_out(book)}});
}

}  // namespace farwater::reports
