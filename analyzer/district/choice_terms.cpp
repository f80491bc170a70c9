#include "analyzer/district/choice_terms.h"

namespace farwater {
namespace {

void add_ids(std::vector<std::string>& ids, const std::vector<std::string>& more) {
    ids.insert(ids.end(), more.begin(), more.end());
}

}  // namespace

ChoiceTerms or_usual(ChoiceTerms asked, const ChoiceTerms& usual) {
    if (!asked.sites && !asked.budget) {
        asked.sites = usual.sites;
        asked.budget = usual.budget;
    }
    if (!asked.yearly_budget) {
        asked.yearly_budget = usual.yearly_budget;
    }
    if (!asked.weigh_by) {
        asked.weigh_by = usual.weigh_by;
    }
    add_ids(asked.planned, usual.planned);
    add_ids(asked.ruled_out, usual.ruled_out);
    return asked;
}

}  // namespace farwater
