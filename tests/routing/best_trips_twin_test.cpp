// The kept trips against a sort of all of them.
#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include <catch2/catch.hpp>

#include "routing/trips/best_trips.h"
#include "tests/routing/random_district.h"

using namespace farwater;
using test::Dice;

namespace {

constexpr std::size_t dump_sites = 4;
constexpr std::size_t fill_sites = 14;
constexpr std::size_t profiles = 3;

struct Trip {
    std::size_t profile, dump_site, fill_site;
    LegTimes legs;
};

DriveTime round(const LegTimes& legs) { return legs.empty + legs.loaded; }

// Every profile reaches about half of the fill sites; many round trips are equal.
std::vector<Trip> random_trips(Dice& dice) {
    std::vector<Trip> trips;
    for (std::size_t p = 0; p < profiles; ++p) {
        for (std::size_t d = 0; d < dump_sites; ++d) {
            for (std::size_t f = 0; f < fill_sites; ++f) {
                if (dice.one_in(2)) {
                    const auto leg = [&] {
                        return tenths_of_second(static_cast<std::int32_t>(10 + dice.below(6)));
                    };
                    trips.push_back({p, d, f, {leg(), leg()}});
                }
            }
        }
    }
    return trips;
}

std::vector<FillTrip> by_sorting(const std::vector<Trip>& trips, std::size_t dump_site,
                                 const std::vector<FillSitePlace>& places, std::size_t most) {
    std::vector<std::tuple<std::size_t, DriveTime, std::size_t, FillTrip>> all;
    for (std::size_t f = 0; f < fill_sites; ++f) {
        FillTrip trip{FillSiteIndex(f), {}};
        for (const Trip& one : trips) {
            if (one.dump_site == dump_site && one.fill_site == f) {
                trip.legs[one.profile] = one.legs;
            }
        }
        for (std::size_t p = 0; p < profiles; ++p) {
            if (reachable(round(trip.legs[p]))) {
                all.emplace_back(p, round(trip.legs[p]), f, trip);
                break;
            }
        }
    }
    std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) {
        return std::tie(std::get<0>(a), std::get<1>(a), std::get<2>(a)) <
               std::tie(std::get<0>(b), std::get<1>(b), std::get<2>(b));
    });
    std::vector<FillTrip> kept;
    std::map<int, std::size_t> of_class;
    std::map<std::pair<int, std::uint32_t>, std::size_t> of_system;
    for (const auto& one : all) {
        const FillSitePlace& place = places[std::get<2>(one)];
        const bool alone = place.system == FillSitePlace::no_system;
        std::size_t& in_class = of_class[place.strength_class];
        std::size_t& in_system = of_system[{place.strength_class, place.system}];
        if (in_class < most && (alone || in_system < 2)) {
            kept.push_back(std::get<3>(one));
            ++in_class;
            ++in_system;
        }
    }
    return kept;
}

}  // namespace

TEST_CASE("the best trips are those that sorting all of them gives, in whatever order they come",
          "[twin]") {
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        Dice dice(seed);
        std::vector<FillSitePlace> places(fill_sites);
        for (FillSitePlace& place : places) {
            place.strength_class = dice.of(std::vector<std::uint8_t>{0, 3, 200});
            place.system = dice.of(std::vector<std::uint32_t>{0, 1, FillSitePlace::no_system});
        }
        const std::size_t most = 1 + dice.below(4);
        const std::vector<Trip> trips = random_trips(dice);
        routing::BestTrips best(dump_sites, places, most);
        for (std::size_t p = 0; p < profiles; ++p) {
            best.begin(ProfileIndex(p));
            for (const Trip& trip : dice.shuffled(trips)) {
                if (trip.profile == p) {
                    best.offer(DumpSiteIndex(trip.dump_site), FillSiteIndex(trip.fill_site),
                               trip.legs);
                }
            }
        }
        for (std::size_t d = 0; d < dump_sites; ++d) {
            REQUIRE((best.trips(d) == by_sorting(trips, d, places, most)));
        }
    }
}
