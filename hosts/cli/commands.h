// The commands, one function each: read, ask the core, show. They give the exit code.
#pragma once

#include "cli/host.h"

namespace wheyfield::cli {

int season_plan(Host& host);
int season_change(Host& host);
int season_check(Host& host);
int season_explain(Host& host);
int season_risk(Host& host);
int season_new(Host& host);
int batch_forecast(Host& host);
int batch_keep(Host& host);
int batch_read(Host& host);
int batch_show(Host& host);
int compost_list(Host& host);
int compost_log(Host& host);
int compost_mix(Host& host);
int compost_turns(Host& host);
int crop_list(Host& host);
int crop_onset(Host& host);
int crop_windows(Host& host);
int dose(Host& host);  // every verb of dose, and nutrients balance
int group_meeting(Host& host);
int group_members(Host& host);
int journal_add(Host& host);
int journal_answer(Host& host);
int journal_export(Host& host);
int journal_forget(Host& host);
int journal_list(Host& host);
int journal_lost(Host& host);
int journal_questions(Host& host);
int journal_send(Host& host);
int journal_strike(Host& host);
int journal_take(Host& host);
int journal_verify(Host& host);
int programme_plan(Host& host);
int recipe_list(Host& host);
int recipe_show(Host& host);
int recipe_scale(Host& host);
int recipe_check(Host& host);
int schema(Host& host);
int call_file(Host& host);

// Runs the command that the arguments name.
int run_command(Host& host);

}  // namespace wheyfield::cli
