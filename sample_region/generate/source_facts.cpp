#include "sample_region/generate/source_facts.h"

#include <fmt/format.h>

#include "sample_region/generate/shapes.h"

namespace farwater::sample {
namespace {

constexpr double drought_share = 0.8;  // of the area that the map shows

}  // namespace

HydrantFacts tested_hydrant(int number, bool strong) {
    HydrantFacts facts;
    facts.static_psi = strong ? "64" : "58";
    facts.residual_psi = strong ? "36" : "30";
    if (number % 3 == 0) {
        facts.pitot_psi = strong ? "26" : "14";
        facts.outlet = "2.5";
        facts.coefficient = "0.9";
    } else {
        facts.flow = strong ? "860" : "620";
    }
    facts.main = strong ? "8" : "6";
    facts.dead_end = "N";
    return facts;
}

HydrantFacts untested_hydrant(int number) {
    HydrantFacts facts;
    switch (number % 3) {
        case 0:
            facts.colour = "orange";
            break;
        case 1:
            facts.main = "6";
            facts.dead_end = "N";
            break;
        default:
            facts.main = "4";
            break;
    }
    return facts;
}

PipeFacts plastic_pipe(int feet, int bore_in, int elbows_90, int elbows_45,
                       const char* strainer_loss) {
    return {fmt::format("{}", feet),      fmt::format("{}", bore_in),   "plastic",
            fmt::format("{}", elbows_90), fmt::format("{}", elbows_45), strainer_loss};
}

PondFacts pond_at_drought(double area, const char* depth_ft, bool sounded) {
    return {fmt::format("{:.1f}", area * drought_share / square_metres_per_acre), depth_ft,
            sounded ? "Y" : "", ""};
}

std::vector<std::string> fact_headers() {
    return {"STATIC",   "RESIDUAL",  "TESTFLOW",  "PITOT",   "OUTLET_IN", "COEFF",
            "COLOUR",   "MAIN_IN",   "DEADEND",   "PIPE_FT", "PIPE_IN",   "MATERIAL",
            "ELBOWS90", "ELBOWS45",  "STRAINER",  "ACRES",   "DEPTH_FT",  "SOUNDED",
            "ICE_FT",   "SYSTEMGPM", "AGREEMENT", "CERT_BY", "CERT_ON",   "CROSS"};
}

std::vector<std::string> fact_cells(const HydrantFacts& hydrant, const PipeFacts& pipe,
                                    const PondFacts& pond, const std::string& system_rate,
                                    const PaperFacts& papers) {
    return {hydrant.static_psi,
            hydrant.residual_psi,
            hydrant.flow,
            hydrant.pitot_psi,
            hydrant.outlet,
            hydrant.coefficient,
            hydrant.colour,
            hydrant.main,
            hydrant.dead_end,
            pipe.length,
            pipe.bore,
            pipe.material,
            pipe.elbows_90,
            pipe.elbows_45,
            pipe.strainer_loss,
            pond.acres,
            pond.depth,
            pond.sounded,
            pond.ice,
            system_rate,
            papers.agreement,
            papers.certified_by,
            papers.certified_on,
            papers.cross_street};
}

}  // namespace farwater::sample
