// The signs are common practice, no source.
#include "io/draft/overlooked.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "io/draft/known_columns.h"
#include "io/draft/name_words.h"
#include "io/draft/toml_lines.h"
#include "io/records/parse_cell.h"
#include "io/records/unit_words.h"

namespace farwater::io {
namespace {

// Words of names (io/draft/name_words.h), "one+way" where both must be there.
struct WarningSign {
    std::string_view section;
    std::string_view field;  // that it would be; empty: there is none
    std::string_view looks_like;
    std::string_view words;
    std::string_view not_with = {};
    bool also_beside = false;    // said too where another column is read for the field
    std::string_view hint = {};  // what else to write
};

constexpr std::array warning_signs{
    WarningSign{"roads", "weight_limit_lb", "a weight limit", "weight load gvw tonnage ton", "",
                true},
    WarningSign{"roads", "height_limit_ft", "a height limit",
                "clearance vertical overhead max+height height+limit", "", true},
    WarningSign{"roads", "one_way", "a one-way rule",
                "one+way oneway direction+traffic direction+travel direction+flow direction+code "
                "operational"},
    WarningSign{"roads", "maintained_months", "when the road is ploughed or closed",
                "winter season plow maintain snow month", "by city town authority agency level",
                false,
                " with the months in which each of its words leaves the road open in "
                "[roads.values.maintained_months]"},
    WarningSign{"roads", "access", "who may use the road",
                "access gate lock private restriction close barrier ownership jurisdiction owner "
                "status public",
                "edit name address"},
    WarningSign{"roads", "surface", "what the road is made of", "surface pave gravel unpaved",
                "width year date condition"},
    WarningSign{"roads", "width_ft", "a width", "width",
                "shoulder shldr median med row curb sidewalk path lane rt lt ul right left"},
    WarningSign{"roads", "bridge", "where a bridge is", "bridge", "name id number"},
    WarningSign{"roads", "level", "which of two roads that cross is above",
                "zlev zlevel zelev elev+from elev+to level+from level+to layer level", "service"},
    WarningSign{"roads", "rail_crossing", "where a railway crosses", "rail crossing"},
    WarningSign{"water_sources", "standing", "whether the source works or was tested",
                "status standing condition operational active service working oos", "area date"},
    WarningSign{"water_sources", "open_months", "when the source can be used",
                "month season winter frozen ice year+round", "", false,
                " with the months in which each of its words leaves it open in "
                "[water_sources.values.open_months]"},
    WarningSign{"water_sources", "reach", "what can get to the source",
                "access gate lock reach accessibility"},
    WarningSign{"water_sources", "system", "which sources share one water", "system utility"},
    WarningSign{"water_sources", "rate_gpm", "what the source gives", "rate flow gpm",
                "test residual static pitot color class date"},
    WarningSign{"apparatus", "min_crew", "how many people the unit waits for", "crew+minimum"},
    WarningSign{"apparatus", "loaded_lb", "what the unit weighs", "weight gvw gvwr", "empty"},
    WarningSign{"apparatus", "width_ft", "how wide the unit is", "width"},
    WarningSign{"apparatus", "height_ft", "how high the unit is", "height"},
    WarningSign{"apparatus", "", "whether the unit is in service",
                "status service reserve condition active oos"},
    WarningSign{"stations", "aid", "whose station it is", "aid mutual"},
    WarningSign{"stations", "", "whether the station is in use", "status close active"},
    WarningSign{"dump_site_places", "", "when the place can be used",
                "status season winter month access gate"},
    WarningSign{"parcels", "needed_gpm", "a needed flow", "nff flow+need fire+flow"},
    WarningSign{"parcels", "hazard_class", "an occupancy hazard", "hazard"},
};

// "one+way": both.
bool says(const NameWords& name, std::string_view sign) {
    while (!sign.empty()) {
        const std::size_t end = std::min(sign.find('+'), sign.size());
        if (!name.has(sign.substr(0, end))) {
            return false;
        }
        sign.remove_prefix(std::min(end + 1, sign.size()));
    }
    return true;
}

bool says_any(const NameWords& name, std::string_view signs) {
    return std::ranges::any_of(words_in(signs),
                               [&](std::string_view sign) { return says(name, sign); });
}

bool measures_weight(const NameWords& name) {
    return !name.unit.empty() && unit_factor(name.unit, "lb").has_value();
}

// One look at a layer's unread columns.
class OverlookedColumns {
public:
    OverlookedColumns(const LayerLook& look, const SectionMatch& match)
        : look_(&look), match_(&match) {}

    std::vector<std::string> sentences() const {
        std::vector<std::string> list;
        for (const ColumnLook& column : look_->columns) {
            const bool empty = column.filled == 0 && look_->sampled > 0;
            const WarningSign* sign = empty || is_read(column) ? nullptr : sign_of(column);
            if (sign != nullptr) {
                list.push_back(sentence(column, *sign));
            }
        }
        return list;
    }

private:
    // Rivals are told where the field is.
    bool is_read(const ColumnLook& column) const {
        return std::ranges::any_of(match_->sure, [&](const ColumnMatch& one) {
            return one.column == &column ||
                   std::ranges::find(one.rivals, column.name) != one.rivals.end();
        });
    }

    // A column that is empty as far as anybody looked says nothing, so it stands for no other.
    const ColumnMatch* read_for(std::string_view field) const {
        const ColumnMatch* match = find_match(match_->sure, field);
        const bool says_something =
            match != nullptr && (match->column->filled > 0 || look_->sampled == 0);
        return says_something ? match : nullptr;
    }

    const ColumnMatch* likely_of(const ColumnLook& column) const {
        const auto found = std::ranges::find(match_->likely, &column, &ColumnMatch::column);
        return found == match_->likely.end() ? nullptr : &*found;
    }

    bool fits(const WarningSign& sign, const NameWords& name, const ColumnMatch* likely) const {
        if (sign.section != match_->section->name ||
            (!sign.also_beside && read_for(sign.field) != nullptr)) {
            return false;
        }
        if (likely != nullptr) {
            return likely->field->name == sign.field;
        }
        const bool by_unit = sign.field == "weight_limit_lb" && measures_weight(name);
        return by_unit || (says_any(name, sign.words) && !says_any(name, sign.not_with));
    }

    const WarningSign* sign_of(const ColumnLook& column) const {
        const NameWords name = words_of_name(column.name);
        const ColumnMatch* likely = likely_of(column);
        const auto* found = std::ranges::find_if(
            warning_signs, [&](const WarningSign& sign) { return fits(sign, name, likely); });
        return found == warning_signs.end() ? nullptr : found;
    }

    std::string sentence(const ColumnLook& column, const WarningSign& sign) const {
        const std::string_view section = match_->section->name;
        const ColumnMatch* beside = read_for(sign.field);
        const std::string begin = fmt::format(
            "{}.{} looks like {}, but is not read{}; ", section, as_printed(column.name),
            sign.looks_like,
            beside == nullptr ? "" : ", only " + as_printed(beside->column->name) + " is");
        if (sign.field.empty()) {
            const std::string filter = fmt::format("\"{}\" = 'WORD'", column.name);
            return begin +
                   fmt::format("no field holds it, so keep the records that count by {} in [{}]",
                               toml_pair("where", filter), section);
        }
        if (likely_of(column) != nullptr) {
            return begin + fmt::format("if it is, take the # away from {} in [{}.columns]{}",
                                       sign.field, section, sign.hint);
        }
        const std::string_view unit = unit_of_name(sign.field);
        return begin + fmt::format("if it is, write {} in [{}.columns]{}{}",
                                   toml_pair(sign.field, column.name), section, sign.hint,
                                   unit.empty() ? "" : ", and its unit in units");
    }

    const LayerLook* look_;
    const SectionMatch* match_;
};

}  // namespace

std::vector<std::string> overlooked_columns(const LayerLook& look, const SectionMatch& match) {
    return OverlookedColumns(look, match).sentences();
}

}  // namespace farwater::io
