#include "analyzer/supply/assessment.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include "analyzer/district/calendar.h"
#include "analyzer/supply/row_answers.h"

namespace farwater::supply {

TenthsMinute rounded_up(Duration duration) {
    constexpr double binary_dust = 1e-9;
    return TenthsMinute{
        static_cast<std::int32_t>(std::ceil(in_minutes(duration) * 10.0 - binary_dust))};
}

WholeGpm rounded_down(HeldFlow flow) {
    constexpr int most = std::numeric_limits<std::uint16_t>::max();
    return WholeGpm{static_cast<std::uint16_t>(std::clamp(in_tenths(flow) / 10, 0, most))};
}

std::size_t ParcelSupply::fill_sites() const {
    const auto used = std::ranges::count_if(
        further_fills, [](const FurtherFill& fill) { return fill.source.valid(); });
    return (fill_source.valid() ? 1U : 0U) + static_cast<std::size_t>(used);
}

bool ParcelSupply::fills_at(SourceIndex source) const {
    return fill_source == source ||
           std::ranges::find(further_fills, source, &FurtherFill::source) != further_fills.end();
}

ParcelSupply unanswered(const Need& need) {
    ParcelSupply supply;
    supply.needed = need.flow;
    supply.duration = rounded_up(need.duration);
    supply.evidence = need.evidence;
    return supply;
}

void judge(ParcelSupply& supply, double firm_margin) {
    const bool held = supply.cautious >= supply.needed;
    const bool firm = in_tenths(supply.cautious) >= firm_margin * in_tenths(supply.needed);
    supply.margin = !held ? Margin::none : firm ? Margin::firm : Margin::thin;
    const HeldFlow some = std::max(supply.cautious, supply.later);
    supply.state = held                    ? SupplyState::held
                   : supply.earliest_start ? SupplyState::late
                   : in_tenths(some) > 0   ? SupplyState::short_flow
                                           : SupplyState::tank_only;
}

HeldFlow flow_from_start(const ParcelSupply& supply) {
    return std::max(supply.cautious, supply.runner_up_cautious);
}

HeldFlow shortfall_of(const ParcelSupply& supply) {
    return tenths_of_gpm(
        std::max(0, in_tenths(supply.needed) - in_tenths(flow_from_start(supply))));
}

int severity_of(SupplyState state) {
    switch (state) {
        case SupplyState::unknown:
            return 6;
        case SupplyState::unreached:
            return 5;
        case SupplyState::tank_only:
            return 4;
        case SupplyState::short_flow:
            return 3;
        case SupplyState::late:
            return 2;
        case SupplyState::held:
            return 1;
        case SupplyState::no_building:
            return 0;
    }
    return 6;
}

bool worse(const ParcelSupply& a, const ParcelSupply& b) {
    const int severity_a = severity_of(a.state);
    const int severity_b = severity_of(b.state);
    return severity_a != severity_b ? severity_a > severity_b
                                    : flow_from_start(a) < flow_from_start(b);
}

namespace {

// Larger is worse; what never happens is worst.
std::int32_t minute_or_never(const Maybe<TenthsMinute>& minute) {
    return minute ? in_tenths(*minute) : std::numeric_limits<std::int32_t>::max();
}

// In the order in which they count; each larger where it is worse.
auto of_equals(const ParcelSupply& supply) {
    return std::tuple(-in_tenths(supply.later), -in_tenths(supply.sustained),
                      minute_or_never(supply.earliest_start), minute_or_never(supply.gap),
                      minute_or_never(supply.continuous), -in_tenths(supply.one_tanker_out),
                      minute_or_never(supply.first_engine), -static_cast<int>(supply.evidence));
}

}  // namespace

bool stands_for_worst(const ParcelSupply& a, const ParcelSupply& b) {
    return worse(a, b) || (!worse(b, a) && of_equals(a) > of_equals(b));
}

void Assessment::begin(Variant variant, std::size_t rows) {
    static_assert(most_variants - 1 <= std::numeric_limits<std::uint8_t>::max());
    variants.push_back({variant, std::vector<std::size_t>(words_of(SupplyState{}).size(), 0)});
    if (variants.size() == 1) {
        supplies.resize(rows);
        worst_variant.assign(rows, 0);
    }
}

void Assessment::keep(const RowAnswers& answers, std::size_t parcels) {
    for (std::size_t i = 0; i < answers.size(); ++i) {
        const std::uint32_t row = answers.rows()[i];
        keep_row(row, answers.all()[i], parcels);
    }
}

void Assessment::keep(Variant variant, std::span<const ParcelSupply> of_variant,
                      std::size_t parcels) {
    begin(variant, of_variant.size());
    for (std::size_t row = 0; row < of_variant.size(); ++row) {
        keep_row(row, of_variant[row], parcels);
    }
}

void Assessment::count(std::size_t row, const ParcelSupply& supply, std::size_t parcels) {
    if (row < parcels) {
        ++variants.back().parcels_by_state[static_cast<std::size_t>(supply.state)];
    }
}

void Assessment::keep_row(std::size_t row, const ParcelSupply& supply, std::size_t parcels) {
    count(row, supply, parcels);
    if (variants.size() == 1 || stands_for_worst(supply, supplies[row])) {
        supplies[row] = supply;
        worst_variant[row] = static_cast<std::uint8_t>(variants.size() - 1);
    }
}

std::size_t Assessment::thinnest() const {
    const auto held = static_cast<std::size_t>(SupplyState::held);
    const auto thinnest = std::ranges::min_element(variants, [&](const auto& a, const auto& b) {
        return a.parcels_by_state[held] < b.parcels_by_state[held];
    });
    return static_cast<std::size_t>(thinnest - variants.begin());
}

}  // namespace farwater::supply
