// A small district in a folder of its own, whose inputs a test replaces or spoils one by one.
#pragma once

#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "analyzer/district/problem.h"
#include "io/error.h"
#include "io/read_district.h"
#include "tests/support/temporary_folder.h"

namespace farwater::io {

// Tables with their shapes as text. Coordinates are metres of EPSG:32618 near 700 km east, 4770 km
// north: three parcels of 100 m in a row, a road along their southern side.
class ReadScene {
public:
    ReadScene() {
        table("parcels",
              "parcel_id,WKT\n"
              "A,\"POLYGON ((700000 4770000,700100 4770000,700100 4770100,700000 4770100,700000 "
              "4770000))\"\n"
              "B,\"POLYGON ((700100 4770000,700200 4770000,700200 4770100,700100 4770100,700100 "
              "4770000))\"\n"
              "C,\"POLYGON ((700200 4770000,700300 4770000,700300 4770100,700200 4770100,700200 "
              "4770000))\"\n");
        table("roads",
              "class,name,WKT\nstate,Mill Road,\"LINESTRING (700000 4769990,700300 4769990)\"\n");
        table("stations", "station_id,WKT\nS1,POINT (700010 4769995)\nS2,POINT (700290 4769995)\n");
        table("apparatus",
              "unit_id,station_id,kind,tank_gal\nE1,S1,engine,1000\nT1,S1,tanker,2000\nT2,S2,"
              "tanker,3000\n");
        for (const char* with_shapes : {"parcels", "roads", "stations"}) {
            section(with_shapes, "crs = \"EPSG:32618\"");
        }
    }

    // Section and file of that name, with the text as a CSV file. Shapes stand in a column WKT.
    ReadScene& table(const std::string& name, const std::string& text) {
        file(name + ".csv", text);
        files_[name] = name + ".csv";
        return *this;
    }
    ReadScene& layer(const std::string& name, const std::string& text) {
        return table(name, text).section(name, "crs = \"EPSG:32618\"");
    }
    ReadScene& file(const std::string& name, const std::string& text) {
        support::put(*folder_ / name, text);
        return *this;
    }
    // The section reads this file (as written in TOML) and says this besides.
    ReadScene& source(const std::string& name, const std::string& file,
                      const std::string& more = "") {
        files_[name] = file;
        return section(name, more);
    }
    ReadScene& section(const std::string& name, const std::string& more) {
        more_[name] = more;
        return *this;
    }
    ReadScene& top(const std::string& lines) {
        top_ = lines;
        return *this;
    }
    ReadScene& end(const std::string& lines) {
        end_ = lines;
        return *this;
    }

    DistrictFile district_file() const {
        std::string text = "name = \"Scene\"\n" + top_ + "\n";
        for (const auto& [name, file] : files_) {
            text += "[" + name + "]\nfile = \"" + file + "\"\n";
            text += more_.contains(name) ? more_.at(name) + "\n" : "";
        }
        return parse_district_file(text + end_, *folder_ / "district.toml");
    }

    ReadResult read(const Work& work = {}) const { return read_district(district_file(), work); }

    // The problems as a person reads them.
    std::vector<std::string> sentences() const {
        std::vector<std::string> list;
        for (const Problem& problem : read().district.problems) {
            if (problem.id != ProblemId::no_building_data) {
                list.push_back(sentence(problem));
            }
        }
        return list;
    }

    // Why the district cannot be read, with the scene's folder as FOLDER.
    std::string refusal() const {
        try {
            read();
        } catch (const InputError& error) {
            return without_folder(error.what());
        }
        return "not refused";
    }

    std::filesystem::path operator/(const std::string& name) const { return *folder_ / name; }

private:
    std::string without_folder(std::string text) const {
        const std::string folder = folder_->path().string();
        for (std::size_t at = text.find(folder); at != std::string::npos; at = text.find(folder)) {
            text.replace(at, folder.size(), "FOLDER");
        }
        return text;
    }

    std::shared_ptr<support::TemporaryFolder> folder_ =
        std::make_shared<support::TemporaryFolder>();
    std::map<std::string, std::string> files_;
    std::map<std::string, std::string> more_;
    std::string top_;
    std::string end_;
};

// The count of a layer, "read = used + repaired + set aside".
inline std::string count_of(const ReadResult& read, const std::string& layer) {
    for (const RecordCount& count : read.district.records) {
        if (count.layer == layer) {
            return std::to_string(count.read) + " = " + std::to_string(count.used) + " + " +
                   std::to_string(count.repaired) + " + " + std::to_string(count.set_aside);
        }
    }
    return "no such layer";
}

using Sentences = std::vector<std::string>;

}  // namespace farwater::io
