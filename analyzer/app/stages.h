// How the stages of the work are told as they begin.
#pragma once

#include <functional>
#include <string_view>

namespace farwater::app {

// Called when a stage begins.
using StageBegins = std::function<void(std::string_view stage)>;

}  // namespace farwater::app
