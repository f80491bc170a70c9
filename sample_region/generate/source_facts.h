// What a department writes down about its sources besides their rate: flow tests and mains, pipes,
// ponds at drought level. Everything is text, as it was typed; blank = not known.
#pragma once

#include <string>
#include <vector>

namespace farwater::sample {

struct HydrantFacts {
    std::string static_psi, residual_psi, flow, pitot_psi, outlet, coefficient, colour, main,
        dead_end;
};

struct PipeFacts {
    std::string length, bore, material, elbows_90, elbows_45, strainer_loss;
};

struct PondFacts {
    std::string acres, depth, sounded, ice;
};

// Of the village's hydrants, one after the other. Every third tested one was read with a pitot.
HydrantFacts tested_hydrant(int number, bool strong);
HydrantFacts untested_hydrant(int number);

// With the figure of a wide strainer's sheet, where it has one.
PipeFacts plastic_pipe(int feet, int bore_in, int elbows_90, int elbows_45,
                       const char* strainer_loss = "");

// What stands in the drawer for the assessor.
struct PaperFacts {
    std::string agreement, certified_by, certified_on, cross_street;
};

// A pond of that area in square metres with that much water over the intake at drought level.
PondFacts pond_at_drought(double area, const char* depth_ft, bool sounded);

// Headers and cells of all of it, in the same order.
std::vector<std::string> fact_headers();
std::vector<std::string> fact_cells(const HydrantFacts& hydrant, const PipeFacts& pipe,
                                    const PondFacts& pond, const std::string& system_rate,
                                    const PaperFacts& papers);

}  // namespace farwater::sample
