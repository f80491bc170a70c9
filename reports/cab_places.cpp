#include "reports/cab_places.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <vector>

#include <fmt/format.h>

#include "reports/layers.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {
namespace {

struct CabPlace {
    std::string_view group;
    std::string name, note, kind;
    Point place;
};

// One row of a layer, by its columns' names, so that a note says what the layer says.
class LayerRow {
public:
    LayerRow(const io::FeatureTable& table, std::size_t index) : table_(table) {
        row_.values.resize(table.columns.size());
        table.fill(index, row_);
    }
    Point place() const { return row_.shape.empty() ? Point{} : row_.shape.front(); }
    std::string text(std::string_view column) const {
        const auto* words = std::get_if<std::string_view>(&value(column));
        return words == nullptr ? "" : std::string(*words);
    }
    std::optional<double> number(std::string_view column) const {
        const io::Value& cell = value(column);
        if (const auto* whole = std::get_if<std::int64_t>(&cell)) {
            return static_cast<double>(*whole);
        }
        const auto* real = std::get_if<double>(&cell);
        return real == nullptr ? std::nullopt : std::optional(*real);
    }
    bool yes(std::string_view column) const {
        const auto* yes = std::get_if<bool>(&value(column));
        return yes != nullptr && *yes;
    }

private:
    const io::Value& value(std::string_view column) const {
        const auto found = std::ranges::find(table_.columns, column, &io::Column::name);
        return row_.values.at(static_cast<std::size_t>(found - table_.columns.begin()));
    }
    const io::FeatureTable& table_;
    io::Row row_;
};

std::string in_words(std::string word) {
    std::ranges::replace(word, '_', ' ');
    return word;
}

// Whole, rounded down, with commas.
std::string with_commas(double number) {
    std::string digits = fmt::format("{:.0f}", std::floor(number));
    for (std::size_t at = digits.size(); at > 3;) {
        at -= 3;
        digits.insert(at, 1, ',');
    }
    return digits;
}

std::string_view lane_in_words(const std::string& lane) {
    return lane == "through" ? "Tankers drive through." : "Tankers must back or turn.";
}

std::string count_of_parcels(const LayerRow& row) {
    const double served = row.number("parcels_served").value_or(0.0);
    return fmt::format("Serves {} parcel{}.", with_commas(served), served == 1.0 ? "" : "s");
}

constexpr std::string_view planning = "Planning figures: prove them by a timed drill.";

CabPlace fill_site(const LayerRow& row) {
    const std::string id = row.text("source_id");
    const std::string name = row.text("name");
    const std::string kind = in_words(row.text("kind"));
    std::string note =
        fmt::format("Fill site, {}. {} gpm ({}), ", kind,
                    with_commas(row.number("rate_gpm").value_or(0.0)), row.text("evidence"));
    const auto gallons = row.number("usable_gal");
    note += gallons ? fmt::format("{} gal usable in a drought. ", with_commas(*gallons))
                    : "volume without limit. ";
    const double places = row.number("places").value_or(1.0);
    note += fmt::format("{} tanker{} at once. ", with_commas(places), places == 1.0 ? "" : "s");
    note += row.yes("needs_engine") ? "An engine must pump. " : "";
    note += lane_in_words(row.text("lane_class"));
    const std::string seasons = row.text("open_in");
    note += seasons.empty() ? " " : fmt::format(" Counts in {}. ", seasons);
    note += fmt::format("{} {}", count_of_parcels(row), planning);
    return {"Fill sites", name.empty() ? id : fmt::format("{} {}", id, name), note, kind,
            row.place()};
}

CabPlace dump_site(const LayerRow& row) {
    const std::string road = row.text("road");
    std::string note = road.empty() ? "Dump site. " : fmt::format("Dump site on {}. ", road);
    note += lane_in_words(row.text("lane_class"));
    note += row.yes("single_file") ? " Tankers cannot meet there." : "";
    const auto grade = row.number("grade_pct");
    note += grade ? fmt::format(" Grade {:.1f} %.", *grade) : "";
    const auto trip = row.number("round_trip_min");
    note += trip ? fmt::format(" Nearest fill site {}, {:.1f} min driving out and back.",
                               row.text("nearest_source_id"), *trip)
                 : "";
    note += fmt::format(" {} {}", count_of_parcels(row), planning);
    return {"Dump sites", row.text("dump_site_id"), note, "dump site", row.place()};
}

std::vector<CabPlace> places_of(const Findings& findings) {
    std::vector<CabPlace> places;
    const io::FeatureTable fills = fill_sites(findings);
    for (std::size_t row = 0; row < fills.rows; ++row) {
        places.push_back(fill_site({fills, row}));
    }
    const io::FeatureTable dumps = dump_sites(findings);
    for (std::size_t row = 0; row < dumps.rows; ++row) {
        const LayerRow site(dumps, row);
        if (site.yes("officers_place") || site.number("parcels_served").value_or(0.0) > 0.0) {
            places.push_back(dump_site(site));
        }
    }
    return places;
}

}  // namespace

io::FeatureTable cab_places(const Findings& findings) {
    const auto places = std::make_shared<const std::vector<CabPlace>>(places_of(findings));
    const auto cell = [places](std::string CabPlace::* member) {
        return [places, member](std::size_t row) { return value_of((*places)[row].*member); };
    };
    return layer({"places", "Fill sites and dump sites",
                  "Planning figures: prove them by a timed drill. Look at each place before you "
                  "plan on it."},
                 io::ShapeKind::point,
                 {
                     text("group", "Fill sites or dump sites.",
                          [places](std::size_t row) { return value_of((*places)[row].group); }),
                     text("name", "Id and name.", cell(&CabPlace::name)),
                     text("note", "What to know there.", cell(&CabPlace::note)),
                     text("kind", "What it is.", cell(&CabPlace::kind)),
                 },
                 places->size(),
                 [places](std::size_t row) { return Polyline{(*places)[row].place}; });
}

}  // namespace farwater::reports
