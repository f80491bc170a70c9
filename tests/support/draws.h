// How many random cases a test draws. Sanitizers look for other faults than wrong answers and make
// everything some ten times slower: a fifth is enough for them.
#pragma once

namespace farwater::test {

constexpr int draws(int count) {
#ifdef FARWATER_SANITIZED
    return count / 5;
#else
    return count;
#endif
}

}  // namespace farwater::test
