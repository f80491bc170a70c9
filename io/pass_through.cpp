#include "io/pass_through.h"

#include <unordered_set>

namespace farwater::io {

namespace {

// Names of SQLite's columns are compared without regard to the case of ASCII letters.
std::string lower(std::string name) {
    for (char& letter : name) {
        letter = letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
    }
    return name;
}

class TakenNames {
public:
    explicit TakenNames(const std::vector<std::string>& names) {
        for (const std::string& name : names) {
            taken_.insert(lower(name));
        }
    }
    bool take(const std::string& name) { return taken_.insert(lower(name)).second; }

private:
    std::unordered_set<std::string> taken_;
};

}  // namespace

std::vector<std::string> carried_names(const std::vector<std::string>& input_columns,
                                       const std::vector<std::string>& taken) {
    TakenNames names(taken);
    std::vector<std::string> carried;
    carried.reserve(input_columns.size());
    for (const std::string& column : input_columns) {
        const std::string plain = column.empty() ? "column" : column;
        std::string name = plain;
        for (int attempt = 1; !names.take(name); ++attempt) {
            name = "in_" + plain + (attempt > 1 ? "_" + std::to_string(attempt) : "");
        }
        carried.push_back(name);
    }
    return carried;
}

}  // namespace farwater::io
