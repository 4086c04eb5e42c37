// The commands, one function each: read, ask the core, show. They give the exit code.
#pragma once

#include "cli/host.h"

namespace wheyfield::cli {

int season_plan(Host& host);
int season_check(Host& host);
int season_new(Host& host);
int dose(Host& host);  // every verb of dose
int recipe_list(Host& host);
int recipe_show(Host& host);
int recipe_scale(Host& host);
int recipe_check(Host& host);
int schema(Host& host);
int call_file(Host& host);

// Runs the command that the arguments name.
int run_command(Host& host);

}  // namespace wheyfield::cli
