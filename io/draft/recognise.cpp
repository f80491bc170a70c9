#include "io/draft/recognise.h"

#include <algorithm>
#include <array>
#include <set>
#include <tuple>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "io/draft/find_join.h"
#include "io/draft/section_points.h"
#include "io/near_word.h"

namespace farwater::io {
namespace {

using namespace std::string_view_literals;

// No layer of a county is one of these.
constexpr std::array never_found{"what_if_sources"sv, "proposals"sv};

// Or are within a few miles of each other, as the road along the last lots is.
bool overlap(const std::optional<CrsExtent>& a, const std::optional<CrsExtent>& b) {
    constexpr double near = 0.05;  // degrees
    return !a || !b ||
           (a->west <= b->east + near && b->west <= a->east + near && a->south <= b->north + near &&
            b->south <= a->north + near);
}

// Square degrees that both have.
double common_ground(const CrsExtent& a, const CrsExtent& b) {
    return std::max(0.0, std::min(a.east, b.east) - std::max(a.west, b.west)) *
           std::max(0.0, std::min(a.north, b.north) - std::max(a.south, b.south));
}

std::string readable(std::string_view section) {
    std::string words(section);
    std::ranges::replace(words, '_', ' ');
    return words;
}

std::vector<std::string> lacks_of(const LayerLook& look, const SectionMatch& match) {
    std::vector<std::string> lacks;
    for (const FieldRow* field : match.lacks) {
        lacks.push_back(fmt::format(
            "a column for {}{}", field->name,
            field->words == nullptr ? ""
                                    : fmt::format(" ({} in each record)", one_of(field->words()))));
    }
    if (match.section->shape == ShapeNeed::none) {
        return lacks;
    }
    if (look.shape == LookShape::none && !has_degrees(match)) {
        lacks.emplace_back("the coordinate system of its columns of coordinates, as crs");
    } else if (look.shape != LookShape::none && !look.has_crs) {
        lacks.emplace_back("its coordinate system, as crs");
    }
    return lacks;
}

// What a nearly told layer might be, and what would tell it.
std::string nearly_told(const SectionMatch& nearest) {
    std::string text = "could be " + readable(nearest.section->name);
    if (nearest.lacks.empty()) {
        return text + ", but neither columns nor name tell it";
    }
    text += ", but lacks a column for ";
    for (std::size_t i = 0; i < nearest.lacks.size(); ++i) {
        text += i == 0 ? "" : " and ";
        text += nearest.lacks[i]->name;
    }
    return text;
}

std::string why_nothing(const LayerLook& look, const SectionMatch* nearest) {
    if (look.is_osm) {
        return "tags of none of our tables";
    }
    if (!look.lacks.empty()) {
        return look.lacks;
    }
    if (nearest != nullptr && nearest->no_roads) {
        return "lines that are no roads for apparatus";
    }
    if (look.shape == LookShape::point && hint_of(look.called, "parcels") > 0) {
        return "points, and parcels are areas; properties known as points only can be [targets], "
               "with an outline of the district and buildings = 0 in [parcels]";
    }
    const bool outline = look.shape == LookShape::area && look.records && *look.records <= 3;
    if (outline) {
        return "an outline or a few areas, not told to be anything";
    }
    return nearest == nullptr ? "neither columns, shapes nor name tell what it is"
                              : nearly_told(*nearest);
}

// Usable ones first, then those of which more is told, then the larger ones.
std::tuple<bool, int, double> rank_of(const Candidate& one) {
    return {!one.usable(), -one.points, -static_cast<double>(one.look->records.value_or(0))};
}

// Goes from looks to sections.
class Recognition {
public:
    Recognition(const std::vector<LayerLook>& layers, const std::vector<RasterLook>& rasters)
        : layers_(&layers), rasters_(&rasters) {}

    Recognised recognise() {
        for (const LayerLook& look : *layers_) {
            place(look);
        }
        for (auto& [section, list] : result_.sections) {
            std::ranges::stable_sort(list, better);
        }
        leave_out_elsewhere();
        find_tables_to_join();
        for (const auto& [look, why] : nothing_) {
            result_.left_out.push_back({look->printed, why});
        }
        for (const RasterLook& raster : *rasters_) {
            place(raster);
        }
        sort_rasters();
        return std::move(result_);
    }

private:
    static bool better(const Candidate& a, const Candidate& b) { return rank_of(a) < rank_of(b); }

    std::vector<Candidate> candidates_for(const LayerLook& look) const {
        std::vector<Candidate> list;
        for (const SectionRow& section : section_rows()) {
            if (std::ranges::find(never_found, section.name) != never_found.end()) {
                continue;
            }
            SectionMatch match = match_columns(look, section);
            if (!shape_fits(look, match)) {
                continue;
            }
            const int points = points_of(look, match);
            std::vector<std::string> lacks = lacks_of(look, match);
            list.push_back({&look, std::move(match), points, std::move(lacks)});
        }
        std::ranges::stable_sort(
            list, [](const Candidate& a, const Candidate& b) { return a.points > b.points; });
        return list;
    }

    void place(const LayerLook& look) {
        std::vector<Candidate> list = candidates_for(look);
        const bool told = !list.empty() && list.front().points >= enough_points;
        if (told && list.size() > 1 && list[1].points == list[0].points) {
            nothing_.emplace_back(
                &look, fmt::format("could be {} or {}; a clearer name of the file would tell",
                                   readable(list[0].match.section->name),
                                   readable(list[1].match.section->name)));
        } else if (told) {
            const std::string_view section = list.front().match.section->name;
            result_.sections[std::string(section)].push_back(std::move(list.front()));
        } else {
            const bool some = !list.empty() && list.front().points + 1 >= enough_points;
            const bool roads = !list.empty() && list.front().match.no_roads;
            nothing_.emplace_back(&look,
                                  why_nothing(look, some || roads ? &list.front().match : nullptr));
        }
    }

    std::optional<CrsExtent> ground() const {
        const Candidate* parcels = result_.best("parcels");
        return parcels == nullptr ? std::nullopt : parcels->look->degrees;
    }

    void leave_out_elsewhere() {
        const std::optional<CrsExtent> parcels = ground();
        for (auto& [section, list] : result_.sections) {
            std::erase_if(list, [&](const Candidate& one) {
                const bool elsewhere = !overlap(parcels, one.look->degrees);
                if (elsewhere) {
                    result_.left_out.push_back(
                        {one.look->printed, fmt::format("{}, but nowhere near the parcels",
                                                        readable(one.match.section->name))});
                }
                return elsewhere;
            });
        }
    }

    void find_tables_to_join() {
        const Candidate* parcels = result_.best("parcels");
        if (parcels == nullptr) {
            return;
        }
        std::erase_if(nothing_, [&](auto& pair) {
            std::optional<JoinCandidate> join = find_join(*pair.first, *parcels);
            if (!join) {
                return false;
            }
            if (join->columns.empty()) {
                pair.second = fmt::format(
                    "shares {} with the parcels, but none of its columns is known; see [join] in "
                    "farwater keys",
                    as_printed(join->key));
                return false;
            }
            result_.joins.push_back(std::move(*join));
            return true;
        });
        std::ranges::stable_sort(result_.joins, [](const auto& a, const auto& b) {
            return std::pair(!a.sure, -static_cast<int>(a.columns.size())) <
                   std::pair(!b.sure, -static_cast<int>(b.columns.size()));
        });
    }

    // Empty where it is the ground's height.
    std::string why_no_elevation(const RasterLook& look) const {
        // The height format of the shuttle mission, whose files are named by their corner.
        const bool heights_only = look.file.ends_with(".hgt") || look.file.ends_with(".HGT") ||
                                  look.file.ends_with(".hgt.zip");
        const int hint = heights_only ? 1 : hint_of(look.called, "elevation");
        if (look.is_picture || look.bands != 1) {
            return look.is_picture ? "a picture or a map of classes" : "a raster of several bands";
        }
        if (hint <= 0) {
            return hint < 0 ? "a raster of something else, by its name"
                            : "a raster that its name does not tell";
        }
        if (!look.has_crs) {
            return "elevation without a coordinate system";
        }
        return overlap(ground(), look.degrees) ? "" : "elevation, but nowhere near the parcels";
    }

    void place(const RasterLook& look) {
        const std::string why = why_no_elevation(look);
        if (why.empty()) {
            result_.elevation.push_back(&look);
        } else {
            result_.left_out.push_back({look.printed, why});
        }
    }

    // Those of which the unit is known first, then by the ground that they share with the parcels,
    // then the finer one.
    void sort_rasters() {
        const std::optional<CrsExtent> parcels = ground();
        const auto key = [&](const RasterLook* look) {
            const double common =
                parcels && look->degrees ? common_ground(*parcels, *look->degrees) : 0.0;
            return std::tuple(!look->has_unit, -common, look->cell_m);
        };
        std::ranges::stable_sort(result_.elevation, [&](const RasterLook* a, const RasterLook* b) {
            return key(a) < key(b);
        });
    }

    const std::vector<LayerLook>* layers_;
    const std::vector<RasterLook>* rasters_;
    std::vector<std::pair<const LayerLook*, std::string>> nothing_;
    Recognised result_;
};

}  // namespace

bool told_apart(const Candidate& taken, const Candidate& other) {
    return rank_of(taken) != rank_of(other);
}

std::string why_taken(const Candidate& taken, const Candidate& other) {
    if (taken.usable() != other.usable()) {
        return fmt::format("it lacks {}", fmt::join(other.lacks, ", "));
    }
    if (taken.points != other.points) {
        return "columns, sizes and name say less of it";
    }
    return told_apart(taken, other) ? "it has fewer records, and nothing else tells them apart"
                                    : "nothing tells them apart, so the first one is taken";
}

const Candidate* Recognised::best(std::string_view section) const {
    const auto found = sections.find(section);
    return found == sections.end() || found->second.empty() ? nullptr : &found->second.front();
}

Recognised recognise(const std::vector<LayerLook>& layers, const std::vector<RasterLook>& rasters) {
    return Recognition(layers, rasters).recognise();
}

}  // namespace farwater::io
