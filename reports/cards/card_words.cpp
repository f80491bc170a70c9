#include "reports/cards/card_words.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "reports/text/number_words.h"
#include "reports/text/plain_text.h"

namespace farwater::reports {

std::string spoken(std::string_view word) {
    std::string text = name_words(word);
    std::ranges::replace(text, '_', ' ');
    return text;
}

std::string minute_words(Duration minutes) {
    return fmt::format("{:.1f}", std::ceil(in_minutes(minutes) * 10.0 - 1e-6) / 10.0);
}

std::string minute_words(std::optional<supply::TenthsMinute> minutes) {
    return minutes ? fmt::format("{:.1f}", supply::in_tenths(*minutes) / 10.0) : "-";
}

std::string gallon_words(Volume volume) {
    return in_thousands(std::floor(in_gallons(volume) + 1e-6)) + " gal";
}

std::string feet_words(Length length) {
    constexpr double step = 10.0;
    return in_thousands(std::ceil(in_feet(length) / step - 1e-6) * step) + " ft";
}

std::string plural(std::size_t count, std::string_view what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::string unit_name(const District& district, UnitIndex unit) {
    return unit.valid() ? name_words(at(district.units, unit).id) : "-";
}

std::string source_name(const District& district, SourceIndex source) {
    const WaterSource& it = at(district.sources, source);
    return it.name.empty() || it.name == it.id
               ? name_words(it.id)
               : fmt::format("{} ({})", name_words(it.name), name_words(it.id));
}

std::string_view state_sentence(SupplyState state) {
    switch (state) {
        case SupplyState::held:
            return "meets the planned flow";
        case SupplyState::late:
            return "meets it late";
        case SupplyState::short_flow:
            return "is short of it";
        case SupplyState::tank_only:
            return "has tank water only";
        case SupplyState::unreached:
            return "is not reached";
        case SupplyState::unknown:
        case SupplyState::no_building:
            break;
    }
    return "is not known";
}

std::string_view limit_sentence(Limit limit) {
    switch (limit) {
        case Limit::none:
            return "nothing that one more of any one thing would lift";
        case Limit::fleet:
            return "not enough tankers";
        case Limit::fill_site:
            return "the fill site: its places and pump";
        case Limit::source_volume:
            return "the water in the source";
        case Limit::source_hydraulics:
            return "what the source gives";
        case Limit::draft:
            return "the draft: strainer and pump";
        case Limit::storage:
            return "room in portable tanks";
        case Limit::transfer:
            return "transfer between portable tanks";
        case Limit::road_room:
            return "no room for more portable tanks on the road";
        case Limit::offload:
            return "the offload slot: tankers wait there";
        case Limit::supply_line:
            return "the supply line to the house";
        case Limit::hose:
            return "no hose that is there is long enough";
        case Limit::engines:
            return "engines";
        case Limit::readiness:
            return "how soon it is set up, or the hose laid";
        case Limit::crew:
            return "people";
        case Limit::no_dump_site:
            return "no dump site in reach";
        case Limit::no_route:
            return "no road for the tankers";
        case Limit::no_source:
            return "no water source that counts";
    }
    return "not known";
}

std::string_view rate_sentence(RateLimit limit) {
    switch (limit) {
        case RateLimit::stated:
            return "its rate as tested or declared";
        case RateLimit::flow_test:
            return "its flow test, carried on to the residual pressure";
        case RateLimit::colour:
            return "the low end of its bonnet's colour class";
        case RateLimit::main:
            return "a weak main, or one of which nothing is known";
        case RateLimit::standard:
            return "the planning default";
        case RateLimit::suction:
            return "lift, pipe and strainer";
        case RateLimit::pump:
            return "the pump at that lift";
        case RateLimit::portable_pump:
            return "only a portable pump gets there";
        case RateLimit::system:
            return "what the whole water system gives";
    }
    return {};
}

std::string_view mode_sentence(SupplyMode mode) {
    switch (mode) {
        case SupplyMode::direct:
            return "hose from a source, with an engine there";
        case SupplyMode::relay:
            return "hose from a source, with engines in line";
        case SupplyMode::shuttle:
            return "shuttle";
        case SupplyMode::none:
            break;
    }
    return "nothing";
}

}  // namespace farwater::reports
