// A district worked out up to its supply, as `run` does it, and kept, so that it can be asked what
// further sources would change. The answer is that of a run with those sources among the others.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "analyzer/app/stages.h"
#include "analyzer/district/district.h"
#include "analyzer/district/need.h"
#include "analyzer/parallel/work.h"
#include "analyzer/planning/gains.h"
#include "analyzer/supply/water_review.h"
#include "routing/network.h"

namespace farwater::app {

class WhatIf {
public:
    // None when `work` was stopped.
    static std::optional<WhatIf> of(District district, std::vector<std::optional<Need>> needs,
                                    const Work& work, const StageBegins& begins);
    ~WhatIf();
    WhatIf(const WhatIf&) = delete;
    WhatIf& operator=(const WhatIf&) = delete;
    WhatIf(WhatIf&&) noexcept;
    WhatIf& operator=(WhatIf&&) noexcept;

    const District& district() const;
    const std::vector<Profile>& profiles() const;
    const routing::Network& network() const;
    const supply::WaterReview& water() const;
    const std::vector<supply::ParcelSupply>& answers() const;  // worst of each parcel, then target

    // The sources that may be asked about, each by its place in the list, in place of those offered
    // before.
    void offer(std::vector<WaterSource> sources);

    // The parcels that have another answer with that source, and some more: no others have.
    std::vector<std::uint32_t> may_change(std::uint32_t source) const;

    // With these of the offered sources behind those of the district: the parcels whose answer may
    // change, by row, those whose flow and state stay left out. Only the further sources' trips are
    // searched, and only parcels are assessed whose lists of fill sites changed; nothing else can
    // change an answer. All trips are searched anew where a source changes what others give (it has
    // a system) or where tankers turn. Not for two threads at once. Stopped early: not complete.
    std::vector<planning::Change> with(std::span<const std::uint32_t> sources, const Work& work);

    // With one of the offered sources, of the parcels that do not hold their need: what it gains
    // them. As with(), but the answer of each parcel's worst season and period is worked out anew
    // only until it stays the worst, for a further source takes no water away: a third of the work.
    std::vector<planning::Change> gains_of(std::uint32_t source, const Work& work);

    // As with(), all trips searched anew, whatever the sources are: the slow twin.
    std::vector<planning::Change> with_all_anew(std::span<const std::uint32_t> sources,
                                                const Work& work);

private:
    struct State;
    explicit WhatIf(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

}  // namespace farwater::app
