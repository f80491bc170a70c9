#include "analyzer/planning/improvement_words.h"

#include <algorithm>

#include "analyzer/planning/number_words.h"

namespace farwater::planning {
namespace {

std::string several(int count) { return count > 1 ? std::to_string(count) + " x " : ""; }

std::string unit_word(const District& district, UnitKind kind) {
    return kind == UnitKind::tanker ? district.tanker_word : std::string(word(kind));
}

std::string ids_of(const District& district, const std::vector<UnitIndex>& units) {
    std::string ids;
    for (const UnitIndex unit : units) {
        ids += (ids.empty() ? "" : ", ") + at(district.units, unit).id;
    }
    return ids;
}

std::string road_names(const District& district, const std::vector<RoadIndex>& roads) {
    std::vector<std::string> names;
    for (const RoadIndex index : roads) {
        const Road& road = at(district.roads, index);
        const std::string name = road.name.empty() ? row_name(road.row) : road.name.text();
        if (std::ranges::find(names, name) == names.end()) {
            names.push_back(name);
        }
    }
    std::string text;
    for (const std::string& name : names) {
        text += (text.empty() ? "" : ", ") + name;
    }
    return text;
}

std::string in_words(const District& district, const MoreUnits& more) {
    const std::string kind = unit_word(district, more.kind);
    std::string size;
    if (more.tank && more.kind == UnitKind::tanker) {
        size = whole_words(in_gallons(*more.tank)) + "-gal ";
    } else if (more.pump && more.kind == UnitKind::engine) {
        size = whole_words(in_gpm(*more.pump)) + "-gpm ";
    }
    const std::string like =
        more.like.valid() ? " like " + at(district.units, more.like).id : std::string();
    return several(more.count) + size + kind + like + " at " +
           at(district.stations, more.station).id;
}
std::string in_words(const District& district, const MorePortableTanks& more) {
    return several(more.count) + whole_words(in_gallons(more.each)) + "-gal portable tank on " +
           at(district.units, more.unit).id;
}
std::string in_words(const District& district, const MoreSiphons& more) {
    return several(more.count) + "jet siphon on " + at(district.units, more.unit).id;
}
std::string in_words(const District& district, const MoreHose& more) {
    const std::string_view size = more.size == &HoseLoad::hose_2_5in ? "2.5"
                                  : more.size == &HoseLoad::hose_3in ? "3"
                                  : more.size == &HoseLoad::hose_4in ? "4"
                                                                     : "5";
    return whole_words(in_feet(more.length)) + " ft of " + std::string(size) + "-in hose on " +
           at(district.units, more.unit).id;
}
std::string in_words(const District& district, const FasterOffload& faster) {
    return "dump valve of " + whole_words(in_gpm(faster.offload)) + " gpm on " +
           at(district.units, faster.unit).id;
}
std::string in_words(const District& district, const AutomaticAid& aid) {
    return "automatic aid of " + ids_of(district, aid.units);
}
std::string in_words(const District& district, const SourceInWinter& winter) {
    const WaterSource& source = at(district.sources, winter.source);
    return source.id + (source.name.empty() ? "" : " " + source.name) + " in winter";
}
std::string in_words(const District& district, const RoadsKeptOpen& open) {
    return road_names(district, open.roads) + " kept open";
}
std::string in_words(const District& district, const PostingLifted& lifted) {
    return road_names(district, lifted.roads) +
           (lifted.limit ? " posted at " + whole_words(in_pounds(*lifted.limit)) + " lb"
                         : std::string(" without its posting"));
}
std::string in_words(const District& district, const MorePeople& people) {
    std::string text;
    if (people.crew) {
        text = "crew of " + std::to_string(*people.crew);
    }
    if (people.turnout) {
        text += (text.empty() ? "turnout in " : ", turnout in ") +
                short_words(in_minutes(*people.turnout)) + " min";
    }
    return text + " for " + ids_of(district, people.units) + ", " +
           at(district.periods, people.period).name;
}
std::string in_words(const District&, const NewSource& added) {
    return added.source.name.empty() ? added.source.id : added.source.name;
}

}  // namespace

std::string usual_name(const District& district, const Improvement& improvement) {
    return std::visit([&](const auto& thing) { return in_words(district, thing); },
                      improvement.thing);
}

std::string_view what_to_settle(ImprovementKind kind) {
    switch (kind) {
        case ImprovementKind::tanker:
            return "time how it fills and offloads; somebody to drive it in every period; room in "
                   "the station, and bridges that bear it";
        case ImprovementKind::portable_tank:
            return "room for it at the dump sites, a jet siphon that joins it to the others, and a "
                   "crew "
                   "that sets it up in the planned time";
        case ImprovementKind::siphon:
            return "measure what it moves, and the water that drives it, at a drill";
        case ImprovementKind::hose:
            return "a bed that holds it, and a timed lay";
        case ImprovementKind::fill_engine:
            return "a crew for it in every period, and a timed draft";
        case ImprovementKind::offload:
            return "time how it offloads afterwards; what its valve is rated is not what it gives";
        case ImprovementKind::automatic_aid:
            return "a written agreement of both chiefs, and dispatch that sends them at the alarm; "
                   "their own district must be covered meanwhile";
        case ImprovementKind::winter_access:
            return "who clears it, by when after a storm, and that the pipe stays free of ice";
        case ImprovementKind::bridge:
            return "an engineer's rating, and the owner's word for fire apparatus";
        case ImprovementKind::staffing:
            return "who they are, on how many days they are there, and what they are trained for";
        case ImprovementKind::source:
            return "ask the owner and the road's owner, have it designed and tested";
    }
    return {};
}

}  // namespace farwater::planning
