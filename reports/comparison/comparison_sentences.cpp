#include <array>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "reports/cards/card_words.h"
#include "reports/comparison/comparison_words.h"
#include "reports/text/number_words.h"

namespace farwater::reports {
namespace {

using planning::AnswerChange;
using planning::AnswerChanges;
using planning::Cause;
using planning::Happened;

std::string of_parcels(std::size_t count) { return plural(count, "parcel"); }

std::string_view by_what(Cause cause) {
    return cause == Cause::not_told ? "what is not told"
           : cause == Cause::both   ? "both need and water"
                                    : cause_in_words(cause);
}

// "3 by the water, 1 by the need": of those that `is` says; empty where there are none.
template <class Is>
std::string by_cause(const AnswerChanges& changes, const Is& is) {
    std::array<std::size_t, 6> counts{};
    for (const AnswerChange& change : changes.changes) {
        counts[static_cast<std::size_t>(change.cause)] += is(change) ? 1U : 0U;
    }
    std::string text;
    for (const Cause cause :
         {Cause::water, Cause::need, Cause::both, Cause::data, Cause::not_told}) {
        if (const std::size_t count = counts[static_cast<std::size_t>(cause)]; count > 0) {
            text += fmt::format("{}{} by {}", text.empty() ? "" : ", ", count, by_what(cause));
        }
    }
    return text;
}

std::string places_sentence(const AnswerChanges& parcels) {
    std::string text = fmt::format(
        "{} stand in both results, {} in the later one only, {} in the "
        "earlier one only",
        of_parcels(parcels.compared()), parcels.count(Happened::came),
        parcels.count(Happened::gone));
    const std::size_t unsure = parcels.count(Happened::not_compared);
    return text + (unsure == 0 ? "."
                               : fmt::format("; {} with an id that is blank or stands "
                                             "twice {} not compared.",
                                             plural(unsure, "record"), unsure == 1 ? "is" : "are"));
}

std::string not_known_words(const planning::AnswerTotals& totals) {
    return totals.not_known == 0 ? "" : fmt::format(" ({} not known)", totals.not_known);
}

std::string met_sentence(const AnswerChanges& parcels) {
    return fmt::format("{} of {} improved parcels met their planned flow{}, {} of {} do now{}.",
                       parcels.before.met, parcels.before.improved, not_known_words(parcels.before),
                       parcels.after.met, parcels.after.improved, not_known_words(parcels.after));
}

std::string newly_sentence(const AnswerChanges& parcels) {
    const std::string newly =
        by_cause(parcels, [](const AnswerChange& change) { return change.newly_met; });
    const std::string no_longer =
        by_cause(parcels, [](const AnswerChange& change) { return change.no_longer_met; });
    return fmt::format("Of those in both, {} newly {} the planned flow{}; {} no longer {}{}.",
                       parcels.newly_met, parcels.newly_met == 1 ? "meets" : "meet",
                       newly.empty() ? "" : " (" + newly + ")", parcels.no_longer_met,
                       parcels.no_longer_met == 1 ? "does" : "do",
                       no_longer.empty() ? "" : " (" + no_longer + ")");
}

std::string states_sentence(const AnswerChanges& parcels) {
    std::string text = fmt::format(
        "{} in a better supply state, {} in a worse one. In the same state, more of the need is "
        "missing for {} and less for {}; {} have other numbers alone; {} unchanged.",
        parcels.count(Happened::better), parcels.count(Happened::worse),
        parcels.count(Happened::more_missing), parcels.count(Happened::less_missing),
        parcels.count(Happened::same_state), parcels.count(Happened::unchanged));
    const std::size_t came = parcels.count(Happened::building_came);
    const std::size_t gone = parcels.count(Happened::building_gone);
    if (came + gone > 0) {
        text += fmt::format(" Apart from these, {} came to have a building and {} lost theirs.",
                            came, gone);
    }
    return text;
}

std::string more_words(std::int64_t tenths) {
    return tenths == 0 ? "as much"
                       : fmt::format("{} {}", whole_gpm_words(tenths < 0 ? -tenths : tenths),
                                     tenths < 0 ? "less" : "more");
}

void add_part(std::string& text, std::int64_t twentieths, std::string_view what) {
    if (twentieths != 0) {
        text += fmt::format("{}{}{} {}", text.empty() ? "" : ", ", twentieths > 0 ? "+" : "",
                            whole_gpm_words(twentieths / 2), what);
    }
}

// Nothing is less because it is no longer known: such parcels stand in no difference.
std::string shortfall_sentence(const AnswerChanges& parcels) {
    if (!parcels.parts) {
        return "How much is missing of the needs cannot be compared: one of the results does not "
               "tell need and cautious flow.";
    }
    const planning::ShortfallParts& parts = *parcels.parts;
    std::string others;
    add_part(others, parts.came_and_gone, "by parcels that came or are gone");
    add_part(others, parts.buildings, "by buildings that came or are gone");
    std::string by;
    add_part(by, parts.water, "by the water");
    add_part(by, parts.need, "by the need");
    return fmt::format(
        "Missing of all needs together, as far as it is known: {} then{}, {} now{}. Of parcels "
        "that both results know: {}{}{}.",
        whole_gpm_words(*parcels.before.short_tenths), not_known_words(parcels.before),
        whole_gpm_words(*parcels.after.short_tenths), not_known_words(parcels.after),
        more_words((parts.water + parts.need) / 2), by.empty() ? "" : " (" + by + ")",
        others.empty() ? "" : "; besides, " + others);
}

std::string targets_sentence(const AnswerChanges& targets) {
    return fmt::format(
        "Of the targets {} changed, came or went: {} newly meet their planned flow, {} no longer "
        "do.",
        targets.changes.size(), targets.newly_met, targets.no_longer_met);
}

// "later_gpm, evidence": the columns that this result does not tell and the other does.
std::string untold_columns(const StoredAnswers& of, const StoredAnswers& other) {
    std::string names;
    const auto add = [&names](std::string_view name) {
        names += names.empty() ? "" : ", ";
        names += name;
    };
    for (std::size_t i = 0; i < answer_number_columns.size(); ++i) {
        if (!of.numbers_told[i] && other.numbers_told[i]) {
            add(answer_number_columns[i]);
        }
    }
    for (std::size_t i = 0; i < answer_text_columns.size(); ++i) {
        if (!of.texts_told[i] && other.texts_told[i]) {
            add(answer_text_columns[i]);
        }
    }
    return names;
}

void add_untold(std::vector<std::string>& first, std::string_view which, const StoredResult& of,
                const StoredResult& other) {
    if (const std::string columns = untold_columns(of.parcels, other.parcels); !columns.empty()) {
        first.push_back(fmt::format(
            "The {} result does not tell {} of its parcels: not known there, and not compared.",
            which, columns));
    }
    if (!of.targets.told && other.targets.told) {
        first.push_back(fmt::format(
            "The {} result has no layer of targets: each of the other's came or is gone.", which));
    }
}

void add_other_schema(std::vector<std::string>& first, std::string_view before,
                      std::string_view after) {
    const auto words = [](std::string_view version) {
        return version.empty() ? std::string("not told") : name_words(version);
    };
    if (before != after) {
        first.push_back(fmt::format(
            "ANOTHER FORM of the results, schema_version {} in the earlier and {} in the later "
            "one: a column of the same name may mean something else.",
            words(before), words(after)));
    }
}

void add_what_if(std::vector<std::string>& first, std::string_view which,
                 const StoredResult& result) {
    if (const std::string_view what_if = result.recorded("what_if"); !what_if.empty()) {
        first.push_back(fmt::format("The {} result: {}", which, name_words(what_if)));
    }
}

std::string twice_given(const AnswerChanges& changes, std::string_view what) {
    const std::size_t unsure = changes.count(Happened::not_compared);
    return unsure == 0 ? std::string()
                       : fmt::format(
                             "{} of {} {} an id that is blank or stands twice in a result: listed "
                             "and not compared, for nobody knows which is which.",
                             plural(unsure, "record"), what, unsure == 1 ? "has" : "have");
}

}  // namespace

std::vector<std::string> comparison_headline(const ComparedResults& results) {
    const planning::Comparison& found = results.comparison;
    if (found.nothing_changed()) {
        return {fmt::format(
            "Nothing changed: {} and {} have the same answers, and the results tell "
            "of the same inputs.",
            of_parcels(found.parcels.compared()), plural(found.targets.compared(), "target"))};
    }
    std::vector<std::string> sentences;
    if (found.no_answer_changed()) {
        sentences.push_back(fmt::format(
            "No answer changed: {} and {} are as they were. {}.",
            of_parcels(found.parcels.compared()), plural(found.targets.compared(), "target"),
            found.inputs.size() == 1 ? std::string("One thing that the answers rest on is another")
                                     : fmt::format("{} things that the answers rest on are others",
                                                   found.inputs.size())));
        return sentences;
    }
    sentences = {met_sentence(found.parcels), newly_sentence(found.parcels),
                 states_sentence(found.parcels), shortfall_sentence(found.parcels),
                 places_sentence(found.parcels)};
    if (!found.targets.changes.empty()) {
        sentences.push_back(targets_sentence(found.targets));
    }
    return sentences;
}

std::vector<std::string> comparison_cautions(const ComparedResults& results) {
    const StoredResult& before = results.before;
    const StoredResult& after = results.after;
    std::vector<std::string> first;
    if (before.recorded("program") != after.recorded("program")) {
        first.push_back(fmt::format(
            "ANOTHER PROGRAM VERSION made the earlier result ({}) than the later one ({}): some of "
            "the changes may come from the program itself.",
            name_words(before.recorded("program")), name_words(after.recorded("program"))));
    }
    add_other_schema(first, before.recorded("schema_version"), after.recorded("schema_version"));
    if (before.recorded("district") != after.recorded("district")) {
        first.push_back(fmt::format("The results are of districts with different names: {} and {}.",
                                    name_words(before.recorded("district")),
                                    name_words(after.recorded("district"))));
    }
    if (before.data_date && after.data_date && *before.data_date > *after.data_date) {
        first.push_back(
            "The earlier result has the later data date: are the two in the right order?");
    }
    add_what_if(first, "earlier", before);
    add_what_if(first, "later", after);
    if (before.recorded("need_method") != after.recorded("need_method")) {
        first.push_back(
            "The needs come from different methods: needed flows are others for that alone.");
    }
    add_untold(first, "earlier", before, after);
    add_untold(first, "later", after, before);
    for (std::string sentence : {twice_given(results.comparison.parcels, "the parcels"),
                                 twice_given(results.comparison.targets, "the targets")}) {
        if (!sentence.empty()) {
            first.push_back(std::move(sentence));
        }
    }
    return first;
}

}  // namespace farwater::reports
