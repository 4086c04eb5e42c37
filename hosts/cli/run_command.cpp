#include <map>

#include "cli/commands.h"

namespace wheyfield::cli {

int run_command(Host& host) {
  static const std::map<std::string, int (*)(Host&)> commands{
      {"season plan", season_plan},
      {"season change", season_change},
      {"season check", season_check},
      {"season explain", season_explain},
      {"season new", season_new},
      {"season risk", season_risk},
      {"batch forecast", batch_forecast},
      {"batch keep", batch_keep},
      {"batch read", batch_read},
      {"batch show", batch_show},
      {"compost list", compost_list},
      {"compost log", compost_log},
      {"compost mix", compost_mix},
      {"compost turns", compost_turns},
      {"crop list", crop_list},
      {"crop onset", crop_onset},
      {"crop windows", crop_windows},
      {"dose mix", dose},
      {"dose sprayer", dose},
      {"dose bucket", dose},
      {"dose area", dose},
      {"dose soak", dose},
      {"dose harvest", dose},
      {"dose plot", dose},
      {"group meeting", group_meeting},
      {"group members", group_members},
      {"journal add", journal_add},
      {"journal answer", journal_answer},
      {"journal export", journal_export},
      {"journal forget", journal_forget},
      {"journal list", journal_list},
      {"journal lost", journal_lost},
      {"journal questions", journal_questions},
      {"journal send", journal_send},
      {"journal strike", journal_strike},
      {"journal take", journal_take},
      {"journal verify", journal_verify},
      {"nutrients balance", dose},
      {"programme plan", programme_plan},
      {"recipe list", recipe_list},
      {"recipe show", recipe_show},
      {"recipe scale", recipe_scale},
      {"recipe check", recipe_check},
      {"schema", schema},
      {"call", call_file}};
  return commands.at(host.arguments.command)(host);
}

}  // namespace wheyfield::cli
