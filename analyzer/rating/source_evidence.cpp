#include "analyzer/rating/source_evidence.h"

#include <algorithm>
#include <array>
#include <optional>

#include "analyzer/supply/suction_point.h"

namespace farwater::rating {
namespace {

using namespace std::string_view_literals;

constexpr std::array lack_words{
    "use"sv,         "standing"sv, "test_date"sv, "test_age"sv, "test_lapsed"sv, "not_counted"sv,
    "flow"sv,        "volume"sv,   "cistern"sv,   "lift"sv,     "head"sv,        "certificate"sv,
    "all_weather"sv, "freeze"sv,   "all_year"sv,  "engine"sv,   "permission"sv};
constexpr std::array lack_sentences{
    "not declared for rating (use)"sv,
    "a test: nobody says that it was tested (standing)"sv,
    "date of its test (tested_on)"sv,
    "how old its test is: the district file says no day that the data stand for (data_date)"sv,
    "a valid test: the last one has lapsed"sv,
    "rate or usable volume at drought level is not known"sv,
    "gives less than the minimum flow"sv,
    "does not hold the minimum flow for the duration at drought level"sv,
    "cistern smaller than the terms ask for"sv,
    "lift at drought level is not known, or more than the terms allow"sv,
    "total head with losses at the minimum flow is more than the terms allow"sv,
    "certificate of the capacity in a 50-year drought"sv,
    "access in all weather is not stated"sv,
    "freeze provision: nobody says that it can be used in freezing weather (frost_proof)"sv,
    "cannot be used all year: its months, ice, or a season that leaves it out"sv,
    "no engine gets to it, or not in every season"sv,
    "the owner's written permission (agreement)"sv};

static_assert(lack_words.size() == lack_sentences.size());

bool is_open_water(SourceKind kind) {
    return kind == SourceKind::dry_hydrant || kind == SourceKind::draft_site;
}

// What its test lacks, where the terms ask for one; an age that cannot be judged is no evidence.
std::optional<SourceLack> lack_of_standing(const District& district, const WaterSource& source,
                                           const Terms& terms) {
    if (source.standing < terms.least_standing) {
        return SourceLack::standing;
    }
    if (terms.least_standing < Standing::tested) {
        return std::nullopt;
    }
    switch (supply::test_age(source, district)) {
        case supply::TestAge::undated:
            return SourceLack::test_date;
        case supply::TestAge::not_judged:
            return SourceLack::test_age;
        case supply::TestAge::lapsed:
            return SourceLack::test_lapsed;
        case supply::TestAge::none:
        case supply::TestAge::valid:
            break;
    }
    return std::nullopt;
}

// Per source, whether it can be used in every season.
std::vector<bool> open_all_year(const District& district, const supply::WaterReview& water,
                                bool but_for_ice) {
    std::vector<bool> all_year(district.sources.size(), true);
    for (Season season : district.seasons) {
        season.ice = season.ice && !but_for_ice;
        std::vector<bool> open(all_year.size(), false);
        for (const FillSitePlace& place : supply::fill_site_places(district, water, season)) {
            open[place.source.position()] = true;
        }
        for (std::size_t source = 0; source < open.size(); ++source) {
            all_year[source] = all_year[source] && open[source];
        }
    }
    return all_year;
}

class Judging {
public:
    Judging(const District& district, const supply::WaterReview& water, const EngineReach& reach,
            const Terms& terms)
        : district_(district),
          water_(water),
          reach_(reach),
          terms_(terms),
          open_all_year_(open_all_year(district, water, false)),
          open_but_for_ice_(open_all_year(district, water, true)) {}

    SourceVerdict of(SourceIndex index) const {
        const WaterSource& source = at(district_.sources, index);
        SourceVerdict verdict;
        verdict.is_candidate = source.use == SourceUse::rating;
        const auto lack_if = [&](bool lacks, SourceLack lack) {
            if (lacks) {
                verdict.lacks.push_back(lack);
            }
        };
        const bool counts = water_.counts[index.position()];
        lack_if(!verdict.is_candidate, SourceLack::use);
        if (const auto lack = lack_of_standing(district_, source, terms_)) {
            verdict.lacks.push_back(*lack);
        }
        lack_if(!counts, SourceLack::not_counted);
        const bool freezes =
            terms_.freeze_provision && source.kind != SourceKind::hydrant && !source.frost_proof;
        lack_if(freezes, SourceLack::freeze);
        if (counts) {
            look_at_strength(supply::counted_source(water_, index), source, verdict);
            lack_if(terms_.all_year && !is_open(index, freezes), SourceLack::all_year);
        }
        lack_if(source.kind != SourceKind::hydrant &&
                    (!source.suction.lift || *source.suction.lift > terms_.most_lift),
                SourceLack::lift);
        lack_if(terms_.certificate && is_open_water(source.kind) && source.certified_by.empty(),
                SourceLack::certificate);
        lack_if(terms_.all_weather && !source.all_weather.value_or(false), SourceLack::all_weather);
        lack_if(source.reach == Reach::portable_pump ||
                    !(terms_.all_year ? reach_.always(index) : reach_.ever(index)),
                SourceLack::engine);
        lack_if(terms_.owner_permission && source.kind != SourceKind::hydrant &&
                    source.agreement.empty(),
                SourceLack::permission);
        std::ranges::sort(verdict.lacks);
        return verdict;
    }

private:
    // Ice is left out where freeze provision is missing: that is told apart, and also where no
    // season of the district has ice.
    bool is_open(SourceIndex source, bool but_for_ice) const {
        return (but_for_ice ? open_but_for_ice_ : open_all_year_)[source.position()];
    }

    void look_at_strength(const supply::CountedSource& counted, const WaterSource& source,
                          SourceVerdict& verdict) const {
        const auto lack_if = [&](bool lacks, SourceLack lack) {
            if (lacks) {
                verdict.lacks.push_back(lack);
            }
        };
        lack_if(counted.rate < terms_.minimum, SourceLack::flow);
        if (counted.usable) {
            const Volume there = *counted.usable + counted.inflow * terms_.duration;
            lack_if(there < terms_.minimum * terms_.duration, SourceLack::volume);
            lack_if(source.kind == SourceKind::cistern && *counted.usable < terms_.least_cistern,
                    SourceLack::cistern);
        }
        if (source.kind != SourceKind::hydrant) {
            const supply::SuctionPoint point = supply::suction_point(source, district_);
            lack_if(point.head_at(terms_.minimum) > terms_.most_head, SourceLack::head);
        }
    }

    const District& district_;
    const supply::WaterReview& water_;
    const EngineReach& reach_;
    const Terms& terms_;
    std::vector<bool> open_all_year_, open_but_for_ice_;
};

}  // namespace

std::span<const std::string_view> words_of(SourceLack) { return lack_words; }
std::string_view sentence_of(SourceLack lack) {
    return lack_sentences[static_cast<std::size_t>(lack)];
}

Flow credited_rate(const District& district, const supply::CountedSource& counted,
                   Duration duration) {
    Flow rate = counted.with_pump(district.assumptions.engine_pump);
    if (counted.suction) {
        rate = std::min(rate, counted.suction->most);
    }
    return counted.usable ? std::min(rate, *counted.usable / duration + counted.inflow) : rate;
}

std::vector<SourceVerdict> judge_sources(const District& district, const supply::WaterReview& water,
                                         const EngineReach& reach, const Terms& terms) {
    const Judging judging(district, water, reach, terms);
    std::vector<SourceVerdict> verdicts;
    for (std::size_t i = 0; i < district.sources.size(); ++i) {
        verdicts.push_back(judging.of(SourceIndex(i)));
    }
    return verdicts;
}

}  // namespace farwater::rating
