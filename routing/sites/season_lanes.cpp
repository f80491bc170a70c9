#include "routing/sites/season_lanes.h"

#include <algorithm>

#include "routing/driving/road_use.h"
#include "routing/sites/drive_through.h"
#include "routing/sites/lanes.h"
#include "routing/sites/single_file.h"

namespace farwater::routing {
namespace {

constexpr std::size_t cases_a_chunk = 1024;

std::vector<std::uint8_t> open_edges(const District& district, const Network& network,
                                     std::span<const Profile> profiles, const Season& season) {
    return edges_used_by(network, loaded_use(district, profiles, season), haulers(profiles),
                         Which::all);
}

}  // namespace

// Not in the unnamed namespace, for FurtherLanes keeps one.
class LaneJudge {
public:
    LaneJudge(const District& district, const Network& network, const Access& access,
              const DumpSites& dump_sites, const Lanes& lanes)
        : district_(district),
          dump_sites_(dump_sites),
          lanes_(lanes),
          origins_(network, sources_and_stations(access)) {}

    LaneClass of_site(std::size_t site, std::span<const EdgeIndex> closed) const {
        return of_site(site, closed, origins_);
    }

    LaneClass of_site(std::size_t site, std::span<const EdgeIndex> closed,
                      const Waymarks& origins) const {
        const auto said = said_lane(district_, dump_sites_.candidates[site].officers_place);
        return said ? *said : lanes_.at_spot(dump_sites_.spots[site], closed, &origins);
    }

    std::vector<LaneClass> of_sites() const {
        std::vector<LaneClass> found;
        found.reserve(dump_sites_.spots.size());
        for (std::size_t site = 0; site < dump_sites_.spots.size(); ++site) {
            found.push_back(of_site(site, {}));
        }
        return found;
    }

    std::vector<LaneClass> of_cases(const Work& work) const {
        const LaneCases& cases = dump_sites_.lane_cases;
        std::vector<LaneClass> found(cases.site.size(), LaneClass::dead_end);
        const auto judge_some = [&](std::size_t begin, std::size_t end) {
            for (std::size_t i = begin; i < end; ++i) {
                found[i] = of_site(cases.site[i], cases.closed[i]);
            }
        };
        for_each_chunk(work, "lane classes", cases.site.size(), cases_a_chunk, judge_some);
        return found;
    }

    // Per case.
    std::vector<Duration> single_files(const SingleFile& roads, const Work& work) const {
        const LaneCases& cases = dump_sites_.lane_cases;
        std::vector<Duration> found(cases.site.size());
        for_each_chunk(work, "lane classes", cases.site.size(), cases_a_chunk,
                       [&](std::size_t begin, std::size_t end) {
                           for (std::size_t i = begin; i < end; ++i) {
                               found[i] = single_file_of(roads, cases.site[i], cases.closed[i]);
                           }
                       });
        return found;
    }

    std::vector<LaneClass> of_fill_sites(const Access& access,
                                         std::span<const FillSitePlace> fill_sites) const {
        std::vector<LaneClass> found;
        for (const FillSitePlace& fill_site : fill_sites) {
            found.push_back(of_fill_site(at(district_.sources, fill_site.source),
                                         at(access.sources, fill_site.source)));
        }
        return found;
    }

    LaneClass of_fill_site(const WaterSource& source, RoadSpot spot) const {
        if (source.lane || source.turnaround || !spot.valid()) {
            return source.lane.value_or(source.turnaround ? LaneClass::through
                                                          : LaneClass::dead_end);
        }
        return lanes_.at_spot(spot, {});
    }

private:
    Duration single_file_of(const SingleFile& roads, std::size_t site,
                            std::span<const EdgeIndex> closed) const {
        const auto place = dump_sites_.candidates[site].officers_place;
        const bool said = place && district_.dump_site_places[*place].lane == LaneClass::through;
        const Duration way = said ? minutes(0) : roads.way_of(dump_sites_.spots[site], closed);
        return way > minutes(0) && lanes_.goes_round(dump_sites_.spots[site], closed) ? minutes(0)
                                                                                      : way;
    }

    const District& district_;
    const DumpSites& dump_sites_;
    const Lanes& lanes_;
    Waymarks origins_;  // where tankers come from to a dump site
};

SeasonLanes season_lanes(const District& district, const Network& network, const Access& access,
                         std::span<const Profile> profiles, const DumpSites& dump_sites,
                         std::span<const FillSitePlace> fill_sites, SeasonIndex season,
                         const Work& work) {
    const Season& now = at(district.seasons, season);
    const std::vector<std::uint8_t> open = open_edges(district, network, profiles, now);
    const Lanes lanes(network, open, district.assumptions.turnaround_reach,
                      turnarounds(district, access));
    const LaneJudge judge(district, network, access, dump_sites, lanes);
    SeasonLanes found{judge.of_sites(), {}, judge.of_fill_sites(access, fill_sites), {}};
    const std::vector<LaneClass> of_cases = judge.of_cases(work);
    const std::vector<Duration> single_files =
        judge.single_files(SingleFile(district, network, open, profiles, now), work);
    found.hose_lays.reserve(dump_sites.lane_cases.of_lay.size());
    for (const std::uint32_t one : dump_sites.lane_cases.of_lay) {
        found.hose_lays.push_back(of_cases[one]);
        found.single_file.push_back(single_files[one]);
    }
    return found;
}

struct FurtherLanes::State {
    State(const District& of, const Network& roads, const Access& access,
          std::span<const Profile> profiles, const DumpSites& sites, SeasonIndex season)
        : district(of),
          network(roads),
          dump_sites(sites),
          reach(in_metres(district.assumptions.turnaround_reach) + 1.0),
          lanes(roads, open_edges(district, roads, profiles, at(district.seasons, season)),
                district.assumptions.turnaround_reach, turnarounds(district, access)),
          judge(district, roads, access, sites, lanes) {
        for (const RoadSpot spot : sites.spots) {
            places.push_back(place_of(district, roads, spot));
        }
    }

    // Through as it is, and not where tankers come from that place alone: it stands on a way that
    // nobody comes by now. Other places do not unmake that.
    bool loses(std::size_t site, std::span<const EdgeIndex> closed, const Waymarks& place) const {
        return judge.of_site(site, closed) == LaneClass::through &&
               judge.of_site(site, closed, place) == LaneClass::dead_end;
    }

    bool changed(std::uint32_t site, const Waymarks& place) const {
        if (loses(site, {}, place)) {
            return true;
        }
        const LaneCases& cases = dump_sites.lane_cases;
        const auto [first, last] = std::ranges::equal_range(cases.site, site);
        for (auto one = first; one != last; ++one) {
            if (loses(site, cases.closed[static_cast<std::size_t>(one - cases.site.begin())],
                      place)) {
                return true;
            }
        }
        return false;
    }

    const District& district;
    const Network& network;
    const DumpSites& dump_sites;
    double reach;  // no way that nobody comes by leads farther from its place
    Lanes lanes;
    LaneJudge judge;
    std::vector<Point> places{};  // of the dump sites, on the road
};

FurtherLanes::FurtherLanes(const District& district, const Network& network, const Access& access,
                           std::span<const Profile> profiles, const DumpSites& dump_sites,
                           SeasonIndex season)
    : state_(std::make_unique<State>(district, network, access, profiles, dump_sites, season)) {}
FurtherLanes::~FurtherLanes() = default;
FurtherLanes::FurtherLanes(FurtherLanes&&) noexcept = default;
FurtherLanes& FurtherLanes::operator=(FurtherLanes&&) noexcept = default;

std::vector<std::uint32_t> FurtherLanes::changed_by(RoadSpot spot) const {
    std::vector<std::uint32_t> sites;
    if (!spot.valid()) {
        return sites;
    }
    const Waymarks place(state_->network, {&spot, 1});
    const Point on_road = place_of(state_->district, state_->network, spot);
    for (std::uint32_t site = 0; site < state_->places.size(); ++site) {
        if (in_metres(distance(state_->places[site], on_road)) <= state_->reach &&
            state_->changed(site, place)) {
            sites.push_back(site);
        }
    }
    return sites;
}

LaneClass FurtherLanes::of_fill_site(const WaterSource& source, RoadSpot spot) const {
    return state_->judge.of_fill_site(source, spot);
}

}  // namespace farwater::routing
