#include "tests/support/pocket_calculator.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <string>
#include <vector>

namespace farwater::support {
namespace {

bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }

class Reader {
public:
    explicit Reader(std::string_view text) : text_(text) {}

    std::optional<double> whole() {
        const double value = sum();
        skip();
        return wrong_ || !text_.empty() ? std::nullopt : std::optional(value);
    }

private:
    // Blanks, and words that are neither the sign x nor a function's name.
    void skip() {
        while (!text_.empty()) {
            if (text_.front() == ' ') {
                text_.remove_prefix(1);
            } else if (is_letter(text_.front()) && word() != "x" && !is_function(word())) {
                text_.remove_prefix(word().size());
            } else {
                return;
            }
        }
    }
    std::string_view word() const {
        return text_.substr(
            0, static_cast<std::size_t>(std::find_if_not(text_.begin(), text_.end(), is_letter) -
                                        text_.begin()));
    }
    static bool is_function(std::string_view name) {
        return name == "sqrt" || name == "least" || name == "most";
    }
    bool take(char sign) {
        skip();
        const bool there = !text_.empty() && text_.front() == sign;
        text_.remove_prefix(there ? 1 : 0);
        return there;
    }

    double sum() {
        double value = product();
        while (true) {
            if (take('+')) {
                value += product();
            } else if (take('-')) {
                value -= product();
            } else {
                return value;
            }
        }
    }
    double product() {
        double value = power();
        while (true) {
            if (take('x')) {
                value *= power();
            } else if (take('/')) {
                value /= power();
            } else {
                return value;
            }
        }
    }
    double power() {
        const double base = atom();
        return take('^') ? std::pow(base, atom()) : base;
    }
    double atom() {
        skip();
        if (take('-')) {
            return -atom();
        }
        if (take('(')) {
            const double value = sum();
            wrong_ = wrong_ || !take(')');
            return value;
        }
        if (!text_.empty() && is_letter(text_.front())) {
            return function();
        }
        double value = 0.0;
        const auto read = std::from_chars(text_.data(), text_.data() + text_.size(), value,
                                          std::chars_format::fixed);
        wrong_ = wrong_ || read.ec != std::errc{};
        text_.remove_prefix(static_cast<std::size_t>(read.ptr - text_.data()));
        return value;
    }
    double function() {
        const std::string name(word());
        text_.remove_prefix(name.size());
        wrong_ = wrong_ || !take('(');
        std::vector<double> of{sum()};
        while (take(',')) {
            of.push_back(sum());
        }
        wrong_ = wrong_ || !take(')') || (name == "sqrt" && of.size() != 1);
        return name == "sqrt"    ? std::sqrt(of.front())
               : name == "least" ? *std::min_element(of.begin(), of.end())
                                 : *std::max_element(of.begin(), of.end());
    }

    std::string_view text_;
    bool wrong_ = false;
};

}  // namespace

std::optional<double> worked_out(std::string_view sum) { return Reader(sum).whole(); }

}  // namespace farwater::support
