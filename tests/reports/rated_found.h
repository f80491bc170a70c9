// What a run with a rating could have found, with a hostile name wherever data give one.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "analyzer/rating/chosen_places.h"
#include "io/settings/read_standard.h"
#include "reports/layers.h"
#include "reports/rating/rating_documents.h"
#include "tests/reports/found.h"

namespace farwater::reports::test {

inline constexpr const char* hostile = "<script>alert('x')</script> & \"Co\"";

// Four parcels: with water, without, no building, too far; two sources, one of them offered.
struct RatedFound : Found {
    rating::Rating rating;

    RatedFound() {
        district.name = hostile;
        district.rating =
            RatingRules{RatingTerms::schedule, io::built_in_terms(RatingTerms::schedule)};
        rating.terms = rating::terms_of(district.rating->standard);
        add_source("W<1>", SourceUse::rating);
        add_source("W2", SourceUse::operations);
        rating.sources[0].lacks = {rating::SourceLack::certificate, rating::SourceLack::permission};
        rating.sources[1].lacks = {rating::SourceLack::use};
        district.stations.push_back({.id = "S1", .name = hostile});
        district.units.push_back(
            {.id = "E1", .station = StationIndex(0), .kind = UnitKind::engine});
        district.units.push_back({.id = hostile,
                                  .station = StationIndex(0),
                                  .kind = UnitKind::tanker,
                                  .tank = gallons(2000)});
        district.parcels[0].buildings = 2;
        district.parcels[0].building_area_m2 = 100.0F;
        district.parcels[0].value = 250000.0F;
        rating.brought = assessment;
        rating.brought.supplies[1].makers[0] = UnitIndex(0);
        rating.brought.supplies[1].mode = SupplyMode::shuttle;
        for (const auto category :
             {rating::Category::near_with_water, rating::Category::near_without_water,
              rating::Category::no_building, rating::Category::otherwise}) {
            rating::PlaceRating place;
            place.category = category;
            rating.places.push_back(place);
        }
        rating.places[1].fails = rating::Fails::start;
        rating.places[1].start = supply::TenthsMinute{181};
        rating.places[3].fails = rating::Fails::station;
        for (rating::ChosenPlace& place : rating::chosen_places(rating.places)) {
            rating.calculations.push_back({std::move(place.why), place.row, {}});
        }
    }

    void add_source(const std::string& id, SourceUse use) {
        WaterSource source;
        source.id = id;
        source.name = hostile;
        source.use = use;
        source.owner = hostile;
        district.sources.push_back(source);
        water.counts.push_back(false);
        rating::SourceVerdict verdict;
        verdict.is_candidate = use == SourceUse::rating;
        rating.sources.push_back(verdict);
    }

    Findings rated() const {
        Findings all = findings();
        all.rating = &rating;
        return all;
    }
};

inline RunRecord record_of_rated() {
    return {{"program", "farwater 9.9.9"},
            {"district_file", "<b>.toml"},
            {"district_file_sha256", std::string(64, 'a')},
            {"crs", "EPSG:32618"}};
}

inline std::vector<RatingDocument> documents_of(const Findings& findings) {
    return rating_documents(findings, record_of_rated(),
                            rating_sheets(findings, record_of_rated()));
}

inline const std::string& html_in(const std::vector<RatingDocument>& documents,
                                  const std::string& file) {
    return std::ranges::find(documents, file, &RatingDocument::file)->html;
}

}  // namespace farwater::reports::test
