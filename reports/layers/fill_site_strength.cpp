#include "reports/layers/fill_site_strength.h"

#include <algorithm>
#include <iterator>
#include <memory>

namespace farwater::reports {
namespace {

io::Value feet_or_null(const std::optional<Length>& length) {
    return length ? io::Value{in_feet(*length)} : io::Value{};
}

// Of the source's system; null where it has none.
const supply::WaterSystem* system_of(const Findings& findings, SourceIndex source) {
    for (const supply::WaterSystem& system : findings.water.systems) {
        if (system.name == at(findings.district.sources, source).system) {
            return &system;
        }
    }
    return nullptr;
}

// "rate_gpm, pipe_ft": the columns that stand on a stated value.
std::string assumed_text(const supply::CountedSource& site) {
    std::string text;
    for (const std::string_view column : site.assumed) {
        text += text.empty() ? "" : ", ";
        text += column;
    }
    return text;
}

std::vector<ColumnOf> rate_columns(Flow usual_pump, const CountedAt& site) {
    const auto filled = [site, usual_pump](std::size_t row) {
        return site(row).with_pump(usual_pump);
    };
    return {
        real(
            "rate_gpm",
            "Flow that tankers are filled with, gpm; where an engine is needed, by one with a pump "
            "of engine_pump_gpm. An incident counts the pump of the engine that comes.",
            [filled](std::size_t row) { return io::Value{in_gpm(filled(row))}; }),
        text("limited_by",
             "What that flow is: rate (as stated), flow_test, colour (low end of the class), main "
             "(weak or not known), default, system; or what keeps it down: suction (lift, pipe, "
             "strainer), pump, portable_pump.",
             [filled, site](std::size_t row) {
                 const bool pump = filled(row) < site(row).rate;
                 return io::Value{word(pump ? RateLimit::pump : site(row).limit)};
             }),
        real("source_gpm", "What the source gives into any pump, gpm.",
             [site](std::size_t row) { return io::Value{in_gpm(site(row).rate)}; }),
        real(
            "pump_share", "Share of its rating that a pump gives at the lift there.",
            [site](std::size_t row) { return io::Value{site(row).pump_share}; }, 2),
    };
}

std::vector<ColumnOf> suction_columns(const CountedAt& site) {
    using Suction = std::optional<supply::SuctionFinding>;
    const auto of_suction = [site](auto value) {
        return [site, value](std::size_t row) {
            const Suction& suction = site(row).suction;
            return suction ? io::Value{value(*suction)} : io::Value{};
        };
    };
    return {
        real("lift_ft",
             "Static lift from the drought level, ft; where it is not known, most_lift_ft.",
             of_suction([](const auto& suction) { return in_feet(suction.lift); })),
        real("total_head_ft",
             "Lift, losses in pipe, hose and strainer, and velocity head at source_gpm, ft. A "
             "tested "
             "rate may show more than most_suction_head_ft: look at its lift.",
             of_suction([](const auto& suction) { return in_feet(suction.head); })),
        real("suction_gpm",
             "What lift, pipe and strainer let through, gpm, with a stated value for each blank.",
             of_suction([](const auto& suction) { return in_gpm(suction.most); })),
    };
}

std::vector<ColumnOf> volume_columns(const CountedAt& site) {
    return {
        real(
            "usable_gal",
            "Gallons that can be used in one incident at drought level; empty where unlimited.",
            [site](std::size_t row) {
                return site(row).usable ? io::Value{in_gallons(*site(row).usable)} : io::Value{};
            },
            0),
        yes_no("unlimited", "Somebody said in so many words that its volume has no limit.",
               [site](std::size_t row) { return io::Value{!site(row).usable.has_value()}; }),
        real("usable_depth_ft",
             "Depth that can be drawn down: over the intake, less what the strainer needs and ice "
             "takes, ft.",
             [site](std::size_t row) { return feet_or_null(site(row).usable_depth); }),
        real("inflow_gpm", "What refills it during the incident, gpm.",
             [site](std::size_t row) { return io::Value{in_gpm(site(row).inflow)}; }),
    };
}

std::vector<ColumnOf> shared_columns(const Findings& findings, const CountedAt& site) {
    const auto system = [findings, site](std::size_t row) {
        return system_of(findings, site(row).source);
    };
    return {
        real("system_gpm", "What the sources of its system give together, gpm.",
             [system](std::size_t row) {
                 return system(row) == nullptr ? io::Value{} : io::Value{in_gpm(system(row)->rate)};
             }),
        real(
            "system_gal",
            "Gallons that they share for one incident; empty where unlimited or without a system.",
            [system](std::size_t row) {
                const supply::WaterSystem* shared = system(row);
                return shared != nullptr && shared->usable ? io::Value{in_gallons(*shared->usable)}
                                                           : io::Value{};
            },
            0),
    };
}

std::vector<ColumnOf> columns_of_place(const CountedAt& site, const Findings& findings) {
    const auto assumed = std::make_shared<std::vector<std::string>>();
    for (const supply::CountedSource& counted : findings.water.counted) {
        assumed->push_back(assumed_text(counted));
    }
    return {
        integer("places", "Tankers that can be connected at once.",
                [site](std::size_t row) {
                    return io::Value{static_cast<std::int64_t>(site(row).places)};
                }),
        yes_no("needs_engine", "An engine must pump there.",
               [site](std::size_t row) { return io::Value{site(row).needs_engine}; }),
        integer("strength_class",
                "0 weak to 3 strong, by source_gpm (250, 500, 1,000) and by two hours' volume.",
                [site](std::size_t row) {
                    return io::Value{static_cast<std::int64_t>(site(row).strength_class)};
                }),
        text("assumed",
             "Columns that are blank and for which a stated value stands (table assumptions).",
             [assumed](std::size_t row) { return value_of((*assumed)[row]); }),
    };
}

}  // namespace

std::vector<ColumnOf> strength_columns(const Findings& findings, const CountedAt& site) {
    std::vector<ColumnOf> columns = rate_columns(findings.district.assumptions.engine_pump, site);
    std::ranges::move(suction_columns(site), std::back_inserter(columns));
    std::ranges::move(volume_columns(site), std::back_inserter(columns));
    std::ranges::move(shared_columns(findings, site), std::back_inserter(columns));
    std::ranges::move(columns_of_place(site, findings), std::back_inserter(columns));
    return columns;
}

}  // namespace farwater::reports
