#include <map>

#include "cli/commands.h"

namespace wheyfield::cli {

int run_command(Host& host) {
  static const std::map<std::string, int (*)(Host&)> commands{{"season plan", season_plan},
                                                              {"season check", season_check},
                                                              {"season new", season_new},
                                                              {"dose mix", dose},
                                                              {"dose sprayer", dose},
                                                              {"dose bucket", dose},
                                                              {"dose area", dose},
                                                              {"dose soak", dose},
                                                              {"dose harvest", dose},
                                                              {"dose plot", dose},
                                                              {"recipe list", recipe_list},
                                                              {"recipe show", recipe_show},
                                                              {"recipe scale", recipe_scale},
                                                              {"recipe check", recipe_check},
                                                              {"schema", schema},
                                                              {"call", call_file}};
  return commands.at(host.arguments.command)(host);
}

}  // namespace wheyfield::cli
