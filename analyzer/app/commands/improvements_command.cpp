#include <algorithm>

#include <fmt/format.h>

#include "analyzer/app/analysis.h"
#include "analyzer/app/buy_improvements.h"
#include "analyzer/app/commands/commands.h"
#include "analyzer/app/exit_code.h"
#include "analyzer/app/reading.h"
#include "analyzer/app/session.h"
#include "analyzer/app/source_places.h"
#include "analyzer/app/weigh_improvements.h"
#include "analyzer/app/weights_asked.h"
#include "analyzer/app/write_gains.h"
#include "analyzer/planning/improvement_words.h"
#include "analyzer/planning/stock_improvements.h"
#include "io/district_file.h"
#include "io/out_folder.h"
#include "io/read_district.h"
#include "io/read_improvements.h"
#include "reports/gains/gain_pages.h"
#include "reports/proposals.h"

namespace farwater::app {
namespace {

bool is_among(const std::vector<Improvement>& improvements, const std::string& source) {
    return std::ranges::any_of(improvements, [&](const Improvement& improvement) {
        const auto* added = std::get_if<NewSource>(&improvement.thing);
        return added != nullptr && added->source.id == source;
    });
}

// The officer's own proposals stand beside what the district file names.
void add_own_proposals(std::vector<Improvement>& improvements, const planning::Candidates& places) {
    for (const planning::Candidate& place : places.candidates) {
        if (place.origin == planning::Origin::own && !is_among(improvements, place.source.id)) {
            improvements.push_back(
                {.name = {},
                 .kind = ImprovementKind::source,
                 .thing = NewSource{place.source},
                 .spending = {.cost = place.cost, .life_years = {}, .upkeep_per_year = {}},
                 .by = OfferedBy::proposals,
                 .to_prove = {}});
        }
    }
}

void put_into_words(std::vector<Improvement>& improvements, const District& district,
                    const planning::Candidates& places) {
    for (Improvement& improvement : improvements) {
        if (improvement.name.empty()) {
            improvement.name = planning::usual_name(district, improvement);
        }
        for (const planning::Candidate& place : places.candidates) {
            const auto* added = std::get_if<NewSource>(&improvement.thing);
            if (added != nullptr && added->source.id == place.source.id) {
                improvement.to_prove = reports::what_to_do(place);
            }
        }
    }
}

// Those of the district file and the own proposals; without the former one more of each usual
// thing.
std::vector<Improvement> all_improvements(std::vector<Improvement> of_file,
                                          const District& district, const Analysis& as_is,
                                          const planning::Candidates& places) {
    std::vector<Improvement> all = std::move(of_file);
    if (all.empty()) {
        const supply::Assessment& assessment = as_is.assessment;
        all = planning::stock_improvements(
            district, assessment.variants[assessment.thinnest()].variant.period);
    }
    add_own_proposals(all, places);
    put_into_words(all, district, places);
    return all;
}

constexpr std::string_view improvement_files = "improvements";

// False when stopped.
bool write_improvements(const std::filesystem::path& folder, const io::DistrictFile& file,
                        const io::ReadResult& read, const reports::ImprovementFindings& findings,
                        const Work& work) {
    const auto pages = [&](const reports::RunRecord& record) {
        return reports::improvement_pages(findings, record);
    };
    return write_gains(folder,
                       {improvement_files,
                        {reports::improvements(findings), reports::improvement_gains(findings),
                         reports::improvement_years(findings)},
                        pages},
                       file, read, findings.district, work);
}

// False when stopped.
bool buy(reports::ImprovementFindings& findings, const Analysis& as_is,
         const ImproveOptions& options, Session& session) {
    if (!options.yearly_budget) {
        return true;
    }
    findings.yearly_budget = options.yearly_budget;
    session.stage("what each year buys, together");
    return buy_improvements(findings, as_is, session.work());
}

std::string words_at_the_end(const Options& options, const std::filesystem::path& out,
                             const reports::ImprovementFindings& findings) {
    return options.json
               ? reports::improvements_json(findings)
               : reports::improvements_text(findings) + where_gains_are(out, improvement_files);
}

}  // namespace

int improvements_command(const Options& options, io::Interrupt& interrupt) {
    Session session(options, interrupt);
    const io::DistrictFile file = io::read_district_file(options.district_file);
    const std::filesystem::path out = options.out.value_or(file.folder / "improvements");
    io::OutFolder folder = io::OutFolder::begin(out, files_read(file));
    const io::CleanOnExit clean(interrupt, [&folder] { folder.abandon(); });
    const StageBegins begins = [&](std::string_view stage) { session.stage(stage); };

    session.stage("reading");
    Reading reading = read_with_needs(file, session.work());
    const District& district = reading.read.district;
    const planning::Candidates places = source_places(file, reading.read, session.work());
    if (session.work().stopped()) {
        return exit_interrupted;
    }
    planning::Weights weights = weights_asked(district, options.improve.weigh_by);
    std::vector<Improvement> of_file = io::read_improvements(file, district, as_proposals(places));
    const bool stock = of_file.empty();
    const auto as_is = analyse(district, std::move(reading.needs), session.work(), begins);
    if (!as_is) {
        return exit_interrupted;
    }
    std::vector<Improvement> all = all_improvements(std::move(of_file), district, *as_is, places);
    session.stage(fmt::format("{} improvements", all.size()));
    auto findings =
        weigh_improvements(district, *as_is, std::move(all), std::move(weights), session.work());
    if (!findings || !buy(*findings, *as_is, options.improve, session)) {
        return exit_interrupted;
    }
    findings->stock = stock;
    findings->left_out = static_cast<std::size_t>(
        std::ranges::count(places.left_out, planning::Origin::own, &planning::LeftOut::origin));
    session.stage("writing improvements");
    if (!write_improvements(folder.folder(), file, reading.read, *findings, session.work())) {
        return exit_interrupted;
    }
    session.end();
    session.log().write(folder.folder() / "run.log");
    folder.commit();
    session.say(words_at_the_end(options, out, *findings));
    return options.strict && !as_is->problems.empty() ? exit_problems : exit_done;
}

}  // namespace farwater::app
