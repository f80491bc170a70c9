// The facts of the calculation sheets as a table, a row for each place.
#include <array>
#include <iterator>
#include <memory>
#include <utility>

#include "reports/rating/calculation_facts.h"
#include "reports/rating/rating_tables.h"

namespace farwater::reports {
namespace {

using supply::ParcelSupply;

// Only a view of the findings; texts that are made live with it.
struct CalculatedPlaces {
    const Findings findings;
    std::vector<std::array<std::string, 2>> texts;  // sources, engines that make water
    std::vector<GallonsOfPlan> gallons;

    explicit CalculatedPlaces(const Findings& all) : findings(all) {
        for (std::size_t i = 0; i < findings.rating->calculations.size(); ++i) {
            texts.push_back(
                {ids_of_sources(findings, brought(i)), makers_in_words(findings, brought(i))});
            gallons.push_back(gallons_of_plan(findings, place(i), brought(i)));
        }
    }
    const rating::PlaceCalculation& chosen(std::size_t i) const {
        return findings.rating->calculations[i];
    }
    const rating::PlaceRating& place(std::size_t i) const {
        return findings.rating->places[chosen(i).row];
    }
    const ParcelSupply& brought(std::size_t i) const {
        return findings.rating->brought.supplies[chosen(i).row];
    }
    const supply::Variant& variant(std::size_t i) const {
        const supply::Assessment& all = findings.rating->brought;
        return all.variants[all.worst_variant[chosen(i).row]].variant;
    }
};

using Places = std::shared_ptr<const CalculatedPlaces>;

std::vector<ColumnOf> columns_of_chosen(const Places& of) {
    return {
        text("parcel_id", "Parcel of a calculation sheet.",
             [of](std::size_t i) {
                 return value_of(of->findings.district.parcels[of->chosen(i).row].id);
             }),
        text("chosen_as", "Why it has a sheet.",
             [of](std::size_t i) { return value_of(of->chosen(i).why); }),
        text("rating_category", "In the terms' own words.",
             [of](std::size_t i) {
                 return value_of(category_word(of->findings.rating->terms, of->place(i).category));
             }),
        text("rating_fails_first", "Which of the terms it fails first.",
             [of](std::size_t i) { return io::Value{word(of->place(i).fails)}; }),
        real(
            "rating_station_mi", "Road miles from an own station; empty: no way there.",
            [of](std::size_t i) { return value_of(of->place(i).station_mi); }, 2),
        text("creditable_source_id", "Nearest source by hose that counts.",
             [of](std::size_t i) {
                 const SourceIndex nearest = of->place(i).nearest;
                 return nearest.valid() ? value_of(at(of->findings.district.sources, nearest).id)
                                        : io::Value{};
             }),
        real(
            "creditable_hose_ft", "Hose to it along roads and drives, feet.",
            [of](std::size_t i) { return value_of(of->place(i).hose_ft); }, 0),
        real("by_hose_gpm", "Credited by hose, gpm.",
             [of](std::size_t i) { return value_of(of->place(i).by_hose); }),
        real("credited_gpm", "Credited in all, gpm.",
             [of](std::size_t i) { return value_of(of->place(i).credited); }),
        text("rating_season", "Season of these numbers, the worst one.",
             [of](std::size_t i) {
                 return value_of(at(of->findings.district.seasons, of->variant(i).season).name);
             }),
        text("rating_period", "Period of these numbers, the worst one.",
             [of](std::size_t i) {
                 return value_of(at(of->findings.district.periods, of->variant(i).period).name);
             }),
    };
}

std::vector<ColumnOf> columns_of_brought(const Places& of) {
    return {
        text("rating_mode", "How water is brought: shuttle, direct, relay or none.",
             [of](std::size_t i) { return io::Value{word(of->brought(i).mode)}; }),
        text("fill_source_ids", "From where, all that are in use at the same time.",
             [of](std::size_t i) { return value_of(of->texts[i][0]); }),
        real("first_engine_min", "First engine, minutes from the alarm; empty: not worked out.",
             [of](std::size_t i) { return value_of(of->brought(i).first_engine); }),
        real("rating_start_min",
             "When the minimum flow begins, minutes by the terms' clock; empty: not within the "
             "late horizon.",
             [of](std::size_t i) { return value_of(of->place(i).start); }),
        real("rating_gap_min", "Minutes without water before that; empty: no supply goes on.",
             [of](std::size_t i) { return value_of(of->brought(i).gap); }),
        text("makers", "Engines that make water.",
             [of](std::size_t i) { return value_of(of->texts[i][1]); }),
        integer("rating_tankers", "Tankers in the shuttle.",
                [of](std::size_t i) { return value_of_count(of->brought(i).tankers); }),
        yes_no("rating_nursing",
               "A tanker feeds the engine at the fire by its own pump until the draft is up.",
               [of](std::size_t i) { return io::Value{of->brought(i).nurse.valid()}; }),
    };
}

std::vector<ColumnOf> columns_of_flow(const Places& of) {
    const auto if_shuttle = [of](std::size_t i, io::Value value) {
        return of->brought(i).mode == SupplyMode::shuttle ? value : io::Value{};
    };
    const auto volume = [](std::optional<Volume> of_it) {
        return of_it ? io::Value{in_gallons(*of_it)} : io::Value{};
    };
    return {
        real("round_trip_min", "Driving of the first tanker, minutes; empty: no shuttle.",
             [=](std::size_t i) { return if_shuttle(i, value_of(of->brought(i).round_trip)); }),
        real("handbook_gpm", "Sum of undisturbed cycles, gpm; empty: no shuttle.",
             [=](std::size_t i) { return if_shuttle(i, value_of(of->brought(i).handbook)); }),
        real("cautious_gpm", "Cautious flow held, gpm.",
             [of](std::size_t i) { return value_of(of->brought(i).cautious); }),
        real("one_tanker_out_gpm", "The same without the tanker that is missed most, gpm.",
             [of](std::size_t i) { return value_of(of->brought(i).one_tanker_out); }),
        text("binding_limit", "What sets the flow, or why there is none.",
             [of](std::size_t i) { return io::Value{word(of->brought(i).limit)}; }),
        real(
            "minimum_gal", "For the minimum flow over the duration, gallons.",
            [=](std::size_t i) { return volume(of->gallons[i].minimum); }, 0),
        real(
            "credited_gal",
            "For the brought flow that is credited, rounded down as on the sheet, gallons; empty: "
            "no more than the minimum.",
            [=](std::size_t i) { return volume(of->gallons[i].credited); }, 0),
        real(
            "there_gal", "At its sources over the duration, gallons; empty: unlimited, or none.",
            [=](std::size_t i) { return volume(of->gallons[i].there); }, 0),
        yes_no("unlimited", "One of its sources is unlimited, as stated.",
               [of](std::size_t i) { return io::Value{of->gallons[i].unlimited}; }),
    };
}

}  // namespace

io::FeatureTable rating_calculations(const Findings& findings) {
    const Places places = std::make_shared<const CalculatedPlaces>(findings);
    std::vector<ColumnOf> columns = columns_of_chosen(places);
    std::ranges::move(columns_of_brought(places), std::back_inserter(columns));
    std::ranges::move(columns_of_flow(places), std::back_inserter(columns));
    return table({"rating_calculations", "Facts of the calculation sheets, place by place",
                  "Worst season and period of each parcel, with what the terms count."},
                 std::move(columns), findings.rating->calculations.size());
}

}  // namespace farwater::reports
