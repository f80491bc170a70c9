#include "analyzer/app/run_record.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "analyzer/app/version.h"
#include "io/fingerprint.h"
#include "io/versions.h"
#include "reports/cautions.h"
#include "reports/drive_words.h"
#include "reports/need_columns.h"
#include "routing/profiles.h"

namespace farwater::app {
namespace {

constexpr int result_schema_version = 1;

std::string one_line(std::string text) {
    std::replace(text.begin(), text.end(), '\n', ';');
    return text;
}

}  // namespace

std::string date_of_change(const District& district) { return date_of_change(district.data_date); }

std::string date_of_change(const std::optional<Date>& data_date) {
    return data_date
               ? fmt::format("{:04}-{:02}-{:02}T00:00:00.000Z", static_cast<int>(data_date->year()),
                             static_cast<unsigned>(data_date->month()),
                             static_cast<unsigned>(data_date->day()))
               : "2000-01-01T00:00:00.000Z";
}

reports::RunRecord input_record(const io::DistrictFile& file, const io::ReadResult& read) {
    reports::RunRecord record{
        {"schema_version", std::to_string(result_schema_version)},
        {"program", fmt::format("farwater {}", program_version)},
        {"libraries", one_line(io::library_versions())},
        {"district", file.name},
        {"district_file", file.path.filename().string()},
        {"district_file_sha256", io::sha256_of_text(io::printable_text(file))},
        {"district_file_text", io::printable_text(file)},
        {"crs", fmt::format("{} {}", read.crs.code, read.crs.name)},
        {"crs_chosen", read.crs.chosen},
        {"crs_worst_scale_error", fmt::format("{:.6f}", read.crs.worst_scale_error)},
    };
    for (const io::InputRecord& input : read.inputs) {
        record.emplace_back("input_" + input.section,
                            fmt::format("{} {} sha256 {} records {} {}", input.file, input.layer,
                                        input.sha256, input.features, input.note));
    }
    return record;
}

reports::RunRecord run_record(const io::DistrictFile& file, const io::ReadResult& read,
                              const reports::Findings& findings) {
    reports::RunRecord record = input_record(file, read);
    for (auto& line : reports::need_in_words(read.district)) {
        record.push_back(std::move(line));
    }
    if (!file.own_standard.empty()) {
        record.emplace_back("need_standard_sha256", io::sha256_of_file(file.own_standard));
    }
    if (read.district.rating) {
        const Standard& terms = read.district.rating->standard;
        record.emplace_back("rating_terms", fmt::format("{}; {}", terms.name, terms.edition));
    }
    if (!file.own_terms.empty()) {
        record.emplace_back("rating_own_terms_sha256", io::sha256_of_file(file.own_terms));
    }
    record.emplace_back("travel_time", std::string(word(read.district.travel_time)));
    record.emplace_back("suction_friction", std::string(word(read.district.suction_friction)));
    record.emplace_back("travel_time_in_words", reports::travel_time_sentence(read.district));
    for (const Profile& profile : findings.profiles) {
        record.emplace_back(
            "routing_profile",
            fmt::format("{}: {}; {}, {:.0f} mph, "
                        "{:.0f} lb/hp loaded, {:.0f} empty",
                        word(profile.kind), profile.name,
                        routing::weight_in_words(profile, read.district), in_mph(profile.top_speed),
                        in_pounds_per_horsepower(profile.loaded_per_power),
                        in_pounds_per_horsepower(profile.empty_per_power)));
    }
    if (std::string what_if = reports::what_if_sentence(findings.district); !what_if.empty()) {
        record.emplace_back("what_if", std::move(what_if));
    }
    for (const std::string_view what : reports::not_modelled(findings.district)) {
        record.emplace_back("not_modelled", std::string(what));
    }
    for (const std::string_view caution : reports::cautions) {
        record.emplace_back("caution", std::string(caution));
    }
    return record;
}

}  // namespace farwater::app
