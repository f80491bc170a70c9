// Going through the records of a layer.
#include <algorithm>

#include <fmt/format.h>
#include <ogrsf_frmts.h>

#include "io/records/layer_source.h"
#include "io/records/record.h"

namespace farwater::io {
namespace {

Severity worst_of(const std::vector<Problem>& problems) {
    Severity worst = Severity::note;
    for (const Problem& problem : problems) {
        worst = std::max(worst, kind_of(problem.id).severity);
    }
    return worst;
}

void count(LayerLog& log, const Record& record, Taken taken) {
    ++log.count.read;
    log.left_out += taken == Taken::left_out ? 1 : 0;
    if (taken != Taken::yes) {
        ++log.count.set_aside;
    } else if (worst_of(record.problems()) == Severity::repaired) {
        ++log.count.repaired;
    } else {
        ++log.count.used;
    }
    log.problems.insert(log.problems.end(), record.problems().begin(), record.problems().end());
}

}  // namespace

std::size_t expected_records(const LayerSource& source) {
    OGRLayer& layer = *source.open.layer;
    const bool quick = layer.TestCapability(OLCFastFeatureCount) != 0;
    return quick ? static_cast<std::size_t>(std::max<GIntBig>(0, layer.GetFeatureCount())) : 0;
}

LayerLog for_each_record(const LayerSource& source, const Work& work,
                         const std::function<Taken(Record& record)>& read) {
    constexpr std::size_t records_per_step = 4096;
    const std::string stage = "reading " + source.spec.section;
    const GdalMessages messages;
    LayerLog log{{source.spec.section, printable_source(source.spec.file)}, {}};
    OGRLayer& layer = *source.open.layer;
    const std::size_t total = expected_records(source);
    layer.ResetReading();
    while (!work.stopped()) {
        const OGRFeatureUniquePtr feature(layer.GetNextFeature());
        if (!feature) {
            break;
        }
        Record record(source, *feature, static_cast<std::uint32_t>(log.count.read));
        const Taken taken = read(record);
        count(log, record, taken);
        if (log.count.read % records_per_step == 0) {
            work.step(stage, log.count.read, total);
        }
    }
    if (messages.failed()) {
        fail_input(source.spec, fmt::format("reading failed after {} records; GDAL says: {}",
                                            log.count.read, messages.text()));
    }
    if (log.count.read == 0 && source.section->required && !work.stopped()) {
        fail_input(source.spec, "the layer holds no record; the analysis cannot do without");
    }
    work.step(stage, log.count.read, log.count.read);
    if (!work.stopped()) {
        check_mostly_usable(source.spec, log);
    }
    return log;
}

void check_mostly_usable(const LayerSpec& spec, const LayerLog& log) {
    const std::size_t read = log.count.read - log.left_out;
    const std::size_t of_no_use = log.count.set_aside - log.left_out;
    if (of_no_use * 10 <= read * 9) {
        return;
    }
    std::string first;
    for (const Problem& problem : log.problems) {
        if (first.empty() && kind_of(problem.id).severity == Severity::set_aside) {
            first = "; the first: " + sentence(problem);
            first.pop_back();  // the full stop
        }
    }
    fail_input(spec, fmt::format("{} of {} records are of no use{}", of_no_use, read, first));
}

}  // namespace farwater::io
