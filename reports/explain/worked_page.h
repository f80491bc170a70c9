// A calculation as it is written on paper: parts of lines, each with the sum that makes its number.
// One value, printed as text and as JSON, so that neither can say what the other does not.
#pragma once

#include <initializer_list>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "analyzer/district/units.h"

namespace farwater::reports {

// In `sum` stand numbers in the units beside them, + - * / ^ ( ), and the words sqrt, least and
// most (of several, by commas); other words are units and names.
struct WorkedLine {
    std::string what;
    std::string sum;              // empty: the number is given or was searched for
    std::optional<double> value;  // rounded as it is printed
    int decimals = 0;
    std::string unit;
    std::string words;  // instead of a number
    std::string note;
};

struct WorkedPart {
    std::string title;
    std::vector<WorkedLine> lines;
};

// How many decimals a number is printed with.
enum class Digits : int { none = 0, one = 1, two = 2, three = 3 };

class WorkedPage {
public:
    // Lines go into the part that was begun last.
    void part(std::string title);
    void number(std::string what, double value, Digits digits, std::string_view unit,
                std::string note = {});
    void sum(std::string what, std::string sum, double value, Digits digits, std::string_view unit,
             std::string note = {});
    void words(std::string what, std::string words, std::string note = {});
    // Keys of the assumptions that the lines rest on.
    void rests_on(std::initializer_list<std::string_view> keys);

    const std::vector<WorkedPart>& parts() const { return parts_; }
    const std::set<std::string, std::less<>>& assumptions() const { return assumptions_; }

private:
    std::vector<WorkedPart> parts_;
    std::set<std::string, std::less<>> assumptions_;
};

// A number as sums have it: at most so many decimals, none that say nothing.
std::string plain(double number, int decimals = 2);
std::string plain(Duration duration);  // minutes
std::string plain(Flow flow);
std::string plain(Volume volume);
std::string in_plain_feet(Length length);

std::string worked_text(const std::vector<WorkedPart>& parts);

}  // namespace farwater::reports
