#include <memory>

#include "reports/cards/card_book.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {
namespace {

struct DispatchRow {
    std::size_t row = 0;
    std::optional<std::uint32_t> card;
    std::string dump_site, fill_sites, first_tankers;
};

// The fill sites of a place and the first tanker of each, by arrival.
void add_fills(const CardBook& book, const supply::ParcelSupply& supply, DispatchRow& into) {
    const District& district = book.district();
    const auto add = [&](SourceIndex source, UnitIndex tanker) {
        if (source.valid()) {
            into.fill_sites +=
                (into.fill_sites.empty() ? "" : "; ") + at(district.sources, source).id;
        }
        if (tanker.valid()) {
            into.first_tankers +=
                (into.first_tankers.empty() ? "" : "; ") + at(district.units, tanker).id;
        }
    };
    add(supply.fill_source, supply.first_tanker);
    for (const supply::FurtherFill& fill : supply.further_fills) {
        if (fill.source.valid()) {
            add(fill.source, fill.first_tanker);
        }
    }
}

std::vector<DispatchRow> rows_of(const CardBook& book) {
    const auto cards = card_of_rows(book);
    const auto names = dump_site_names(book.findings);
    std::vector<DispatchRow> rows;
    for (std::size_t row = 0; row < cards.size(); ++row) {
        const supply::ParcelSupply& supply = book.findings.supply(row);
        if (supply.state == SupplyState::no_building) {
            continue;
        }
        DispatchRow one{.row = row, .card = cards[row]};
        one.dump_site = supply.dump_site.valid() ? at(names, supply.dump_site) : "";
        add_fills(book, supply, one);
        rows.push_back(std::move(one));
    }
    return rows;
}

}  // namespace

io::FeatureTable dispatch_table(const CardBook& book) {
    const auto rows = std::make_shared<const std::vector<DispatchRow>>(rows_of(book));
    const auto is_parcel = [&book](std::size_t row) { return row < book.findings.parcels(); };
    std::vector<ColumnOf> columns{
        text("address", "As the parcels have it; of a target its name.",
             [rows, &book, is_parcel](std::size_t i) {
                 const std::size_t row = (*rows)[i].row;
                 return is_parcel(row)
                            ? value_of(book.address(row))
                            : value_of(book.district().targets[row - book.findings.parcels()].name);
             }),
        text("parcel_id", "Of a target its id.",
             [rows, &book](std::size_t i) {
                 return value_of(id_of(book.district(), (*rows)[i].row));
             }),
        integer("card", "Number of the run card; empty where there is none.",
                [rows](std::size_t i) {
                    return (*rows)[i].card ? value_of_count(*(*rows)[i].card + 1) : io::Value{};
                }),
        text("dump_site_id", "Where the tankers dump; empty where none do.",
             [rows](std::size_t i) { return value_of((*rows)[i].dump_site); }),
        text("fill_sites",
             "Where they fill, by their first tankers' arrival; or the source that "
             "hose comes from.",
             [rows](std::size_t i) { return value_of((*rows)[i].fill_sites); }),
        text("first_tankers", "The first to fill at each.",
             [rows](std::size_t i) { return value_of((*rows)[i].first_tankers); }),
        text("mode", "shuttle, relay, direct or none.",
             [rows, &book](std::size_t i) {
                 return io::Value{word(book.findings.supply((*rows)[i].row).mode)};
             }),
    };
    return table({"dispatch", "Dispatch list",
                  "Which run card, dump site, fill sites and first tankers for each address."},
                 std::move(columns), rows->size());
}

}  // namespace farwater::reports
