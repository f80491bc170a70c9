// What the tests on open data share: a copy of a district folder beside its data, runs of the real
// program, and looks into the GeoPackages that it wrote.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include <sqlite3.h>

#include "tests/support/temporary_folder.h"

namespace farwater::open_data {

// The folder of a data set below FARWATER_OPEN_DATA; none, said in the sentence by which ctest
// knows a skipped test, where it is not there.
inline std::optional<std::filesystem::path> folder_of(const std::string& set) {
    const char* root = std::getenv("FARWATER_OPEN_DATA");
    if (root != nullptr && std::filesystem::is_directory(std::filesystem::path(root) / set)) {
        return std::filesystem::canonical(root);
    }
    std::cout << "SKIPPED: FARWATER_OPEN_DATA is not set";
    if (root != nullptr) {
        std::cout << " to a folder that holds " << set;
    }
    std::cout << '\n';
    return std::nullopt;
}

// tests/open_data/SET copied to a folder of its own, with `data` beside the district file.
class DistrictCopy {
public:
    DistrictCopy(const std::string& set, const std::filesystem::path& data) {
        std::filesystem::copy(std::filesystem::path("tests/open_data") / set, folder_.path());
        std::filesystem::create_directory_symlink(data, folder_ / "data");
    }

    std::filesystem::path district_file() const { return folder_ / "district.toml"; }
    std::filesystem::path out(const std::string& name) const { return folder_ / ("out_" + name); }

    // In one of its files, `from` (which must be there) becomes `to`.
    void replace(const std::string& file, const std::string& from, const std::string& to) {
        std::string text = support::bytes_of(folder_ / file);
        const std::size_t at = text.find(from);
        if (at == std::string::npos) {
            throw std::runtime_error(file + " does not hold " + from);
        }
        support::put(folder_ / file, text.replace(at, from.size(), to));
    }

    // Takes a table and its sub-tables out of the district file.
    void remove_section(const std::string& name) {
        std::istringstream lines(support::bytes_of(district_file()));
        std::string kept;
        bool inside = false;
        for (std::string line; std::getline(lines, line);) {
            if (line.starts_with("[")) {
                inside = line.starts_with("[" + name + "]") || line.starts_with("[" + name + ".");
            }
            kept += inside ? "" : line + "\n";
        }
        support::put(district_file(), kept);
    }

    struct Ended {
        int status = -1;
        std::string said;  // to stdout, then to stderr
    };
    Ended run(const std::string& out_name, const std::string& options = "",
              const std::string& program_command = "run") const {
        const auto quoted = [](const std::filesystem::path& path) {
            return "'" + path.string() + "'";
        };
        const std::string command = quoted(FARWATER_PROGRAM) + " " + program_command + " " +
                                    quoted(district_file()) + " --out " + quoted(out(out_name)) +
                                    " " + options + " > " + quoted(folder_ / "said") + " 2> " +
                                    quoted(folder_ / "complained");
        const int status = std::system(command.c_str());
        return {status,
                support::bytes_of(folder_ / "said") + support::bytes_of(folder_ / "complained")};
    }

private:
    support::TemporaryFolder folder_;
};

// One open GeoPackage, to be asked in SQL.
class Package {
public:
    explicit Package(const std::filesystem::path& file) {
        sqlite3* opened = nullptr;
        const int result = sqlite3_open_v2(file.c_str(), &opened, SQLITE_OPEN_READONLY, nullptr);
        database_.reset(opened);
        if (result != SQLITE_OK) {
            throw std::runtime_error("cannot open " + file.string());
        }
    }

    // Rows of text; NULL is "-", blobs are hexadecimal.
    std::vector<std::vector<std::string>> rows(const std::string& sql) const {
        sqlite3_stmt* prepared = nullptr;
        if (sqlite3_prepare_v2(database_.get(), sql.c_str(), -1, &prepared, nullptr) != SQLITE_OK) {
            throw std::runtime_error(sql + ": " + sqlite3_errmsg(database_.get()));
        }
        const std::unique_ptr<sqlite3_stmt, int (*)(sqlite3_stmt*)> statement(prepared,
                                                                              sqlite3_finalize);
        std::vector<std::vector<std::string>> rows;
        while (sqlite3_step(prepared) == SQLITE_ROW) {
            std::vector<std::string>& row = rows.emplace_back();
            for (int i = 0; i < sqlite3_column_count(prepared); ++i) {
                row.push_back(cell(prepared, i));
            }
        }
        return rows;
    }

    // The one number that a query gives.
    long number(const std::string& sql) const { return std::stol(rows(sql).at(0).at(0)); }

private:
    static std::string cell(sqlite3_stmt* row, int column) {
        if (sqlite3_column_type(row, column) == SQLITE_NULL) {
            return "-";
        }
        const auto* bytes = static_cast<const unsigned char*>(sqlite3_column_blob(row, column));
        const auto size = static_cast<std::size_t>(sqlite3_column_bytes(row, column));
        if (sqlite3_column_type(row, column) != SQLITE_BLOB) {
            return {bytes, bytes + size};
        }
        std::string hex;
        for (std::size_t i = 0; i < size; ++i) {
            hex += "0123456789abcdef"[bytes[i] >> 4U];
            hex += "0123456789abcdef"[bytes[i] & 15U];
        }
        return hex;
    }

    std::unique_ptr<sqlite3, int (*)(sqlite3*)> database_{nullptr, sqlite3_close};
};

}  // namespace farwater::open_data
