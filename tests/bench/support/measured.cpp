#include "tests/bench/support/measured.h"

#include <fstream>
#include <string>

namespace farwater::bench {
namespace {

double status_mib(const std::string& key) {
    std::ifstream status("/proc/self/status");
    for (std::string word; status >> word;) {
        if (word == key) {
            double kib = 0.0;
            status >> kib;
            return kib / 1024.0;
        }
    }
    return 0.0;
}

}  // namespace

double resident_mib() { return status_mib("VmRSS:"); }
double peak_mib() { return status_mib("VmHWM:"); }
void forget_peak() { std::ofstream("/proc/self/clear_refs") << "5"; }

}  // namespace farwater::bench
