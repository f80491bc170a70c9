#include "reports/rating/missing_evidence.h"

#include <algorithm>

#include "analyzer/rating/source_evidence.h"

namespace farwater::reports {
namespace {

using rating::SourceLack;

bool stops_by(const rating::SourceVerdict& verdict, SourceLack lack) {
    return std::ranges::find(verdict.lacks, lack) != verdict.lacks.end();
}

// What an assessor asks for though the terms do not hold it against the source.
std::vector<std::string_view> also_asked(const WaterSource& source,
                                         const rating::SourceVerdict& verdict) {
    std::vector<std::string_view> list;
    const auto add_if = [&](bool asked, std::string_view what) {
        if (asked) {
            list.push_back(what);
        }
    };
    const bool suction_point = source.kind != SourceKind::hydrant;
    const HydrantData& hydrant = source.hydrant;
    const bool flow_measured = hydrant.test_flow || (hydrant.pitot_psi && hydrant.outlet);
    add_if(suction_point && !source.frost_proof && !stops_by(verdict, SourceLack::freeze),
           sentence_of(SourceLack::freeze));
    add_if(suction_point && source.agreement.empty() && !stops_by(verdict, SourceLack::permission),
           sentence_of(SourceLack::permission));
    add_if(!source.certified_by.empty() && !source.certified_on,
           "date of the certificate (certified_on)");
    add_if(!suction_point && !hydrant.static_psi, "static pressure of its flow test (static_psi)");
    add_if(!suction_point && !hydrant.residual_psi,
           "residual pressure of its flow test (residual_psi)");
    add_if(!suction_point && !flow_measured,
           "flow during its test (test_flow_gpm, or pitot_psi with outlet_in)");
    add_if(source.owner.empty(), "owner");
    add_if(source.cross_street.empty(), "nearest cross street");
    return list;
}

void add_lacks_of_sources(const Findings& findings, std::vector<MissingEvidence>& list) {
    const District& district = findings.district;
    if (!offers_a_source(findings)) {
        list.push_back({"district", "", std::string(no_source_offered), true});
    }
    for (std::size_t i = 0; i < district.sources.size(); ++i) {
        const WaterSource& source = district.sources[i];
        const rating::SourceVerdict& verdict = findings.rating->sources[i];
        const auto add = [&](std::string_view what, bool stops) {
            list.push_back({"source", source.id, std::string(what), stops});
        };
        if (!verdict.is_candidate) {
            continue;
        }
        if (!district.is_there(SourceIndex(i))) {
            add("the source itself: it is not there yet", false);
        }
        for (const SourceLack lack : verdict.lacks) {
            add(sentence_of(lack), true);
        }
        for (const std::string_view what : also_asked(source, verdict)) {
            add(what, false);
        }
    }
}

void add_lacks_of_unit(const Unit& unit, std::vector<MissingEvidence>& list) {
    const auto add_if = [&](bool lacks, std::string_view what) {
        if (lacks) {
            list.push_back({"apparatus", unit.id, std::string(what), false});
        }
    };
    const bool tanker = unit.kind == UnitKind::tanker;
    const bool engine = unit.kind == UnitKind::engine;
    add_if(tanker && !unit.fill_limit, "timed fill");
    add_if(tanker && !unit.offload, "timed offload");
    add_if(tanker && !unit.tested_on, "date of the timing");
    add_if(tanker && !unit.pump, "rated pump, or in so many words none (0)");
    add_if((tanker || engine) && !unit.portable_tank_known,
           "drop tanks carried, or in so many words none (0)");
    add_if(engine && !unit.tank_known, "size of its tank");
    add_if(engine && !unit.pump, "rated pump");
    add_if(engine && !unit.hose, "supply hose carried");
    add_if(!unit.crew, "usual crew");
}

void add_lacks_of_units(const Findings& findings, std::vector<MissingEvidence>& list) {
    for (const Unit& unit : findings.district.units) {
        if (rating::unit_counts(findings.district, unit, findings.rating->terms)) {
            add_lacks_of_unit(unit, list);
        }
    }
    for (const Problem& problem : findings.problems) {
        if (problem.id == ProblemId::unit_tank_unknown) {
            list.push_back({"apparatus", problem.record,
                            "size of its tank: without it the tanker is left out", true});
        }
    }
}

// What no data set of ours holds, and every assessor asks for.
void add_papers(const Findings& findings, std::vector<MissingEvidence>& list) {
    for (const std::string_view paper :
         {"operating procedure for areas without hydrants: shuttle, drop tanks, fill sites",
          "operating procedure for relay with large hose, if hose beyond the terms' is claimed",
          "first-alarm run cards that name every unit which is claimed",
          "automatic-aid agreements, with dispatch at the first alarm",
          "records of joint training with automatic-aid companies",
          "timed demonstration: flow log over the whole duration without a break"}) {
        list.push_back({"district", "", std::string(paper), false});
    }
    if (!findings.district.data_date) {
        list.push_back({"district", "",
                        "date of the data (data_date): without it no test of a source counts",
                        false});
    }
}

}  // namespace

std::vector<MissingEvidence> missing_evidence(const Findings& findings) {
    std::vector<MissingEvidence> list;
    add_lacks_of_sources(findings, list);
    add_lacks_of_units(findings, list);
    add_papers(findings, list);
    return list;
}

bool offers_a_source(const Findings& findings) {
    return std::ranges::any_of(findings.rating->sources, &rating::SourceVerdict::is_candidate);
}

std::string lacks_in_words(const rating::SourceVerdict& verdict) {
    std::string words;
    for (const SourceLack lack : verdict.lacks) {
        words += (words.empty() ? "" : "; ") + std::string(sentence_of(lack));
    }
    return words;
}

}  // namespace farwater::reports
