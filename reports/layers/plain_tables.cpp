#include <array>
#include <memory>
#include <utility>

#include "reports/layers.h"
#include "reports/layers/table_builder.h"

namespace farwater::reports {
namespace {

constexpr std::array sure_words{std::string_view("high"), std::string_view("medium"),
                                std::string_view("low")};

}  // namespace

io::FeatureTable assumptions(const Findings& findings) {
    const Assumptions& values = findings.district.assumptions;
    const auto row_of = [](std::size_t row) -> const AssumptionRow& {
        return assumption_rows()[row];
    };
    std::vector<ColumnOf> columns{
        text("key", "Key of the district file's [assumptions]; it ends in its unit.",
             [row_of](std::size_t row) { return io::Value{row_of(row).key}; }),
        text("topic", "Heading.",
             [row_of](std::size_t row) { return io::Value{row_of(row).group}; }),
        real(
            "value", "Value that the run used, in the key's unit; 1 and 0 for yes and no.",
            [row_of, &values](std::size_t row) {
                return io::Value{value_in_key_unit(values, row_of(row))};
            },
            3),
        yes_no("given", "Set in the district file; else the default.",
               [row_of, &values](std::size_t row) {
                   return io::Value{values.is_given(row_of(row).key)};
               }),
        real(
            "default_value", "Default, in the key's unit.",
            [row_of](std::size_t row) {
                return io::Value{value_in_key_unit(Assumptions{}, row_of(row))};
            },
            3),
        text("sure", "How far the default can be defended: high, medium, low.",
             [row_of](std::size_t row) {
                 return io::Value{sure_words[static_cast<std::size_t>(row_of(row).sure)]};
             }),
        text("what", "What it means.",
             [row_of](std::size_t row) { return io::Value{row_of(row).what}; }),
        text("source", "Where the default comes from.",
             [row_of](std::size_t row) { return io::Value{row_of(row).source}; }),
    };
    return table({"assumptions", "Every assumption of the analysis",
                  "Planning values, to be replaced by the district's own."},
                 std::move(columns), assumption_rows().size());
}

io::FeatureTable data_problems(const Findings& findings) {
    const auto problem = [findings](std::size_t row) -> const Problem& {
        return findings.problems[row];
    };
    std::vector<ColumnOf> columns{
        text("problem_id", "What kind of problem.",
             [problem](std::size_t row) { return io::Value{name_of(problem(row).id)}; }),
        text("severity",
             "note: a stated default was used; repaired; set_aside: not used; grave: a stage has "
             "no input.",
             [problem](std::size_t row) {
                 return io::Value{name_of(kind_of(problem(row).id).severity)};
             }),
        text("layer", "Section of the district file.",
             [problem](std::size_t row) { return value_of(problem(row).layer); }),
        text("file", "File as written there.",
             [problem](std::size_t row) { return value_of(problem(row).file); }),
        text("record", "Id, or row number; empty: the whole layer.",
             [problem](std::size_t row) { return value_of(problem(row).record); }),
        text("field", "Column; empty: the geometry or the whole record.",
             [problem](std::size_t row) { return value_of(problem(row).field); }),
        text("detail", "The value or measure.",
             [problem](std::size_t row) { return value_of(problem(row).detail); }),
        text("what", "What it means.",
             [problem](std::size_t row) { return io::Value{kind_of(problem(row).id).what}; }),
        text("mend", "How to mend it.",
             [problem](std::size_t row) { return io::Value{kind_of(problem(row).id).mend}; }),
    };
    return table({"data_problems", "What is wrong with the data",
                  "Nothing is dropped silently: see also input_records."},
                 std::move(columns), findings.problems.size());
}

io::FeatureTable input_records(const Findings& findings) {
    const auto& records = findings.district.records;
    const auto count = [&records](std::size_t RecordCount::* member) {
        return [&records, member](std::size_t row) { return value_of_count(records[row].*member); };
    };
    std::vector<ColumnOf> columns{
        text("layer", "Section of the district file.",
             [&records](std::size_t row) { return value_of(records[row].layer); }),
        text("file", "File as written there.",
             [&records](std::size_t row) { return value_of(records[row].file); }),
        integer("records_read", "Records in the input.", count(&RecordCount::read)),
        integer("used", "Used as they are.", count(&RecordCount::used)),
        integer("repaired", "Used after a repair.", count(&RecordCount::repaired)),
        integer("set_aside", "Not used; data_problems says why.", count(&RecordCount::set_aside)),
    };
    return table(
        {"input_records", "Records in and out", "Records read = used + repaired + set aside."},
        std::move(columns), records.size());
}

io::FeatureTable by_state(const Findings& findings) {
    const auto& variants = findings.assessment.variants;
    const District& district = findings.district;
    std::vector<ColumnOf> columns{
        text("season", "Season.",
             [&district, &variants](std::size_t row) {
                 return value_of(at(district.seasons, variants[row].variant.season).name);
             }),
        text("period", "Period.",
             [&district, &variants](std::size_t row) {
                 return value_of(at(district.periods, variants[row].variant.period).name);
             }),
    };
    for (std::size_t state = 0; state < words_of(SupplyState{}).size(); ++state) {
        columns.push_back(integer(std::string(words_of(SupplyState{})[state]),
                                  "Parcels in this state.", [&variants, state](std::size_t row) {
                                      return value_of_count(variants[row].parcels_by_state[state]);
                                  }));
    }
    return table({"by_state", "Parcels by state in each season and period",
                  "no_building stands in no percentage."},
                 std::move(columns), variants.size());
}

io::FeatureTable run_record_table(const RunRecord& record) {
    const auto rows = std::make_shared<const RunRecord>(record);
    std::vector<ColumnOf> columns{
        text("key", "What.", [rows](std::size_t row) { return value_of((*rows)[row].first); }),
        text("value", "Its value.",
             [rows](std::size_t row) { return value_of((*rows)[row].second); }),
    };
    return table({"run_record", "What this result rests on",
                  "Program, schema, district file and inputs. No clock, host or path: those are in "
                  "run.log."},
                 std::move(columns), rows->size());
}

}  // namespace farwater::reports
