#include "io/records/layer_records.h"

#include <algorithm>

#include <fmt/format.h>
#include <ogrsf_frmts.h>

#include "io/files/letters.h"
#include "io/records/parse_cell.h"
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

const char* text_of(OGRFeature& feature, int column) {
    const bool text = feature.GetFieldDefnRef(column)->GetType() == OFTString;
    return text && feature.IsFieldSetAndNotNull(column) ? feature.GetFieldAsString(column)
                                                        : nullptr;
}

// No shape, and blanks in all columns that are read: spreadsheets have such rows below the last.
bool is_empty(OGRFeature& feature) {
    if (feature.GetGeometryRef() != nullptr) {
        return false;
    }
    for (int column = 0; column < feature.GetFieldCount(); ++column) {
        const char* text = text_of(feature, column);
        if (text != nullptr ? !is_blank(std::string_view(text))
                            : feature.IsFieldSetAndNotNull(column) != 0) {
            return false;
        }
    }
    return true;
}

// What had to be done to the texts of a row before somebody may read them.
struct TextsMended {
    bool recoded = false, hidden = false, cut = false;
};

TextsMended mend_texts(OGRFeature& feature, const std::vector<bool>& read_here) {
    constexpr std::size_t most_letters = 500;
    TextsMended mended;
    for (int column = 0; column < feature.GetFieldCount(); ++column) {
        const char* raw =
            read_here[static_cast<std::size_t>(column)] ? text_of(feature, column) : nullptr;
        const std::string_view text = raw == nullptr ? "" : raw;
        if (is_plain_ascii(text) && text.size() <= most_letters) {
            continue;
        }
        mended.recoded = mended.recoded || !is_utf8(text);
        SeenLetters seen = seen_letters(as_utf8(text));
        mended.hidden = mended.hidden || seen.left_out;
        std::string whole = first_letters(seen.text, most_letters);
        mended.cut = mended.cut || whole != seen.text;
        feature.SetField(column, whole.c_str());
    }
    return mended;
}

// Rows of one kind, which one problem tells.
class RowsTold {
public:
    void add(std::uint32_t row) {
        first_ = count_ == 0 ? row : first_;
        ++count_;
    }
    std::size_t count() const { return count_; }
    void report(LayerLog& log, ProblemId id) const {
        if (count_ == 0) {
            return;
        }
        const std::string rows = count_ == 1
                                     ? row_name(first_)
                                     : fmt::format("{}, the first {}", count_, row_name(first_));
        log.problems.push_back({id, log.count.layer, log.count.file, {}, {}, rows});
    }

private:
    std::size_t count_ = 0;
    std::uint32_t first_ = 0;
};

// The row of a CSV file has more cells than the table has columns.
bool is_too_long(const LayerSource& source, const OGRFeature& feature, Record& record) {
    const CsvRow* row = source.csv ? source.csv->too_long_row(feature.GetFID()) : nullptr;
    if (row != nullptr) {
        record.report(ProblemId::row_too_long, {},
                      fmt::format("{} cells, {} columns", row->cells, source.csv->columns));
    }
    return row != nullptr;
}

// What is done to rows before they are records.
class RowsMadeReady {
public:
    explicit RowsMadeReady(const LayerSource& source)
        : read_here_(static_cast<std::size_t>(source.open.layer->GetLayerDefn()->GetFieldCount())) {
        mark(source.fields);
        mark(source.also);
    }

    // False: nothing to read there.
    bool ready(OGRFeature& feature, std::uint32_t row) {
        if (some_column_ && is_empty(feature)) {
            empty_.add(row);
            return false;
        }
        const TextsMended mended = mend_texts(feature, read_here_);
        for (const auto& [happened, told] : {std::pair{mended.recoded, &recoded_},
                                             {mended.hidden, &hidden_},
                                             {mended.cut, &cut_}}) {
            if (happened) {
                told->add(row);
            }
        }
        return true;
    }
    void report(LayerLog& log) const {
        log.empty = empty_.count();
        empty_.report(log, ProblemId::rows_empty);
        recoded_.report(log, ProblemId::text_not_utf8);
        hidden_.report(log, ProblemId::text_hidden_letters);
        cut_.report(log, ProblemId::text_too_long);
    }

private:
    void mark(const std::vector<BoundField>& columns) {
        for (const BoundField& bound : columns) {
            if (bound.index >= 0) {
                read_here_[static_cast<std::size_t>(bound.index)] = true;
                some_column_ = true;
            }
        }
    }

    std::vector<bool> read_here_;  // by column
    bool some_column_ = false;     // without one no row could be told from an empty one
    RowsTold empty_, recoded_, hidden_, cut_;
};

void check_read(const LayerSource& source, const LayerLog& log, const GdalMessages& messages,
                const Work& work) {
    if (messages.failed()) {
        fail_input(source.spec, fmt::format("reading failed after {} records; GDAL says: {}",
                                            log.count.read, messages.text()));
    }
    if (log.count.read == 0 && source.section->required && !work.stopped()) {
        fail_input(source.spec, "the layer holds no record; the analysis cannot do without");
    }
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
    RowsMadeReady rows(source);
    layer.ResetReading();
    for (std::uint32_t row = 0; !work.stopped(); ++row) {
        const OGRFeatureUniquePtr feature(layer.GetNextFeature());
        if (!feature) {
            break;
        }
        if (!rows.ready(*feature, row)) {
            continue;
        }
        Record record(source, *feature, row);
        const Taken taken = is_too_long(source, *feature, record) ? Taken::no : read(record);
        count(log, record, taken);
        if (log.count.read % records_per_step == 0) {
            work.step(stage, log.count.read, total);
        }
    }
    rows.report(log);
    check_read(source, log, messages, work);
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
