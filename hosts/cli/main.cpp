// The program `wheyfield`: the command line around the core. See arguments.h for what can be asked.
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <ctime>
#include <iostream>

#include "calendar/date.h"
#include "cli/commands.h"
#include "cli/write_file.h"
#include "embedded.h"

namespace {

namespace cli = wheyfield::cli;
using wheyfield::words::Catalogue;

void on_interrupt(int) {
  cli::remove_unfinished_file();
  std::_Exit(cli::exit_codes::interrupted);
}

// Where this machine keeps the code of its device (XDG base directories).
std::string device_file() {
  const char* config = std::getenv("XDG_CONFIG_HOME");
  const char* home = std::getenv("HOME");
  if (config != nullptr && *config == '/') return std::string(config) + "/wheyfield/device";
  if (home != nullptr && *home == '/') return std::string(home) + "/.config/wheyfield/device";
  return "";
}

// Today by the machine's clock and zone. With --date a run must repeat anywhere: then neither is
// looked at, and the clock says noon of that day.
cli::Surroundings look_around(const std::string& date) {
  if (const auto day = wheyfield::calendar::parse_date(date))
    return {"", 0, day->days() * 86400LL + 43200, device_file()};
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  localtime_r(&now, &local);
  char text[16];
  std::strftime(text, sizeof text, "%Y-%m-%d", &local);
  return {text, static_cast<int>(local.tm_gmtoff / 60), now, device_file()};
}

std::size_t terminal_columns() {
  const char* columns = std::getenv("COLUMNS");
  const long wide = columns == nullptr ? 0 : std::strtol(columns, nullptr, 10);
  return isatty(STDOUT_FILENO) == 1 && wide >= 40 && wide <= 400 ? static_cast<std::size_t>(wide)
                                                                 : 80;
}

int say(const cli::EndsHere& end) {
  (end.exit == cli::exit_codes::fine ? std::cout : std::cerr) << end.text;
  return end.exit;
}

int run(const std::vector<std::string>& given) {
  const std::string language = cli::language_in(given);
  const std::string_view known = wheyfield::embedded::words_json(language);
  const auto words =
      Catalogue::parse(known.empty() ? wheyfield::embedded::words_json("en") : known);
  if (!words) return cli::exit_codes::unreadable;
  if (known.empty()) {
    std::cerr << words->text("cli.use.language-unknown", {{"language", language}}) << "\n";
    return cli::exit_codes::wrong_use;
  }
  const auto parsed = cli::parse_arguments(given, *words);
  if (const auto* end = std::get_if<cli::EndsHere>(&parsed)) return say(*end);
  const auto& arguments = std::get<cli::Arguments>(parsed);
  cli::Streams streams{std::cin, std::cout, std::cerr, isatty(STDIN_FILENO) == 1,
                       terminal_columns()};
  cli::Host host(arguments, *words, look_around(arguments.date), streams);
  const int code = cli::run_command(host);
  if (std::cout.flush()) return code;
  std::cerr << words->text("cli.output-broken") << "\n";
  return cli::exit_codes::unwritable;
}

}  // namespace

// Only exhausted memory or a fault of ours can throw here, and ending loudly is then right.
int main(int argc, char** argv) {  // NOLINT(bugprone-exception-escape)
  std::signal(SIGINT, on_interrupt);
  std::ios::sync_with_stdio(false);
  return run(std::vector<std::string>(argv + 1, argv + argc));
}
