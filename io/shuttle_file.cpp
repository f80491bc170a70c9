#include "io/shuttle_file.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "analyzer/district/assumptions.h"
#include "io/near_word.h"
#include "io/settings/keys_page.h"
#include "io/settings/settings_text.h"
#include "io/settings/shuttle_keys.h"
#include "io/settings/toml_table.h"

namespace farwater::io {
namespace {

constexpr Duration shortest_round = minutes(1);

std::optional<Duration> time(const TableReader& reader, std::string_view key) {
    const std::optional<double> number = reader.number(key);
    return number ? std::optional(minutes(*number)) : std::nullopt;
}
std::optional<Flow> flow(const TableReader& reader, std::string_view key) {
    const std::optional<double> number = reader.number(key);
    return number ? std::optional(gpm(*number)) : std::nullopt;
}
std::optional<Volume> volume(const TableReader& reader, std::string_view key) {
    const std::optional<double> number = reader.number(key);
    return number ? std::optional(gallons(*number)) : std::nullopt;
}
std::optional<int> whole(const TableReader& reader, std::string_view key) {
    return reader.has(key) ? std::optional(reader.whole(key, 0)) : std::nullopt;
}

template <class Amount>
std::optional<Stated<Amount>> stated(const TableReader& reader, std::string_view key) {
    if (reader.unlimited(key)) {
        return Stated<Amount>{.unlimited = true, .most = {}};
    }
    const std::optional<double> number = reader.number(key);
    return number ? std::optional(Stated<Amount>{false, Amount::from_base(*number)}) : std::nullopt;
}

const TomlEntry* entry_of(const TomlTable& table, std::string_view key) {
    const auto found = std::ranges::find(table, key, &TomlEntry::key);
    return found == table.end() ? nullptr : &*found;
}

// Reads one file. Faults are collected; what is faulty stays at its beginning.
class Reading {
public:
    Reading(const TomlTable& top, Faults& faults) : top_(top), faults_(faults) {}

    ShuttleScenario scenario() {
        read_top();
        read_dump_site();
        each_of("fill_site", most_typed_fill_sites,
                [this](const TomlTable& table, TomlPlace place) { read_fill_site(table, place); });
        each_of("tanker", most_typed_tankers,
                [this](const TomlTable& table, TomlPlace place) { read_tanker(table, place); });
        return std::move(scenario_);
    }

private:
    TableReader reader(const TomlTable& table, TomlPlace place, std::string title,
                       std::span<const KeyRow> keys,
                       std::span<const std::string_view> elsewhere = {}) {
        return {table, place, std::move(title), keys, faults_, elsewhere, &right_table_of_scenario};
    }

    void read_top() {
        constexpr std::array<std::string_view, 3> tables{"dump_site", "fill_site", "tanker"};
        const TableReader top = reader(top_, {}, "the scenario", scenario_keys(), tables);
        scenario_.start = time(top, "start_min");
        scenario_.duration = time(top, "duration_min");
        scenario_.needed = flow(top, "needed_gpm");
        scenario_.initial_attack = flow(top, "initial_attack_gpm");
        scenario_.initial_attack_from = time(top, "initial_attack_from_min");
        if (top.has("initial_attack_from_min") && !top.has("initial_attack_gpm")) {
            faults_.add(top.place("initial_attack_from_min"),
                        "initial_attack_from_min without initial_attack_gpm: say how much is drawn "
                        "from then on");
        }
    }

    void read_dump_site() {
        const TomlEntry* entry = entry_of(top_, "dump_site");
        const auto* table = entry == nullptr ? nullptr : entry->node.as<TomlTable>();
        if (entry != nullptr && table == nullptr) {
            faults_.add(entry->node.place, "dump_site must be a table: [dump_site]");
            return;
        }
        const TomlTable none;
        const TableReader dump = reader(table == nullptr ? none : *table,
                                        entry == nullptr ? TomlPlace{} : entry->key_place,
                                        "[dump_site]", typed_dump_site_keys());
        scenario_.dump_site = {.offload_slots = whole(dump, "offload_slots"),
                               .storage = stated<Volume>(dump, "storage_gal"),
                               .portable_tanks = whole(dump, "portable_tanks"),
                               .jet_siphons = whole(dump, "jet_siphons"),
                               .siphon = flow(dump, "siphon_gpm"),
                               .engine_tank = volume(dump, "engine_tank_gal"),
                               .engine_arrives = time(dump, "engine_arrives_min"),
                               .tanks_ready = time(dump, "tanks_ready_min"),
                               .draft_ready = time(dump, "draft_ready_min"),
                               .nursing_tankers = whole(dump, "nursing_tankers"),
                               .nurse_hookup = time(dump, "nurse_hookup_min"),
                               .nurse_rate = flow(dump, "nurse_gpm"),
                               .flow_cap = stated<Flow>(dump, "flow_cap_gpm")};
        check_tank_line(dump);
        if (!scenario_.start && !scenario_.dump_site.engine_arrives &&
            entry_of(top_, "start_min") == nullptr && !mentions(table, "engine_arrives_min")) {
            faults_.add({},
                        "the scenario lacks a clock: give start_min, or engine_arrives_min in "
                        "[dump_site], or both");
        }
    }

    // Siphons and tanks in line say nothing without the gallons, nor siphons without the tanks.
    void check_tank_line(const TableReader& dump) {
        const TypedDumpSite& site = scenario_.dump_site;
        for (const std::string_view key : {"jet_siphons", "siphon_gpm"}) {
            if (dump.has(key) && !dump.has("portable_tanks")) {
                faults_.add(dump.place(key),
                            fmt::format("{} without portable_tanks: say how many tanks stand in "
                                        "line",
                                        key));
            }
        }
        if (site.portable_tanks && site.storage && site.storage->unlimited) {
            faults_.add(dump.place("portable_tanks"),
                        "portable_tanks with storage_gal = \"unlimited\": give the gallons that "
                        "they hold together");
        }
    }

    static bool mentions(const TomlTable* table, std::string_view key) {
        return table != nullptr && entry_of(*table, key) != nullptr;
    }

    template <class Read>
    void each_of(std::string_view name, std::size_t most, const Read& read) {
        const TomlEntry* entry = entry_of(top_, name);
        const auto* list = entry == nullptr ? nullptr : entry->node.as<TomlArray>();
        if (list == nullptr || list->empty()) {
            faults_.add(entry == nullptr ? TomlPlace{} : entry->key_place,
                        entry == nullptr || list != nullptr
                            ? fmt::format("the scenario has no {0}: begin one with [[{0}]]", name)
                            : fmt::format("{0} must be written [[{0}]], one for each", name));
            return;
        }
        if (list->size() > most) {
            faults_.add((*list)[most].place, fmt::format("there are {} [[{}]], more than the {} "
                                                         "that are allowed",
                                                         list->size(), name, most));
            return;
        }
        for (const TomlNode& node : *list) {
            if (const auto* table = node.as<TomlTable>()) {
                read(*table, node.place);
            } else {
                faults_.add(node.place, fmt::format("{0} must be tables: [[{0}]]", name));
            }
        }
    }

    // The id of a table; an id that is empty or already there is a fault.
    template <class Things>
    std::string id_of(const TableReader& table, std::string_view kind, const Things& others) {
        std::string id = table.text("id");
        if (!table.has("id")) {
            return id;
        }
        if (id.empty()) {
            faults_.add(table.place("id"), fmt::format("[[{}]] id must not be empty", kind));
        } else if (std::ranges::any_of(others, [&](const auto& other) { return other.id == id; })) {
            faults_.add(table.place("id"),
                        fmt::format("there are two [[{}]] with the id \"{}\"", kind, id));
        }
        return id;
    }

    void read_fill_site(const TomlTable& table, TomlPlace place) {
        const TableReader site = reader(table, place, "[[fill_site]]", typed_fill_site_keys());
        TypedFillSite read{.id = id_of(site, "fill_site", scenario_.fill_sites),
                           .places = whole(site, "places"),
                           .flows = whole(site, "flows"),
                           .pump = flow(site, "pump_gpm"),
                           .ready = time(site, "ready_min"),
                           .usable = stated<Volume>(site, "usable_gal"),
                           .inflow = flow(site, "inflow_gpm")};
        if (read.flows && *read.flows > read.places.value_or(1)) {
            faults_.add(site.place("flows"),
                        fmt::format("[[fill_site]] flows must be at most its places, {}, not {}",
                                    read.places.value_or(1), *read.flows));
            read.flows.reset();
        }
        scenario_.fill_sites.push_back(std::move(read));
    }

    void read_tanker(const TomlTable& table, TomlPlace place) {
        constexpr std::array<std::string_view, 1> below{"travel"};
        const TableReader tanker = reader(table, place, "[[tanker]]", typed_tanker_keys(), below);
        TypedTanker read{.id = id_of(tanker, "tanker", scenario_.tankers),
                         .tank = volume(tanker, "gal").value_or(Volume{}),
                         .delivered_fraction = tanker.number("delivered_fraction"),
                         .refill_fraction = tanker.number("refill_fraction"),
                         .fill_limit = flow(tanker, "fill_limit_gpm"),
                         .offload = flow(tanker, "offload_gpm"),
                         .fill_before = time(tanker, "fill_before_min"),
                         .fill_after = time(tanker, "fill_after_min"),
                         .offload_before = time(tanker, "offload_before_min"),
                         .offload_after = time(tanker, "offload_after_min"),
                         .arrives = time(tanker, "arrives_min").value_or(Duration{}),
                         .can_nurse = tanker.has("can_nurse")
                                          ? std::optional(tanker.yes_no("can_nurse"))
                                          : std::nullopt,
                         .nurse_rate = flow(tanker, "nurse_gpm"),
                         .fill_site = chosen_site(tanker),
                         .travel = travel_of(table, place)};
        check_fractions(read, tanker);
        check_travel(read, tanker);
        check_round_trips(read, tanker);
        check_sources(read, tanker);
        scenario_.tankers.push_back(std::move(read));
    }

    std::optional<std::size_t> site_named(std::string_view id) const {
        const auto found = std::ranges::find(scenario_.fill_sites, id, &TypedFillSite::id);
        return found == scenario_.fill_sites.end()
                   ? std::nullopt
                   : std::optional(static_cast<std::size_t>(found - scenario_.fill_sites.begin()));
    }

    std::string no_such_site(std::string_view id) const {
        std::vector<std::string_view> ids;
        for (const TypedFillSite& site : scenario_.fill_sites) {
            ids.push_back(site.id);
        }
        const std::string meant = did_you_mean(id, ids);
        return fmt::format("there is no fill site \"{}\"{}", id,
                           meant.empty() && !ids.empty() ? "; there is " + one_of(ids) : meant);
    }

    std::optional<std::size_t> chosen_site(const TableReader& tanker) {
        if (!tanker.has("fill_site")) {
            return std::nullopt;
        }
        const std::string id = tanker.text("fill_site");
        const std::optional<std::size_t> site = site_named(id);
        if (!site) {
            faults_.add(tanker.place("fill_site"),
                        fmt::format("[[tanker]] fill_site: {}", no_such_site(id)));
        }
        return site;
    }

    std::vector<TypedTravel> travel_of(const TomlTable& table, TomlPlace place) {
        std::vector<TypedTravel> list;
        const TomlEntry* entry = entry_of(table, "travel");
        const auto* tables = entry == nullptr ? nullptr : entry->node.as<TomlTable>();
        if (tables == nullptr || tables->empty()) {
            faults_.add(entry == nullptr ? place : entry->node.place,
                        "[[tanker]] lacks travel: give [tanker.travel.\"FILL SITE\"] with "
                        "empty_min and loaded_min");
            return list;
        }
        for (const TomlEntry& to : *tables) {
            const std::optional<std::size_t> site = site_named(to.key);
            const std::string title = fmt::format("[tanker.travel.\"{}\"]", to.key);
            const auto* times = to.node.as<TomlTable>();
            if (!site || times == nullptr) {
                faults_.add(to.key_place,
                            fmt::format("{}: {}", title,
                                        site ? "it must be a table" : no_such_site(to.key)));
                continue;
            }
            const TableReader leg = reader(*times, to.key_place, title, typed_travel_keys());
            list.push_back({*site, time(leg, "empty_min").value_or(Duration{}),
                            time(leg, "loaded_min").value_or(Duration{})});
        }
        return list;
    }

    void check_fractions(const TypedTanker& read, const TableReader& tanker) {
        const Assumptions usual;
        const double delivered = read.delivered_fraction.value_or(usual.delivered_fraction);
        const double refilled = read.refill_fraction.value_or(usual.refill_fraction);
        if (delivered > refilled) {
            faults_.add(
                tanker.place(read.delivered_fraction ? "delivered_fraction" : "refill_fraction"),
                fmt::format("[[tanker]] delivered_fraction {} is more than refill_fraction "
                            "{}: a tanker cannot deliver more than it takes",
                            delivered, refilled));
        }
    }

    // Driving and handling that take no time would let a tanker go round without end.
    void check_round_trips(const TypedTanker& read, const TableReader& tanker) {
        const Assumptions usual;
        const Duration handling = read.fill_before.value_or(usual.fill_before) +
                                  read.fill_after.value_or(usual.fill_after) +
                                  read.offload_before.value_or(usual.offload_before) +
                                  read.offload_after.value_or(usual.offload_after);
        for (const TypedTravel& leg : read.travel) {
            if (handling + leg.empty + leg.loaded < shortest_round) {
                faults_.add(tanker.place("id"),
                            fmt::format("[[tanker]] {}: driving to \"{}\" and back and handling "
                                        "take {:g} min; less than {:g} is no shuttle",
                                        read.id, scenario_.fill_sites[leg.fill_site].id,
                                        in_minutes(handling + leg.empty + leg.loaded),
                                        in_minutes(shortest_round)));
                return;
            }
        }
    }

    void check_travel(const TypedTanker& read, const TableReader& tanker) {
        if (!read.fill_site || read.travel.empty()) {
            return;
        }
        if (std::ranges::find(read.travel, *read.fill_site, &TypedTravel::fill_site) ==
            read.travel.end()) {
            faults_.add(tanker.place("fill_site"),
                        fmt::format("[[tanker]] fill_site \"{0}\" has no travel: give "
                                    "[tanker.travel.\"{0}\"] with empty_min and loaded_min",
                                    tanker.text("fill_site")));
        }
    }

    // A load that no source could ever fill is a slip of the pen, not a scenario.
    void check_sources(const TypedTanker& read, const TableReader& tanker) {
        const Volume load = read.tank * read.refill_fraction.value_or(1.0);
        for (const TypedTravel& leg : read.travel) {
            const TypedFillSite& site = scenario_.fill_sites[leg.fill_site];
            const bool asked = !read.fill_site || *read.fill_site == leg.fill_site;
            const bool finite = site.usable && !site.usable->unlimited;
            const bool refilled = site.inflow.value_or(Flow{}) > Flow{};
            if (asked && finite && !refilled && load > site.usable->most) {
                faults_.add(tanker.place("gal"),
                            fmt::format("[[tanker]] gal: one load takes {:g} gal, more than the "
                                        "{:g} gal that fill site \"{}\" holds, and nothing "
                                        "refills it",
                                        in_gallons(load), in_gallons(site.usable->most), site.id));
            }
        }
    }

    const TomlTable& top_;
    Faults& faults_;
    ShuttleScenario scenario_;
};

}  // namespace

ShuttleScenario read_shuttle_file(const std::filesystem::path& path) {
    return parse_shuttle_file(settings_text(path, "the scenario's TOML file"), path);
}

ShuttleScenario parse_shuttle_file(const std::string& text, const std::filesystem::path& path) {
    const TomlTable top = parse_toml(text, path.string());
    Faults faults(path.string());
    ShuttleScenario scenario = Reading(top, faults).scenario();
    faults.throw_if_any();
    return scenario;
}

std::string shuttle_file_reference() {
    return "# The scenario file of `farwater shuttle`\n\nMinutes count from the alarm. What is "
           "left out takes the default of its row, and the answer lists it as assumed; a limit "
           "that is lifted is written out: \"unlimited\".\n\n" +
           keys_page("At the top", scenario_keys(), "Before every table.") +
           keys_page("[dump_site]", typed_dump_site_keys(), "Where tankers offload.") +
           keys_page("[[fill_site]]", typed_fill_site_keys(), "One for each place to fill.") +
           keys_page("[[tanker]]", typed_tanker_keys(), "One for each tanker.") +
           keys_page("[tanker.travel.\"FILL SITE\"]", typed_travel_keys(),
                     "Below each tanker, one for each fill site that it may use.");
}

}  // namespace farwater::io
