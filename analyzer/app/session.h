// What every command that works on a district needs: the work it hands to the stages, the terminal
// and the log that follow them.
#pragma once

#include <string_view>

#include "analyzer/app/commands/options.h"
#include "analyzer/app/terminal.h"
#include "analyzer/parallel/work.h"
#include "io/interrupt.h"
#include "io/run_log.h"

namespace farwater::app {

class Session {
public:
    Session(const Options& options, io::Interrupt& interrupt);

    const Work& work() const { return work_; }
    io::RunLog& log() { return log_; }
    void stage(std::string_view name);  // ends the stage before it
    // To standard output; where quiet, a document that was asked for alone.
    void say(std::string_view text);
    void end();  // takes the progress line away

private:
    bool says_;
    Terminal terminal_;
    io::RunLog log_;
    Work work_;
};

}  // namespace farwater::app
