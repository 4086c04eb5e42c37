// A command as it is typed, through the whole command-line host, and what came of it.
#pragma once

#include <sstream>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "cli/commands.h"
#include "embedded.h"

namespace wheyfield::testing {

struct Typed {
  int code = 0;
  std::string out;
  std::string err;
};

// `width`: columns of the terminal.
inline Typed typed(std::vector<std::string> given, const cli::Surroundings& surroundings,
                   std::size_t width = 80) {
  const auto words = words::Catalogue::parse(embedded::words_json("en"));
  const auto parsed = cli::parse_arguments(std::move(given), *words);
  if (const auto* end = std::get_if<cli::EndsHere>(&parsed)) return {end->exit, end->text, ""};
  std::istringstream in;
  std::ostringstream out, err;
  cli::Streams streams{in, out, err, false, width};
  cli::Host host(std::get<cli::Arguments>(parsed), *words, surroundings, streams);
  const int code = cli::run_command(host);
  return {code, out.str(), err.str()};
}

}  // namespace wheyfield::testing
