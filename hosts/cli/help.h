// The help of a command: examples first, then its words and flags, then the exit codes.
#pragma once

#include <string>

#include <CLI/CLI.hpp>

#include "words/catalogue.h"

namespace wheyfield::cli {

// "season-plan" of `wheyfield season plan`; "root" of the program itself.
std::string path_key(const CLI::App& app);

class Help : public CLI::FormatterBase {
 public:
  explicit Help(const words::Catalogue& words) : words_(words) {}
  std::string make_help(const CLI::App* app, std::string name,
                        CLI::AppFormatMode mode) const override;

 private:
  std::string usage(const CLI::App& app) const;
  std::string commands(const CLI::App& app) const;
  std::string options(const CLI::App& app) const;

  const words::Catalogue& words_;
};

}  // namespace wheyfield::cli
