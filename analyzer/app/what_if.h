// A district worked out up to its supply, as `run` does it, and kept, so that it can be asked what
// further sources would change. The answer is that of a run with those sources among the others.
#pragma once

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

    // With these sources behind those of the district: the parcels whose answer may change, by row,
    // those whose flow and state stay left out. The round trips are searched anew, and only parcels
    // are assessed whose lists of fill sites changed; nothing else can change an answer. Not for
    // two threads at once. Stopped early: not complete.
    std::vector<planning::Change> with(std::span<const WaterSource> more, const Work& work);

private:
    struct State;
    explicit WhatIf(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

}  // namespace farwater::app
