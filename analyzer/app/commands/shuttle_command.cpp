#include <fmt/format.h>

#include "analyzer/app/commands/commands.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/supply/shuttle_answer.h"
#include "analyzer/supply/typed_shuttle.h"
#include "io/shuttle_file.h"
#include "reports/shuttle_page.h"

namespace farwater::app {
namespace {

supply::ShuttleQuestion question_of(const supply::TypedShuttle& typed, std::optional<Flow> needed,
                                    const Assumptions& assumptions) {
    return {.incident = typed.incident,
            .line = typed.line,
            .legs = typed.legs,
            .window = typed.window,
            .needed = needed ? std::optional(held(*needed)) : std::nullopt,
            .stage_cv = assumptions.stage_cv,
            .firm_margin = assumptions.firm_margin,
            .horizon = assumptions.late_horizon};
}

}  // namespace

int shuttle_command(const Options& options) {
    const ShuttleScenario scenario = io::read_shuttle_file(options.district_file);
    const Assumptions assumptions;
    const supply::TypedShuttle typed = supply::complete(scenario, assumptions);
    const supply::ShuttleAnswer answer =
        supply::answer(question_of(typed, scenario.needed, assumptions));
    const reports::ShuttlePage page{options.district_file.filename().string(), typed, answer};
    fmt::print("{}", options.json ? reports::shuttle_json(page) : reports::shuttle_text(page));
    return exit_done;
}

}  // namespace farwater::app
